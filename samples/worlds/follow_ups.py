"""Follow-up tests at one place: what each reads with a fault in, and what it would read in the same set without that fault.
Minutes are common practice, no source: they count getting there, the reading and putting back. mustOpen: the underside has to be reached."""
import numpy as np

from kit import dec, sig
from tube_stage import METERS, NODES, meter_reading, range_for, solve

FAR = 1e12
# test: (words, minutes, mustOpen, live or dead, fault kinds it is about: sound reading rules them out, a reading off settles it)
TESTS = {
    "pullTubeReadGrid": ("tube out of its socket, grid read with 11 Mohm", 3, True, "live", ["couplingLeak"]),
    "liftCoupling": ("driver's end of the coupling capacitor lifted, grid and cathode read", 10, True, "live", ["couplingLeak", "gas"]),
    "leakOfCoupling": ("coupling capacitor out of circuit, leak at its working volts", 12, True, "dead", ["couplingLeak"]),
    "gridResistor": ("grid resistor out of circuit", 8, True, "dead", ["gridLeakOpen"]),
    "groundGrid": ("grid clipped to ground, cathode read", 3, True, "live", ["couplingLeak", "gas"]),
    "cathodeResistor": ("cathode resistor out of circuit", 8, True, "dead", ["cathodeResistor", "cathodeOpen"]),
    "cathodeToChassis": ("cathode to chassis in circuit, off, ohms", 4, True, "dead", ["cathodeResistor", "cathodeOpen", "cathodeBypassLeak", "cathodeBypassShort"]),
    "liftCathodeBypass": ("cathode bypass lifted, cathode read", 8, True, "live", ["cathodeBypassLeak", "cathodeBypassShort"]),
    "screenResistor": ("screen resistor out of circuit", 8, True, "dead", ["screenResistor", "screenOpen"]),
    "acrossScreenResistor": ("volts across the screen resistor", 3, True, "live", []),
    "liftScreenBypass": ("screen bypass lifted, screen read", 8, True, "live", ["screenBypassLeak", "screenBypassShort"]),
    "screenToChassis": ("screen to chassis in circuit, off, ohms", 4, True, "dead", ["screenBypassLeak", "screenBypassShort"]),
    "plateLoad": ("plate load out of circuit", 8, True, "dead", ["plateLoad", "plateOpen"]),
    "acrossPlateLoad": ("volts across the plate load", 3, True, "live", []),
    "swapTube": ("known good tube in its place, cathode, plate and grid read", 5, True, "live", ["weakTube", "gas"]),
    "tubeTester": ("tube in a tester: emission as part of new, gas current", 6, False, "dead", ["weakTube", "gas"]),
    "feedResistor": ("feed (decoupling) resistor out of circuit", 8, True, "dead", ["feedResistor"]),
    "acrossFeedResistor": ("volts across the feed resistor", 3, True, "live", []),
    "liftDecoupling": ("decoupling capacitor lifted, feed node read", 8, True, "live", ["decouplingLeak"]),
    "rippleFirst": ("ripple at the first capacitor", 3, True, "live", ["firstCapacitor"]),
    "bridgeFirst": ("first capacitor bridged with a good one, B+ and ripple read", 6, True, "live", ["firstCapacitor"]),
    "firstCapacitor": ("first capacitor out of circuit: capacitance and series resistance", 10, True, "dead", ["firstCapacitor"]),
    "swapRectifier": ("known good rectifier in its place, B+ read", 5, True, "live", ["rectifierWeak"]),
    "rectifierTester": ("rectifier in a tester: emission as part of new", 6, False, "dead", ["rectifierWeak"]),
    "highVoltageAc": ("AC volts on each rectifier plate", 4, True, "live", []),
    "acrossChoke": ("volts across the filter choke or resistor", 3, True, "live", []),
    "heaterVolts": ("line volts and heater volts", 2, False, "live", []),
    "bridgeDecoupling": ("accessory's decoupling capacitor bridged with a good one, ripple read", 5, True, "live", ["accessoryCapacitor"]),
    "rippleAccessory": ("ripple at the accessory's supply nodes", 3, True, "live", ["accessoryCapacitor"]),
    "accessoryCapacitor": ("accessory's decoupling capacitor out of circuit: capacitance, series resistance", 10, True, "dead", ["accessoryCapacitor"]),
    "disconnectAccessory": ("accessory unplugged, same reading again", 3, False, "live", ["accessoryCapacitor", "accessoryOffCentre", "cableOnPlate", "accessoryResistor"]),
    "peakAgainstCentre": ("accessory's peak by meter against the IF centre", 6, False, "live", ["accessoryOffCentre"]),
    "beatStandard": ("beat against a standard frequency", 4, False, "live", ["markerCrystal", "converterCrystal"]),
    "accessoryResistor": ("accessory's resistor out of circuit", 10, True, "dead", ["accessoryResistor"]),
    "diodesOut": ("what sits in the rectifier's place, looked at and B+ read", 2, True, "dead", ["siliconInPlaceOfTube"]),
    "dialAtLowEnd": ("dial against known signals at three points of the range", 10, False, "live", ["padder", "coil", "trimmer"]),
    "sweepIf": ("IF swept, output against frequency", 15, False, "live", ["slugsTurned"]),
    "touchBothWays": ("touch current through 1500 ohm, plug both ways", 5, False, "live", ["liveChassis", "antennaCapacitorLeak", "lineCapacitorLeak"]),
    "stageGain": ("signal at the grid, level at the plate", 6, True, "live", []),
    "bridgeCathodeBypass": ("cathode bypass bridged with a good one, gain again", 4, True, "live", ["cathodeBypassOpen"]),
    "bridgeScreenBypass": ("screen bypass bridged with a good one, gain again", 4, True, "live", ["screenBypassOpen"]),
    "couplingGain": ("signal at the plate before, level at the grid", 6, True, "live", ["couplingOpen"]),
    "bridgeCoupling": ("coupling capacitor bridged with a good one, level again", 4, True, "live", ["couplingOpen"]),
    "supplyVolts": ("B+ line where the set feeds the stage", 2, True, "live", ["supplyLow"]),
    "otherStages": ("the same electrodes of another stage against the chart", 6, True, "live", ["supplyLow"]),
}


