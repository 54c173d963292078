"""jobs/ten-tube-117v.json: a whole job on an invented ten-tube set for 117 V 60 Hz, from first look to last safety reading."""
import numpy as np
from scipy.optimize import brentq

import job_parts as jp
from if_circuit import Strip, make_can, response_truth
from kit import arr, dec, rng_for, sig, write_world
from make_drift import Law
from make_tracking import Gang, design_for, oscillator_hz
from tube_stage import NODES, meter_reading, solve

NAME = "job-ten-tube"
IF_HZ = 455e3
REMOTE = jp.tube(2200, (250, 100, -3, 11.8e-3), 19, 0.22, remote=True)
MIXER = jp.tube(2000, (250, 100, -1.5, 11.0e-3), 17, 0.68, remote=True)
SHARP = jp.tube(2500, (250, 100, -3, 3.8e-3), 20, 0.21)
MEDIUM = jp.tube(20, (250, 0, -8, 9e-3))
HIGH = jp.tube(95, (250, 0, -2, 0.9e-3))
POWER = jp.tube(180, (250, 250, -12.5, 49.5e-3), 9.5, 0.09, knee=22.0)
LINE_UP = [("V1", "remote-cutoff RF pentode", "RF amplifier"), ("V2", "pentagrid", "mixer"), ("V3", "medium-mu triode", "oscillator"), ("V4", "remote-cutoff RF pentode", "first IF amplifier"),
           ("V5", "remote-cutoff RF pentode", "second IF amplifier"), ("V6", "double diode", "second detector and AVC"), ("V7", "sharp-cutoff RF pentode", "BFO"),
           ("V8", "high-mu triode", "first AF amplifier"), ("V9", "output pentode", "output"), ("V10", "full-wave rectifier, directly heated", "rectifier")]
RANGES = {"A": (0.54e6, 1.38e6), "B": (1.33e6, 3.35e6), "C": (3.2e6, 8.0e6), "D": (7.7e6, 18.8e6)}
MARKED = {"V1": {"plateOhm": 2200, "screenOhm": 56e3, "cathodeOhm": 330, "gridOhm": 1e6}, "V2": {"plateOhm": 1000, "screenOhm": 18e3, "cathodeOhm": 220, "gridOhm": 1e6},
          "V3": {"plateOhm": 22e3, "cathodeOhm": 470, "gridOhm": 47e3}, "V4": {"plateOhm": 2200, "screenOhm": 47e3, "cathodeOhm": 68, "gridOhm": 470e3},
          "V5": {"plateOhm": 2200, "screenOhm": 56e3, "cathodeOhm": 330, "gridOhm": 100e3}, "V7": {"plateOhm": 100e3, "screenOhm": 150e3, "cathodeOhm": 1000, "gridOhm": 47e3},
          "V8": {"plateOhm": 220e3, "cathodeOhm": 2700, "gridOhm": 470e3}, "V9": {"plateOhm": 350, "screenOhm": 470, "cathodeOhm": 270, "gridOhm": 470e3}}
KINDS = {"V1": REMOTE, "V2": MIXER, "V3": MEDIUM, "V4": REMOTE, "V5": REMOTE, "V7": SHARP, "V8": HIGH, "V9": POWER}
SUPPLY = {"lineHz": 60, "halfV": 310.0, "unequal": 0.0, "halfOhm": 110.0, "addedOhm": 0.0, "perveance": 3.5e-4, "silicon": 0, "c1F": 10e-6, "c1SeriesOhm": 1.0, "c1LeakOhm": 1e9,
          "chokeH": 10.0, "chokeSaturatesA": 0.25, "chokeOhm": 260.0, "c2F": 20e-6, "bleedOhm": 33e3}


def power_side(rng):
    """Chart, as found, as left and (for comparison) as left with the rectifier tube back: supply and DC of every stage together."""
    design = {n: jp.stage(KINDS[n], **MARKED[n]) for n in MARKED}
    real = jp.aged(rng, design, 0.1)
    found = {n: dict(s) for n, s in real.items()}
    found["V4"]["cathodeOhm"] = 330 * 1.012
    left = {n: dict(s) for n, s in real.items()}
    left["V4"]["cathodeOhm"], left["V9"]["couplingOhm"] = 68 * 0.99, 5e9
    off = {"c1F": 10.8e-6, "c2F": 19e-6, "unequal": 0.006, "chokeH": 9.4, "halfOhm": 114.0}
    sup = lambda line, **o: {**SUPPLY, **o, "halfV": 310.0 * line / 117.0}
    cases = [("chart", design, 1e12, 117.0, sup(117.0)), ("found", found, 12e6, 119.6, sup(119.6, silicon=1, **off)),
             ("left", left, 5e9, 118.2, sup(118.2, silicon=1, addedOhm=270.0, **off)), ("tube back", left, 5e9, 118.2, sup(118.2, perveance=3.3e-4, **off))]

    def drawer(stages, leak):
        def draw(v1, v2):
            ready, volts = jp.solve_set(stages, lambda n: (v2, None), ("V8", "V9", leak))
            return 1e-9, sum(sum(jp.currents(ready[n], volts[n])[:2]) for n in volts)
        return draw
    got = jp.settle([{"supply": c[4], "draw": drawer(c[1], c[2])} for c in cases])
    out = {}
    for (name, stages, leak, line, supply), g in zip(cases, got):
        ready, volts = jp.solve_set(stages, lambda n: (g["secondV"], None), ("V8", "V9", leak))
        out[name] = {"line": line, "supply": g, "ready": ready, "volts": volts, "circuit": supply}
    return out


