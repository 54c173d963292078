"""Limiting cases of the whole jobs' laws, and of single faults. Run by check_worlds.py."""
import glob
import json
import os

import numpy as np

HERE = os.path.dirname(os.path.abspath(__file__))


def say(ok, text):
    print(("ok   " if ok else "FAIL ") + text)
    return bool(ok)


def whole():
    for path in sorted(glob.glob(os.path.join(HERE, "jobs", "*.json"))):
        with open(path, encoding="utf-8") as f:
            d = json.load(f)
        if d["madeBy"] == "make_whole_jobs.py":
            yield d


def at(d, name):
    return next(s for s in d["steps"] if s["step"] == name)


def lamp_limits():
    """A lamp at its own volts takes its own current; behind an enormous lamp the set has the whole line; a dead short leaves the lamp the line. Heaters: design load at nominal line stand at the stated volts."""
    from lamp import behind_lamp, heater_v, lamp_a
    a = lamp_a(120.0, 100.0, 120.0) / (100 / 120) - 1
    b = behind_lamp(120.0, 120.0, 1e5, (30, 8, 30), 117.0) / 120.0
    cold = lamp_a(0.01, 100.0, 120.0) / 0.01 * 144  # conductance cold against hot
    h = heater_v(1.0, 3.6, 3.6, 0.06, 6.3, 6.34)
    return say(abs(a) < 1e-6 and b > 0.995 and 11 < cold < 16 and abs(h - 6.34) < 1e-6, f"whole: lamp {a:.0e}, no lamp leaves {b:.4f}, cold lamp {cold:.1f} times, heaters {h:.3f} V")


def cable_limits():
    """No blocking capacitor: the strip as it was. Two feet, far end open: the first primary falls as blocking and cable capacitance in series say. Tank alone: whistles where n(A - n)/(Rf + A/gm) makes up its loss."""
    from if_circuit import Strip, make_can
    from q_multiplier import FEET, QStrip, critical_feedback, tank
    from whole_rf import accessory_y
    f0 = 455e3
    can = [make_can(np.random.default_rng(3), f0, 80, 80, 0.8, c_pf=(120, 120), cm_pf=0.04, rp=0.8e6, rg=1e6)]
    cable = {"feet": 2.0, "ohm": 53.5, "velocity": 0.66, "lossOhmPerFt": 0.02, "blockF": 1e-21}
    f = f0 + np.linspace(-1e4, 1e4, 41)
    same = np.max(np.abs(QStrip(can, [], f0, cable).db(f) - Strip(can, [], f0).db(f)))
    cable["blockF"] = 1e-9
    c = 2 * FEET / (2.998e8 * 0.66) / 53.5
    want = 2 * np.pi * f0 * 1e-9 * c / (1e-9 + c)
    load = accessory_y(QStrip(can, [], f0, cable), f0).imag / want - 1
    q = {**tank(f0, cable, 120e-6), "coilQ": 115, "gmS": 2e-3, "mu": 1e6, "cathodeOhm": 1e9, "decouplingF": 1e-3, "decouplingSeriesOhm": 1e-3, "feedOhm": 1e3}
    cable["blockF"] = 1e-18
    crit = critical_feedback(lambda r: QStrip(can, [], f0, cable, {**q, "feedbackOhm": r}))
    loss = 1 / (2 * np.pi * f0 * 120e-6 * 115) + 1 / 2.2e6
    law = 0.1 * (1 - 0.1) / loss - 1 / 2e-3
    off = crit / law - 1
    return say(same < 1e-6 and abs(load) < 2e-3 and abs(off) < 0.02, f"whole: no cable {same:.0e} dB, cable's capacitance {load:.0e}, critical feedback {crit:.0f} ohm for {law:.0f}")


def kirchhoff():
    """What the tubes and the bleeder take is what the rectifier gives, in each job, as left and with the accessory's tubes."""
    worst, n = 0.0, 0
    for d in whole():
        s = at(d, "supply as left")["truth"]
        used = sum(d["truth"]["cathodeA"]["left"].values()) + s["secondV"] / d["set"]["supply"]["bleedOhm"]
        worst, n = max(worst, abs(used / s["rectifierA"] - 1)), n + 1
    return say(worst < 5e-3 and n >= 1, f"whole: {n} jobs, tubes and bleeder against rectifier, worst {worst:.1e}")


def figures_behind_readings():
    """Each figure of the head is its step's; readings of supply stand within 4 % of what is behind them; each fault has its settling test among its follow-ups, and that test reads off what it would without the fault (parts out, beats, currents) or moves the chart's volts (part lifted, tube changed)."""
    bad, n = [], 0
    for d in whole():
        names = [f["name"] for f in d["truth"]["figures"]]
        if len(set(names)) != len(names):
            bad.append(d["id"] + ": a figure twice")
        for s in d["steps"]:
            for k in ("firstV", "secondV"):
                if k in s["reads"] and k in s["truth"] and abs(s["reads"][k] / s["truth"][k] - 1) > 0.04:
                    bad.append(f"{d['id']} {s['step']} {k}")
        for f in d["truth"]["faults"]:
            t = [x for x in f["followUps"] if x["test"] == f["settledBy"]]
            n += 1
            chart = {(r["tube"], r["electrode"]): r["readV"] for r in at(d, "voltage chart as found")["reads"]["rows"]}
            chart["supply", "first"] = at(d, "supply as found")["reads"]["firstV"]
            was = lambda x, f=f, c=chart: c.get((f.get("to") or f["at"], x["at"]), x["reads"])
            lifted = any(isinstance(x["reads"], (int, float)) and abs(x["reads"] - was(x)) > 0.03 * abs(was(x)) for x in t)
            if not lifted and not any(x["reads"] != x["readsIfSound"] and x["unit"] != "V" for x in t):
                bad.append(f"{d['id']} {f['id']}")
    return say(not bad, f"whole: {n} faults with a test that settles them" + "".join("; " + b for b in bad))


WHOLE = {"whole": [lamp_limits, cable_limits, kirchhoff, figures_behind_readings]}
