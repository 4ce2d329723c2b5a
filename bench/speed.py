"""How long a user waits, how that grows, what it takes in memory, and how general
solvers fare. Usage: speed.py BUILD [COUNT] [--quick]

COUNT jobs are solved of each kind with all ways to lie, a quarter of that with none.
Writes its part of README.md and three plots beside it. CPU times of one thread
throughout, limits included, since the machine may be shared (meter.c).
"""
import json
import os
import statistics
import subprocess
import sys
import time

import jobs  # puts the peers on the path
import arcflow
import drive
import page
import peer
import plot
from jobs import EIGHTH, HALF, INCH, drawer
from peer import Job

HERE = os.path.dirname(os.path.abspath(__file__))
FRESH = 1000  # number of the first job, beyond those that other parts look at


def run(driver, batch):
    """Result fields of each job, in order."""
    return [{key: int(value) for key, value in (f.split("=") for f in line.split(" ")[1:])}
            for line in drive.all_cores(driver, batch)]


def quantile(values, share):
    return sorted(values)[min(len(values) - 1, int(share * len(values)))]


WAITS = ["| jobs | first plan ms: median, worst | proved, of these within 1 s | CPU s: median, p95, "
         "worst | worst gap | certified, of the proved | checking / solving | nodes: median, most | "
         "columns: median, most | peak MiB |", "|---|---|---|---|---|---|---|---|---|---|"]


def wait(name, got):
    """A line of the table WAITS."""
    cpu = [a["cpu_us"] / 1e6 for a in got]
    first = [a["first_us"] / 1e3 for a in got]
    proved = [a for a in got if a["proved"]]
    share = [a["check_us"] / a["cpu_us"] for a in proved] or [0]
    nodes = [a["nodes"] for a in proved] or [0]
    columns = [a["columns"] for a in got]
    gap = max(100 * (1 - a["bound"] / a["bought"]) for a in got)
    return (f"| {name} | {statistics.median(first):.1f}, {max(first):.0f} | "
            f"{len(proved)}/{len(got)}, {sum(a['cpu_us'] <= 1e6 for a in proved)} | "
            f"{statistics.median(cpu):.3f}, {quantile(cpu, 0.95):.2f}, {max(cpu):.2f} | {gap:.2f} % | "
            f"{sum(a['certified'] for a in proved)}/{len(proved)} | "
            f"{100 * statistics.median(share):.1f} % | "
            f"{statistics.median(nodes):.0f}, {max(nodes)} | "
            f"{statistics.median(columns):.0f}, {max(columns)} | "
            f"{max(a['peak_kb'] for a in got) / 1024:.0f} |")


def waits(build, sets, limit_ms):
    return WAITS + [
        wait(f"{kind}, {mode}",
             run(f"{build}/time_lines",
                 [jobs.as_mode(jobs.quilt_job(kind, FRESH + i), mode, "b", limit_ms)
                  for i in range(count)]))
        for kind, mode, count in sets]


def cold_start(build, limit_ms):
    """The same job three times in each of five processes."""
    job = jobs.as_mode(jobs.quilt_job("s", FRESH), "full", "b", limit_ms)
    first, later = [], []
    for _ in range(5):
        got = [int(line.split("first_us=")[1].split()[0]) / 1e3
               for line in drive.one(f"{build}/time_lines", [job.line()] * 3)]
        first.append(got[0])
        later.append(got[2])
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


