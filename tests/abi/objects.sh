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
# Lines are "FILE: U NAME".
if "$nm" -A -u "$@" | sed 's/@.*//' | grep -E " ($bad)\$"; then
    exit 1
fi
echo "$# objects call nothing of the kind"
