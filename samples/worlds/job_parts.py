"""What both whole jobs need: tubes set to a usual working point, a set of DC stages on one supply, chart rows, touch-current readings."""
import numpy as np

from scipy.optimize import minimize

from kit import dec, sig
from supply import simulate
from tube_stage import NODES, meter_reading, solve, source_ohms, tube_currents

FAR = 1e12
ELECTRODES = ["plate", "screen", "cathode", "grid"]


def tube(mu_p, point, mu_s=None, share=0.0, knee=14.0, remote=False):
    """A tube whose law passes through one working point: (plate V, screen V, grid V, cathode current A). Figures of our own, near usual ones."""
    pitches = [(0.45, 1.0), (0.3, 0.75), (0.17, 0.5), (0.08, 0.25)] if remote else [(1.0, 1.0)]
    t = {"P": 1.0, "muP": mu_p, "pitches": pitches, "contactV": 0.4}
    if mu_s:
        t.update(muS=mu_s, share=share, kneeV=knee)
    vp, vs, vg, amps = point
    ip, is_, _ = tube_currents(t, vp, vs, vg)
    t["P"] = amps / (ip + is_)
    return t


def stage(kind, **s):
    """A stage's marked values over defaults (no leaks, no tube before)."""
    return {"tube": dict(kind), "plateOhm": 1.0, "screenOhm": 0.0, "screenBleedOhm": FAR, "screenLeakOhm": FAR, "cathodeOhm": 1.0, "cathodeLeakOhm": FAR, "gridOhm": 1e6,
            "couplingOhm": FAR, "prevV": 0.0, "prevOhm": 1e5, "supplyOhm": 1.0, "restA": 0.0, **s}


def aged(rng, stages, tol):
    """Every part a little off, drawn once for the set."""
    out = {}
    for name, s in stages.items():
        a = dict(s)
        a["tube"] = {**s["tube"], "P": s["tube"]["P"] * float(np.clip(rng.normal(1, 0.07), 0.85, 1.15)), "contactV": rng.uniform(0.3, 0.5), "gas": 5e-6}
        for k in ("plateOhm", "screenOhm", "cathodeOhm", "gridOhm"):
            a[k] = s[k] * float(np.clip(rng.normal(1, tol / 2), 1 - tol, 1 + tol)) if s[k] > 2 else s[k]
        out[name] = a
    return out


def solve_set(stages, supply_of, coupling):
    """Node volts of every stage at given supply volts. supply_of(name) -> (plate V, screen V or None). coupling: (from, to, leak ohms)."""
    ready, volts = {}, {}
    src, dst, leak = coupling
    for name in sorted(stages, key=lambda n: n == dst):
        s = dict(stages[name])
        s["supplyV"], screen_v = supply_of(name)
        if screen_v is not None:
            s["screenSupplyV"] = screen_v
        if name == dst:
            k = NODES.index("plate")
            s.update(prevV=volts[src][k], prevOhm=float(source_ohms(ready[src], volts[src])[k]), couplingOhm=leak)
        volts[name] = solve(s)
        ready[name] = s
    return ready, volts


def currents(s, v):
    return tube_currents(s["tube"], v[1] - v[3], v[2] - v[3] if s["screenOhm"] else 0.0, v[4] - v[3])


def gm_s(s, v):
    """Slope of plate current with grid volts at the working point."""
    h = 1e-4
    up = tube_currents(s["tube"], v[1] - v[3], v[2] - v[3], v[4] - v[3] + h)[0]
    return (up - tube_currents(s["tube"], v[1] - v[3], v[2] - v[3], v[4] - v[3] - h)[0]) / (2 * h)


def line_up(strip_of, centre_hz, windings):
    """Slug settings (Hz off, one a winding) that a person finds by going for the loudest at the centre, round and round.
    strip_of(list of offsets) -> Strip."""
    at = np.array([centre_hz])
    got = minimize(lambda x: -float(strip_of(x * 1e3).db(at)[0]), np.zeros(windings), method="Powell", bounds=[(-6, 6)] * windings, options={"xtol": 1e-3, "ftol": 1e-7})
    return got.x * 1e3


