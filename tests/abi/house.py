"""Rules that a compiler does not check: no library source prints, ends the
process, or touches signals or the locale; the checker of proofs stays small
enough to be read in one sitting; and at the top level stands only what belongs
there.

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


# What the trust in a certificate rests on.
CHECKER = ("check.c", "check.h", "price.c")
CHECKER_LINES = 400


def strays(names):
    """Beside files that begin with a dot, and folders to build in."""
    return sorted(n for n in names
                  if n not in TOP and not n.startswith((".", "build")))


def code_of(text, literal=" "):
    """The text with comments blanked, and what is in string literals made
    `literal`; lines stay lines."""
    def blank(match):
        return re.sub(r"[^\n]", literal if match[0][0] == '"' else " ", match[0])
    return re.sub(r'/\*.*?\*/|//[^\n]*|"(?:\\.|[^"\\\n])*"', blank, text, flags=re.S)


def lines_of(text):
    """Lines of code: neither blank nor comment alone."""
    return sum(bool(line.strip()) for line in code_of(text, "x").splitlines())


def calls(text):
    for number, line in enumerate(code_of(text).splitlines(), 1):
        if found := FORBIDDEN.search(line):
            yield number, f"calls {found.group(1)}()"


def main():
    assert [n for n, _ in calls('x->exit(1);\n/* exit(1) */\n"exit(1)";\nexit (1);')] == [4]
    assert strays(["lib", ".ci", "build-san", "NOTES.txt"]) == ["NOTES.txt"]
    assert lines_of('int x; /* y */\n\n/* a\n b */\n"/*"\n;') == 3
    root = pathlib.Path(sys.argv[1])
    stray = strays(p.name for p in root.iterdir())
    for name in stray:
        print(f"{name}: does not belong at the top level")
    library = sorted((root / "lib").rglob("*.[ch]"))
    faults = [(p, *f) for p in library for f in calls(p.read_text())]
    for path, number, fault in faults:
        print(f"{path.relative_to(root)}:{number}: {fault}")
    checker = sum(lines_of((root / "lib/certify" / n).read_text()) for n in CHECKER)
    if checker >= CHECKER_LINES:
        print(f"lib/certify: {checker} lines of code in {', '.join(CHECKER)}; "
              f"they must be fewer than {CHECKER_LINES}")
    assert len(library) > 50
    print(f"{len(library)} library files read")
    sys.exit(bool(faults or stray or checker >= CHECKER_LINES))


main()