def catalogue(tests=None):
    """test -> words, minutes, mustOpen, state, about: for the head of a file."""
    return {t: {"words": w, "minutes": m, "mustOpen": o, "state": st, "about": a} for t, (w, m, o, st, a) in TESTS.items() if tests is None or t in tests}


def row(test, at, unit, reads, sound, true=None):
    _, minutes, must_open, _, _ = TESTS[test]
    return {"test": test, "at": at, "unit": unit, "minutes": minutes, "mustOpen": must_open, "reads": reads, "readsIfSound": sound, "true": reads if true is None else true}


def places(range_v):
    return 2 if range_v <= 5 else 1 if range_v <= 50 else 0


def volts_row(test, s, sound, node, meter, rng):
    """A node's volts under the meter, with the fault and without."""
    v, v0 = solve(s), solve(sound)
    meter = "11 Mohm" if node == "grid" else meter
    got, rng_v, _ = meter_reading(s, v, node, meter, rng)
    got0, rng0, _ = meter_reading(sound, v0, node, meter)
    return row(test, node, "V", dec(got, places(rng_v)), dec(got0, places(rng0)), sig(v[NODES.index(node)], 5))


def ohm_row(test, at, value, sound, rng):
    """Ohms with 0.7 % meter error; above 200 Mohm the meter shows nothing (null)."""
    seen = lambda x: None if x > 200e6 else sig(x, 3)
    return row(test, at, "ohm", seen(value * (1 + rng.normal(0, 0.007))), seen(sound), sig(value, 5))


