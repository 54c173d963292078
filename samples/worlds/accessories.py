"""Accessories of the whole jobs: Q multiplier, marker generator, crystal converter. Each gives steps (name, state, reads, truth, figures) and what to say about its faults."""
import numpy as np

import job_parts as jp
from follow_ups import row, stage_tests
from if_circuit import response_truth
from kit import dec, sig
from tube_stage import NODES, meter_reading
from q_multiplier import critical_feedback, tank
from whole_power import node_rows
from whole_rf import fig, peak_hz


def ripple_at(res, place, farads, series_ohm, line_hz):
    """Ripple left of the receiver's after the accessory's feed resistor and its capacitor, twice the line's frequency."""
    s, v = res["ready"][place], res["volts"][place]
    z = series_ohm + 1 / (2j * np.pi * 2 * line_hz * farads)
    load = (s["supplyV"] - v[0]) / s["supplyOhm"]
    z = 1 / (1 / z + load / v[0])
    return res["g"]["secondRipplePpV"] * abs(z / (s["supplyOhm"] + z))


def power_rows(pset, before, res, rng, places, ripple):
    """The accessory's own supply nodes, and the receiver's heaters and B+ without and with it."""
    acc = pset.spec["accessory"]
    read = lambda x, part=0.006: x * (1 + rng.normal(0, part))
    nodes = []
    first = places[0]
    for name, v in [("B+ at the accessory's plug", res["g"]["secondV"])] + [(f"{n} feed node", None) for n in places]:
        if v is None:
            n = name.split()[0]
            s = res["ready"][n]
            got, _, ohm = meter_reading(s, res["volts"][n], "bplus", "20 kohm/V", rng)
            true = res["volts"][n][0]
        else:
            got, ohm, true = read(v), 10e6, v
        nodes.append({"node": name, "readV": dec(got, 0), "meterOhm": dec(ohm, 0), "truth": {"V": sig(true, 5)}})
    out = {"lineV": dec(read(res["lineV"], 0.002), 1), "nodes": nodes, "rows": node_rows(pset, res, rng, "20 kohm/V", places, hide=acc.get("hide", ())),
           "rippleNode": f"{first} feed node", "ripplePpV": sig(read(ripple, 0.04), 2),
           "receiver": {"heaterWithoutV": dec(read(before["heaterV"], 0.004), 2), "heaterWithV": dec(read(res["heaterV"], 0.004), 2), "secondWithoutV": dec(read(before["g"]["secondV"], 0.005), 0),
                        "secondWithV": dec(read(res["g"]["secondV"], 0.005), 0), "lineWithoutV": dec(read(before["lineV"], 0.002), 1), "lineWithV": dec(read(res["lineV"], 0.002), 1)}}
    truth = {"ripplePpV": sig(ripple, 4), "heaterWithoutV": sig(before["heaterV"], 5), "heaterWithV": sig(res["heaterV"], 5), "secondWithoutV": sig(before["g"]["secondV"], 5), "secondWithV": sig(res["g"]["secondV"], 5)}
    return out, truth


def power_figures(before, res, places, when):
    drawn = sum((res["ready"][n]["supplyV"] - res["volts"][n][0]) / res["ready"][n]["supplyOhm"] for n in places)
    return [fig(f"accessoryBplusA {when}", drawn, "A", 4), fig(f"accessoryFeedNodeV {when}", res["volts"][places[0]][0], "V"),
            fig(f"heaterWithoutAccessoryV {when}", before["heaterV"], "V"), fig(f"heaterWithAccessoryV {when}", res["heaterV"], "V"),
            fig(f"bplusWithoutAccessoryV {when}", before["g"]["secondV"], "V"), fig(f"bplusWithAccessoryV {when}", res["g"]["secondV"], "V")]


