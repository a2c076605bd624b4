#!/bin/sh
# Pictures of the workbench page and the bench sheet for the example workshop, as build/screenshots/*.png,
# narrow to wide, light and dark. Needs what scripts/page.sh makes.
set -eu
cd "$(dirname "$0")/.."
scripts/packages.sh page
program=${RTCMEND:-build/release/rtcmend}
case $program in /*) ;; *) program=$PWD/$program ;; esac
mkdir -p build/screenshots
out=$PWD/build/screenshots
html=$PWD/build/page/rtcmend.html
cd tests/page/browser
[ -d node_modules ] || npm ci --ignore-scripts --no-audit --no-fund --silent
RTCMEND=$program RTCMEND_HTML=$html node screenshots.mjs "$out"
