"""A DC stage: one tube with its resistors and leaks, solved by Kirchhoff's current law at six nodes with a tube law of our own.

Space current: sum over grid turns of unequal pitch of P * w * softplus(vg + contact + vs/muS + vp/muP)^1.5 (one pitch: sharp cutoff; many: remote).
Screen takes a share that grows as the plate falls into the knee. Grid current flows from about -0.5 V up; gas gives a grid current the other way,
in proportion to the space current. A tube with kp goes by the law in koren.py. screenSupplyV, where given, feeds the screen from a supply of its own."""
import numpy as np
from scipy.optimize import root

from koren import plate_screen

NODES = ["bplus", "plate", "screen", "cathode", "grid", "prevPlate"]

TUBES = {
    "high-mu triode": {"P": 1.7e-3, "muP": 85.0, "pitches": [(1.0, 1.0)]},
    "medium-mu triode": {"P": 1.3e-3, "muP": 19.0, "pitches": [(1.0, 1.0)]},
    "sharp-cutoff RF pentode": {"P": 1.15e-3, "muS": 23.0, "muP": 2500.0, "pitches": [(1.0, 1.0)], "share": 0.27, "kneeV": 14.0},
    "remote-cutoff RF pentode": {"P": 2.1e-3, "muS": 19.0, "muP": 2200.0, "pitches": [(0.45, 1.0), (0.3, 0.75), (0.17, 0.5), (0.08, 0.25)], "share": 0.25, "kneeV": 14.0},
    "output pentode": {"P": 1.05e-3, "muS": 9.5, "muP": 180.0, "pitches": [(1.0, 1.0)], "share": 0.11, "kneeV": 22.0},
}


def softplus(x, soft):
    return soft * np.logaddexp(0, x / soft)


def tube_currents(tube, vp, vs, vg):
    """Plate, screen, grid current for volts to the cathode. Negative grid current flows out of the grid (gas)."""
    if "kp" in tube:
        ip, ig2 = plate_screen(tube, vp, vs, vg)
        return ip, ig2, tube.get("gridP", 5e-4) * softplus(vg + 0.1, 0.1) ** 1.5 - tube.get("gas", 0.0) * (ip + ig2)
    space = 0.0
    for w, part in tube["pitches"]:
        e = vg + tube.get("contactV", 0.4) + vp / (tube["muP"] * part) + (vs / (tube["muS"] * part) if "muS" in tube else 0)
        space += w * tube["P"] * softplus(e, 0.12) ** 1.5
    vp0 = softplus(vp, 0.5)
    if "muS" in tube:
        share = tube["share"] + (1 - tube["share"]) * np.exp(-vp0 / tube["kneeV"])
        got = softplus(vs, 0.3) if tube.get("shuts") else max(vs, 0.0)
        share = share * got / (got + 2.0)
        ip, ig2 = space * (1 - share), space * share
        if tube.get("shuts"):  # nothing reaches a plate below its cathode
            stays = vp0 / (vp0 + 0.3)
            ip, ig2 = ip * stays, ig2 + ip * (1 - stays) * got / (got + 2.0)
    else:
        ip, ig2 = space * vp0 / (vp0 + 1.0), 0.0
    ig = tube.get("gridP", 5e-4) * softplus(vg + 0.1, 0.1) ** 1.5 - tube.get("gas", 0.0) * space
    return ip, ig2, ig


def residual(v, s, load, part=1.0):
    """Current out of each node (A). s: circuit; load: conductance put on each node by a meter; part: source stepping."""
    b, p, sc, k, g, pp = v
    t = s["tube"]
    ip, is_, ig = tube_currents(t, p - k, sc - k if s["screenOhm"] else 0.0, g - k)
    e = s["supplyV"] * part
    r = np.empty(6)
    r[1] = (p - b) / s["plateOhm"] + ip
    feed = s["screenSupplyV"] * part if "screenSupplyV" in s else b
    if s["screenOhm"]:
        r[2] = (sc - feed) / s["screenOhm"] + is_ + sc / s["screenBleedOhm"] + sc / s["screenLeakOhm"]
    else:
        r[2] = sc * 1e-3
    r[3] = k / s["cathodeOhm"] + k / s["cathodeLeakOhm"] - ip - is_ - ig
    r[4] = g / s["gridOhm"] + ig + (g - pp) / s["couplingOhm"]
    if s["prevV"]:
        r[5] = (pp - s["prevV"] * part) / s["prevOhm"] + (pp - g) / s["couplingOhm"]
    else:
        r[5] = pp * 1e-3
        r[4] -= (g - pp) / s["couplingOhm"]
    screen_a = (b - sc) / s["screenOhm"] if s["screenOhm"] and "screenSupplyV" not in s else 0.0
    r[0] = (b - e) / s["supplyOhm"] + (b - p) / s["plateOhm"] + screen_a + s["restA"] * b / s["supplyV"]
    return r + load * v


