#!/bin/sh
# format.sh: lays out every C++ file; format.sh --check: only says which ones are not.
set -eu
cd "$(dirname "$0")/.."
files=$(git ls-files 'src/*.cpp' 'src/*.h' 'tests/*.cpp' 'tests/*.h' 'benchmarks/*.cpp' 'fuzz/*.cpp' 'fuzz/*.h')
if [ "${1:-}" = --check ]; then
  clang-format --dry-run --Werror $files
else
  clang-format -i $files
fi