def watts(state, silicon):
    """Line input: heaters at the line's volts, B+ power with winding and rectifier losses, core."""
    h = 6.3 * (8 * 0.3 + 0.45) + (0 if silicon else 5.0 * 2.0)
    g = state["supply"]
    dc = g["firstV"] * g["rectifierA"] + g["rectifierRmsA"] ** 2 * (state["circuit"]["halfOhm"] + state["circuit"]["addedOhm"]) + (0.6 if silicon else 40) * g["rectifierA"]
    return (h * 1.12 + 7) * (state["line"] / 117) ** 2 + dc


def supply_reading(rng, state, silicon):
    g = state["supply"]
    read = lambda x, part: x * (1 + rng.normal(0, part))
    return {"lineV": dec(state["line"], 1), "firstV": dec(read(g["firstV"], 0.006), 0), "secondV": dec(read(g["secondV"], 0.006), 0),
            "secondRipplePpV": sig(read(g["secondRipplePpV"], 0.04), 2), "firstRipplePpV": sig(read(g["firstRipplePpV"], 0.04), 2), "inputW": dec(read(watts(state, silicon), 0.01), 0)}


def supply_truth(state):
    g = state["supply"]
    return {k: sig(g[k], 5) for k in ("firstV", "secondV", "firstRipplePpV", "secondRipplePpV", "loadA", "rectifierPeakA", "rectifierRmsA")}


def if_side(rng, side):
    nominal = [(78, 82, 0.85), (75, 84, 0.9), (72, 60, 0.8)]
    turned = np.array([3.6e3, -1.2e3, -4.4e3, 0.9e3, 2.1e3, 4.9e3])
    caps = [(110, 115), (112, 108), (118, 120)]

    def strip_of(state, offs):
        can_rng = np.random.default_rng(77)  # same cans both times
        cans = [make_can(can_rng, IF_HZ, q1, q2, kq, offs[2 * j], offs[2 * j + 1], c_pf=c, cm_pf=0.03, rp=0.8e6, rg=1.5e6 if j < 2 else 220e3)
                for j, ((q1, q2, kq), c) in enumerate(zip(nominal, caps))]
        gm = [jp.gm_s(side[state]["ready"][n], side[state]["volts"][n]) for n in ("V4", "V5")]
        return gm, Strip(cans, [{"gmS": g, "cgpF": 0.0025e-12} for g in gm], IF_HZ, drive_s=4e-4)
    best = jp.line_up(lambda o: strip_of("left", o)[1], IF_HZ, 6)
    out = {}
    for state, turn, f_noise in (("found", turned, 0.25), ("left", rng.uniform(-150, 150, 6), 0.2)):
        offs = best + turn
        gm, strip = strip_of(state, offs)
        if not strip.stable():
            raise ArithmeticError("IF strip whistles")
        t = response_truth(strip.db, IF_HZ)
        f = np.round(IF_HZ + np.linspace(-18e3, 18e3, 61), -1)
        y = strip.db(f) + rng.normal(0, f_noise, 61)
        truth = {k: dec(v, 1) for k, v in t.items() if k.endswith("Hz") and not isinstance(v, list)}
        truth.update({"peakDb": dec(t["peakDb"], 2), "humps": t["humps"], "gmS": [sig(g, 4) for g in gm], "windingOffHz": [arr(offs[k:k + 2], 0) for k in (0, 2, 4)], "turnedHz": [arr(turn[k:k + 2], 0) for k in (0, 2, 4)]})
        out[state] = {"inputAt": "mixer grid", "outputDbIs": "volts at the detector for one volt in, small signal", "noiseDb": f_noise, "frequencyHz": arr(f, 0), "outputDb": arr(y, 2), "truth": truth}
    return out


