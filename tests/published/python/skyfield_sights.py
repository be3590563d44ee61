"""Sextant readings worked forward from skyfield's topocentric places: limb, refraction by pyerfa refco, dip.

In: {"latitudes": [deg], "longitude": deg, "days": [UTC (y, m, d, h)], "sd_km": {body: km}, "temperature_c", "pressure_hpa",
"eye_m", "index_arcmin"}.
Out: [{"body", "limb" (-1, 0, 1), "horizon", "back", "lat", "utc", "reading_deg", "geocentric_alt_deg"}].
"""
import json
import math
import sys

import erfa
import numpy as np
from skyfield.api import load, load_file, wgs84
from skyfield_data import get_skyfield_data_path

job = json.load(sys.stdin)
kernel = load_file(get_skyfield_data_path() + "/de421.bsp")
ts = load.timescale(builtin=True)
bodies = {"Sun": "sun", "Moon": "moon", "Jupiter": "jupiter barycenter", "Saturn": "saturn barycenter"}
a, b = erfa.refco(job["pressure_hpa"], job["temperature_c"], 0.0, 0.574)
dip = 0.0293 * math.sqrt(job["eye_m"])


def refracted(alt_deg):
    """Apparent altitude of a true one, degrees."""
    apparent = alt_deg
    for _ in range(50):
        tan = math.tan(math.radians(90 - apparent))
        apparent = alt_deg + math.degrees(a * tan + b * tan**3)
    return apparent


answer = []
for lat in job["latitudes"]:
    for utc in job["days"]:
        t = ts.utc(*utc)
        place = kernel["earth"] + wgs84.latlon(lat, job["longitude"])
        for body, key in bodies.items():
            ra, dec, _ = kernel["earth"].at(t).observe(kernel[key]).apparent().radec("date")
            lha = math.radians((t.gast - ra.hours) * 15 + job["longitude"])
            d, p = dec.radians, math.radians(lat)
            geocentric = math.degrees(math.asin(math.sin(d) * math.sin(p) + math.cos(d) * math.cos(p) * math.cos(lha)))
            alt, _, distance = place.at(t).observe(kernel[key]).apparent().altaz()
            sd_km = job["sd_km"].get(body, 0)
            sd = math.degrees(math.asin(sd_km / distance.km))
            for limb in (-1, 1) if sd_km else (0,):
                if not 16 < alt.degrees < 74:
                    continue
                seen = refracted(alt.degrees + limb * sd)
                index = job["index_arcmin"] / 60
                readings = {"natural": seen + dip, "bubble": seen, "artificial": 2 * seen, "back": 180 - seen + dip}
                for horizon, reading in readings.items():
                    if reading > 149:  # more than an arc can show
                        continue
                    answer.append({"body": body, "limb": limb, "horizon": horizon, "lat": lat, "utc": t.utc_iso(),
                                   "reading_deg": float(reading + index), "geocentric_alt_deg": float(geocentric)})
json.dump(answer, sys.stdout)
