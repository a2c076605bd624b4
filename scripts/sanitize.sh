#!/bin/sh
# sanitize.sh [SECONDS]: the test suite with clang's address and undefined-behaviour sanitizers,
# then each target of fuzz/ for so many seconds (8), from the same build. The six longest counts are left
# out (CMakePresets.json): together they take as long as all else, and run without sanitizers anyway.
set -eu
cd "$(dirname "$0")/.."
scripts/packages.sh build test fuzz
cmake --preset sanitize > /dev/null
cmake --build --preset sanitize
ctest --preset sanitize -j 2
scripts/fuzz.sh "${1:-8}"
