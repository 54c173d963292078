"""resonance.json: loop-coupled resonators as one-ports, two-ports with leakage, small magnetic loops, and quartz swept coarsely.
Circuits are solved as they stand; the truth comes from natural frequencies of the whole circuit, not from a fit to the curve."""
import numpy as np
from scipy.linalg import eig

from kit import arr, dec, rng_for, sig, write_world

Z0 = 50.0


def loss(r0, f, f0, power):
    return r0 * (f / f0) ** power


def one_port_z(p, f):
    """Loop of lLoopH, rLoopOhm coupled by mH to a resonator lH cF rOhm (rOhm at f0, rising as f**power)."""
    w = 2 * np.pi * f
    zr = loss(p["rOhm"], f, p["f0Hz"], p["power"]) + 1j * w * p["lH"] + 1 / (1j * w * p["cF"])
    return p["rLoopOhm"] + 1j * w * p["lLoopH"] + (w * p["mH"]) ** 2 / zr


def line(f, p):
    """Two-way line: delay, loss in dB at f0 (rising as root f)."""
    return np.exp(-2j * np.pi * f * p["delayS"]) * 10 ** (-p["lossDb"] / 20 * np.sqrt(f / p["f0Hz"]))


def pole(L, R, S, near_hz):
    """Natural frequency nearest near_hz of meshes with inductance, resistance, elastance matrices: f in Hz and Q."""
    n = len(L)
    A = np.block([[np.zeros((n, n)), np.eye(n)], [-S, -R]])
    B = np.block([[np.eye(n), np.zeros((n, n))], [np.zeros((n, n)), L]])
    s = eig(A, B, right=False)
    s = s[np.isfinite(s) & (s.imag > 0)]
    k = s[np.argmin(np.abs(s.imag / 2 / np.pi - near_hz))]
    return float(abs(k) / 2 / np.pi), float(abs(k) / (-2 * k.real))


def one_port_truth(p):
    L = np.array([[p["lLoopH"], p["mH"]], [p["mH"], p["lH"]]])
    S = np.diag([0.0, 1 / p["cF"]])

    def at(port, loop, r):
        return pole(L, np.diag([port + loop, r]), S, p["f0Hz"])
    f_loaded, q_loaded = at(Z0, p["rLoopOhm"], p["rOhm"])
    f0, q0 = pole(L[1:, 1:], np.array([[p["rOhm"]]]), S[1:, 1:], p["f0Hz"])
    w = 2 * np.pi * f_loaded
    zs2 = (Z0 + p["rLoopOhm"]) ** 2 + (w * p["lLoopH"]) ** 2
    rc = (w * p["mH"]) ** 2 / zs2
    return {"unloadedHz": dec(f0, 1), "loadedHz": dec(f_loaded, 1), "unloadedQ": sig(q0, 6), "loadedQ": sig(q_loaded, 6),
            "coupling": sig(rc * Z0 / p["rOhm"], 5), "couplingWithLoopLoss": sig(rc * (Z0 + p["rLoopOhm"]) / p["rOhm"], 5)}


def make_one_port(rng, i):
    f0 = np.exp(rng.uniform(np.log(455e3), np.log(30e6)))
    q0 = rng.uniform(50, 400)
    beta = np.exp(rng.uniform(np.log(0.05), np.log(3)))
    c = np.exp(rng.uniform(np.log(50e-12), np.log(400e-12)))
    return finish_one_port(rng, f0, q0, beta, c, loop_x=rng.uniform(0.05, 0.8) * Z0, r_loop=rng.uniform(0.02, 1.0))


def finish_one_port(rng, f0, q0, beta, c, loop_x, r_loop):
    w = 2 * np.pi * f0
    l = 1 / (w * w * c)
    r = w * l / q0
    l_loop = loop_x / w
    m = np.sqrt(beta * r * ((Z0 + r_loop) ** 2 + loop_x ** 2) / Z0) / w
    if m > 0.6 * np.sqrt(l * l_loop):  # no loop couples more tightly than that: a bigger loop
        l_loop = max(l_loop, (m / 0.6) ** 2 / l)
        m = np.sqrt(beta * r * ((Z0 + r_loop) ** 2 + (w * l_loop) ** 2) / Z0) / w
        while m > 0.8 * np.sqrt(l * l_loop):
            l_loop *= 1.2
            m = np.sqrt(beta * r * ((Z0 + r_loop) ** 2 + (w * l_loop) ** 2) / Z0) / w
            if w * l_loop > 5 * Z0:
                m = 0.8 * np.sqrt(l * l_loop)
                break
    return {"f0Hz": f0, "lH": l, "cF": c, "rOhm": r, "power": rng.uniform(0, 1.0), "lLoopH": l_loop, "rLoopOhm": r_loop, "mH": m,
            "delayS": rng.uniform(0, 15e-9), "lossDb": rng.uniform(0, 0.5)}