def q_multiplier(spec, pset, ifs, st, offs, rng):
    """st: settled states left, accessory found, accessory left. offs: slugs as aligned without the accessory."""
    acc, hz, line_hz = spec["accessory"], spec["if"]["hz"], spec["supply"]["lineHz"]
    place, cable = acc["places"][0], acc["cable"]

    def circuit(res, cap, off_hz, feedback):
        s, v = res["ready"][place], res["volts"][place]
        return {**tank(hz, cable, acc["coilH"], off_hz=off_hz), "coilQ": acc["coilQ"], "gmS": jp.gm_s(s, v), "mu": s["tube"]["muP"], "feedbackOhm": feedback, "cathodeOhm": s["cathodeOhm"],
                "decouplingF": cap[0], "decouplingSeriesOhm": cap[1], "feedOhm": s["plateOhm"]}
    good, dried = (acc["decouplingF"] * 1.08, 1.5), acc["driedTo"]
    found, left = st["accessory found"], st["accessory left"]
    crit = critical_feedback(lambda r: ifs.strip(left, offs, cable, circuit(left, good, 0.0, r)))
    set_to = lambda res, part: (crit + 1 / jp.gm_s(res["ready"][place], res["volts"][place])) / part - 1 / jp.gm_s(res["ready"][place], res["volts"][place])
    feedback = set_to(left, acc["regenerationPart"])
    cold = ifs.strip(left, offs)
    cable_only = ifs.strip(left, offs, cable)
    q_found = ifs.strip(found, offs, cable, circuit(found, dried, acc["offCentreHz"], feedback))
    trimmed = circuit(left, good, 0.0, feedback)
    q_centred = ifs.strip(left, offs, cable, trimmed)
    again = offs.copy()  # first primary peaked again at the centre, nothing else touched
    grid = np.linspace(-4e3, 4e3, 81)
    again[0] += grid[int(np.argmax([float(ifs.strip(left, offs + np.eye(len(offs))[0] * g, cable, trimmed).db(hz)[0]) for g in grid]))]
    q_left = ifs.strip(left, again, cable, trimmed)
    off_left = ifs.strip(left, again, cable, trimmed, on=False)
    dry, wet = ripple_at(found, place, *dried, line_hz), ripple_at(left, place, *good, line_hz)
    tables, figures = {}, {}
    for when, s, ripple in (("found", q_found, dry), ("left", q_left, wet)):
        reads, truth = power_rows(pset, st["left"], st[f"accessory {when}"], rng, acc["places"], ripple)
        peak = peak_hz(s, hz)
        reads["tuning"] = {"ifCentreHz": dec(hz, 0), "peakHeardHz": dec(peak + rng.normal(0, 120), -2), "peakByMeterHz": dec(peak + rng.normal(0, 25), -1)}
        tables[when] = (reads, {**truth, "peakHz": dec(peak, 1), "feedbackOhm": sig(feedback, 4), "criticalFeedbackOhm": sig(crit, 4)})
        figures[when] = power_figures(st["left"], st[f"accessory {when}"], acc["places"], when) + [
            fig(f"qMultiplierPeakHz {when}", peak, "Hz", 7), fig(f"qMultiplierOffCentreHz {when}", peak - hz, "Hz", 4), fig(f"accessoryRipplePpV {when}", ripple, "V peak to peak", 4)]
    sweeps = {k: ifs.sweep(s, rng, 0.2, span, n) for k, s, span, n in (("found", q_found, 6e3, 61), ("left", q_left, 6e3, 61))}
    at = lambda s: float(s.db(hz)[0])
    level = lambda x: dec(x + rng.normal(0, 0.3), 1)
    cable_truth = {"unpluggedFarEndDb": dec(at(cable_only) - at(cold), 2), "onFlatDb": dec(at(off_left) - at(cold), 2), "peakDb": dec(at(q_left) - at(cold), 2),
                   "firstCanAloneHz": dec(ifs.first_can_hz(offs), 0), "firstCanCableOnlyHz": dec(ifs.first_can_hz(offs, cable_only), 0), "firstCanWithQFoundHz": dec(ifs.first_can_hz(offs, q_found), 0),
                   "firstCanWithQCentredHz": dec(ifs.first_can_hz(offs, q_centred), 0), "firstPrimaryTurnedAgainHz": dec(again[0] - offs[0], 0)}
    cable_reads = {"cableFeet": cable["feet"], "blockF": cable["blockF"], "how": "output at the IF centre against no cable at all, dB", "cableOffDb": 0, "cableOnFarEndOpenDb": level(at(cable_only) - at(cold)),
                   "accessoryOnCableColdDb": level(at(off_left) - at(cold)), "peakFoundDb": level(at(q_found) - at(cold)), "peakLeftDb": level(at(q_left) - at(cold))}
    shift = [fig("firstCanShiftByCableHz", cable_truth["firstCanCableOnlyHz"] - cable_truth["firstCanAloneHz"], "Hz"), fig("firstCanShiftWithQMultiplierHz left", cable_truth["firstCanWithQCentredHz"] - cable_truth["firstCanAloneHz"], "Hz"),
             fig("qMultiplierGainDb left", at(q_left) - at(cold), "dB", 4), fig("cableLossFarEndOpenDb", at(cable_only) - at(cold), "dB", 4)]
    w = lambda when: [fig(f"ifWidth6WithQMultiplierHz {when}", sweeps[when][1]["width6Hz"], "Hz"), fig(f"ifWidth60WithQMultiplierHz {when}", sweeps[when][1]["width60Hz"], "Hz")]
    steps = [("accessory as found", "live", tables["found"][0], tables["found"][1], figures["found"]), ("cable on and off", "live", cable_reads, cable_truth, shift),
             ("IF sweep with Q multiplier as found", "live", sweeps["found"][0], sweeps["found"][1], w("found")),
             ("accessory mended", "dead, then live", {"did": acc["did"], "decouplingF": sig(good[0] * 1.01, 3)}, {"firstPrimaryTurnedAgainHz": dec(again[0] - offs[0], 0)}, []),
             ("accessory as left", "live", tables["left"][0], tables["left"][1], figures["left"]), ("IF sweep with Q multiplier as left", "live", sweeps["left"][0], sweeps["left"][1], w("left"))]
    z = lambda x: sig(x * (1 + rng.normal(0, 0.04)), 2)
    rip = [row("rippleAccessory", f"{place} feed node", "V peak to peak", z(dry), sig(wet, 2), sig(dry, 4)),
           row("bridgeDecoupling", f"{place} feed node", "V peak to peak", z(ripple_at(found, place, dried[0] + 10e-6, 1.0, line_hz)), sig(ripple_at(found, place, good[0] + 10e-6, 1.0, line_hz), 2)),
           row("accessoryCapacitor", "capacitance", "F", z(dried[0]), sig(good[0], 3), dried[0]), row("accessoryCapacitor", "series resistance", "ohm", z(dried[1]), good[1], dried[1]),
           row("disconnectAccessory", "receiver second ripple", "V peak to peak", z(st["left"]["g"]["secondRipplePpV"]), sig(st["left"]["g"]["secondRipplePpV"], 2), sig(st["left"]["g"]["secondRipplePpV"], 4)),
           *stage_tests(found["ready"][place], found["ready"][place], {"decoupled": True, "nominalP": pset.design[place]["tube"]["P"], "testerA": 5e-3}, rng)]
    p = peak_hz(q_found, hz)
    off = [row("peakAgainstCentre", "peak less centre", "Hz", dec(p - hz + rng.normal(0, 25), -1), dec(peak_hz(q_centred, hz) - hz, 0), sig(p - hz, 4)),
           row("disconnectAccessory", "IF peak less centre", "Hz", dec(peak_hz(cold, hz) - hz + rng.normal(0, 40), -1), dec(peak_hz(cold, hz) - hz, 0)),
           row("sweepIf", "6 dB width", "Hz", dec(sweeps["found"][1]["width6Hz"] * (1 + rng.normal(0, 0.03)), -1), dec(response_truth(q_centred.db, hz)["width6Hz"], 0), sweeps["found"][1]["width6Hz"])]
    return steps, {"accessoryCapacitor": rip, "accessoryOffCentre": off}


