# shellcheck shell=bash
# What building and testing needs, in one place: sourced by bindings/cli/demo.sh
# and tests/run.sh, which then call
#
#     qc_install_missing build        # or: build test
#
# It installs what is missing with apt. Where there is no apt, or no right to use
# it, it names the missing packages (by their Debian names) and returns 1.

# group, Debian package, how to see that it is there
qc_packages() {
    cat <<'LIST'
build gcc               command cc
build libc6-dev         header stdio.h
build cmake             command cmake
build ninja-build       command ninja
build pkg-config        command pkg-config
build libglpk-dev       header glpk.h
build libjansson-dev    module jansson
build libcairo2-dev     module cairo
test  g++               command c++
test  binutils          command nm
test  clang-format      command clang-format
test  cppcheck          command cppcheck
test  libcmocka-dev     header setjmp.h stdarg.h stddef.h stdint.h cmocka.h
test  coinor-cbc        command cbc
test  python3           command python3
test  python3-scipy     python scipy
test  python3-jsonschema python jsonschema
test  librsvg2-bin      command rsvg-convert
LIST
}

# Says whether something is there: qc_have KIND NAME...
qc_have() {
    local kind=$1
    shift
    case $kind in
    command) command -v "$1" >/dev/null ;;
    module) pkg-config --exists "$1" 2>/dev/null ;;
    python) "$(qc_python)" -c "import $1" 2>/dev/null ;;
    header) printf '#include <%s>\n' "$@" | cc -E -x c - >/dev/null 2>&1 ;;
    esac
}

# Debian's own python3 where there is one, since the modules are its packages.
qc_python() {
    if [ -x /usr/bin/python3 ]; then echo /usr/bin/python3; else echo python3; fi
}

# Prints the missing packages of the given groups.
qc_missing() {
    local group package probe
    qc_packages | while read -r group package probe; do
        case " $* " in *" $group "*) ;; *) continue ;; esac
        # shellcheck disable=SC2086 # the probe is a list of words
        qc_have $probe </dev/null || echo "$package"
    done
}

qc_install_missing() {
    local missing log as_root=
    missing=$(qc_missing "$@" | tr '\n' ' ')
    [ -n "$missing" ] || return 0
    if ! command -v apt-get >/dev/null; then
        echo "Missing, and there is no apt to install it with: $missing" >&2
        return 1
    fi
    if [ "$(id -u)" != 0 ]; then
        if ! command -v sudo >/dev/null; then
            echo "Missing: $missing" >&2
            echo "Run this as root, or install sudo." >&2
            return 1
        fi
        as_root=sudo
    fi
    echo "Installing: $missing"
    log=$(mktemp)
    # shellcheck disable=SC2086 # both are lists of words
    if ! {
        $as_root apt-get -q update &&
            $as_root env DEBIAN_FRONTEND=noninteractive apt-get -q -y \
                --no-install-recommends install $missing
    } </dev/null >"$log" 2>&1; then
        tail -n 20 "$log" >&2
        rm -f "$log"
        echo "apt could not install: $missing" >&2
        return 1
    fi
    rm -f "$log"
    missing=$(qc_missing "$@" | tr '\n' ' ')
    [ -z "$missing" ] || {
        echo "Still missing after installing: $missing" >&2
        return 1
    }
}
