#!/bin/sh
# Installs what the tests need, builds everything and runs them.
set -eu
cd "$(dirname "$0")/.."
scripts/packages.sh build test
cmake --preset release -DBUILD_TESTING=ON > /dev/null
cmake --build --preset release
ctest --preset release -j 2
