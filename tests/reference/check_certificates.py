"""Certificates of random small jobs, verified again in another way.
Usage: check_certificates.py QUILTCUT [SEED]

Where the library's checker counts in cells, promises and walks, this lists every
strip there is: all that can be held at every height, with the least width that
it takes, grown section by section from the empty strip. Each strip is then held
against each leaf in whole numbers. Shares nothing with the library but the form
of the certificate (`quiltcut schema certificate`); what is to be cut is compared
with the job.

Numbers are then changed, one at a time: what the library's checker takes must
hold here too.
"""
import copy
import json
import math
import os
import subprocess
import sys
import tempfile

import gen_angled

JOBS = int(os.environ.get("JOBS", "24"))
CHANGES = int(os.environ.get("CHANGES", "25"))
INCH = 203200
MOST_STATES = 60_000  # jobs with more strips are left to the other tests


class TooMany(Exception):
    pass


def wedge(a, b):
    return abs(a - b) // 2


def is_alone(form):
    return form["left"] != 0 or form["right"] != 0 or form["outline"]


def together(load, other, need):
    """What two loads hold together: per kind, pieces and the least that one of the
    forms yields. None where a form could be left out."""
    out = []
    for (held, low), (more, least), wanted in zip(load, other, need):
        low = min(low, least) if low and least else low or least
        if held + more - low >= wanted and low:
            return None
        out.append((held + more, low))
    return tuple(out)


def load_of(proof, form):
    return tuple((form["yields"],) * 2 if k == form["kind"] else (0, 0)
                 for k in range(proof["kinds"]))


def grow(start, steps):
    """All states that steps lead to, each with its least measure."""
    least, grown = {start: 0}, [start]
    while grown:
        state = grown.pop()
        for more, measure in steps(state, least[state]):
            if more not in least or measure < least[more]:
                least[more] = measure
                if len(least) > MOST_STATES:
                    raise TooMany
                grown.append(more)
    return least


def sections_of(proof, need, nothing):
    """(width, left, right, height, load, alone) of all sections that there can be."""
    top = max(f["height"] for f in proof["forms"])
    square = [f for f in proof["forms"] if not is_alone(f)]

    def on_top(state, width):
        load, height = state
        for form in square:
            if height and not proof["stacks"] or height + form["height"] > top:
                continue
            more = together(load, load_of(proof, form), need)
            if more and max(width, form["width"]) <= proof["width"]:
                yield (more, height + form["height"]), max(width, form["width"])

    found = grow((nothing, 0), on_top)
    return [(width, 0, 0, height, load, False)
            for (load, height), width in found.items() if height] + [
        (f["width"], f["left"], f["right"], f["height"], load_of(proof, f), True)
        for f in proof["forms"] if is_alone(f)]


def every_strip(proof, need):
    """(height, pieces held per kind) of every strip."""
    nothing = tuple((0, 0) for _ in need)
    sections = sections_of(proof, need, nothing)
    strips = set()
    for height in sorted({s[3] for s in sections}):
        fitting = [s for s in sections if s[3] == height or
                   (proof["trim"] and s[3] < height and not s[5])]
        for held in strips_of(proof, need, nothing, fitting):
            strips.add((height, held))
    return strips


def strips_of(proof, need, nothing, sections):
    def beside(state, taken):
        load, lean = state
        for width, left, right, _, gain, _ in sections:
            more = together(load, gain, need)
            wide = taken + width + wedge(lean, left)
            if more and wide + wedge(right, 0) <= proof["width"]:
                yield (more, right), wide

    return {tuple(held for held, _ in load)
            for load, _ in grow((nothing, 0), beside)}


