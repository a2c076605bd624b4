#!/bin/sh
# Runs clang-tidy over src/ with the settings of .clang-tidy; any finding is an error.
set -eu
cd "$(dirname "$0")/.."
cmake --preset release > /dev/null
cmake --build --preset release --target rtcmend > /dev/null
git ls-files 'src/*.cpp' | xargs -P "$(nproc)" -n 4 clang-tidy -p build/release --quiet
