"""Jobs that mix shapes cut at an angle. Usage: angled.py BUILD [--quick]

5 to 20 shapes on few heights and one or two angles, so that they share strips:
diamonds, parallelograms of both hands, trapezoids, triangles, and rectangles
beside them. Planned by the program itself, on one thread, for the length to buy
alone; CPU times of the whole process. Writes its part of README.md.
"""
import json
import os
import resource
import statistics
import subprocess
import sys
import tempfile

import page
from jobs import drawer
from speed import quantile


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


def cpu_of_children():
    return resource.getrusage(resource.RUSAGE_CHILDREN).ru_utime


def plan(program, job, limit_s):
    """(proved?, gap, CPU seconds)"""
    with tempfile.NamedTemporaryFile("w", suffix=".json") as file:
        json.dump(job, file)
        file.flush()
        before = cpu_of_children()
        done = subprocess.run(
            [program, "plan", "--json", "--threads", "1", "--time-limit", str(limit_s),
             file.name], stdout=subprocess.PIPE, check=True)
    fabric = json.loads(done.stdout)["fabrics"][0]
    return fabric["status"] == "optimal", fabric["gap"], cpu_of_children() - before


def main():
    program = os.path.join(sys.argv[1], "quiltcut", "bindings", "cli", "quiltcut")
    quick = "--quick" in sys.argv
    count, limit_s = (8, 2) if quick else (60, 10)
    runs = [plan(program, make_job(i), limit_s) for i in range(count)]
    times = [seconds for _, _, seconds in runs]
    proved = sum(1 for optimal, _, _ in runs if optimal)
    text = "\n".join([
        f"Time limit {limit_s} s a job, one thread.", "",
        "| jobs | proved | CPU s: median, p95, worst | worst gap |", "|---|---|---|---|",
        f"| 5 to 20 shapes, both hands | {proved}/{count} | {statistics.median(times):.3f}, "
        f"{quantile(times, 0.95):.2f}, {max(times):.2f} | "
        f"{100 * max(gap for _, gap, _ in runs):.2f} % |"])
    print(text)
    if quick:
        return
    page.write("angled", text)


if __name__ == "__main__":
    main()
