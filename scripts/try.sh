#!/bin/sh
# Installs what rtcmend needs, builds it and walks through the example workshop.
set -eu
cd "$(dirname "$0")/.."
scripts/packages.sh build
cmake --preset release -DBUILD_TESTING=OFF > /dev/null
cmake --build --preset release --target rtcmend
RTCMEND=build/release/rtcmend examples/walkthrough.sh
