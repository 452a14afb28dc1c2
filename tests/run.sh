#!/bin/sh
# Installs what is missing, builds everything, runs every test. The last line is the count.
#   sh tests/run.sh            all tests
#   sh tests/run.sh asan       the same with address and undefined-behaviour sanitizers
#   sh tests/run.sh release    build only, no tests, in .build/release
#   sh tests/run.sh fuzz [N]   N seconds (60) of libFuzzer on each reader of users' files, with clang
set -u
root=$(cd "$(dirname "$0")/.." && pwd)
. "$root/demo/setup.sh"

mode=${1:-dev}
test_packages="catch2 libgeos-dev coinor-libcbc-dev poppler-utils qpdf librsvg2-bin libxml2-utils
  zbar-tools man-db lintian dpkg-dev file fakeroot chromium git"
need $build_packages $test_packages
command -v node >/dev/null 2>&1 && command -v npm >/dev/null 2>&1 || need nodejs npm

case $mode in
  dev) folder=$root/.build/tests options="-DPLACER_WERROR=ON" ;;
  asan) folder=$root/.build/asan options="-DPLACER_WERROR=ON -DPLACER_ASAN=ON" ;;
  fuzz) exec sh "$root/tests/fuzz/run.sh" "${2:-60}" ;;
  release) folder=$root/.build/release options="-DBUILD_TESTING=OFF" ;;
  *)
    echo "tests/run.sh takes dev, asan, release or fuzz, not \"$mode\"" >&2
    exit 2
    ;;
esac
build "$folder" $options
ninja -C "$folder" || exit 1
[ "$mode" = release ] && exit 0

# Browser, schema and calendar tests use tools from npm, kept in the build folder.
tools=$folder/tools
if [ -f "$root/tests/package.json" ] && ! cmp -s "$root/tests/package.json" "$tools/package.json"; then
  mkdir -p "$tools"
  cp "$root/tests/package.json" "$tools/"
  [ -f "$root/tests/package-lock.json" ] && cp "$root/tests/package-lock.json" "$tools/"
  (cd "$tools" && npm install --no-audit --no-fund --ignore-scripts --silent) || {
    rm -f "$tools/package.json"
    echo "The test tools could not be installed." >&2
    exit 2
  }
fi

log=$folder/tests.log
(cd "$folder" && ctest -j2 --output-on-failure) | tee "$log"
summary=$(grep -E 'tests passed, [0-9]+ tests failed out of' "$log" | tail -n 1)
failed=$(echo "$summary" | sed -n 's/.*passed, \([0-9]*\) tests failed.*/\1/p')
total=$(echo "$summary" | sed -n 's/.*out of \([0-9]*\).*/\1/p')
if [ -z "$total" ]; then
  echo "0 passed, 1 failed"
  exit 1
fi
echo "$((total - failed)) passed, $failed failed"
[ "$failed" -eq 0 ]
