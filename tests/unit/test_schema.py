"""The JSON Schemas against the code, judged by Debian's python3-jsonschema.

    test_schema.py JSON_PROBE SOURCE-FOLDER

* Both schemas are sound draft 2020-12.
* Every valid job is valid under the schema, too.
* A job that the schema refuses, the code refuses: tried on every change of one
  value, every member left out and every member added, in several jobs.
* The same of instructions and of certificates; and checks validate.
* Plans validate; a plan with a member missing, added or of another type does not.
"""
import copy
import json
import pathlib
import subprocess
import sys

try:
    from jsonschema import Draft202012Validator as Validator
except ImportError:
    print("python3-jsonschema is not here: skipped")
    sys.exit(77)

probe, source = sys.argv[1], pathlib.Path(sys.argv[2])
OK, INVALID, IMPOSSIBLE = 0, 1, 2


def ask(*arguments, text=None):
    return subprocess.run([probe, *arguments], input=text, capture_output=True,
                          text=True, check=True).stdout


def parse(jobs, form="parse"):
    """(status, error) of each job, or of each list of instructions."""
    lines = ask(form, text="".join(json.dumps(job) + "\n" for job in jobs)).splitlines()
    assert len(lines) == len(jobs)
    return [(int(line.split("\t")[0]), line.split("\t")[1]) for line in lines]


schemas = {name: json.loads(ask("schema", name)) for name in
           ("job", "plan", "certificate", "instructions", "check")}
for schema in schemas.values():
    Validator.check_schema(schema)
job_schema, plan_schema = Validator(schemas["job"]), Validator(schemas["plan"])

SMALL = {"quiltcut": 1, "fabrics": [{"id": "dune"}],
         "pieces": [{"id": "a", "fabric": "dune", "shape": "square", "cut": "3 1/2",
                     "count": 12}]}
FULL = {
    "quiltcut": 1, "title": "Dunes", "units": "cm", "ruler": "1 mm", "seam": 0.7,
    "fabrics": [
        {"id": "dune", "name": "Dune", "width": "110", "print": "one-way",
         "step": "5 cm", "square_up": 1.5, "shrink": {"length": 3, "width": 0.5},
         "price": 21.5},
        {"id": "sea", "raw_width": "44 in", "print": "reversible",
         "shrink": {"width": 2}, "price": 19}],
    "pieces": [
        {"id": "a", "fabric": "dune", "shape": "square", "finished": "7½", "trim": "3 mm",
         "grain": "any", "count": 40},
        {"id": "b", "fabric": "sea", "shape": "rectangle", "cut": [6.5, "11.5 cm"],
         "grain": "crosswise", "count": 18}],
    "options": {"objective": ["money", "bought", "used", "setups", "cuts", "leftover"],
                "stages": 2, "trim": True, "keep": "5", "layers": 2, "spare": "5 %",
                "time_limit": 2.5}}
SPARE = copy.deepcopy(SMALL)
SPARE["options"] = {"spare": 3, "stages": 3, "objective": ["used"]}
TRIANGLES = {
    "quiltcut": 1, "fabrics": [{"id": "dune"}, {"id": "sea", "print": "two-way"}],
    "pieces": [
        {"id": "a", "fabric": "dune", "shape": "half-square triangle", "finished": "3",
         "trim": "1/8", "facing": "kept", "count": 9},
        {"id": "b", "fabric": "dune", "shape": "square", "cut": "8 1/2", "count": 2},
        {"id": "c", "fabric": "sea", "shape": "quarter-square triangle", "cut": 7.25,
         "facing": "any", "count": 30}]}
BLOCKS = {
    "quiltcut": 1, "fabrics": [{"id": "dune"}, {"id": "sea"}],
    "blocks": [
        {"block": "hexagon", "size": "4", "count": 3,
         "fabrics": {"hexagon": "sea", "background": "dune"}},
        {"id": "nines", "block": "Nine Patch", "size": 4.5, "count": 2,
         "fabrics": {"dark": "sea", "light": "dune"}},
        {"size": "3", "count": 1, "fabrics": {"sail": "sea", "sky": "dune"},
         "methods": [{"unit": "A+2B", "method": "four at a time", "trim": "1/8"}],
         "drawing": {"name": "sail", "width": 2, "height": "1", "patches": [
             {"role": "sail", "corners": "0,0 2,0 1,1", "turns": 1, "mirrored": False},
             {"role": "sky", "corners": "0,0 1,1 0,1", "mirrored": True}]}}]}
FLOATS = copy.deepcopy(SMALL)
FLOATS["quiltcut"] = 1.0
FLOATS["pieces"][0]["count"] = 12.0
valid = [SMALL, FULL, SPARE, TRIANGLES, BLOCKS, FLOATS]
examples = sorted((source / "bindings/cli/examples").glob("*.json"))
valid += [json.loads(path.read_text()) for path in examples]

