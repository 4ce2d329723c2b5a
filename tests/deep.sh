#!/usr/bin/env bash
# What takes too long for every change, one part after the other:
#
#     analyse    static analysis                      tests/analyse.sh
#     coverage   how much of lib/ the tests run       tests/coverage.sh
#     threads    threads, limits and flags under TSan
#     valgrind   the unit tests and the examples
#     failures   ten thousand deaths of GLPK; the answer to a flag within 0.5 s
#     fuzz       a search for inputs that break it    tests/fuzz/run.sh
#
#     bash tests/deep.sh [PART...]                    # default: all
#
# Needs clang with its fuzzer, clang-tidy, llvm and valgrind, beyond what
# tests/run.sh installs. QUILTCUT_FUZZ_SECONDS is for each fuzz target (1800).
set -euo pipefail
cd "$(dirname "${BASH_SOURCE[0]}")/.."
parts=("$@")
[ ${#parts[@]} -gt 0 ] ||
    parts=(analyse coverage threads valgrind failures fuzz)

run_analyse() { bash tests/analyse.sh; }

run_coverage() { bash tests/coverage.sh; }

run_threads() {
    cmake -G Ninja -S . -B build-tsan -DCMAKE_BUILD_TYPE=RelWithDebInfo \
        -DQUILTCUT_SANITIZE=thread -DQUILTCUT_BUILD_CLI=OFF >/dev/null
    cmake --build build-tsan --target test_threads test_stops test_batch
    build-tsan/tests/unit/test_threads
    build-tsan/tests/unit/test_stops
    build-tsan/tests/unit/test_batch
}

build_plain() {
    cmake -G Ninja -S . -B build-deep -DCMAKE_BUILD_TYPE=RelWithDebInfo >/dev/null
    cmake --build build-deep
}

under_valgrind() {
    valgrind -q --error-exitcode=9 --leak-check=full --show-leak-kinds=definite \
        --errors-for-leak-kinds=definite --suppressions=tests/valgrind.supp "$@"
}

# Without the tests that make GLPK die, which leaves its blocks behind; and
# without drawing again for every allocation that may fail, which takes too long
# even here.
run_valgrind() {
    local test job
    build_plain
    for test in build-deep/tests/unit/test_*; do
        case ${test##*/} in
        test_mip_faults | test_threads | test_stops) continue ;;
        esac
        echo "$test"
        QUILTCUT_TEST_QUICK=1 under_valgrind "$test" >build-deep/valgrind.txt 2>&1 ||
            { cat build-deep/valgrind.txt; exit 1; }
    done
    for job in bindings/cli/examples/*.json; do
        echo "$job"
        under_valgrind build-deep/bindings/cli/quiltcut plan --time-limit 1 \
            "$job" >/dev/null
    done
}

run_failures() {
    build_plain
    QUILTCUT_TEST_FAILURES=10000 build-deep/tests/unit/test_mip_faults
    QUILTCUT_TEST_CANCEL_MS=500 build-deep/tests/unit/test_stops
}

run_fuzz() { bash tests/fuzz/run.sh "${QUILTCUT_FUZZ_SECONDS:-1800}"; }

for part in "${parts[@]}"; do
    declare -F "run_$part" >/dev/null || { echo "no such part: $part" >&2; exit 2; }
    echo "== $part"
    "run_$part"
done
