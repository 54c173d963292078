"""Supply, heaters and DC stages of a whole invented set in any state: faults in or mended, accessory on or off, any line. Solved together until they agree."""
import numpy as np

import job_parts as jp
from kit import dec, sig
from lamp import behind_lamp, heater_v, set_w
from supply import simulate
from tube_stage import NODES, meter_reading, solve, source_ohms

FAR = 1e12
PART_OF = {"cathodeResistor": "cathodeOhm", "screenResistor": "screenOhm", "plateLoad": "plateOhm", "feedResistor": "supplyOhm", "accessoryResistor": "screenOhm",
           "cathodeBypassLeak": "cathodeLeakOhm", "screenBypassLeak": "screenLeakOhm"}


def put_in(fault, stages, leaks, supply):
    """One DC fault into a set (dicts are changed). Those that are not DC leave it as it is."""
    kind = fault["fault"]
    if kind in PART_OF:
        stages[fault["at"]][PART_OF[kind]] = fault.get("actualOhm", fault.get("leakOhm"))
    elif kind == "couplingLeak":
        leaks[(fault["from"], fault["to"])] = fault["leakOhm"]
    elif kind == "weakTube":
        stages[fault["at"]]["tube"]["P"] *= fault["emissionPart"]
    elif kind == "gas":
        stages[fault["at"]]["tube"]["gas"] = fault["gasPart"]
    elif kind == "decouplingLeak":
        stages[fault["at"]]["feedLeakOhm"] = fault["leakOhm"]
    elif kind == "firstCapacitor":
        supply.update(c1F=fault["actualF"], c1SeriesOhm=fault["seriesOhm"])
    elif kind == "rectifierWeak":
        supply["perveance"] *= fault["emissionPart"]
    elif kind == "siliconInPlaceOfTube":
        supply.update(silicon=1)


