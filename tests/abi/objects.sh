#!/usr/bin/env bash
# The compiled library calls nothing that prints, ends the process, or touches
# signals or the locale. Sources can be misread; objects cannot.
#     objects.sh NM OBJECT...
set -euo pipefail
nm=$1
shift
[ "$#" -ge 10 ] || { echo "only $# objects"; exit 1; }
# With fortified headers printf becomes __printf_chk, and so on.
bad='(__)?(v?f?printf|puts|fputs|putchar|putc|fputc|fwrite|perror)(_chk|_unlocked)?'
bad+='|exit|_exit|_Exit|quick_exit|abort|raise|kill|system'
bad+='|signal|sigaction|sigprocmask|setlocale|uselocale|stdout|stderr'
found=0
for object in "$@"; do
    if calls=$("$nm" -u "$object" | awk '{print $NF}' | sed 's/@.*//' |
        grep -Ex "$bad"); then
        printf '%s: %s\n' "${object##*/lib/}" "$(tr '\n' ' ' <<<"$calls")"
        found=1
    fi
done
[ "$found" = 0 ] || exit 1
echo "$# objects call nothing of the kind"
