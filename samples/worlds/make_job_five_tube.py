"""jobs/five-tube-live-chassis.json: a whole job on an invented five-tube set whose chassis is one side of the line."""
import numpy as np
from scipy.optimize import brentq

import job_parts as jp
from if_circuit import Strip, make_can, response_truth
from kit import arr, dec, rng_for, sig, write_world
from make_tracking import Gang, oscillator_hz
from tube_stage import NODES, meter_reading, solve

NAME = "job-five-tube"
IF_HZ = 455e3
PENTAGRID = jp.tube(1500, (100, 100, -0.5, 11e-3), 17, 0.70, remote=True)
REMOTE = jp.tube(1500, (100, 100, -1, 16e-3), 19, 0.22, remote=True)
HIGH = jp.tube(95, (100, 0, -1, 0.4e-3))
POWER = jp.tube(90, (110, 110, -7.5, 53e-3), 8.5, 0.08, knee=15.0)
LINE_UP = [("V1", "pentagrid", "converter", 12.6), ("V2", "remote-cutoff RF pentode", "IF amplifier", 12.6), ("V3", "double diode high-mu triode", "detector, AVC, first AF", 12.6),
           ("V4", "output beam tube", "output", 50.0), ("V5", "half-wave rectifier, indirectly heated", "rectifier", 35.0)]
MARKED = {"V1": {"plateOhm": 45, "screenOhm": 10, "cathodeOhm": 2, "gridOhm": 2.2e6}, "V2": {"plateOhm": 45, "screenOhm": 10, "cathodeOhm": 82, "gridOhm": 2.2e6},
          "V3": {"plateOhm": 330e3, "cathodeOhm": 2, "gridOhm": 6.8e6}, "V4": {"plateOhm": 190, "screenOhm": 10, "cathodeOhm": 150, "gridOhm": 470e3}}
KINDS = {"V1": PENTAGRID, "V2": REMOTE, "V3": HIGH, "V4": POWER}
SUPPLY = {"lineHz": 60, "halfWave": True, "halfV": 117.0, "unequal": 0.0, "halfOhm": 33.0, "addedOhm": 0.0, "perveance": 2.2e-3, "silicon": 0, "c1F": 40e-6, "c1SeriesOhm": 2.0, "c1LeakOhm": 1e9,
          "chokeH": 0.3, "chokeSaturatesA": 10.0, "chokeOhm": 1000.0, "c2F": 40e-6, "bleedOhm": 1e9}
RANGE = (0.525e6, 1.53e6)


def power_side(rng):
    design = {n: jp.stage(KINDS[n], **MARKED[n]) for n in MARKED}
    real = jp.aged(rng, design, 0.1)
    cases = [("chart", design, 1e12, 117.0, dict(SUPPLY)), ("found", real, 3.3e6, 120.3, {**SUPPLY, "c1F": 11e-6, "c1SeriesOhm": 14.0, "c2F": 31e-6, "halfV": 120.3}),
             ("left", real, 5e9, 118.6, {**SUPPLY, "c1F": 44e-6, "c2F": 43e-6, "halfV": 118.6})]

    def solved(stages, leak, v1, v2):
        return jp.solve_set(stages, lambda n: (v1, v2) if n == "V4" else (v2, None), ("V3", "V4", leak))

    def drawer(stages, leak):
        def draw(v1, v2):
            ready, volts = solved(stages, leak, v1, v2)
            amps = {n: jp.currents(ready[n], volts[n]) for n in volts}
            return amps["V4"][0], amps["V4"][1] + sum(a[0] + a[1] for n, a in amps.items() if n != "V4")
        return draw
    got = jp.settle([{"supply": c[4], "draw": drawer(c[1], c[2])} for c in cases])
    out = {}
    for (name, stages, leak, line, supply), g in zip(cases, got):
        ready, volts = solved(stages, leak, g["firstV"], g["secondV"])
        out[name] = {"line": line, "supply": g, "ready": ready, "volts": volts, "circuit": supply}
    return out


def supply_truth(state):
    g = state["supply"]
    return {k: sig(g[k], 5) for k in ("firstV", "secondV", "firstRipplePpV", "secondRipplePpV", "rectifierA", "rectifierPeakA", "rectifierRmsA")}


