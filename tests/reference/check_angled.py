"""Random small jobs of pieces cut at different angles: the library's answer
against an independent model (angled_peer.py) solved by CBC, HiGHS and, every
fifth time, GLPK's own program. Usage: check_angled.py SOLVE_JOBS [SEED]

Before that, the model itself is held against numbers worked out by hand, and
against placing pieces one after the other in every order; and so is the
library, by jobs that fill one strip and jobs of one piece more.

Where the library says "optimal", its value must be the model's; otherwise the
model's optimum must lie between its bound and its value.
"""
import itertools
import json
import os
import shutil
import subprocess
import sys
import tempfile
import time
from concurrent.futures import ThreadPoolExecutor

import angled_peer
import angled_shapes
import gen_angled
import peer
from angled_shapes import NEAR, ZERO

SEED = 1
# So many take two minutes; 330 were confirmed with JOBS=330 in the environment.
JOBS = int(os.environ.get("JOBS", "40"))


def piece(shape, cut, **more):
    return {"id": "p", "fabric": "f", "shape": shape, "cut": cut, **more}


def kite(*finished):
    return {"id": "p", "fabric": "f", "shape": "kite", "finished": list(finished)}


# The most of one piece that a strip of so many inches holds: by the formulas of
# plane geometry, with the quotient that is rounded down beside it.
BY_HAND = [
    # Diamonds: (W - H cot t) sin t / H.
    (piece("diamond", "2.25", angle=45), "42", 12),        # 12.49
    (piece("diamond", "2.25", angle=45), "40", 11),        # 11.86
    (piece("diamond", "3", angle=45), "42", 9),            # 9.19
    (piece("diamond", "3", angle=60), "42", 11),           # 11.62
    (piece("diamond", "2", angle=30), "20", 4),            # 4.13
    (piece("diamond", "2", angle=120), "20", 8),           # 8.16
    # Triangles, every second one turned: 1 + (W - a) / (a / 2), a the side.
    (piece("equilateral triangle", "3"), "42", 23),        # 1 + 22.25
    (piece("equilateral triangle", "2.5"), "20", 12),      # 1 + 11.86
    # Half squares 2 W / H; quarters of squares, with slanted ends, (W - H) / H.
    (piece("half-square triangle", "3"), "10", 6),         # 6.67
    (piece("quarter-square triangle", "6"), "16", 4),      # 4.33
    # Trapezoids: 1 + (W - b) / ((b + t) / 2).
    (piece("trapezoid", ["4.5", "2.5", "4.5"]), "42", 11),  # 1 + 10.71
    # Hexagons between square cuts: W / (2 H / sqrt3).
    (piece("hexagon", "3"), "42", 12),                     # 12.12
    # Half rectangles, every second one turned: 2 by 2 they make 2 x 3.
    (piece("polygon", [["0", "0"], ["2", "0"], ["0", "3"]]), "13", 12),
    (piece("polygon", [["0", "0"], ["2", "0"], ["0", "3"]]), "14", 14),
    # Kites with corners (0, 0), (2 1/2, 0), (6, 2), (2, 1 1/2): 4/3 at either
    # end, 35/12 for each that lies by turns, 25/8 for one whose two cuts lean
    # alike. 4/3 + 4 x 35/12 + 25/8 + 4/3 = 17.46; all by turns: 17.67.
    (kite("4", "1", "1.5"), "17 1/2", 5),
    (kite("4", "1", "1.5"), "17 3/8", 4),
]


def job_of(title, pieces, width):
    return {"quiltcut": 1, "title": title,
            "fabrics": [{"id": "f", "width": width, "step": "1/8",
                         "square_up": "0"}],
            "pieces": [{**p, "id": f"p{i}"} for i, p in enumerate(pieces)],
            "options": {"objective": ["used"]}}


def check_by_hand():
    """The model against the list above, in the lowest strips there are."""
    for p, width, want in BY_HAND:
        job = job_of("hand", [{**p, "count": 30}], width)
        strips = angled_peer.Model(job).strips
        got = max(c[0] for h, c in strips if h == strips[0][0])
        assert got == want, f"{p} in {width}: {got}, by hand {want}"
    print(f"{len(BY_HAND)} numbers worked out by hand agree with the model")


