"""tracking.json: 60 oscillators with padder, trimmer and coil. Gang law of our own; the dial is drawn to the design oscillator less the IF."""
import numpy as np
from scipy.optimize import brentq, least_squares

from kit import arr, dec, rng_for, sig, write_world

RANGES = [(0.52e6, 1.42e6), (0.55e6, 1.35e6), (1.3e6, 3.4e6), (3.2e6, 8.1e6), (7.6e6, 18.5e6)]


class Gang:
    """Capacitance of one section against turn x (0 open, 1 shut): floor + span * ((1 - cut) x^a + cut x^b), plates cut so and so."""

    def __init__(self, floor, span, a, b, cut):
        self.floor, self.span, self.a, self.b, self.cut = floor, span, a, b, cut

    def __call__(self, x):
        return self.floor + self.span * ((1 - self.cut) * x ** self.a + self.cut * x ** self.b)


def oscillator_hz(gang_f, p):
    """gangF and trimmerF in parallel, padderF in series with both, strayF across the coil."""
    c = gang_f + p["trimmerF"]
    return 1 / (2 * np.pi * np.sqrt(p["coilH"] * (p["padderF"] * c / (p["padderF"] + c) + p["strayF"])))


def design(rng):
    lo, hi = RANGES[int(rng.integers(len(RANGES)))]
    if_hz = float(rng.choice([455e3, 455e3, 460e3, 465e3]))
    gang = Gang(rng.uniform(9e-12, 14e-12), rng.uniform(330e-12, 430e-12), rng.uniform(0.85, 1.2), rng.uniform(1.8, 2.6), rng.uniform(0.3, 0.8))
    return lo, hi, if_hz, gang, *design_for(rng, lo, hi, if_hz, gang)


def design_for(rng, lo, hi, if_hz, gang):
    """Oscillator parts that track a signal circuit of the same gang at three points; the signal circuit spans the range exactly."""
    ratio = (hi / lo) ** 2
    ct = (gang(1.0) - ratio * gang(0.0)) / (ratio - 1)
    coil = 1 / ((2 * np.pi * lo) ** 2 * (gang(1.0) + ct))
    signal = lambda x: 1 / (2 * np.pi * np.sqrt(coil * (gang(x) + ct)))
    three = lo + (hi - lo) * np.array([0.07, 0.5, 0.93])
    xs = np.array([brentq(lambda x: signal(x) - f, 0, 1) for f in three])
    stray = rng.uniform(3e-12, 8e-12)

    def miss(q):
        p = {"coilH": np.exp(q[0]), "padderF": np.exp(q[1]), "trimmerF": np.exp(q[2]), "strayF": stray}
        return (oscillator_hz(gang(xs), p) - three - if_hz) / three * 1e4
    start = np.log([coil * (lo / (lo + if_hz)) ** 1.5, 400e-12 * max(1.0, lo / if_hz), max(ct, 5e-12)])
    got = least_squares(miss, start, xtol=1e-14, ftol=1e-14, gtol=1e-14, max_nfev=4000)
    if np.max(np.abs(got.fun)) > 0.5:
        raise ArithmeticError("no three-point design")
    p = {"coilH": np.exp(got.x[0]), "padderF": np.exp(got.x[1]), "trimmerF": np.exp(got.x[2]), "strayF": stray}
    return {k: float(f"{v:.4g}") for k, v in p.items()}, signal


def residual_law(rng):
    """A smooth departure of the gang of at most 2 pF: bent plates, a shifted rotor."""
    k = rng.normal(0, 1, 4)
    x = np.linspace(0, 1, 201)
    y = lambda t: k[0] + k[1] * t + k[2] * np.cos(np.pi * t * 1.5 + k[3])
    top = np.max(np.abs(y(x)))
    size = rng.uniform(1.0, 2.0) * 1e-12
    return lambda t: y(t) / top * size


def build(i):
    rng = rng_for("tracking", i)
    while True:
        try:
            lo, hi, if_hz, gang, p, _ = design(rng)
            break
        except (ArithmeticError, ValueError):
            continue
    perfect, bent = i >= 50, 35 <= i < 50
    part, off = None, 0.0
    actual = dict(p)
    if not perfect and not (bent and i >= 45):
        part = ["padder", "trimmer", "coil"][i % 3]
        off = rng.choice([-1, 1]) * rng.uniform(0.02, 0.10)
        key = {"padder": "padderF", "trimmer": "trimmerF", "coil": "coilH"}[part]
        actual[key] *= 1 + off
    extra = residual_law(rng) if bent else (lambda t: 0.0 * t)
    dial = lambda x: oscillator_hz(gang(x), p) - if_hz
    tuned = lambda x: oscillator_hz(gang(x) + extra(x), actual) - if_hz
    noise = rng.uniform(0.0003, 0.002)
    shown, known, turn = [], [], []
    for f in (0.1, 0.45, 0.9):
        sigf = round((lo + (hi - lo) * f) / 5e3) * 5e3
        try:
            x = brentq(lambda t: tuned(t) - sigf, 0, 1)
        except ValueError:  # the range no longer reaches so far
            edge = min(tuned(0.0), 1e12) if f > 0.5 else tuned(1.0)
            sigf = round(edge * (0.98 if f > 0.5 else 1.02) / 5e3) * 5e3
            x = brentq(lambda t: tuned(t) - sigf, 0, 1)
        known.append(sigf)
        turn.append(x)
        shown.append(dial(x) * (1 + rng.normal(0, noise)))
    xs = np.linspace(0, 1, 21)
    clean = [float(dial(x)) for x in turn]
    return {"id": f"tracking-{i + 1:02d}", "ifHz": dec(if_hz, 0), "rangeHz": [dec(lo, 0), dec(hi, 0)],
            "gang": {"turn": arr(xs, 2), "capacitanceF": [sig(v, 5) for v in gang(xs)]},
            "design": {k: sig(v, 4) for k, v in p.items()}, "readingNoise": sig(noise, 2), "signalHz": arr(known, 0), "dialHz": [sig(v, 5) for v in shown],
            "truth": {"part": part, "off": sig(off, 4), "actual": {k: sig(v, 6) for k, v in actual.items()}, "gangResidual": bent,
                      "gangOffF": [sig(float(extra(x)), 4) for x in xs] if bent else None,
                      "turn": [dec(x, 5) for x in turn], "dialWithoutNoiseHz": arr(clean, 0)}}


if __name__ == "__main__":
    write_world("tracking.json", {
        "about": "Invented oscillators above the signal. signalHz: known signals; dialHz: where the dial stands when each is tuned in. Dial = design oscillator less IF. First 35 one part off, then 10 one part off with a gang that departs by up to 2 pF, 5 with the gang alone, 10 perfect.",
        "units": "names end in Hz, F, H; off = part of the value (0.05 = 5 % high); readingNoise = standard deviation as part of the reading",
        "madeBy": "make_tracking.py"}, "oscillators", [build(i) for i in range(60)])
