#!/bin/sh
# package_windows.sh: builds build/windows/rtcmend.exe with mingw-w64, and tries it under wine64: what
# it writes must be, byte for byte, what the commands below are known to write. Then it goes into
# build/windows/rtcmend-VERSION-windows-x86_64.zip with the page.
set -eu
cd "$(dirname "$0")/.."
scripts/packages.sh build windows
scripts/page.sh --no-test > /dev/null
cmake -G Ninja -S . -B build/windows -DCMAKE_BUILD_TYPE=Release -DBUILD_TESTING=OFF \
  -DCMAKE_TOOLCHAIN_FILE="$PWD/cmake/mingw-w64.cmake" \
  -DRTCMEND_PACKED_LAYOUTS="$PWD/build/release/src/packed_layouts.cpp" > /dev/null
cmake --build build/windows --target rtcmend
file build/windows/rtcmend.exe | grep -q 'PE32+ executable (console) x86-64'

wine=$(command -v wine64 || echo /usr/lib/wine/wine64)
bench=$(mktemp -d)
trap 'rm -rf "$bench"' EXIT
export WINEPREFIX="$bench/wine" WINEDEBUG=-all WINEARCH=win64
program=$PWD/build/windows/rtcmend.exe
folder=$PWD/build/windows
version=$(build/release/rtcmend --version | cut -d' ' -f2)
cp build/page/rtcmend.html build/windows/
cp -R examples/. "$bench"
cd "$bench"

# run EXPECTED COMMAND...: stops when it ends otherwise.
run() {
  expected=$1
  shift
  status=0
  "$wine" "$program" "$@" > out.txt 2> err.txt || status=$?
  [ "$status" = "$expected" ] && return
  cat out.txt err.txt >&2
  echo "package_windows: rtcmend $* ended with $status where $expected was expected" >&2
  exit 1
}
# says WORDS: the last run printed them.
says() { grep -q -- "$1" out.txt err.txt || { cat out.txt err.txt >&2; echo "package_windows: not said: $1" >&2; exit 1; }; }

run 0 --version
says '^rtcmend [0-9.]*$'
run 0 show machines/bramble.bin
says 'verdict *Sound: '
run 1 verify machines/sorrel.hex --layout crc+slots-19
says 'FAILS'
run 2 show machines/thistle.txt
says 'the likely slip: 2F at 19h was read as F2'
run 0 compose machines/yarrow.json -o yarrow.bin
# 0267h at 2Eh: 40h + F0h + 0Dh + 80h + 02h + 80h + 01h + 27h (RBIL61 CMOS 2Eh).
[ "$(xxd -s 46 -l 2 -p yarrow.bin)" = 0267 ]
[ "$(stat -c %s yarrow.bin)" = 64 ]
cp yarrow.bin kept.bin
run 2 compose machines/yarrow.json -o yarrow.bin
run 2 amend machines/bramble.bin --set floppy_b=none -o yarrow.bin
says 'it exists already'
run 2 seal yarrow.bin -o yarrow.bin --force
says 'an input is never written over'
run 3 seal yarrow.bin -o nowhere/yarrow.bin
says 'cannot write in its folder'
cmp yarrow.bin kept.bin
run 0 compose machines/yarrow.json -o yarrow.bin --force
# No second floppy: 24h becomes 20h at 10h, 4Dh becomes 0Dh at 14h, and the sum 08B6h less 44h.
run 0 amend machines/bramble.bin --set floppy_b=none -o amended.bin
[ "$(xxd -s 16 -l 5 -p amended.bin)" = 2000f0000d ]
[ "$(xxd -s 46 -l 2 -p amended.bin)" = 0872 ]
# 36h becomes 41h at 20h: the sum and 0Bh.
cp amended.bin spoiled.bin
printf '\101' | dd of=spoiled.bin bs=1 seek=32 conv=notrunc 2> /dev/null
run 1 verify spoiled.bin
run 0 seal spoiled.bin -o sealed.bin
[ "$(xxd -s 46 -l 2 -p sealed.bin)" = 087d ]
run 0 verify sealed.bin
run 0 deliver yarrow.bin --as boot-floppy -o mend.img
[ "$(stat -c %s mend.img)" = 1474560 ]
run 1 compare retention/written.bin retention/few-bits.bin --after-power-off 30m
says '33h bit 2'
run 1 history history/fennel
says 'Last good image: 2030-11-20.bin'
run 0 drift 2031-05-01T12:00 --at 2031-05-01T12:00 --log clock.log
run 0 drift 2031-05-31T12:01 --at 2031-05-31T12:00 --log clock.log
says '+23.1 ppm'
[ "$(wc -l < clock.log)" = 2 ]
run 0 plan --fitted 2031-05-14
says 'Expected life: 10.0 years'
run 0 audit machines/bramble.bin
run 0 sheet machines/bramble.bin -o bramble.html
grep -q '<title>' bramble.html
"$wine" "$program" convert - --to hex -o - < yarrow.bin > hex.txt 2> /dev/null
grep -q '40 00 F0 00 0D 80' hex.txt
run 0 page machines/bramble.bin -o page.html
grep -q '"name":"bramble.bin"' page.html
[ -z "$(find . -name '*rtcmend-*' -not -path './wine/*')" ]
"$(dirname "$wine")"/wineserver64 -k 2> /dev/null || true
echo "package_windows: $program works under wine64"

name=rtcmend-$version-windows-x86_64
rm -rf "$folder/$name" "$folder/$name.zip"
mkdir "$folder/$name"
cd "$OLDPWD"
x86_64-w64-mingw32-strip -o "$folder/$name/rtcmend.exe" "$program"
cp build/page/rtcmend.html README.md LICENSE CHANGELOG.md "$folder/$name"
changed=$(TZ=UTC git log -1 --date=format-local:'%Y-%m-%d %H:%M:%S UTC' --format=%cd)
(cd "$folder" && cmake -E tar cf "$name.zip" --format=zip --mtime="$changed" "$name")
ls -l "$folder/$name.zip"
