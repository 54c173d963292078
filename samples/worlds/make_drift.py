"""drift.json: 60 warm-up logs of an oscillator. Four laws of 15 each, some with wandering room and line steps."""
import numpy as np

from kit import arr, dec, rng_for, sig, write_world

LAWS = ["one exponential", "two exponentials", "three exponentials", "slow tail"]


class Law:
    """Sum of parts; each part gives its share still to come and its rate at minute t after switching on."""

    def __init__(self):
        self.parts = []

    def exponential(self, a, tau):
        self.parts.append(({"kind": "exponential", "amountHz": sig(a, 5), "tauMin": sig(tau, 5)}, lambda t: a * np.exp(-t / tau), lambda t: a / tau * np.exp(-t / tau)))

    def stretched(self, a, tau, b):
        self.parts.append(({"kind": "stretched exponential", "amountHz": sig(a, 5), "tauMin": sig(tau, 5), "power": sig(b, 4)},
                           lambda t: a * np.exp(-((t / tau) ** b)),
                           lambda t: a * b / tau * (np.maximum(t, 1e-9) / tau) ** (b - 1) * np.exp(-((t / tau) ** b))))

    def power_tail(self, a, t0, p):
        self.parts.append(({"kind": "power-law tail", "amountHz": sig(a, 5), "startMin": sig(t0, 5), "power": sig(p, 4)},
                           lambda t: a * (1 + t / t0) ** (-p), lambda t: a * p / t0 * (1 + t / t0) ** (-p - 1)))

    def left(self, t):
        return sum(p[1](t) for p in self.parts)

    def rate(self, t):
        return sum(p[2](t) for p in self.parts)


def make_law(rng, kind):
    law = Law()
    total = rng.choice([-1, 1]) * np.exp(rng.uniform(np.log(400), np.log(12000)))
    if kind == 0:
        law.exponential(total, rng.uniform(6, 35))
    elif kind == 1:
        part = rng.uniform(0.2, 0.6)
        turn = -1 if rng.random() < 0.2 else 1  # some first go the other way
        law.exponential(turn * part * total, rng.uniform(2, 6))
        law.exponential((1 - part) * total, rng.uniform(15, 60))
    elif kind == 2:
        share = rng.dirichlet([2, 3, 2])
        turn = -1 if rng.random() < 0.2 else 1
        for s, tau, sgn in zip(share, (2, 15, 90), (turn, 1, 1)):
            law.exponential(sgn * s * total, tau * rng.uniform(0.8, 1.25))
    elif rng.random() < 0.5:
        law.stretched(total, rng.uniform(8, 30), rng.uniform(0.5, 0.85))
    else:
        law.power_tail(total, rng.uniform(6, 20), rng.uniform(0.8, 2.2))
    return law


def room(rng, t_fine):
    """Room temperature minus its starting value: slow wander plus a heating that switches; and what the cabinet sees of it (lag)."""
    dt = t_fine[1] - t_fine[0]
    rest = rng.uniform(20, 60)
    x = np.zeros(len(t_fine))
    kick = rng.normal(0, 1, len(t_fine)) * rng.uniform(0.3, 0.9) * np.sqrt(2 * dt / rest)
    for k in range(1, len(x)):
        x[k] = x[k - 1] * (1 - dt / rest) + kick[k]
    x += rng.uniform(0, 0.6) * np.sin(2 * np.pi * t_fine / rng.uniform(20, 45) + rng.uniform(0, 6)) 
    x -= x[0]
    lag = rng.uniform(8, 25)
    seen = np.zeros(len(x))
    for k in range(1, len(x)):
        seen[k] = seen[k - 1] + dt / lag * (x[k] - seen[k - 1])
    return x, seen, lag


