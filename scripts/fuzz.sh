#!/bin/sh
# fuzz.sh [SECONDS [TARGET...]]: builds the targets of fuzz/ with clang's libFuzzer and sanitizers and
# runs each, or those named, for so many seconds (8: a minute in all, two at a time). What a target finds lands in
# fuzz/corpus/NAME/found-*: keep it there once it is mended, and every test run replays it. Prints
# executions, coverage and time for docs/figures.md.
set -eu
cd "$(dirname "$0")/.."
seconds=${1:-8}
[ $# = 0 ] || shift
scripts/packages.sh build fuzz
cmake --preset sanitize > /dev/null
if [ $# -gt 0 ]; then
  # shellcheck disable=SC2046  # a list of words is meant
  cmake --build --preset sanitize --target $(printf 'fuzz_%s ' "$@")
else
  cmake --build --preset sanitize --target fuzz_targets
  # shellcheck disable=SC2046
  set -- $(cd build/sanitize/fuzz && ls -d fuzz_* | sed s/fuzz_//)
fi
work=$(mktemp -d)
trap 'rm -rf "$work"' EXIT
export ASAN_OPTIONS=detect_leaks=0:allocator_may_return_null=1

run_one() {
  target=$1
  case $target in
    layout_file|layout_parts|description|session|drift_log|form_json|command_line) words=json ;;
    *) words=text ;;
  esac
  # What programs print is the best beginning for those that read listings.
  case $target in
    form_hex|detection) more=tests/forms/listings ;;
    *) more= ;;
  esac
  mkdir -p "$work/$target"
  if ! build/sanitize/fuzz/fuzz_"$target" -max_total_time="$seconds" -max_len=8192 -timeout=25 -report_slow_units=25 \
      -rss_limit_mb=2048 -print_final_stats=1 -dict=fuzz/dictionaries/$words.dict \
      -artifact_prefix=fuzz/corpus/"$target"/found- \
      "$work/$target" fuzz/corpus/"$target" $more > "$work/$target.log" 2>&1; then
    tail -n 40 "$work/$target.log"
    echo "fuzz.sh: $target found something; see fuzz/corpus/$target" >&2
    return 1
  fi
  runs=$(awk '/stat::number_of_executed_units/ {print $2}' "$work/$target.log")
  edges=$(awk '{for (i = 1; i < NF; i++) if ($i == "cov:") seen = $(i + 1)} END {print seen}' "$work/$target.log")
  printf '%-16s %10d %8d %6d s\n' "$target" "$runs" "$edges" "$seconds"
  echo "$runs" >> "$work/total"
}

printf '%-16s %10s %8s %8s\n' target executions edges time
# Two at a time.
before=
for target in "$@"; do
  run_one "$target" &
  this=$!
  [ -z "$before" ] || wait "$before"
  before=$this
done
wait "$before"
awk '{total += $1} END {printf "%-16s %10d\n", "together", total}' "$work/total"
