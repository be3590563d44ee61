"""Apparent places a second by skyfield's vectorised call: GHA, declination and distance, the same epochs for every body."""
import json
import sys
import time
import warnings

warnings.simplefilter("ignore")
import numpy as np
from skyfield.api import Star, load, load_file
from skyfield_data import get_skyfield_data_path

job = json.load(sys.stdin)
kernel = load_file(get_skyfield_data_path() + "/de421.bsp")
names = {"Sun": "sun", "Moon": "moon", "Venus": "venus", "Mars": "mars", "Jupiter": "jupiter barycenter",
         "Saturn": "saturn barycenter"}
star = job["star"]
timescale = load.timescale(builtin=True)
epochs = np.array(job["ttJd"])
speeds = {}
for body in job["bodies"]:
    if body in names:
        target = kernel[names[body]]
    else:
        target = Star(ra_hours=star["raDeg"] / 15, dec_degrees=star["decDeg"], epoch=2448349.0625)
    best = 0
    for _ in range(job["repeats"]):
        t = timescale.tt_jd(epochs)  # made anew: skyfield keeps nutation and matrices in the time object
        start = time.perf_counter()
        ra, dec, distance = kernel["earth"].at(t).observe(target).apparent().radec("date")
        gha = (t.gast - ra.hours) * 15 % 360
        float(gha.sum() + dec.degrees.sum() + distance.au.sum())
        best = max(best, len(epochs) / (time.perf_counter() - start))
    speeds[body] = best
json.dump(speeds, sys.stdout)
