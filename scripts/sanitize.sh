#!/bin/sh
# sanitize.sh [SECONDS]: the test suite with clang's address and undefined-behaviour sanitizers,
# then each target of fuzz/ for so many seconds (8), from the same build. What is tagged
# [count] is left out: it takes as long as all else, repeats the same code, and runs without sanitizers anyway.
set -eu
cd "$(dirname "$0")/.."
scripts/packages.sh build test fuzz
cmake --preset sanitize > /dev/null
cmake --build --preset sanitize
ctest --preset sanitize -j 2
scripts/fuzz.sh "${1:-8}"
