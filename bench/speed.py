"""How long a user waits, how that grows, what it takes in memory, and how general
solvers fare. Usage: speed.py BUILD [--quick]

Writes its part of README.md and three plots beside it. CPU times of one thread
throughout, since the machine may be shared; the limits are on the clock.
"""
import os
import resource
import statistics
import subprocess
import sys
import time

import jobs  # puts the peers on the path
import arcflow
import page
import peer
import plot
from jobs import EIGHTH, HALF, INCH, drawer
from peer import Job

HERE = os.path.dirname(os.path.abspath(__file__))
FRESH = 1000  # number of the first job, beyond those that other parts look at


def run(driver, batch):
    done = subprocess.run([driver], input="".join(j.line() + "\n" for j in batch),
                          text=True, stdout=subprocess.PIPE, check=True)
    out = []
    for line in done.stdout.splitlines():
        fields = dict(f.split("=") for f in line.split(" ")[1:])
        out.append({key: int(value) for key, value in fields.items()})
    assert len(out) == len(batch)
    return out


def quantile(values, share):
    return sorted(values)[min(len(values) - 1, int(share * len(values)))]


def waits(build, sets, limit_ms):
    lines = ["| jobs | first plan ms: median, worst | proved | CPU s: median, p95, worst | "
             "worst gap | certified, of the proved | checking / solving | nodes: median, most |",
             "|---|---|---|---|---|---|---|---|"]
    for kind, mode, count in sets:
        batch = [jobs.as_mode(jobs.quilt_job(kind, FRESH + i), mode, "b", limit_ms)
                 for i in range(count)]
        got = run(f"{build}/time_lines", batch)
        cpu = [a["cpu_us"] / 1e6 for a in got]
        first = [a["first_us"] / 1e3 for a in got]
        proved = [a for a in got if a["proved"]]
        share = [a["check_us"] / a["cpu_us"] for a in proved]
        nodes = [a["nodes"] for a in proved]
        gap = max(100 * (1 - a["bound"] / a["bought"]) for a in got)
        lines.append(
            f"| {kind}, {mode} | {statistics.median(first):.1f}, {max(first):.0f} | "
            f"{len(proved)}/{len(got)} | {statistics.median(cpu):.3f}, "
            f"{quantile(cpu, 0.95):.2f}, {max(cpu):.2f} | {gap:.2f} % | "
            f"{sum(a['certified'] for a in proved)}/{len(proved)} | "
            f"{100 * statistics.median(share):.1f} % | "
            f"{statistics.median(nodes):.0f}, {max(nodes)} |")
    return lines


def cold_start(build, limit_ms):
    """The same job three times in each of five processes."""
    job = jobs.as_mode(jobs.quilt_job("s", FRESH), "full", "b", limit_ms)
    first, later = [], []
    for _ in range(5):
        got = run(f"{build}/time_lines", [job] * 3)
        first.append(got[0]["first_us"] / 1e3)
        later.append(got[2]["first_us"] / 1e3)
    return [f"Cold start: the first feasible plan of a process takes {statistics.median(first):.1f} "
            f"ms, that of the same job later {statistics.median(later):.1f} ms (medians of 5)."]