def dial_side(rng):
    gang = Gang(12e-12, 372e-12, 1.0, 2.2, 0.55)
    found, left, designs = [], [], {}
    for name, (lo, hi) in RANGES.items():
        p, _ = design_for(rng, lo, hi, IF_HZ, gang)
        designs[name] = {"rangeHz": [dec(lo, 0), dec(hi, 0)], **{k: sig(v, 4) for k, v in p.items()}}
        step = {"A": 100e3, "B": 500e3, "C": 1e6, "D": 2e6}[name]
        marks = [f for f in np.arange(step, hi, step) if lo * 1.04 < f < hi * 0.97]
        marks = marks if len(marks) <= 5 else [marks[i] for i in np.round(np.linspace(0, len(marks) - 1, 5)).astype(int)]
        for where, off in ((found, -0.08 if name == "A" else 0.0), (left, 0.002 if name == "A" else 0.0)):
            actual = {**p, "padderF": p["padderF"] * (1 + off)}
            tuned = lambda x: oscillator_hz(gang(x), actual) - IF_HZ
            dial = lambda x: oscillator_hz(gang(x), p) - IF_HZ
            rows = []
            for f in marks:
                clean = dial(brentq(lambda x: tuned(x) - f, 0, 1))
                rows.append({"signalHz": dec(f, 0), "dialHz": sig(clean * (1 + rng.normal(0, 0.001)), 4), "truth": {"dialHz": dec(clean, 0)}})
            where.append({"range": name, "rows": rows})
    xs = np.linspace(0, 1, 21)
    return found, left, designs, {"turn": arr(xs, 2), "capacitanceF": [sig(c, 5) for c in gang(xs)]}


def drift_log(rng):
    law = Law()
    law.exponential(-1850.0, 4.2)
    law.exponential(-2600.0, 24.0)
    t = np.arange(2.0, 75.1, 1.0)
    y = 5.0e6 - law.left(t) + law.left(0.0) + rng.normal(0, 6, len(t))
    return {"signalHz": 5000000, "noiseHz": 6, "timeMin": arr(t, 0), "frequencyHz": arr(y, 0),
            "truth": {"laws": [p[0] for p in law.parts], "stillToComeHz": dec(law.left(75.0), 1), "rateAtEndHzPerMin": sig(law.rate(75.0), 4), "totalFromSwitchOnHz": dec(law.left(0.0), 1)}}


def safety(rng, hot, neutral, insulation_ohm, extra):
    rows = []
    for way, a, b in (("as plugged", hot, neutral), ("other way round", neutral, hot)):
        i = jp.touch_a(120.0, 60, a, b)
        rows.append({"plug": way, "set": "switched on", "touchA": sig(i * (1 + rng.normal(0, 0.01)), 3), "truth": {"touchA": sig(i, 4)}})
    return {"lineV": 120, "network": "1500 ohm with 0.15 uF across it, chassis to ground", "limitA": 0.0005, "rows": rows, "insulationOhm": sig(insulation_ohm, 3), "insulationTestV": 500, **extra}


