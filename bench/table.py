"""Runs the bench and writes its tables. Usage: table.py BUILD [--quick]

CPU times throughout, limits included. All ratios come from this one run. Proved = the library's own bound, in integers,
meets the value; every plan was replayed by the library and checked again, strip
by strip, by the driver.
"""
import dataclasses
import os
import platform
import statistics
import sys
import time

import drive
import jobs
import page
from arcflow import timed

HERE = os.path.dirname(os.path.abspath(__file__))
DATA = os.path.join(HERE, "..", "..", "shared", "data")


faults = []  # answers that are wrong; nothing is written with one


def run(driver, batch):
    """Result fields by job name."""
    out = {}
    for line in drive.all_cores(driver, batch):
        name, rest = line.split(" ", 1)
        if rest.startswith("error="):
            faults.append(f"{name}: {rest}")
            continue
        out[name] = dict(f.split("=") for f in rest.split())
    return out


def seconds(answers):
    return sorted(int(a["cpu_us"]) / 1e6 for a in answers.values())


def times(answers):
    t = seconds(answers)
    return (f"{statistics.median(t):.3f} | {t[int(0.9 * (len(t) - 1))]:.2f} | "
            f"{t[-1]:.2f}")


def proved(answers, letter):
    n = sum(a[letter].endswith(":1") for a in answers.values())
    return f"{n}/{len(answers)}"


def saving(pairs):
    """Mean and best share of fabric saved, from (other, ours) lengths."""
    saved = [100 * (1 - ours / other) for other, ours in pairs]
    return f"{statistics.mean(saved):.1f} % ({max(saved):.0f} %)"


def quilts(build, sets, limit_ms):
    lines = ["| jobs | goal | proved | median s | p90 s | worst s | "
             "saved vs hand method | saved vs FFDH |",
             "|---|---|---|---|---|---|---|---|"]
    flat_used = {}
    for kind, count in sets:
        plain = [jobs.quilt_job(kind, i) for i in range(count)]
        for mode in ("flat", "full"):
            def batch(goals):
                return [jobs.as_mode(j, mode, goals, limit_ms) for j in plain]
            shelf = run(f"{build}/shelf_lines", batch("b"))
            for goals, letter, what in (("b", "b", "bought"),
                                        ("u", "u", "used")):
                got = run(f"{build}/solve_lines", batch(goals))
                ours = {n: int(a["bought" if letter == "b" else "used"])
                        for n, a in got.items()}
                tail = "_bought" if letter == "b" else ""
                hand = saving([(int(shelf[n]["hand" + tail]), v)
                               for n, v in ours.items()])
                ffdh = saving([(int(shelf[n]["ffdh" + tail]), v)
                               for n, v in ours.items()])
                lines.append(f"| {kind}, {mode} | {what} | "
                             f"{proved(got, letter)} | {times(got)} | {hand} | "
                             f"{ffdh} |")
                if mode == "flat" and letter == "u":
                    flat_used.update(got)
            if mode == "full":
                got = run(f"{build}/solve_lines", batch("bscl"))
                setups = statistics.mean(int(a["setups"]) for a in got.values())
                types = statistics.mean(len(j.pieces) for j in plain)
                lines.append(
                    f"| {kind}, {mode} | all default goals | bought "
                    f"{proved(got, 'b')}, set-ups {proved(got, 's')}, cuts "
                    f"{proved(got, 'c')}, leftover {proved(got, 'l')} | "
                    f"{times(got)} | {setups:.1f} set-ups for {types:.1f} "
                    "sizes (means) | |")
    return lines, flat_used


def against_arc_flow(sets, flat_used, limit_s):
    """CPU time of CBC on the arc-flow model against the library's."""
    asked = finished = too_large = ours_proved = 0
    ratios = []
    for kind, count in sets:
        for i in range(count):
            job = jobs.as_mode(jobs.quilt_job(kind, i), "flat", "u", 0)
            ours = flat_used.get(job.name)
            if ours is None:
                continue
            used, cpu, arcs = timed(job, limit_s)
            asked += 1
            ours_proved += ours["u"].endswith(":1")
            too_large += arcs == 0
            if used is None:
                continue
            finished += 1
            ratios.append(cpu / max(1e-4, int(ours["cpu_us"]) / 1e6))
            value, bound, _ = (int(x) for x in ours["u"].split(":"))
            if not bound <= used + job.square_up <= value:
                faults.append(f"{job.name}: {bound} .. {value}, arc flow "
                              f"gives {used + job.square_up}")
    lines = [f"Jobs asked: {asked}. Model too large to try: {too_large}. CBC "
             f"finished within {limit_s} s: {finished}; the library proved "
             f"{ours_proved} of the same jobs."]
    if ratios:
        ratios.sort()
        lines.append(f"CPU time, CBC / library, on the {finished} that CBC "
                     f"finished: median {statistics.median(ratios):.0f}, least "
                     f"{ratios[0]:.1f}, most {ratios[-1]:.0f}. All answers "
                     "agree.")
    return lines