def supply_reading(rng, state):
    g = state["supply"]
    read = lambda x, part: x * (1 + rng.normal(0, part))
    w = state["line"] ** 2 / 117 * 0.15 * 117 / 122.8 * (117 / state["line"]) ** 0.4 + g["rectifierA"] * g["firstV"] + g["rectifierRmsA"] ** 2 * 33 + g["rectifierA"] * 15
    return {"lineV": dec(state["line"], 1), "firstV": dec(read(g["firstV"], 0.006), 0), "secondV": dec(read(g["secondV"], 0.006), 0), "firstRipplePpV": sig(read(g["firstRipplePpV"], 0.04), 2),
            "secondRipplePpV": sig(read(g["secondRipplePpV"], 0.04), 2), "inputW": dec(read(w, 0.01), 0)}


def heaters(rng, line):
    total = sum(h for *_, h in LINE_UP)
    return [{"tube": p, "markedV": h, "acV": dec(line * h / total * (1 + rng.normal(0, 0.015)), 1)} for p, _, _, h in LINE_UP]


def if_side(rng, side):
    nominal = [(85, 80, 0.9), (80, 55, 0.85)]

    def strip_of(state, offs):
        can_rng = np.random.default_rng(55)
        cans = [make_can(can_rng, IF_HZ, q1, q2, kq, offs[2 * j], offs[2 * j + 1], c_pf=c, cm_pf=0.04, rp=0.6e6 if j == 0 else 0.7e6, rg=2e6 if j == 0 else 200e3)
                for j, ((q1, q2, kq), c) in enumerate(zip(nominal, [(105, 100), (115, 120)]))]
        gm = jp.gm_s(side[state]["ready"]["V2"], side[state]["volts"]["V2"])
        return gm, Strip(cans, [{"gmS": gm, "cgpF": 0.0025e-12}], IF_HZ, drive_s=4.5e-4)
    best = jp.line_up(lambda o: strip_of("left", o)[1], IF_HZ, 4)
    out = {}
    for state, turn, noise in (("found", np.array([-3.1e3, 2.2e3, 4.3e3, -0.8e3]), 0.3), ("left", rng.uniform(-150, 150, 4), 0.2)):
        offs = best + turn
        gm, strip = strip_of(state, offs)
        if not strip.stable():
            raise ArithmeticError("IF strip whistles")
        t = response_truth(strip.db, IF_HZ)
        f = np.round(IF_HZ + np.linspace(-20e3, 20e3, 61), -1)
        truth = {k: dec(v, 1) for k, v in t.items() if k.endswith("Hz") and not isinstance(v, list)}
        truth.update({"peakDb": dec(t["peakDb"], 2), "humps": t["humps"], "gmS": sig(gm, 4), "windingOffHz": [arr(offs[k:k + 2], 0) for k in (0, 2)], "turnedHz": [arr(turn[k:k + 2], 0) for k in (0, 2)]})
        out[state] = {"inputAt": "converter signal grid", "outputDbIs": "volts at the detector for one volt in, small signal", "noiseDb": noise, "frequencyHz": arr(f, 0),
                      "outputDb": arr(strip.db(f) + rng.normal(0, noise, 61), 2), "truth": truth}
    return out


def dial_side(rng):
    lo, hi = RANGE
    ratio = ((hi + IF_HZ) / (lo + IF_HZ)) ** 2
    p = {"padderF": 1.0, "trimmerF": 14e-12, "strayF": 6e-12}
    floor = 10e-12
    at_open = floor + p["trimmerF"] + p["strayF"]
    gang = Gang(floor, at_open * (ratio - 1), 0.95, 2.0, 0.5)  # cut plates: no padder
    p["coilH"] = float(f"{1 / ((2 * np.pi * (hi + IF_HZ)) ** 2 * at_open):.4g}")
    tables = {}
    for state, off in (("found", -0.03), ("left", 0.001)):
        actual = {**p, "coilH": p["coilH"] * (1 + off)}
        rows = []
        for f in (600e3, 800e3, 1000e3, 1200e3, 1400e3):
            x = brentq(lambda t: oscillator_hz(gang(t), actual) - IF_HZ - f, 0, 1)
            clean = oscillator_hz(gang(x), p) - IF_HZ
            rows.append({"signalHz": dec(f, 0), "dialHz": sig(clean * (1 + rng.normal(0, 0.0015)), 4), "truth": {"dialHz": dec(clean, 0)}})
        tables[state] = {"how": "zero beat with known signals", "ranges": [{"range": "broadcast", "rows": rows}]}
    xs = np.linspace(0, 1, 21)
    parts = {"rangeHz": [dec(lo, 0), dec(hi, 0)], "coilH": sig(p["coilH"], 4), "trimmerF": sig(p["trimmerF"], 4), "strayF": sig(p["strayF"], 4), "padder": "none, cut plates"}
    return tables, parts, {"turn": arr(xs, 2), "capacitanceF": [sig(c, 5) for c in gang(xs)]}


