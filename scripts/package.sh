#!/bin/sh
# package.sh: makes the Debian package, build/package/rtcmend_VERSION_ARCHITECTURE.deb, with the page.
set -eu
cd "$(dirname "$0")/.."
scripts/packages.sh build package
scripts/page.sh --no-test > /dev/null
cmake -G Ninja -S . -B build/package -DCMAKE_BUILD_TYPE=Release -DBUILD_TESTING=OFF \
  -DCMAKE_INSTALL_PREFIX=/usr -DRTCMEND_STATIC=OFF -DRTCMEND_PAGE_FILE="$PWD/build/page/rtcmend.html" > /dev/null
cmake --build build/package
(cd build/package && cpack -G DEB > cpack.log || { cat cpack.log >&2; exit 1; })
ls build/package/rtcmend_*.deb
