#!/bin/sh
# release.sh [FOLDER]: makes everything that a release has, tries each, and puts it into one folder
# (build/release-VERSION): the Debian package, the program for Linux that needs no library, the one for
# Windows, the workbench page, the bench board's firmware, notes of what changed, and checksums over all
# of them. Run as root.
set -eu
cd "$(dirname "$0")/.."
scripts/packages.sh board
scripts/page.sh
scripts/package.sh
scripts/package_check.sh
scripts/package_static.sh
scripts/package_windows.sh

version=$(build/release/rtcmend --version | cut -d' ' -f2)
folder=${1:-build/release-$version}
if [ -e "$folder" ]; then
  echo "release.sh: $folder is there already; name another, or take it away" >&2
  exit 2
fi
mkdir -p "$folder"
cp build/package/rtcmend_"$version"_*.deb build/static/rtcmend-"$version"-linux-*.tar.gz \
  build/windows/rtcmend-"$version"-windows-x86_64.zip "$folder"
cp build/page/rtcmend.html "$folder/rtcmend-$version.html"
build/release/rtcmend board firmware -o "$folder/rtcmend-$version-board.hex" > /dev/null
# The part of the changes that is about this version, without its heading.
awk -v version="$version" '/^## / { inside = $2 == version; next } inside' CHANGELOG.md > "$folder/NOTES.md"
grep -q . "$folder/NOTES.md"
(cd "$folder" && sha256sum -- * > SHA256SUMS && sha256sum --check --quiet SHA256SUMS)
ls -l "$folder"
