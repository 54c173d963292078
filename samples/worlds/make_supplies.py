"""supplies.json: 40 full-wave supplies in eight variants, integrated in time (supply.py)."""
import numpy as np

from kit import dec, rng_for, sig, write_world
from supply import simulate

VARIANTS = ["as designed", "silicon in place of the tube", "silicon and 270 ohm", "line high", "line low", "light load", "weak rectifier", "leaky first capacitor"]
TUBES = {"directly heated, about 50 V at 125 mA": 3.5e-4, "directly heated, about 45 V at 225 mA": 7.5e-4, "indirectly heated, about 20 V at 125 mA": 1.4e-3}


def design(rng):
    tube = str(rng.choice(list(TUBES)))
    v = float(rng.integers(22, 36) * 10)
    load_a = rng.uniform(0.045, 0.125)
    v2 = v * 1.02
    return tube, {"lineHz": 50.0 if rng.random() < 0.2 else 60.0, "halfV": v, "unequal": 0.0, "halfOhm": round(rng.uniform(60, 180)), "addedOhm": 0.0, "perveance": TUBES[tube], "silicon": 0,
                  "c1F": float(rng.choice([8, 10, 16, 20])) * 1e-6, "c1SeriesOhm": 1.0, "c1LeakOhm": 1e9, "chokeH": round(rng.uniform(6, 15), 1),
                  "chokeSaturatesA": load_a * rng.uniform(1.8, 3.5), "chokeOhm": float(rng.integers(12, 42) * 10), "c2F": float(rng.choice([8, 16, 20, 40])) * 1e-6,
                  "loadK": load_a / v2 ** 1.3, "loadPower": 1.3, "bleedOhm": float(rng.choice([22e3, 33e3, 47e3, 1e9]))}


def make(i):
    rng = rng_for("supplies", i)
    tube, d = design(rng)
    s = dict(d)
    t = lambda spread: float(np.clip(rng.normal(1, spread / 2), 1 - spread, 1 + spread))
    s["unequal"] = rng.uniform(-0.015, 0.015)
    for k, spread in (("c1F", 0.2), ("c2F", 0.2), ("chokeH", 0.2), ("halfOhm", 0.1), ("chokeOhm", 0.1), ("perveance", 0.12), ("loadK", 0.08)):
        s[k] *= t(spread)
    s["c1SeriesOhm"] = rng.uniform(0.5, 5)
    v = VARIANTS[i % 8]
    line, size = 117.0 + rng.uniform(-2, 2), None
    if v.startswith("silicon"):
        s["silicon"] = 1
        s["addedOhm"] = 270.0 if "270" in v else 0.0
    elif v == "line high":
        line = rng.uniform(123, 132)
    elif v == "line low":
        line = rng.uniform(95, 111)
    elif v == "light load":
        size = rng.uniform(0.1, 0.5)
        s["loadK"] *= size
    elif v == "weak rectifier":
        size = rng.uniform(0.12, 0.55)
        s["perveance"] *= size
    elif v == "leaky first capacitor":
        size = np.exp(rng.uniform(np.log(3e3), np.log(40e3)))
        s["c1LeakOhm"] = size
    s["halfV"] *= line / 117.0
    return rng, tube, d, s, v, line, size


def report(r):
    return {k: dec(r[k], 2) for k in ("firstV", "secondV")} | {k: sig(r[k], 4) for k in ("firstRipplePpV", "secondRipplePpV", "loadA", "rectifierA", "rectifierPeakA", "rectifierRmsA")}


def build_all():
    made = [make(i) for i in range(40)]
    got = simulate([m[2] for m in made] + [m[3] for m in made])
    if max(g["stillMovingV"] for g in got) > 0.05:
        raise ArithmeticError("not settled")
    items = []
    for i, (rng, tube, d, s, v, line, size) in enumerate(made):
        n, r = got[i], got[40 + i]
        five = lambda x: dec(5 * round(x / 5), 0)
        marked = {k: sig(d[k], 5) for k in ("lineHz", "halfV", "halfOhm", "c1F", "chokeH", "chokeOhm", "c2F")}
        marked["bleedOhm"] = None if d["bleedOhm"] > 1e8 else dec(d["bleedOhm"], 0)
        read = lambda x, part: dec(x * (1 + rng.normal(0, part)), 0)
        items.append({"id": f"supply-{i + 1:02d}", "variant": v, "rectifier": tube, "marked": marked, "nominalLineV": 117, "lineV": dec(line, 1), "silicon": bool(s["silicon"]),
                      "addedOhm": dec(s["addedOhm"], 0), "nominalLoadA": sig(n["loadA"], 3), "chart": {"firstV": five(n["firstV"]), "secondV": five(n["secondV"])},
                      "measured": {"firstV": read(r["firstV"], 0.007), "secondV": read(r["secondV"], 0.007), "firstRipplePpV": sig(r["firstRipplePpV"] * (1 + rng.normal(0, 0.04)), 2),
                                   "secondRipplePpV": sig(r["secondRipplePpV"] * (1 + rng.normal(0, 0.04)), 2)},
                      "truth": {**report(r), "size": sig(size, 4), "design": report(n), "circuit": {k: sig(s[k], 5) for k in s}}})
    return items


if __name__ == "__main__":
    write_world("supplies.json", {
        "about": "Invented full-wave supplies with capacitor input. firstV: at the first capacitor, secondV: after the choke. halfV: rms volts of each half of the secondary, no load. halfOhm: winding resistance of a half with the primary's share. Load: loadK V^1.3 plus bleeder.",
        "units": "names end in V, A, Ohm, F, H, Hz, PpV (volts peak to peak); size: part of load or perveance left, or ohms of leak",
        "madeBy": "make_supplies.py"}, "supplies", build_all())
