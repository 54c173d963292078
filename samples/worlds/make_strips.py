"""strips.json: 75 IF strips in five families, from the full circuit in if_circuit.py."""
import numpy as np

from if_circuit import Strip, make_can, response_truth
from kit import arr, dec, rng_for, sig, write_world

FAMILIES = ["as made", "slugs turned", "wild", "regenerative", "damped"]


def tubes_for(rng, n, cgp_pf=None):
    return [{"gmS": rng.uniform(0.9e-3, 2.2e-3), "cgpF": (cgp_pf if cgp_pf is not None else rng.uniform(0.001, 0.003)) * 1e-12} for _ in range(n)]


def build(i):
    rng = rng_for("strips", i)
    family = FAMILIES[i // 15]
    n = 2 if rng.random() < 0.55 else 3
    centre = 455e3 if rng.random() < 0.5 else round(rng.uniform(450e3, 470e3), -3)
    nominal = [{"q1": rng.uniform(50, 120), "q2": rng.uniform(50, 120), "kq": rng.uniform(0.5, 1.6)} for _ in range(n)]
    loaded = rng.integers(0, 2 * n) if family in ("wild", "damped") else None
    cans, offs, actual = [], [], []
    for j, nom in enumerate(nominal):
        spread = 6e3 if family == "slugs turned" else 2.5e3 if family in ("wild", "damped") else 300.0
        o1, o2 = rng.uniform(-spread, spread, 2)
        q1, q2, kq, sh = nom["q1"], nom["q2"], nom["kq"], [0.0, 0.0]
        if family in ("wild", "damped"):
            a, b = rng.uniform(0.45, 1.6, 2)
            kq *= rng.uniform(0.35, 2.4) * np.sqrt(a * b)
            q1, q2 = q1 * a, q2 * b
            if loaded // 2 == j:
                sh[loaded % 2] = 1 / (rng.uniform(20e3, 90e3) if family == "wild" else rng.uniform(8e3, 20e3))
        else:
            t = rng.normal(1, 0.05, 3)
            q1, q2, kq = q1 * t[0], q2 * t[1], kq * t[2]
        rg = rng.uniform(100e3, 250e3) if j == n - 1 else rng.uniform(0.8e6, 2e6)
        can = make_can(rng, centre, q1, q2, kq, o1, o2, cm_pf=rng.uniform(0, 0.08), shunt1=sh[0], shunt2=sh[1],
                       rp=rng.uniform(0.5e6, 1.5e6), rg=rg)
        cans.append(can)
        offs.append([o1, o2])
        # what loads a winding beside its can damps it: Q and kQ are loaded ones, this counted
        w0 = 2 * np.pi * centre
        d1, d2 = (1 / (1 + q * g / (w0 * (can[c] + can["cmF"]))) for q, g, c in ((q1, sh[0], "c1F"), (q2, sh[1], "c2F")))
        actual.append({"q1": dec(q1 * d1, 1), "q2": dec(q2 * d2, 1), "kq": dec(kq * np.sqrt(d1 * d2), 3)})
    tubes = tubes_for(rng, n - 1)
    r_power = rng.uniform(0.4, 1.0)
    extra = {}
    strip = Strip(cans, tubes, centre, r_power)
    if family == "regenerative":
        strip, extra = regenerate(rng, cans, tubes, centre, r_power)
    while not strip.stable():  # a strip as made does not whistle: less gain
        for t in tubes:
            t["gmS"] *= 0.8
        strip = Strip(cans, tubes, centre, r_power)
    truth = response_truth(strip.db, centre)
    if loaded is not None:
        extra["loadedWinding"] = {"can": int(loaded // 2) + 1, "side": "primary" if loaded % 2 == 0 else "secondary"}
    return reading(rng, i, family, centre, n, nominal, strip, truth, offs, actual, extra)


def regenerate(rng, cans, tubes, centre, r_power):
    """Plate-to-grid capacitance and a stray round the strip, grown together to a part of what would make it whistle."""
    ratio = rng.uniform(0.2, 1.0, len(tubes))
    around = rng.uniform(0, 1) if rng.random() < 0.5 else 0.0
    gain = np.prod([t["gmS"] * 8e4 for t in tubes])

    def at(x):
        ts = [{"gmS": t["gmS"], "cgpF": x * r * 1e-12} for t, r in zip(tubes, ratio)]
        return Strip(cans, ts, centre, r_power, round_f=around * x * 1e-12 / gain)

    lo, hi = 0.0, 0.001
    while at(hi).stable() and hi < 5:
        lo, hi = hi, hi * 1.5
    for _ in range(40):
        mid = (lo + hi) / 2
        lo, hi = (mid, hi) if at(mid).stable() else (lo, mid)
    part = rng.uniform(0.4, 0.85)
    f = centre + np.arange(-40e3, 40e3, 50.0)
    return at(lo * part), {"partOfWhistling": dec(part, 3), "feedbackPf": [sig(lo * part * r, 3) for r in ratio], "strayRound": around > 0,
                           "peakRiseDb": dec(np.max(at(lo * part).db(f)) - np.max(at(0).db(f)), 2)}


def reading(rng, i, family, centre, n, nominal, strip, truth, offs, actual, extra):
    points = int(rng.integers(20, 41)) * 2 + 1
    half = round(rng.uniform(15e3, 25e3), -2)
    u = np.linspace(-1, 1, points)
    if rng.random() < 0.3:  # closer together in the middle, as a careful person does
        u = 0.55 * u + 0.45 * u ** 3
    f = np.round(centre + half * u, -1)
    noise = rng.uniform(0.1, 0.4)
    y = strip.db(f) + rng.normal(0, noise, points)
    zero = np.round(np.max(y))
    t = {k: (None if v is None else dec(v, 1)) for k, v in truth.items() if k.endswith("Hz") and not isinstance(v, list)}
    t["peakDb"] = dec(truth["peakDb"] - zero, 3)
    t["humps"], t["humpsHz"] = truth["humps"], arr(truth["humpsHz"], 0)
    t["dipDb"] = dec(truth["dipDb"], 2)
    t["sixtyInSweep"] = bool(truth["low60Hz"] is not None and truth["high60Hz"] is not None and truth["low60Hz"] > f[0] and truth["high60Hz"] < f[-1])
    t["sixInSweep"] = bool(truth["low6Hz"] > f[0] and truth["high6Hz"] < f[-1])
    t["windingOffHz"] = [arr(o, 0) for o in offs]
    t["cans"] = actual
    t.update(extra)
    return {"id": f"strip-{i + 1:02d}", "family": family, "nominalCentreHz": dec(centre, 0), "cans": n,
            "nominalCans": [{k: dec(v, 1 if k != "kq" else 2) for k, v in c.items()} for c in nominal],
            "noiseDb": dec(noise, 2), "frequencyHz": arr(f, 0), "outputDb": arr(y - zero, 2), "truth": t}


if __name__ == "__main__":
    write_world("strips.json", {
        "about": "Invented IF strips: two or three double-tuned cans with tubes between, full circuit, output level against frequency. Not from any real set.",
        "units": "names end in Hz, Db; q1 q2 = loaded Q of primary and secondary, kq = coupling times root(q1 q2)",
        "madeBy": "make_strips.py"}, "strips", [build(i) for i in range(75)])
