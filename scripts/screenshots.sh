#!/bin/sh
# Pictures of the workbench page and the bench sheet for the example workshop, as build/screenshots/*.png
# and *.pdf, narrow to wide, light and dark. Needs what scripts/page.sh makes.
set -eu
cd "$(dirname "$0")/.."
scripts/packages.sh page
mkdir -p build/screenshots
out=$PWD/build/screenshots
cd tests/page/browser
[ -d node_modules ] || npm ci --ignore-scripts --no-audit --no-fund --silent
node screenshots.mjs "$out"
