"""IF strip, dial, signal tracing, drift and touch readings of a whole invented set."""
import numpy as np
from scipy.optimize import brentq, minimize_scalar

import job_parts as jp
from if_circuit import Strip, make_can, response_truth
from kit import arr, dec, sig
from make_drift import Law
from make_tracking import Gang, design_for, oscillator_hz
from q_multiplier import QStrip


def fig(name, value, unit, digits=5):
    return {"name": name, "value": sig(value, digits), "unit": unit}


class IfSide:
    """spec["if"]: hz, cans [(Q, Q, kQ)], capsPf, tubes, driveS, rpOhm, gridOhm, diodeOhm, turnedHz, seed."""

    def __init__(self, spec, left):
        self.spec, self.d = spec, spec["if"]
        self.best = jp.line_up(lambda o: self.strip(left, o), self.d["hz"], 2 * len(self.d["cans"]))

    def gms(self, res):
        return [jp.gm_s(res["ready"][n], res["volts"][n]) for n in self.d["tubes"]]

    def cans(self, offs):
        rng, d, last = np.random.default_rng(self.d["seed"]), self.d, len(self.d["cans"]) - 1
        return [make_can(rng, d["hz"], q1, q2, kq, offs[2 * j], offs[2 * j + 1], c_pf=c, cm_pf=0.04, rp=d["rpOhm"], rg=d["gridOhm"] if j < last else d["diodeOhm"])
                for j, ((q1, q2, kq), c) in enumerate(zip(d["cans"], d["capsPf"]))]

    def strip(self, res, offs, cable=None, q=None, on=True):
        tubes = [{"gmS": g, "cgpF": 0.0025e-12} for g in self.gms(res)]
        if cable:
            return QStrip(self.cans(offs), tubes, self.d["hz"], cable, q, on, drive_s=self.d["driveS"])
        return Strip(self.cans(offs), tubes, self.d["hz"], drive_s=self.d["driveS"])

    def sweep(self, strip, rng, noise, span_hz, points, centre=None):
        """What a person reads and what is behind it."""
        if not strip.stable():
            raise ArithmeticError("IF strip whistles")
        hz = self.d["hz"]
        t = response_truth(strip.db, hz)
        f = np.round((centre or hz) + np.linspace(-span_hz, span_hz, points), -1)
        reads = {"inputAt": "mixer grid", "outputDbIs": "volts at the detector for one volt in, small signal, AVC off", "noiseDb": noise, "frequencyHz": arr(f, 0), "outputDb": arr(strip.db(f) + rng.normal(0, noise, points), 2)}
        truth = {k: dec(v, 1) for k, v in t.items() if k.endswith("Hz") and not isinstance(v, list)}
        truth.update(peakDb=dec(t["peakDb"], 2), humps=t["humps"], dipDb=dec(t["dipDb"], 2), atCentreDb=dec(float(strip.db(hz)[0]), 2))
        return reads, truth

    def first_can_hz(self, offs, strip=None):
        """Where the first primary resonates by itself, with cable and accessory on it if strip is given."""
        c = self.cans(offs)[0]
        y1 = lambda s: s * (c["c1F"] + c["cmF"]) + 1 / (c["r1Ohm"] + s * c["l1H"])
        alone = 1 / (2 * np.pi * np.sqrt(c["l1H"] * (c["c1F"] + c["cmF"])))
        if strip is None:
            return alone
        imag = lambda f: (y1(2j * np.pi * f) + accessory_y(strip, f)).imag
        f = np.linspace(alone * 0.6, alone * 1.15, 2400)
        v = np.array([imag(x) for x in f])
        at = [brentq(imag, f[i], f[i + 1]) for i in range(len(f) - 1) if v[i] < 0 <= v[i + 1]]
        return min(at, key=lambda x: abs(x - alone))


def accessory_y(strip, f):
    """Admittance that cable and accessory put on the mixer plate."""
    s = 2j * np.pi * f
    A = strip.G + strip.R * (f / strip.centre) ** strip.r_power + s * strip.C
    k = slice(strip.old, strip.n)
    block = -A[0, strip.old]
    return block - A[0, k] @ np.linalg.solve(A[k, k], A[k, 0])


def peak_hz(strip, centre, reach=8e3):
    f = np.arange(centre - reach, centre + reach, 10.0)
    k = int(np.argmax(strip.db(f)))
    return float(minimize_scalar(lambda x: -float(strip.db(np.array([x]))[0]), bounds=(f[max(k - 1, 0)], f[min(k + 1, len(f) - 1)]), method="bounded", options={"xatol": 1e-3}).x)


def if_figures(t, when):
    return [fig(f"ifWidth{n}Hz {when}", t[f"width{n}Hz"], "Hz") for n in (3, 6, 60) if t[f"width{n}Hz"]] + [fig(f"ifPeakHz {when}", t["peakHz"], "Hz", 7), fig(f"ifGainDb {when}", t["peakDb"], "dB", 4)]


