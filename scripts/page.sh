#!/bin/sh
# Builds the workbench page, build/page/rtcmend.html, and drives it in a browser (--no-test leaves the
# driving out). The program itself is needed beside it, for the same steps on the command line:
# RTCMEND names it (default: build/release/rtcmend, which scripts/test.sh makes).
set -eu
cd "$(dirname "$0")/.."
scripts/packages.sh page

# Debian keeps the modules of Emscripten's optimiser where node does not look by itself.
export NODE_PATH=/usr/share/nodejs
cmake --preset page > /dev/null
cmake --build --preset page
ls -l build/page/rtcmend.html
[ "${1:-}" != --no-test ] || exit 0

program=${RTCMEND:-build/release/rtcmend}
case $program in /*) ;; *) program=$PWD/$program ;; esac
[ -x "$program" ] || { echo "page.sh: no program at $program; scripts/test.sh makes it" >&2; exit 2; }
cd tests/page/browser
npm ci --ignore-scripts --no-audit --no-fund --silent
RTCMEND=$program RTCMEND_HTML=$PWD/../../../build/page/rtcmend.html node --test
