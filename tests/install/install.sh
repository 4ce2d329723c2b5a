#!/usr/bin/env bash
# Installs the library into a folder of its own, shared or static, moves the
# folder, and lets somebody else's program find it: by pkg-config and by CMake.
#     install.sh shared|static SOURCE-FOLDER WORK-FOLDER CC with-draw|without-draw
set -euo pipefail
kind=$1 source=$2 work=$3 cc=$4 draw=$5
consumer=$source/tests/install/consumer
rm -rf "$work"
mkdir -p "$work"
# The package is built as a distributor would, not with the tests' sanitizers.
unset CFLAGS LDFLAGS

on=OFF
[ "$kind" = static ] || on=ON
with_draw=OFF
[ "$draw" = without-draw ] || with_draw=ON

cmake -G Ninja -S "$source" -B "$work/build" -DCMAKE_BUILD_TYPE=Debug \
    -DCMAKE_C_COMPILER="$cc" -DBUILD_SHARED_LIBS=$on -DQUILTCUT_BUILD_TESTS=OFF \
    -DQUILTCUT_BUILD_CLI=ON -DQUILTCUT_BUILD_DRAW=$with_draw >"$work/log"
cmake --build "$work/build" >>"$work/log"
cmake --install "$work/build" --prefix "$work/first" >>"$work/log"
mv "$work/first" "$work/prefix" # nothing may depend on where it was
rm -rf "$work/build"

prefix=$work/prefix
libdir=$(dirname "$(find "$prefix" -name quiltcut.pc)")
export PKG_CONFIG_PATH=$libdir
how=() loads=$(dirname "$libdir")
[ "$kind" = shared ] || how=(--static)

fail() { echo "$1"; exit 1; }
expect="moss: 18.000 in"
run() { LD_LIBRARY_PATH=$loads "$@"; }

echo "== $kind, pkg-config"
# shellcheck disable=SC2046 # flags are a list of words
"$cc" -o "$work/by-pkg-config" "$consumer/plan.c" \
    $(pkg-config "${how[@]}" --cflags --libs quiltcut)
[ "$(run "$work/by-pkg-config")" = "$expect" ] || fail "wrong answer"
[ "$(pkg-config --modversion quiltcut)" = "$("$prefix/bin/quiltcut" --version | grep -oE '[0-9]+\.[0-9.]+' | head -1)" ] ||
    fail "the .pc file and the program tell different versions"
if [ "$with_draw" = ON ]; then
    # shellcheck disable=SC2046
    "$cc" -o "$work/draws" "$consumer/draw.c" \
        $(pkg-config "${how[@]}" --cflags --libs quiltcut-draw)
    run "$work/draws" | grep -q '</svg>' || fail "no diagram"
fi

echo "== $kind, find_package"
cmake -G Ninja -S "$consumer" -B "$work/consumer" -DCMAKE_C_COMPILER="$cc" \
    -DCMAKE_PREFIX_PATH="$prefix" -DWANT_DRAW=$with_draw >>"$work/log"
cmake --build "$work/consumer" >>"$work/log"
[ "$(run "$work/consumer/consumer")" = "$expect" ] || fail "wrong answer"
if [ "$with_draw" = ON ]; then
    run "$work/consumer/drawer" | grep -q '</svg>' || fail "no diagram"
fi

echo "== $kind, what was installed"
if [ "$kind" = shared ]; then
    readelf -d "$loads/libquiltcut.so" | grep -q 'SONAME.*libquiltcut\.so\.[0-9]*\]' ||
        fail "no SONAME with the ABI number alone"
    readelf -d "$work/by-pkg-config" | grep -q 'NEEDED.*libglpk' &&
        fail "a user of the shared library is made to link GLPK"
fi
[ -f "$prefix/include/quiltcut/quiltcut.h" ] || fail "no umbrella header"
[ -z "$(grep -rlE 'qci_|glpk' "$prefix/include")" ] || fail "inner headers installed"
[ -n "$(find "$prefix" -name 'quiltcut.1*')" ] || fail "no manual page"
[ -z "$(grep -rlF "$work" "$prefix" --include='*.cmake' --include='*.pc')" ] ||
    fail "a file of the package names the folder it was built in"
echo "passed"
