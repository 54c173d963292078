"""An IF strip as a full circuit: coils with mutual inductance, capacitors, tubes as current sources with plate resistance and
plate-to-grid capacitance, solved at each frequency by modified nodal analysis. No narrow-band approximation anywhere."""
import numpy as np
from scipy.linalg import eig
from scipy.optimize import brentq, minimize_scalar


class Strip:
    """cans: list of dicts with l1H l2H c1F c2F r1Ohm r2Ohm mH cmF g1S g2S (r at centreHz; g = everything in parallel).
    tubes: list (one fewer than cans) of dicts gmS cgpF. roundF: stray from the last secondary back to the first primary.
    rPower: coil resistance rises as (f/centre)**rPower."""

    def __init__(self, cans, tubes, centre_hz, r_power=0.8, round_f=0.0, drive_s=4e-4):
        self.cans, self.tubes, self.centre, self.r_power = cans, tubes, centre_hz, r_power
        n = 4 * len(cans)  # per can: plate node, grid node, two coil currents
        G, C, R = np.zeros((n, n)), np.zeros((n, n)), np.zeros((n, n))
        for i, c in enumerate(cans):
            p, g, ip, ig = 4 * i, 4 * i + 1, 4 * i + 2, 4 * i + 3
            C[p, p] += c["c1F"] + c["cmF"]
            C[g, g] += c["c2F"] + c["cmF"]
            C[p, g] -= c["cmF"]
            C[g, p] -= c["cmF"]
            G[p, p] += c["g1S"]
            G[g, g] += c["g2S"]
            G[p, ip] += 1
            G[g, ig] += 1
            G[ip, p] -= 1
            G[ig, g] -= 1
            R[ip, ip] += c["r1Ohm"]
            R[ig, ig] += c["r2Ohm"]
            C[ip, ip] += c["l1H"]
            C[ig, ig] += c["l2H"]
            C[ip, ig] += c["mH"]
            C[ig, ip] += c["mH"]
        for i, t in enumerate(tubes):
            g, p = 4 * i + 1, 4 * (i + 1)
            G[p, g] += t["gmS"]
            for a, b in ((g, p), (p, g)):
                C[a, a] += t["cgpF"]
                C[a, b] -= t["cgpF"]
        if round_f:
            for a, b in ((0, n - 3), (n - 3, 0)):
                C[a, a] += round_f
                C[a, b] -= round_f
        self.G, self.C, self.R, self.n = G, C, R, n
        self.b = np.zeros(n)
        self.b[0] = -drive_s

    def gain(self, f):
        """Complex output at the last secondary for one volt at the converter's grid; f in Hz, any shape (1-D)."""
        f = np.atleast_1d(np.asarray(f, float))
        s = 2j * np.pi * f[:, None, None]
        A = self.G + self.R * ((f / self.centre) ** self.r_power)[:, None, None] + s * self.C
        x = np.linalg.solve(A, np.broadcast_to(self.b[:, None], (len(f), self.n, 1)).astype(complex))
        return x[:, self.n - 3, 0]

    def db(self, f):
        return 20 * np.log10(np.abs(self.gain(f)))

    def stable(self):
        """True when every natural frequency dies away (coil resistance taken at the centre)."""
        w = eig(-(self.G + self.R), self.C, right=False)
        w = w[np.isfinite(w)]
        return bool(np.max(w.real) < 0)


def response_truth(db, centre_hz, reach_hz=80e3, step_hz=20.0):
    """Peak, humps and edges of a noise-free response. db: function of an array of Hz giving dB."""
    f = np.arange(centre_hz - reach_hz, centre_hz + reach_hz + step_hz / 2, step_hz)
    y = db(f)
    k = int(np.argmax(y))
    res = minimize_scalar(lambda x: -float(db(np.array([x]))[0]), bounds=(f[k - 1], f[k + 1]), method="bounded", options={"xatol": 1e-4})
    peak_hz, peak_db = float(res.x), -float(res.fun)
    tops = [i for i in range(1, len(f) - 1) if y[i] > y[i - 1] and y[i] >= y[i + 1] and y[i] > peak_db - 6]
    out = {"peakHz": peak_hz, "peakDb": peak_db, "humps": len(tops), "humpsHz": [float(f[i]) for i in tops]}
    dip = None
    if len(tops) > 1:
        dip = peak_db - float(np.min(y[tops[0]:tops[-1] + 1]))
    out["dipDb"] = dip
    for down in (3, 6, 60):
        lo, hi = crossing(db, f, y, peak_db - down)
        out[f"low{down}Hz"], out[f"high{down}Hz"] = lo, hi
        out[f"width{down}Hz"] = None if lo is None or hi is None else hi - lo
    return out


def crossing(db, f, y, level):
    """Outermost crossings of a level, sharpened on the law itself."""
    above = np.nonzero(y >= level)[0]
    lo = hi = None
    g = lambda x: float(db(np.array([x]))[0]) - level
    if len(above) and above[0] > 0:
        lo = brentq(g, f[above[0] - 1], f[above[0]], xtol=1e-4)
    if len(above) and above[-1] < len(f) - 1:
        hi = brentq(g, f[above[-1]], f[above[-1] + 1], xtol=1e-4)
    return lo, hi


def make_can(rng, centre_hz, q1, q2, kq, off1_hz=0.0, off2_hz=0.0, c_pf=None, cm_pf=0.0, shunt1=0.0, shunt2=0.0, rp=None, rg=None):
    """A can from loaded Qs and kQ: coil losses are what is left after plate resistance and grid or diode load."""
    w0 = 2 * np.pi * centre_hz
    c1 = (c_pf[0] if c_pf else rng.uniform(85, 200)) * 1e-12
    c2 = (c_pf[1] if c_pf else rng.uniform(85, 200)) * 1e-12
    cm = cm_pf * 1e-12
    m_sign = 1 if rng.random() < 0.5 else -1
    out = {"c1F": c1, "c2F": c2, "cmF": cm}
    ls = []
    for n, (c, q, off, load, shunt) in enumerate(((c1, q1, off1_hz, rp, shunt1), (c2, q2, off2_hz, rg, shunt2)), 1):
        ct = c + cm
        load = max(load, 1.25 * q / (w0 * ct))  # the load alone must leave room for coil losses
        q_coil = 1 / (1 / q - 1 / (w0 * ct * load))
        w = 2 * np.pi * (centre_hz + off)
        l = 1 / (w * w * ct)
        out[f"l{n}H"], out[f"r{n}Ohm"], out[f"g{n}S"] = l, w * l / q_coil, 1 / load + shunt
        ls.append(l)
    out["mH"] = m_sign * kq / np.sqrt(q1 * q2) * np.sqrt(ls[0] * ls[1])
    return out