def leaf_holds(proof, strips, need, cap, way, leaf):
    """No strip is worth as much for its height as all that is wanted for `cap`."""
    if len(leaf["values"]) != proof["kinds"] or len(leaf["weights"]) != len(way):
        return False
    fills = proof["stacks"] and not proof["trim"]
    wanted = 0
    for k, value in enumerate(leaf["values"]):
        if value < 0 and not fills:
            return False
        spare = max([f["yields"] for f in proof["forms"] if f["kind"] == k], default=1) - 1
        wanted += value * (need[k] + (spare if value < 0 else 0))
    for (question, above), weight in zip(way, leaf["weights"]):
        if weight < 0 if above else weight > 0:
            return False
        wanted += weight * (question["most"] + above)
    if wanted <= 0:
        return False
    edges = proof["heights"]
    for height, held in strips:
        worth = sum(v * h for v, h in zip(leaf["values"], held))
        for (question, _), weight in zip(way, leaf["weights"]):
            counted = (height >= edges[question["from_class"]] if "from_class" in question
                       else held[question["of_kind"]] >= question["pieces"])
            worth += weight * counted
        if worth * cap >= wanted * height:
            return False
    return True


def tree_holds(proof, strips, need, cap):
    """Walks the nodes in their order; every one belongs to the tree."""
    nodes = iter(proof["nodes"])

    def holds(way):
        node = next(nodes)
        if "values" in node:
            return leaf_holds(proof, strips, need, cap, way, node)
        return holds(way + [(node, 0)]) and holds(way + [(node, 1)])

    try:
        return holds([]) and next(nodes, None) is None
    except (StopIteration, IndexError):
        return False


def proof_holds(proof):
    need = [0] * proof["kinds"]
    for piece in proof["pieces"]:
        need[piece["kind"]] += piece["count"]
    if proof["bought"] % proof["step"]:
        return False
    less = (proof["bought"] - proof["step"]) * (10000 - proof["shrink"]) // 10000
    if "used" in proof:
        if less >= proof["used"]:
            return False
        less = proof["used"] - 1
    cap = less - proof["square_up"]
    cap -= cap % math.gcd(*(f["height"] for f in proof["forms"]))
    if cap < min(f["height"] for f in proof["forms"]):
        return True  # not one strip
    return tree_holds(proof, every_strip(proof, need), need, cap)


# --- jobs --------------------------------------------------------------------

def rectangles(number):
    pick = gen_angled.rng(31_000 + number)
    pieces = []
    for i in range(pick(1, 4)):
        pieces.append({"id": f"p{i}", "fabric": "f", "shape": "rectangle",
                       "cut": [str(pick(4, 20) / 2), str(pick(2, 12) / 2)],
                       "count": pick(1, 6)})
    goals = [["bought"], ["bought", "used"]][pick(0, 1)]
    return {"quiltcut": 1, "pieces": pieces,
            "fabrics": [{"id": "f", "width": str(pick(10, 14)), "square_up": pick(0, 1) / 2,
                         "print": ["plain", "one-way"][pick(0, 1)],
                         "shrink": {"length": pick(0, 3)},
                         "step": ["1/2", "4 1/2"][pick(0, 1)]}],
            "options": {"objective": goals, "stages": pick(2, 3), "trim": pick(0, 2) > 0}}


def few_angled(number):
    job, _ = gen_angled.small_job(31, number)
    for piece in job["pieces"]:
        count = piece["count"]
        if isinstance(count, dict):
            piece["count"] = {hand: min(n, 3) for hand, n in count.items()}
        else:
            piece["count"] = min(count, 5)
    return job


class Library:
    def __init__(self, program, folder):
        self.program, self.folder = program, folder

    def path(self, name):
        return os.path.join(self.folder, name)

    def certificate(self, job):
        with open(self.path("job.json"), "w") as f:
            json.dump(job, f)
        done = subprocess.run([self.program, "plan", "--certificate", self.path("proof.json"),
                               "--output", self.path("plan.txt"), self.path("job.json")],
                              stderr=subprocess.PIPE, text=True)
        if done.returncode:
            return None
        with open(self.path("proof.json")) as f:
            return json.load(f)

    def verdict(self, certificate):
        done = subprocess.run([self.program, "certify", "--json", "-"],
                              input=json.dumps(certificate), stdout=subprocess.PIPE,
                              stderr=subprocess.DEVNULL, text=True)
        assert done.returncode in (0, 1, 3), done.returncode
        return json.loads(done.stdout)["verdict"] if done.returncode < 3 else "unreadable"


