#!/usr/bin/env bash
# Installs what the tests need, builds everything with warnings as errors and
# with address and undefined-behaviour sanitizers, and runs every test.
#
#     bash tests/run.sh [CTEST-ARGUMENT...]
#
# QUILTCUT_TEST_BUILD names the build folder (default: build-tests).
set -euo pipefail
cd "$(dirname "${BASH_SOURCE[0]}")/.."
. .ci/packages.sh

build=${QUILTCUT_TEST_BUILD:-build-tests}
jobs=$(nproc 2>/dev/null || echo 2)

qc_install_missing build test

echo "Formatting"
find include lib bindings tests bench -name '*.[ch]' -not -path '*/node_modules/*' \
    -print0 | xargs -0 clang-format --dry-run --Werror

echo "Building in $build"
cmake -G Ninja -S . -B "$build" -DCMAKE_BUILD_TYPE=RelWithDebInfo \
    -DQUILTCUT_WERROR=ON -DQUILTCUT_SANITIZE=address,undefined \
    -DQUILTCUT_BUILD_TESTS=ON -DQUILTCUT_BUILD_CLI=ON \
    -DQUILTCUT_BUILD_DRAW=ON >/dev/null
cmake --build "$build" --parallel "$jobs"

# detect_leaks: the leak checker runs in every test, also those that fork.
export ASAN_OPTIONS="${ASAN_OPTIONS:-detect_leaks=1:strict_string_checks=1}"
export UBSAN_OPTIONS="${UBSAN_OPTIONS:-print_stacktrace=1}"
if [ -f tests/leaks.supp ]; then
    export LSAN_OPTIONS="${LSAN_OPTIONS:-suppressions=$PWD/tests/leaks.supp:print_suppressions=0}"
fi
ctest --test-dir "$build" --parallel "$jobs" --output-on-failure \
    --no-tests=error "$@"