# Every order of pieces, by the other formula: widths at half the strip's height,
# and half the difference of facing leans between neighbours. 3 in high, one or
# two kinds.
KINDS = [
    piece("square", "3"), piece("half-square triangle", "3"),
    piece("quarter-square triangle", "6"), piece("diamond", "3", angle=45),
    piece("diamond", "3", angle=60),
    piece("parallelogram", ["1.5", "3"], angle=30),
    piece("parallelogram", ["2", "3"], angle=45),
    piece("parallelogram", ["2.5", "3"], angle=120),
    piece("equilateral triangle", "3"), piece("hexagon", "3"),
    piece("trapezoid", ["4", "2", "3"]), piece("trapezoid", ["5.5", "1", "3"]),
    piece("polygon", [["0", "0"], ["1.5", "0"], ["0", "3"]]),
    kite("3", "1.5", "0.75"),
]


def footprints(points, height):
    """(width, left lean, right lean) between cuts that are square or lean as one
    of the polygon's own sides."""
    half = height / 2
    sides = [(points[i - 1], p) for i, p in enumerate(points)]
    leans = {ZERO} | {round((q[0] - p[0]) * height / (q[1] - p[1]), 20)
                      for p, q in sides if abs(q[1] - p[1]) * 8 > height}
    out = []
    for left in leans:
        for right in leans:
            ends = [max(x + right * (half - y) / height for x, y in points),
                    min(x + left * (half - y) / height for x, y in points)]
            out.append((ends[0] - ends[1], left, right))
    return [w for w in out if not any(
        v != w and v[0] + abs(v[1] - w[1]) / 2 + abs(v[2] - w[2]) / 2
        < w[0] + NEAR for v in out)]


def every_order(job, height):
    """All collections that fit in one strip of that height."""
    width = angled_shapes.length(job["fabrics"][0]["width"])
    lays, found = set(), set()
    rows = angled_shapes.rows_of(job)
    for row, (_, forms) in enumerate(rows):
        for f in forms:
            yields = tuple(f.yields * (r == row) for r in range(len(rows)))
            if not f.polygon and f.height <= height:
                lays.add((yields, f.width, ZERO, ZERO))
            elif f.polygon and abs(f.height - height) < 1:
                lays |= {(yields, round(wide, 20), left, right)
                         for wide, left, right in footprints(f.polygon, height)}

    def add(counts, at, lean):
        found.add(counts)
        for yields, wide, left, right in lays:
            to = at + abs(lean - left) / 2 + wide
            if to + abs(right) / 2 <= width + NEAR:
                add(tuple(a + b for a, b in zip(counts, yields)), to, right)

    add((0,) * len(rows), ZERO, ZERO)
    # What is cut may also be left out.
    return {tuple(c) for most in found
            for c in itertools.product(*(range(n + 1) for n in most))}


def one_strip_jobs():
    """Jobs that fill one strip, and of one piece more: [(job, its strips)]. The
    model must find the same."""
    height, out = angled_shapes.length("3"), []
    kinds = [[k] for k in KINDS] + [list(p) for p in
                                    itertools.combinations(KINDS, 2)]
    for pieces in kinds:
        width = "16" if len(pieces) == 1 else "11"
        job = job_of("order", [{**p, "count": 40} for p in pieces], width)
        found = every_order(job, height)
        model = {c for h, c in angled_peer.Model(job).strips if h == height}
        top = {c for c in found if not any(
            c[:r] + (c[r] + 1,) + c[r + 1:] in found for r in range(len(c)))}
        assert model == top, f"{pieces}: model {model}, all orders {top}"
        for c in sorted(top):
            for r in range(-1, len(c)):
                more = tuple(n + (i == r) for i, n in enumerate(c))
                exact = [{**p, "count": n} for p, n in zip(pieces, more) if n]
                out.append((job_of(f"o{len(out)}", exact, width), 1 + (r >= 0)))
    print(f"{len(kinds)} kinds and pairs of kinds placed in every order: "
          f"{len(out)} jobs")
    return out


def by_glpk(program):
    """The optimal value by glpsol, from the same LP text as CBC's."""
    with tempfile.TemporaryDirectory() as folder:
        model, answer = folder + "/model.lp", folder + "/answer.txt"
        peer.write_lp(program, model)
        subprocess.run(["glpsol", "--lp", model, "-w", answer, "--tmlim", "20"],
                       stdout=subprocess.DEVNULL, check=True)
        with open(answer) as f:
            lines = f.read().split("\n")
    if not any(line.startswith("s mip") and " o " in line for line in lines):
        return None
    x = [round(float(line.split()[2])) for line in lines
         if line.startswith("j ")]
    return program.value(x)


