"""What the sky view shows, by PyPI skyfield, pyerfa and numpy: altitudes, azimuths, presets; the best set by trying all.

In: {"moments": [{"tt", "ut1", "lat", "lon"}], "stars": [catalogue rows], "limbs": {solar body: radius of its disc, km, or 0},
"eye_m", "index_arcmin", "temperature_c", "pressure_hpa", "count", "own", "shared", "lowest", "highest"}.
Out: {"versions", "moments": [{"bodies": {name: [altitude from the Earth's centre, azimuth, preset (the Moon's lit limb); degrees]},
"set": {"bodies", "radial", "major", "minor", "azimuth"}}]}; the set is taken from the bodies between lowest and highest.
"""
import itertools
import json
import math
import sys
import warnings
from importlib.metadata import version

warnings.simplefilter("ignore")
import erfa
import numpy as np
from skyfield.api import Star, load, load_file, wgs84
from skyfield_data import get_skyfield_data_path

job = json.load(sys.stdin)
kernel = load_file(get_skyfield_data_path() + "/de421.bsp")
ts = load.timescale(builtin=True)
keys = {"Jupiter": "jupiter barycenter", "Saturn": "saturn barycenter"}
a, b = erfa.refco(job["pressure_hpa"], job["temperature_c"], 0.0, 0.574)
dip = 0.0293 * math.sqrt(job["eye_m"])
targets = {name: kernel[keys.get(name, name.lower())] for name in job["limbs"]}
for s in job["stars"]:
    targets[s["name"]] = Star(ra_hours=s["raDeg"] / 15, dec_degrees=s["decDeg"], ra_mas_per_year=s["pmRaCosDecMasPerYr"],
                              dec_mas_per_year=s["pmDecMasPerYr"], parallax_mas=s["parallaxMas"],
                              radial_km_per_s=s["radialVelocityKmS"], epoch=2448349.0625)


def refracted(alt_deg):
    """Apparent altitude of a true one, degrees."""
    apparent = alt_deg
    for _ in range(50):
        tan = math.tan(math.radians(90 - apparent))
        apparent = alt_deg + math.degrees(a * tan + b * tan**3)
    return apparent


def lit_above(place, t, target):
    """Whether the upper limb is lit: the Sun's direction, taken square to the body's, leans toward the zenith."""
    def direction(body):
        alt, az, _ = place.at(t).observe(body).apparent().altaz()
        return np.array([math.cos(alt.radians) * math.cos(az.radians), math.cos(alt.radians) * math.sin(az.radians), math.sin(alt.radians)])
    body, sun, up = direction(target), direction(kernel["sun"]), np.array([0.0, 0.0, 1.0])
    square = lambda v: v - (v @ body) * body
    return square(sun) @ square(up) > 0


def best(bodies):
    """The set of least radial variance: covariance by numpy's inverse, axes by its eigenvectors."""
    names = [n for n, (alt, _, _) in bodies.items() if job["lowest"] <= alt <= job["highest"]]
    n = job["count"]
    noise = np.linalg.inv(job["own"] ** 2 * np.eye(n) + job["shared"] ** 2 * np.ones((n, n)))
    found = None
    for some in itertools.combinations(names, n):
        z = np.radians([bodies[name][1] for name in some])
        j = np.column_stack([np.cos(z), np.sin(z)])
        cov = np.linalg.inv(j.T @ noise @ j)
        if found is None or np.trace(cov) < np.trace(found[1]):
            found = (some, cov)
    some, cov = found
    values, vectors = np.linalg.eigh(cov)
    north, east = vectors[:, 1]
    return {"bodies": list(some), "radial": math.sqrt(np.trace(cov)), "major": math.sqrt(values[1]),
            "minor": math.sqrt(values[0]), "azimuth": math.degrees(math.atan2(east, north)) % 180}


answer = []
for m in job["moments"]:
    t = ts.tt_jd(m["tt"])
    t.__dict__["delta_t"] = (m["tt"] - m["ut1"]) * 86400.0
    place = kernel["earth"] + wgs84.latlon(m["lat"], m["lon"])
    p = math.radians(m["lat"])
    bodies = {}
    for name, target in targets.items():
        ra, dec, _ = kernel["earth"].at(t).observe(target).apparent().radec("date")
        lha, d = math.radians((t.gast - ra.hours) * 15 + m["lon"]), dec.radians
        altitude = math.asin(math.sin(d) * math.sin(p) + math.cos(d) * math.cos(p) * math.cos(lha))
        azimuth = math.atan2(-math.cos(d) * math.sin(lha), math.sin(d) * math.cos(p) - math.cos(d) * math.sin(p) * math.cos(lha))
        alt, _, distance = place.at(t).observe(target).apparent().altaz()
        disc = job["limbs"].get(name, 0)
        sd = math.degrees(math.asin(disc / distance.km)) if disc else 0.0
        side = 1 if disc and lit_above(place, t, target) else -1
        preset = refracted(alt.degrees + side * sd) + dip + job["index_arcmin"] / 60 if alt.degrees > 5 else None
        bodies[name] = [math.degrees(altitude), math.degrees(azimuth) % 360, preset]
    answer.append({"bodies": bodies, "set": best(bodies)})
versions = ", ".join(f"{n} {version(n)}" for n in ("skyfield", "skyfield-data", "pyerfa", "numpy"))
json.dump({"versions": versions, "moments": answer}, sys.stdout)