for job, (status, error) in zip(valid, parse(valid)):
    assert status == OK, (error, job)
    faults = [fault.message for fault in job_schema.iter_errors(job)]
    assert not faults, (faults, job)

STRANGE = [None, True, False, -1, 0, 1, 2, 3, 9, 0.5, -0.5, 1e9, 1e9 + 1, 2**31, 1e300, "",
           " ", "x", "1", "1/2", "-1", "5 %", "%", "in", "plain", "square", "rectangle",
           "diamond", "half-square triangle", "kept", "used", "b" * 201, [], [1], [1, 2], ["1", "2"], [1, 2, 3], [[]],
           ["used", "used"], {}, {"length": 1}, {"left": 1, "right": 1}]


def places(value, path=()):
    """The path of every value inside."""
    yield path
    children = value.items() if isinstance(value, dict) else \
        enumerate(value) if isinstance(value, list) else ()
    for key, child in children:
        yield from places(child, path + (key,))


def at(value, path):
    for key in path:
        value = value[key]
    return value


def changed(whole, path, change):
    """A copy in which change(parent, key) was called for the value at path."""
    root = {"root": copy.deepcopy(whole)}
    path = ("root",) + path
    change(at(root, path[:-1]), path[-1])
    return root.get("root")


def mutants(whole):
    for path in places(whole):
        for strange in STRANGE:
            yield changed(whole, path, lambda parent, key: parent.__setitem__(key, strange))
        if path:
            yield changed(whole, path, lambda parent, key: parent.pop(key))
        if isinstance(at(whole, path), dict):
            for name in ("colour", "count", "cut", "finished", "raw_width", "width",
                         "stock", "blocks"):
                yield changed(whole, path,
                              lambda parent, key: parent[key].setdefault(name, 1))


jobs = [job for whole in (SMALL, FULL, SPARE, TRIANGLES, BLOCKS) for job in mutants(whole)]
answers = parse(jobs)
both, stricter, wrong = 0, 0, []
for job, (status, error) in zip(jobs, answers):
    refused = not job_schema.is_valid(job)
    if refused and status == OK:
        wrong.append(job)
    both += refused and status != OK
    stricter += not refused and status != OK
    assert status in (OK, INVALID, IMPOSSIBLE), (status, error)
for job in wrong[:10]:
    fault = next(job_schema.iter_errors(job))
    print(f"the code takes what the schema refuses ({fault.json_path}: {fault.message}):\n"
          f"  {json.dumps(job)}")
assert not wrong, len(wrong)
assert both > 1500, both
# What a schema cannot say: sizes against widths, ids that must match, ranges of lengths.
assert stricter < both / 4, (stricter, both)

plans = [json.loads(ask("sample")), json.loads(ask("slanted"))]
plans += [json.loads(ask("plan", text=json.dumps(job))) for job in (SMALL, FULL, SPARE, TRIANGLES, BLOCKS)]
plans += [json.loads(ask("plan", text=path.read_text())) for path in examples
          if path.stem in ("tidal-star", "reed-pinwheel", "herring-bands")]
for plan in plans:
    faults = [f"{fault.json_path}: {fault.message}" for fault in plan_schema.iter_errors(plan)]
    assert not faults, faults[:5]

lies = 0
for sample, path in [(plan, path) for plan in (*plans[:2], plans[5], plans[6]) for path in places(plan)]:
    if not path:
        continue
    value = at(sample, path)
    if isinstance(value, dict):
        lie = changed(sample, path, lambda parent, key: parent[key].setdefault("colour", 1))
        assert not plan_schema.is_valid(lie), path
        lies += 1
    other = 7 if isinstance(value, str) or value is None else {"no": "such"}
    lie = changed(sample, path, lambda parent, key: parent.__setitem__(key, other))
    # a null beside a null is the one place where a number may stand
    if value is not None:
        assert not plan_schema.is_valid(lie), (path, value)
        lies += 1

