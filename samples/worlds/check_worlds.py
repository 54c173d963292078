"""Limiting cases of every world, two at least each. Run: python3 check_worlds.py (all) or with names."""
import json
import os
import sys

import numpy as np

CHECKS = {}
HERE = os.path.dirname(os.path.abspath(__file__))


def check(world):
    def put(fn):
        CHECKS.setdefault(world, []).append(fn)
        return fn
    return put


def say(ok, text):
    print(("ok   " if ok else "FAIL ") + text)
    return ok


@check("strips")
def strips_two_meshes():
    """One symmetric pair of high Q, no stray: the full circuit must go over into the two-circuit law (1 + kQ^2 - x^2 + 2jx)."""
    from if_circuit import Strip, make_can
    rng = np.random.default_rng(1)
    f0, q, kq = 455e3, 2000.0, 1.4
    can = make_can(rng, f0, q, q, kq, c_pf=(120, 120), rp=1e9, rg=1e9)
    f = f0 + np.linspace(-500, 500, 101)
    y = Strip([can], [], f0, r_power=0).db(f)
    x = q * (f / f0 - f0 / f)
    z = -20 * np.log10(np.abs((1 + 1j * x) ** 2 + kq ** 2))
    d = (y - y.max()) - (z - z.max())
    return say(np.max(np.abs(d)) < 0.02, f"strips: high-Q pair against two-circuit law, worst {np.max(np.abs(d)):.4f} dB")


@check("strips")
def strips_product_and_reciprocity():
    """Without feedback two cans give the sum in dB of each alone; a passive can gives the same transfer from either side."""
    from if_circuit import Strip, make_can
    rng = np.random.default_rng(2)
    f0 = 460e3
    a, b = (make_can(rng, f0, 70, 90, 1.1, 900, -1500, cm_pf=0.05, rp=7e5, rg=9e5) for _ in range(2))
    f = f0 + np.linspace(-30e3, 30e3, 201)
    both = Strip([a, b], [{"gmS": 1e-3, "cgpF": 0}], f0, drive_s=1e-3).db(f)
    d1 = np.max(np.abs(both - Strip([a], [], f0, drive_s=1e-3).db(f) - Strip([b], [], f0, drive_s=1e-3).db(f)))
    swap = dict(a)
    for k in ("l{}H", "c{}F", "r{}Ohm", "g{}S"):
        swap[k.format(1)], swap[k.format(2)] = a[k.format(2)], a[k.format(1)]
    d2 = np.max(np.abs(Strip([a], [], f0).db(f) - Strip([swap], [], f0).db(f)))
    return say(d1 < 1e-9 and d2 < 1e-9, f"strips: product of cans {d1:.1e} dB, either way round {d2:.1e} dB")


@check("noisy-tops")
def tops_single_circuit():
    """n equal single circuits: -6.02 dB width is f0/Q root(4^(1/n) - 1)."""
    from if_circuit import response_truth
    worst = 0
    for n in (1, 2, 4):
        q, f0 = 100.0, 455e3
        t = response_truth(lambda f: -10 * n * np.log10(1 + (q * (f / f0 - f0 / f)) ** 2), f0)
        worst = max(worst, abs(t["width6Hz"] / (f0 / q * np.sqrt(10 ** (0.6 / n) - 1)) - 1))
    return say(worst < 1e-6, f"noisy-tops: width of equal circuits, worst {worst:.1e}")


@check("noisy-tops")
def tops_two_humps():
    """Over-coupled equal pair: humps at x = root(kQ^2 - 1), dip (1 + kQ^2)/2kQ."""
    from if_circuit import response_truth
    q, f0, kq = 5000.0, 455e3, 2.0
    t = response_truth(lambda f: -20 * np.log10(np.abs((1 + 1j * q * (f / f0 - f0 / f)) ** 2 + kq ** 2)), f0, reach_hz=500, step_hz=0.5)
    sep = t["humpsHz"][1] - t["humpsHz"][0]
    want, dip = f0 / q * np.sqrt(kq ** 2 - 1), 20 * np.log10((1 + kq ** 2) / 2 / kq)
    return say(abs(sep - want) < 1 and abs(t["dipDb"] - dip) < 1e-3, f"noisy-tops: hump distance {sep:.1f} Hz for {want:.1f}, dip {t['dipDb']:.3f} dB for {dip:.3f}")


