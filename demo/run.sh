#!/bin/sh
# Installs what is missing, builds placer, plans the demo studio, leaves the sheets in demo/out/.
set -u
root=$(cd "$(dirname "$0")/.." && pwd)
. "$root/demo/setup.sh"

need $build_packages
build "$root/.build/demo" -DBUILD_TESTING=OFF
ninja -C "$root/.build/demo" || exit 2  # the man page and completions too

placer="$root/.build/demo/placer"
cd "$root/demo" || exit 2
# The demo's date is fixed, so that its committed output stays the same.
SOURCE_DATE_EPOCH=1793750400 TZ=UTC "$placer" print studio.yaml -o out
status=$?
[ "$status" -le 1 ] || exit "$status"
echo
echo "The sheets are in demo/out/: open sheets.pdf, or sheets.html on a phone."
