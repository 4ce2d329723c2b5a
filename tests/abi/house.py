"""The rules of the house that a compiler does not check.

    house.py SOURCE-FOLDER

* A room includes itself and the rooms before it, never one that comes later.
* Only lib/mip includes glpk.h, and nothing outside lib/ includes a room.
* Every source file of a room is built.
* No library source prints, ends the process, or touches signals or the locale.
"""
import pathlib
import re
import sys

root = pathlib.Path(sys.argv[1])
faults = []
listing = (root / "lib/CMakeLists.txt").read_text()
rooms = re.search(r"foreach\(room ([a-z ]+)\)", listing).group(1).split()
assert len(rooms) >= 10 and rooms[0] == "base", rooms

# The diagram library stands apart: it sees the public headers, and base.
allowed = {room: set(rooms[: i + 1]) for i, room in enumerate(rooms)}
allowed["draw"] = {"base", "draw"}

FORBIDDEN = re.compile(
    r"(?<![\w.>])(printf|puts|putchar|fprintf|perror|exit|abort|_Exit|quick_exit|"
    r"signal|sigaction|setlocale|system)\s*\(")


def code_of(text):
    """The text without comments and string literals; lines stay lines."""
    def blank(match):
        return re.sub(r"[^\n]", " ", match.group(0))
    return re.sub(r'/\*.*?\*/|//[^\n]*|"(?:\\.|[^"\\\n])*"', blank, text, flags=re.S)


sources = 0
for room, may in allowed.items():
    folder = root / "lib" / room
    built = (folder / "CMakeLists.txt").read_text()
    for path in sorted(folder.rglob("*.[ch]")):
        sources += 1
        name = path.relative_to(root)
        text = path.read_text()
        for number, line in enumerate(text.splitlines(), 1):
            include = re.match(r'\s*#\s*include\s*["<]([^">]+)', line)
            if not include:
                continue
            target = include.group(1)
            first = target.split("/")[0]
            if target == "glpk.h" and room != "mip":
                faults.append(f"{name}:{number}: glpk.h outside lib/mip")
            if "/" in target and first in allowed and first not in may:
                faults.append(f"{name}:{number}: {room} includes {first}, a later room")
            if target.startswith(".") or re.match(r'\s*#\s*include\s*"[^/]+"', line):
                faults.append(f'{name}:{number}: write "room/file.h"')
        if path.suffix == ".c" and not re.search(rf"\b{re.escape(path.name)}\b", built):
            faults.append(f"{name}: in no target")
        for number, line in enumerate(code_of(text).splitlines(), 1):
            call = FORBIDDEN.search(line)
            if call:
                faults.append(f"{name}:{number}: calls {call.group(1)}()")

for folder in ("bindings", "include"):
    for path in sorted((root / folder).rglob("*.[ch]")):
        for number, line in enumerate(path.read_text().splitlines(), 1):
            include = re.match(r'\s*#\s*include\s*["<]([^">]+)', line)
            if include and (include.group(1) == "glpk.h"
                            or include.group(1).split("/")[0] in allowed):
                faults.append(f"{path.relative_to(root)}:{number}: includes {include.group(1)}")

print("\n".join(faults) or f"{sources} files in {len(allowed)} rooms keep the rules")
sys.exit(bool(faults))
