"""Small-signal gain of a stage at one frequency: slopes of the tube's own law at its working point, resistors and capacitors as admittances at plate, screen, cathode and grid, one matrix."""
import numpy as np

from tube_stage import tube_currents


def slopes(s, v):
    """d(plate, screen current)/d(grid, screen, plate volts to cathode)."""
    at = np.array([v[4] - v[3], v[2] - v[3] if s["screenOhm"] else 0.0, v[1] - v[3]])
    out = np.zeros((2, 3))
    for j in range(3):
        h = np.zeros(3)
        h[j] = 1e-4
        up, down = (tube_currents(s["tube"], x[2], x[1], x[0]) for x in (at + h, at - h))
        out[:, j] = [(up[k] - down[k]) / 2e-4 for k in (0, 1)]
    if not s["screenOhm"]:
        out[:, 1] = 0.0
    return out


def gains(s, v, ac):
    """(grid to plate, plate before to grid), each as modulus. ac: hz, loadOhm, cathodeF, screenF, couplingF (0: not there)."""
    w = 2j * np.pi * ac["hz"]
    m = slopes(s, v)
    A, b = np.zeros((3, 3), complex), np.zeros(3, complex)  # plate, screen, cathode
    for row, k, sign in ((0, 0, 1), (1, 1, 1), (2, 0, -1), (2, 1, -1)):
        g, gs, gp = m[k]
        A[row] += sign * np.array([gp, gs, -(g + gs + gp)])
        b[row] -= sign * g
    A[0, 0] += 1 / ac["loadOhm"]
    A[1, 1] += (1 / s["screenOhm"] + 1 / s["screenLeakOhm"] + 1 / s["screenBleedOhm"] + w * ac["screenF"]) if s["screenOhm"] else 1.0
    A[2, 2] += 1 / s["cathodeOhm"] + 1 / s["cathodeLeakOhm"] + w * ac["cathodeF"]
    through = w * ac["couplingF"] + 1 / s["couplingOhm"]
    return abs(np.linalg.solve(A, b)[0]), abs(through / (through + 1 / s["gridOhm"] + w * 60e-12))


def db(x):
    return 20 * np.log10(max(x, 1e-4))
