#!/bin/sh
# Builds the libFuzzer targets with clang and runs each for some seconds, beginning with the studio
# files and tables of the tests. Ends with 1 when one of them found something.
#   sh tests/run.sh fuzz [SECONDS]
set -u
root=$(cd "$(dirname "$0")/../.." && pwd)
. "$root/demo/setup.sh"
seconds=${1:-60}
folder=$root/.build/fuzz

need $build_packages clang-14
build "$folder" -DCMAKE_CXX_COMPILER=clang++-14 -DPLACER_FUZZ=ON -DPLACER_ASAN=ON -DBUILD_TESTING=OFF
ninja -C "$folder" fuzz_studio fuzz_table || exit 2

mkdir -p "$folder/found/studio" "$folder/found/table" "$folder/seeds/studio" "$folder/seeds/table"
cp "$root"/tests/data/broken/*.yaml "$root/demo/studio.yaml" "$folder/seeds/studio/"
cp "$root"/tests/data/broken_tables/*.csv "$folder/seeds/table/"
# The words of the file, for the fuzzer to put in.
sed -n 's/.*VocabularyRow{"[^"]*", \("[^"]*"\),.*/\1/p' "$root/src/workbook/vocabulary_rows.cpp" |
  sort -u >"$folder/words.dict"

status=0
for target in studio table; do
  words=
  [ "$target" = studio ] && words=-dict=$folder/words.dict
  UBSAN_OPTIONS=halt_on_error=1 "$folder/tests/fuzz/fuzz_$target" $words -max_len=6000 -timeout=10 \
    -max_total_time="$seconds" -print_final_stats=1 -artifact_prefix="$folder/found/" \
    "$folder/found/$target" "$folder/seeds/$target" >"$folder/$target.log" 2>&1 || status=1
  grep -E 'stat::number_of_executed_units|SUMMARY' "$folder/$target.log" | sed "s/^/$target /"
done
exit $status