class PoweredSet:
    """spec: stages (name -> marked ohms, kind, feed node, screenFeed), couplings, supply, line, accessory. Real parts are drawn once."""

    def __init__(self, spec, rng):
        self.spec = spec
        keep = ("feed", "screenFeed", "accessory")
        self.where = {n: {k: s.get(k) for k in keep} for n, s in spec["stages"].items()}
        self.design = {n: jp.stage(s["kind"], **{k: v for k, v in s.items() if k not in (*keep, "kind", "feedOhm", "F")}, supplyOhm=s.get("feedOhm", 1.0)) for n, s in spec["stages"].items()}
        self.real = jp.aged(rng, self.design, 0.1)
        for n, s in self.real.items():
            s["tube"]["gas"] = 4e-6
            if s["supplyOhm"] > 2:
                s["supplyOhm"] *= float(np.clip(rng.normal(1, 0.04), 0.9, 1.1))
        self.real_supply = {**spec["supply"], **spec["supplyReal"]}

    def state(self, name, line_v, faults=(), mended=None, accessory=False, nominal=False, heat=1.0, extra=None):
        """mended: fault id -> changes left behind by the mend ({"stages": {V: {...}}, "supply": {...}})."""
        src = self.design if nominal else self.real
        stages = {n: {**s, "tube": dict(s["tube"])} for n, s in src.items() if accessory or not self.where[n]["accessory"]}
        supply = dict(self.spec["supply"] if nominal else self.real_supply)
        leaks = {tuple(c): FAR if nominal else 5e9 for c in self.spec["couplings"]}
        for m in (mended or {}).values():
            for n, changes in m.get("stages", {}).items():
                if n in stages:
                    stages[n].update(changes)
            supply.update(m.get("supply", {}))
        for f in faults:
            if f.get("at") not in self.where or f["at"] in stages:
                put_in(f, stages, leaks, supply)
        for s in stages.values():
            s["tube"]["P"] *= heat
        supply["perveance"] = supply["perveance"] * heat
        load_w = self.spec["accessoryW"] if accessory else 0.0
        line = self.spec["line"]
        supply["halfV"] = supply["halfV"] * (line_v - line["primaryOhm"] * load_w / line_v) / line["nominalV"]
        supply.update(extra or {})
        return {"name": name, "lineV": line_v, "stages": stages, "leaks": leaks, "supply": supply, "accessory": accessory}

    def solved(self, st, first, second):
        """Node volts and currents of every stage at these supply volts: (ready, volts, A from first, A from second)."""
        ready, volts, a1, a2 = {}, {}, 0.0, 0.0
        at = {"first": first, "second": second}
        after = {dst: src for src, dst in st["leaks"]}
        order = sorted(st["stages"], key=lambda n: (n in after) + (n in after and after[n] in after))
        for n in order:
            s = {**st["stages"][n]}
            s["supplyV"] = at[self.where[n]["feed"]]
            if self.where[n]["screenFeed"]:
                s["screenSupplyV"] = at[self.where[n]["screenFeed"]]
            s["restA"] = s["supplyV"] / s.pop("feedLeakOhm", FAR)
            if n in after:
                k = NODES.index("plate")
                s.update(prevV=volts[after[n]][k], prevOhm=float(source_ohms(ready[after[n]], volts[after[n]])[k]), couplingOhm=st["leaks"][(after[n], n)])
            v = solve(s)
            ready[n], volts[n] = s, v
            plate_feed = (s["supplyV"] - v[0]) / s["supplyOhm"]
            screen = (s["screenSupplyV"] - v[2]) / s["screenOhm"] if "screenSupplyV" in s and s["screenOhm"] else 0.0
            leak = max((v[5] - v[4]) / s["couplingOhm"], 0.0) if n in after else 0.0
            for node, amps in ((self.where[n]["feed"], plate_feed + leak), (self.where[n]["screenFeed"] or "second", screen)):
                if node == "first":
                    a1 += amps
                else:
                    a2 += amps
        return ready, volts, a1, a2

    def settle(self, states, rounds=5):
        cases = [{"supply": st["supply"], "draw": lambda v1, v2, st=st: tuple(np.maximum(self.solved(st, v1, v2)[2:], 1e-9))} for st in states]
        out = {}
        for st, g in zip(states, jp.settle(cases, rounds)):
            ready, volts, _, _ = self.solved(st, g["firstV"], g["secondV"])
            out[st["name"]] = {**st, "g": g, "ready": ready, "volts": volts, "heaterV": self.heater(st)}
        return out

    def rough(self, st):
        """One state settled coarsely, for the lamp."""
        v1, v2 = st["supply"]["halfV"], st["supply"]["halfV"] * 0.85
        for _ in range(3):
            _, _, a1, a2 = self.solved(st, v1, v2)
            g = simulate([{**st["supply"], "loadK": max(a2, 1e-6) / v2, "loadPower": 1.0, "c1LeakOhm": v1 / max(a1, 1e-9)}], seconds=0.8, steps=120)[0]
            v1, v2 = g["firstV"], g["secondV"]
        return {**st, "g": g, "heaterV": self.heater(st)}

    def heater_amps(self, accessory):
        return sum(a for *_, a in self.spec["tubes"] if a) + (self.spec["accessoryHeaterA"] if accessory else 0.0)

    def heater(self, st):
        """Volts at the heaters; a string: the line's part."""
        line = self.spec["line"]
        if "heaterWindingOhm" not in line:
            return None
        return heater_v(st["lineV"] / line["nominalV"], self.heater_amps(st["accessory"]), self.heater_amps(False), line["heaterWindingOhm"], 6.3, line["heaterAtNominalV"])

    def watts(self, res):
        """(heaters, core, DC) at this state."""
        line, g, c = self.spec["line"], res["g"], res["supply"]
        heaters = res["heaterV"] * self.heater_amps(res["accessory"]) * (res["heaterV"] / 6.3) ** 0.6 * 1.06 if res["heaterV"] else line["stringW"] * (res["lineV"] / line["nominalV"]) ** 1.6
        rect_heater = 0.0 if c["silicon"] else line["rectifierHeaterW"] * (res["lineV"] / line["nominalV"]) ** 1.6
        dc = g["firstV"] * g["rectifierA"] + g["rectifierRmsA"] ** 2 * (c["halfOhm"] + c["addedOhm"]) + (0.7 if c["silicon"] else line["rectifierDropV"]) * g["rectifierA"]
        return heaters + rect_heater, line["coreW"] * (res["lineV"] / line["nominalV"]) ** 2, dc

    def on_lamp(self, res, line_v, lamp_w):
        """Volts for the set behind a lamp, with the parts of its input as in `res`."""
        nominal = res["lineV"]
        v = behind_lamp(line_v, self.spec["line"]["lampV"], lamp_w, self.watts(res), nominal)
        return v, set_w(v / nominal, *self.watts(res)) / v


