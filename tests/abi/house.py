"""Two rules that a compiler does not check.

    house.py SOURCE-FOLDER

* No library source prints, ends the process, or touches signals or the locale.
* Programs see the public headers only: nothing under bindings/ or include/
  includes a room of lib/ or GLPK.
"""
import pathlib
import re
import sys

FORBIDDEN = re.compile(
    r"(?<![\w.>])(printf|vprintf|puts|putchar|fprintf|fputs|perror|exit|abort|_Exit|"
    r"quick_exit|atexit|signal|sigaction|setlocale|uselocale|setenv|putenv|system)\s*\(")
INCLUDE = re.compile(r'^\s*#\s*include\s*["<](?:(\w+)/)?([^">]+)[">]')


def code_of(text):
    """The text with comments and string literals blanked; lines stay lines."""
    def blank(match):
        return re.sub(r"[^\n]", " ", match.group(0))
    return re.sub(r'/\*.*?\*/|//[^\n]*|"(?:\\.|[^"\\\n])*"', blank, text, flags=re.S)


def calls(text):
    for number, line in enumerate(code_of(text).splitlines(), 1):
        if found := FORBIDDEN.search(line):
            yield number, f"calls {found.group(1)}()"


def inner_includes(text, rooms):
    for number, line in enumerate(text.splitlines(), 1):
        found = INCLUDE.match(line)
        if found and (found.group(1) in rooms or found.group(2) == "glpk.h"):
            yield number, f"includes {found.group(1) or ''}/{found.group(2)}"


def main():
    assert [n for n, _ in calls('x->exit(1);\n/* exit(1) */\n"exit(1)";\nexit (1);')] == [4]
    assert [n for n, _ in inner_includes('#include <a/b.h>\n# include "base/b.h"', {"base"})] == [2]
    root = pathlib.Path(sys.argv[1])
    library = sorted((root / "lib").rglob("*.[ch]"))
    outside = sorted(p for f in ("bindings", "include") for p in (root / f).rglob("*.[ch]"))
    rooms = {path.parent.name for path in library}
    faults = [(p, *f) for p in library for f in calls(p.read_text())]
    faults += [(p, *f) for p in outside for f in inner_includes(p.read_text(), rooms)]
    for path, number, fault in faults:
        print(f"{path.relative_to(root)}:{number}: {fault}")
    assert len(library) > 50 and len(outside) > 5
    print(f"{len(library)} library files and {len(outside)} others read")
    sys.exit(bool(faults))


main()
