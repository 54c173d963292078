"""A whole invented job from a description of a set: every step in the order a careful person works, with what is read and what stands behind it."""
import numpy as np

import accessories
from follow_ups import catalogue, row, stage_tests, supply_tests, volts_row
from job_parts import currents
from kit import dec, rng_for, sig
from whole_power import PART_OF, PoweredSet, node_rows, supply_reading, supply_truth
from whole_rf import Dial, IfSide, drift_log, fig, if_figures, trace
from whole_safety import safety_steps

RIVALS = {
    "couplingLeak": ["gas", "cathodeResistor", "cathodeBypassLeak"], "gas": ["couplingLeak", "weakTube"], "cathodeResistor": ["weakTube", "cathodeBypassLeak", "couplingLeak"],
    "cathodeBypassLeak": ["cathodeResistor", "weakTube"], "screenResistor": ["screenBypassLeak", "weakTube"], "screenBypassLeak": ["screenResistor", "decouplingLeak"],
    "plateLoad": ["weakTube", "feedResistor"], "weakTube": ["cathodeResistor", "plateLoad", "screenResistor"], "feedResistor": ["decouplingLeak", "plateLoad"], "decouplingLeak": ["feedResistor", "screenBypassLeak"],
    "firstCapacitor": ["rectifierWeak", "overload"], "rectifierWeak": ["firstCapacitor", "overload"], "siliconInPlaceOfTube": ["lineHigh", "lightLoad"],
    "padder": ["coil", "trimmer", "ifCentreOff", "pointerSlipped"], "coil": ["padder", "trimmer", "ifCentreOff", "pointerSlipped"], "trimmer": ["coil", "padder", "ifCentreOff", "pointerSlipped"], "slugsTurned": ["coilDamped", "weakTube"],
    "accessoryCapacitor": ["firstCapacitor", "heaterCathodeLeak"], "accessoryOffCentre": ["ifCentreOff", "slugsTurned"], "markerCrystal": ["dialError"], "converterCrystal": ["dialError"],
    "accessoryResistor": ["screenBypassLeak", "weakTube"], "liveChassis": ["lineCapacitorLeak"], "lineCapacitorLeak": ["liveChassis"], "antennaCapacitorLeak": ["liveChassis"]}
SETTLED = {"couplingLeak": "liftCoupling", "gas": "swapTube", "cathodeResistor": "cathodeResistor", "cathodeBypassLeak": "liftCathodeBypass", "screenResistor": "screenResistor", "screenBypassLeak": "liftScreenBypass",
           "plateLoad": "plateLoad", "weakTube": "swapTube", "feedResistor": "feedResistor", "decouplingLeak": "liftDecoupling", "firstCapacitor": "bridgeFirst", "rectifierWeak": "swapRectifier", "siliconInPlaceOfTube": "diodesOut",
           "padder": "dialAtLowEnd", "coil": "dialAtLowEnd", "trimmer": "dialAtLowEnd", "slugsTurned": "sweepIf", "accessoryCapacitor": "bridgeDecoupling", "accessoryOffCentre": "peakAgainstCentre", "markerCrystal": "beatStandard",
           "converterCrystal": "beatStandard", "accessoryResistor": "accessoryResistor", "liveChassis": "touchBothWays", "lineCapacitorLeak": "touchBothWays", "antennaCapacitorLeak": "touchBothWays"}
SUPPLY_FAULTS = ("firstCapacitor", "rectifierWeak", "siliconInPlaceOfTube")


def settled_states(spec, pset, rng):
    """Every state of the power side, settled: chart, found, limiter, after each mend, left, accessory found and left, and the trials at the supply."""
    line, dc = spec["line"], spec["dc"]
    moment = lambda: round(line["foundV"] + rng.normal(0, 0.006) * line["foundV"], 1)
    mended, states = {}, [pset.state("chart", line["nominalV"], nominal=True), pset.state("found", line["foundV"], dc)]
    for k, f in enumerate(dc):
        mended = {**mended, f["id"]: f["mend"]}
        states.append(pset.state(f"after {f['id']}", moment(), dc[k + 1:], mended))
    states.append(pset.state("left", moment(), (), mended))
    if spec.get("accessory"):
        states += [pset.state("accessory found", moment(), spec["accessory"]["dc"], mended, accessory=True), pset.state("accessory left", moment(), (), mended, accessory=True)]
    for f in dc:
        if f["fault"] in SUPPLY_FAULTS:
            rest = [x for x in dc if x is not f]
            good = pset.real_supply["perveance"] * 1.02
            c = f["actualF"] if f["fault"] == "firstCapacitor" else pset.real_supply["c1F"]
            states += [pset.state(f"{f['id']} sound", line["foundV"], rest), pset.state(f"{f['id']} bridged", line["foundV"], dc, extra={"c1F": c + 20e-6, "c1SeriesOhm": 1.0}),
                       pset.state(f"{f['id']} swapped", line["foundV"], dc, extra={"perveance": good, "silicon": 0})]
    rough = pset.rough(states[1])
    lamp_line = moment()
    lamp_v, lamp_a = pset.on_lamp(rough, lamp_line, line["lampW"])
    part = lamp_v / line["nominalV"]
    states.append(pset.state("limiter", lamp_v, dc, heat=max(1 - 1.8 * max(0.97 - part, 0) ** 1.5, 0.2)))
    st = pset.settle(states)
    st["limiter"].update(lampLineV=lamp_line, setV=lamp_v, setA=lamp_a)
    return st


