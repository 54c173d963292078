"""Limiting cases of every world, two at least each. Run: python3 check_worlds.py (all) or with names."""
import sys

import numpy as np

CHECKS = {}


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


if __name__ == "__main__":
    names = sys.argv[1:] or list(CHECKS)
    good = [fn() for n in names for fn in CHECKS[n]]
    sys.exit(0 if all(good) else 1)
