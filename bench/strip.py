"""The general strip in numpy, for bench/run.ts: closed form in one piece, closed form in cache-sized blocks, and batched linear solves."""
import json
import sys
import time

import numpy as np

raw = np.fromfile(sys.argv[1])
draws, points = int(raw[0]), int(raw[1])
d = raw[2 : 2 + 51 * draws].reshape(draws, 51)
hz = raw[2 + 51 * draws : 2 + 51 * draws + points]
w = 2 * np.pi * hz[None, :]


def closed(d):
    """The same algebra as the product: real squares of the cans, admittance of the accessory, four ladder sections as polynomials."""
    c = d[:, :, None]
    w2 = w * w
    t = d[:, 45:, None]
    g, b, y = t[:, 2] - t[:, 5] + t[:, 4], w * t[:, 3], w * t[:, 0] - t[:, 1] / w
    e = y + b
    s = b / (g * g + e * e)
    below, above = 1.0, 2.0
    for i in range(3):
        k = 12 * i
        re = c[:, k] + w2 * (c[:, k + 1] + w2 * c[:, k + 2])
        im = w * (c[:, k + 3] + w2 * c[:, k + 4])
        if i == 0:
            lre, lim, nre, nim = g * b * s, (g * g + y * e) * s, c[:, 6] + w2 * c[:, 7], w * (c[:, 8] + w2 * c[:, 9])
            re, im = re + lre * nre - lim * nim, im + lre * nim + lim * nre
        below = below * (re * re + im * im)
        above = above * (w * c[:, k + 5])
    f = d[:, 36:45, None]
    arm = f[:, 3] + 1j * (w * f[:, 2] - f[:, 1] / w)
    z = arm / (1 + 1j * w * f[:, 0] * arm)
    q = 1j * w * f[:, 4] + 1 / (f[:, 7] + 1j * (w * f[:, 6] - f[:, 5] / w))
    trace = 2 + z * q
    twice = trace * trace - 2
    v = twice * (twice + trace * (z / f[:, 8] + q * f[:, 8])) - 2
    return above * above / (below * (v.real * v.real + v.imag * v.imag))


def blocked(size):
    out = np.empty((draws, points))
    for i in range(0, draws, size):
        out[i : i + size] = closed(d[i : i + size])
    return out


def solves(n):
    """Each can as a 2 by 2 system and the ladder as a tridiagonal 5 by 5, for every draw and frequency, by np.linalg.solve."""
    e = d[:n, :, None]
    t = d[:n, 45:, None]
    y = (t[:, 2] - t[:, 5] + t[:, 4]) + 1j * (w * t[:, 0] - t[:, 1] / w)
    yc = 1j * w * t[:, 3]
    load = y * yc / (y + yc)
    power = 1.0
    for i in range(3):
        k = 12 * i
        den = (e[:, k] + w * w * (e[:, k + 1] + w * w * e[:, k + 2])) + 1j * (w * (e[:, k + 3] + w * w * e[:, k + 4]))
        zn = (e[:, 6] + w * w * e[:, 7]) + 1j * (w * (e[:, 8] + w * w * e[:, 9])) if i == 0 else np.zeros_like(den)
        a = np.zeros(den.shape + (2, 2), complex)
        a[..., 0, 0] = den
        a[..., 0, 1] = zn * (load if i == 0 else 1)
        a[..., 1, 0] = -1
        a[..., 1, 1] = 1
        b = np.zeros(den.shape + (2, 1), complex)
        b[..., 0, 0] = w * e[:, k + 5]
        x = np.linalg.solve(a, b)
        power = power * np.abs(x[..., 0, 0]) ** 2
    f = d[:n, 36:45, None]
    z = 1 / (1j * w * f[:, 0] + 1 / (f[:, 3] + 1j * (w * f[:, 2] - f[:, 1] / w)))
    p = 1j * w * f[:, 4] + 1 / (f[:, 7] + 1j * (w * f[:, 6] - f[:, 5] / w))
    g = np.zeros(z.shape + (5, 5), complex)
    yz, gs = 1 / z, 1 / f[:, 8]
    g[..., 0, 0] = gs + yz
    for s in range(1, 5):
        g[..., s, s] = yz + p + (yz if s < 4 else gs)
        g[..., s, s - 1] = g[..., s - 1, s] = -yz
    b = np.zeros(z.shape + (5, 1), complex)
    b[..., 0, 0] = gs
    return power * np.abs(2 * np.linalg.solve(g, b)[..., 4, 0]) ** 2


def best(run, times):
    out, ms = None, 1e9
    for _ in range(times):
        a = time.process_time()
        out = run()
        ms = min(ms, (time.process_time() - a) * 1e3)
    return out, ms


whole, whole_ms = best(lambda: closed(d), 5)
sizes = {s: best(lambda s=s: blocked(s), 5)[1] for s in (1, 2, 4, 8, 16, 32, 64)}
part = min(100, draws)
solved, solved_ms = best(lambda: solves(part), 2)
assert np.allclose(solved, whole[:part], rtol=1e-8), "the solves disagree with the closed form"
size = min(sizes, key=sizes.get)
print(json.dumps({"numpy": np.__version__, "whole": whole_ms, "blocked": sizes[size], "block": size, "solves": solved_ms * draws / part, "sum": float(np.log10(whole).sum())}))
