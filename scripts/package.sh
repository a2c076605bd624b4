#!/bin/sh
# package.sh: makes the Debian package, build/package/rtcmend_VERSION_ARCHITECTURE.deb.
set -eu
cd "$(dirname "$0")/.."
scripts/packages.sh build package
cmake -G Ninja -S . -B build/package -DCMAKE_BUILD_TYPE=Release -DBUILD_TESTING=OFF \
  -DCMAKE_INSTALL_PREFIX=/usr -DRTCMEND_STATIC=OFF > /dev/null
cmake --build build/package
(cd build/package && cpack -G DEB > cpack.log || { cat cpack.log >&2; exit 1; })
ls build/package/rtcmend_*.deb