@check("drift")
def drift_rate_is_what_is_left():
    """The rate summed from the log's end to for ever is what is still to come, for every law (not only the exponential)."""
    from scipy.integrate import quad
    from kit import rng_for
    from make_drift import make_law
    worst = 0
    for i in range(60):
        law = make_law(rng_for("drift", i), i // 15)
        a, _ = quad(lambda u: law.rate(60 * u / (1 - u)) * 60 / (1 - u) ** 2, 0.5, 1, limit=400)  # t from 60 min to for ever
        worst = max(worst, abs(a - law.left(60.0)) / abs(law.left(0.0)))
    return say(worst < 1e-6, f"drift: rate summed to for ever against what is left, worst {worst:.1e} of the total")


@check("drift")
def drift_stretched_to_exponential():
    """A stretched exponential of power 1, and a power tail of very high power, are the exponential."""
    from make_drift import Law
    e, s, p = Law(), Law(), Law()
    e.exponential(1000, 12)
    s.stretched(1000, 12, 1.0)
    p.power_tail(1000, 12 * 1e6, 1e6)
    t = np.linspace(0.5, 100, 50)
    d1 = np.max(np.abs(e.left(t) - s.left(t)) + np.abs(e.rate(t) - s.rate(t)))
    d2 = np.max(np.abs(e.left(t) - p.left(t)))
    return say(d1 < 1e-9 and d2 < 1e-2, f"drift: both slow laws end in the exponential ({d1:.0e} Hz, {d2:.0e} Hz)")


@check("resonance")
def resonance_q_adds_up():
    """Weak loop reactance, no loop loss: 1/QL = (1 + coupling)/Q0 for poles of the whole circuit; S11 at resonance (coupling - 1)/(coupling + 1)."""
    from make_resonance import Z0, finish_one_port, one_port_truth, one_port_z
    rng = np.random.default_rng(5)
    worst = worst_s = 0
    for beta in (0.05, 0.3, 1.0, 2.5):
        p = finish_one_port(rng, 7e6, 300, beta, 100e-12, loop_x=0.2 * Z0, r_loop=0)
        t = one_port_truth(p)
        worst = max(worst, abs(t["unloadedQ"] / t["loadedQ"] / (1 + t["coupling"]) - 1))
        f = t["loadedHz"] * (1 + np.linspace(-1, 1, 200001) / 150)
        z = one_port_z({**p, "power": 0.0}, f)
        g = (z - Z0) / (z + Z0)
        b = t["coupling"]
        far = (-Z0 + 1j * 2 * np.pi * 7e6 * p["lLoopH"]) / (Z0 + 1j * 2 * np.pi * 7e6 * p["lLoopH"])
        circle = np.max(np.abs(g - far))  # diameter of the circle, from the far point across
        worst_s = max(worst_s, abs(circle / (2 * b / (1 + b)) - 1))
    return say(worst < 5e-3 and worst_s < 2e-2, f"resonance: Q adds up within {worst:.1e}, circle diameter 2b/(1+b) within {worst_s:.1e}")


@check("resonance")
def resonance_two_port_peak():
    """Weak loops: peak S21 is 2 root(b1 b2)/(1 + b1 + b2); quartz at series resonance 2R/(2R + Rm)."""
    from make_resonance import quartz, two_port
    worst = 0
    for i in range(30):
        t = two_port(i)["truth"]
        b1, b2 = t["couplingIn"], t["couplingOut"]
        want = 2 * np.sqrt(b1 * b2) / (1 + b1 + b2)
        worst = max(worst, abs(t["peakWithoutLeakAndLine"] - want))
    gap = 0
    for i in range(6):
        q = quartz(i)
        t = q["truth"]
        near = int(np.argmin(np.abs(np.array(q["fHz"]) - t["seriesHz"])))
        x = 2 * t["loadedQ"] * (q["fHz"][near] / t["seriesHz"] - 1)
        want = 2 * q["fixtureOhm"] / (2 * q["fixtureOhm"] + t["motionalOhm"]) / np.sqrt(1 + x * x)
        gap = max(gap, abs(np.hypot(q["s21Re"][near], q["s21Im"][near]) - want))
    return say(worst < 0.05 and gap < 0.03, f"resonance: two-port peak within {worst:.3f} of 2 root(b1 b2)/(1 + b1 + b2), quartz within {gap:.3f}")


@check("stages")
def stages_ohms_law():
    """Tube without emission: every node is a plain divider. Screen leak to nothing and to a short; source ohms of a divider."""
    from tube_stage import TUBES, NODES, solve, source_ohms
    base = {"supplyV": 200.0, "supplyOhm": 1000.0, "restA": 0.02, "plateOhm": 1e5, "screenOhm": 5e4, "screenBleedOhm": 1e12, "cathodeOhm": 200.0, "gridOhm": 1e6,
            "prevV": 100.0, "prevOhm": 1e5, "screenLeakOhm": 5e4, "cathodeLeakOhm": 1e12, "couplingOhm": 9e6, "tube": {**TUBES["sharp-cutoff RF pentode"], "P": 0.0}}
    v = dict(zip(NODES, solve(base)))
    b = 200 / (1 + 1000 * (0.02 / 200 + 1 / 1e5))  # bleeder, rest
    low = 1 / (1 / 5e4 + 1 / 1e12)
    d = abs(v["bplus"] - b) + abs(v["screen"] - b * low / (low + 5e4)) + abs(v["plate"] - b)
    r = source_ohms(base, solve(base))[NODES.index("screen")]
    want = 1 / (1 / 5e4 + 1 / (5e4 + 1 / (1 / 1000 + 0.02 / 200)))
    return say(d < 1e-6 and abs(r / want - 1) < 1e-4, f"stages: dead tube is a divider within {d:.1e} V; source {r:.0f} ohm for {want:.0f}")


@check("stages")
def stages_grid_leak_divider():
    """Coupling leak into a grid held below grid current: volts are those of the divider 100 V, 100 k + leak, grid leak (less the meter)."""
    from tube_stage import TUBES, NODES, solve
    s = {"supplyV": 250.0, "supplyOhm": 500.0, "restA": 0.03, "plateOhm": 350.0, "screenOhm": 1000.0, "screenBleedOhm": 1e12, "cathodeOhm": 2000.0, "gridOhm": 4.7e5,
         "prevV": 100.0, "prevOhm": 1e5, "screenLeakOhm": 1e12, "cathodeLeakOhm": 1e12, "couplingOhm": 12e6, "tube": dict(TUBES["output pentode"])}
    g = solve(s)[NODES.index("grid")]
    want = 100 * 4.7e5 / (4.7e5 + 12e6 + 1e5)
    m = solve(s, "grid", 11e6)[NODES.index("grid")]
    gm = 4.7e5 * 11e6 / (4.7e5 + 11e6)
    want_m = 100 * gm / (gm + 12e6 + 1e5)
    s["tube"]["gas"] = 0.0
    k = solve({**s, "couplingOhm": 1e12})
    ratio = [solve({**s, "couplingOhm": 1e12, "tube": {**s["tube"], "P": s["tube"]["P"] * x}, "cathodeOhm": 1e-3, "plateOhm": 1e-3, "screenOhm": 1e-3, "supplyOhm": 1e-3})[3] for x in (1, 2)]
    twice = ratio[1] / ratio[0]  # fixed volts: twice the perveance, twice the current
    return say(abs(g - want) < 0.01 and abs(m - want_m) < 0.01 and abs(twice - 2) < 1e-3 and k[4] < 0.02,
               f"stages: coupling leak {g:.3f} V for {want:.3f}, on the meter {m:.3f} for {want_m:.3f}; twice perveance {twice:.4f} times current")


@check("tracking")
def tracking_one_formula():
    """Huge padder, no stray: f = 1/(2 pi root(L (Cg + Ct))); zero gang swing: f does not move; padder alone in series with an endless gang."""
    from make_tracking import oscillator_hz
    p = {"coilH": 1e-4, "padderF": 1.0, "trimmerF": 20e-12, "strayF": 0.0}
    a = oscillator_hz(100e-12, p) / (1 / (2 * np.pi * np.sqrt(1e-4 * 120e-12))) - 1
    b = oscillator_hz(1.0, {**p, "padderF": 400e-12}) / (1 / (2 * np.pi * np.sqrt(1e-4 * 400e-12))) - 1
    return say(abs(a) < 1e-9 and abs(b) < 1e-9, f"tracking: endless padder {a:.0e}, endless gang {b:.0e}")


@check("tracking")
def tracking_small_changes():
    """First order: 1 % of coil moves the oscillator by -0.5 %; a perfect set's dial shows the signal but for noise."""
    import json
    import os
    from kit import HERE
    from make_tracking import oscillator_hz
    p = {"coilH": 1e-4, "padderF": 450e-12, "trimmerF": 40e-12, "strayF": 5e-12}
    q = oscillator_hz(200e-12, {**p, "coilH": 1.01e-4}) / oscillator_hz(200e-12, p)
    with open(os.path.join(HERE, "tracking.json"), encoding="utf-8") as f:
        items = json.load(f)["oscillators"]
    worst = max(abs(a / b - 1) for s in items if s["truth"]["part"] is None and not s["truth"]["gangResidual"] for a, b in zip(s["truth"]["dialWithoutNoiseHz"], s["signalHz"]))
    chi = np.mean([((d / c - 1) / s["readingNoise"]) ** 2 for s in items for d, c in zip(s["dialHz"], s["truth"]["dialWithoutNoiseHz"])])
    return say(abs(q - 1.01 ** -0.5) < 1e-9 and worst < 1e-5 and 0.75 < chi < 1.3, f"tracking: coil 1 % gives {100 * (q - 1):.3f} %; perfect within {worst:.0e}; noise as stated, chi2 {chi:.2f}")


def plain_supply(**over):
    return {"lineHz": 60, "halfV": 300, "unequal": 0, "halfOhm": 100, "addedOhm": 0, "perveance": 7e-4, "silicon": 1, "c1F": 20e-6, "c1SeriesOhm": 1, "c1LeakOhm": 1e9, "chokeH": 10,
            "chokeSaturatesA": 10, "chokeOhm": 200, "c2F": 20e-6, "loadK": 0, "loadPower": 1.3, "bleedOhm": 1e9, **over}


@check("supplies")
def supplies_no_load_and_balance():
    """Next to no load: both capacitors stand at the crest less the diode's drop (0.6 V and a little) and half the ripple. Loaded: charge in = charge out, choke drop = I R, half the step changes nothing."""
    from supply import simulate
    full = plain_supply(silicon=0, loadK=0.08 / 300 ** 1.3, c1LeakOhm=2e4, chokeSaturatesA=0.2, unequal=0.01)
    a, b = simulate([plain_supply(halfOhm=5, bleedOhm=1e6), full])
    h = simulate([full], steps=800)[0]
    crest = 300 * np.sqrt(2)
    d0 = a["firstV"] - crest
    d1 = b["rectifierA"] - b["loadA"] - b["firstV"] / 2e4
    d2 = b["firstV"] - b["secondV"] - b["chokeA"] * 200
    d3 = abs(h["firstV"] - b["firstV"]) + abs(h["secondRipplePpV"] - b["secondRipplePpV"])
    return say(-1.0 < d0 < -0.6 and abs(d1) < 2e-5 and abs(d2) < 0.05 and d3 < 0.02, f"supplies: next to no load {d0:.2f} V from the crest; charge {d1:.1e} A; choke {d2:.3f} V; half step {d3:.4f} V")


@check("supplies")
def supplies_ripple():
    """Small source resistance: first ripple a little under I/(2 f C); after the choke, ripple of the first over (2 w)^2 L C less one, for the fundamental."""
    from supply import simulate
    s = simulate([plain_supply(halfOhm=5, c1F=40e-6, loadPower=1.0, loadK=1 / 8000)])[0]
    tri = s["loadA"] / (2 * 60 * 40e-6)
    part = (2 * 2 * np.pi * 60) ** 2 * 10 * 20e-6 - 1
    low = s["firstRipplePpV"] / part
    return say(0.75 < s["firstRipplePpV"] / tri < 1 and 0.4 < s["secondRipplePpV"] / low < 1.0,
               f"supplies: ripple {s['firstRipplePpV']:.2f} V for at most {tri:.2f}; after the choke {s['secondRipplePpV']:.4f} V, all of it as fundamental would give {low:.4f}")


def job(name):
    import json
    import os
    from kit import HERE
    with open(os.path.join(HERE, "jobs", name), encoding="utf-8") as f:
        return json.load(f)


def step_of(data, name):
    return next(s for s in data["steps"] if s["step"] == name)


@check("jobs")
def jobs_kirchhoff():
    """Supply and stages agree: what the stages and the bleeder draw is the load of the supply; a plate stands below B+ by current times load."""
    d = job("ten-tube-117v.json")
    found, rows = step_of(d, "supply as found")["truth"], step_of(d, "voltage chart")["reads"]["rows"]
    volt = {(r["tube"], r["electrode"]): r["truth"]["foundV"] for r in rows}
    r = d["truth"]["actualOhm"]
    cathode = sum(volt[(t, "cathode")] / r[t]["cathodeOhm"] for t in r)
    bleed = found["secondV"] / 33e3
    source = next(x["sourceOhm"] for x in rows if (x["tube"], x["electrode"]) == ("V8", "plate"))
    leak_share = (volt[("V8", "plate")] - volt[("V9", "grid")]) / 12e6 * source  # plateA of V8 is without the leak, its volts are with it
    drop = found["secondV"] - volt[("V8", "plate")] - r["V8"]["plateOhm"] * (d["truth"]["plateA"]["V8"]["found"]) - leak_share
    f = job("five-tube-live-chassis.json")
    back = step_of(f, "supply as left")["truth"]
    v4 = {(x["tube"], x["electrode"]): x["truth"]["leftV"] for x in step_of(f, "voltage chart")["reads"]["rows"]}
    r4 = f["truth"]["actualOhm"]["V4"]
    first = (back["firstV"] - v4[("V4", "plate")]) / r4["plateOhm"]
    second = (back["firstV"] - back["secondV"]) / 1000
    a = (cathode + bleed) / found["loadA"] - 1
    b = (first + second) / back["rectifierA"] - 1
    return say(abs(a) < 2e-3 and abs(drop) < 0.2 and abs(b) < 5e-3, f"jobs: load of ten tubes within {a:.1e}, first AF plate within {drop:.2f} V with the leak's share, five tubes' charge within {b:.1e}")


@check("jobs")
def jobs_touch_and_leak():
    """Touch current of a small capacitor is V w C; a dead short gives V over the network. Output tube out: grid stands at the divider of the leak."""
    from job_parts import touch_a
    w = 2 * np.pi * 60
    a = touch_a(117, 60, 1j * w * 1e-12, 0) / (117 * w * 1e-12) - 1
    b = touch_a(117, 60, 1e6, 0) / (117 * abs(1 / 1500 + 1j * w * 0.15e-6)) - 1
    d = job("ten-tube-117v.json")
    t, r = step_of(d, "coupling capacitor, V9 pulled")["truth"], d["truth"]["actualOhm"]["V9"]["gridOhm"]
    want = t["V8plateV"] * r / (r + t["leakOhm"])
    return say(abs(a) < 1e-3 and abs(b) < 2e-3 and abs(t["gridV"] / want - 1) < 2e-3, f"jobs: touch current {a:.0e}, {b:.0e}; leak divider {t['gridV']:.3f} V for {want:.3f}")


def dials_of(family):
    with open(os.path.join(HERE, "dials.json"), encoding="utf-8") as f:
        return [d for d in json.load(f)["dials"] if d["family"] == family]


@check("dials")
def dials_noise_and_slip():
    """Readings less the scale that the truth stands for: their scatter is what each family says, and after a slip they are off by it."""
    from scipy.interpolate import CubicSpline

    def off(d):
        return np.array(d["readingDiv"]) - CubicSpline(d["truth"]["atHz"], d["truth"]["atDiv"])(d["frequencyHz"])
    scatter = [np.sqrt(np.mean(np.concatenate([off(d) for d in dials_of(f)]) ** 2)) for f in ("as stated", "scatters twice", "scatters six times")]
    slips = [off(d)[d["truth"]["fromRow"] - 1:].mean() - off(d)[:d["truth"]["fromRow"] - 1].mean() - d["truth"]["slipDiv"] for d in dials_of("slipped")]
    ok = all(abs(s / t - 1) < 0.15 for s, t in zip(scatter, (0.1, 0.2, 0.6))) and np.max(np.abs(slips)) < 0.25
    return say(ok, f"dials: scatter {scatter[0]:.3f}, {scatter[1]:.3f}, {scatter[2]:.3f} div; slips within {np.max(np.abs(slips)):.2f} div")


@check("dials")
def dials_one_marker():
    """Markers are a spacing apart but for the one that was missed."""
    steps = [np.diff(d["frequencyHz"]) / d["spacingHz"] for d in dials_of("miscounted")]
    ok = all(np.sum(s) == len(s) + 1 and s[d["truth"]["fromRow"] - 2] == 2 for s, d in zip(steps, dials_of("miscounted")))
    return say(ok, "dials: one marker missed in each that says so")


if __name__ == "__main__":
    from check_whole import WHOLE
    from check_faults import FAULTS_CHECKS
    CHECKS.update({**WHOLE, **FAULTS_CHECKS})
    names = sys.argv[1:] or list(CHECKS)
    good = [fn() for n in names for fn in CHECKS[n]]
    sys.exit(0 if all(good) else 1)
