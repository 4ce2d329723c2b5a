#!/usr/bin/env bash
# The sources give clang nothing to warn about.
#     clang.sh CLANG SOURCE-FOLDER GENERATED-INCLUDES
set -euo pipefail
cd "$2"
cairo=$(pkg-config --cflags cairo 2>/dev/null || true)
# shellcheck disable=SC2086 # flags are a list of words
find lib -name '*.c' -print0 | xargs -0 -P 2 -n 8 "$1" -std=c11 -fsyntax-only \
    -D_POSIX_C_SOURCE=200809L -Wall -Wextra -Wpedantic -Wshadow -Wconversion \
    -Wstrict-prototypes -Wmissing-prototypes -Wvla -Werror \
    -Iinclude -Ilib "-I$3" $cairo