def made_job(name, sizes, most, grid, largest, seed, limit_ms):
    """`sizes` different sizes of 1 in to `largest` on a grid, up to `most` of each."""
    pick = drawer(9_000_000 + seed)
    pieces = {}
    while len(pieces) < sizes:
        a, b = (pick(INCH // grid, largest // grid) * grid for _ in range(2))
        pieces[a, b] = pick((most + 1) // 2, most)
    return jobs.as_mode(
        Job(name=name, width=84 * HALF, square_up=HALF,
            pieces=[(a, b, n, 0) for (a, b), n in pieces.items()]),
        "flat", "b", limit_ms)


def growth(build, each, limit_ms):
    """Tables and plots of time against sizes, demand and grid."""
    lines, peak = [], 0
    for key, title, x_name, points in (
            ("sizes", "Time against the number of sizes", "sizes of up to 12 in, up to 200 of each",
             [(n, (n, 200, EIGHTH, 12 * INCH)) for n in (5, 10, 20, 40, 80, 120, 200)]),
            ("demand", "Time against demand", "pieces in all, at most; 10 sizes of up to 2 in",
             [(n, (10, n // 10, EIGHTH, 2 * INCH))
              for n in (10, 100, 1000, 10000, 100000, 1000000)]),
            ("grid", "Time against the grid", "parts of an inch; 10 sizes of up to 12 in, up to 200 of each",
             [(n, (10, 200, INCH // n, 12 * INCH)) for n in (4, 8, 16, 32, 64)])):
        series = {"first plan": [], "proof or limit": []}
        lines += ["", f"![{title}](growth-{key}.svg)", "",
                  f"| {x_name} | first plan ms | proved | CPU s: median, worst |",
                  "|---|---|---|---|"]
        for x, (sizes, most, grid, largest) in points:
            got = run(f"{build}/time_lines",
                      [made_job(f"{key}{x}-{i}", sizes, most, grid, largest, 100 * x + i,
                                limit_ms)
                       for i in range(each)])
            first = statistics.median(a["first_us"] / 1e3 for a in got)
            cpu = [a["cpu_us"] / 1e6 for a in got]
            peak = max(peak, *(a["peak_kb"] for a in got))
            series["first plan"].append((x, first))
            series["proof or limit"].append((x, 1000 * statistics.median(cpu)))
            lines.append(f"| {x:,} | {first:.1f} | {sum(a['proved'] for a in got)}/{each} | "
                         f"{statistics.median(cpu):.3f}, {max(cpu):.2f} |")
        plot.write(os.path.join(HERE, f"growth-{key}.svg"), title, x_name, "ms", series)
    return lines, peak


def endurance(build, count):
    batch = [jobs.as_mode(jobs.quilt_job("s", FRESH + i), "flat", "b", 20) for i in range(40)]
    batch = [j for j in batch if len(j.pieces) <= 6][:8]
    done = subprocess.run([f"{build}/endure", str(count)],
                          input="".join(j.line() + "\n" for j in batch), text=True,
                          stdout=subprocess.PIPE, check=True)
    (some, early), (all_, late) = (map(int, line.split()) for line in done.stdout.splitlines())
    return (f"{early / 1024:.1f} MiB held after {some:,} solves in one process, {late / 1024:.1f} "
            f"MiB after {all_:,}, each with its certificate")


def general_solvers(build, count, limit_s):
    """CPU time of two solvers on two models of the same jobs, and the library's."""
    batch, number = [], FRESH
    while len(batch) < count:
        job = jobs.as_mode(jobs.quilt_job("sq"[number % 2], number), "flat", "u", 1000 * limit_s)
        number += 1
        if 3 <= len(job.pieces) <= 12:
            batch.append(job)
    ours = [a["cpu_us"] / 1e6 for a in run(f"{build}/time_lines", batch)]
    lines = ["| model, solver | finished | CPU, solver / library, of these: median, least, most |",
             "|---|---|---|"]
    for model_name, model in (("arc flow", lambda j: arcflow.arc_flow(j, 40000)),
                              ("levels", lambda j: peer.level_model(j))):
        for solver_name, solve in (("CBC", peer.solve_cbc), ("HiGHS", peer.solve_highs)):
            ratios = []
            for job, own in zip(batch, ours):
                made = model(job)
                if made is None:
                    continue
                before = cpu_now()
                value = solve(made[0], limit_s)
                if value is not None:
                    ratios.append((cpu_now() - before) / max(own, 1e-4))
            told = (f"{statistics.median(ratios):.0f}, {min(ratios):.1f}, {max(ratios):.0f}"
                    if ratios else "")
            lines.append(f"| {model_name}, {solver_name} | {len(ratios)}/{count} | {told} |")
    return lines


def cpu_now():
    own = resource.getrusage(resource.RUSAGE_SELF)
    children = resource.getrusage(resource.RUSAGE_CHILDREN)
    return own.ru_utime + children.ru_utime


def main():
    build, quick = sys.argv[1], "--quick" in sys.argv
    start = time.monotonic()
    few = 4 if quick else 15
    limit_ms = 1000 if quick else 2000
    out = [f"Time limit {limit_ms / 1000:g} s a job; jobs that no other part of this page uses. "
           "Goal: the length to buy. CPU s is the whole solve on one thread, the narrowest width and "
           f"the replay included. {os.cpu_count()} cores, load {os.getloadavg()[0]:.0f} when this "
           "part began.", ""]
    out += waits(build, [(k, m, few) for k in "sq" for m in ("flat", "full")], limit_ms)
    out += [""] + cold_start(build, limit_ms)
    grown, peak = growth(build, 2 if quick else 3, limit_ms)
    out += grown
    out += ["", f"Memory: at most {peak / 1024:.0f} MiB over all jobs above, and "
            f"{endurance(build, 200 if quick else 10000)}.", "",
            f"Models of 3 to 12 sizes for the exact length, {limit_ms // 500} s each:", ""]
    out += general_solvers(build, 3 if quick else 8, limit_ms // 500)
    out += ["", f"This part took {(time.monotonic() - start) / 60:.0f} min."]
    text = "\n".join(out)
    print(text)
    if quick:
        return
    page.write("speed", text)


if __name__ == "__main__":
    main()