# Averages in seconds that a branch and price with a commercial solver of linear
# programs needed: da Silva and Schouery, INFORMS J. Computing 2025,
# doi 10.1287/ijoc.2023.0399 (the machine is not named).
PUBLISHED_S = {
    "csp1d_falkenauer_u": 0.013, "csp1d_falkenauer_t": 0.099, "csp1d_scholl1": 0.006,
    "csp1d_scholl2": 0.069, "csp1d_scholl3": 2.55, "csp1d_schwerin": 0.016,
    "csp1d_waescher": 0.30, "csp1d_hard28": 7.05}


def family_limit_ms(family):
    return 60000 if family in PUBLISHED_S else 10000


def families(build, most, share):
    """Up to `most` instances of every family, in `share` of the usual limit."""
    lines = ["| family | asked | proved | known optimum met | mean s | published mean s | "
             "median s | worst s |", "|---|---|---|---|---|---|---|---|"]
    by_family = {}
    for family, known, job in jobs.data_jobs(DATA, most,
                                             lambda f: int(share * family_limit_ms(f))):
        by_family.setdefault(family, []).append((known, job))
    for family, entries in by_family.items():
        got = run(f"{build}/solve_lines", [job for _, job in entries])
        met = of = 0
        for known, job in entries:
            if known is None or job.name not in got:
                continue
            value, bound, _ = (int(x) for x in got[job.name]["u"].split(":"))
            if bound > known or value < known:
                faults.append(f"{family} {job.name}: {bound} .. {value}, "
                              f"known {known}")
            of += 1
            met += value == known
        cpu = seconds(got)
        lines.append(f"| {family} | {len(entries)} | {proved(got, 'u')} | {met}/{of} | "
                     f"{statistics.mean(cpu):.3f} | {PUBLISHED_S.get(family, '')} | "
                     f"{statistics.median(cpu):.3f} | {cpu[-1]:.2f} |")
    return lines


def two_stage(build, most, known_ms, open_ms):
    """All instances whose optimum the data knows, and of the others up to `most` of at
    most 60 pieces."""
    known, unknown = [], []
    for family, optimum, job in jobs.data_jobs(DATA, sys.maxsize, lambda f: known_ms):
        if not family.startswith("level2d"):
            continue
        if optimum is not None:
            known.append(job)
        elif sum(n for _, _, n, _ in job.pieces) <= 60:
            unknown.append(dataclasses.replace(job, limit_ms=open_ms))
    unknown = unknown[::max(1, len(unknown) // most)]
    return (f"Of all two-stage instances with a known optimum "
            f"{proved(run(f'{build}/solve_lines', known), 'u')} were proved within "
            f"{known_ms / 1000:g} s each; of those of at most 60 pieces whose optimum the data does "
            f"not know, {proved(run(f'{build}/solve_lines', unknown), 'u')} within "
            f"{open_ms / 1000:g} s.")


def main():
    build, quick = sys.argv[1], "--quick" in sys.argv
    sets = [("s", 12), ("q", 8)] if quick else [("s", 40), ("q", 24)]
    peer_sets = sets if quick else [("s", 20), ("q", 12)]
    limit_ms = 3000 if quick else 10000
    start = time.monotonic()
    table, flat_used = quilts(build, sets, limit_ms)
    out = [f"Measured on {cpu_name()}, {os.cpu_count()} cores, "
           f"{platform.system()}; one thread a job; CPU time limit "
           f"{limit_ms / 1000:g} s a job.", "",
           "### Quilt jobs", ""] + table
    out += ["", "### Against a general-purpose solver (the first s and q, flat, used)", ""]
    out += against_arc_flow(peer_sets, flat_used, 5 if quick else 8)
    out += ["", "### Published sets (two stages, no turning, exact length)", ""]
    if os.path.isdir(DATA):
        out += families(build, 4 if quick else 8, 0.05 if quick else 1)
        out += ["", two_stage(build, *((10, 1000, 1000) if quick else (40, 10000, 60000)))]
    else:
        out += ["The data folder is not beside this checkout: not run."]
    out += ["", f"The whole run took {(time.monotonic() - start) / 60:.0f} min."]
    text = "\n".join(out)
    print(text)
    if faults:
        raise SystemExit("\n".join(["WRONG answers, nothing written:"] + faults))
    if quick:
        return
    page.write("results", text)


def cpu_name():
    try:
        with open("/proc/cpuinfo", encoding="utf-8") as f:
            for line in f:
                if line.startswith("model name"):
                    return line.split(":", 1)[1].strip()
    except OSError:
        pass
    return platform.machine() or "an unnamed processor"


if __name__ == "__main__":
    main()
