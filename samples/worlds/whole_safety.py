"""Safety readings of a whole invented set before and after: a set with a transformer, and one with its chassis on the line."""
import job_parts as jp
from follow_ups import row
from kit import sig
from whole_rf import fig, touch_rows


def admittance(hz, parts):
    """parts: (farads, ohms) in parallel between a side of the line and the chassis."""
    return sum(jp.leaky(c, r, hz) for c, r in parts)


def safety_steps(spec, rng):
    return live_chassis(spec, rng) if spec.get("liveChassis") else transformer(spec, rng)


def transformer(spec, rng):
    d, hz = spec["safety"], spec["supply"]["lineHz"]
    out = {}
    for when in ("found", "left"):
        x = d[when]
        table = touch_rows(rng, d["lineV"], hz, (admittance(hz, x["hot"]), admittance(hz, x["neutral"])))
        worst = max(r["truth"]["touchA"] for r in table["rows"])
        out[when] = (table, worst, x["insulationOhm"])
    bad = out["found"][1]
    read = lambda v: sig(v * (1 + rng.normal(0, 0.03)), 2)
    before = {"dead": {"reads": {"insulationOhm": read(out["found"][2]), "insulationTestV": 500, "cord": d["cordFound"], "fuse": d["fuseFound"]}, "truth": {"insulationOhm": out["found"][2]}},
              "live": {"reads": out["found"][0], "truth": {"verdict": "fails" if bad > 0.0005 else "passes"}, "figures": [fig("touchWorstA found", bad, "A", 4)]}}
    after = {"state": "dead and live", "reads": {**out["left"][0], "insulationOhm": read(out["left"][2]), "insulationTestV": 500, "cord": "three-wire", "fuse": d["fuseLeft"], "groundBondOhm": sig(d["bondOhm"] * (1 + rng.normal(0, 0.05)), 2),
                                                 "note": "ground wire lifted for the touch reading only", "did": d["did"]},
             "truth": {"verdict": "passes", "groundBondOhm": d["bondOhm"], "insulationOhm": out["left"][2]},
             "figures": [fig("touchWorstA left", out["left"][1], "A", 4), fig("insulationOhm left", out["left"][2], "ohm", 3), fig("groundBondOhm left", d["bondOhm"], "ohm", 3)]}
    tests = [row("touchBothWays", r["plug"], "A", r["touchA"], r2["touchA"], r["truth"]["touchA"]) for r, r2 in zip(out["found"][0]["rows"], out["left"][0]["rows"])]
    faults = [{"id": "line", "fault": "lineCapacitorLeak", "at": "line to chassis", "leakOhm": d["found"]["hot"][0][1], "farads": d["found"]["hot"][0][0], "foundIn": "safety as found", "mendedIn": "safety as left", "followUps": tests}] if bad > 0.0005 else []
    return before, after, faults


def live_points(d, hz, rng, when):
    """Touch current from each point, plug both ways, switch on and off. Found: switch in the chassis lead; left: switch in the hot lead."""
    rows, v_line = [], d["lineV"]
    ant = admittance(hz, d[when]["antenna"])
    screw = 1e3 if when == "found" else admittance(hz, d[when]["screw"])
    for way in ("chassis on hot", "chassis on neutral"):
        for switch in ("on", "off"):
            on_hot, series = way == "chassis on hot", 0.0
            if when == "found" and switch == "off":  # the chassis then hangs on the other side through the cold heaters
                on_hot, series = not on_hot, d["stringColdOhm"]
            for point, y in (("chassis", 1e3), ("knob screw", screw), ("antenna terminal", ant)):
                z = 1 / y + series
                v = v_line if on_hot else d["neutralV"]
                i = jp.touch_a(v, hz, 1 / z, 0)
                rows.append({"plug": way, "switch": switch, "point": point, "canBeTouched": when == "found" or point != "chassis", "openV": sig(v * abs(10e6 / (10e6 + z)), 3),
                             "touchA": sig(i * (1 + rng.normal(0, 0.01)), 3), "truth": {"touchA": sig(i, 4)}})
    return {"lineV": v_line, "network": "1500 ohm with 0.15 uF across it, point to ground", "openVMeterOhm": 10000000, "limitA": 0.0005, "rows": rows}


def live_chassis(spec, rng):
    d, hz = spec["safety"], spec["supply"]["lineHz"]
    found, left = live_points(d, hz, rng, "found"), live_points(d, hz, rng, "left")
    worst = lambda t, point=None: max(r["truth"]["touchA"] for r in t["rows"] if r["canBeTouched"] and point in (None, r["point"]))
    before = {"dead": {"reads": {"chassisToPlugOhm": d["chassisToPlugOhm"], "cord": d["cordFound"], "fuse": d["fuseFound"]}, "truth": {"liveChassis": True}},
              "live": {"reads": found, "truth": {"verdict": "fails: bare metal at line volts; on the bench only through an isolating transformer"}, "figures": [fig("touchWorstA found", worst(found), "A", 4)]}}
    after = {"state": "live, cabinet closed", "reads": {**left, "cord": d["cordLeft"], "fuse": d["fuseLeft"], "did": d["did"]},
             "truth": {"verdict": "passes at every point that can be touched; the chassis inside is still one side of the line"},
             "figures": [fig("touchWorstA left", worst(left), "A", 4), fig("touchAntennaA left", worst(left, "antenna terminal"), "A", 4)]}
    one = lambda point: [row("touchBothWays", f"{point}, {way}", "A", r["touchA"], r2["touchA"], r["truth"]["touchA"]) for way in ("chassis on hot", "chassis on neutral")
                         for r, r2 in zip(found["rows"], left["rows"]) if r["point"] == point and r["plug"] == way and r["switch"] == "on"]
    faults = [{"id": "chassis", "fault": "liveChassis", "at": "chassis", "foundIn": "safety as found", "mendedIn": "safety as left", "followUps": one("knob screw")},
              {"id": "antenna", "fault": "antennaCapacitorLeak", "at": "antenna terminal", "leakOhm": d["found"]["antenna"][0][1], "foundIn": "safety as found", "mendedIn": "safety as left", "followUps": one("antenna terminal")}]
    return before, after, faults
