#!/bin/sh
# package_static.sh: builds the Linux program that needs no library at all, build/static/rtcmend, and
# walks through the examples with it.
set -eu
cd "$(dirname "$0")/.."
scripts/packages.sh build package
cmake -G Ninja -S . -B build/static -DCMAKE_BUILD_TYPE=Release -DBUILD_TESTING=OFF \
  -DRTCMEND_STATIC=ON > /dev/null
cmake --build build/static --target rtcmend
file build/static/rtcmend | grep -Eq 'static(ally|-pie) linked'
RTCMEND=build/static/rtcmend examples/walkthrough.sh > /dev/null
strip -o build/static/rtcmend-static build/static/rtcmend
ls -l build/static/rtcmend-static
