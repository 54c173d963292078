"""coarse-sweeps.json: 240 sweeps of 61 points over a whole strip, as a person reads them at the bench: two or three cans, in tune or with slugs turned,
output to 0.1 to 0.4 dB. Between two points the flank falls by 1 to 6 dB and the top is 5 to 15 points wide."""
import numpy as np

from if_circuit import Strip, make_can, response_truth
from kit import arr, dec, rng_for, write_world


def build(i):
    rng = rng_for("coarse-sweeps", i)
    centre, cans = float(rng.choice([452e3, 455e3, 465e3])), int(rng.integers(2, 4))
    off = 350.0 if i % 2 else 4.5e3
    q = lambda: rng.uniform(50, 90)
    strip = Strip([make_can(rng, centre, q(), q(), rng.uniform(0.7, 1.1), rng.uniform(-off, off), rng.uniform(-off, off), cm_pf=0.04, rp=rng.uniform(3e5, 8e5), rg=rng.uniform(2e5, 1.5e6))
                   for _ in range(cans)], [{"gmS": 1.5e-3, "cgpF": 2.5e-15}] * (cans - 1), centre)
    if not strip.stable():
        raise ArithmeticError("strip whistles")
    t = response_truth(strip.db, centre)
    half, noise = rng.uniform(14e3, 22e3), rng.uniform(0.1, 0.4)
    f = np.round(centre + np.linspace(-half, half, 61), -1)
    truth = {k: dec(t[k], 1) for k in ("peakHz", "width3Hz", "width6Hz")}
    return {"id": f"coarse-{i + 1}", "noiseDb": dec(noise, 2), "frequencyHz": arr(f, 0), "outputDb": arr(strip.db(f) + rng.normal(0, noise, 61), 2),
            "truth": {**truth, "humps": t["humps"]}}


if __name__ == "__main__":
    write_world("coarse-sweeps.json", {
        "about": "Invented sweeps of whole IF strips, 61 points each. Edges are the outermost crossings below the true maximum.",
        "units": "names end in Hz, Db", "madeBy": "make_coarse_sweeps.py"}, "sweeps", [build(i) for i in range(240)])
