"""What the program prints as JSON, against its schemas, by Debian's python3-jsonschema.

    outputs.py PROGRAM SOURCE-FOLDER

Every form is valid under its schema, and is not with a member missing, one too many, or
one of another type, at any depth.
"""
import copy
import json
import os
import pathlib
import subprocess
import sys
import tempfile

try:
    from jsonschema import Draft202012Validator as Validator
except ImportError:
    print("python3-jsonschema is not here: skipped")
    sys.exit(77)

program, source = sys.argv[1], pathlib.Path(sys.argv[2])
examples = source / "bindings/cli/examples"


def run(*arguments, codes=(0,)):
    done = subprocess.run([program, *arguments], capture_output=True, text=True)
    assert done.returncode in codes, (arguments, done.returncode, done.stderr)
    return json.loads(done.stdout)


def places(value, path=()):
    """Every object within, by its path."""
    if isinstance(value, dict):
        yield path
        for name, member in value.items():
            yield from places(member, path + (name,))
    elif isinstance(value, list):
        for index, member in enumerate(value):
            yield from places(member, path + (index,))


def changed(value):
    """The value with one member changed."""
    for path in places(value):
        here = value
        for step in path:
            here = here[step]
        for name in list(here):
            for change in ("left out", "another type"):
                lie = copy.deepcopy(value)
                at = lie
                for step in path:
                    at = at[step]
                if change == "left out":
                    del at[name]
                else:
                    at[name] = {} if not isinstance(at[name], dict) else 1
                yield path + (name,), change, lie
        lie = copy.deepcopy(value)
        at = lie
        for step in path:
            at = at[step]
        at["more"] = 1
        yield path, "one too many", lie


# Members that a form may lack.
OPTIONAL = {"quilt"}


def check(name, *outputs, within=lambda path: True):
    schema = Validator(run("schema", name))
    Validator.check_schema(schema.schema)
    refused = 0
    for output in outputs:
        faults = [f"{fault.json_path}: {fault.message}" for fault in schema.iter_errors(output)]
        assert not faults, (name, faults[:5])
        for path, change, lie in changed(output):
            if not within(path) or (change == "left out" and path[-1] in OPTIONAL):
                continue
            assert not schema.is_valid(lie), (name, path, change)
            refused += 1
    assert refused > 20, (name, refused)
    print(f"{name}: {refused} lies refused")


with tempfile.TemporaryDirectory() as folder:
    wrong, wide = os.path.join(folder, "wrong.json"), os.path.join(folder, "wide.json")
    pathlib.Path(wrong).write_text("{", encoding="utf-8")
    pathlib.Path(wide).write_text(json.dumps(
        {"quiltcut": 1, "fabrics": [{"id": "a"}], "pieces": [
            {"id": "A", "fabric": "a", "shape": "square", "cut": 60, "count": 1}]}))
    batch = run("batch", "--json", str(examples / "one-square.json"), wrong, wide, codes=(4,))
assert [job["exit"] for job in batch["jobs"]] == [0, 3, 4]
# Inside a plan its own schema rules, which has a test of its own; here only that it is asked.
check("batch", batch, within=lambda path: "plan" not in path[:-1] or path[-1] == "status")

throw = str(examples / "heath-throw.json")
check("compare", run("compare", "--json", "--block-sizes", "9,180", throw),
      run("compare", "--json", "--sizes", "crib", throw))
check("chart", run("chart", "--json", "--block", "eight-pointed star", "--from", "6", "--to", "7"),
      run("chart", "--json", "--block", "eight-pointed star", "--method", "strip set",
          "--from", "6", "--to", "6"))
check("blocks", run("blocks", "--json", "sawtooth star"), run("blocks", "--json", "attic windows"),
      run("blocks", "--json"))
