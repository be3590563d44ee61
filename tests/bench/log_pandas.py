"""The same ingest in pandas: read the CSV, turn texts into numbers, check ranges and words. Prints JSON."""
import json
import resource
import sys
import time

import pandas as pd


def sexagesimal(text: pd.Series) -> pd.Series:
    parts = text.str.extract(r"^\s*(\d+)\s*°\s*(\d+(?:\.\d+)?)\s*′\s*([NSEW]?)\s*$")
    minutes = pd.to_numeric(parts[1])
    degrees = pd.to_numeric(parts[0]) + minutes.where(minutes < 60) / 60
    return degrees.where(~parts[2].isin(["S", "W"]), -degrees)


def index_error(text: pd.Series) -> pd.Series:
    parts = text.str.extract(r"^\s*(\d+(?:\.\d+)?)′\s*(on|off) the arc\s*$")
    size = pd.to_numeric(parts[0])
    return size.where(parts[1] == "on", -size)


started = time.perf_counter()
log = pd.read_csv(sys.argv[1], comment="#", dtype=str, keep_default_na=False)
log["utc"] = pd.to_datetime(log["UTC"], format="%Y-%m-%d %H:%M:%S", errors="coerce", utc=True)
for column in ("reading", "latitude", "longitude"):
    log[column + "_deg"] = sexagesimal(log[column])
log["index_error_arcmin"] = index_error(log["index error"])
log["course_deg"] = pd.to_numeric(log["course"].str.rstrip("°"), errors="coerce")
for column in ("height of eye (m)", "temperature (°C)", "pressure (hPa)", "speed (kn)", "sea"):
    log[column] = pd.to_numeric(log[column], errors="coerce")
checks = [
    log["utc"].notna(),
    log["reading_deg"].between(-5, 150),
    log["latitude_deg"].between(-90, 90),
    log["longitude_deg"].between(-180, 180),
    log["height of eye (m)"].between(0, 100),
    log["pressure (hPa)"].between(600, 1090),
    log["limb"].isin(["lower", "upper", "centre", ""]),
    log["horizon"].isin(["natural", "short", "artificial", "bubble", ""]),
    log["accepted"].isin(["yes", "no", ""]),
    ~log.duplicated(["utc", "body", "reading", "observer", "instrument"], keep=False),
]
sound = pd.concat(checks, axis=1).all(axis=1)
seconds = time.perf_counter() - started
json.dump(
    {
        "version": pd.__version__,
        "seconds": seconds,
        "peakMib": resource.getrusage(resource.RUSAGE_SELF).ru_maxrss / 1024,
        "rows": len(log),
        "sound": int(sound.sum()),
        "sumReading": float(log["reading_deg"].sum()),
    },
    sys.stdout,
)
