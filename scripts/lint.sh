#!/bin/sh
# Runs clang-tidy over src/ with the settings of .clang-tidy; any finding is an error. What only
# Emscripten or a compiler for Windows can read is left out. Takes some twenty minutes of two cores.
set -eu
cd "$(dirname "$0")/.."
cmake --preset release > /dev/null
cmake --build --preset release --target rtcmend > /dev/null
git ls-files 'src/*.cpp' | grep -v -e _windows.cpp -e page/bindings.cpp | xargs -P "$(nproc)" -n 4 clang-tidy -p build/release --quiet
