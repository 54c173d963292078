"""Plate current as N. Koren gave it (Improved vacuum-tube models for SPICE simulations, Glass Audio 8 (5), 1996; figures of his table as corrected), with a contact potential added to the grid
(missing in his sets). Screen: a share of the cathode current, the rest of which the plate does not take as it falls into the knee (his own screen law gives two to four times too much)."""
import numpy as np

SETS = {  # mu, exponent, kG1, kP, kVB
    "12AX7": {"mu": 100.0, "ex": 1.4, "kg1": 1060.0, "kp": 600.0, "kvb": 300.0},
    "12AU7": {"mu": 21.5, "ex": 1.3, "kg1": 1180.0, "kp": 84.0, "kvb": 300.0},
    "12AT7": {"mu": 60.0, "ex": 1.35, "kg1": 460.0, "kp": 300.0, "kvb": 300.0},
    "6L6GC": {"mu": 8.7, "ex": 1.35, "kg1": 1460.0, "kp": 48.0, "kvb": 12.0, "share": 0.075},
}


def soft(x, width=0.1):
    return width * np.logaddexp(0, x / width)


def plate_screen(t, vp, vs, vg):
    """Plate and screen current; t: a row of SETS with P (part of new), contactV."""
    vg = vg + t.get("contactV", 0.0)
    vp = soft(vp)
    if "share" not in t:
        e = vp / t["kp"] * np.logaddexp(0, t["kp"] * (1 / t["mu"] + vg / np.sqrt(t["kvb"] + vp * vp)))
        return t["P"] * 2 * e ** t["ex"] / t["kg1"], 0.0
    vs = soft(vs)
    e = vs / t["kp"] * np.logaddexp(0, t["kp"] * (1 / t["mu"] + vg / (vs + 1e-3)))
    whole = t["P"] * 2 * e ** t["ex"] / t["kg1"] * np.pi / 2 / (1 - t["share"])  # the plate then takes what he gives
    taken = np.arctan(vp / t["kvb"]) * 2 / np.pi
    screen = whole * (t["share"] + (1 - t["share"]) * (1 - taken) ** 1.5) * vs / (vs + 1.0)
    return whole * (1 - t["share"]) * taken, screen
