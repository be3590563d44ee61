"""Measures kernels through jupyter_client and prints each against ours; medians, milliseconds and MB."""

import json
import os
import queue
import statistics
import sys
import time

import psutil
from jupyter_client.kernelspec import KernelSpecManager
from jupyter_client.manager import KernelManager

AS_JSON = "--json" in sys.argv
OUT = sys.stderr if AS_JSON else sys.stdout
REPEATS = 15
# Starts of each kernel; jupyter_client tries a port that is not open yet again after 100 to 200 ms, so one start says little.
STARTS = 5
# A Node program that only answers kernel_info: what Node, its zeromq and jupyter_client take by themselves.
LEAST = "least-node"
KERNEL_INFO_S = 0.25
LOOP = 20_000_000
# A loop that takes longer is not run again: the ratio is clear by then, and five rounds would take minutes.
SLOW_MS = 5_000

TS_CELL = """const body{n} = 'Sun', reading{n} = {n} / 100;
const dip{n} = 1.76 * Math.sqrt(2.6 + {n});
function correct{n}(hs: number): number {{ return hs - dip{n} / 60 }}
const ho{n} = correct{n}(41.31);
ho{n}.toFixed(3)"""
OUR_CELL = """const hs{n} = angle('41°18.{n}′');
const eye{n} = metres(2.6);
const dip{n} = 1.76 * Math.sqrt({n} + 2.6);
const ho{n} = hs{n}.minus(angle('0°0{n}.0′'));
[eye{n}, ho{n}.degrees.toFixed(3), dip{n}]"""
PY_CELL = """body{n} = 'Sun'; reading{n} = {n} / 100
dip{n} = 1.76 * (2.6 + {n}) ** 0.5
def correct{n}(hs): return hs - dip{n} / 60
ho{n} = correct{n}(41.31)
round(ho{n}, 3)"""
# Both time themselves, so that neither compiling nor checking counts.
TS_LOOP = (
    "const t0 = performance.now(); let s = 0; for (let i = 0; i < %d; i++) s += i * 0.5;"
    " console.log(performance.now() - t0)" % LOOP
)
MODULE_LOOP = (
    "(() => { const t0 = performance.now(); let s = 0; for (let i = 0; i < %d; i++) s += i * 0.5;"
    " console.log(performance.now() - t0, s > 0 ? '' : s) })()" % LOOP
)


class Kernel:
    def __init__(self, name):
        start = time.perf_counter()
        self.manager = KernelManager(kernel_name=name)
        self.manager.start_kernel()
        self.client = self.manager.client()
        self.client.start_channels()
        self.client.kernel_info()
        self.client.get_shell_msg(timeout=60)
        self.answered = time.perf_counter() - start
        if name == LEAST:
            return
        # jupyter_client waits on until nothing has been published for 0.2 s: less than that no kernel can take.
        self.client.wait_for_ready(timeout=60)
        self.ready = time.perf_counter() - start
        self.run("1+1")
        self.first = time.perf_counter() - start

    def run(self, code, timeout=60):
        start = time.perf_counter()
        msg_id = self.client.execute(code)
        end = start + timeout
        while time.perf_counter() < end:
            try:
                msg = self.client.get_iopub_msg(timeout=1)
            except queue.Empty:
                continue
            if msg["msg_type"] == "stream":
                self.printed = msg["content"]["text"]
            state = msg["content"].get("execution_state")
            if msg["parent_header"].get("msg_id") == msg_id and state == "idle":
                return (time.perf_counter() - start) * 1000
        return float("nan")

    def median(self, cells):
        return statistics.median(self.run(code) for code in cells)

    def printed_time(self, code):
        times = []
        for _ in range(5):
            self.run(code)
            times.append(float(self.printed.split()[0]))
            if times[-1] > SLOW_MS:
                break
        return statistics.median(times)

    def rss(self):
        process = psutil.Process(self.manager.provisioner.pid)
        return sum(p.memory_info().rss for p in [process, *process.children(recursive=True)]) / 1e6

    def stop(self):
        self.client.stop_channels()
        self.manager.shutdown_kernel(now=True)


def measure(name):
    ours, python = name == "cocked-hat", name == "python3"
    starts = []
    for last in [False] * (STARTS - 1) + [True]:
        kernel = Kernel(name)
        starts.append(kernel)
        if not last:
            kernel.stop()
    found = {"kernel_info s": statistics.median(start.answered for start in starts)}
    if name == LEAST:
        kernel.stop()
        return found
    cell = PY_CELL if python else TS_CELL
    found |= {
        "ready for a client s": statistics.median(start.ready for start in starts),
        "first result s": statistics.median(start.first for start in starts),
        "1+1 ms": kernel.median(["1+1"] * REPEATS),
        "5-line cell ms": kernel.median(cell.format(n=n) for n in range(1, REPEATS + 1)),
    }
    if ours:
        kernel.run("import { angle, metres } from 'cocked-hat'")
        found["5-line library cell ms"] = kernel.median(OUR_CELL.format(n=n) for n in range(1, 10))
    if not python:
        loop = kernel.printed_time(TS_LOOP)
        found["hot loop / in a function"] = loop / kernel.printed_time(MODULE_LOOP)
    found["RSS MB"] = kernel.rss()
    kernel.stop()
    return found


def figures_of(results):
    """The table as figures: ours alone, then beside each peer that measured the same."""
    figures = []
    for key, value in results["cocked-hat"].items():
        name, unit = key.rsplit(" ", 1) if key.split()[-1] in ("s", "ms", "MB") else (key, ": 1")
        target = {"most": KERNEL_INFO_S} if key == "kernel_info s" else None
        figure = {"name": name, "value": float(f"{value:.4g}"), "unit": unit, "peer": None, "ratio": None,
                  "target": target, "load": round(os.getloadavg()[0], 1)}
        figures.append(figure)
        for peer, found in results.items():
            if peer != "cocked-hat" and key in found:
                about = {"kernel": peer, "theirs": float(f"{found[key]:.4g}")}
                beside = {"name": f"{name}, beside {peer}", "peer": peer, "ratio": float(f"{value / found[key]:.4g}")}
                figures.append({**figure, **beside, "about": about})
    return figures


def main():
    installed = KernelSpecManager().find_kernel_specs()
    names = [n for n in ("cocked-hat", "python3", "plain-tslab", "plain-deno", LEAST) if n in installed]
    results = {}
    for name in names:
        try:
            results[name] = measure(name)
        except Exception as error:  # a peer that does not start is left out, and said so
            if name == "cocked-hat":
                raise
            print(f"{name}: not measured ({error})", file=OUT)
    ours = results["cocked-hat"]
    print("| | " + " | ".join(results) + " |\n|---" * 1 + "|---" * len(results) + "|", file=OUT)
    for key in ours:
        row = []
        for values in results.values():
            value = values.get(key)
            ratio = "" if value is None or values is ours else f" (ours {ours[key] / value:.2f}×)"
            row.append("–" if value is None else f"{value:.2f}{ratio}")
        print(f"| {key} | " + " | ".join(row) + " |", file=OUT)
    if AS_JSON:
        print(json.dumps({"figures": figures_of(results)}))
    return 0


sys.exit(main())