def sound_circuit(f, s, pset):
    """The same stage in the same set without this fault, on the same supply volts."""
    out = {**s, "tube": dict(s["tube"])}
    real, kind = pset.real[f["to"] if kind_is_leak(f) else f["at"]], f["fault"]
    if kind in PART_OF:
        out[PART_OF[kind]] = real[PART_OF[kind]]
    elif kind_is_leak(f):
        out["couplingOhm"] = 5e9
    elif kind == "decouplingLeak":
        out["restA"] = 0.0
    else:
        out["tube"] = dict(real["tube"])
    return out


def kind_is_leak(f):
    return f["fault"] == "couplingLeak"


def dc_follow_ups(f, spec, pset, st, rng):
    found = st["found"]
    if f["fault"] in SUPPLY_FAULTS:
        g = {k: st[f"{f['id']} {k}"] for k in ("sound", "bridged", "swapped")}
        nominal = {**g["sound"]["supply"], "nominalPerveance": spec["supply"]["perveance"]}
        out = supply_tests(found["g"], g["sound"]["g"], (g["bridged"]["g"], g["sound"]["g"]), (g["swapped"]["g"], g["sound"]["g"]), found["supply"], nominal, rng)
        if f["fault"] == "siliconInPlaceOfTube":
            out = [x for x in out if x["test"] != "rectifierTester"] + [row("diodesOut", "rectifier's place", "what is there", "silicon diodes, no resistor", "rectifier tube")]
        if found["heaterV"]:
            part = found["heaterV"] / st["chart"]["heaterV"]
            out.append(row("heaterVolts", "heater", "V", dec(found["heaterV"], 2), dec(found["heaterV"], 2), sig(part, 4)))
        return out
    at = f["to"] if kind_is_leak(f) else f["at"]
    s = found["ready"][at]
    tube, stage = pset.design[at]["tube"], spec["stages"][at]
    opts = {"coupled": any(at == d for _, d in spec["couplings"]), "bypassed": True, "decoupled": stage.get("feedOhm", 0) > 2, "series": spec.get("liveChassis"), "nominalP": tube["P"], "testerA": 8e-3}
    sound = sound_circuit(f, s, pset)
    out = stage_tests(s, sound, opts, rng)
    if f["fault"] == "decouplingLeak":  # the feed node is no row of the chart, the plate is
        out.append(volts_row("liftDecoupling", {**s, "restA": 0.0}, {**sound, "restA": 0.0}, "plate", "20 kohm/V", rng))
    return out


def open_follow_ups(spec, pset, st, faults, rng):
    """place -> rows (test, at, unit, reads): what each test would read at each tube's place, the supply and wherever a fault is, all faults still in."""
    out = {}
    for f in faults:
        mine = out.setdefault(f.get("to") or f["at"], [])
        had = {(t["test"], t["at"]) for t in mine}
        mine += [t for t in f["followUps"] if (t["test"], t["at"]) not in had]
    for n, s in st["found"]["ready"].items():
        if n not in out:
            opts = {"coupled": any(n == d for _, d in spec["couplings"]), "bypassed": True, "decoupled": spec["stages"][n].get("feedOhm", 0) > 2, "series": spec.get("liveChassis"), "nominalP": pset.design[n]["tube"]["P"], "testerA": 8e-3}
            out[n] = stage_tests(s, s, opts, rng)
    return {place: [{k: t[k] for k in ("test", "at", "unit", "reads")} for t in rows] for place, rows in out.items()}


def phase_of(step):
    if step.startswith("follow-up"):
        return "followUp"
    if step.startswith("mend") or step.endswith("mended"):
        return "mend"
    return "asLeft" if step.endswith(" left") or step in ("cable on and off", "bandspread by markers") else "asFound"


