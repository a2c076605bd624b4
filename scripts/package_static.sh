#!/bin/sh
# package_static.sh: builds the Linux program that needs no library at all, walks through the examples
# with it, and puts it into build/static/rtcmend-VERSION-linux-ARCHITECTURE.tar.gz with the page.
set -eu
cd "$(dirname "$0")/.."
scripts/packages.sh build package
scripts/page.sh --no-test > /dev/null
cmake -G Ninja -S . -B build/static -DCMAKE_BUILD_TYPE=Release -DBUILD_TESTING=OFF \
  -DRTCMEND_STATIC=ON > /dev/null
cmake --build build/static --target rtcmend
file build/static/rtcmend | grep -Eq 'static(ally|-pie) linked'
RTCMEND=build/static/rtcmend examples/walkthrough.sh > /dev/null

name=rtcmend-$(build/static/rtcmend --version | cut -d' ' -f2)-linux-$(uname -m)
rm -rf "build/static/$name"
mkdir "build/static/$name"
strip -o "build/static/$name/rtcmend" build/static/rtcmend
cp build/page/rtcmend.html README.md LICENSE CHANGELOG.md "build/static/$name"
[ "$("build/static/$name/rtcmend" page | head -n 1)" = "The workbench page is $PWD/build/static/$name/rtcmend.html" ]
# The same files make the same archive: sorted, nobody's, and as old as the last change.
tar --sort=name --owner=0 --group=0 --numeric-owner --mtime="@$(git log -1 --format=%ct)" \
  -C build/static -cf - "$name" | gzip -9n > "build/static/$name.tar.gz"
ls -l "build/static/$name.tar.gz"