def sweep(rng, centre, width, spans, points, off):
    half = spans * width / 2
    return np.round(np.linspace(centre + off * width - half, centre + off * width + half, points), 0)


def read_complex(rng, s, noise):
    s = s + noise * (rng.normal(0, 1, len(s)) + 1j * rng.normal(0, 1, len(s)))
    return arr(s.real, 5), arr(s.imag, 5)


def constants(p):
    return {k: sig(v, 5) for k, v in p.items()}


def one_port(i, kind):
    rng = rng_for("resonance-" + kind, i)
    if kind == "small loop":
        f0 = np.exp(rng.uniform(np.log(3.5e6), np.log(14e6)))
        x = 2 * np.pi * f0 * rng.uniform(1.2e-6, 4e-6)
        p = finish_one_port(rng, f0, rng.uniform(120, 400), np.exp(rng.uniform(np.log(0.4), np.log(1.8))), 1 / (2 * np.pi * f0 * x),
                            loop_x=rng.uniform(0.2, 0.7) * Z0, r_loop=rng.uniform(0.02, 0.2))
    else:
        p = make_one_port(rng, i)
    t = one_port_truth(p)
    f = sweep(rng, t["loadedHz"], t["loadedHz"] / t["loadedQ"], rng.uniform(4, 12), int(rng.integers(61, 142)), rng.uniform(-1, 1))
    z = one_port_z(p, f)
    noise = rng.uniform(0.0005, 0.003)
    re, im = read_complex(rng, (z - Z0) / (z + Z0) * line(f, p), noise)
    return {"id": f"{'loop' if kind == 'small loop' else 'one-port'}-{i + 1:02d}", "kind": kind, "ports": 1, "noise": sig(noise, 2), "fHz": arr(f, 0), "s11Re": re, "s11Im": im,
            "truth": {**t, "circuit": constants(p)}}


def two_port(i):
    """Loop in, resonator, loop out; the loops see each other a little (m12H) and so do the leads (a constant leak with its own delay)."""
    rng = rng_for("resonance-two-port", i)
    p1 = make_one_port(rng, i)
    f0, l, c, r = p1["f0Hz"], p1["lH"], p1["cF"], p1["rOhm"]
    q0 = 2 * np.pi * f0 * l / r
    a, b = (finish_one_port(rng, f0, q0, np.exp(rng.uniform(np.log(0.05), np.log(1.2))), c, rng.uniform(0.05, 0.5) * Z0, rng.uniform(0.02, 0.5)) for _ in range(2))
    m12 = rng.choice([-1, 1]) * rng.uniform(0, 0.01) * np.sqrt(a["lLoopH"] * b["lLoopH"])
    L = np.array([[a["lLoopH"], a["mH"], m12], [a["mH"], l, b["mH"]], [m12, b["mH"], b["lLoopH"]]])
    S = np.diag([0, 1 / c, 0])
    R = np.diag([Z0 + a["rLoopOhm"], r, Z0 + b["rLoopOhm"]])
    f_loaded, q_loaded = pole(L, R, S, f0)
    f_un, q_un = pole(L[1:2, 1:2], R[1:2, 1:2], S[1:2, 1:2], f0)
    f = sweep(rng, f_loaded, f_loaded / q_loaded, rng.uniform(4, 12), int(rng.integers(61, 142)), rng.uniform(-1, 1))
    leak_db = rng.uniform(-65, -40)
    p = {"f0Hz": f0, "delayS": rng.uniform(0, 15e-9), "lossDb": rng.uniform(0, 0.5)}
    leak = 10 ** (leak_db / 20) * np.exp(1j * rng.uniform(0, 2 * np.pi))
    s21 = two_port_s21(L, R, S, f, f0, p1["power"])
    s = (s21 + leak) * line(f, p)
    noise = rng.uniform(0.0003, 0.002)
    re, im = read_complex(rng, s, noise)

    def beta(x):
        w = 2 * np.pi * f_loaded
        return (w * x["mH"]) ** 2 / ((Z0 + x["rLoopOhm"]) ** 2 + (w * x["lLoopH"]) ** 2) * Z0 / r
    peak = np.max(np.abs(two_port_s21(L, R, S, f_loaded * (1 + np.linspace(-1, 1, 4001) / q_loaded / 2), f0, p1["power"])))
    return {"id": f"two-port-{i + 1:02d}", "kind": "two-port", "ports": 2, "noise": sig(noise, 2), "fHz": arr(f, 0), "s21Re": re, "s21Im": im,
            "truth": {"unloadedHz": dec(f_un, 1), "loadedHz": dec(f_loaded, 1), "unloadedQ": sig(q_un, 6), "loadedQ": sig(q_loaded, 6), "couplingIn": sig(beta(a), 5),
                      "couplingOut": sig(beta(b), 5), "peakWithoutLeakAndLine": sig(peak, 5), "leakDb": dec(leak_db, 1), "delayS": sig(p["delayS"], 4), "lossDb": dec(p["lossDb"], 3),
                      "circuit": {"lH": sig(l, 5), "cF": sig(c, 5), "rOhm": sig(r, 5), "lossPower": sig(p1["power"], 3), "loopInH": sig(a["lLoopH"], 5), "loopOutH": sig(b["lLoopH"], 5),
                                  "mInH": sig(a["mH"], 5), "mOutH": sig(b["mH"], 5), "mLoopsH": sig(m12, 4)}}}


