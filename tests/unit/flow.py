"""Holds the rules on includes, first the one-way flow of lib/: a room includes
only rooms before it.

The order is read from lib/CMakeLists.txt. draw is a library of its own and may
include base and its own files only. A library header from outside belongs to
one room. Programs and public headers (bindings/, include/) see neither a room
nor such a header. Every source must be listed in its room's CMakeLists.txt,
since one that is not is never built.

Usage: flow.py ROOT
First the checks are tried on small trees with one fault each.
"""
import pathlib
import re
import sys
import tempfile

OWNERS = {"glpk.h": "mip", "jansson.h": "json", "cairo.h": "draw",
          "cairo-svg.h": "draw", "cairo-pdf.h": "draw",
          "quiltcut/draw.h": "draw"}
INCLUDE = re.compile(r'^\s*#\s*include\s*([<"])([^>"]+)[>"]', re.MULTILINE)


def rooms_in_order(lib):
    text = (lib / "CMakeLists.txt").read_text()
    return re.search(r"foreach\(room ([^)]*)\)", text).group(1).split()


def may_include(order, room, other):
    if room == "draw":
        return other in ("base", "draw")
    return other in order and order.index(other) <= order.index(room)


def faults_of_file(lib, order, room, path):
    where = path.relative_to(lib)
    for bracket, name in INCLUDE.findall(path.read_text()):
        if bracket == "<":
            if OWNERS.get(name, room) != room:
                yield f"{where}: <{name}> belongs to {OWNERS[name]}"
        elif not (lib / name).is_file() or "/" not in name:
            yield f'{where}: "{name}" is not a file of a room'
        elif not may_include(order, room, name.split("/")[0]):
            yield f'{where}: "{name}" runs against the flow'


def faults_outside(root, order):
    for folder in ("bindings", "include"):
        for path in sorted((root / folder).rglob("*.[ch]")):
            for _, name in INCLUDE.findall(path.read_text()):
                if name.split("/")[0] in order + ["draw", *OWNERS]:
                    yield f'{path.relative_to(root)}: "{name}" is the library\'s own'


def faults(root):
    lib = root / "lib"
    order = rooms_in_order(lib)
    found = []
    files = sorted(p for p in lib.rglob("*") if p.suffix in (".c", ".h"))
    for path in files:
        room = path.relative_to(lib).parts[0]
        if room not in order + ["draw"] or path.parent != lib / room:
            found.append(f"{path.relative_to(lib)}: is in no room")
            continue
        found += faults_of_file(lib, order, room, path)
        listed = (lib / room / "CMakeLists.txt").read_text()
        if path.suffix == ".c" and path.name not in re.split(r"[\s()]+", listed):
            found.append(f"{path.relative_to(lib)}: is not listed for building")
    found += faults_outside(root, order)
    if not files:
        found.append("lib has no sources")
    return found


SOUND = {
    "lib/CMakeLists.txt": "foreach(room base mip solve)\n",
    "lib/base/CMakeLists.txt": "qc_room(a.c)", "lib/mip/CMakeLists.txt": "qc_room(m.c)",
    "lib/solve/CMakeLists.txt": "qc_room(s.c)", "lib/draw/CMakeLists.txt": "x(d.c)",
    "lib/base/a.h": "", "lib/base/a.c": '#include "base/a.h"\n#include <stdio.h>\n',
    "lib/mip/m.h": "", "lib/mip/m.c": '#include <glpk.h>\n#include "base/a.h"\n',
    "lib/solve/s.c": '#include "mip/m.h"\n', "lib/draw/d.c": '#include "base/a.h"\n',
    "include/quiltcut/a.h": "#include <stdint.h>\n#include <quiltcut/export.h>\n",
    "bindings/cli/c.c": '#include "cli.h"\n#include <sys/stat.h>\n#include <quiltcut/draw.h>\n',
}
BROKEN = [
    ("lib/base/a.c", '#include "mip/m.h"\n', "runs against the flow"),
    ("lib/base/a.h", ' # include "mip/m.h"\n', "runs against the flow"),
    ("lib/draw/d.c", '#include "mip/m.h"\n', "runs against the flow"),
    ("lib/solve/s.c", "#include <glpk.h>\n", "belongs to mip"),
    ("lib/solve/s.c", '#include "m.h"\n', "not a file of a room"),
    ("lib/solve/s.c", '#include "mip/gone.h"\n', "not a file of a room"),
    ("lib/base/b.c", "", "not listed"),
    ("lib/a.c", "", "in no room"),
    ("lib/attic/a.c", "", "in no room"),
    ("lib/base/inner/a.c", "", "in no room"),
    ("bindings/cli/d.c", '#include "base/a.h"\n', "library's own"),
    ("bindings/cli/d.c", " # include <glpk.h>\n", "library's own"),
    ("include/quiltcut/b.h", "#include <mip/m.h>\n", "library's own"),
    ("include/quiltcut/b.h", "#include <jansson.h>\n", "library's own"),
]


def write_tree(root, files):
    for name, text in files.items():
        path = root / name
        path.parent.mkdir(parents=True, exist_ok=True)
        path.write_text(text)


def try_checks():
    for name, text, complaint in [(None, None, None)] + BROKEN:
        with tempfile.TemporaryDirectory() as folder:
            root = pathlib.Path(folder)
            write_tree(root, SOUND if name is None else {**SOUND, name: text})
            found = faults(root)
        right = len(found) == 1 and complaint in found[0] if name else not found
        if not right:
            sys.exit(f"the check itself is wrong on {name}: {found}")


def main():
    try_checks()
    found = faults(pathlib.Path(sys.argv[1]))
    for fault in found:
        print(fault)
    sys.exit(1 if found else 0)


main()
