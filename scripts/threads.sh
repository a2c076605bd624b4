#!/bin/sh
# threads.sh [FILES]: what works on several threads, under clang's ThreadSanitizer: the tests of the work
# shared out, then audits of so many files (2,000) with one job and with eight, whose words must agree, and
# audits that Ctrl-C cuts off at a hundred different moments. Any race fails. Takes some ten minutes, most
# of them to build.
set -eu
cd "$(dirname "$0")/.."
files=${1:-2000}
scripts/packages.sh build test fuzz
cmake --preset sanitize -B build/threads -DRTCMEND_SANITIZE=OFF -DRTCMEND_FUZZ=OFF \
  -DCMAKE_CXX_FLAGS=-fsanitize=thread -DBUILD_TESTING=ON > /dev/null
cmake --build build/threads --target rtcmend tests_base > /dev/null
export TSAN_OPTIONS=halt_on_error=1:exitcode=66
build/threads/tests/tests_base '[threads]'

work=$(mktemp -d)
trap 'rm -rf "$work"' EXIT
python3 - "$work/dumps" "$files" << 'END'
import os, random, sys, zipfile
folder, files = sys.argv[1], int(sys.argv[2])
dumps = [open(f"examples/machines/{name}", "rb").read() for name in sorted(os.listdir("examples/machines"))]
chance = random.Random(23)
os.makedirs(folder)
for i in range(files):
    dump = bytearray(chance.choice(dumps))
    if i % 3 == 0:
        dump[chance.randrange(len(dump))] ^= 1 << chance.randrange(7)
    open(f"{folder}/{i:05}", "wb").write(dump)
with zipfile.ZipFile(f"{folder}/all.zip", "w") as packed:
    for i in range(0, files, 10):
        packed.write(f"{folder}/{i:05}", f"{i}")
END

# audit JOBS: an audit that finds broken dumps ends with 1; a race with 66.
audit() {
  status=0
  build/threads/rtcmend audit --jobs "$1" "$work/dumps" > "$work/$1" 2> "$work/$1.said" || status=$?
  [ $status -le 1 ] || { cat "$work/$1.said"; echo "threads.sh: audit --jobs $1 ended with $status" >&2; exit 1; }
}
audit 1
audit 8
cmp "$work/1" "$work/8"
echo "$(wc -l < "$work/8") lines of an audit, the same by one thread and by eight"

began=$(date +%s%N)
audit 8
whole=$(( ($(date +%s%N) - began) / 1000000 ))
stopped=0
i=0
while [ $i -lt 100 ]; do
  status=0
  timeout --preserve-status -s INT "$(awk "BEGIN {print $whole * $i / 100 / 1000}")" \
    build/threads/rtcmend audit --jobs 8 "$work/dumps" > "$work/cut" 2> "$work/cut.said" || status=$?
  # 130: before it listened. Else it tells what it has until then, and that this is not all.
  case $status in
    0|1) ! grep -q "Stopped before the end" "$work/cut" || stopped=$((stopped + 1)) ;;
    130) ;;
    *) cat "$work/cut.said"; echo "threads.sh: cut off at $i of 100, the audit ended with $status" >&2; exit 1 ;;
  esac
  i=$((i + 1))
done
echo "$stopped of 100 audits told that they were stopped; no race in any"
