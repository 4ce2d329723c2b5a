#!/usr/bin/env bash
# What takes too long for every change: static analysis, threads under TSan, the
# examples under valgrind, ten thousand deaths of GLPK, and a search for inputs
# that break it.
#
#     bash tests/deep.sh [SECONDS-FOR-EACH-FUZZ-TARGET]      # default: 1800
#
# Needs clang with its fuzzer, clang-tidy and valgrind, beyond what tests/run.sh installs.
set -euo pipefail
cd "$(dirname "${BASH_SOURCE[0]}")/.."
seconds=${1:-1800}

bash tests/analyse.sh

echo "Threads under TSan, in build-tsan"
cmake -G Ninja -S . -B build-tsan -DCMAKE_BUILD_TYPE=RelWithDebInfo \
    -DQUILTCUT_SANITIZE=thread -DQUILTCUT_BUILD_CLI=OFF >/dev/null
cmake --build build-tsan --target test_threads test_mip_faults
build-tsan/tests/unit/test_threads

echo "Examples under valgrind, and failures of GLPK, in build-deep"
cmake -G Ninja -S . -B build-deep -DCMAKE_BUILD_TYPE=RelWithDebInfo >/dev/null
cmake --build build-deep --target quiltcut_cli test_mip_faults
for job in bindings/cli/examples/*.json; do
    echo "$job"
    valgrind -q --error-exitcode=9 --leak-check=full --show-leak-kinds=definite \
        --errors-for-leak-kinds=definite \
        build-deep/bindings/cli/quiltcut plan --time-limit 1 "$job" >/dev/null
done
QUILTCUT_TEST_FAILURES=10000 build-deep/tests/unit/test_mip_faults

echo "Fuzzing, $seconds seconds for each target"
bash tests/fuzz/run.sh "$seconds"
