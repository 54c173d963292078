"""faults.json: 300 single faults of tube stages, the chart as found, and what every follow-up test at the place would read."""
import numpy as np

import job_parts as jp
from follow_ups import catalogue, row, stage_tests, volts_row
from job_sets import HIGH, MEDIUM, MIXER, POWER, REMOTE, SHARP, SMALL_POWER
from kit import dec, rng_for, sig, write_world
from koren import SETS
from stage_gain import db, gains
from tube_stage import NODES, meter_reading, solve, source_ohms

FAR = 1e12
koren = lambda name: {**SETS[name], "P": 1.0, "contactV": 0.4}
NAMES = ["triode AF amplifier", "medium-mu triode stage", "pentode AF amplifier", "RF amplifier", "IF amplifier", "mixer", "output stage", "beam output stage"]
PENTODES = {2, 3, 4, 5, 6, 7}
COUPLED = {0, 1, 2, 6, 7}
PLATE_R = {0, 1, 2}
FAULTS = {  # fault: kinds of stage it goes with
    "couplingLeak": COUPLED, "couplingOpen": COUPLED, "cathodeResistor": set(range(8)), "cathodeOpen": set(range(8)), "cathodeBypassShort": set(range(8)), "cathodeBypassLeak": set(range(8)), "cathodeBypassOpen": {0, 1, 2, 6, 7},
    "screenResistor": {2, 3, 4, 5}, "screenOpen": {2, 3, 4, 5}, "screenBypassLeak": {2, 3, 4, 5}, "screenBypassShort": {2, 3, 4, 5}, "screenBypassOpen": {2, 3, 4}, "plateLoad": PLATE_R, "plateOpen": set(range(8)), "weakTube": set(range(8)), "gas": {0, 2, 3, 4, 6, 7},
    "gridLeakOpen": COUPLED, "feedResistor": {0, 2, 3, 4}, "decouplingLeak": {0, 2, 3, 4}, "supplyLow": set(range(8))}
SETTLES = {"couplingLeak": "liftCoupling", "couplingOpen": "bridgeCoupling", "cathodeResistor": "cathodeResistor", "cathodeOpen": "cathodeResistor", "cathodeBypassShort": "liftCathodeBypass", "cathodeBypassLeak": "liftCathodeBypass", "cathodeBypassOpen": "bridgeCathodeBypass",
           "screenResistor": "screenResistor", "screenOpen": "screenResistor", "screenBypassLeak": "liftScreenBypass", "screenBypassShort": "liftScreenBypass", "screenBypassOpen": "bridgeScreenBypass", "plateLoad": "plateLoad", "plateOpen": "plateLoad", "weakTube": "swapTube", "gas": "swapTube",
           "gridLeakOpen": "gridResistor", "feedResistor": "feedResistor", "decouplingLeak": "liftDecoupling", "supplyLow": "supplyVolts"}


