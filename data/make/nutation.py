"""Makes data/nutation.json: the 77 largest luni-solar terms of IAU 2000A, which with two fixed offsets are IAU 2000B.

Run from the project folder: .env/bin/python data/make/nutation.py
Source: IERS Conventions (2003), tables 5.3a and 5.3b, as carried in PyPI skyfield; IAU 2000B: McCarthy & Luzum 2003,
Celestial Mechanics and Dynamical Astronomy 85, 37.
"""
import json
from importlib.metadata import version
from pathlib import Path

from skyfield import nutationlib as n

TERMS = 77
rows = [
    [int(v) for v in (*n.nals_t[i], *n.lunisolar_longitude_coefficients[i], *n.lunisolar_obliquity_coefficients[i])]
    for i in range(TERMS)
]
doc = {
    "title": "Nutation IAU 2000B, luni-solar terms",
    "source": "IERS Conventions (2003) table 5.3, via PyPI skyfield " + version("skyfield"),
    "script": "data/make/nutation.py",
    "columns": "multiples of l, l', F, D, Om; longitude: sin, t sin, cos; obliquity: cos, t cos, sin; 0.1 microarcsecond",
}
text = ",\n".join(f"{json.dumps(k)}: {json.dumps(v)}" for k, v in doc.items())
body = ",\n".join(json.dumps(r, separators=(",", ":")) for r in rows)
path = Path(__file__).resolve().parents[2] / "data/nutation.json"
path.write_text("{\n" + text + ',\n"terms": [\n' + body + "\n]\n}\n")