def two_port_s21(L, R, S, f, f0, power):
    out = []
    for x in f:
        w = 2 * np.pi * x
        Rx = R.copy()
        Rx[1, 1] = loss(R[1, 1], x, f0, power)
        cur = np.linalg.solve(Rx + 1j * w * L + S / (1j * w), np.array([1.0, 0, 0]))
        out.append(-2 * Z0 * cur[2])
    return np.array(out)


def quartz(i):
    """Motional arm with holder capacitance, between rOhm sources on both sides; two or three points a bandwidth."""
    rng = rng_for("resonance-quartz", i)
    f0 = [455e3, 465e3, 1.6e6, 3.5e6, 5e6, 8e6][i] + round(rng.uniform(-300, 300))
    q = np.exp(rng.uniform(np.log(8e3), np.log(9e4)))
    c0 = rng.uniform(3e-12, 9e-12)
    cm = c0 / rng.uniform(230, 600)
    w = 2 * np.pi * f0
    lm = 1 / (w * w * cm)
    rm = w * lm / q
    rt = 50.0 if i % 2 else 12.5
    bw = f0 * (rm + 2 * rt) / (w * lm)
    per = rng.uniform(1.5, 3.5)
    points = int(rng.integers(41, 72))
    step = max(1.0, round(bw / per, 0 if bw / per > 5 else 1))
    f = np.round(f0 + rng.uniform(-0.5, 0.5) * step + (np.arange(points) - points // 2) * step, 1)
    ww = 2 * np.pi * f
    y = 1 / (rm + 1j * ww * lm + 1 / (1j * ww * cm)) + 1j * ww * c0
    s = 2 * rt / (2 * rt + 1 / y)
    noise = rng.uniform(0.0005, 0.002)
    re, im = read_complex(rng, s, noise)
    fp = f0 * np.sqrt(1 + cm / c0)
    return {"id": f"quartz-{i + 1:02d}", "kind": "quartz", "ports": 2, "fixtureOhm": rt, "noise": sig(noise, 2), "fHz": arr(f, 1), "s21Re": re, "s21Im": im,
            "truth": {"seriesHz": dec(f0, 1), "parallelHz": dec(fp, 1), "unloadedQ": sig(q, 5), "loadedQ": sig(w * lm / (rm + 2 * rt), 5), "motionalOhm": sig(rm, 5), "motionalH": sig(lm, 6),
                      "motionalF": sig(cm, 5), "holderF": sig(c0, 5), "pointsABandwidth": sig(bw / step, 3)}}


if __name__ == "__main__":
    items = [one_port(i, "one-port") for i in range(40)] + [two_port(i) for i in range(30)]
    items += [one_port(i, "small loop") for i in range(6)] + [quartz(i) for i in range(6)]
    write_world("resonance.json", {
        "about": "Invented network readings of resonators. 50 ohm ports (quartz: fixtureOhm on either side). A line not taken out by calibration stands before one-ports and two-ports.",
        "units": "names end in Hz, Ohm, H, F, S (seconds in delayS), Db; coupling = unloaded Q over external Q", "madeBy": "make_resonance.py"}, "items", items)
