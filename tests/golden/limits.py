"""Every limit of a job, through the program: at the limit it is not refused,
one beyond is, in one line that names the field and what is allowed; and the
README and the manual page tell the limit.

    limits.py PROGRAM SOURCE
"""

import copy
import json
import re
import subprocess
import sys

program, source = sys.argv[1:]
header = open(source + "/include/quiltcut/job.h", encoding="utf-8").read()
readme = open(source + "/README.md", encoding="utf-8").read()
manual = open(source + "/bindings/cli/quiltcut.1", encoding="utf-8").read()
told = {
    "README": re.search(r"^## Limits\n(.*?)^## ", readme, re.S | re.M).group(1),
    "manual page": re.search(r"^\.SH LIMITS\n(.*?)^\.SH ", manual, re.S | re.M).group(1),
}
failed = 0


def complain(text):
    global failed
    failed = 1
    print(text)


def limit(name):
    return int(re.search(rf"#define {name} (\d+)", header).group(1))


BASE = {
    "quiltcut": 1,
    "fabrics": [{"id": "f", "width": "42"}],
    "pieces": [{"id": "A", "fabric": "f", "shape": "square", "cut": "2", "count": 1}],
}
SET = {"id": "S", "segments": 1, "spacing": "2",
       "strips": [{"fabric": "f", "cut": "2"}, {"fabric": "f", "cut": "2"}]}


def plan(text):
    return subprocess.run([program, "plan", "--time-limit", "0.001", "-"],
                          input=text.encode(), capture_output=True, check=False)


def try_limit(name, most, beyond, make, words, field, allowed):
    """`make` puts a value into a job; `words` tell the limit to people."""
    for document, text in told.items():
        if not re.search(words.replace(" ", r"\s+"), text, re.S):
            complain(f"{name}: the {document} does not tell '{words}'")
    for value, refused in (most, False), (beyond, True):
        job = copy.deepcopy(BASE)
        text = make(job, value) or json.dumps(job)
        done = plan(text)
        error = done.stderr.decode()
        said = field in error and allowed in error
        if refused and (done.returncode != 3 or not said or error.count("\n") != 1):
            complain(f"{name}: beyond the limit: exit {done.returncode}: {error}")
        if not refused and (done.returncode not in (0, 4) or "too large" in error):
            complain(f"{name}: at the limit: exit {done.returncode}: {error}")


def count(name, words, field, allowed, put):
    try_limit(name, limit(name), limit(name) + 1, put, words, field, allowed)


def fabrics(job, n):
    job["fabrics"] = [{"id": f"f{i}"} for i in range(n)]
    job["pieces"][0]["fabric"] = "f0"


def pieces(job, n):
    job["pieces"] = [dict(job["pieces"][0], id=f"A{i}") for i in range(n)]


def sets(job, n):
    job["strip_sets"] = [dict(SET, id=f"S{i}") for i in range(n)]


def blocks(job, n):
    job["blocks"] = [{"id": f"B{i}", "block": "four patch", "size": "2", "count": 1,
                      "fabrics": {"dark": "f", "light": "f"}} for i in range(n)]


def set_strips(job, n):
    strip = {"fabric": "f", "cut": "1"}
    job["strip_sets"] = [dict(SET, strips=[strip] * n)]


def corners(job, n):
    # On a parabola, so that every corner turns the same way.
    points = [[i * n, i * i] for i in range(n)]
    job["pieces"][0].update(shape="polygon", finished=[[x / 8, y / 8] for x, y in points])
    del job["pieces"][0]["cut"]


def of_piece(field):
    return lambda job, value: job["pieces"][0].update({field: value})


def of_fabric(field):
    return lambda job, value: job["fabrics"][0].update({field: value})


def of_options(field):
    return lambda job, value: job.update({"options": {field: value}})


def of_job(field):
    return lambda job, value: job.update({field: value})


count("QC_MAX_FABRICS", "200 fabrics", "fabrics:", "1 to 200", fabrics)
count("QC_MAX_PIECES", "2000 kinds of pieces", "pieces:", "at most 2000", pieces)
count("QC_MAX_STRIP_SETS", "200 strip sets", "strip_sets:", "at most 200", sets)
count("QC_MAX_BLOCKS", "200 kinds of blocks", "blocks:", "at most 200", blocks)
count("QC_MAX_SET_STRIPS", "40 strips", "strips", "2 to 40", set_strips)
count("QC_MAX_CORNERS", "12 corners", "finished", "3 to 12", corners)
count("QC_MAX_COUNT", "1000000000 of each", "count", "1 to 1000000000",
      lambda job, n: job["pieces"][0].update(cut="1/64", count=n))
