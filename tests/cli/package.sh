#!/bin/sh
# The Debian package: built, found clean by lintian, unpacked elsewhere, and its program works there.
#   package.sh BUILD ROOT
set -e
build=$1
root=$2
work=$(mktemp -d)
trap 'rm -rf "$work"' EXIT
(cd "$build" && SOURCE_DATE_EPOCH=1793750400 cpack -G DEB -B "$work" >/dev/null)
deb=$(ls "$work"/*.deb)
said=$(lintian --allow-root --fail-on none --tag-display-limit 0 "$deb" 2>&1) || true
if [ -n "$said" ]; then
  echo "$said"
  exit 1
fi
dpkg-deb -x "$deb" "$work/else where"
cd "$work"
"$work/else where/usr/bin/placer" --version
"$work/else where/usr/bin/placer" begin
"$work/else where/usr/bin/placer" print -q
man -l "$work/else where/usr/share/man/man1/placer.1.gz" >/dev/null
test -s sheets/sheets.pdf
DESTDIR="$work/by hand" cmake --install "$build" >/dev/null
"$work/by hand/usr/local/bin/placer" cone 6 | grep -q 1222
