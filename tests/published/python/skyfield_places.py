"""Geocentric apparent places, phases and magnitudes by PyPI skyfield with JPL DE421 of PyPI skyfield-data.

In: {"epochs": [{"tt": JD, "ut1": JD}, ...], "stars": [catalogue rows]}.
Out: {"versions": ..., "aries": [GHA deg], "places": {name: [[GHA deg, dec deg, distance km or null], ...]},
"phase": {name: [lit fraction]}, "magnitude": {name: [V]}}.
"""
import json
import sys
import warnings
from importlib.metadata import version

warnings.simplefilter("ignore")
import numpy as np
from skyfield.api import Star, load, load_file
from skyfield.magnitudelib import planetary_magnitude
from skyfield_data import get_skyfield_data_path

job = json.load(sys.stdin)
kernel = load_file(get_skyfield_data_path() + "/de421.bsp")
tt = np.array([e["tt"] for e in job["epochs"]])
ut1 = np.array([e["ut1"] for e in job["epochs"]])
t = load.timescale(builtin=True).tt_jd(tt)
t.__dict__["delta_t"] = (tt - ut1) * 86400.0  # the rotation of the Earth that was asked for, not skyfield's own
earth, sun = kernel["earth"].at(t), kernel["sun"]
targets = {"Sun": "sun", "Moon": "moon", "Venus": "venus", "Mars": "mars", "Jupiter": "jupiter barycenter",
           "Saturn": "saturn barycenter"}


def rows(apparent, solar):
    ra, dec, distance = apparent.radec("date")
    gha = ((t.gast - ra.hours) * 15) % 360
    return [[float(g), float(d), float(k) if solar else None] for g, d, k in zip(gha, dec.degrees, distance.km)]


places, phase, magnitude = {}, {}, {}
for name, key in targets.items():
    astrometric = earth.observe(kernel[key])
    apparent = astrometric.apparent()
    places[name] = rows(apparent, True)
    if name != "Sun":
        phase[name] = [float(v) for v in apparent.fraction_illuminated(sun)]
    if name not in ("Sun", "Moon"):
        magnitude[name] = [float(v) for v in planetary_magnitude(astrometric)]
for s in job["stars"]:
    star = Star(ra_hours=s["raDeg"] / 15, dec_degrees=s["decDeg"], ra_mas_per_year=s["pmRaCosDecMasPerYr"],
                dec_mas_per_year=s["pmDecMasPerYr"], parallax_mas=s["parallaxMas"],
                radial_km_per_s=s["radialVelocityKmS"], epoch=2448349.0625)
    places[s["name"]] = rows(earth.observe(star).apparent(), False)
json.dump({"versions": "skyfield " + version("skyfield") + ", skyfield-data " + version("skyfield-data"),
           "aries": [float(v) * 15 for v in t.gast], "places": places, "phase": phase, "magnitude": magnitude},
          sys.stdout)
