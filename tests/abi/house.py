"""Rules that a compiler does not check: no library source prints, ends the
process, or touches signals or the locale; and at the top level stands only what
belongs there.

    house.py SOURCE-FOLDER
"""
import pathlib
import re
import sys

FORBIDDEN = re.compile(
    r"(?<![\w.>])(printf|vprintf|puts|putchar|fprintf|fputs|perror|exit|abort|_Exit|"
    r"quick_exit|atexit|signal|sigaction|setlocale|uselocale|setenv|putenv|system)\s*\(")


TOP = {"README.md", "DEVELOPERS.md", "LICENSE", "CMakeLists.txt", "lib", "include",
       "bindings", "tests", "bench"}


def strays(names):
    """Beside files that begin with a dot, and folders to build in."""
    return sorted(n for n in names
                  if n not in TOP and not n.startswith((".", "build")))


def code_of(text):
    """The text with comments and string literals blanked; lines stay lines."""
    def blank(match):
        return re.sub(r"[^\n]", " ", match.group(0))
    return re.sub(r'/\*.*?\*/|//[^\n]*|"(?:\\.|[^"\\\n])*"', blank, text, flags=re.S)


def calls(text):
    for number, line in enumerate(code_of(text).splitlines(), 1):
        if found := FORBIDDEN.search(line):
            yield number, f"calls {found.group(1)}()"


def main():
    assert [n for n, _ in calls('x->exit(1);\n/* exit(1) */\n"exit(1)";\nexit (1);')] == [4]
    assert strays(["lib", ".ci", "build-san", "NOTES.txt"]) == ["NOTES.txt"]
    root = pathlib.Path(sys.argv[1])
    stray = strays(p.name for p in root.iterdir())
    for name in stray:
        print(f"{name}: does not belong at the top level")
    library = sorted((root / "lib").rglob("*.[ch]"))
    faults = [(p, *f) for p in library for f in calls(p.read_text())]
    for path, number, fault in faults:
        print(f"{path.relative_to(root)}:{number}: {fault}")
    assert len(library) > 50
    print(f"{len(library)} library files read")
    sys.exit(bool(faults or stray))


main()
