#!/bin/sh
# coverage.sh: builds everything with clang's counters and sanitizers, runs the whole test suite and
# says which share of the lines and branches of the core (src/ without the page) it reaches, a line a
# folder; what it does not reach stands in build/coverage/missed.txt. docs/figures.md says why.
set -eu
cd "$(dirname "$0")/.."
scripts/packages.sh build test fuzz
cmake --preset sanitize -B build/coverage \
  -DCMAKE_CXX_FLAGS="-fprofile-instr-generate -fcoverage-mapping" > /dev/null
cmake --build build/coverage
rm -rf build/coverage/counts
# A pool of files: each process that ends adds its counts to one of them. Where every call of a program
# is made to fail in turn, writing the counts would be among them, so those tests stay out.
LLVM_PROFILE_FILE=$PWD/build/coverage/counts/%4m.profraw ctest --test-dir build/coverage -j 2 \
  --output-on-failure -E "call fails|same holds" | tail -n 30
tools=$(dirname "$(readlink -f "$(command -v clang++)")")
"$tools/llvm-profdata" merge -sparse build/coverage/counts/*.profraw -o build/coverage/counts.profdata

objects=""
for program in build/coverage/rtcmend build/coverage/tests/tests_*; do
  if [ -f "$program" ] && [ -x "$program" ]; then objects="$objects -object $program"; fi
done
# shellcheck disable=SC2086  # a list of words is meant
"$tools/llvm-cov" export -instr-profile build/coverage/counts.profdata $objects \
  -ignore-filename-regex='(tests|fuzz|page)/|^/usr/' > build/coverage/counts.json
python3 scripts/coverage/report.py build/coverage/counts.json > build/coverage/report.txt
sed '/^$/,$d' build/coverage/report.txt
sed '1,/^$/d' build/coverage/report.txt > build/coverage/missed.txt