def design(rng, kind, fault):
    """Marked values, invented within what the trade used; tube, chart's B+, capacitors."""
    pick = lambda *xs: float(rng.choice(xs))
    one = lambda *xs: xs[int(rng.integers(len(xs)))]
    d = {"supplyV": pick(190, 210, 230, 250, 265), "gridOhm": pick(470e3, 1e6), "cathodeF": 0.05e-6, "screenF": 0.05e-6, "couplingF": 0.0, "hz": 455e3, "prevV": 0.0}
    if kind == 0:
        law, t = one(("high-mu triode", HIGH), ("high-mu triode", koren("12AX7")), ("high-mu triode of steep slope", koren("12AT7")))
        steep = law.endswith("slope")
        d.update(tube=t, words=law, plateOhm=pick(22e3, 33e3, 47e3) if steep else pick(100e3, 150e3, 220e3, 270e3), cathodeOhm=pick(330, 470, 680) if steep else pick(1500, 2200, 2700, 3300), cathodeF=25e-6, hz=400.0, prevV=pick(80, 110, 140))
    elif kind == 1:
        t = one(MEDIUM, koren("12AU7"))
        d.update(tube=t, words="medium-mu triode", plateOhm=pick(27e3, 33e3, 47e3, 68e3), cathodeOhm=pick(820, 1000, 1500, 2200), cathodeF=25e-6, hz=400.0, prevV=pick(90, 120, 150))
    elif kind == 2:
        d.update(tube=SHARP, words="sharp-cutoff RF pentode", plateOhm=pick(100e3, 150e3, 220e3), screenOhm=pick(390e3, 560e3, 820e3), cathodeOhm=pick(820, 1000, 1500), cathodeF=25e-6, screenF=0.1e-6, hz=400.0, prevV=pick(70, 100, 130))
    elif kind in (3, 4):
        t, w = one((REMOTE, "remote-cutoff RF pentode"), (REMOTE, "remote-cutoff RF pentode"), (SHARP, "sharp-cutoff RF pentode"))
        d.update(tube=t, words=w, plateOhm=pick(1000, 2200, 3300, 4700), screenOhm=pick(39e3, 47e3, 56e3, 68e3), cathodeOhm=pick(150, 180, 220, 270, 330), gridOhm=pick(470e3, 1e6, 2.2e6), hz=3.5e6 if kind == 3 else 455e3)
        if rng.random() < 0.3:
            d["screenBleedOhm"] = pick(68e3, 100e3)
    elif kind == 5:
        d.update(tube=MIXER, words="pentagrid", plateOhm=pick(1000, 2200), screenOhm=pick(18e3, 22e3, 27e3), cathodeOhm=pick(150, 180, 220), gridOhm=pick(470e3, 1e6))
    else:
        t, w, r = (koren("6L6GC"), "beam power tube", (220, 250, 270)) if kind == 7 else one((POWER, "output pentode", (240, 270, 300)), (SMALL_POWER, "output pentode of steep slope", (130, 150, 180)))
        d.update(tube=t, words=w, plateOhm=pick(250, 350, 450), screenOhm=pick(470, 1000, 2200), cathodeOhm=pick(*r), gridOhm=pick(220e3, 330e3, 470e3), cathodeF=25e-6, screenF=16e-6, hz=400.0, prevV=pick(90, 110, 140, 160))
    d["loadOhm"] = {0: d["plateOhm"], 1: d["plateOhm"], 2: d["plateOhm"], 3: 12e3, 4: 60e3, 5: 50e3, 6: 5000.0, 7: 4000.0}[kind]
    if d["prevV"]:
        d["couplingF"] = pick(0.01e-6, 0.02e-6, 0.05e-6)
    d["feedOhm"] = 0.0
    if fault in ("feedResistor", "decouplingLeak") or (kind in (0, 2, 3, 4) and rng.random() < 0.4):
        d["feedOhm"] = pick(1000, 2200, 4700) if kind in (3, 4) else pick(22e3, 33e3, 47e3)
    return d


def circuit(d, **more):
    keep = ("plateOhm", "screenOhm", "screenBleedOhm", "cathodeOhm", "gridOhm", "supplyV", "prevV")
    return jp.stage(d["tube"], **{k: d[k] for k in keep if k in d}, prevOhm=100e3, supplyOhm=d["feedOhm"] or 1.0, **more)


def real_parts(rng, d, line_part):
    tol = float(rng.choice([0.1, 0.2]))
    off = lambda: float(np.clip(rng.normal(1, tol / 2), 1 - tol, 1 + tol))
    s = circuit(d)
    s["tube"].update(shuts=True, P=s["tube"]["P"] * float(np.clip(rng.normal(1, 0.09), 0.8, 1.2)), contactV=rng.uniform(0.25, 0.55), gas=10 ** rng.uniform(-6, -5))
    for k in ("plateOhm", "screenOhm", "cathodeOhm", "gridOhm", "prevOhm", "supplyOhm", "screenBleedOhm"):
        if 2 < s[k] < FAR:
            s[k] *= off()
    s["supplyV"] *= line_part * rng.uniform(0.98, 1.02)
    s["prevV"] *= line_part * rng.uniform(0.92, 1.08)
    if d["couplingF"]:
        s["couplingOhm"] = 10 ** rng.uniform(9.3, 10.5)
    return s, tol