def settle(states, rounds=4):
    """Supply and stages agree: each state has supply (dict for simulate), bleedOhm and draw(firstV, secondV) -> (A at first, A at second).
    The load is followed as a local power law; rounds of time-domain integration (the last one fine) until volts repeat."""
    guess = [(s["supply"]["halfV"] * 1.0, s["supply"]["halfV"] * 0.85) for s in states]
    for k in range(rounds):
        cases = []
        for s, (v1, v2) in zip(states, guess):
            a1, a2 = s["draw"](v1, v2)
            up = s["draw"](v1 * 1.01, v2 * 1.01)[1]
            n = np.log(up / a2) / np.log(1.01)
            cases.append({**s["supply"], "loadK": a2 / v2 ** n, "loadPower": n, "c1LeakOhm": 1 / (a1 / v1 + 1 / s["supply"]["c1LeakOhm"])})
        got = simulate(cases) if k == rounds - 1 else simulate(cases, seconds=1.8, steps=120)
        moved = max(abs(g["secondV"] - q[1]) for g, q in zip(got, guess))
        guess = [(g["firstV"], g["secondV"]) for g in got]
    if moved > 0.1:
        raise ArithmeticError(f"supply and set do not agree: {moved:.2f} V")
    return got


def chart_rows(names, ready, volts, meter, rng=None, hide=()):
    """Rows of a voltage chart: shown, range, meter ohms, unloaded volts, source ohms. A person's grids are read with the 11 Mohm meter."""
    rows = {}
    for n in names:
        for e in ELECTRODES:
            if (e == "screen" and not ready[n]["screenOhm"]) or (n, e) in hide:
                continue
            shown, range_v, ohm = meter_reading(ready[n], volts[n], e, meter_for(e, meter), rng)
            rows[(n, e)] = (shown, range_v, ohm, volts[n][NODES.index(e)], float(source_ohms(ready[n], volts[n])[NODES.index(e)]))
    return rows


def meter_for(electrode, meter):
    return "11 Mohm" if electrode == "grid" and meter == "20 kohm/V" else meter


def touch_a(line_v, line_hz, hot_s, neutral_s):
    """Current from chassis to ground through 1500 ohm with 0.15 uF across it; admittances (complex, S) from hot and neutral sides to chassis."""
    w = 2 * np.pi * line_hz
    body = 1 / 1500 + 1j * w * 0.15e-6
    v = line_v * hot_s / (hot_s + neutral_s + body)
    return abs(v * body)


def leaky(c_f, r_ohm, line_hz=60):
    return 1 / r_ohm + 2j * np.pi * line_hz * c_f


def chart_table(names, states, rng, couple, hide=()):
    """Rows with the chart's volts and those found and left. states: chart, found, left, each with ready and volts.
    couple: (tube before, tube after): the plate before is read in the circuit of the tube after, coupling leak and all."""
    src, dst = couple
    rows = {}
    for name, meter, r in (("chart", "1 kohm/V", None), ("found", "20 kohm/V", rng), ("left", "20 kohm/V", rng)):
        s = states[name]
        rows[name] = chart_rows(names, s["ready"], s["volts"], meter, r, hide)
        shown, range_v, ohm = meter_reading(s["ready"][dst], s["volts"][dst], "prevPlate", meter, r)
        rows[name][(src, "plate")] = (shown, range_v, ohm, s["volts"][dst][NODES.index("prevPlate")], rows[name][(src, "plate")][4])
    out = []
    for key, c in rows["chart"].items():
        row = {"tube": key[0], "electrode": key[1], "chartV": 0 if key[1] == "grid" else maker_rounds(c[0]), "chartMeterOhm": dec(c[2], 0), "sourceOhm": sig(c[4], 4), "meter": meter_for(key[1], "20 kohm/V")}
        truth = {"chartUnloadedV": dec(c[3], 2)}
        for name in ("found", "left"):
            shown, range_v, ohm, true, _ = rows[name][key]
            row[f"{name}V"] = dec(shown, 2 if range_v <= 5 else 1 if range_v <= 50 else 0)
            row[f"{name}MeterOhm"] = dec(ohm, 0)
            truth[f"{name}V"] = dec(true, 3)
        out.append({**row, "truth": truth})
    return out


def maker_rounds(v):
    return dec(5 * round(v / 5), 0) if v >= 100 else dec(v, 0) if v >= 20 else dec(v, 1)