def across_row(test, key, nodes, s, sound, rng):
    """Volts across a resistor with the 20 kohm/V meter in parallel with it."""
    def read(c, noise):
        v = solve(c)
        side = lambda x: x["supplyV"] if nodes[0] == "supply" else x.get("screenSupplyV", v[0]) if nodes[0] == "feed" else v[NODES.index(nodes[0])]
        rng_v = range_for("20 kohm/V", side(c) - v[NODES.index(nodes[1])])
        loaded = {**c, key: 1 / (1 / c[key] + 1 / (20e3 * rng_v))}
        w = solve(loaded)
        top = side(c) if nodes[0] == "supply" or (nodes[0] == "feed" and "screenSupplyV" in c) else w[0]
        got = top - w[NODES.index(nodes[1])]
        return got + noise * rng_v * METERS["20 kohm/V"]["fullScaleError"] / 3, places(rng_v) + (rng_v <= 2.5), side(c) - v[NODES.index(nodes[1])]
    got, p, true = read(s, rng.normal())
    got0, p0, _ = read(sound, 0.0)
    return row(test, key, "V", dec(got, p), dec(got0, p0), sig(true, 4))


def stage_tests(s, sound, opts, rng, meter="20 kohm/V"):
    """Every test at a tube's place. s, sound: circuits for tube_stage.solve with and without the fault, same set otherwise.
    opts: coupled, bypassed, decoupled, series (heaters in a string), transformer (plate load is a winding)."""
    out = []
    both = lambda **o: ({**s, **o}, {**sound, **o})
    dead_tube = lambda c: {**c, "tube": {**c["tube"], "P": 0.0, "gridP": 0.0}}
    if opts.get("coupled"):
        if not opts.get("series"):
            out.append(volts_row("pullTubeReadGrid", dead_tube(s), dead_tube(sound), "grid", meter, rng))
        a, b = both(prevV=0.0, couplingOhm=FAR)
        out += [volts_row("liftCoupling", a, b, n, meter, rng) for n in ("grid", "cathode")]
        out.append(ohm_row("leakOfCoupling", "coupling capacitor", s["couplingOhm"], sound["couplingOhm"], rng))
    a, b = both(gridOhm=0.5)
    out.append(volts_row("groundGrid", a, b, "cathode", meter, rng))
    out.append(ohm_row("gridResistor", "gridOhm", s["gridOhm"], sound["gridOhm"], rng))
    if s["cathodeOhm"] > 5:
        par = lambda c: 1 / (1 / c["cathodeOhm"] + 1 / c["cathodeLeakOhm"])
        out += [ohm_row("cathodeResistor", "cathodeOhm", s["cathodeOhm"], sound["cathodeOhm"], rng), ohm_row("cathodeToChassis", "cathode", par(s), par(sound), rng)]
        if opts.get("bypassed"):
            a, b = both(cathodeLeakOhm=FAR)
            out.append(volts_row("liftCathodeBypass", a, b, "cathode", meter, rng))
    if s["screenOhm"] > 5:
        down = lambda c: 1 / (1 / c["screenLeakOhm"] + 1 / c["screenBleedOhm"] + 1 / (c["screenOhm"] + c["supplyOhm"] + 25e3))
        out += [ohm_row("screenResistor", "screenOhm", s["screenOhm"], sound["screenOhm"], rng), across_row("acrossScreenResistor", "screenOhm", ("feed", "screen"), s, sound, rng)]
        a, b = both(screenLeakOhm=FAR)
        out += [volts_row("liftScreenBypass", a, b, "screen", meter, rng), ohm_row("screenToChassis", "screen", down(s), down(sound), rng)]
    if s["plateOhm"] > 5:
        out += [ohm_row("plateLoad", "plateOhm", s["plateOhm"], sound["plateOhm"], rng), across_row("acrossPlateLoad", "plateOhm", ("bplus", "plate"), s, sound, rng)]
    good = lambda c: {**c, "tube": {**sound["tube"], "P": opts["nominalP"], "gas": 3e-6}}
    out += [volts_row("swapTube", good(s), good(sound), n, meter, rng) for n in ("cathode", "plate", "grid")]
    part = lambda c: c["tube"]["P"] / opts["nominalP"]
    gas = lambda c: c["tube"].get("gas", 0.0) * opts["testerA"] * 1e6
    out.append(row("tubeTester", "emission", "part of new", dec(part(s) * (1 + rng.normal(0, 0.06)), 2), dec(part(sound), 2), sig(part(s), 4)))
    out.append(row("tubeTester", "gas", "uA", dec(max(gas(s) * (1 + rng.normal(0, 0.1)) + rng.normal(0, 0.02), 0), 2), dec(gas(sound), 2), sig(gas(s), 3)))
    if opts.get("decoupled"):
        out += [ohm_row("feedResistor", "feedOhm", s["supplyOhm"], sound["supplyOhm"], rng), across_row("acrossFeedResistor", "supplyOhm", ("supply", "bplus"), s, sound, rng)]
        a, b = both(restA=0.0)
        out.append(volts_row("liftDecoupling", a, b, "bplus", meter, rng))
    return out