def square_levels(rise_s, fall_s, duty, f0, n):
    """Volts (rms) of harmonics n of a wave of 5 V with exponential edges, by numerical integration over one period."""
    t = (np.arange(400000) + 0.5) / 400000 / f0
    on = t < duty / f0
    y = np.where(on, 1 - np.exp(-t / rise_s), np.exp(-(t - duty / f0) / fall_s)) * 5.0
    return [abs(np.mean(y * np.exp(-2j * np.pi * k * f0 * t))) * np.sqrt(2) for k in n]


def marker(spec, pset, ifs, st, offs, rng):
    acc = spec["accessory"]
    found, left = st["accessory found"], st["accessory left"]
    steps, std = [], acc["standardHz"]
    n = [int(round(f / 1e5)) for f in (3.5e6, 7e6, 14e6, 21e6)]
    e = square_levels(25e-9, 40e-9, 0.46, 1e5, n)
    for when, res, ppm in (("found", found, acc["offPpm"]), ("left", left, acc["leftPpm"])):
        reads, truth = power_rows(pset, st["left"], res, rng, acc["places"], ripple_at(res, acc["places"][0], acc["decouplingF"], 2.0, spec["supply"]["lineHz"]))
        beat = std * ppm * 1e-6
        reads["beat"] = {"standardHz": dec(std, 0), "harmonic": dec(std / 1e5, 0), "heardHz": dec(abs(beat) + rng.normal(0, 12), -1) if abs(beat) > 25 else 0, "bySwellHz": dec(abs(beat) + rng.normal(0, 0.4), 0 if abs(beat) > 20 else 1), "markerIs": "below" if beat < 0 else "above"}
        reads["levels"] = [{"harmonic": k, "signalHz": dec(k * 1e5, 0), "inputV": sig(x * acc["couplingPart"] * k / n[-1] * 10 ** (rng.normal(0, 1) / 20), 2)} for k, x in zip(n, e)]
        truth.update(offPpm=sig(ppm, 4), beatHz=sig(beat, 4), levelsV=[sig(x * acc["couplingPart"] * k / n[-1], 4) for k, x in zip(n, e)])
        steps.append((f"accessory as {when}", "live", reads, truth, power_figures(st["left"], res, acc["places"], when) + [fig(f"markerOffPpm {when}", ppm, "ppm", 4), fig(f"markerBeatHz {when}", beat, "Hz", 4),
                      fig(f"markerOffHz {when} at {acc['topHz'] / 1e6:g} MHz", acc["topHz"] * ppm * 1e-6, "Hz", 4)]))
        if when == "found":
            steps.append(("accessory mended", "dead, then live", {"did": acc["did"]}, {}, []))
    # bandspread by markers: an arc of a small capacitor beside a fixed one
    lo, hi = acc["bandHz"]
    at = np.arange(np.ceil(lo / 1e5) * 1e5, hi + 1, 1e5) * (1 + acc["leftPpm"] * 1e-6)
    y = (1 / (at + spec["if"]["hz"]) ** 2 - 1 / (hi * 1.01 + spec["if"]["hz"]) ** 2) / (1 / (lo * 0.99 + spec["if"]["hz"]) ** 2 - 1 / (hi * 1.01 + spec["if"]["hz"]) ** 2)
    div = 100 * y ** acc["bandPower"]
    rows = [{"markerHz": dec(round(f / 1e5) * 1e5, 0), "readDiv": dec(d + rng.normal(0, 0.15), 1), "truth": {"signalHz": dec(f, 1), "div": dec(d, 3)}} for f, d in zip(at, div)]
    steps.append(("bandspread by markers", "live", {"scale": "100 divisions, 100 is the low end", "readingDiv": 0.15, "rows": rows}, {}, []))
    heard = std * acc["offPpm"] * 1e-6
    tests = [row("beatStandard", "marker less standard", "Hz", dec(heard + rng.normal(0, 1), 0), 0, sig(heard, 4)),
             row("disconnectAccessory", "beat against the standard", "Hz", None, None),
             row("heaterVolts", "heater", "V", dec(found["heaterV"], 2), dec(found["heaterV"], 2)),
             *stage_tests(found["ready"][acc["places"][0]], found["ready"][acc["places"][0]], {"decoupled": True, "nominalP": pset.design[acc["places"][0]]["tube"]["P"], "testerA": 5e-3}, rng)]
    return steps, {"markerCrystal": tests}