def settling_reading(f, tests):
    """The readings of the test that settles it, as a step of the job shows them."""
    return [{k: t[k] for k in ("test", "at", "unit", "reads")} for t in tests if t["test"] == SETTLED[f["fault"]]]


def places_of(f):
    return [x for x in (f.get("from"), f.get("to"), f.get("at")) if x and x != "supply"]


def ohm_rows(spec, pset, st, rng):
    rows = []
    for tube, key in spec["ohms"]:
        s = st["found"]["ready"][tube]
        key2 = "supplyOhm" if key == "feedOhm" else key
        true = s[key2]
        circuit = {"cathodeOhm": 1 / (1 / true + 1 / s["cathodeLeakOhm"]), "screenOhm": 1 / (1 / true + 1 / (s["screenLeakOhm"] + 25e3))}.get(key, true)
        rows.append({"tube": tube, "part": key, "markedOhm": spec["stages"][tube][key], "readOhm": sig(circuit * (1 + rng.normal(0, 0.007)), 3), "how": "in circuit", "truth": {"ohm": sig(true, 5)}})
    for part, marked, true in spec["supplyOhms"]:
        rows.append({"tube": None, "part": part, "markedOhm": marked, "readOhm": sig(true * (1 + rng.normal(0, 0.007)), 3), "how": "in circuit", "truth": {"ohm": sig(true, 5)}})
    return rows


def capacitor_rows(spec, rng):
    return [{"part": p, "markedF": m, "readF": sig(t * (1 + rng.normal(0, 0.015)), 3), "seriesOhm": sig(esr * (1 + rng.normal(0, 0.05)), 2), "how": "one end lifted, 1 V", "truth": {"F": sig(t, 4), "seriesOhm": esr, **more}}
            for p, m, t, esr, more in spec["capacitors"]]


def limiter_step(spec, pset, st, rng):
    x = st["limiter"]
    read = lambda v, part=0.006: v * (1 + rng.normal(0, part))
    return {"lampW": spec["line"]["lampW"], "lampRatedV": spec["line"]["lampV"], "lineV": dec(read(x["lampLineV"], 0.002), 1), "afterMin": 3, "setV": dec(read(x["setV"]), 1), "lineA": sig(read(x["setA"], 0.01), 3),
            "firstV": dec(read(x["g"]["firstV"]), 0), "words": "lamp bright for a second, then dull; B+ comes up and stands"}, \
        {"setV": sig(x["setV"], 5), "lineA": sig(x["setA"], 4), "firstV": sig(x["g"]["firstV"], 5), "lineV": x["lampLineV"]}


def powered(spec, rng):
    """The set with its parts, and its power side settled in every state: what takes the time."""
    pset = PoweredSet(spec, rng)
    return pset, settled_states(spec, pset, rng)