def least(job, model, strips, number):
    """Least total height of strips, by two or three solvers; None: not found."""
    program, unit = angled_peer.covering(model, strips)
    answers = {"CBC": peer.solve_cbc(program, 20),
               "HiGHS": peer.solve_highs(program, 20)}
    if number % 5 == 0 and shutil.which("glpsol"):
        answers["GLPK"] = by_glpk(program)
    found = {a for a in answers.values() if a is not None}
    assert len(found) < 2, f"solvers disagree: {json.dumps(job)} {answers}"
    return found.pop() * unit if found else None


def ask_library(driver, jobs):
    """Fields of the driver's lines by title."""
    text = "\n".join(json.dumps(job) for job in jobs) + "\n"
    done = subprocess.run([driver, "1"], input=text, text=True, check=True,
                          stdout=subprocess.PIPE)
    answers = {}
    for line in done.stdout.splitlines():
        title, rest = line.split(" ", 1)
        answers[title] = {"error": rest} if rest.startswith("error=") else \
            dict(field.split("=") for field in rest.split())
    return answers


def faults(job, got, low, high):
    """What is wrong with one answer, when the strips of the best plan add up to
    `low` .. `high`, as texts."""
    if got is None or "error" in got:
        return [got["error"] if got else "no answer"]
    bad = []
    square_up = int(angled_shapes.length(job["fabrics"][0]["square_up"]))
    bought = [angled_peer.bought(job, h) for h in (low, high)]
    for letter, want in (("u", [low + square_up, high + square_up]),
                         ("b", bought)):
        if letter not in got:
            continue
        value, bound, proved = (int(n) for n in got[letter].split(":"))
        if proved and not want[0] <= value <= want[1]:
            bad.append(f"{letter}: said optimal {value}, is {want}")
        elif value < want[0] or bound > want[1]:
            bad.append(f"{letter}: {want} not within {bound} .. {value}")
    if int(got["bought"]) < bought[0] or int(got["bound"]) > bought[1]:
        bad.append(f"bought {got['bought']}, bound {got['bound']}, is {bought}")
    return bad


def peer_answer(entry):
    """(least, most) total height of the strips of the best plan."""
    number, (job, model) = entry
    low = least(job, model, model.strips, number)
    high = low if model.sure == model.strips else \
        least(job, model, model.sure, number)
    return low, high


def random_checks(seed):
    """[(job, least, most)], of what the solvers finished."""
    jobs = [gen_angled.small_job(seed, n) for n in range(JOBS)]
    with ThreadPoolExecutor(2) as pool:
        answers = list(pool.map(peer_answer, enumerate(jobs)))
    closer = sum(model.strips != angled_peer.Model(job, tight=True).strips
                 for job, model in jobs)
    print(f"{sum(len(m.strips) for _, m in jobs)} strips in {JOBS} jobs, up to "
          f"{max(len(m.strips) for _, m in jobs)} in one; in {closer} jobs cuts "
          "of other leans than those of the pieces' own sides would hold more")
    return [(job, *a) for (job, _), a in zip(jobs, answers) if None not in a]


def main():
    if not shutil.which("cbc"):
        print("CBC (package coinor-cbc) is not installed: nothing was checked")
        return 1
    seed = int(sys.argv[2]) if len(sys.argv) > 2 else SEED
    print(f"seed {seed}")
    start = time.monotonic()
    check_by_hand()
    height = int(angled_shapes.length("3"))
    ordered = one_strip_jobs()
    want = random_checks(seed)
    confirmed = len(want)
    print(f"models solved in {time.monotonic() - start:.0f} s")
    # One piece more than a strip holds takes a second, lower or not.
    want += [(job, height if n == 1 else height + 1,
              height if n == 1 else 2 * height) for job, n in ordered]
    got = ask_library(sys.argv[1], [job for job, _, _ in want])
    wrong = open_ = unsure = 0
    for job, low, high in want[:confirmed] + want[confirmed:]:
        answer = got.get(job["title"])
        unsure += low != high
        for text in faults(job, answer, low, high):
            wrong += 1
            if wrong <= 20:
                print(f"WRONG {text}\n  job: {json.dumps(job)}\n  got: {answer}")
        open_ += bool(answer) and answer.get("optimal") == "0"
    print(f"{confirmed} random jobs confirmed; {open_} answers not proved; "
          f"{wrong} wrong; {time.monotonic() - start:.0f} s")
    assert confirmed * 10 >= JOBS * 9, "too few jobs were solved by the peer"
    assert open_ <= len(want) // 50, "too many answers without proof"
    return 1 if wrong else 0


if __name__ == "__main__":
    sys.exit(main())
