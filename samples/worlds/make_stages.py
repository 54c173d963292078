"""stages.json: 120 DC stages with parts off by 10 to 20 %, 60 sound and 60 with one fault of continuous size."""
import numpy as np

from kit import dec, rng_for, sig, write_world
from tube_stage import NODES, TUBES, meter_reading, solve, source_ohms, tube_currents

OPEN = 1e12
KINDS = ["triode voltage amplifier", "pentode voltage amplifier", "IF amplifier", "output stage"]
FAULTS = ["couplingLeak", "gasCurrent", "screenBypassLeak", "screenResistorDrift", "cathodeResistorDrift", "cathodeBypassLeak", "plateLoadDrift", "weakTube"]
FITS = {"couplingLeak": [0, 1, 3], "screenBypassLeak": [1, 2], "screenResistorDrift": [1, 2], "plateLoadDrift": [0, 1, 2]}


def design(rng, kind):
    """Marked values of a stage, invented within what the trade used."""
    pick = lambda *xs: float(rng.choice(xs))
    d = {"kind": KINDS[kind], "supplyV": pick(180, 200, 220, 250, 270), "supplyOhm": pick(1000, 1500, 2200), "restA": rng.uniform(0.02, 0.05),
         "screenOhm": 0.0, "screenBleedOhm": OPEN, "prevV": 0.0, "prevOhm": 1e5, "bypassed": True}
    if kind == 0:
        high = rng.random() < 0.6
        d.update(tube="high-mu triode" if high else "medium-mu triode", plateOhm=pick(100e3, 150e3, 220e3, 270e3) if high else pick(33e3, 47e3, 68e3, 100e3),
                 cathodeOhm=pick(1500, 2200, 2700, 3300) if high else pick(820, 1000, 1500, 2200), gridOhm=pick(470e3, 1e6, 2.2e6), prevV=pick(0, 80, 110, 140),
                 bypassed=bool(rng.random() < 0.7))
    elif kind == 1:
        d.update(tube="sharp-cutoff RF pentode", plateOhm=pick(100e3, 150e3, 220e3), screenOhm=pick(390e3, 560e3, 820e3, 1e6), cathodeOhm=pick(820, 1000, 1500, 2200),
                 gridOhm=pick(470e3, 1e6), prevV=pick(0, 70, 100, 130))
    elif kind == 2:
        d.update(tube="remote-cutoff RF pentode" if rng.random() < 0.7 else "sharp-cutoff RF pentode", plateOhm=pick(1000, 2200, 3300), screenOhm=pick(33e3, 47e3, 68e3, 82e3),
                 cathodeOhm=pick(100, 150, 220, 330), gridOhm=pick(100e3, 470e3, 1e6, 2.2e6))
        if rng.random() < 0.3:
            d["screenBleedOhm"] = pick(68e3, 100e3)
    else:
        d.update(tube="output pentode", plateOhm=pick(250, 350, 450), screenOhm=pick(470, 1000, 2200), cathodeOhm=pick(220, 270, 330, 390, 470),
                 gridOhm=pick(220e3, 330e3, 470e3), prevV=pick(80, 110, 140, 160), supplyOhm=pick(300, 500, 800))
    return d


def circuit(d, tube, **over):
    s = {k: d[k] for k in ("supplyV", "supplyOhm", "restA", "plateOhm", "screenOhm", "screenBleedOhm", "cathodeOhm", "gridOhm", "prevV", "prevOhm")}
    s.update(tube=tube, screenLeakOhm=OPEN, cathodeLeakOhm=OPEN, couplingOhm=OPEN)
    s.update(over)
    return s


def real_parts(rng, d, line_part):
    tol = float(rng.choice([0.1, 0.2]))
    off = lambda: float(np.clip(rng.normal(1, tol / 2), 1 - tol, 1 + tol))
    tube = dict(TUBES[d["tube"]])
    tube["P"] *= float(np.clip(rng.normal(1, 0.1), 0.78, 1.22))
    for m in ("muP", "muS"):
        if m in tube:
            tube[m] *= float(np.clip(rng.normal(1, 0.04), 0.9, 1.1))
    tube["contactV"] = rng.uniform(0.2, 0.6)
    tube["gas"] = 10 ** rng.uniform(-6, -5)
    s = circuit(d, tube)
    for k in ("plateOhm", "screenOhm", "cathodeOhm", "gridOhm", "prevOhm"):
        s[k] *= off()
    if d["screenBleedOhm"] < OPEN:
        s["screenBleedOhm"] *= off()
    s["supplyV"] *= line_part * rng.uniform(0.98, 1.02)
    s["prevV"] *= line_part * rng.uniform(0.9, 1.1)
    s["couplingOhm"] = 10 ** rng.uniform(9, 10.5)  # a good one
    return s, tol


