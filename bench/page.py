"""Puts the text of one part of the bench between its markers in README.md."""
import os

PATH = os.path.join(os.path.dirname(os.path.abspath(__file__)), "README.md")


def write(part, text):
    begin, end = f"<!-- {part}: begin -->", f"<!-- {part}: end -->"
    with open(PATH, encoding="utf-8") as f:
        head, rest = f.read().split(begin)
    with open(PATH, "w", encoding="utf-8") as f:
        f.write(head + begin + "\n" + text + "\n" + end + rest.split(end)[1])