def many_sizes(build, count):
    """60 sizes, up to 2,000 of each, on the 1/8 and the 1/64 grid."""
    return [wait(f"60 sizes, 1/{parts} in", run(
        f"{build}/time_lines",
        [made_job(f"many{parts}-{i}", 60, 2000, INCH // parts, 12 * INCH, 600 + parts + i, 5000)
         for i in range(count)])) for parts in (8, 64)]


def top_job():
    """A top of 40 fabrics, 8 to 15 sizes of each."""
    pick = drawer(9_100_000)
    pieces = []
    for fabric in range(40):
        for _ in range(pick(8, 15)):
            pieces.append({"id": f"P{len(pieces)}", "fabric": f"f{fabric}",
                           "shape": "rectangle",
                           "finished": [f"{pick(12, 64) / 8:g}", f"{pick(12, 64) / 8:g}"],
                           "count": pick(4, 20)})
    return {"quiltcut": 1, "pieces": pieces,
            "fabrics": [{"id": f"f{i}", "width": "42"} for i in range(40)],
            "options": {"objective": ["bought"]}}


def whole_top(build):
    """That top on two threads; a second on the clock is two of CPU time then."""
    job = top_job()
    pieces = job["pieces"]
    lines = ["A top of 40 fabrics, "
             f"{len(pieces)} sizes, {sum(p['count'] for p in pieces):,} pieces, on two threads, "
             "cut order and replay included:", "",
             "| limit, CPU s | s on the clock of this machine | CPU s | bought above the bound, at most |",
             "|---|---|---|---|"]
    for limit_s in (1, 2, 10):
        done = subprocess.run([f"{build}/time_lines", "2"], text=True, stdout=subprocess.PIPE,
                              input=f"{{top {1000 * limit_s} {json.dumps(job)}\n", check=True)
        fields = dict(f.split("=") for f in done.stdout.split()[1:])
        lines.append(f"| {limit_s} | {int(fields['t_us']) / 1e6:.2f} | {int(fields['cpu_us']) / 1e6:.2f} | "
                     f"{100 * (1 - int(fields['bound']) / int(fields['bought'])):.2f} % |")
    return lines


def setups(build, count, limit_ms):
    """Set-ups within the least bought length, against those of the plan that is found
    when they are no goal; and how many there must be, where that is proved."""
    batch, number = [], FRESH
    while len(batch) < count:
        job = jobs.quilt_job("s", number)
        number += 1
        if len(job.pieces) <= 15:
            batch.append(job)
    few, any_ = ([a for a in run(f"{build}/time_lines",
                                 [jobs.as_mode(j, "full", goals, limit_ms) for j in batch])]
                 for goals in ("bs", "b"))
    lines = ["| sizes | jobs | fewest proved | set-ups for a size | of the proved: fewest there can be for "
             "a size | when no goal | bound for a size |", "|---|---|---|---|---|---|---|"]
    for low, high in ((1, 4), (5, 8), (9, 15)):
        at = [i for i, j in enumerate(batch) if low <= len(j.pieces) <= high]
        if not at:
            continue
        sizes = sum(len(batch[i].pieces) for i in at)
        proved = [i for i in at if few[i]["setups"] == few[i]["setups_bound"]]
        of_proved = sum(len(batch[i].pieces) for i in proved)
        least = sum(few[i]["setups"] for i in proved) / of_proved if proved else None
        lines.append(
            f"| {low} to {high} | {len(at)} | {len(proved)} | "
            f"{sum(few[i]['setups'] for i in at) / sizes:.2f} | "
            f"{'' if least is None else f'{least:.2f}'} | "
            f"{sum(any_[i]['setups'] for i in at) / sizes:.2f} | "
            f"{sum(few[i]['setups_bound'] for i in at) / sizes:.2f} |")
    return lines


def endurance(build, count):
    batch = [jobs.as_mode(jobs.quilt_job("s", FRESH + i), "flat", "b", 20) for i in range(40)]
    batch = [j for j in batch if len(j.pieces) <= 6][:8]
    done = subprocess.run([f"{build}/endure", str(count)],
                          input="".join(j.line() + "\n" for j in batch), text=True,
                          stdout=subprocess.PIPE, check=True)
    (some, early), (all_, late) = (map(int, line.split()) for line in done.stdout.splitlines())
    return (f"{early / 1024:.1f} MiB held after {some:,} solves in one process, {late / 1024:.1f} "
            f"MiB after {all_:,}, each with its certificate")


def general_solvers(build, counts, limit_s):
    """CPU time of two solvers on two models of the same jobs, and the library's; as many
    jobs as counts say of each model."""
    batch, number = [], FRESH
    while len(batch) < max(counts):
        job = jobs.as_mode(jobs.quilt_job("sq"[number % 2], number), "flat", "u", 1000 * limit_s)
        number += 1
        if 3 <= len(job.pieces) <= 12:
            batch.append(job)
    ours = [a["cpu_us"] / 1e6 for a in run(f"{build}/time_lines", batch)]
    lines = ["| model, solver | sizes | finished | CPU, solver / library, of these: median, least, "
             "most |", "|---|---|---|---|"]
    for (model_name, model), count in zip((("arc flow", lambda j: arcflow.arc_flow(j, 40000)),
                                           ("levels", peer.level_model)), counts):
        for solver_name, solve in (("CBC", peer.solve_cbc), ("HiGHS", peer.solve_highs)):
            ratios = [times_slower(model(job), solve, own, limit_s)
                      for job, own in zip(batch[:count], ours)]
            for low, high in ((3, 5), (6, 12)):
                of = [r for job, r in zip(batch, ratios) if low <= len(job.pieces) <= high]
                done = [r for r in of if r is not None]
                told = (f"{statistics.median(done):.0f}, {min(done):.1f}, {max(done):.0f}"
                        if done else "")
                lines.append(f"| {model_name}, {solver_name} | {low} to {high} | "
                             f"{len(done)}/{len(of)} | {told} |")
    return lines


def times_slower(made, solve, own_s, limit_s):
    """CPU time of a solver, over ours; None where it does not finish."""
    if made is None:
        return None
    before = drive.cpu_now()
    value = solve(made[0], limit_s)
    return None if value is None else (drive.cpu_now() - before) / max(own_s, 1e-4)


def count_of(arguments, usual):
    """The number among the arguments."""
    return next((int(word) for word in arguments if word.isdigit()), usual)


def main():
    build, quick = sys.argv[1], "--quick" in sys.argv
    start = time.monotonic()
    count = 4 if quick else count_of(sys.argv[2:], 200)
    limit_ms = 1000 if quick else 10000
    short_ms = limit_ms // 5 if not quick else limit_ms
    out = [f"Time limit {limit_ms / 1000:g} CPU s a job; jobs that no other part of this page uses. "
           "Goal: the length to buy. CPU s is the whole solve on one thread, the narrowest width and "
           f"the replay included. {os.cpu_count()} cores, load {os.getloadavg()[0]:.0f} when this "
           "part began.", ""]
    out += waits(build, [(k, "full", count) for k in "sq"] +
                 [(k, "flat", (count + 3) // 4) for k in "sq"], limit_ms)
    out += many_sizes(build, 2 if quick else 5)
    out += [""] + whole_top(build) + [""] + cold_start(build, short_ms)
    grown, peak = growth(build, 2 if quick else 3, short_ms)
    out += grown
    out += ["", f"Memory: at most {peak / 1024:.0f} MiB over the jobs that grow, and "
            f"{endurance(build, 200 if quick else 10000)}.", "",
            f"Set-ups within the least bought length, structured jobs of up to 15 sizes, "
            f"{2 * short_ms / 1000:g} s each:", ""]
    out += setups(build, max(6, count // 5), 2 * short_ms)
    solver_s = 2 if quick else 10
    out += ["", f"Models of 3 to 12 sizes for the exact length, {solver_s} s each:", ""]
    out += general_solvers(build, (4, 2) if quick else (20, 6), solver_s)
    out += ["", f"This part took {(time.monotonic() - start) / 60:.0f} min."]
    text = "\n".join(out)
    print(text)
    if quick:
        return
    page.write("speed", text)


if __name__ == "__main__":
    main()
