"""Independent models of the packing, for a general-purpose solver.

The problem: strips of full width W and some height; sections side by side in a
strip; one piece (two stages) or a stack of pieces (three stages) in a section.
Three formulations that share nothing but the job:

level_model   Level packing in the manner of Lodi, Martello and Vigo, J. Comb.
              Optim. 8:363-379, 2004: every level (strip) is opened by one of its
              tallest pieces and then filled. By piece types with counts, and with
              both ways round of a piece as candidates. Two stages.
stack_model   The same idea for three stages: all stacks are listed by plain
              recursion; numbered levels get one height each and are filled with
              stacks.
strip_model   All strips are listed by plain recursion; how often each is cut is
              a covering program (Gilmore and Gomory's, Oper. Res. 9:849-859, 1961,
              with nothing left out).

All give the least total strip height ("used" without squaring-up). Every
solution is checked again in integers; that nothing is lower rests on the
solvers, so two formulations or two solvers are asked where it is cheap.
"""
import math
import os
import subprocess
import tempfile
from dataclasses import dataclass, field
from functools import reduce

TURNABLE = (0, 3)  # plain, reversible: quarter turns allowed
ANY, LENGTHWISE, CROSSWISE = 0, 1, 2


@dataclass
class Job:
    name: str
    width: int
    pieces: list  # (across, along, count, grain), all in units of 1/8 micrometre
    print_: int = 0
    stages: int = 3
    no_trim: bool = False
    square_up: int = 0
    step: int = 914400
    shrink: int = 0  # hundredths of a per cent
    ruler: int = 25400
    limit_ms: int = 60000
    goals: str = "-"

    def line(self):
        head = [self.name, self.width, self.print_, self.stages,
                int(self.no_trim), self.square_up, self.step, self.shrink,
                self.ruler, self.limit_ms, self.goals, len(self.pieces)]
        return " ".join(str(x) for x in head + [y for p in self.pieces for y in p])

    def forms(self):
        """(row, width, height) for every way a piece may lie."""
        out = []
        for row, (a, b, _, grain) in enumerate(self.pieces):
            ways = [(a, b)]
            if a != b and self.print_ in TURNABLE:
                ways = {ANY: [(a, b), (b, a)], CROSSWISE: [(a, b)],
                        LENGTHWISE: [(b, a)]}[grain]
            out += [(row, w, h) for w, h in ways if w <= self.width]
        return out

    def bought(self, used):
        """Least multiple of the step that, shrunk, still gives `used`."""
        return -(-used * 10000 // (self.step * (10000 - self.shrink))) * self.step


@dataclass
class Program:
    """min cost x, integer rows, all variables integer in 0 .. top."""
    cost: list = field(default_factory=list)
    top: list = field(default_factory=list)
    rows: list = field(default_factory=list)  # (terms {column: value}, lo, hi)

    def add(self, cost, top):
        self.cost.append(cost)
        self.top.append(top)
        return len(self.cost) - 1

    def row(self, terms, lo, hi):
        self.rows.append((terms, lo, hi))

    def value(self, x):
        """The objective of x, after every row was checked in integers."""
        assert all(0 <= v <= t for v, t in zip(x, self.top))
        for terms, lo, hi in self.rows:
            total = sum(a * x[j] for j, a in terms.items())
            assert (lo is None or total >= lo) and (hi is None or total <= hi)
        return sum(c * v for c, v in zip(self.cost, x))


def write_lp(program, path):
    """As an LP file; columns are x0, x1, ..."""
    lines = ["Minimize", " obj: " + terms_text(dict(enumerate(program.cost))),
             "Subject To"]
    for i, (terms, lo, hi) in enumerate(program.rows):
        text = terms_text(terms)
        if lo is not None and lo == hi:
            lines.append(f" r{i}: {text} = {lo}")
            continue
        if lo is not None:
            lines.append(f" r{i}l: {text} >= {lo}")
        if hi is not None:
            lines.append(f" r{i}h: {text} <= {hi}")
    lines.append("Bounds")
    lines += [f" 0 <= x{j} <= {t}" for j, t in enumerate(program.top)]
    lines.append("General")
    lines += [f" x{j}" for j in range(len(program.top))]
    lines.append("End")
    with open(path, "w") as f:
        f.write("\n".join(lines) + "\n")


def solve_cbc(program, limit_s=60):
    """The optimal value by CBC, or None when it did not finish."""
    with tempfile.TemporaryDirectory() as folder:
        model = os.path.join(folder, "model.lp")
        answer = os.path.join(folder, "answer.txt")
        write_lp(program, model)
        subprocess.run(["cbc", model, "sec", str(limit_s), "ratio", "0",
                        "allow", "0", "solve", "solution", answer],
                       stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL,
                       check=True)
        with open(answer) as f:
            first, *rest = f.read().splitlines()
    if not first.startswith("Optimal"):
        return None
    x = [0] * len(program.top)
    for entry in rest:
        parts = entry.replace("**", " ").split()
        x[int(parts[1][1:])] = round(float(parts[2]))
    return program.value(x)


def terms_text(terms):
    parts = [f"{'+' if a >= 0 else '-'} {abs(a)} x{j}"
             for j, a in terms.items() if a]
    # LP files have a limit on the length of a line.
    return "\n  ".join(" ".join(parts[i:i + 12])
                       for i in range(0, len(parts), 12)) or "0 x0"


def solve_highs(program, limit_s=60):
    """The optimal value by HiGHS in SciPy, or None. Presolve is off: with it on,
    SciPy 1.10.1 was seen to return false optima on such programs."""
    import numpy as np
    from scipy.optimize import Bounds, LinearConstraint, milp
    from scipy.sparse import lil_matrix
    a = lil_matrix((len(program.rows), len(program.cost)))
    lo, hi = [], []
    for i, (terms, low, high) in enumerate(program.rows):
        for j, v in terms.items():
            a[i, j] = v
        lo.append(-np.inf if low is None else low)
        hi.append(np.inf if high is None else high)
    result = milp(program.cost, integrality=np.ones(len(program.cost)),
                  bounds=Bounds(np.zeros(len(program.top)), program.top),
                  constraints=LinearConstraint(a.tocsr(), lo, hi),
                  options={"presolve": False, "time_limit": limit_s,
                           "mip_rel_gap": 0})
    if result.status != 0:
        return None
    return program.value([round(v) for v in result.x])


class Scaled:
    """A job in the largest units that keep every number whole."""

    def __init__(self, job):
        forms = job.forms()
        gw = reduce(math.gcd, [w for _, w, _ in forms])
        self.unit = reduce(math.gcd, [h for _, _, h in forms])
        self.width = job.width // gw
        self.forms = [(r, w // gw, h // self.unit) for r, w, h in forms]
        self.demand = [p[2] for p in job.pieces]
        self.tallest = max(h for _, _, h in self.forms)


def level_model(job):
    """Two stages. @return (program, unit of its objective)"""
    assert job.stages == 2
    s = Scaled(job)
    p = Program()
    order = sorted(s.forms, key=lambda f: (-f[2], -f[1], f[0]))
    cover = [dict() for _ in s.demand]
    for place, (row, w, h) in enumerate(order):
        before = None
        for _ in range(s.demand[row]):
            level = p.add(h, 1)
            cover[row][level] = 1
            across = {level: -(s.width - w)}
            if before is not None:
                p.row({before: 1, level: -1}, 0, None)
            before = level
            for row2, w2, h2 in order[place:]:
                if job.no_trim and h2 != h:
                    continue
                top = min(s.demand[row2] - (row2 == row), (s.width - w) // w2)
                if top <= 0:
                    continue
                x = p.add(0, top)
                cover[row2][x] = 1
                across[x] = w2
                p.row({x: 1, level: -top}, None, 0)
            p.row(across, None, 0)
    for row, d in enumerate(s.demand):
        p.row(cover[row], d, d)
    return p, s.unit


def stacks(s, stages):
    """Every stack (width, height, counts by row) that demand and height allow."""
    found = {}

    def grow(start, width, height, counts):
        for i in range(start, len(s.forms)):
            row, w, h = s.forms[i]
            if height + h > s.tallest or counts[row] == s.demand[row]:
                continue
            more = counts[:row] + (counts[row] + 1,) + counts[row + 1:]
            found[(max(width, w), height + h, more)] = None
            if stages == 3:
                grow(i, max(width, w), height + h, more)

    grow(0, 0, 0, (0,) * len(s.demand))
    return list(found)


def stack_model(job, levels):
    """Three stages with at most `levels` strips. @return (program, unit)"""
    s = Scaled(job)
    p = Program()
    pile = stacks(s, job.stages)
    heights = sorted({h for _, h, _ in pile})
    cover = [dict() for _ in s.demand]
    previous = None
    for _ in range(levels):
        open_at = {h: p.add(h, 1) for h in heights}
        p.row({v: 1 for v in open_at.values()}, None, 1)
        across = {v: -s.width for v in open_at.values()}
        tall = {v: h for h, v in open_at.items()}
        if previous:  # levels from the tallest down
            p.row({**previous, **{v: -h for v, h in tall.items()}}, 0, None)
        previous = tall
        for w, h, counts in pile:
            top = min([s.width // w] + [s.demand[r] // c
                                        for r, c in enumerate(counts) if c])
            x = p.add(0, top)
            across[x] = w
            room = {v: -top for g, v in open_at.items()
                    if (g == h if job.no_trim else g >= h)}
            p.row({x: 1, **room}, None, 0)
            for r, c in enumerate(counts):
                if c:
                    cover[r][x] = c
        p.row(across, None, 0)
    for row, d in enumerate(s.demand):
        p.row(cover[row], d, d)
    return p, s.unit


def strip_model(job, most=20000):
    """All strips. @return (program, unit), or None with more than `most`."""
    s = Scaled(job)
    pile = sorted(stacks(s, job.stages))
    strips = {}  # counts by row -> least height

    def grow(start, left, height, counts):
        for i in range(start, len(pile)):
            w, h, c = pile[i]
            if w > left or (job.no_trim and height not in (0, h)):
                continue
            more = tuple(a + b for a, b in zip(counts, c))
            if any(a > d for a, d in zip(more, s.demand)):
                continue
            tall = max(height, h)
            strips[more] = min(strips.get(more, tall), tall)
            if len(strips) > most:
                raise OverflowError
            grow(i, left - w, tall, more)

    try:
        grow(0, s.width, 0, (0,) * len(s.demand))
    except OverflowError:
        return None
    p = Program()
    cover = [dict() for _ in s.demand]
    for counts, height in strips.items():
        x = p.add(height, min(s.demand[r] // c
                              for r, c in enumerate(counts) if c))
        for r, c in enumerate(counts):
            if c:
                cover[r][x] = c
    for row, d in enumerate(s.demand):
        p.row(cover[row], d, d)
    return p, s.unit


def shelf_heuristic(job):
    """Strips of some plan, first fit by falling height; an upper bound only.
    @return (total height, least height of any piece)"""
    s = Scaled(job)
    narrow = {}
    for row, w, h in s.forms:  # each piece the way it is lowest
        if row not in narrow or h < narrow[row][1]:
            narrow[row] = (w, h)
    shelves = []
    items = [narrow[r] for r, d in enumerate(s.demand) for _ in range(d)]
    for w, h in sorted(items, key=lambda i: (-i[1], -i[0])):
        for shelf in shelves:
            if shelf[0] >= w and (not job.no_trim or shelf[1] == h):
                shelf[0] -= w
                break
        else:
            shelves.append([s.width - w, h])
    return sum(h for _, h in shelves), min(h for _, _, h in s.forms)
