"""Least worst tracking, a search over converter crystals and a warm-up fit in scientific Python: timed for a ratio. Prints JSON."""
import json
import sys
import time

import numpy as np
import scipy
from scipy.optimize import fsolve, least_squares


def law(points, off):
    x = (F0 / points) ** 2
    y = (F0 / (points + IF + off)) ** 2
    a = np.linalg.solve(np.column_stack([y, -x, -np.ones(3)]), -y * x)
    return a


def error(c, f):
    x = (F0 / f) ** 2
    return F0 * np.sqrt((x + c[0]) / (c[1] * x + c[2])) - IF - f


LOW, HIGH, IF = 540e3, 1650e3, 455e3
F0 = np.sqrt(LOW * HIGH)
GRID = np.geomspace(LOW, HIGH, 2001)


def tracking():
    """Equal ripple: the three exact points for which the four peaks of the error are of one size."""

    def miss(part):
        p = LOW + part * (HIGH - LOW)
        e = error(law(p, np.zeros(3)), GRID)
        cut = np.searchsorted(GRID, p)
        peaks = np.array([np.abs(s).max() for s in np.split(e, cut)])
        return np.diff(peaks) / 1e3

    part = fsolve(miss, [0.05, 0.44, 0.92], xtol=1e-10)
    return float(np.abs(error(law(LOW + part * (HIGH - LOW), np.zeros(3)), GRID)).max())


def converter():
    """Responses up to order 15 of a thousand crystals below 28 to 28.5 MHz, all at once; how many reach the band."""
    low, high = 28e6, 28.5e6
    crystal = np.linspace(14.0e6, 23.2e6, 1000)
    n, m, way = np.array([(n, m, w) for n in range(1, 16) for m in range(0, 16 - n) for w in ((1,) if m == 0 else (1, -1)) if not (m <= 1 and n == 1)]).T
    d0, d1 = low - crystal, high - crystal
    ends = [(m * crystal[:, None] + way * d[:, None]) for d in (d0, d1)]
    lo = np.where(ends[0] * ends[1] < 0, 0, np.minimum(np.abs(ends[0]), np.abs(ends[1]))) / n
    hi = np.maximum(np.abs(ends[0]), np.abs(ends[1])) / n
    return int(((hi >= low) & (lo <= high)).sum())


def drift():
    t = np.arange(91) * 60.0
    y = -2100 + 1500 * np.exp(-t / 360) + 3200 * np.exp(-t / 2700) + 20 * np.sin(t * 0.37)

    def rest(p):
        a = np.column_stack([np.ones_like(t), np.exp(-t / np.exp(p[0])), np.exp(-t / np.exp(p[1]))])
        return y - a @ np.linalg.lstsq(a, y, rcond=None)[0]

    best = None
    for start in ([5.0, 7.0], [6.0, 8.0], [6.5, 7.5], [5.5, 8.5]):
        r = least_squares(rest, start)
        if best is None or r.cost < best.cost:
            best = r
    return float(np.exp(best.x.max()))


def best(run, times=5):
    ms = 1e9
    for _ in range(times):
        t = time.process_time()
        value = run()
        ms = min(ms, (time.process_time() - t) * 1e3)
    return ms, value


out = {"scipy": scipy.__version__}
for name, run in (("tracking", tracking), ("converter", converter), ("drift", drift)):
    out[name], out[f"{name}Value"] = best(run)
json.dump(out, sys.stdout)