def converter(spec, pset, ifs, st, offs, rng):
    acc = spec["accessory"]
    found, left = st["accessory found"], st["accessory left"]
    a, b = acc["places"]

    def gain(res):
        s, v = res["ready"][a], res["volts"][a]
        g2 = jp.gm_s(res["ready"][b], res["volts"][b]) * acc["conversionPart"]
        return 20 * np.log10(jp.gm_s(s, v) * acc["firstLoadOhm"] * g2 * acc["mixerLoadOhm"] * acc["inputGain"])
    steps = []
    for when, res, off in (("found", found, acc["offHz"]), ("left", left, acc["leftHz"])):
        reads, truth = power_rows(pset, st["left"], res, rng, acc["places"], ripple_at(res, a, acc["decouplingF"], 2.0, spec["supply"]["lineHz"]))
        crystal = acc["crystalHz"] + off
        rows = []
        for f in acc["signalsHz"]:
            dial = f - crystal + acc["dialOffHz"]
            rows.append({"signalHz": dec(f, 0), "dialHz": dec(dial + rng.normal(0, 60), -2), "truth": {"tunedHz": dec(f - crystal, 0), "dialHz": dec(dial, 0)}})
        reads["dial"] = {"crystalMarkedHz": acc["crystalHz"], "how": "crystal-controlled signals tuned in on the receiver's dial; receiver's own error there by calibrator", "receiverDialErrorHz": dec(acc["dialOffHz"] + rng.normal(0, 40), -2), "rows": rows}
        reads["crystalByCounterHz"] = dec(crystal + rng.normal(0, 8), -1)
        reads["gainDb"] = dec(gain(res) + rng.normal(0, 0.7), 1)
        truth.update(crystalHz=dec(crystal, 1), gainDb=dec(gain(res), 2), dialOffHz=acc["dialOffHz"])
        steps.append((f"accessory as {when}", "live", reads, truth, power_figures(st["left"], res, acc["places"], when) + [fig(f"converterCrystalHz {when}", crystal, "Hz", 8), fig(f"converterCrystalOffHz {when}", off, "Hz", 4),
                      fig(f"converterGainDb {when}", gain(res), "dB", 4), fig("converterImageHz", 2 * acc["crystalHz"] - acc["signalsHz"][0], "Hz", 8)][: None if when == "found" else -1]))
        if when == "found":
            steps.append(("accessory mended", "dead, then live", {"did": acc["did"]}, {}, []))
    i = NODES.index("screen")
    s, v = found["ready"][a], found["volts"][a]
    sound = {**s, "screenOhm": pset.real[a]["screenOhm"]}
    tests = [row("accessoryResistor", "screenOhm", "ohm", sig(s["screenOhm"] * 1.004, 3), sig(sound["screenOhm"], 3), sig(s["screenOhm"], 4)),
             row("disconnectAccessory", "receiver B+", "V", dec(st["left"]["g"]["secondV"], 0), dec(st["left"]["g"]["secondV"], 0), sig(st["left"]["g"]["secondV"], 5)),
             *stage_tests(s, sound, {"bypassed": True, "decoupled": True, "nominalP": pset.design[a]["tube"]["P"], "testerA": 8e-3}, rng)]
    crystal = [row("beatStandard", "crystal less mark", "Hz", dec(acc["offHz"] + rng.normal(0, 8), -1), acc["leftHz"], acc["offHz"]),
               row("disconnectAccessory", "receiver's dial error there", "Hz", dec(acc["dialOffHz"] + rng.normal(0, 40), -2), acc["dialOffHz"])]
    assert v[i] > 0
    return steps, {"accessoryResistor": tests, "converterCrystal": crystal}


KINDS = {"Q multiplier": q_multiplier, "marker generator": marker, "crystal converter": converter}
