"""A Q multiplier on a cable at the first primary of an IF strip, all in one matrix: blocking capacitor, cable in sections (inductance, resistance, capacitance), tank with a tap,
triode as a current source between plate, grid and cathode, and its plate's decoupling with the capacitor's series resistance."""
import numpy as np
from scipy.linalg import eig

from if_circuit import Strip

SECTIONS = 3
FEET = 0.3048


class QStrip(Strip):
    """Strip with the accessory. cable: feet, ohm (Z0), velocity, lossOhmPerFt, blockF; q: None (far end open) or coilH, coilQ, tuneF, tap1F, tap2F, gmS, mu, feedbackOhm, cathodeOhm, decouplingF,
    decouplingSeriesOhm, feedOhm. on False: tube cold (no current)."""

    def __init__(self, cans, tubes, centre_hz, cable, q=None, on=True, **more):
        super().__init__(cans, tubes, centre_hz, **more)
        self.old = self.n
        extra = 1 + 2 * SECTIONS + (6 if q else 0)
        n = self.n + extra
        for name in ("G", "C", "R"):
            m = np.zeros((n, n))
            m[: self.n, : self.n] = getattr(self, name)
            setattr(self, name, m)
        self.b = np.concatenate([self.b, np.zeros(extra)])
        self.last = self.n - 3
        k = self.n
        self.n = n
        self.put_c(0, k, cable["blockF"])
        delay = cable["feet"] * FEET / (2.998e8 * cable["velocity"])
        c_all, l_all = delay / cable["ohm"], delay * cable["ohm"]
        for j in range(SECTIONS):
            a, b, i = k + 2 * j, k + 2 * j + 2, k + 2 * j + 1
            self.put_c(a, None, c_all / SECTIONS / 2)
            self.put_c(b, None, c_all / SECTIONS / 2)
            self.put_l(a, b, i, l_all / SECTIONS, cable["lossOhmPerFt"] * cable["feet"] / SECTIONS)
        self.end = k + 2 * SECTIONS
        self.put_g(self.end, None, 1e-9)
        if q:
            y, base = self.end, self.end + 1
            t, cath, grid, plate, lossy, il = base, base + 1, base + 2, base + 3, base + 4, base + 5
            self.put_l(y, None, il, q["coilH"], 2 * np.pi * centre_hz * q["coilH"] / q["coilQ"])
            self.put_c(y, None, q["tuneF"])
            self.put_c(y, t, q["tap1F"])
            self.put_c(t, None, q["tap2F"])
            self.put_c(y, grid, 220e-12)
            self.put_g(grid, None, 1 / 2.2e6)
            self.put_g(t, cath, 1 / q["feedbackOhm"])
            self.put_g(cath, None, 1 / q["cathodeOhm"])
            for node in (t, cath, grid, plate, lossy):
                self.put_c(node, None, 1.5e-12)
            self.put_g(plate, None, 1 / q["feedOhm"])
            self.put_c(lossy, None, q["decouplingF"])
            self.put_g(plate, lossy, 1 / q["decouplingSeriesOhm"])
            if on:
                g, gp = q["gmS"], q["gmS"] / q["mu"]
                for node, sign in ((plate, 1), (cath, -1)):
                    self.G[node, grid] += sign * g
                    self.G[node, plate] += sign * gp
                    self.G[node, cath] -= sign * (g + gp)

    def put_c(self, a, b, c):
        self.pair(self.C, a, b, c)

    def put_g(self, a, b, g):
        self.pair(self.G, a, b, g)

    def put_l(self, a, b, i, l, r):
        """Coil from a to b (None: ground) whose current is unknown number i."""
        self.G[a, i] += 1
        self.G[i, a] -= 1
        if b is not None:
            self.G[b, i] -= 1
            self.G[i, b] += 1
        self.C[i, i] += l
        self.R[i, i] += r

    @staticmethod
    def pair(m, a, b, x):
        m[a, a] += x
        if b is not None:
            m[b, b] += x
            m[a, b] -= x
            m[b, a] -= x

    def gain(self, f):
        f = np.atleast_1d(np.asarray(f, float))
        s = 2j * np.pi * f[:, None, None]
        A = self.G + self.R * ((f / self.centre) ** self.r_power)[:, None, None] + s * self.C
        x = np.linalg.solve(A, np.broadcast_to(self.b[:, None], (len(f), self.n, 1)).astype(complex))
        return x[:, self.last, 0]

    def stable(self):
        w = eig(-(self.G + self.R), self.C, right=False)
        w = w[np.isfinite(w) & (np.abs(w) < 1e10)]
        return bool(np.max(w.real) < 0)


def tank(centre_hz, cable, coil_h, tap=(0.1,), off_hz=0.0):
    """tuneF so that tank, cable and blocking capacitor together are of no reactance at the mixer plate at centre + off. tap: part of the tank's volts at the tap."""
    w = 2 * np.pi * (centre_hz + off_hz)
    c_cable = cable["feet"] * FEET / (2.998e8 * cable["velocity"]) / cable["ohm"]
    tap1 = 300e-12
    tap2 = tap1 * (1 - tap[0]) / tap[0]
    series = tap1 * tap2 / (tap1 + tap2)
    want = 1 / (w * w * coil_h) - c_cable - series - 1.5e-12 * 220 / 221.5
    if want < 10e-12:
        raise ArithmeticError("coil too large for this cable")
    return {"coilH": coil_h, "tuneF": want, "tap1F": tap1, "tap2F": tap2}


def critical_feedback(make):
    """Largest feedback resistance at which the circuit still whistles. make(ohm) -> QStrip."""
    lo, hi = 0.0, np.log(1e6)
    if make(1.0).stable():
        return 0.0
    while hi - lo > 1e-6:
        mid = (lo + hi) / 2
        lo, hi = (lo, mid) if make(np.exp(mid)).stable() else (mid, hi)
    return float(np.exp(hi))
