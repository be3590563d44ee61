"""UTC to TT and UT1 by PyPI pyerfa; UT1 - UTC interpolated in IERS finals2000A.all of PyPI astropy-iers-data (read here, no table of ours)."""
import json
import random
import sys
from importlib.metadata import version
from pathlib import Path

import erfa
import numpy as np
from astropy_iers_data import IERS_A_FILE

mjd, dut1 = [], []
for line in Path(IERS_A_FILE).read_text().splitlines():
    if line[58:68].strip():
        mjd.append(float(line[7:15]))
        dut1.append(float(line[58:68]))


def tai_utc(day):
    y, m, d, _ = erfa.jd2cal(2400000.5, day)
    return erfa.dat(y, m, d, 0.0)


# TAI - UT1 runs on without jumps.
tai_ut1 = np.array([float(tai_utc(m)) for m in mjd]) - np.array(dut1)
random.seed(4)
times = [(2400000.5 + random.randrange(41700, 61300), random.random()) for _ in range(400)]
rows = []


def add(text, y, mo, d, h, mi, s):
    u1, u2 = erfa.dtf2d("UTC", y, mo, d, h, mi, s)
    a1, a2 = erfa.utctai(u1, u2)
    t1, t2 = erfa.taitt(a1, a2)
    gap = float(np.interp(float(a1 - 2400000.5 + a2), mjd, tai_ut1))
    rows.append({"utc": text, "tt": [float(t1), float(t2)], "ut1": [float(a1), float(a2) - gap / 86400]})


for day, fraction in times:
    y, mo, d, _ = (int(v) if i < 3 else v for i, v in enumerate(erfa.jd2cal(day, 0.0)))
    s = int(fraction * 86400)
    text = f"{y:04d}-{mo:02d}-{d:02d} {s // 3600:02d}:{s // 60 % 60:02d}:{s % 60:02d}"
    add(text, y, mo, d, s // 3600, s // 60 % 60, float(s % 60))
for y, mo, d in [(1975, 12, 31), (1982, 6, 30), (1998, 12, 31), (2005, 12, 31), (2016, 12, 31)]:
    for s in (59.0, 60.0, 60.5):
        add(f"{y}-{mo:02d}-{d:02d} 23:59:{s:04.1f}", y, mo, d, 23, 59, s)
json.dump({"versions": "pyerfa " + version("pyerfa") + ", astropy-iers-data " + version("astropy-iers-data"),
           "rows": rows}, sys.stdout)