def supply_tests(now, sound, bridged, swapped, circuit, circuit0, rng):
    """Tests at a supply: results of supply.simulate as it is, without the fault, with 10 uF more (bridged), with a good rectifier (swapped), and the circuits behind them.
    bridged and swapped are pairs (with the fault, without)."""
    v = lambda x: dec(x * (1 + rng.normal(0, 0.007)), 0)
    rip = lambda x: sig(x * (1 + rng.normal(0, 0.04)), 2)
    out = [row("rippleFirst", "first", "V peak to peak", rip(now["firstRipplePpV"]), sig(sound["firstRipplePpV"], 2), sig(now["firstRipplePpV"], 4))]
    for test, (a, b) in (("bridgeFirst", bridged), ("swapRectifier", swapped)):
        out.append(row(test, "first", "V", v(a["firstV"]), dec(b["firstV"], 0), sig(a["firstV"], 5)))
        out.append(row(test, "first ripple", "V peak to peak", rip(a["firstRipplePpV"]), sig(b["firstRipplePpV"], 2), sig(a["firstRipplePpV"], 4)))
    c = lambda x: x["c1F"]
    out.append(row("firstCapacitor", "capacitance", "F", sig(c(circuit) * (1 + rng.normal(0, 0.02)), 3), sig(c(circuit0), 3), sig(c(circuit), 4)))
    out.append(row("firstCapacitor", "series resistance", "ohm", sig(circuit["c1SeriesOhm"] * (1 + rng.normal(0, 0.05)), 2), sig(circuit0["c1SeriesOhm"], 2), sig(circuit["c1SeriesOhm"], 4)))
    part = circuit["perveance"] / circuit0["nominalPerveance"]
    out.append(row("rectifierTester", "emission", "part of new", dec(part * (1 + rng.normal(0, 0.06)), 2), dec(circuit0["perveance"] / circuit0["nominalPerveance"], 2), sig(part, 4)))
    ac = circuit["halfV"] * (1 - 0.25 * now["rectifierRmsA"] * circuit["halfOhm"] / circuit["halfV"])
    ac0 = circuit0["halfV"] * (1 - 0.25 * sound["rectifierRmsA"] * circuit0["halfOhm"] / circuit0["halfV"])
    out.append(row("highVoltageAc", "plate", "V rms", v(ac), dec(ac0, 0), sig(ac, 4)))
    drop = lambda g: g["firstV"] - g["secondV"]
    out.append(row("acrossChoke", "choke", "V", dec(drop(now) * (1 + rng.normal(0, 0.01)), 1), dec(drop(sound), 1), sig(drop(now), 4)))
    return out