def supply_reading(pset, res, rng, with_chart=None):
    g = res["g"]
    read = lambda x, part: x * (1 + rng.normal(0, part))
    w = sum(pset.watts(res))
    out = {"lineV": dec(read(res["lineV"], 0.002), 1), "firstV": dec(read(g["firstV"], 0.006), 0), "secondV": dec(read(g["secondV"], 0.006), 0),
           "firstRipplePpV": sig(read(g["firstRipplePpV"], 0.04), 2), "secondRipplePpV": sig(read(g["secondRipplePpV"], 0.04), 2), "inputW": dec(read(w, 0.01), 0)}
    if res["heaterV"]:
        out["heaterV"] = dec(read(res["heaterV"], 0.006), 2)
    if with_chart:
        five = lambda x: dec(5 * round(x / 5), 0)
        out.update(chartFirstV=five(with_chart["g"]["firstV"]), chartSecondV=five(with_chart["g"]["secondV"]), chartLineV=with_chart["lineV"])
    return out


def supply_truth(pset, res):
    g = res["g"]
    out = {"lineV": res["lineV"], **{k: sig(g[k], 5) for k in ("firstV", "secondV", "firstRipplePpV", "secondRipplePpV", "rectifierA", "rectifierPeakA", "rectifierRmsA", "chokeA")}}
    out["inputW"] = sig(sum(pset.watts(res)), 4)
    if res["heaterV"]:
        out["heaterV"] = sig(res["heaterV"], 5)
    return out


def node_rows(pset, res, rng, meter, names=None, hide=(), chart=None):
    """Rows of volts to chassis as read, the chart's beside them: tube, electrode, chartV, chartMeterOhm, readV, meter, rangeV, meterOhm, truth."""
    out = []
    feeds = {src: dst for src, dst in res["leaks"]}
    for n in names or res["ready"]:
        for e in ("plate", "screen", "cathode", "grid"):
            s, v, node = res["ready"][n], res["volts"][n], e
            if (e == "screen" and not s["screenOhm"]) or (n, e) in hide or (e == "cathode" and s["cathodeOhm"] < 3):
                continue
            c = (chart or res)
            cs, cv = c["ready"].get(n), c["volts"].get(n)
            if e == "plate" and n in feeds:  # read in the circuit of the tube after it, leak and all
                s, v, node = res["ready"][feeds[n]], res["volts"][feeds[n]], "prevPlate"
                cs, cv = (c["ready"].get(feeds[n]), c["volts"].get(feeds[n]))
            m = jp.meter_for(e, meter)
            got, rng_v, ohm = meter_reading(s, v, node, m, rng)
            i = NODES.index(node)
            row = {"tube": n, "electrode": e}
            if chart is not None and cs is not None:
                shown, c_range, c_ohm = meter_reading(cs, cv, node, pset.spec["chartMeter"], None)
                row.update(chartV=0 if e == "grid" else jp.maker_rounds(shown), chartMeterOhm=dec(c_ohm, 0), sourceOhm=sig(float(source_ohms(cs, cv)[i]), 4))
            row.update(readV=dec(got, 2 if rng_v <= 5 else 1 if rng_v <= 50 else 0), meter=m, rangeV=rng_v, meterOhm=dec(ohm, 0), truth={"V": dec(v[i], 3)})
            if chart is not None and cs is not None:
                row["truth"]["chartUnloadedV"] = dec(cv[i], 2)
            out.append(row)
    return out
