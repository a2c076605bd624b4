#!/bin/sh
# package_check.sh [DEB]: installs the package with apt in a bare Debian of this machine's release,
# walks through the examples with it, removes it, and looks for what stayed behind. Run as root.
# RTCMEND_BARE names a bare Debian that debootstrap made before; it is copied, and stays bare.
set -eu
cd "$(dirname "$0")/.."
scripts/packages.sh package
deb=${1:-$(ls build/package/rtcmend_*.deb)}
release=$(. /etc/os-release && echo "$VERSION_CODENAME")
mirror=$(sed -n 's/^URIs: *//p; s/^deb \(\[[^]]*\] \)\{0,1\}\([^ ]*\) .*/\2/p' \
  /etc/apt/sources.list /etc/apt/sources.list.d/* 2>/dev/null | head -n 1)
# The log lies in a folder that nobody else may write in, not beside one whose name all can see.
work=$(mktemp -d)
room=$work/room
mkdir "$room"
trap 'rm -rf "$work"' EXIT

if [ -n "${RTCMEND_BARE:-}" ]; then
  cp -a "$RTCMEND_BARE/." "$room"
else
  debootstrap --variant=minbase "$release" "$room" "$mirror" > "$work/log" || { cat "$work/log" >&2; exit 1; }
fi
cp -a /etc/apt/apt.conf.d/. "$room/etc/apt/apt.conf.d/"
inside() { chroot "$room" env DEBIAN_FRONTEND=noninteractive HOME=/root LC_ALL=C "$@"; }
files() { (cd "$room" && find . -xdev \( -path ./proc -o -path ./var/lib/apt -o -path ./var/cache \
  -o -path ./var/log -o -path ./var/lib/dpkg -o -path ./tmp \) -prune -o -print | sort); }

inside apt-get update -qq
# Its libraries are a Debian's own matter: they come first, so that what the package leaves shows.
cp "$deb" "$room/tmp/rtcmend.deb"
inside apt-get install -qq -y --no-install-recommends libstdc++6 \
  $(dpkg-deb -f "$deb" Depends | sed 's/([^)]*)//g; s/,/ /g') > /dev/null
files > "$room/tmp/before"
inside apt-get install -qq -y --no-install-recommends /tmp/rtcmend.deb > /dev/null
inside rtcmend --version
inside sh /usr/share/doc/rtcmend/examples/walkthrough.sh > /dev/null
echo "walkthrough: went through in the bare system"
# A browser that only tells which file it was to show.
printf '#!/bin/sh\necho "$1" > /tmp/shown\n' > "$room/tmp/browser"
chmod +x "$room/tmp/browser"
inside env BROWSER=/tmp/browser rtcmend page --open
[ "$(cat "$room/tmp/shown")" = /usr/share/rtcmend/rtcmend.html ]
grep -q 'id="core-bytes">.' "$room/usr/share/rtcmend/rtcmend.html"
inside env BROWSER=/tmp/browser rtcmend page /usr/share/doc/rtcmend/examples/machines/bramble.bin -o /tmp/bench.html --open
[ "$(cat "$room/tmp/shown")" = /tmp/bench.html ]
inside apt-get purge -qq -y rtcmend > /dev/null
files > "$room/tmp/after"
diff "$room/tmp/before" "$room/tmp/after" || { echo "package_check: the package left these behind" >&2; exit 1; }
if inside dpkg-query -W rtcmend 2> /dev/null; then
  echo "package_check: dpkg still knows it" >&2
  exit 1
fi
echo "removed without a trace"
