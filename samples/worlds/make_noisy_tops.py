"""noisy-tops.json: 60 sweeps of single and double humped tops with strong noise and dense points. Four laws by turns: full coupled cans,
staggered single circuits, a pair with a parallel crystal-like notch, and a power-law flank (no circuit at all)."""
import numpy as np

from if_circuit import Strip, make_can, response_truth
from kit import arr, dec, rng_for, write_world

LAWS = ["coupled cans", "staggered circuits", "pair with a notch", "free flank"]


def law_of(rng, i, centre):
    law = LAWS[i % 4]
    if law == "coupled cans":
        n = int(rng.integers(1, 3))
        cans = [make_can(rng, centre, rng.uniform(50, 120), rng.uniform(50, 120), rng.uniform(0.6, 2.6), rng.uniform(-1e3, 1e3), rng.uniform(-1e3, 1e3),
                         rp=8e5, rg=2e5) for _ in range(n)]
        return law, Strip(cans, [{"gmS": 1e-3, "cgpF": 5e-16}] * (n - 1), centre).db
    if law == "staggered circuits":
        n = int(rng.integers(2, 5))
        f0 = centre + rng.uniform(-4e3, 4e3, n)
        q = rng.uniform(60, 140, n)
        return law, lambda f: sum(-10 * np.log10(1 + (qq * (f / a - a / f)) ** 2) for a, qq in zip(f0, q))
    if law == "pair with a notch":
        can = make_can(rng, centre, rng.uniform(60, 110), rng.uniform(60, 110), rng.uniform(0.7, 1.8), rp=8e5, rg=2e5)
        strip = Strip([can], [], centre)
        fn, bw, deep = centre + rng.choice([-1, 1]) * rng.uniform(7e3, 14e3), rng.uniform(300, 900), rng.uniform(0.05, 0.4)
        notch = lambda f: 20 * np.log10(np.abs((deep + 2j * (f - fn) / bw) / (1 + 2j * (f - fn) / bw)))
        return law, lambda f: strip.db(f) + notch(f)
    # free flank: hump height, flank order and tilt chosen without any circuit
    half, order, hump, tilt = rng.uniform(2.5e3, 6e3), rng.uniform(1.2, 3.5), rng.uniform(0, 0.9), rng.uniform(-0.25, 0.25)
    off = rng.uniform(-1.5e3, 1.5e3)

    def db(f):
        x = (np.asarray(f) - centre - off) / half
        return -10 * np.log10(1 + np.abs(x) ** (2 * order) * 3 + hump * (np.cos(np.pi * np.clip(x, -1, 1) * 1.2) + 1) / 2) + tilt * x
    return law, db


def build(i):
    rng = rng_for("noisy-tops", i)
    centre = 455e3
    law, db = law_of(rng, i, centre)
    t = response_truth(db, centre, reach_hz=40e3, step_hz=10.0)
    points = int(rng.integers(101, 202))
    half = max(1.15 * max(t["high6Hz"] - centre, centre - t["low6Hz"]), rng.uniform(8e3, 16e3))
    f = np.round(np.linspace(centre - half, centre + half, points), 0)
    noise = rng.uniform(0.2, 0.6)
    y = db(f) + rng.normal(0, noise, points)
    zero = np.round(np.max(y))
    truth = {k: dec(t[k], 1) for k in ("peakHz", "low3Hz", "high3Hz", "width3Hz", "low6Hz", "high6Hz", "width6Hz")}
    truth.update({"peakDb": dec(t["peakDb"] - zero, 3), "humps": t["humps"], "humpsHz": arr(t["humpsHz"], 0), "dipDb": dec(t["dipDb"], 2)})
    return {"id": f"top-{i + 1:02d}", "law": law, "noiseDb": dec(noise, 2), "frequencyHz": arr(f, 0), "outputDb": arr(y - zero, 2), "truth": truth}


if __name__ == "__main__":
    write_world("noisy-tops.json", {
        "about": "Invented noisy sweeps of single and double humped tops, dense points. Edges are the outermost crossings below the true maximum.",
        "units": "names end in Hz, Db", "madeBy": "make_noisy_tops.py"}, "sweeps", [build(i) for i in range(60)])
