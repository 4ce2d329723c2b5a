#!/usr/bin/env bash
# Every public call is made in the test of failing allocations.
#     covered.sh TEST-SOURCE SYMBOLS...
set -euo pipefail
source=$1
shift
failed=0
for symbol in $(cat "$@"); do
    grep -q "\b$symbol(" "$source" || {
        echo "$symbol() is not called in $source"
        failed=1
    }
done
exit $failed