STEPS = {
    "quiltcut": 1, "fabrics": [{"id": "dune", "width": "42"}, {"id": "sea", "width": "40"}],
    "pieces": [{"id": "a", "fabric": "dune", "shape": "rectangle", "cut": ["2", "3"], "count": 12},
               {"id": "b", "fabric": "sea", "shape": "half-square triangle", "finished": "3", "count": 7},
               {"id": "c", "fabric": "sea", "shape": "diamond", "angle": 60, "cut": "3 1/4", "count": 2},
               {"id": "e", "fabric": "sea", "shape": "hexagon", "cut": "3 1/4", "count": 2}],
    "strip_sets": [{"id": "d", "strips": [{"fabric": "sea", "cut": 2}, {"fabric": "dune", "cut": 2}],
                    "angle": 60, "segments": 2}],
    "claimed": [{"fabric": "dune", "length": "1/4 yd"}],
    "steps": [
        {"do": "strips", "fabric": "dune", "count": 1, "width": "6 1/2", "name": "wide"},
        {"do": "subcut", "from": "wide", "size": "2", "each": 6, "direction": "across",
         "name": "sections"},
        {"do": "subcut", "from": "sections", "size": "3", "count": 12, "piece": "a"},
        {"do": "strips", "fabric": "sea", "count": 1, "width": "3 1/4", "name": "sea strip"},
        {"do": "subcut", "from": "sea strip", "size": "3 1/4", "count": 3, "name": "squares"},
        {"do": "diagonal", "from": "squares", "times": 1, "count": 3, "piece": "b"},
        {"do": "subcut", "from": "sea strip", "size": "3 1/4", "angle": 60, "measured": "edge",
         "alternate": False, "count": 2, "piece": "c"},
        {"do": "subcut", "from": "sea strip", "size": 4, "angle": 60, "count": 2, "name": "blanks"},
        {"do": "trim", "from": "blanks", "count": 2, "piece": "e"},
        {"do": "strips", "fabric": "sea", "count": 1, "width": 2, "name": "low"},
        {"do": "strips", "fabric": "dune", "count": 1, "width": 2, "name": "high"},
        {"do": "sew", "strips": ["low", "high"], "count": 1, "stagger": "7/8", "hand": "right",
         "width": "3 1/2", "name": "sets"},
        {"do": "crosscut", "from": "sets", "size": "2 5/16", "measured": "edge", "angle": 60,
         "count": 2, "segment": "d"}]}
steps_schema = Validator(schemas["instructions"])
assert not list(steps_schema.iter_errors(STEPS))
listed = [STEPS] + list(mutants(STEPS))
told = parse(listed, "instructions")
assert told[0][0] == OK, told[0]
wrong = [one for one, (status, _) in zip(listed, told)
         if status == OK and not steps_schema.is_valid(one)]
assert not wrong, (len(wrong), json.dumps(wrong[0]))
kept = sum(status == OK for status, _ in told)
assert 10 < kept < len(told) / 4, (kept, len(told))
for text in (json.dumps(STEPS), ask("plan", text=json.dumps(FULL))):
    made = json.loads(ask("check", text=text))
    assert Validator(schemas["check"]).is_valid(made), made
assert made["clean"] and not made["findings"]
made = json.loads(ask("check", text=json.dumps(STEPS)))
faults = [f"{fault.json_path}: {fault.message}"
          for fault in Validator(schemas["check"]).iter_errors(made)]
assert not faults, faults
assert made["findings"], made

# Certificates: one leaf, a tree, what slants, one that is missing.
TIGHT = {"quiltcut": 1, "fabrics": [{"id": "dune", "width": "20", "print": "one-way"}],
         "options": {"objective": ["bought"], "stages": 2},
         "pieces": [{"id": str(n), "fabric": "dune", "shape": "rectangle", "cut": size,
                     "count": count} for n, (size, count) in enumerate(
                         [([2.5, 2.5], 19), ([4, 3], 15), ([4.5, 2], 11), ([6, 3.5], 7)])]}
proofs = [json.loads(ask("certificate", text=json.dumps(job))) for job in (SMALL, TIGHT)]
proofs += [json.loads(ask("certificate", text=(source / "bindings/cli/examples" / name).read_text()))
           for name in ("tidal-star.json", "reed-pinwheel.json")]
proofs.append({"quiltcut": 1, "title": "", "units": "cm",
               "fabrics": [{"id": "dune", "missing": "proved by search"}]})
proof_schema = Validator(schemas["certificate"])
for proof, (status, error) in zip(proofs, parse(proofs, "certify")):
    faults = [f"{fault.json_path}: {fault.message}" for fault in proof_schema.iter_errors(proof)]
    assert not faults and status == OK, (faults[:5], error)
kinds_of_nodes = {tuple(node) for proof in proofs for fabric in proof["fabrics"]
                  for node in fabric.get("nodes", ())}
assert len(kinds_of_nodes) >= 2, kinds_of_nodes
lies = [lie for proof in (proofs[1], proofs[2], proofs[4]) for lie in mutants(proof)]
alike = 0
for lie, (status, error) in zip(lies, parse(lies, "certify")):
    assert status in (OK, INVALID), (status, error)
    if proof_schema.is_valid(lie) != (status == OK):
        fault = next(iter(proof_schema.iter_errors(lie)), None)
        raise SystemExit(f"schema: {fault}, code: {error}\n{json.dumps(lie)}")
    alike += status != OK
assert alike > 1000, alike

print(f"{len(valid)} valid jobs ({len(examples)} examples); of {len(jobs)} changed ones "
      f"schema and code refuse {both}, the code alone {stricter}; "
      f"{len(plans)} plans valid, {lies} lies about four refused")