def safety(rng, state):
    """Touch current to ground from each point, plug both ways, switch both ways. Switch in the chassis lead before, in the hot lead after."""
    heater_ohm = 140.0  # string cold
    ant = jp.leaky(4.7e-9, 90e3) if state == "found" else jp.leaky(1e-9, 80e6)
    screw = 1e3 if state == "found" else jp.leaky(5e-12, 500e6)
    rows = []
    for way in ("chassis on hot", "chassis on neutral"):
        for switch in ("on", "off"):
            if state == "found":  # switch opens the chassis lead: the chassis then hangs on the other side through the heaters
                on_hot = (way == "chassis on hot") if switch == "on" else (way == "chassis on neutral")
                series = 0.0 if switch == "on" else heater_ohm
            else:
                on_hot = way == "chassis on hot"
                series = 0.0
            for point, y in (("chassis", 1e3), ("knob screw", screw), ("antenna terminal", ant)):
                y = 1 / (1 / y + series)
                v = 120.0 if on_hot else 0.6  # the neutral stands 0.6 V off ground
                i = jp.touch_a(v, 60, y, 0)
                rows.append({"plug": way, "switch": switch, "point": point, "canBeTouched": state == "found" or point != "chassis",
                             "openV": sig(v * abs(10e6 / (10e6 + 1 / y)), 3), "touchA": sig(i * (1 + rng.normal(0, 0.01)), 3), "truth": {"touchA": sig(i, 4)}})
    return {"lineV": 120, "network": "1500 ohm with 0.15 uF across it, point to ground", "openVMeterOhm": 10000000, "limitA": 0.0005, "rows": rows}


