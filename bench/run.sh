#!/usr/bin/env bash
# Builds the library without sanitizers, runs the bench, and writes the results
# between the markers of bench/README.md.
#   bash bench/run.sh [--quick]     --quick: a few jobs, results on stdout only
set -euo pipefail
cd "$(dirname "$0")/.."
build=${QC_BENCH_BUILD:-build-bench}
python=/usr/bin/python3
[ -x "$python" ] || python=python3
cmake -S bench -B "$build" -DCMAKE_BUILD_TYPE=Release >/dev/null
cmake --build "$build" --target solve_lines shelf_lines -j >/dev/null
exec "$python" bench/table.py "$build" "$@"
