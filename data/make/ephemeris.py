"""Makes data/ephemeris-1950-2053.bin from JPL DE421: Chebyshev series with quantised coefficients.

Run from the project folder: .env/bin/python data/make/ephemeris.py  (about five minutes)
Sources: DE421 (Folkner, Williams & Boggs 2009, IPN Progress Report 42-178) as de421.bsp in PyPI skyfield-data, read with
PyPI jplephem; nutation IAU 2000A (IERS Conventions 2003) as computed by PyPI pyerfa.

What is stored (AU and ICRS axes unless said): Sun from the solar-system barycentre; Earth-Moon barycentre, Venus, Mars,
Jupiter, Saturn (the outer two: system barycentres) from the Sun; Moon from the Earth in km; the angles of nutation in
seconds of arc. The layout of the file is described in DEVELOPERS.md and read by src/core/sky/ephemeris-format.ts.
"""
import hashlib
import json
import struct
from importlib.metadata import version
from pathlib import Path

import erfa
import numpy as np
from jplephem.spk import SPK
from numpy.polynomial import chebyshev
from skyfield_data import get_skyfield_data_path

ROOT = Path(__file__).resolve().parents[2]
OUT = ROOT / "data/ephemeris-1950-2053.bin"
AU_KM = 149597870.7
EMRAT = 81.30056  # Earth/Moon mass ratio of DE421
FIRST_JD = 2433282.5 - 4  # 1950-01-01
LAST_JD = 2471184.5 - 3  # the file of DE421 ends on 2053-10-09

KERNEL = SPK.open(get_skyfield_data_path() + "/de421.bsp")


def segment(center, target, jd):
    return KERNEL[center, target].compute(2451545.0, jd - 2451545.0)


def from_sun(target):
    return lambda jd: (segment(0, target, jd) - segment(0, 10, jd)) / AU_KM


def nutation(jd):
    dpsi, deps = erfa.nut00a(2451545.0, jd - 2451545.0)
    return np.array([dpsi, deps]) * 180 / np.pi * 3600


# name, unit, components, function, greatest error allowed, granule lengths to try (days)
BODIES = [
    ("Sun", "AU", 3, lambda jd: segment(0, 10, jd) / AU_KM, 2e-9, [64, 128, 256]),
    ("EMB", "AU", 3, from_sun(3), 1.2e-8, [16, 24, 32, 48, 64]),
    ("Venus", "AU", 3, from_sun(2), 1.2e-8, [16, 24, 32, 48, 64]),
    ("Mars", "AU", 3, from_sun(4), 1.5e-8, [32, 48, 64, 96, 128]),
    ("Jupiter", "AU", 3, from_sun(5), 1.2e-7, [256, 384, 512, 768]),
    ("Saturn", "AU", 3, from_sun(6), 2.4e-7, [256, 512, 768, 1024]),
    ("Moon", "km", 3, lambda jd: segment(3, 301, jd) - segment(3, 399, jd), 0.03, [8, 10, 13.65625, 16, 20]),
    ("Nutation", "arcsec", 2, nutation, 1.5e-4, [8, 16, 24, 32]),
]


def nodes(count):
    return np.cos(np.pi * (np.arange(count) + 0.5) / count)


def fit(function, days, degree, components):
    """Coefficients [component, granule, order] by least squares at Chebyshev nodes."""
    granules = int(np.ceil((LAST_JD - FIRST_JD) / days))
    first = LAST_JD - granules * days
    x = nodes(degree + 9)
    jd = first + days * (np.arange(granules)[:, None] + (x[None] + 1) / 2)
    values = function(jd.ravel()).reshape(components, granules, -1)
    inverse = np.linalg.pinv(chebyshev.chebvander(x, degree))
    return np.einsum("km,dnm->dnk", inverse, values), first, granules


def error(function, coefficients, first, days):
    """Greatest length of the difference between the series and the function, on a grid off the nodes."""
    components, granules, terms = coefficients.shape
    x = np.linspace(-1, 1, 2 * terms + 5)
    jd = first + days * (np.arange(granules)[:, None] + (x[None] + 1) / 2)
    values = function(jd.ravel()).reshape(components, granules, -1)
    series = np.einsum("dnk,jk->dnj", coefficients, chebyshev.chebvander(x, terms - 1))
    return np.sqrt(((series - values) ** 2).sum(0)).max()


def widths(integers):
    """Bytes of each order, so that every coefficient of that order fits as a signed integer."""
    top = np.abs(integers).max(axis=(0, 1)).astype(float)
    return [max(1, int(np.ceil((np.log2(t + 1) + 1) / 8))) if t else 1 for t in top]


def best(name, components, function, tolerance, lengths):
    """The granule length, degree and quantum that take the fewest bytes within the tolerance."""
    found = None
    for days in lengths:
        for degree in range(4, 40):
            exact, first, granules = fit(function, days, degree, components)
            if error(function, exact, first, days) > tolerance * 0.6:
                continue
            quantum = tolerance * 0.3
            while True:
                integers = np.rint(exact / quantum).astype(np.int64)
                worst = error(function, integers * quantum, first, days)
                if worst <= tolerance:
                    break
                quantum *= 0.75
            wide = widths(integers)
            record = components * sum(wide)
            if found is None or record * granules < found["record"] * found["granules"]:
                found = dict(days=days, first=first, granules=granules, quantum=quantum, widths=wide,
                             record=record, integers=integers, worst=worst)
            break
    print(f"{name}: {found['days']} d, degree {len(found['widths']) - 1}, {found['granules']} granules, "
          f"{found['record']} B each, worst {found['worst']:.2e}", flush=True)
    return found


def pack(found):
    components, granules, _ = found["integers"].shape
    out = bytearray()
    for g in range(granules):
        for c in range(components):
            for k, width in enumerate(found["widths"]):
                out += int(found["integers"][c, g, k]).to_bytes(width, "little", signed=True)
    return bytes(out)


def main():
    header = {
        "title": "Sun, Moon and planets from JPL DE421; nutation IAU 2000A",
        "credit": "W. M. Folkner, J. G. Williams & D. H. Boggs 2009, The Planetary and Lunar Ephemeris DE 421 (JPL)",
        "source": "PyPI skyfield-data " + version("skyfield-data") + ", pyerfa " + version("pyerfa"),
        "script": "data/make/ephemeris.py",
        "auKm": AU_KM,
        "earthMoonMassRatio": EMRAT,
        "bodies": [],
    }
    parts, offset = [], 0
    for name, unit, components, function, tolerance, lengths in BODIES:
        found = best(name, components, function, tolerance, lengths)
        part = pack(found)
        header["bodies"].append(dict(
            name=name, unit=unit, components=components, firstJd=found["first"], granuleDays=found["days"],
            granules=found["granules"], quantum=found["quantum"], widths=found["widths"], offset=offset,
            worstError=float(f"{found['worst']:.2e}")))
        parts.append(part)
        offset += len(part)
    text = json.dumps(header, separators=(",", ":")).encode()
    text += b" " * (-(len(text) + 12) % 16)
    blob = b"CHEPHEM1" + struct.pack("<I", len(text)) + text + b"".join(parts)
    OUT.write_bytes(blob)
    print(len(blob), "bytes, SHA-256", hashlib.sha256(blob).hexdigest(), "(now run `npm run checksums`)")


main()
