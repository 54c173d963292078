"""A set behind a lamp, and heaters on a winding. The lamp: filament temperature from radiation and conduction, resistance as temperature to the power 1.2 (tungsten, figure from memory)."""
import numpy as np
from scipy.optimize import brentq

ROOM_K, HOT_K = 295.0, 2650.0


def lamp_a(volts, rated_w, rated_v):
    """Current through a lamp: at rated volts it takes rated watts at HOT_K; a twentieth of that goes by conduction."""
    hot_ohm = rated_v ** 2 / rated_w
    loss = lambda t: rated_w * (0.95 * (t ** 4 - ROOM_K ** 4) / (HOT_K ** 4 - ROOM_K ** 4) + 0.05 * (t - ROOM_K) / (HOT_K - ROOM_K))
    ohm = lambda t: hot_ohm * (t / HOT_K) ** 1.2
    t = brentq(lambda x: loss(x) - volts ** 2 / ohm(x), ROOM_K * 0.999, HOT_K * 1.5)
    return volts / ohm(t)


def set_w(part, heater_w, core_w, dc_w):
    """Input of a warm set at a part of its line: heaters as tungsten, iron as the square, B+ a little steeper."""
    return heater_w * part ** 1.6 + core_w * part ** 2 + dc_w * part ** 2.35


def behind_lamp(line_v, rated_v, lamp_w, parts, nominal_v):
    """Volts left for the set behind the lamp. parts: (heater W, core W, DC W) at nominal volts."""
    miss = lambda v: lamp_a(line_v - v, lamp_w, rated_v) - set_w(v / nominal_v, *parts) / v
    return brentq(miss, line_v * 0.02, line_v * (1 - 1e-7))


def heater_v(line_part, amps, design_amps, winding_ohm, nominal_v=6.3, at_nominal_v=6.3):
    """Volts at the sockets: winding EMF less its resistance; heaters take I0 (V/V0)^0.6. at_nominal_v with the design load at nominal line."""
    take = lambda v, a: a * (v / nominal_v) ** 0.6
    emf = at_nominal_v + winding_ohm * take(at_nominal_v, design_amps)
    return brentq(lambda v: emf * line_part - winding_ohm * take(v, amps) - v, 0.5, nominal_v * 2)
