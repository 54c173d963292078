"""A supply in the time domain, full-wave (or half-wave, off the line): transformer halves with winding resistance, rectifier (three-halves law or silicon), first capacitor with series
resistance and leak, choke that loses inductance with current, second capacitor, load k V^n plus bleeder. Fourth-order Runge-Kutta, many at once."""
import numpy as np

KEYS = ["lineHz", "halfV", "unequal", "halfOhm", "addedOhm", "perveance", "silicon", "c1F", "c1SeriesOhm", "c1LeakOhm", "chokeH", "chokeSaturatesA", "chokeOhm", "c2F",
        "loadK", "loadPower", "bleedOhm"]


def rectifier_current(u, r, p):
    """Current for u = volts left for resistance r and the rectifier's own drop."""
    u = np.maximum(u, 0.0)
    y = np.cbrt(u / r)  # tube: r y^3 + P^(-2/3) y^2 = u, Newton from above
    a = p["perveance"] ** (-2 / 3)
    for _ in range(7):
        y = np.maximum(y - (r * y ** 3 + a * y * y - u) / (3 * r * y * y + 2 * a * y + 1e-12), 0.0)
    tube = y ** 3
    si = np.zeros_like(u)
    for _ in range(6):
        si = np.maximum(u - 0.6 - 0.055 * np.log1p(si / 1e-3), 0.0) / r
    return np.where(p["silicon"] > 0, si, tube)


def simulate(cases, seconds=2.4, steps=400, keep=6):
    """cases: list of dicts with KEYS (silicon 0 or 1). Returns list of dicts of volts and currents over the last `keep` cycles."""
    p = {k: np.array([float(c[k]) for c in cases]) for k in KEYS}
    half_wave = np.array([bool(c.get("halfWave")) for c in cases])
    w = 2 * np.pi * p["lineHz"]
    dt = 1 / (p["lineHz"] * steps)
    top = p["halfV"] * np.sqrt(2)
    r = p["halfOhm"] + p["addedOhm"] + p["c1SeriesOhm"]

    def at(t, v1, il):
        s = np.sin(w * t)
        e = np.where(s > 0, top * (1 + p["unequal"] / 2) * s, np.where(half_wave, top * s, -top * (1 - p["unequal"] / 2) * s))
        leak = v1 / p["c1LeakOhm"]
        i = rectifier_current(e - v1 + p["c1SeriesOhm"] * (il + leak), r, p)
        return i, v1 + p["c1SeriesOhm"] * (i - il - leak), leak

    def load(v2):
        return p["loadK"] * np.maximum(v2, 0) ** p["loadPower"] + v2 / p["bleedOhm"]

    def slope(t, x):
        v1, il, v2 = x
        i, va, leak = at(t, v1, il)
        l = p["chokeH"] / (1 + (il / p["chokeSaturatesA"]) ** 2)
        dil = (va - p["chokeOhm"] * il - v2) / l
        return np.array([(i - il - leak) / p["c1F"], dil, (il - load(v2)) / p["c2F"]])

    v0 = p["halfV"] * 1.1
    x = np.array([v0, load(v0 * 0.9), v0 * 0.95])
    n = int(round(seconds * 60)) * steps
    out = []
    for k in range(n):
        t = k * dt
        if k >= n - 2 * keep * steps:
            i, va, _ = at(t, x[0], x[1])
            out.append([va, x[2], i, x[1]])
        a = slope(t, x)
        b = slope(t + dt / 2, x + dt / 2 * a)
        c = slope(t + dt / 2, x + dt / 2 * b)
        d = slope(t + dt, x + dt * c)
        x = x + dt / 6 * (a + 2 * b + 2 * c + d)
    out = np.array(out)
    before, last = out[: keep * steps], out[keep * steps:]
    return [{"firstV": last[:, 0, j].mean(), "secondV": last[:, 1, j].mean(), "firstRipplePpV": np.ptp(last[:, 0, j]), "secondRipplePpV": np.ptp(last[:, 1, j]),
             "loadA": load(last[:, 1, :]).mean(0)[j], "rectifierA": last[:, 2, j].mean(), "rectifierPeakA": last[:, 2, j].max(), "rectifierRmsA": np.sqrt((last[:, 2, j] ** 2).mean()),
             "chokeA": last[:, 3, j].mean(), "stillMovingV": abs(last[:, :2, j].mean(0) - before[:, :2, j].mean(0)).max()} for j in range(len(cases))]
