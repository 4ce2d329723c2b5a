#!/usr/bin/env bash
# Compiles every public header alone, as C11 and as C++17, every warning an error.
#     headers.sh CC CXX INCLUDE-FOLDER...
set -euo pipefail
cc=$1 cxx=$2
shift 2
strict=(-fsyntax-only -Wall -Wextra -Wpedantic -pedantic-errors -Wshadow -Werror)
paths=() count=0
for folder in "$@"; do paths+=("-I$folder"); done
for folder in "$@"; do
    for header in "$folder"/quiltcut/*.h; do
        name=quiltcut/$(basename "$header")
        # Twice: a header must also bear being included again.
        text="#include <$name>
#include <$name>
int something(void);" # a file with macros only would be empty
        "$cc" -std=c11 -Wstrict-prototypes "${strict[@]}" "${paths[@]}" -x c - <<<"$text" ||
            { echo "$name does not compile alone as C11"; exit 1; }
        "$cxx" -std=c++17 "${strict[@]}" "${paths[@]}" -x c++ - <<<"$text" ||
            { echo "$name does not compile alone as C++17"; exit 1; }
        count=$((count + 1))
    done
done
[ "$count" -ge 8 ] || { echo "only $count headers found"; exit 1; }
echo "$count headers compile alone as C11 and C++17"
