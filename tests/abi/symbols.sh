#!/usr/bin/env bash
# The symbols that a shared library exports are exactly those of a list.
#     symbols.sh LIBRARY LIST
set -euo pipefail
export LC_ALL=C
# Sanitizers add symbols of their own, all of them in the reserved name space.
exported=$(nm -D --defined-only "$1" | awk '{print $NF}' | sed 's/@.*//' |
    grep -v '^_' | sort)
if ! diff <(sort "$2") <(printf '%s\n' "$exported"); then
    echo "'<' is only in $(basename "$2"), '>' only in $(basename "$1")"
    exit 1
fi
echo "$(wc -l <"$2") symbols as listed"
