#!/bin/sh
# Builds the workbench page, build/page/rtcmend.html, and drives page and bench sheet in a browser
# (--no-test leaves the driving out). The program is built beside it: it packs the layouts for the
# page, and is held against the page in the tests.
set -eu
cd "$(dirname "$0")/.."
scripts/packages.sh build page

[ -f build/release/CMakeCache.txt ] || cmake --preset release -DBUILD_TESTING=OFF > /dev/null
cmake --build --preset release --target rtcmend
# Debian keeps the modules of Emscripten's optimiser where node does not look by itself.
export NODE_PATH=/usr/share/nodejs
cmake --preset page > /dev/null
cmake --build --preset page
# Beside the program, where `rtcmend page` finds it.
cp build/page/rtcmend.html build/release/rtcmend.html
ls -l build/page/rtcmend.html
[ "${1:-}" != --no-test ] || exit 0

cd tests/page/browser
npm ci --ignore-scripts --no-audit --no-fund --silent
node --test
