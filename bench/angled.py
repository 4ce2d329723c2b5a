"""Jobs that mix shapes cut at an angle. Usage: angled.py BUILD [COUNT] [--quick]

5 to 20 shapes on few heights and one or two angles, so that they share strips:
diamonds, parallelograms of both hands, trapezoids, triangles, and rectangles
beside them. Planned by the program itself, on one thread, for the length to buy
alone; CPU times of the whole process. Writes its part of README.md.
"""
import json
import sys

import page
from jobs import drawer
from speed import WAITS, count_of, run, wait


def inches(halves):
    return f"{halves / 2:g}"


def make_piece(pick, number, heights, angles):
    shape = ["diamond", "parallelogram", "trapezoid", "equilateral triangle",
             "half-square triangle", "rectangle"][pick(0, 5)]
    height = heights[pick(0, len(heights) - 1)]
    count = min(pick(4, 200), pick(4, 200))
    piece = {"id": f"P{number}", "fabric": "a", "shape": shape, "count": count}
    if shape in ("diamond", "parallelogram"):
        piece["angle"] = angles[pick(0, len(angles) - 1)]
    if shape == "parallelogram":
        # Strips as high as those of the diamond of that side; longer, or it is one.
        piece["finished"] = [inches(height + pick(1, 8)), inches(height)]
        piece["count"] = {"left": count, "right": count}
    elif shape == "trapezoid":
        short = pick(2, 8)
        piece["finished"] = [inches(short + pick(2, 8)), inches(short), inches(height)]
    elif shape == "rectangle":
        piece["finished"] = [inches(pick(2, 12)), inches(height)]
    else:
        piece["finished"] = inches(height)
    return piece


def make_job(number):
    pick = drawer(9_000_000 + number)
    heights = [pick(2, 12) for _ in range(pick(3, 5))]
    angles = [[30, 45, 60][pick(0, 2)] for _ in range(pick(1, 2))]
    pieces = [make_piece(pick, i, heights, angles) for i in range(pick(5, 20))]
    return {"quiltcut": 1, "pieces": pieces,
            "fabrics": [{"id": "a", "width": inches([80, 81, 84, 87][pick(0, 3)])}],
            "options": {"objective": ["bought"]}}


def main():
    build, quick = sys.argv[1], "--quick" in sys.argv
    count, limit_s = (8, 2) if quick else (count_of(sys.argv[2:], 60), 10)
    got = run(f"{build}/time_lines",
              [f"{{a{i} {1000 * limit_s} {json.dumps(make_job(i))}" for i in range(count)])
    text = "\n".join([f"Time limit {limit_s} CPU s a job, one thread.", ""] + WAITS +
                     [wait("5 to 20 shapes, both hands", got)])
    print(text)
    if quick:
        return
    page.write("angled", text)


if __name__ == "__main__":
    main()