def build(spec, index=0, power=None):
    """The job of one index; index 0 is the one that is kept. power: a set settled before, of which all is read anew."""
    rng = rng_for("whole-job " + spec["id"], index)
    pset, st = power or powered(spec, rng)
    left = st["left"]
    ifs, dial = IfSide(spec, left), Dial(spec, rng)
    offs_left = ifs.best + rng.uniform(-150, 150, len(ifs.best))
    offs_found = ifs.best + np.array(spec["if"]["turnedHz"], float)
    live = "live, through an isolating transformer" if spec.get("liveChassis") else "live"
    steps, faults = [], []
    put = lambda name, state, reads, truth=None, figures=(): steps.append({"step": name, "phase": phase_of(name), "state": state, "reads": reads, "truth": {**(truth or {}), **({"figures": list(figures)} if figures else {})}})
    before, after, safety_faults = safety_steps(spec, rng)
    put("look", "dead", {"words": spec["look"]}, spec.get("lookTruth", {}))
    put("ohms with no power", "dead", {"rows": ohm_rows(spec, pset, st, rng), **before["dead"]["reads"]}, before["dead"]["truth"])
    put("capacitors", "dead", {"rows": capacitor_rows(spec, rng)})
    put("first power behind a lamp", live, *limiter_step(spec, pset, st, rng))
    put("safety as found", live, before["live"]["reads"], before["live"]["truth"], before["live"]["figures"])
    put("supply as found", live, supply_reading(pset, st["found"], rng, st["chart"]), {**supply_truth(pset, st["found"]), "chart": supply_truth(pset, st["chart"])}, supply_figures(st["found"], "found"))
    hide = spec.get("hide", ())
    meter = spec["meter"]
    chart = {"chartMeter": spec["chartMeter"] + ", 300 V range but for cathode and grid", "chartLineV": spec["line"]["nominalV"], "voltsTo": "chassis"}
    put("voltage chart as found", live, {**chart, "lineV": st["found"]["lineV"], "rows": node_rows(pset, st["found"], rng, meter, hide=hide, chart=st["chart"])})
    for f in spec["dc"]:
        tests = dc_follow_ups(f, spec, pset, st, rng)
        put(f"follow-up {f['id']}", live, {"test": SETTLED[f["fault"]], "readings": settling_reading(f, tests)}, {"fault": f["id"]})
        res = st[f"after {f['id']}"]
        put(f"mend {f['id']}", "dead, then " + live, {"did": f["did"], "supply": supply_reading(pset, res, rng), "rows": node_rows(pset, res, rng, meter, places_of(f) or spec["watch"], hide=hide, chart=st["chart"])}, supply_truth(pset, res))
        faults.append({**{k: v for k, v in f.items() if k not in ("mend", "did")}, "foundIn": "voltage chart as found", "mendedIn": f"mend {f['id']}", "followUps": tests})
    put("supply as left", live, supply_reading(pset, left, rng, st["chart"]), supply_truth(pset, left), supply_figures(left, "left"))
    put("voltage chart as left", live, {**chart, "lineV": left["lineV"], "rows": node_rows(pset, left, rng, meter, hide=hide, chart=st["chart"])})
    tr_rows, _ = trace(spec, ifs, left, offs_found, rng)
    put("signal tracing", live, {"for": "50 mW out", "modulation": 0.3, "volume": "full", "rows": tr_rows}, {}, [sensitivity(tr_rows, "found")])
    sw = ifs.sweep(ifs.strip(left, offs_found), rng, 0.25, spec["if"]["spanHz"], 61)
    put("IF sweep as found", live, *sw, if_figures(sw[1], "found"))
    turned = [dec(x, 0) for x in spec["if"]["turnedHz"]]
    best = ifs.sweep(ifs.strip(left, offs_left), rng, 0.2, spec["if"]["spanHz"], 61)
    w = lambda t: t["width6Hz"]
    if not spec["if"].get("drifted"):  # windings a little off with age are no fault
        faults.append({"id": "slugs", "fault": "slugsTurned", "at": "IF cans", "turnedHz": turned, "foundIn": "IF sweep as found", "mendedIn": "IF sweep as left",
                       "followUps": [row("sweepIf", "6 dB width", "Hz", dec(w(sw[1]) * (1 + rng.normal(0, 0.02)), -1), dec(w(best[1]), 0), sig(w(sw[1]), 5)),
                                     row("sweepIf", "peak less centre", "Hz", dec(sw[1]["peakHz"] - spec["if"]["hz"] + rng.normal(0, 40), -1), dec(best[1]["peakHz"] - spec["if"]["hz"], 0), dec(sw[1]["peakHz"] - spec["if"]["hz"], 1))]})
    put("IF sweep as left", live, {"did": "slugs turned for the loudest at the centre, round and round", **best[0]}, best[1], if_figures(best[1], "left"))
    tr_rows, tr_gains = trace(spec, ifs, left, offs_left, rng)
    put("signal tracing as left", live, {"for": "50 mW out", "modulation": 0.3, "volume": "full", "rows": tr_rows}, {}, [sensitivity(tr_rows, "left")] + [fig(n + " left", v, "dB", 4) for n, v in tr_gains])
    bad = spec["dialFault"]
    for when, off in (("found", bad["off"]), ("left", bad["leftOff"])):
        table, errs = dial.table(off, rng)
        put(f"dial as {when}", live, {"how": "zero beat with known signals", **({"did": bad["did"]} if when == "left" else {}), "ranges": table}, {"partOff": off}, [fig(f"{n} {when}", v, "%", 4) for n, v in errs])
        if when == "found":
            mine = next(t for t in table if t["range"] == bad["range"])["rows"]
            err = lambda r: (r["dialHz"] / r["signalHz"] - 1) * 100
            faults.append({"id": bad["part"], "fault": bad["part"], "at": f"range {bad['range']}", "off": off, "foundIn": "dial as found", "mendedIn": "dial as left",
                           "followUps": [row("dialAtLowEnd", f"{r['signalHz'] / 1e3:g} kHz", "% off", dec(err(r), 2), 0, dec((r["truth"]["dialHz"] / r["signalHz"] - 1) * 100, 3)) for r in mine]
                           + [row("sweepIf", "peak less centre", "Hz", dec(best[1]["peakHz"] - spec["if"]["hz"] + rng.normal(0, 40), -1), dec(best[1]["peakHz"] - spec["if"]["hz"], 0))]})
    if spec.get("accessory"):
        more, acc_tests = accessories.KINDS[spec["accessory"]["kind"]](spec, pset, ifs, st, offs_left, rng)
        for name, state, reads, truth, figures in more:
            put(name, state.replace("live", live), reads, truth, figures)
        for f in spec["accessory"]["faults"]:
            faults.append({**f, "foundIn": "accessory as found", "mendedIn": "accessory mended", "followUps": acc_tests[f["fault"]]})
    reads, truth, figures = drift_log(rng, *spec["drift"])
    put("drift as left", live, reads, truth, figures)
    put("safety as left", after["state"], after["reads"], after["truth"], after["figures"])
    for f in faults + safety_faults:
        f.update(rivals=RIVALS[f["fault"]], settledBy=SETTLED[f["fault"]])
    ask = open_follow_ups(spec, pset, st, faults + safety_faults, rng_for("whole-follow-ups " + spec["id"], index))
    return head_of(spec, pset, st, dial, (faults + safety_faults, ask), steps), [{"n": n + 1, **s} for n, s in enumerate(steps)]


