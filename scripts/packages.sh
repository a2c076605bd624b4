#!/bin/sh
# packages.sh build|test|page...: installs the Debian packages that a job needs. Run as root, or with sudo at hand.
set -eu

build="g++ cmake ninja-build nasm libcli11-dev nlohmann-json3-dev libfmt-dev rapidjson-dev
  libarchive-dev zlib1g-dev libbz2-dev liblzma-dev libzstd-dev nettle-dev"
# What the tests hold rtcmend against: other programs that read and write the same bytes.
test="catch2 binutils groff-base srecord python3 xxd bsdextrautils json-schema-test-suite qemu-system-x86 dosbox python3-pcbasic zsh fish
  zbar-tools zxing-cpp-tools libqrcodegencpp-dev xvfb"
fuzz="clang lld libclang-rt-dev catch2 zsh fish"
opinion="gcc libc6-dev busybox-static cpio qemu-system-x86 python3"
trust="valgrind python3 python3-clang-14"
# What the benchmarks are written with and held against.
benchmarks="libbenchmark-dev libboost-dev valgrind xxd findutils"
package="dpkg-dev file debootstrap"
# The page and its browser tests. npm comes with some builds of node and by itself with Debian's.
page="nasm emscripten esbuild nlohmann-json3-dev libfmt-dev rapidjson-dev cmake ninja-build chromium fonts-dejavu-core"
command -v npm > /dev/null || page="$page npm"
# The bench board's firmware, and the simulation that its tests run it in.
board="gcc-avr avr-libc libsimavr-dev"
windows="g++-mingw-w64-x86-64-posix wine64 file xxd"

packages=""
for job in "$@"; do
  case $job in
    build) packages="$packages $build" ;;
    test) packages="$packages $test" ;;
    fuzz) packages="$packages $fuzz" ;;
    opinion) packages="$packages $opinion" ;;
    trust) packages="$packages $trust" ;;
    benchmarks) packages="$packages $benchmarks" ;;
    package) packages="$packages $package" ;;
    page) packages="$packages $page" ;;
    windows) packages="$packages $windows" ;;
    board) packages="$packages $board" ;;
    *) echo "packages.sh: unknown job '$job': build, test, fuzz, opinion, trust, benchmarks, package, page, windows or board" >&2; exit 2 ;;
  esac
done

missing=""
for package in $packages; do
  state=$(dpkg-query -W -f '${Status}' "$package" 2>/dev/null || true)
  [ "$state" = "install ok installed" ] || missing="$missing $package"
done
[ -n "$missing" ] || exit 0

root=""
[ "$(id -u)" = 0 ] || root=sudo
echo "Installing:$missing"
$root apt-get update -qq
# shellcheck disable=SC2086  # a list of words is meant
$root env DEBIAN_FRONTEND=noninteractive apt-get install -y -qq --no-install-recommends $missing
