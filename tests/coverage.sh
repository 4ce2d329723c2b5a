#!/usr/bin/env bash
# How much of lib/ the tests run: a line for each file, in BUILD/coverage.txt. Ends
# with 1 below 90 % of the lines or 80 % of the branches.
#
#     bash tests/coverage.sh [CTEST-ARGUMENT...]
#
# What goes through the program or through an installed copy is not counted. Needs
# clang and llvm (llvm-profdata, llvm-cov), beyond what tests/run.sh installs.
# QUILTCUT_COVERAGE_BUILD names the build folder (build-coverage).
set -euo pipefail
cd "$(dirname "${BASH_SOURCE[0]}")/.."
build=${QUILTCUT_COVERAGE_BUILD:-build-coverage}

cmake -G Ninja -S . -B "$build" -DCMAKE_BUILD_TYPE=Debug \
    -DQUILTCUT_BUILD_CLI=OFF -DCMAKE_C_COMPILER=clang \
    -DCMAKE_C_FLAGS="-O1 -fprofile-instr-generate -fcoverage-mapping" >/dev/null
# The programs of the tests; all that they link holds one copy of lib/.
mapfile -t programs < <(ninja -C "$build" -t targets all |
    sed -n 's/^\(tests\/[^:]*\): C_EXECUTABLE_LINKER.*/\1/p' | grep -v install)
ninja -C "$build" "${programs[@]}" >/dev/null

rm -rf "$build/profiles"
LLVM_PROFILE_FILE="$PWD/$build/profiles/%m.profraw" ctest --test-dir "$build" \
    --parallel 2 --output-on-failure -E 'install|abi_|readme' "$@" \
    >"$build/tests.txt" || { tail -n 40 "$build/tests.txt"; exit 1; }
llvm-profdata merge -o "$build/all.profdata" "$build"/profiles/*.profraw

objects=()
for program in "${programs[@]}"; do
    objects+=(-object "$build/$program")
done
llvm-cov report "${objects[@]:1}" -instr-profile="$build/all.profdata" \
    -show-branch-summary -show-region-summary=false \
    -ignore-filename-regex='/tests/|/bindings/|/build-' >"$build/coverage.txt"
awk '/^TOTAL/ {
    lines = 100 * (1 - $6 / $5); branches = 100 * (1 - $9 / $8)
    printf "lib/: %.1f %% of the lines, %.1f %% of the branches\n", lines, branches
    exit lines < 90 || branches < 80
}' "$build/coverage.txt"
