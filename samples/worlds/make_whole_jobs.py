"""jobs/*.json of the whole jobs in job_sets.py. Run with ids to make only those."""
import sys

from job_sets import SETS
from kit import write_world
from whole_job import build

if __name__ == "__main__":
    for spec in SETS:
        if sys.argv[1:] and spec["id"] not in sys.argv[1:]:
            continue
        head, steps = build(spec)
        write_world(f"jobs/{spec['id']}.json", head, "steps", steps)
