#!/usr/bin/env bash
# Reads the sources for faults without running them; any finding ends it with 1.
#
#     bash tests/analyse.sh [cppcheck] [gcc] [clang-tidy]      # default: all
#
# cppcheck is among the tests (tier abi); clang-tidy takes minutes. A finding is
# mended; where it is wrong, the code is said more plainly until the tool sees it.
# QUILTCUT_ANALYSE_BUILD names the folder for compile commands (build-analyse).
set -euo pipefail
cd "$(dirname "${BASH_SOURCE[0]}")/.."
tools=("$@")
[ ${#tools[@]} -gt 0 ] || tools=(cppcheck gcc clang-tidy)
build=${QUILTCUT_ANALYSE_BUILD:-build-analyse}

# Not asked of cppcheck: its remarks on style.
run_cppcheck() {
    cppcheck --quiet --error-exitcode=1 --std=c11 --library=posix \
        --enable=warning,performance,portability \
        -D_POSIX_C_SOURCE=200809L -I include -I lib lib bindings
}

# The compile commands, and the headers that CMake makes.
configure() {
    cmake -G Ninja -S . -B "$build" -DCMAKE_C_COMPILER=gcc \
        -DQUILTCUT_BUILD_TESTS=OFF -DCMAKE_EXPORT_COMPILE_COMMANDS=ON >/dev/null
}

# Not asked of gcc: leaks. Version 12 takes what a growing list keeps for lost
# (bindings/cli/table.c); the leak checker of the tests knows better.
run_gcc() {
    local flags
    configure
    flags=$(pkg-config --cflags cairo jansson)
    # shellcheck disable=SC2086 # flags are a list of words
    find lib bindings -name '*.c' -print0 | xargs -0 -P 2 -n 1 gcc -std=c11 -O2 \
        -fanalyzer -Wno-analyzer-malloc-leak -Werror -c -o /dev/null -D_XOPEN_SOURCE=700 -Iinclude -Ilib \
        "-I$build/lib/include" $flags
}

run_clang_tidy() {
    configure
    find lib bindings -name '*.c' -print0 | xargs -0 -P 2 -n 1 clang-tidy \
        -p "$build" --quiet --extra-arg=-Wno-unknown-warning-option
}

for tool in "${tools[@]}"; do
    echo "Analysing with $tool"
    run_"${tool//-/_}"
done
