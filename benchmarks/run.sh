#!/bin/bash
# run.sh [BUILD]: measures and prints the tables of docs/figures.md, "Speed". BUILD is a release
# build with -DRTCMEND_BENCHMARKS=ON; left out, build/benchmarks is made so. Every ratio is against
# a baseline that runs in turn with it, in the same run; the best of several rounds counts. Wants a
# machine with nothing else to do, and 1 GB in TMPDIR. Takes some five minutes and a build.
# The tree of files stands in memory where there is room: all is read warm, and on some disks making
# and deleting 100,000 files takes longer than all measuring.
set -euo pipefail

source=$(cd "$(dirname "$0")/.." && pwd)
build=${1:-$source/build/benchmarks}
if [ $# -eq 0 ]; then
  "$source/scripts/packages.sh" build benchmarks
  launcher=$(command -v ccache || true)
  cmake -G Ninja -S "$source" -B "$build" -DCMAKE_BUILD_TYPE=Release -DRTCMEND_BENCHMARKS=ON \
    -DCMAKE_CXX_COMPILER_LAUNCHER="$launcher" >/dev/null
  cmake --build "$build" --target rtcmend benchmark_solve benchmark_check benchmark_audit \
    side_by_side copy_durably make_dumps >/dev/null
fi
tools=$build/benchmarks
rtcmend=$build/rtcmend
work=$(mktemp -d)
tree=$(mktemp -d -p /dev/shm 2>/dev/null || mktemp -d)
trap 'rm -rf "$work" "$tree"' EXIT

row() {
  printf '| %s ' "$@"
  echo '|'
}
# calc EXPRESSION FORMAT
calc() { awk "BEGIN { printf \"$2\", $1 }"; }
milliseconds() { calc "$1 * 1000" '%.2f ms'; }

instructions() {
  # That a dump is not sound is an answer, too.
  { valgrind --tool=callgrind --callgrind-out-file=/dev/null "$@" 2>&1 >/dev/null || [ $? -eq 1 ]; } |
    awk '/Collected/ { print $4 }'
}

# compare ROUNDS TIMES BASELINE... -- COMMAND...: sets base_wall base_cpu wall cpu kib
# wall_ratio cpu_ratio.
compare() {
  read -r base_wall base_cpu _ wall cpu kib wall_ratio cpu_ratio \
    < <("$tools/side_by_side" "$@")
}

# time_of PROGRAM NAME: nanoseconds of processor time that a benchmark reports, the median of five.
time_of() {
  "$tools/$1" --benchmark_filter="^$2\$" --benchmark_repetitions=5 --benchmark_min_time=0.1 \
    --benchmark_format=csv \
    2>/dev/null | awk -F, '/_median/ { print $4 }'
}

grep -m1 'model name' /proc/cpuinfo | sed 's/.*: //; s/  */ /g' || true
echo "$(nproc) processors, $(uname -sr), load $(cut -d' ' -f1 /proc/loadavg), $(date +%F)"

printf '\nStart-up: instructions (callgrind) and processor time\n\n'
row "what" "measured" "baseline" "ratio" "must hold"
row --- --- --- --- ---
"$tools/make_dumps" "$work/one" 1 64
one=$work/one/000/000000.bin
xxd_count=$(instructions xxd "$one")

# count_instructions WHAT COMMAND...
count_instructions() {
  local what=$1 count
  shift
  count=$(instructions "$rtcmend" "$@")
  row "$what, instructions" "$count" "xxd: $xxd_count" "$(calc "$count / $xxd_count" %.2f)" \
    "at most 3,000,000"
}
# damaged SIZE LAYOUT: a dump of this layout with bit 3 of byte 14h flipped, so that a check fails.
damaged() {
  local dump=$work/$2.bin byte
  "$tools/make_dumps" "$dump" 1 "$1" packed "$2"
  byte=$(xxd -s 0x14 -l 1 -p "$dump")
  printf '%02x' $((0x$byte ^ 8)) | xxd -r -p | dd of="$dump" bs=1 seek=20 conv=notrunc status=none
  echo "$dump"
}
count_instructions "\`--version\`" --version
count_instructions "\`verify\`, \`--layout\`, 64 sound bytes" verify "$one" --layout at
count_instructions "\`verify\`, identified, 64 sound bytes" verify "$one"
for size_and_layout in "64 crc+slots-19" "64 crc+copy-29" "64 at" "64 at+disks-1b" \
  "64 at+sum-34-3d" "64 at+shadow-34" "64 balance" \
  "128 at+sum-40-7d" "128 at+sum-40-79"; do
  # shellcheck disable=SC2086  # two words
  dump=$(damaged $size_and_layout)
  given=()
  # One bit is not enough for an 8-bit check to be recognised by.
  [ "$size_and_layout" != "64 balance" ] || given=(--layout balance)
  count_instructions "\`verify\`, a failed check of ${size_and_layout#* }" verify "$dump" "${given[@]}"
done
# A listing may have been typed: slips of the hand are searched as well.
for size_and_layout in "64 at" "64 crc+slots-19" "128 at+sum-40-7d"; do
  layout=${size_and_layout#* }
  xxd -g1 "$(damaged ${size_and_layout% *} "$layout")" > "$work/typed.txt"
  compare 9 20 xxd "$one" -- "$rtcmend" verify "$work/typed.txt" --layout "$layout"
  row "\`verify\`, a failed check of $layout in a listing, wall" "$(milliseconds "$wall")" \
    "xxd: $(milliseconds "$base_wall")" "$wall_ratio" "at most 200 ms"
done
compare 9 100 xxd "$one" -- "$rtcmend" verify "$one"
row "\`verify DUMP\`, 64 bytes, user + system" "$(milliseconds "$cpu")" \
  "xxd: $(milliseconds "$base_cpu")" "$cpu_ratio" "at most 1.5"
compare 9 50 "$tools/copy_durably" "$one" "$work/copy" -- \
  "$rtcmend" amend "$one" --layout at --set floppy_a=720K -o "$work/new" --force --unsound-anyway
row "\`amend\` of one field, wall" "$(milliseconds "$wall")" \
  "the same copy, flush, rename: $(milliseconds "$base_wall")" "$wall_ratio" "at most 3"

printf '\nA tree of 128-byte files, warm\n\n'
row "files, jobs" "audit, wall" "find -print0 \\| xargs -0 cat" "ratio" "must hold" \
  "audit, processor, a file" "each file more"
row --- --- --- --- --- --- ---
cat > "$work/read_all" <<'END'
find "$@" -type f -print0 | xargs -0 cat
END
"$tools/make_dumps" "$tree" 100000 128
declare -A cpu_before
before=0
for count in 1000 10000 100000; do
  folders=("$tree"/*)  # a thousand files each
  folders=("${folders[@]:0:$((count / 1000))}")
  for jobs in 1 2; do
    compare $((count < 100000 ? 5 : 3)) $((count == 1000 ? 5 : 1)) \
      sh "$work/read_all" "${folders[@]}" -- "$rtcmend" audit --jobs $jobs "${folders[@]}"
    row "$count, $jobs" "$(milliseconds "$wall")" "$(milliseconds "$base_wall")" "$wall_ratio" \
      "$([ $jobs = 1 ] && echo "at most 0.5" || echo "faster than one job")" \
      "$(calc "$cpu / $count * 1e6" '%.2f us')" \
      "$([ $before = 0 ] || calc "($cpu - ${cpu_before[$jobs]}) / ($count - $before) * 1e6" '%.2f us')"
    cpu_before[$jobs]=$cpu
  done
  before=$count
done
rm -rf "$tree"

printf '\nA packed file of 128-byte images, one job\n\n'
row "images, judged by" "images a second of processor time" "must hold" "wall" \
  "cat of the file, wall" "memory"
row --- --- --- --- --- ---
for count in 10486 104858 1048576; do
  for by in "--layout at+sum-40-79" ""; do
    # shellcheck disable=SC2086  # the words of an option
    "$tools/make_dumps" "$work/packed" "$count" 128 packed ${by#--layout}
    # shellcheck disable=SC2086  # the words of an option
    compare 5 1 cat "$work/packed" -- "$rtcmend" audit --jobs 1 --packed 128 $by "$work/packed"
    row "$count, ${by:-all layouts}" "$(calc "$count / $cpu" %.0f)" \
      "$([ -n "$by" ] && echo "2,000,000" || echo "500,000")" "$(milliseconds "$wall")" \
      "$(milliseconds "$base_wall")" "$kib KiB"
  done
done
rm -f "$work/packed"

printf '\nThe check engine: processor time\n\n'
row "what" "here" "baseline" "times faster" "must hold"
row --- --- --- --- ---
for bytes in 34 58 340 3400; do
  here=$(time_of benchmark_check "crc_here/$bytes")
  for against in boost bit_by_bit; do
    base=$(time_of benchmark_check "crc_$against/$bytes")
    row "CRC-16 over $bytes bytes, against ${against//_/ }" "$(calc "$here" '%.1f ns')" \
      "$(calc "$base" '%.1f ns')" "$(calc "$base / $here" %.1f)" \
      "$([ $bytes -gt 58 ] || { [ $against = boost ] && echo 1 || echo 4; })"
  done
done
for bytes in 64 128; do
  here=$(time_of benchmark_check "checks_in_one_pass/$bytes")
  base=$(time_of benchmark_check "checks_one_by_one/$bytes")
  row "all checks of the library, $bytes bytes, against one by one" "$(calc "$here" '%.0f ns')" \
    "$(calc "$base" '%.0f ns')" "$(calc "$base / $here" %.1f)" ""
  for named in 1 0; do
    here=$(time_of benchmark_audit "judge_quickly/bytes:$bytes/named:$named")
    base=$(time_of benchmark_audit "judge_one_plainly/bytes:$bytes/named:$named")
    row "a verdict, $bytes bytes, $([ $named = 1 ] && echo "named layout" || echo identified)" \
      "$(calc "$here" '%.0f ns')" "plainly: $(calc "$base" '%.0f ns')" \
      "$(calc "$base / $here" %.1f)" ""
  done
done

printf '\nThe CRC-16 search of solve: processor time\n\n'
row "bytes, that differ, dumps" "search" "plain search" "times faster" "must hold"
row --- --- --- --- ---
"$tools/benchmark_solve" --benchmark_format=csv 2>/dev/null | awk -F, '
  /^"?name/ { for (i = 1; i <= NF; ++i) { gsub(/"/, "", $i); at[$i] = i } next }
  { gsub(/"/, "", $1); gsub(/search_whole_space\/|bytes:|differ:|dumps:/, "", $1); gsub(/\//, ", ", $1)
    printf "| %s | %.0f ms | %.1f s | %.0f | %s |\n", $1, $at["cpu_time"], $at["plain_s"],
      $at["times_faster"], $1 ~ /, 16,/ ? 300 : 50 }'
