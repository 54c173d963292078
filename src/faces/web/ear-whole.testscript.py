"""Sounds of one invented receiver on the bench, by scientific Python: WAV files of 16 bits into the folder that is named; what is true of them as JSON."""
import json
import sys
from pathlib import Path

import numpy as np
from scipy import signal
from scipy.io import wavfile

RATE = 48_000


def write(folder, name, x, rate=RATE):
    wavfile.write(Path(folder) / name, rate, np.round(32767 * np.clip(x, -1, 1)).astype(np.int16))


def hiss(rng, n, rate=RATE):
    """A receiver's noise as its audio passes it: 300 Hz to 3 kHz."""
    sos = signal.butter(2, [300, 3000], "bandpass", fs=rate, output="sos")
    x = signal.sosfilt(sos, rng.standard_normal(n))
    return x / x.std()


def can(rng):
    """A generator's 1000 Hz through one can whose slug is turned through its peak, back, and left there: 30 s that begin and end alike."""
    t = np.arange(30 * RATE) / RATE
    # slug, in half widths off the peak: 5 s off, through it and past in 8 s, back in 4 s, left, and turned off it again
    turns = np.interp(t, [0, 5, 13, 17, 26, 30], [2.5, 2.5, -1.2, 0.05, 0.05, 2.5])
    level = 1 / np.hypot(1, turns)
    return 0.2 * level * np.sin(2 * np.pi * 1000 * t) + 0.002 * hiss(rng, t.size), {"depth_db": 20 * np.log10(np.hypot(1, 2.5))}


def station(rng, beat_hz, seconds):
    """A detector's output on a station's carrier with the marker beside it: the beat itself, and the band's noise that swells with it."""
    t = np.arange(round(seconds * RATE)) / RATE
    both = np.abs(1 + 0.4 * np.exp(2j * np.pi * beat_hz * t))
    audio = signal.sosfilt(signal.butter(1, 50, "highpass", fs=RATE, output="sos"), both - both.mean())
    return 0.3 * audio + 0.02 * both * hiss(rng, t.size)


def warm_up(minutes, rate=8000):
    """A steady carrier's note, upper sideband, while the set warms up: two exponentials on 7.1 MHz, as the set drifts downwards."""
    t = np.arange(round(60 * minutes * rate)) / rate
    slow, fast = (1500.0, 720.0), (600.0, 120.0)
    # the set's frequency falls to its end: the note of a carrier above it rises towards 1000 Hz
    phase = 1000 * t + sum(a * tau * (np.exp(-t / tau) - 1) for a, tau in ((0.2 * slow[0], slow[1]), (0.2 * fast[0], fast[1])))
    x = 0.1 * np.sin(2 * np.pi * phase)
    return x + 0.005 * np.random.default_rng(7).standard_normal(t.size), {"slow_s": slow[1], "slow_hz": 0.2 * slow[0], "fast_s": fast[1]}


folder = sys.argv[1]
rng = np.random.default_rng(20260101)
truth = {}
x, truth["can"] = can(rng)
write(folder, "can.wav", x)
# ppm of 10 MHz, as found, on the way, and as left
truth["trim"] = {}
for name, beat in {"found": 62.0, "halfway": 14.0, "left": 3.0}.items():
    write(folder, f"{name}.wav", station(rng, beat, 20))
    truth["trim"][name] = beat
x, truth["warm"] = warm_up(40)
write(folder, "warm-up.wav", x, 8000)
write(folder, "evening.wav", signal.resample_poly(x[: 90 * 8000], 6, 1))
print(json.dumps(truth))
