"""Shared small tools of the world makers: seeded noise, rounding, and a JSON writer that always gives the same bytes."""
import json
import math
import os
import zlib

import numpy as np

HERE = os.path.dirname(os.path.abspath(__file__))


def rng_for(world, index):
    """A generator of its own for each item, so that adding an item never changes another."""
    return np.random.default_rng([20260117, zlib.crc32(world.encode()), index])


def sig(x, digits=6):
    """Round to significant digits; None stays None."""
    if x is None:
        return None
    x = float(x)
    if x == 0 or not math.isfinite(x):
        return 0.0 if x == 0 else None
    return plain(round(x, digits - 1 - math.floor(math.log10(abs(x)))))


def dec(x, places):
    """Round to decimal places; None stays None."""
    return None if x is None else plain(round(float(x), places))


def plain(x):
    """Whole numbers are written without a decimal point."""
    return int(x) if float(x).is_integer() and abs(x) < 1e15 else float(x) + 0.0


def arr(values, places):
    return [dec(v, places) for v in values]


def write_world(path, head, key, items):
    """Write {head..., key: [items]} with one item a line."""
    full = os.path.join(HERE, path)
    lines = ["{"]
    for k, v in head.items():
        lines.append(f"{json.dumps(k)}: {json.dumps(v, ensure_ascii=False)},")
    lines.append(f"{json.dumps(key)}: [")
    body = [json.dumps(i, ensure_ascii=False, separators=(",", ":"), allow_nan=False) for i in items]
    lines.append(",\n".join(body))
    lines.append("]}")
    with open(full, "w", encoding="utf-8", newline="\n") as f:
        f.write("\n".join(lines) + "\n")
    print(path, os.path.getsize(full) // 1000, "kB", len(items), "items")
