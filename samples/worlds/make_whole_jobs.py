"""jobs/*.json of the whole jobs in job_sets.py. Run with ids to make only those; with --many N FOLDER to make N more of each there: the same supply, read anew, with strip, dial, drift and what is off by sizes of their own."""
import copy
import os
import sys

from job_sets import SETS
from kit import rng_for, write_world
from whole_job import build, powered


def varied(spec, index):
    """The same set of another copy: windings, slugs and what is off by other sizes, the same faults in it."""
    rng, out = rng_for("whole-sizes " + spec["id"], index), copy.deepcopy(spec)
    size = lambda x: x * rng.uniform(0.75, 1.3)
    out["if"]["seed"] += 1000 * index
    out["if"]["turnedHz"] = [size(x) for x in spec["if"]["turnedHz"]]
    out["dialFault"]["off"] = size(spec["dialFault"]["off"])
    out["drift"] = (spec["drift"][0], [(size(a), size(t)) for a, t in spec["drift"][1]])
    acc = out.get("accessory") or {}
    for key in ("offCentreHz", "offPpm", "offHz"):
        if key in acc:
            was, acc[key] = acc[key], size(acc[key])
            for f in acc["faults"]:
                f.update({k: acc[key] for k, v in f.items() if v == was})
    return out


def many(count, folder):
    for spec in SETS:
        power = powered(spec, rng_for("whole-job " + spec["id"], 0))
        for index in range(1, count + 1):
            head, steps = build(varied(spec, index), index, power)
            write_world(os.path.join(folder, f"{spec['id']}-{index}.json"), head, "steps", steps)


if __name__ == "__main__":
    if sys.argv[1:2] == ["--many"]:
        many(int(sys.argv[2]), os.path.abspath(sys.argv[3]))
        sys.exit()
    for spec in SETS:
        if sys.argv[1:] and spec["id"] not in sys.argv[1:]:
            continue
        head, steps = build(spec)
        write_world(f"jobs/{spec['id']}.json", head, "steps", steps)
