#!/usr/bin/env bash
# Builds the library without sanitizers, runs the bench, and writes the results
# between the markers of bench/README.md, and plots beside it.
#   bash bench/run.sh [PART...] [COUNT] [--quick]
# PART: table (proofs, savings, published sets), speed (waits, growth, memory,
# set-ups), angled (shapes cut at an angle); all when none is named. COUNT: jobs
# of a kind in speed and angled. --quick: a few jobs, results on stdout only
# (plots are written all the same).
set -euo pipefail
cd "$(dirname "$0")/.."
build=${QC_BENCH_BUILD:-build-bench}
python=/usr/bin/python3
[ -x "$python" ] || python=python3
cmake -S bench -B "$build" -DCMAKE_BUILD_TYPE=Release >/dev/null
cmake --build "$build" --target solve_lines shelf_lines time_lines endure \
    quiltcut_cli -j2 >/dev/null
parts=() options=()
for word; do
    case $word in -* | [0-9]*) options+=("$word") ;; *) parts+=("$word") ;; esac
done
[ ${#parts[@]} -gt 0 ] || parts=(table speed angled)
for part in "${parts[@]}"; do
    "$python" "bench/$part.py" "$build" "${options[@]}"
done