def spoil(rng, fault, sound, ac):
    """(circuit, capacitors, size) with the fault in."""
    s, ac = {**sound, "tube": dict(sound["tube"])}, dict(ac)
    u = lambda lo, hi: float(np.exp(rng.uniform(np.log(lo), np.log(hi))))
    put = lambda key, ohm: (s.update({key: ohm}), {"actualOhm": sig(ohm, 4)})[1]
    part = {"cathodeResistor": "cathodeOhm", "screenResistor": "screenOhm", "plateLoad": "plateOhm", "feedResistor": "supplyOhm"}
    leak = {"couplingLeak": ("couplingOhm", 0.4e6, 15e6), "cathodeBypassShort": ("cathodeLeakOhm", 0.3, 3), "screenBypassShort": ("screenLeakOhm", 0.3, 30)}
    opened = {"cathodeOpen": "cathodeOhm", "screenOpen": "screenOhm", "plateOpen": "plateOhm", "gridLeakOpen": "gridOhm"}
    farads = {"couplingOpen": "couplingF", "cathodeBypassOpen": "cathodeF", "screenBypassOpen": "screenF"}
    if fault in part:
        down = fault == "cathodeResistor" and rng.random() < 0.3
        return s, ac, put(part[fault], s[part[fault]] * (rng.uniform(0.25, 0.6) if down else u(1.6, 6)))
    if fault in leak:
        key, lo, hi = leak[fault]
        return s, ac, {"leakOhm": put(key, u(lo, hi))["actualOhm"]}
    if fault == "cathodeBypassLeak":
        return s, ac, {"leakOhm": put("cathodeLeakOhm", s["cathodeOhm"] * u(0.15, 1.2))["actualOhm"]}
    if fault == "screenBypassLeak":
        return s, ac, {"leakOhm": put("screenLeakOhm", s["screenOhm"] * u(0.08, 1.5))["actualOhm"]}
    if fault in opened:
        return s, ac, put(opened[fault], u(2.5e8, 2e9))
    if fault in farads:
        ac[farads[fault]] = u(0.5e-12, 3e-12)
        return s, ac, {"actualF": sig(ac[farads[fault]], 3)}
    if fault == "weakTube":
        s["tube"]["P"] *= rng.uniform(0.2, 0.6)
        return s, ac, {"emissionPart": sig(s["tube"]["P"] / ac["nominalP"], 4)}
    if fault == "gas":
        v = solve(s)
        space = sum(jp.currents(s, v)[:2])
        s["tube"]["gas"] = u(1.2, 9) / s["gridOhm"] / space * max(v[3] - v[4], 1.0) * 0.5
        return s, ac, {"gasPart": sig(s["tube"]["gas"], 4)}
    if fault == "decouplingLeak":
        ohm = (s["supplyOhm"] + 3e3) * u(0.3, 4)
        s["restA"] = s["supplyV"] / ohm
        return s, ac, {"leakOhm": sig(ohm, 4)}
    f = rng.uniform(0.55, 0.82)
    s["supplyV"] *= f
    s["prevV"] *= f
    return s, ac, {"part": sig(f, 4)}


def ac_rows(s, ac, sound, ac0, good, rng):
    """Gain as it is and with each capacitor bridged by a good one of the marked size."""
    out = []
    level = lambda test, at, k, a, b: out.append(row(test, at, "dB", dec(db(gains(*a)[k]) + rng.normal(0, 0.7), 1), dec(db(gains(*b)[k]), 1), dec(db(gains(*a)[k]), 2)))
    v, v0 = solve(s), solve(sound)
    level("stageGain", "grid to plate", 0, (s, v, ac), (sound, v0, ac0))
    for test, key, there in (("bridgeCathodeBypass", "cathodeF", True), ("bridgeScreenBypass", "screenF", s["screenOhm"] > 0)):
        if there:
            level(test, "grid to plate", 0, (s, v, {**ac, key: ac[key] + good[key]}), (sound, v0, {**ac0, key: ac0[key] + good[key]}))
    if good["couplingF"]:
        level("couplingGain", "plate before to grid", 1, (s, v, ac), (sound, v0, ac0))
        level("bridgeCoupling", "plate before to grid", 1, (s, v, {**ac, "couplingF": ac["couplingF"] + good["couplingF"]}), (sound, v0, {**ac0, "couplingF": 2 * good["couplingF"]}))
    return out


def supply_rows(s, sound, rng):
    read = lambda x: dec(x * (1 + rng.normal(0, 0.007)), 0)
    return [row("supplyVolts", "B+ line", "V", read(s["supplyV"]), dec(sound["supplyV"], 0), sig(s["supplyV"], 5)),
            row("otherStages", "B+ line", "part of chart", dec(s["supplyV"] / sound["supplyV"] * (1 + rng.normal(0, 0.02)), 2), 1, sig(s["supplyV"] / sound["supplyV"], 4))]


def chart_row(nominal, vn, s, v, node, meter, rng):
    shown, c_range, c_ohm = meter_reading(nominal, vn, node, "1 kohm/V")
    m = "11 Mohm" if node == "grid" else meter
    got, range_v, ohm = meter_reading(s, v, node, m, rng)
    i = NODES.index(node)
    return {"electrode": node, "chartV": 0 if node == "grid" else jp.maker_rounds(shown), "chartMeterOhm": dec(c_ohm, 0), "sourceOhm": sig(float(source_ohms(nominal, vn)[i]), 4),
            "readV": dec(got, 2 if range_v <= 5 else 1 if range_v <= 50 else 0), "rangeV": range_v, "meterOhm": dec(ohm, 0), "trueV": dec(v[i], 3)}