def solve(s, load_node=None, load_ohm=None):
    """Node volts; a meter of load_ohm on one node if given."""
    load = np.zeros(6)
    if load_node is not None:
        load[NODES.index(load_node)] = 1 / load_ohm
    v = np.zeros(6)
    scale = np.array([1e3, 1e5, 1e5, 1e3, 1e6, 1e5])
    for part in (0.1, 0.3, 0.6, 1.0):
        got = root(lambda x: residual(x, s, load, part) * scale, v, method="hybr", options={"xtol": 1e-12, "maxfev": 4000})
        v = got.x
    r = np.max(np.abs(residual(v, s, load)))
    if r > 1e-9:
        v, r = newton(s, load, scale)
    if r > 1e-9:
        raise ArithmeticError(f"did not settle: {r:.1e} A")
    return v


def newton(s, load, scale):
    """The slow way for circuits with an open part: damped Newton, the source raised in small steps. Volts and what is left (A)."""
    v = np.zeros(6)
    for part in np.linspace(0.02, 1.0, 50):
        f = lambda x, p=part: residual(x, s, load, p) * scale
        y = f(v)
        for _ in range(120):
            J = np.empty((6, 6))
            for j in range(6):
                h = np.zeros(6)
                h[j] = 1e-6 * max(1.0, abs(v[j]))
                J[:, j] = (f(v + h) - f(v - h)) / (2 * h[j])
            step = np.linalg.lstsq(J, -y, rcond=None)[0]
            step *= min(1.0, 20.0 / np.max(np.abs(step)))
            t = 1.0
            while t > 1e-4 and np.linalg.norm(f(v + t * step)) >= np.linalg.norm(y):
                t /= 2
            v, y = v + t * step, f(v + t * step)
            if np.max(np.abs(t * step)) < 1e-10:
                break
    return v, np.max(np.abs(residual(v, s, load)))


def source_ohms(s, v):
    """Resistance a meter sees at each node (inverse of the slope matrix)."""
    J = np.empty((6, 6))
    for j in range(6):
        h = 1e-5 * max(1.0, abs(v[j]))
        d = np.zeros(6)
        d[j] = h
        J[:, j] = (residual(v + d, s, np.zeros(6)) - residual(v - d, s, np.zeros(6))) / (2 * h)
    return np.diag(np.linalg.inv(J))


METERS = {
    "1 kohm/V": {"ohmsPerVolt": 1000, "rangesV": [3, 10, 30, 100, 300, 600], "fullScaleError": 0.0},
    "20 kohm/V": {"ohmsPerVolt": 20000, "rangesV": [2.5, 10, 50, 250, 500], "fullScaleError": 0.02},
    "11 Mohm": {"inputOhm": 11e6, "rangesV": [1.5, 5, 15, 50, 150, 500], "fullScaleError": 0.02},
}


def range_for(meter, volts):
    return next((r for r in METERS[meter]["rangesV"] if r >= abs(volts) * 1.02), METERS[meter]["rangesV"][-1])


def meter_reading(s, v, node, meter, rng=None):
    """What the meter shows at a node, its loading solved in the whole circuit: the range that fits what it shows.
    The maker's 1 kohm/V meter stays on 300 V for everything but cathode and grid (so his chart says)."""
    m = METERS[meter]
    i = NODES.index(node)
    rng_v = range_for(meter, v[i])
    if meter == "1 kohm/V" and node not in ("cathode", "grid"):
        return solve(s, node, 300e3)[i], 300, 300e3
    while True:
        ohm = m.get("inputOhm") or m["ohmsPerVolt"] * rng_v
        true = solve(s, node, ohm)[i]
        lower = [r for r in m["rangesV"] if r < rng_v]
        if "inputOhm" in m or not lower or abs(true) * 1.02 > lower[-1] or rng_v == m["rangesV"][0]:
            break
        below = solve(s, node, m["ohmsPerVolt"] * lower[-1])[i]
        if abs(below) * 1.02 > lower[-1]:
            break
        rng_v = lower[-1]
    shown = true
    if rng is not None:
        shown = true + rng.normal(0, m["fullScaleError"] / 3) * rng_v + rng.normal(0, 0.003) * rng_v
    return shown, rng_v, ohm
