"""Geocentric apparent places by the SOFA routines of PyPI pyerfa: a reduction that shares no code with skyfield's.

Stars wholly by ERFA: `apci13`, `atciq` (Earth from `epv00`), hour angle from the Earth rotation angle and the CIO. Sun, Moon
and planets: geometric states from JPL DE421 (PyPI jplephem), then light time, `ld`, `ab`, `pnm06a`, `gst06a`.
In and out as skyfield_places.py, without phases and magnitudes.
"""
import json
import sys
import warnings
from importlib.metadata import version

warnings.simplefilter("ignore")
import erfa
import numpy as np
from jplephem.spk import SPK
from skyfield_data import get_skyfield_data_path

C = 299792.458 * 86400  # km a day
AU = 149597870.7
J2000 = 2451545.0
SPAN = SPK.open(get_skyfield_data_path() + "/de421.bsp")
job = json.load(sys.stdin)


def state(center, target, tt):
    return SPAN[center, target].compute_and_differentiate(J2000, tt - J2000)


def earth_state(tt):
    (p3, v3), (pe, ve) = state(0, 3, tt), state(3, 399, tt)
    return p3 + pe, v3 + ve


def target_position(name, tt):
    if name == "Moon":
        return state(0, 3, tt)[0] + state(3, 301, tt)[0]
    number = {"Sun": 10, "Venus": 2, "Mars": 4, "Jupiter": 5, "Saturn": 6}[name]
    return state(0, number, tt)[0]


def solar(name, tt, ut1):
    earth, velocity = earth_state(tt)
    light = 0.0
    for _ in range(6):
        position = target_position(name, tt - light) - earth
        light = np.linalg.norm(position) / C
    distance = np.linalg.norm(position)
    direction = position / distance
    sun_to_earth = earth - state(0, 10, tt)[0]
    em = np.linalg.norm(sun_to_earth) / AU
    if name not in ("Sun", "Moon"):
        from_sun = target_position(name, tt - light) - state(0, 10, tt - light)[0]
        direction = erfa.ld(1.0, direction, from_sun / np.linalg.norm(from_sun), sun_to_earth / em / AU, em,
                            1e-6 / max(em * em, 1))
    v = velocity / C
    direction = erfa.ab(direction, v, em, np.sqrt(1 - v @ v))
    x, y, z = erfa.pnm06a(J2000, tt - J2000) @ direction
    gast = erfa.gst06a(J2000, ut1 - J2000, J2000, tt - J2000)
    gha = np.degrees(gast - np.arctan2(y, x)) % 360
    return [float(gha), float(np.degrees(np.arctan2(z, np.hypot(x, y)))), float(distance)]


def star(s, tt, ut1, context):
    astrom, eo = context
    # The catalogue's epoch is J1991.25; ERFA wants J2000.0.
    ra, dec, pmr, pmd, px, rv = erfa.pmsafe(
        np.radians(s["raDeg"]), np.radians(s["decDeg"]),
        s["pmRaCosDecMasPerYr"] / 3.6e6 / np.cos(np.radians(s["decDeg"])) * np.pi / 180,
        s["pmDecMasPerYr"] / 3.6e6 * np.pi / 180, s["parallaxMas"] / 1000, s["radialVelocityKmS"],
        2448349.0625, 0.0, J2000, 0.0)
    ri, di = erfa.atciq(ra, dec, pmr, pmd, px, rv, astrom)
    gha = np.degrees(erfa.era00(J2000, ut1 - J2000) - ri) % 360
    return [float(gha), float(np.degrees(di)), None]


places = {name: [] for name in ["Sun", "Moon", "Venus", "Mars", "Jupiter", "Saturn"]}
places.update({s["name"]: [] for s in job["stars"]})
aries = []
for e in job["epochs"]:
    tt, ut1 = e["tt"], e["ut1"]
    aries.append(float(np.degrees(erfa.gst06a(J2000, ut1 - J2000, J2000, tt - J2000))))
    for name in ["Sun", "Moon", "Venus", "Mars", "Jupiter", "Saturn"]:
        places[name].append(solar(name, tt, ut1))
    context = erfa.apci13(J2000, tt - J2000)
    for s in job["stars"]:
        places[s["name"]].append(star(s, tt, ut1, context))
json.dump({"versions": "pyerfa " + version("pyerfa"), "aries": aries,
           "places": places}, sys.stdout)