def build(i, fault):
    rng = rng_for("faults", i)
    kind = int(rng.choice(sorted(FAULTS[fault])))
    d = design(rng, kind, fault)
    line = round(rng.uniform(112, 122), 1)
    nominal = circuit(d, couplingOhm=FAR)
    vn = solve(nominal)
    sound, tol = real_parts(rng, d, line / 117.0)
    ac0 = {k: d[k] for k in ("hz", "loadOhm", "cathodeF", "screenF", "couplingF")}
    ac0["nominalP"] = d["tube"]["P"]
    if kind in PLATE_R:
        ac0["loadOhm"] = 1 / (1 / sound["plateOhm"] + 1 / 470e3)
    s, ac, size = spoil(rng, fault, sound, ac0)
    if kind in PLATE_R and fault in ("plateLoad", "plateOpen"):
        ac["loadOhm"] = 1 / (1 / s["plateOhm"] + 1 / 470e3)
    elif fault == "plateOpen":
        ac["loadOhm"] = 300.0  # the winding hangs free, the plate draws nothing
    v = solve(s)
    meter = "20 kohm/V" if rng.random() < 0.6 else "11 Mohm"
    nodes = [n for n in NODES if (n != "screen" or d.get("screenOhm")) and (n != "prevPlate" or d["couplingF"]) and (n != "bplus" or d["feedOhm"])]
    opts = {"coupled": bool(d["couplingF"]), "bypassed": True, "decoupled": bool(d["feedOhm"]), "nominalP": d["tube"]["P"], "testerA": 8e-3}
    tests = stage_tests(s, sound, opts, rng, meter) + ac_rows(s, ac, sound, ac0, d, rng) + supply_rows(s, sound, rng)
    if d["feedOhm"]:  # readings of its own: those above stay as they were
        tests.append(volts_row("liftDecoupling", {**s, "restA": 0.0}, {**sound, "restA": 0.0}, "plate", meter, rng_for("faults, plate", i)))
    marked = {k: d[k] for k in ("plateOhm", "screenOhm", "screenBleedOhm", "cathodeOhm", "gridOhm", "feedOhm", "cathodeF", "screenF", "couplingF") if d.get(k) and (k != "screenF" or kind in PENTODES)}
    item = {"id": f"fault-{i + 1:03d}", "stage": NAMES[kind], "tube": d["words"], "marked": marked, "toleranceOfParts": tol, "chartLineV": 117, "chartSupplyV": d["supplyV"], "lineV": line, "chartMeter": "1 kohm/V", "meter": meter,
            "chart": [chart_row(nominal, vn, s, v, n, meter, rng) for n in nodes], "followUps": [{"test": t["test"], "at": t["at"], "reads": t["reads"], "sound": t["readsIfSound"]} for t in tests],
            "truth": {"fault": fault, **size, "settledBy": SETTLES[fault], "law": "three halves" if "kp" not in d["tube"] else "Koren", "soundV": {n: dec(x, 3) for n, x in zip(NODES, solve(sound)) if n in nodes}}}
    for r in item["chart"]:
        item["truth"].setdefault("foundV", {})[r["electrode"]] = r.pop("trueV")
    return item, {(t["test"], t["at"]): t["unit"] for t in tests}


def main():
    items, units = [], {}
    names = list(FAULTS)
    for i in range(300):
        item, u = build(i, names[i % len(names)])
        items.append(item)
        for (test, at), unit in u.items():
            units.setdefault(test, {})[at] = unit
    tests = {t: {**c, "units": units[t]} for t, c in catalogue(set(units)).items()}
    head = {"about": "Invented single faults of tube stages, 15 of each of 20 kinds. chart: the maker's volts (1 kohm/V, 300 V range but for cathode and grid, grid 0) and as found; followUps: what each test reads, and would read in the same stage without the fault (sound). followUps' sound and truth are never to be shown to what is under test.",
            "units": "volts to chassis; names end in V, Ohm, F; feedOhm: resistor from the B+ line to the stage, decoupled; null: the meter shows nothing; units of a test by its place in tests", "madeBy": "make_faults.py", "tests": tests}
    write_world("faults.json", head, "faults", items)


if __name__ == "__main__":
    main()