def build():
    rng = rng_for(NAME, 0)
    side = power_side(rng)
    rows = jp.chart_table(list(MARKED), side, rng, ("V3", "V4"))
    sweeps = if_side(rng, side)
    dial, oscillator, gang = dial_side(rng)
    pulled = dict(side["found"]["ready"]["V4"])
    pulled["tube"] = {**pulled["tube"], "P": 0.0, "gridP": 0.0}
    v = solve(pulled)
    shown, _, _ = meter_reading(pulled, v, "grid", "11 Mohm", rng)
    five = lambda x: dec(5 * round(x / 5), 0)
    steps = [
        ("look", "dead", {"words": "Chassis is joined to one side of the line through the switch. Two-pin plug that goes in both ways. Grub screws of the knobs bare, back missing. Antenna isolating capacitor is the old paper one. Slugs of both IF cans chewed."},
         {"liveChassis": True}),
        ("safety before", "live", safety(rng, "found"), {"verdict": "fails: bare metal at line volts whichever way the plug goes in, antenna terminal above the limit; on the bench only through an isolating transformer"}),
        ("heaters", "live, through an isolating transformer", {"lineV": 120.3, "rows": heaters(rng, 120.3)}, {"sound": True}),
        ("supply as found", "live, through an isolating transformer", {**supply_reading(rng, side["found"]), "chartFirstV": five(side["chart"]["supply"]["firstV"]), "chartSecondV": five(side["chart"]["supply"]["secondV"])},
         {**supply_truth(side["found"]), "chart": supply_truth(side["chart"]), "fault": "first capacitor 11 uF where 40 uF is marked"}),
        ("voltage chart", "live, through an isolating transformer", {"chartMeter": "1 kohm/V, 300 V range but for cathode and grid", "chartLineV": 117, "foundLineV": 120.3, "leftLineV": 118.6, "voltsTo": "chassis", "rows": rows}, {}),
        ("coupling capacitor, V4 cathode lifted", "live, through an isolating transformer",
         {"words": "V4 can't be pulled: its heater is in the string. Cathode lead lifted instead; grid read.", "at": "V4 grid", "meter": "11 Mohm", "gridV": dec(shown, 2)},
         {"gridV": dec(v[NODES.index("grid")], 3), "leakOhm": 3300000, "V3plateV": dec(v[NODES.index("prevPlate")], 2)}),
        ("IF sweep as found", "live, through an isolating transformer", sweeps["found"], {"fault": "slugs turned"}),
        ("dial as found", "live, through an isolating transformer", dial["found"], {"fault": "oscillator coil 3 % low"}),
        ("work", "dead", {"words": "Both electrolytics renewed. Coupling capacitor V3 to V4 renewed. Antenna isolating capacitor: safety class, 1 nF. Polarised plug, chassis on neutral, switch moved to the hot lead, fuse. Grub screws sunk and filled, back fitted. IF lined up, oscillator slug set."}, {}),
        ("supply as left", "live, through an isolating transformer", supply_reading(rng, side["left"]), supply_truth(side["left"])),
        ("IF sweep as left", "live, through an isolating transformer", sweeps["left"], {}),
        ("dial as left", "live, through an isolating transformer", dial["left"], {"coilOff": 0.001}),
        ("safety after", "live, cabinet closed", safety(rng, "left"), {"verdict": "passes at every point that can be touched; the chassis inside is still one side of the line, and live if an outlet is wired the wrong way"}),
    ]
    head = {"about": "Invented whole job: a five-tube set with its chassis on the line, 117 V 60 Hz. Nothing in it is of any set ever sold. reads: what the person reads; truth: what is behind it.",
            "units": "names end in V, A, Ohm, Hz, Db, W, F, H; openV with a 10 Mohm meter, read first; touchA through the network named; state: dead (unplugged, discharged) or live", "madeBy": "make_job_five_tube.py", "id": "five-tube-live-chassis",
            "set": {"words": "Five-tube set without power transformer, heaters in series, half-wave rectifier, live chassis, one IF stage with two double-tuned cans", "lineV": 117, "lineHz": 60, "ifHz": 455000, "liveChassis": True,
                    "lineUp": [{"place": p, "kind": k, "duty": d, "heaterV": h} for p, k, d, h in LINE_UP], "markedOhm": MARKED, "oscillator": oscillator, "gang": gang,
                    "ifCans": [{"can": "T1", "primaryQ": 85, "secondaryQ": 80, "kq": 0.9}, {"can": "T2", "primaryQ": 80, "secondaryQ": 55, "kq": 0.85}],
                    "supply": {"seriesOhm": 33, "c1F": 40e-6, "filterOhm": 1000, "c2F": 40e-6, "note": "output plate from the first capacitor, all else from the second"}},
            "truth": {"faults": [{"fault": "firstCapacitor", "markedF": 40e-6, "actualF": 11e-6}, {"fault": "couplingLeak", "from": "V3", "to": "V4", "leakOhm": 3300000},
                                 {"fault": "antennaCapacitorLeak", "leakOhm": 90000}, {"fault": "coil", "range": "broadcast", "off": -0.03}, {"fault": "slugsTurned", "turnedHz": sweeps["found"]["truth"]["turnedHz"]}],
                      "actualOhm": {n: {k: sig(s[k], 5) for k in ("plateOhm", "screenOhm", "cathodeOhm", "gridOhm") if s[k] > 2} for n, s in side["found"]["ready"].items()},
                      "plateA": {n: {st: sig(jp.currents(side[st]["ready"][n], side[st]["volts"][n])[0], 4) for st in ("chart", "found", "left")} for n in MARKED}}}
    return head, [{"n": n + 1, "step": a, "state": b, "reads": c, "truth": d} for n, (a, b, c, d) in enumerate(steps)]


if __name__ == "__main__":
    head, steps = build()
    write_world("jobs/five-tube-live-chassis.json", head, "steps", steps)
