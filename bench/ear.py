"""Tone and hum lines of a recording in scientific Python: timed for a ratio, and a second implementation for the tests. Prints JSON.

lines FILE NOMINAL SECONDS: rms of each multiple of the mains, dB re full scale; the mains by a fit of sines, each multiple by least squares in stretches
hour FILE: strongest tone each second by a Hann-windowed transform, and hum lines by Welch's method, of a long recording in stretches
"""
import json
import sys
import time

import numpy as np
import scipy
from scipy import optimize, signal
from scipy.io import wavfile


def read(path):
    rate, x = wavfile.read(path)
    return rate, x.astype(float) / 32768


def lines(path, nominal, seconds):
    """Sines at all multiples at once, fitted by least squares to stretches with Hann's weight; the mains where they explain most."""
    rate, x = read(path)
    down = max(1, rate // 4000)
    if down > 1:
        x = signal.decimate(x, down, ftype="fir", n=40 * down, zero_phase=True)
    fs = rate / down
    n = int(seconds * fs)
    w = np.hanning(n)
    t = (np.arange(n) - n / 2) / fs
    orders = np.arange(1, int(min(780, 0.45 * fs) // nominal) + 1)

    def fit(f, y):
        a = np.hstack([np.cos(2 * np.pi * f * np.outer(t, orders)), np.sin(2 * np.pi * f * np.outer(t, orders)), np.ones((n, 1))])
        aw = a * w[:, None]
        c = np.linalg.solve(aw.T @ aw, aw.T @ (y * w))
        left = ((y - a @ c) * w) ** 2
        return left.sum(), (c[: len(orders)] ** 2 + c[len(orders) : 2 * len(orders)] ** 2) / 2

    powers, mains = [], []
    for at in range(0, len(x) - n + 1, n // 2):
        y = x[at : at + n]
        grid = np.linspace(0.995 * nominal, 1.005 * nominal, 21)
        best = grid[np.argmin([fit(f, y)[0] for f in grid])]
        step = grid[1] - grid[0]
        f = optimize.minimize_scalar(lambda f: fit(f, y)[0], bounds=(best - step, best + step), method="bounded", options={"xatol": 1e-6}).x
        mains.append(f)
        powers.append(fit(f, y)[1])
    return {"mains": float(np.mean(mains)), "db": [round(float(v), 3) for v in 10 * np.log10(np.mean(powers, axis=0))]}


def hour(path):
    start = time.process_time()
    rate, x = wavfile.read(path, mmap=True)
    each = rate * 60
    tone = []
    welch, count = 0, 0
    n = 2 ** int(np.ceil(np.log2(1.25 * rate)))
    for at in range(0, len(x) - each + 1, each):
        y = x[at : at + each].astype(float) / 32768
        z = signal.decimate(y, 4, ftype="fir")
        frames = np.lib.stride_tricks.sliding_window_view(z, n // 4)[:: rate // 4]
        s = np.abs(np.fft.rfft(frames * np.hanning(n // 4), axis=1))
        k = np.clip(np.argmax(s[:, 10:], axis=1) + 10, 1, s.shape[1] - 2)
        a, b, c = (np.log(s[np.arange(len(k)), k + d]) for d in (-1, 0, 1))
        tone += list((k + 0.5 * (a - c) / (a - 2 * b + c)) * rate / n)
        h = signal.decimate(z, 4, ftype="fir")
        f, p = signal.welch(h, rate / 16, "hann", nperseg=8192)
        welch = welch + p
        count += 1
    p = welch / count
    bin_hz = f[1]
    db = [round(float(10 * np.log10(p[np.abs(f - o * 60) <= 3.5 * bin_hz].sum() * bin_hz)), 3) for o in range(1, 13)]
    return {"seconds": time.process_time() - start, "meanHz": float(np.mean(tone)), "db": db}


what, path, *rest = sys.argv[1:]
out = lines(path, float(rest[0]), float(rest[1])) if what == "lines" else hour(path)
print(json.dumps({"scipy": scipy.__version__, **out}))