def build(i):
    rng = rng_for("drift", i)
    kind = i // 15
    law = make_law(rng, kind)
    length, step = round(rng.uniform(40, 120)), float(rng.choice([0.5, 1, 1, 1.5, 2]))
    start = float(rng.choice([0.5, 1, 2]))
    t = np.arange(start, length + 1e-9, step)
    if rng.random() < 0.3:  # a person at the clock
        t = t + np.round(rng.uniform(-0.1, 0.1, len(t)) * step, 2)
    f0 = round(np.exp(rng.uniform(np.log(1e6), np.log(3e7))), -2)
    noise = rng.uniform(2, 20)
    reads = {}
    add, truth, extras = np.zeros(len(t)), {}, {}
    still_other = 0.0
    if i % 3 == 1:
        fine = np.arange(0, length + 0.3, 0.05)
        x, seen, lag = room(rng, fine)
        per_k = rng.choice([-1, 1]) * rng.uniform(20, 150)
        add += per_k * np.interp(t, fine, seen)
        base = rng.uniform(18, 25)
        reads["roomC"] = arr(base + np.interp(t, fine, x) + rng.normal(0, 0.05, len(t)), 1)
        end = per_k * (np.interp(t[-1], fine, x) - np.interp(t[-1], fine, seen))
        extras["room"] = {"hzPerKelvin": sig(per_k, 4), "lagMin": sig(lag, 4), "stillToComeHz": dec(end, 1)}
        still_other += end
    if i % 5 in (2, 4) and i % 2 == 0:
        steps, volts = [], np.full(len(t), float(np.round(rng.uniform(114, 120), 1)))
        end = 0.0
        for _ in range(int(rng.integers(1, 4))):
            at, dv = rng.uniform(0.2, 0.9) * length, rng.choice([-1, 1]) * rng.uniform(1.5, 6)
            fast, slow, tau = dv * rng.uniform(3, 20), dv * rng.uniform(3, 25), rng.uniform(1.5, 8)
            on = t >= at
            add += np.where(on, fast + slow * (1 - np.exp(-np.maximum(t - at, 0) / tau)), 0)
            volts = volts + np.where(on, dv, 0)
            end += slow * np.exp(-(t[-1] - at) / tau)
            steps.append({"atMin": dec(at, 2), "stepV": dec(dv, 1), "atOnceHz": dec(fast, 1), "laterHz": dec(slow, 1), "tauMin": dec(tau, 2)})
        reads["lineV"] = arr(volts + rng.normal(0, 0.1, len(t)), 1)
        extras["lineSteps"] = {"steps": sorted(steps, key=lambda s: s["atMin"]), "stillToComeHz": dec(end, 1)}
        still_other += end
    y = f0 - law.left(t) + law.left(0.0) + add + rng.normal(0, noise, len(t))
    end = float(t[-1])
    at = [float(t[0]), *[m for m in (5, 10, 20, 30, 45, 60, 90) if t[0] < m < end], end]
    truth = {"laws": [p[0] for p in law.parts], "stillToComeHz": dec(law.left(end), 2), "stillToComeWithRoomAndLineHz": dec(law.left(end) + still_other, 2),
             "totalFromSwitchOnHz": dec(law.left(0.0), 2), "totalFromFirstReadingHz": dec(law.left(float(t[0])), 2),
             "finalHz": dec(f0 + law.left(0.0), 1),
             "rateAt": [{"atMin": sig(m, 5), "hzPerMin": sig(law.rate(m), 5)} for m in at], **extras}
    return {"id": f"drift-{i + 1:02d}", "law": LAWS[kind], "noiseHz": dec(noise, 1), "timeMin": arr(t, 2), "frequencyHz": arr(y, 0), **reads, "truth": truth}


if __name__ == "__main__":
    write_world("drift.json", {
        "about": "Invented warm-up logs. timeMin counts from switching on; frequencyHz is what the counter says; roomC and lineV where somebody logged them.",
        "units": "names end in Hz, Min, C, V; noiseHz = standard deviation of one reading; rates are signed",
        "madeBy": "make_drift.py"}, "logs", [build(i) for i in range(60)])
