"""Limiting cases of faults.json and its laws, and proof that the files are what the code makes. Run by check_worlds.py."""
import json
import os

import numpy as np

import job_parts as jp
from check_whole import HERE, say


def faults():
    with open(os.path.join(HERE, "faults.json"), encoding="utf-8") as f:
        return json.load(f)


def koren_point():
    """Published worked example (D. A. Steck, Analog and Digital Electronics, sec. 6.2): 1.07 mA, 221 V, -1.61 V on 330 V, 100 kohm, 1.5 kohm, no contact potential.
    Gain bypassed gm (rp || R), unbypassed mu R / (R + rp + (mu + 1) Rk), closed form from the same slopes."""
    from koren import SETS
    from stage_gain import gains, slopes
    from tube_stage import solve
    s = jp.stage({**SETS["12AX7"], "P": 1.0, "contactV": 0.0, "gridP": 0.0}, plateOhm=100e3, cathodeOhm=1500.0, supplyV=330.0)
    v = solve(s)
    amps = v[3] / 1500
    (gm, _, gp), _ = slopes(s, v)
    ac = {"hz": 1e3, "loadOhm": 100e3, "cathodeF": 1.0, "screenF": 0.0, "couplingF": 1e-8}
    with_c, without = gains(s, v, ac)[0], gains(s, v, {**ac, "cathodeF": 0.0})[0]
    a = with_c / (gm / (gp + 1e-5)) - 1
    b = without / ((gm / gp) * 1e5 / (1e5 + 1 / gp + (gm / gp + 1) * 1500)) - 1
    ok = abs(amps - 1.07e-3) < 5e-6 + 1e-6 and abs(v[1] - v[3] - 221) < 0.5 and abs(-v[3] + 1.61) < 5e-3 and abs(a) < 1e-4 and abs(b) < 1e-4
    return say(ok, f"faults: published stage {amps * 1e3:.3f} mA, {v[1] - v[3]:.1f} V, {-v[3]:.3f} V; gain {with_c:.1f} and {without:.1f}, closed form within {max(abs(a), abs(b)):.0e}")


def open_and_short():
    """An open plate takes no current and stands by its cathode; a shorted bypass puts cathode or screen on the chassis; an open grid resistor leaves the grid to its own current; a low line lowers all alike."""
    bad = []
    for f in faults()["faults"]:
        t = f["truth"]
        v, kind = t["foundV"], t["fault"]
        if kind == "plateOpen" and abs(v["plate"] - v["cathode"]) > 5:
            bad.append(f["id"])
        if kind in ("cathodeBypassShort", "screenBypassShort") and abs(v["cathode" if kind.startswith("c") else "screen"]) > 0.5:
            bad.append(f["id"])
        if kind == "supplyLow" and not t["part"] - 0.2 < v["plate"] / t["soundV"]["plate"] < t["part"] + 0.2:
            bad.append(f["id"])
        if kind in ("cathodeBypassOpen", "screenBypassOpen", "couplingOpen") and any(abs(v[n] - t["soundV"][n]) > 0.01 for n in v):
            bad.append(f["id"])
    return say(not bad, "faults: open and shorted parts leave the volts they must" + "".join("; " + b for b in bad))


def each_can_be_settled():
    """300 faults, 15 of each kind; the settling test of each reads off by more than a tenth, moves the chart's volts by 3 % or 50 mV, or lifts the gain by 3 dB; at most five are too small for that."""
    d = faults()
    counts, weak = {}, []
    for f in d["faults"]:
        t = f["truth"]
        counts[t["fault"]] = counts.get(t["fault"], 0) + 1
        mine = [x for x in f["followUps"] if x["test"] == t["settledBy"]]
        off = lambda x: (x["reads"] is None) != (x["sound"] is None) or (x["reads"] is not None and abs(x["reads"] - x["sound"]) > (3 if x["test"].startswith("bridge") else 0.1 * abs(x["sound"])))
        chart = {r["electrode"]: r["readV"] for r in f["chart"]}
        moved = any(x["at"] in chart and x["reads"] is not None and abs(x["reads"] - chart[x["at"]]) > max(0.05, 0.03 * abs(chart[x["at"]])) for x in mine)
        gain = {x["test"]: x["reads"] for x in f["followUps"] if x["test"] in ("stageGain", "couplingGain")}
        lifted = any(x["test"].startswith("bridge") and x["reads"] - gain["couplingGain" if x["test"] == "bridgeCoupling" else "stageGain"] > 3 for x in mine)
        if not (any(off(x) for x in mine) or moved or lifted):
            weak.append(f"{f['id']} {t['fault']}")
    ok = len(d["faults"]) == 300 and set(counts.values()) == {15} and len(weak) <= 5
    return say(ok, f"faults: {len(d['faults'])} of {len(counts)} kinds, {len(weak)} too small for their own test: " + ", ".join(weak))


def same_digits():
    """Made again: six faults and one whole job, digit for digit."""
    from job_sets import SETS
    from make_faults import FAULTS, build
    from whole_job import build as job
    flat = lambda x: json.dumps(x, separators=(",", ":"), ensure_ascii=False, allow_nan=False)
    names, d = list(FAULTS), faults()["faults"]
    off = [i for i in (0, 47, 111, 158, 233, 299) if flat(build(i, names[i % len(names)])[0]) != flat(d[i])]
    spec = next(s for s in SETS if s["id"] == "five-tube-220v-live-chassis")
    with open(os.path.join(HERE, "jobs", spec["id"] + ".json"), encoding="utf-8") as f:
        had = json.load(f)
    head, steps = job(spec)
    same = flat(steps) == flat(had["steps"]) and all(flat(head[k]) == flat(had[k]) for k in head)
    return say(not off and same, f"faults and whole jobs: made again, the same digits{'' if same else '; the job differs'}{''.join(f'; fault {i + 1}' for i in off)}")


FAULTS_CHECKS = {"faults": [koren_point, open_and_short, each_can_be_settled, same_digits]}
