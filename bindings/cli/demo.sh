#!/usr/bin/env bash
# Installs what is missing, builds quiltcut, plans a throw and draws it.
#
#     bash bindings/cli/demo.sh
#
# QUILTCUT_DEMO_BUILD names the build folder (default: build-demo).
set -euo pipefail
here=$(cd "$(dirname "${BASH_SOURCE[0]}")" && pwd)
root=$(cd "$here/../.." && pwd)
. "$root/.ci/packages.sh"

build=${QUILTCUT_DEMO_BUILD:-$root/build-demo}
job=$here/examples/saltmarsh-throw.json

# Runs a command silently; shows what it said when it fails.
quietly() {
    local log
    log=$(mktemp)
    if ! "$@" >"$log" 2>&1; then
        cat "$log" >&2
        rm -f "$log"
        echo "Failed: $*" >&2
        return 1
    fi
    rm -f "$log"
}

qc_install_missing build

echo "Building in $build"
quietly cmake -G Ninja -S "$root" -B "$build" -DCMAKE_BUILD_TYPE=Release \
    -DQUILTCUT_BUILD_TESTS=OFF -DQUILTCUT_BUILD_CLI=ON -DQUILTCUT_BUILD_DRAW=ON
quietly cmake --build "$build"

echo "Planning $job"
mkdir -p "$build/demo"
rm -f "$build"/demo/saltmarsh-throw*
"$build/bindings/cli/quiltcut" plan --output "$build/demo/saltmarsh-throw.txt" \
    --diagram "$build/demo/saltmarsh-throw" "$job" >/dev/null
echo
cat "$build/demo/saltmarsh-throw.txt"
echo
echo "This plan:     $build/demo/saltmarsh-throw.txt"
echo "Its diagrams, to open with any web browser:"
for picture in "$build"/demo/saltmarsh-throw-*.svg; do
    echo "  $picture"
done
echo "Other jobs:    $here/examples"
echo "Your own:      $build/bindings/cli/quiltcut plan JOB.json"
