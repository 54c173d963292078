"""dials.json: 60 dials with zero beats: read as well as stated, worse, after a slip, and with a marker missed. Laws of our own."""
import numpy as np
from scipy.optimize import brentq

from kit import arr, dec, rng_for, write_world

FAMILIES = ["as stated", "scatters twice", "scatters six times", "slipped", "miscounted"]
STATED_DIV = 0.1


def shape_for(rng):
    """Band from 0 to 1 against the scale from 0 to 1, smooth and rising; what it is called."""
    kind = ["gang", "bandspread", "wavy"][int(rng.integers(3))]
    if kind == "gang":  # plates between straight capacitance and straight frequency, with a fixed part, and a coil
        a, b, cut, spread = rng.uniform(0.85, 1.2), rng.uniform(1.8, 2.6), rng.uniform(0.3, 0.8), rng.uniform(1.2, 7.0)
        f = lambda t: (1 + spread * ((1 - cut) * (1.02 - t) ** a + cut * (1.02 - t) ** b)) ** -0.5
    elif kind == "bandspread":  # a small capacitor beside a large one
        a, part = rng.uniform(0.8, 1.7), rng.uniform(0.05, 0.6)
        f = lambda t: (1 + part * (1.02 - t) ** a) ** -0.5
    else:  # straight, with one slow wave from a bent plate
        size, phase = rng.uniform(0, 0.012), rng.uniform(0, 2 * np.pi)
        f = lambda t: t + size * np.sin(2 * np.pi * t + phase)
    return kind, f


def build(i, family=None):
    rng = rng_for("dials", i)
    family = family or FAMILIES[i // 12]
    kind, f = shape_for(rng)
    beats = int(rng.integers(6, 34))
    spacing = float(rng.choice([50e3, 100e3, 200e3]))
    first = int(rng.integers(20, 120))
    low, high = first * spacing, (first + beats - 1) * spacing
    start, end = rng.uniform(2, 10), rng.uniform(90, 98)
    u0, u1 = f(start / 100), f(end / 100)
    hz_at = lambda r: low + (high - low) * (f(r / 100) - u0) / (u1 - u0)
    markers = low + spacing * np.arange(beats)
    scatter = {"scatters twice": 2.0, "scatters six times": 6.0}.get(family, 1.0)
    readings = np.array([brentq(lambda r: hz_at(r) - m, start - 1e-6, end + 1e-6) for m in markers]) + STATED_DIV * scatter * rng.normal(0, 1, beats)
    row, slip, written = int(rng.integers(3, beats - 2)), 0.0, markers.copy()
    if family == "slipped":
        slip = float(rng.choice([-1, 1]) * rng.uniform(2, 5))
        readings[row:] += slip
    if family == "miscounted":
        written[row:] += spacing
    at = np.linspace(max(start, readings.min() - slip), min(end, readings.max() - slip), 21)
    truth = {"law": kind, "scatterDiv": dec(STATED_DIV * scatter, 2), "atDiv": arr(at, 3), "atHz": arr(hz_at(at), 1)}
    if slip:
        truth.update({"slipDiv": dec(slip, 2), "fromRow": row + 1})
    if family == "miscounted":
        truth["fromRow"] = row + 1
    return {"id": f"dial-{i + 1:02d}", "family": family, "intermediateHz": 455000, "spacingHz": dec(spacing, 0), "statedDiv": STATED_DIV,
            "readingDiv": arr(readings, 2), "frequencyHz": arr(written, 0), "truth": truth}


if __name__ == "__main__":
    write_world("dials.json", {
        "about": "Invented dials: readings of a scale of a hundred divisions at zero beats with markers. Not from any real set.",
        "units": "names end in Hz, Div; oscillator above the signal; statedDiv = standard deviation of one reading as it is stated",
        "madeBy": "make_dials.py"}, "dials", [build(i) for i in range(60)])
