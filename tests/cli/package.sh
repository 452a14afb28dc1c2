#!/bin/sh
# The Debian package: built, found clean by lintian, unpacked elsewhere, and its program, completion
# and man page work there; the same for an installation by hand.
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
usr="$work/else where/usr"
cd "$work"

# Unpacked where nobody expects it, it finds its cone tables and makes the same sheets.
"$usr/bin/placer" --version
"$usr/bin/placer" begin
SOURCE_DATE_EPOCH=1793750400 "$usr/bin/placer" print -q -o unpacked
SOURCE_DATE_EPOCH=1793750400 "$build/placer" print -q -o built
test -s unpacked/sheets.pdf
diff -r unpacked built

man -l "$usr/share/man/man1/placer.1.gz" >/dev/null
bash -c '. "$1"; complete -p placer; COMP_WORDS=(placer print --paper l); COMP_CWORD=3; _placer
  echo "${COMPREPLY[@]}"' - "$usr/share/bash-completion/completions/placer" >said
grep -q 'F _placer placer' said
grep -qx letter said
test -s "$usr/share/zsh/vendor-completions/_placer"
test -s "$usr/share/fish/vendor_completions.d/placer.fish"

# Every library that the program is linked with belongs to a package that the .deb depends on.
dpkg-deb -f "$deb" Depends | tr -d ' ' | tr ',' '\n' | sed 's/(.*//' | sort -u >depends
objdump -p "$usr/bin/placer" | sed -n 's/^ *NEEDED *//p' | while read -r library; do
  for owner in $(dpkg -S "*/$library" | sed 's/:.*//' | sort -u); do
    dpkg-query -W -f '${Package}, ${Provides}\n' "$owner" | tr -d ' ' | tr ',' '\n' | sed 's/(.*//'
  done | sed '/^$/d' >owners
  grep -qxFf depends owners || { echo "$library is in no package depended on" && exit 1; }
done

# By hand, below any prefix, or first below another root.
cmake --install "$build" --prefix "$work/by hand" >/dev/null
"$work/by hand/bin/placer" cone 6 | grep -q 1222
test -f "$work/by hand/share/placer/schedules/cones.yaml"
DESTDIR="$work/stage" cmake --install "$build" >/dev/null
"$work/stage/usr/local/bin/placer" cone 6 | grep -q 1222