count("QC_MAX_TEXT_BYTES", "200 bytes", "title", "200 bytes",
      lambda job, n: job.update(title="t" * n))
count("QC_MAX_TEXT_BYTES", "200 bytes", "name", "200 bytes",
      lambda job, n: job["fabrics"][0].update(name="n" * n))

def spares(job, n):
    job["pieces"][0].update(cut="1/64")
    job["options"] = {"spare": n}


LENGTHS = [  # most, beyond, where, field, words, allowed
    ("10 m", "10.001 m", of_fabric("width"), "width", "10 m wide", "up to 10 m"),
    ("10 m", "10.001 m", of_fabric("raw_width"), "raw_width", "10 m wide", "up to 10 m"),
    ("10 m", "10.001 m", of_fabric("step"), "step", "10 m", "up to 10 m"),
    ("1 m", "1.001 m", of_fabric("square_up"), "square_up", r"square_up.* 1 m", "to 1 m"),
    ("1 m", "1.001 m", of_piece("trim"), "trim", r"trim.* 1 m", "to 1 m"),
    ("10 cm", "10.01 cm", of_job("seam"), "seam", r"seam.* 10 cm", "to 10 cm"),
    ("10 cm", "10.01 cm", of_job("ruler"), "ruler", r"ruler.* 10 cm", "to 10 cm"),
    ("10 m", "10.001 m", of_options("keep"), "keep", "10 m", "to 10 m"),
    ("4294.967296 m", "4294.967297 m", of_piece("cut"), "cut", "4294.967296 m", "4294.967296 m"),
    (8, 9, of_options("layers"), "layers", r"1 to 8", "1 to 8"),
    # With the one piece that is asked for, the most of one kind.
    (999999999, 1000000001, spares, "spare", "spare.*1000000000|1000000000.*spare", "0 to 1000000000"),
    ("1000 %", "1000.01 %", of_options("spare"), "spare", "1000 %", "0 to 1000"),
    (86400, 86400.001, of_options("time_limit"), "time_limit", "86400", "0.001 to 86400"),
    (10000, 10000.0001, of_fabric("price"), "price", "price.*10000", "0 to 10000"),
    ({"length": 99.99}, {"length": 100}, of_fabric("shrink"), "shrink", r"99\.99", "99.99"),
]
for most, beyond, put, field, words, allowed in LENGTHS:
    if field == "raw_width":
        BASE["fabrics"][0].pop("width")
    put_trim = put
    if field == "trim":
        def put_trim(job, value, put=put):
            job["pieces"][0]["finished"] = job["pieces"][0].pop("cut")
            put(job, value)
    try_limit(field, most, beyond, put_trim, words, field, allowed)
    BASE["fabrics"][0]["width"] = "42"

# Sums that no number may carry: of each kind a length that 64 bits still hold.
for change in ({"count": 1000000000, "cut": "1 m"}, {"count": 1000000000, "cut": "0.000001 in"},
               {"count": 10**18}, {"count": 2**63}, {"count": -2**63}, {"count": 2**64 + 1}):
    job = copy.deepcopy(BASE)
    job["pieces"][0].update(change)
    done = plan(json.dumps(job))
    if done.returncode not in (3, 4) or done.stderr.count(b"\n") != 1:
        complain(f"{change}: exit {done.returncode}: {done.stderr.decode()}")

# The text: its size, the length of one token, how deep it is nested.
MIB = 1 << 20
text = json.dumps(BASE)
try_limit("size", 16 * MIB, 16 * MIB + 1,
          lambda job, n: text + " " * (n - len(text)), "16 MiB", "larger than", "16 MiB")
try_limit("token", 0, 4095,
          lambda job, n: json.dumps(dict(BASE, title="t" * n)), "4096 bytes", "too long", "4096 bytes")
deep = plan("[" * 100000)
if deep.returncode != 3 or b"nested too deeply" not in deep.stderr:
    complain(f"nesting: exit {deep.returncode}: {deep.stderr.decode()}")
huge = subprocess.run([program, "plan", "/dev/zero"], capture_output=True, check=False)
if huge.returncode != 3 or b"16 MiB" not in huge.stderr:
    complain("the largest file")
sys.exit(failed)
