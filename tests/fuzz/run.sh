#!/usr/bin/env bash
# Searches for inputs that break something, a target at a time.
#
#     bash tests/fuzz/run.sh SECONDS [TARGET...]      # default: all targets
#
# Needs clang with its fuzzer (Debian: clang, libclang-rt-14-dev). New inputs are
# kept in BUILD/found/TARGET and used again by the next run; what broke a target is
# kept in BUILD/broken/ and its name printed: mend the fault, then put the input
# into tests/fuzz/corpus/TARGET/ for ever. QUILTCUT_FUZZ_BUILD names the build
# folder (default: build-fuzz).
set -euo pipefail
cd "$(dirname "${BASH_SOURCE[0]}")/../.."
seconds=${1:?how many seconds for each target?}
shift
build=${QUILTCUT_FUZZ_BUILD:-build-fuzz}
corpus=tests/fuzz/corpus
targets=("$@")
[ ${#targets[@]} -gt 0 ] || mapfile -t targets < <(ls "$corpus")

cmake -G Ninja -S . -B "$build" -DCMAKE_BUILD_TYPE=RelWithDebInfo \
    -DCMAKE_C_COMPILER=clang -DCMAKE_C_FLAGS=-fsanitize=fuzzer-no-link \
    -DQUILTCUT_SANITIZE=address,undefined -DQUILTCUT_FUZZ=ON \
    -DQUILTCUT_BUILD_CLI=OFF >/dev/null
cmake --build "$build" --target "${targets[@]/#/fuzz_}"

export LSAN_OPTIONS="suppressions=$PWD/tests/leaks.supp:print_suppressions=0"
failed=0
for target in "${targets[@]}"; do
    mkdir -p "$build/found/$target" "$build/broken"
    dictionary=()
    [ ! -f "tests/fuzz/$target.dict" ] ||
        dictionary=("-dict=tests/fuzz/$target.dict")
    "$build/tests/fuzz/fuzz_$target" "-max_total_time=$seconds" -timeout=60 \
        -rss_limit_mb=4096 "-artifact_prefix=$build/broken/$target-" \
        -print_final_stats=1 "${dictionary[@]}" \
        "$build/found/$target" "$corpus/$target" || failed=1
done
exit $failed
