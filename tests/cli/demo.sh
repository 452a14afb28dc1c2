#!/bin/sh
# The demo as committed is what the program makes today, byte for byte.
#   demo.sh PLACER ROOT
set -e
work=$(mktemp -d)
trap 'rm -rf "$work"' EXIT
cp "$2/demo/studio.yaml" "$work/"
cd "$work"
SOURCE_DATE_EPOCH=1793750400 TZ=UTC "$1" print -q studio.yaml -o out >/dev/null
diff -rq out "$2/demo/out"