class Dial:
    """spec["ranges"] {name: (lowHz, highHz)}, spec["dialFault"] {range, part, off, leftOff}."""

    def __init__(self, spec, rng):
        self.spec, self.gang, self.parts = spec, Gang(*spec["gang"]), {}
        for name, (lo, hi) in spec["ranges"].items():
            p, _ = design_for(rng, lo, hi, spec["if"]["hz"], self.gang)
            self.parts[name] = p

    def table(self, off, rng, noise=0.001, if_off_hz=0.0):
        """Known signals and where the dial stands for each; off: of the faulty part."""
        hz, out, figures = self.spec["if"]["hz"], [], []
        for name, (lo, hi) in self.spec["ranges"].items():
            p = self.parts[name]
            bad = self.spec["dialFault"]
            key = {"padder": "padderF", "coil": "coilH", "trimmer": "trimmerF"}[bad["part"]]
            actual = {**p, key: p[key] * (1 + off)} if name == bad["range"] else p
            step = next(s for s in (50e3, 100e3, 200e3, 500e3, 1e6, 2e6, 5e6) if (hi - lo) / s <= 9)
            marks = [f for f in np.arange(np.ceil(lo / step) * step, hi, step) if lo * 1.04 < f < hi * 0.97]
            marks = marks if len(marks) <= 5 else [marks[i] for i in np.round(np.linspace(0, len(marks) - 1, 5)).astype(int)]
            rows = []
            for f in marks:
                miss = lambda t, a=actual, g=f: oscillator_hz(self.gang(t), a) - hz - if_off_hz - g
                if miss(0.0) * miss(1.0) > 0:  # out of reach with this fault
                    continue
                x = brentq(miss, 0, 1)
                clean = oscillator_hz(self.gang(x), p) - hz
                rows.append({"signalHz": dec(f, 0), "dialHz": sig(clean * (1 + rng.normal(0, noise)), 4), "truth": {"dialHz": dec(clean, 0)}})
            out.append({"range": name, "rows": rows})
            worst = max(rows, key=lambda r: abs(r["truth"]["dialHz"] / r["signalHz"] - 1))
            figures.append((f"dialErrorWorst {name}", (worst["truth"]["dialHz"] / worst["signalHz"] - 1) * 100))
        return out, figures

    def described(self):
        xs = np.linspace(0, 1, 21)
        return ({n: {"rangeHz": [dec(v, 0) for v in self.spec["ranges"][n]], **{k: sig(v, 4) for k, v in p.items()}} for n, p in self.parts.items()},
                {"turn": arr(xs, 2), "capacitanceF": [sig(c, 5) for c in self.gang(xs)]})


def af_gain(res, name, load_ohm):
    """Gain of a stage with its cathode bypassed: slope over the conductances at its plate."""
    s, v = res["ready"][name], res["volts"][name]
    h = 0.01
    up = jp.currents(s, np.array([v[0], v[1] + h, *v[2:]]))[0]
    rp = (up - jp.currents(s, v)[0]) / h
    return jp.gm_s(s, v) / (rp + 1 / load_ohm)


def trace(spec, side, res, offs, rng):
    """Volts needed at each point for 50 mW out, from the output back to the mixer: rows and figures."""
    d, hz = spec["trace"], spec["if"]["hz"]
    need = float(np.sqrt(0.05 * d["outputLoadOhm"]))
    rows, gains, levels = [], [], []
    for name, load in d["audio"]:  # from the output back
        a = af_gain(res, name, load)
        need /= a
        gains.append((f"afGainDb {name}", 20 * np.log10(a)))
        levels.append((f"{name} grid", 400, need))
    need /= 0.3 * d["detectorPart"]
    cans, g, n = side.cans(offs), side.gms(res), len(spec["if"]["tubes"])
    for j in range(n, -1, -1):
        s = Strip(cans[j:], [{"gmS": x, "cgpF": 0.0025e-12} for x in g[j:]], hz, drive_s=g[j - 1] if j else spec["if"]["driveS"])
        a = abs(s.gain(hz)[0])
        levels.append((f"{spec['if']['tubes'][j - 1] if j else d['mixer']} grid", hz, need / a))
        gains.append((f"ifGainDb from {levels[-1][0]}", 20 * np.log10(a)))
    for at, f, v in levels:
        rows.append({"at": at, "signalHz": dec(f, 0), "inputV": sig(v * 10 ** (rng.normal(0, 0.5) / 20), 3), "truth": {"inputV": sig(v, 4)}})
    return rows, gains


def drift_log(rng, hz, parts):
    law = Law()
    for size, minutes in parts:
        law.exponential(size, minutes)
    t = np.arange(2.0, 61.0, 2.0)
    y = hz - law.left(t) + law.left(0.0) + rng.normal(0, 6, len(t))
    reads = {"signalHz": dec(hz, 0), "noiseHz": 6, "timeMin": arr(t, 0), "frequencyHz": arr(y, 0)}
    left, rate = float(law.left(60.0)), float(law.rate(60.0))
    truth = {"stillToComeHz": dec(left, 1), "rateAtEndHzPerMin": sig(rate, 4), "totalFromSwitchOnHz": dec(float(law.left(0.0)), 1)}
    return reads, truth, [fig("driftStillToComeHz", left, "Hz", 4), fig("driftRateAtEndHzPerMin", rate, "Hz/min", 4)]


def touch_rows(rng, line_v, hz, sides, limit=0.0005):
    """sides: (hot S, neutral S) to chassis of a set with a transformer; both ways of the plug."""
    rows = []
    for way, a, b in (("as plugged", *sides), ("other way round", sides[1], sides[0])):
        i = jp.touch_a(line_v, hz, a, b)
        rows.append({"plug": way, "switch": "on", "point": "chassis", "touchA": sig(i * (1 + rng.normal(0, 0.01)), 3), "truth": {"touchA": sig(i, 4)}})
    return {"lineV": line_v, "network": "1500 ohm with 0.15 uF across it, point to ground", "limitA": limit, "rows": rows}