def build():
    rng = rng_for(NAME, 0)
    side = power_side(rng)
    rows = jp.chart_table(list(MARKED), side, rng, ("V8", "V9"), hide={("V3", "grid")})
    sweeps = if_side(rng, side)
    dial_found, dial_left, oscillators, gang = dial_side(rng)
    pulled = side["found"]["ready"]["V9"]
    pulled = {**pulled, "tube": {**pulled["tube"], "P": 0.0, "gridP": 0.0}}  # output tube out of its socket
    v = solve(pulled)
    shown, _, ohm = meter_reading(pulled, v, "grid", "11 Mohm", rng)
    old_bypass = (jp.leaky(0.05e-6, 95e3), jp.leaky(0.022e-6, 2.2e6))
    new = (jp.leaky(2.2e-9 + 350e-12, 60e6), jp.leaky(2.2e-9 + 250e-12, 60e6))
    w = lambda t: {"words": t}
    steps = [
        ("look", "dead", w("Two-wire cord, cracked; no fuse. Paper capacitors throughout. Rectifier V10 is gone: two silicon diodes are soldered across its socket, no resistor with them. "
                           "V4 cathode resistor is banded orange orange brown; the diagram says 68 ohm. Cement broken on the slugs of all IF cans."), {"silicon": True, "addedOhm": 0}),
        ("safety before", "dead and live", safety(rng, *old_bypass, 0.09e6, {"cord": "two-wire", "fuse": "none"}), {"verdict": "fails: touch current above the limit both ways, insulation below 1 megohm"}),
        ("resistors cold", "dead", {"rows": [{"part": "V4 cathode", "markedOhm": 68, "readOhm": 334}, {"part": "V9 cathode", "markedOhm": 270, "readOhm": dec(side["found"]["ready"]["V9"]["cathodeOhm"], 0)},
                                             {"part": "V9 grid leak", "markedOhm": 470000, "readOhm": sig(side["found"]["ready"]["V9"]["gridOhm"], 3)}]},
         {"V4 cathode": dec(side["found"]["ready"]["V4"]["cathodeOhm"], 1)}),
        ("supply as found", "live", {**supply_reading(rng, side["found"], True), "chartFirstV": dec(5 * round(side["chart"]["supply"]["firstV"] / 5), 0), "chartSecondV": dec(5 * round(side["chart"]["supply"]["secondV"] / 5), 0)},
         {**supply_truth(side["found"]), "chart": supply_truth(side["chart"])}),
        ("voltage chart", "live", {"chartMeter": "1 kohm/V, 300 V range but for cathode and grid", "chartLineV": 117, "foundLineV": 119.6, "leftLineV": 118.2, "rows": rows}, {}),
        ("coupling capacitor, V9 pulled", "live", {"at": "V9 grid", "meter": "11 Mohm", "gridV": dec(shown, 2)},
         {"gridV": dec(v[NODES.index("grid")], 3), "leakOhm": 12e6, "V8plateV": dec(v[NODES.index("prevPlate")], 1)}),
        ("IF sweep as found", "live", sweeps["found"], {"fault": "slugs turned; V4 cathode 330 ohm takes gain"}),
        ("dial as found", "live", {"how": "zero beat with a crystal calibrator", "ranges": dial_found}, {"fault": "padder of range A 8 % low"}),
        ("work", "dead", {"words": "270 ohm 25 W wire-wound put in series with the diodes. Coupling capacitor V8 to V9 renewed. V4 cathode resistor 68 ohm. Padder of range A set up. IF lined up at 455 kHz. Three-wire cord, fuse 1 A, "
                                   "line bypass capacitors of safety class 2.2 nF."}, {}),
        ("supply as left", "live", supply_reading(rng, side["left"], True), {**supply_truth(side["left"]), "withRectifierTubeBack": supply_truth(side["tube back"])}),
        ("IF sweep as left", "live", sweeps["left"], {}),
        ("dial as left", "live", {"how": "zero beat with a crystal calibrator", "ranges": dial_left}, {"padderOff": 0.002}),
        ("drift as left", "live", drift_log(rng), {}),
        ("safety after", "dead and live", safety(rng, *new, 48e6, {"cord": "three-wire", "fuse": "1 A", "groundBondOhm": 0.07, "note": "ground wire lifted for the touch reading only"}), {"verdict": "passes"}),
    ]
    out = [{"n": n + 1, "step": a, "state": b, "reads": c, "truth": d} for n, (a, b, c, d) in enumerate(steps)]
    head = {"about": "Invented whole job: a ten-tube set for 117 V 60 Hz. Nothing in it is of any set ever sold. reads: what the person reads; truth: what is behind it.",
            "units": "names end in V, A, Ohm, Hz, Db, W, F, H, Min; state: dead (unplugged, discharged) or live", "madeBy": "make_job_ten_tube.py", "id": "ten-tube-117v",
            "set": {"words": "Ten-tube communications set, power transformer, one RF stage, separate oscillator, two IF stages with three double-tuned cans, BFO", "lineV": 117, "lineHz": 60, "ifHz": 455000,
                    "lineUp": [{"place": p, "kind": k, "duty": d} for p, k, d in LINE_UP], "markedOhm": MARKED, "ranges": oscillators, "gang": gang,
                    "ifCans": [{"can": f"T{j + 1}", "primaryQ": q1, "secondaryQ": q2, "kq": kq} for j, (q1, q2, kq) in enumerate([(78, 82, 0.85), (75, 84, 0.9), (72, 60, 0.8)])],
                    "supply": {k: SUPPLY[k] for k in ("halfV", "halfOhm", "c1F", "chokeH", "chokeOhm", "c2F", "bleedOhm")}},
            "truth": {"faults": [{"fault": "couplingLeak", "from": "V8", "to": "V9", "leakOhm": 12000000}, {"fault": "siliconInPlaceOfTube", "addedOhm": 0},
                                 {"fault": "wrongResistor", "at": "V4 cathode", "markedOhm": 68, "fittedOhm": 330}, {"fault": "padder", "range": "A", "off": -0.08},
                                 {"fault": "slugsTurned", "turnedHz": sweeps["found"]["truth"]["turnedHz"]}],
                      "actualOhm": {n: {k: sig(s[k], 5) for k in ("plateOhm", "screenOhm", "cathodeOhm", "gridOhm") if s[k] > 2} for n, s in side["found"]["ready"].items()},
                      "plateA": {n: {st: sig(jp.currents(side[st]["ready"][n], side[st]["volts"][n])[0], 4) for st in ("chart", "found", "left")} for n in MARKED}}}
    return head, out


if __name__ == "__main__":
    head, steps = build()
    write_world("jobs/ten-tube-117v.json", head, "steps", steps)