def sensitivity(rows, when):
    """IF volts at the mixer's grid for 50 mW out."""
    return fig(f"mixerGridFor50mWV {when}", rows[-1]["truth"]["inputV"], "V", 4)


def supply_figures(res, when):
    g = res["g"]
    out = [fig(f"bplusFirstV {when}", g["firstV"], "V"), fig(f"bplusSecondV {when}", g["secondV"], "V"), fig(f"rippleSecondPpV {when}", g["secondRipplePpV"], "V peak to peak", 4)]
    return out + ([fig(f"heaterV {when}", res["heaterV"], "V")] if res["heaterV"] else [])


def head_of(spec, pset, st, dial, found_out, steps):
    faults, ask = found_out
    ranges, gang = dial.described()
    marked = {n: {k: s[k] for k in ("plateOhm", "screenOhm", "cathodeOhm", "gridOhm", "feedOhm", "F", "feed", "screenFeed", "accessory") if k in s} for n, s in spec["stages"].items()}
    acc = spec.get("accessory")
    figures = [{"n": n + 1, **f} for n, s in enumerate(steps) for f in s["truth"].get("figures", [])]
    actual = {n: {k: sig(s[k], 5) for k in ("plateOhm", "screenOhm", "cathodeOhm", "gridOhm", "supplyOhm") if s[k] > 2} for n, s in pset.real.items()}
    return {"about": f"Invented whole job: {spec['title']}. Nothing in it is of any set ever sold. reads: what the person reads; truth: what is behind it, never to be shown to what is under test.",
            "units": "names end in V, A, Ohm, Hz, Db, W, F, H, Min, PpV (volts peak to peak), Div; state: dead (unplugged, discharged) or live; F of a stage is its decoupling capacitor after feedOhm", "madeBy": "make_whole_jobs.py", "id": spec["id"],
            "set": {"words": spec["title"], "lineV": spec["line"]["nominalV"], "lineHz": spec["supply"]["lineHz"], "ifHz": spec["if"]["hz"], "liveChassis": bool(spec.get("liveChassis")),
                    "lineUp": [{"place": p, "kind": k, "duty": d, "heaterA": a, **({"heaterV": h[0]} if h else {})} for p, k, d, *h, a in spec["tubes"]], "marked": marked, "couplings": [{"from": a, "to": b} for a, b in spec["couplings"]],
                    "supply": {k: v for k, v in spec["supply"].items() if k in ("halfV", "halfOhm", "c1F", "chokeH", "chokeOhm", "c2F", "bleedOhm", "halfWave")}, "supplyWords": spec["supplyWords"], "inputW": spec["line"]["plateW"],
                    "chartMeter": spec["chartMeter"], "ranges": ranges, "gang": gang, "ifCans": [{"can": f"T{j + 1}", "primaryQ": a, "secondaryQ": b, "kq": k} for j, (a, b, k) in enumerate(spec["if"]["cans"])],
                    "accessory": {k: v for k, v in acc.items() if k in ("kind", "words", "cable", "crystalHz", "places", "decouplingF")} if acc else None},
            "tests": catalogue({t["test"] for rows in ask.values() for t in rows}), "followUps": ask,
            "truth": {"faults": faults, "figures": figures, "actualOhm": actual,
                      "cathodeA": {w: {n: sig(float(sum(currents(r, st[w]["volts"][n])[:2])), 5) for n, r in st[w]["ready"].items()} for w in ("chart", "found", "left", "accessory found", "accessory left") if w in st}}}
