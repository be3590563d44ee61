"""Makes data/time-scales.json: leap seconds, TAI - UT1 from IERS data, and Delta T outside their span.

Run from the project folder: .env/bin/python data/make/time_scales.py
Sources: IERS finals2000A.all, in 1962-1972 EOP 20 C04, and Leap_Second.dat, all in PyPI astropy-iers-data; before 1962 and after
the last IERS prediction, the Delta T of PyPI skyfield (Morrison, Stephenson, Hohenkerk and Zawilski 2021 spline and its long-term parabola;
1900-1961 the historic values of USNO it carries).
"""
import json
import re
from importlib.metadata import version
from pathlib import Path

import erfa
import numpy as np
import skyfield
from astropy_iers_data import IERS_A_FILE, IERS_B_FILE, IERS_LEAP_SECOND_FILE
from skyfield.api import load

ROOT = Path(__file__).resolve().parents[2]
STEP_DAYS = 10
FIRST_MJD = 37665  # 1962-01-01, where C04 begins; finals2000A.all begins in 1973
FIRST_YEAR, LAST_YEAR = 1600, 2200


def leap_seconds():
    rows = []
    for line in Path(IERS_LEAP_SECOND_FILE).read_text().splitlines():
        m = re.match(r"\s*(\d+)\.0\s+\d+\s+\d+\s+\d+\s+(\d+)", line)
        if m:
            rows.append([int(m[1]), int(m[2])])
    expires = re.search(r"expires on\s+(.+)", Path(IERS_LEAP_SECOND_FILE).read_text())
    return rows, expires[1].strip() if expires else None


def finals():
    """MJD, UT1-UTC and its I (observed) or P (predicted) flag; the columns are those of the IERS readme.finals2000A."""
    mjd, dut1, flag = [], [], []
    for line in Path(IERS_A_FILE).read_text().splitlines():
        if line[58:68].strip():
            mjd.append(float(line[7:15]))
            dut1.append(float(line[58:68]))
            flag.append(line[57])
    early = [row for row in c04() if row[0] < mjd[0]]
    return np.array([m for m, _ in early] + mjd), np.array([d for _, d in early] + dut1), ["I"] * len(early) + flag


def tai_minus_utc(mjd):
    """Before 1972 UTC ran at another rate than TAI; ERFA knows the rule."""
    y, m, d, _ = erfa.jd2cal(2400000.5, mjd)
    return float(erfa.dat(y, m, d, 0.0))


def c04():
    rows = [line.split() for line in Path(IERS_B_FILE).read_text().splitlines() if not line.startswith("#")]
    return [(float(r[4]), float(r[7])) for r in rows if float(r[4]) >= FIRST_MJD]


def main():
    leaps, expires = leap_seconds()
    mjd, dut1, flag = finals()
    tai_utc = np.array([tai_minus_utc(day) for day in mjd])
    tai_ut1 = tai_utc - dut1
    knots = np.arange(FIRST_MJD, mjd[-1] + 1, STEP_DAYS)
    millis = np.rint(np.interp(knots, mjd, tai_ut1) * 1000).astype(int)
    inside = (mjd >= knots[0]) & (mjd <= knots[-1])
    error = np.abs(np.interp(mjd[inside], knots, millis / 1000) - tai_ut1[inside]).max()
    last_observed = int(mjd[flag.index("P")]) - 1
    timescale = load.timescale(builtin=True)
    years = list(range(FIRST_YEAR, LAST_YEAR + 1))
    half_years, observed = np.load(Path(skyfield.__file__).parent / "data/historic_deltat.npy")

    def delta_t_of(year):
        """USNO's half-yearly values for 1900-1961, which keep the decade swings that the spline smooths by 0.4 s."""
        t = timescale.ut1(year, 1, 1)
        return float(np.interp(t.ut1, half_years, observed) if 1900 <= year <= 1973 else t.delta_t)

    delta_t = [round(delta_t_of(y), 3) for y in years]
    doc = {
        "title": "Leap seconds, TAI - UT1 and Delta T",
        "source": "IERS finals2000A.all, EOP 20 C04 (1962-1972) and leap-second list, via PyPI astropy-iers-data "
        + version("astropy-iers-data"),
        "deltaTSource": "PyPI skyfield " + version("skyfield") + ": Morrison et al. 2021, in 1900-1961 USNO values",
        "script": "data/make/time_scales.py",
        "leapSecondListExpires": expires,
        "leapSeconds": leaps,
        "leapSecondsColumns": ["MJD from which it holds", "TAI - UTC, s"],
        "firstMjd": FIRST_MJD,
        "stepDays": STEP_DAYS,
        "lastObservedMjd": last_observed,
        "worstInterpolationErrorS": round(float(error), 4),
        "taiMinusUt1Ms": millis.tolist(),
        "deltaTFirstYear": FIRST_YEAR,
        "deltaTS": delta_t,
    }
    text = ",\n".join(f"{json.dumps(k)}: {json.dumps(v, separators=(',', ':'))}" for k, v in doc.items())
    (ROOT / "data/time-scales.json").write_text("{\n" + text + "\n}\n")
    print("last observed", last_observed, "last", knots[-1], "interpolation error", error, "expires", expires)


main()
