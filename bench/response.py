"""Audio response by Welch's method in scientific Python, a second implementation for src/readings/sound/response.crosscheck.test.ts. Prints JSON.

Noise of a congruential generator (the same numbers in both languages) through an invented audio chain: Butterworth band-pass, one pole at each end, 250 Hz and 2.5 kHz.
"""
import json

import numpy as np
import scipy
from scipy import signal

RATE, COUNT, LENGTH = 12_000, 240_000, 1024


def noise(count, seed=1):
    state, out = seed, np.empty(count)
    for i in range(count):
        state = (state * 1664525 + 1013904223) % 2**32
        out[i] = state / 2**31 - 1
    return out


b, a = signal.butter(1, [250, 2500], "bandpass", fs=RATE)
f, p = signal.welch(signal.lfilter(b, a, noise(COUNT)), RATE, "hann", nperseg=LENGTH, noverlap=LENGTH // 2, detrend="constant")
at = [12, 25, 50, 100, 200, 300, 400]
h = signal.freqz(b, a, worN=f[at], fs=RATE)[1]
db = lambda v: [round(float(x), 5) for x in 10 * np.log10(v / v[3])]
print(json.dumps({"scipy": scipy.__version__, "b": b.tolist(), "a": a.tolist(), "bins": at, "hz": f[at].tolist(), "welchDb": db(p[at]), "freqzDb": db(np.abs(h) ** 2)}))
