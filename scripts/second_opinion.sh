#!/bin/sh
# second_opinion.sh [MACHINES]: composes that many random AT-class machines (50), writes each to the
# clock chip of an emulated PC, and lets a Linux kernel read it there. The kernel judges the checksum
# and names drives, memory, display and coprocessor by its own code (drivers/char/nvram.c); all must
# agree with `rtcmend show`. Needs the program in build/release (or RTCMEND); takes half a minute.
set -eu
cd "$(dirname "$0")/.."
machines=${1:-50}
scripts/packages.sh opinion
program=$(realpath "${RTCMEND:-build/release/rtcmend}")
here=$PWD/scripts/second_opinion
work=$(mktemp -d)
trap 'rm -rf "$work"' EXIT
cd "$work"

echo "Fetching a kernel ..."
kernel=$(apt-cache depends linux-image-amd64 | awk '/Depends: linux-image/ {print $2; exit}')
apt-get download -qq "$kernel" 2> /dev/null
dpkg-deb -x linux-image-*.deb kernel

echo "Composing $machines machines ..."
mkdir -p root/images root/bin root/proc root/dev root/sys
python3 "$here/machines.py" compose "$machines" "$program" root/images
gcc -O1 -static -o root/bin/poke "$here/poke.c"
cp /bin/busybox root/bin/
cp kernel/lib/modules/*/kernel/drivers/char/nvram.ko root/
cp "$here/init" root/init
chmod +x root/init
(cd root && find . | cpio -o -H newc --quiet | gzip -1) > initramfs

echo "Booting ..."
timeout 300 qemu-system-x86_64 -M pc -m 256 -display none -no-reboot -serial file:said \
  -kernel kernel/boot/vmlinuz-* -initrd initramfs \
  -append "console=ttyS0 quiet panic=-1" -rtc base=2031-05-14T09:30:00 || {
  echo "second_opinion.sh: the emulated machine did not come to its end; it said last:" >&2
  tail -n 5 said >&2
  exit 1
}
python3 "$here/machines.py" compare "$machines" "$program" root/images said