def same_demand(job, proof):
    """Rectangles: what the certificate says is to be cut is what the job asks for."""
    fabric = job["fabrics"][0]
    turned = fabric["print"] == "plain"
    assert proof["width"] == int(fabric["width"]) * INCH
    assert proof["shrink"] == fabric["shrink"]["length"] * 100
    assert proof["square_up"] == fabric["square_up"] * INCH
    assert proof["stacks"] == (job["options"]["stages"] == 3)
    assert proof["trim"] == job["options"]["trim"]
    listed = {p["id"]: p for p in proof["pieces"]}
    assert len(listed) == len(proof["pieces"]) == len(job["pieces"])
    for piece in job["pieces"]:
        entry = listed[piece["id"]]
        a, b = (int(float(x) * INCH) for x in piece["cut"])
        forms = {(f["width"], f["height"]) for f in proof["forms"] if f["kind"] == entry["kind"]}
        assert entry["count"] == piece["count"]
        assert {f for f in forms if f[0] <= proof["width"]} == {
            f for f in {(a, b)} | ({(b, a)} if turned else set()) if f[0] <= proof["width"]}
    for form in proof["forms"]:
        assert form["yields"] == 1 and not is_alone(form)


def places(value, at=()):
    """Where the numbers of a certificate stand."""
    if isinstance(value, bool) or isinstance(value, str):
        return
    if isinstance(value, int):
        yield at
        return
    for key in (value if isinstance(value, dict) else range(len(value))):
        yield from places(value[key], at + (key,))


def changed(proof, at, pick):
    other = copy.deepcopy(proof)
    place = other
    for key in at[:-1]:
        place = place[key]
    old = place[at[-1]]
    place[at[-1]] = [old + 1, old - 1, 2 * old, old // 2, -old, 0, old + old // 20 + 1][pick(0, 6)]
    return other


def check_job(library, job, certificate, pick, tally):
    if "missing" in certificate["fabrics"][0]:
        tally["missing"] += 1
        return
    proof = certificate["fabrics"][0]
    if all(p["shape"] == "rectangle" and "stages" in job["options"] for p in job["pieces"]):
        same_demand(job, proof)
    assert library.verdict(certificate) == "proved"
    assert proof_holds(proof), f"does not hold: {json.dumps(job)}"
    tally["proved"] += 1
    tally["exact"] += "used" in proof
    tally["branched"] += len(proof["nodes"]) > 1
    every = list(places(proof))
    for _ in range(CHANGES):
        other = changed(proof, every[pick(0, len(every) - 1)], pick)
        if other == proof:
            continue
        tally["changed"] += 1
        if library.verdict({**certificate, "fabrics": [other]}) != "proved":
            continue
        tally["accepted"] += 1
        try:
            assert proof_holds(other), f"accepted: {json.dumps(other)}"
        except TooMany:
            tally["accepted"] -= 1


def main():
    library = sys.argv[1]
    seed = int(sys.argv[2]) if len(sys.argv) > 2 else 1
    tally = dict.fromkeys(("proved", "exact", "branched", "missing", "too many", "changed",
                           "accepted"), 0)
    with tempfile.TemporaryDirectory() as folder:
        library = Library(library, folder)
        for i in range(JOBS):
            make = few_angled if i % 3 == 2 else rectangles
            job = make(1000 * seed + i)
            certificate = library.certificate(job)
            if certificate is None:  # a piece that does not fit
                continue
            try:
                check_job(library, job, certificate, gen_angled.rng(seed + i), tally)
            except TooMany:
                tally["too many"] += 1
    print(f"seed {seed}: {tally}")
    assert tally["proved"] >= JOBS // 3 and tally["exact"] and tally["accepted"]


if __name__ == "__main__":
    main()
