"""Runs one case of the command line program.

A case is a folder:
    cmd          a shell script; `quiltcut` is the program, $SOURCE the checkout
    exit         the exit code that the script must end with (0 if absent)
    stdout       what must come out, exactly
    stdout.has   or: lines, each of which must occur in it (blanks do not count)
    stderr, stderr.has
    ...          any other file is there when the script runs
Of stdout and stderr without a file, nothing may come out.

    cli.py PROGRAM SOURCE CASE-FOLDER
"""

import os
import shutil
import subprocess
import sys
import tempfile

OURS = {"cmd", "exit", "stdout", "stdout.has", "stderr", "stderr.has"}


def read(path):
    with open(path, encoding="utf-8", errors="surrogateescape", newline="") as file:
        return file.read()


def squeeze(text):
    return " ".join(text.split())


def check(case, name, got):
    """What is wrong with an output, or None."""
    exact, some = os.path.join(case, name), os.path.join(case, name + ".has")
    if os.path.exists(some):
        for line in read(some).splitlines():
            if squeeze(line) not in squeeze(got):
                return f"{name} lacks: {line}"
        return None
    wanted = read(exact) if os.path.exists(exact) else ""
    return None if got == wanted else f"{name} should be:\n{wanted}"


def run(program, source, case):
    env = dict(os.environ, SOURCE=source, LC_ALL="C.UTF-8")
    env["PATH"] = os.path.dirname(program) + os.pathsep + env["PATH"]
    with tempfile.TemporaryDirectory() as folder:
        for name in os.listdir(case):
            if name not in OURS:
                shutil.copy(os.path.join(case, name), folder)
        done = subprocess.run(
            ["bash", os.path.join(case, "cmd")], cwd=folder, env=env,
            stdin=subprocess.DEVNULL, capture_output=True, timeout=300,
            check=False)
    out, err = (data.decode("utf-8", "surrogateescape")
                for data in (done.stdout, done.stderr))
    exit_file = os.path.join(case, "exit")
    wanted = int(read(exit_file)) if os.path.exists(exit_file) else 0
    faults = [check(case, "stdout", out), check(case, "stderr", err)]
    if done.returncode != wanted:
        faults.append(f"exit code {done.returncode}, should be {wanted}")
    faults = [fault for fault in faults if fault]
    if faults:
        print(*faults, "--- stdout", out, "--- stderr", err, sep="\n")
    return 1 if faults else 0


if __name__ == "__main__":
    sys.exit(run(os.path.abspath(sys.argv[1]), os.path.abspath(sys.argv[2]),
                 os.path.abspath(sys.argv[3])))