def spoil(rng, fault, s, space_a):
    """Put one fault in; returns the circuit and the fault's size in words and figures."""
    s = dict(s)
    s["tube"] = dict(s["tube"])
    u = lambda lo, hi: float(np.exp(rng.uniform(np.log(lo), np.log(hi))))
    if fault == "couplingLeak":
        s["couplingOhm"] = u(0.3e6, 100e6)
        return s, {"leakOhm": sig(s["couplingOhm"], 4)}
    if fault == "gasCurrent":
        s["tube"]["gas"] = u(0.1e-6, 6e-6) / space_a
        return s, {}
    if fault in ("screenBypassLeak", "cathodeBypassLeak"):
        key, hi = ("screenLeakOhm", 3e6) if fault.startswith("screen") else ("cathodeLeakOhm", 3000)
        s[key] = u(20, hi)
        return s, {"leakOhm": sig(s[key], 4)}
    if fault == "weakTube":
        f = rng.uniform(0.25, 0.75)
        s["tube"]["P"] *= f
        return s, {"emissionPart": sig(f, 4)}
    key = {"screenResistorDrift": "screenOhm", "cathodeResistorDrift": "cathodeOhm", "plateLoadDrift": "plateOhm"}[fault]
    if fault == "plateLoadDrift" and rng.random() < 0.25:
        s[key] = 5e9
        return s, {"open": True}
    f = rng.uniform(0.3, 0.7) if fault == "cathodeResistorDrift" and rng.random() < 0.3 else u(1.35, 6)
    s[key] *= f
    return s, {"times": sig(f, 4), "actualOhm": sig(s[key], 4)}


def maker_rounds(v):
    a = abs(v)
    return dec(5 * round(v / 5), 0) if a >= 100 else dec(v, 0) if a >= 20 else dec(round(v * 2) / 2, 1) if a >= 5 else dec(v, 1)


def shown_places(range_v):
    return 2 if range_v <= 5 else 1 if range_v <= 50 else 0


def build(i):
    rng = rng_for("stages", i)
    fault = None if i < 60 else FAULTS[(i - 60) % 8]
    kind = int(rng.choice(FITS.get(fault, [0, 1, 2, 3])))
    d = design(rng, kind)
    while (fault == "couplingLeak" and not d["prevV"]) or (fault == "cathodeBypassLeak" and not d["bypassed"]):
        d = design(rng, kind)
    line_nominal = 117.0
    line = round(rng.uniform(112, 122), 1)
    nominal = circuit(d, TUBES[d["tube"]])
    vn = solve(nominal)
    nodes = [n for n in NODES if (n != "screen" or d["screenOhm"]) and (n != "prevPlate" or d["prevV"])]
    ohms = source_ohms(nominal, vn)
    sound, tol = real_parts(rng, d, line / line_nominal)
    vs = solve(sound)
    space = sum(tube_currents(sound["tube"], vs[1] - vs[3], vs[2] - vs[3] if d["screenOhm"] else 0, vs[4] - vs[3])[:2])
    s, size = (sound, None) if fault is None else spoil(rng, fault, sound, space)
    v = solve(s)
    ip, is_, _ = tube_currents(s["tube"], v[1] - v[3], v[2] - v[3] if d["screenOhm"] else 0, v[4] - v[3])
    if fault == "gasCurrent":
        size["gasA"] = sig(s["tube"]["gas"] * (ip + is_), 4)
    meter = "20 kohm/V" if rng.random() < 0.5 else "11 Mohm"
    chart, measured = {}, {}
    for n in nodes:
        c, rc, oc = meter_reading(nominal, vn, n, "1 kohm/V")
        chart[n] = {"volts": 0 if n == "grid" else maker_rounds(c), "rangeV": rc, "meterOhm": dec(oc, 0), "sourceOhm": sig(ohms[NODES.index(n)], 4)}
        m, rm, om = meter_reading(s, v, n, meter, rng)
        measured[n] = {"volts": dec(m, shown_places(rm)), "rangeV": rm, "meterOhm": dec(om, 0)}
    marked = {k: dec(d[k], 0) for k in ("plateOhm", "cathodeOhm", "gridOhm")}
    if d["screenOhm"]:
        marked["screenOhm"] = dec(d["screenOhm"], 0)
    if d["screenBleedOhm"] < OPEN:
        marked["screenToGroundOhm"] = dec(d["screenBleedOhm"], 0)
    pick = lambda vec: {n: dec(vec[NODES.index(n)], 3) for n in nodes}
    actual = {k: sig(s[k], 5) for k in ("plateOhm", "screenOhm", "cathodeOhm", "gridOhm") if s[k]}
    return {"id": f"stage-{i + 1:03d}", "kind": d["kind"], "tube": d["tube"], "marked": marked, "toleranceOfParts": tol, "cathodeBypassed": d["bypassed"],
            "coupledFromPlate": bool(d["prevV"]), "nominalLineV": line_nominal, "lineV": line, "chartMeter": "1 kohm/V", "chart": chart, "meter": meter, "measured": measured,
            "truth": {"fault": fault, "size": size, "volts": pick(v), "withoutFaultV": pick(vs), "chartUnloadedV": pick(vn), "plateA": sig(ip, 5), "screenA": sig(is_, 5),
                      "plateNominalA": sig(tube_currents(nominal["tube"], vn[1] - vn[3], vn[2] - vn[3] if d["screenOhm"] else 0, vn[4] - vn[3])[0], 5),
                      "actual": actual, "tubeP": sig(s["tube"]["P"], 5), "tubeNominalP": sig(TUBES[d["tube"]]["P"], 5)}}


if __name__ == "__main__":
    write_world("stages.json", {
        "about": "Invented DC stages: volts to chassis by the maker's chart (1 kohm/V meter, 300 V range but for cathode and grid, line at nominal) and as measured (line as found). Grid is 0 on the chart. sourceOhm: what a meter sees at the node of the nominal stage.",
        "units": "names end in V, A, Ohm; volts in V; fault null = sound; prevPlate = plate of the tube before, on the other side of the coupling capacitor",
        "madeBy": "make_stages.py"}, "stages", [build(i) for i in range(120)])
