"""The same reductions (Sun, lower limb) by vectorised skyfield and astropy: place, corrections, altitude, intercept."""
import json
import sys
import time
import warnings

warnings.simplefilter("ignore")
import numpy as np

job = json.load(sys.stdin)
a = {k: np.array(v) for k, v in job.items()}
R_EARTH, R_SUN, AU = 6378.137, 696000.0, 149597870.7
rad, deg = np.radians, np.degrees


def intercept(gha, dec, distance_km):
    """GHA and declination in degrees to observed less computed altitude in minutes of arc, as the almanac does it."""
    hs = a["readingDeg"] - a["indexErrorArcmin"] / 60
    ha = hs - 1.758 * np.sqrt(a["eyeHeightM"]) / 60
    # 1/60 degree; the almanac prints it as 0.0167
    r = 0.28 * a["pressureHpa"] / (a["temperatureC"] + 273) / 60 / np.tan(rad(ha + 7.32 / (ha + 4.32)))
    sd = deg(np.arcsin(R_SUN / distance_km))
    hp = deg(np.arcsin(R_EARTH / distance_km))
    ho = ha - r + sd
    ho = ho + hp * np.cos(rad(ho))
    lha, lat = rad(gha + a["lonDeg"]), rad(a["latDeg"])
    hc = np.arcsin(np.sin(rad(dec)) * np.sin(lat) + np.cos(rad(dec)) * np.cos(lat) * np.cos(lha))
    return (ho - deg(hc)) * 60


def with_skyfield():
    from skyfield.api import Loader
    from skyfield_data import get_skyfield_data_path

    load = Loader(get_skyfield_data_path(), verbose=False)
    eph, ts = load("de421.bsp"), load.timescale(builtin=True)

    def once():
        t = ts.tt_jd(a["ttJd"])
        t.delta_t = np.full(len(a["ttJd"]), job["deltaTSeconds"])
        ra, dec, distance = eph["earth"].at(t).observe(eph["sun"]).apparent().radec("date")
        return intercept((t.gast - ra.hours) * 15, dec.degrees, distance.km)

    return once


def with_astropy():
    from astropy.coordinates import TETE, get_sun
    from astropy.time import Time
    from astropy.utils import iers

    iers.conf.auto_download = False

    def once():
        t = Time(a["ttJd"], format="jd", scale="tt")
        t.delta_ut1_utc = 32.184 + 37 - job["deltaTSeconds"]
        sun = get_sun(t).transform_to(TETE(obstime=t))
        gha = t.sidereal_time("apparent", "greenwich").deg - sun.ra.deg
        return intercept(gha, sun.dec.deg, sun.distance.km)

    return once


results = []
for name, make in (("skyfield", with_skyfield), ("astropy", with_astropy)):
    once = make()
    best, out = 0, None
    for _ in range(3):
        start = time.perf_counter()
        out = once()
        best = max(best, len(out) / (time.perf_counter() - start))
    worst = float(np.max(np.abs((out - a["interceptArcmin"] + 10800) % 21600 - 10800)))
    results.append({"name": name, "perSecond": best, "worstArcmin": worst})
json.dump({"results": results}, sys.stdout)
