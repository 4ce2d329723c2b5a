"""The README tells the truth: its commands and its program give what it shows.

    readme.py README QUILTCUT COMPILED-EXAMPLE

* Every line "$ ..." of a console block is run in a folder that holds the job of
  the json block as runner.json, and the example jobs; its output must be the
  lines that follow, where a line "..." stands for any number of lines.
* The program of the c block was compiled by the build; its output must be the
  text block.
* The tables of the forms name every field of a job and of instructions.
"""
import json
import os
import pathlib
import re
import shutil
import subprocess
import sys
import tempfile

EXAMPLES = pathlib.Path(__file__).resolve().parents[2] / "bindings/cli/examples"


def blocks(text, language):
    return re.findall(rf"^```{language}\n(.*?)^```", text, re.S | re.M)


def matches(shown, lines):
    """Whether shown, with "..." for any lines, is the whole of lines."""
    if not shown:
        return not lines
    if shown[0] == "...":
        return any(matches(shown[1:], lines[i:]) for i in range(len(lines) + 1))
    return bool(lines) and shown[0] == lines[0] and matches(shown[1:], lines[1:])


def commands(block):
    for part in re.split(r"^\$ ", block, flags=re.M)[1:]:
        command, _, shown = part.partition("\n")
        yield command, shown.splitlines()


def run(command, folder, program):
    path = str(program.resolve().parent) + os.pathsep + os.environ["PATH"]
    result = subprocess.run(["bash", "-c", command], cwd=folder, text=True,
                            env={**os.environ, "PATH": path, "LC_ALL": "C.UTF-8"},
                            stdout=subprocess.PIPE, stderr=subprocess.STDOUT)
    return result.stdout.splitlines()


def fields(schema):
    """The names of all properties, wherever they stand in a schema."""
    if isinstance(schema, list):
        return set().union(*map(fields, schema))
    if not isinstance(schema, dict):
        return set()
    own = schema.get("properties", {})
    return set(own) | set().union(*map(fields, schema.values()))


def undocumented(readme, program):
    schema = subprocess.run([program, "schema", "instructions"], check=True, text=True,
                            stdout=subprocess.PIPE).stdout
    table = re.search(r"^### 3\..*?^## ", readme, re.S | re.M).group(0)
    known = fields(json.loads(schema)) - {"fabrics", "pieces", "blocks", "strip_sets", "options",
                                           "steps"}
    assert len(known) > 25
    return sorted(f for f in known if not re.search(rf"\b{f}[`\"]", table))


def main():
    assert matches(["a", "...", "c"], ["a", "b", "b", "c"])
    assert not matches(["a", "...", "c"], ["a", "b"]) and not matches(["a"], ["a", "b"])
    readme = pathlib.Path(sys.argv[1]).read_text()
    program, example = map(pathlib.Path, sys.argv[2:4])
    wrong = 0
    with tempfile.TemporaryDirectory() as folder:
        job, = blocks(readme, "json")
        pathlib.Path(folder, "runner.json").write_text(job)
        for example_job in EXAMPLES.rglob("*.json"):
            shutil.copy(example_job, folder)
        cases = [c for block in blocks(readme, "console") for c in commands(block)]
        cases.append((str(example.resolve()), blocks(readme, "text")[0].splitlines()))
        assert len(cases) >= 3
        for command, shown in cases:
            lines = run(command, folder, program)
            if not matches(shown, lines):
                wrong += 1
                print(f"README shows something else than: {command}", *lines, sep="\n")
    for field in undocumented(readme, program):
        wrong += 1
        print(f"README does not explain the field {field}")
    print(f"{len(cases)} commands run")
    sys.exit(bool(wrong))


main()
