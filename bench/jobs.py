"""The jobs of the bench: seeded, the same everywhere.

quilt_jobs   `s`: structured like quilts: sizes drawn from 3 to 7 half-inch sizes
             between 1 1/2 and 12 in, one width in four odd (on the 1/8 grid).
             `q`: unstructured: both sizes anything between 1 1/2 and 12 1/2 in on
             the 1/8 or 1/4 grid. Both: 1 to 25 sizes, 4 to 400 of each.
data_jobs    published instances from a data folder, where there is one.
"""
import json
import math
import os
import random
import sys

sys.path.insert(0, os.path.join(os.path.dirname(os.path.abspath(__file__)),
                                "..", "tests", "reference"))
from peer import Job  # noqa: E402

INCH = 203200
EIGHTH = INCH // 8
HALF = INCH // 2
MM = 8000
MOST_WIDTH = 80_000_000  # 10 m, the library's limit
MOST_LENGTH = 30_000_000_000
ONE_WAY = 1


def drawer(seed):
    source = random.Random(seed)  # random() only: stable in every Python 3
    return lambda lo, hi: lo + int(source.random() * (hi - lo + 1))


def quilt_job(kind, number):
    pick = drawer(7_000_000 + number if kind == "s" else 8_000_000 + number)
    width = [80, 81, 84, 87][pick(0, 3)] * HALF
    types = pick(1, 25)
    basis = [pick(3, 24) * HALF for _ in range(pick(3, 7))]
    grid = EIGHTH * pick(1, 2)
    pieces = {}
    for _ in range(types):
        if kind == "s":
            along = basis[pick(0, len(basis) - 1)]
            across = (pick(12, 96) * EIGHTH if pick(0, 3) == 0
                      else basis[pick(0, len(basis) - 1)])
        else:
            low, high = INCH * 3 // 2 // grid, INCH * 25 // 2 // grid
            across, along = pick(low, high) * grid, pick(low, high) * grid
        count = min(pick(4, 400), pick(4, 400))
        pieces[across, along] = pieces.get((across, along), 0) + count
    return Job(name=f"{kind}{number}", width=width, square_up=HALF,
               pieces=[(a, b, n, 0) for (a, b), n in pieces.items()])


def as_mode(job, mode, goals, limit_ms):
    """`flat`: two stages, no turning; `full`: turning and stacks."""
    return Job(name=job.name, width=job.width, pieces=job.pieces,
               square_up=job.square_up, print_=ONE_WAY if mode == "flat" else 0,
               stages=2 if mode == "flat" else 3, goals=goals,
               limit_ms=limit_ms)


def data_jobs(folder, most, limit_ms):
    """(family, known optimum in lattice units or None, job) for up to `most`
    instances of every family, evenly spread; limit_ms(family) is the time for one."""
    out = []
    for file in sorted(os.listdir(folder)):
        if not file.endswith(".json"):
            continue
        family = file[:-len(".json")]
        with open(os.path.join(folder, file)) as f:
            instances = json.load(f)
        stride = max(1, math.ceil(len(instances) / most))
        for instance in instances[::stride]:
            out += data_job(family, instance, limit_ms(family))
    return out


def data_job(family, instance, limit_ms):
    flat = instance["kind"] == "csp1d"
    width = instance["capacity" if flat else "width"]
    items = [((size, 1) if flat else size, count)
             for size, count in instance["items"]]
    across = min(MM, MOST_WIDTH // width)
    along = min(MM, MOST_LENGTH // sum(h * n for (_, h), n in items))
    out = []
    for key in ("optimum", "optimum_no_trim"):
        if flat and key == "optimum_no_trim":
            continue
        known = instance.get(key)
        name = instance["name"] + ("" if key == "optimum" else "/no-trim")
        out.append((family, known and known * along, Job(
            name=name.replace(" ", "_")[:60], width=width * across,
            pieces=[(w * across, h * along, n, 0) for (w, h), n in items],
            print_=ONE_WAY, stages=2, no_trim=key != "optimum", goals="u",
            limit_ms=limit_ms)))
    return out
