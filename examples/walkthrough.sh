#!/bin/sh
# The Tidewater Mending Room, an evening: five machines lie open on the bench, and rtcmend helps with
# each. Everything is written to a folder of its own that is gone afterwards; nothing here is changed.
# RTCMEND names the program (default: rtcmend on the PATH).
set -eu
here=$(cd "$(dirname "$0")" && pwd)
program=${RTCMEND:-rtcmend}
case $program in */*) program=$(cd "$(dirname "$program")" && pwd)/$(basename "$program") ;; esac
bench=$(mktemp -d)
trap 'rm -rf "$bench"' EXIT
cp "$here"/machines/* "$bench"
cp -R "$here"/retention "$here"/history "$bench"
cd "$bench"

say() { printf '\n# %s\n' "$@"; }

# run EXPECTED COMMAND...: shows the command, runs it, and stops the tour when it ends otherwise.
run() {
  expected=$1
  shift
  printf '\n$ rtcmend %s\n' "$*"
  status=0
  "$program" "$@" || status=$?
  [ "$status" = "$expected" ] && return
  echo "walkthrough: rtcmend $1 ended with $status where $expected was expected" >&2
  exit 1
}

say "Bramble starts as it should. Its dump goes into the folder: what does it say?"
run 0 show bramble.bin
run 0 verify bramble.bin
run 0 sheet bramble.bin --title Bramble -o bramble.html

say "Bramble's second floppy drive is taken out, so the setting follows; the sum is made right again."
run 0 amend bramble.bin --set floppy_b=none -o bramble-new.bin
run 1 compare bramble-new.bin bramble.bin --layout at

say "Clover has a newer part than its firmware knows: the upper half is noise, and stays as it is."
run 0 verify clover.bin
run 0 amend clover.bin --set floppy_b=none -o clover-new.bin
run 0 convert clover.bin --size 64 -o clover-64.bin
run 0 compare clover-64.bin clover.bin

say "Juniper's cell died years ago: the chip holds noise, and the program must not be fooled."
run 1 verify juniper.txt --layout at

say "Sorrel reads well, but one byte has fallen over since."
run 1 verify sorrel.hex --layout crc+slots-19
say "The extended memory should be 3072 KiB: put it right, and take the dump in the programmer's form."
run 0 amend sorrel.hex --layout crc+slots-19 --set extended_memory_kib=3072 -o sorrel-new.hex
run 0 verify sorrel-new.hex --layout crc+slots-19

say "Thistle was copied from the screen by hand. One row cannot be right, and its code tells which."
run 2 show thistle.txt
sed 's/01 F2 00/01 2F 00/' thistle.txt > thistle-again.txt
say "Looked at again: it was 2F."
run 0 verify thistle-again.txt

say "Yarrow has a new chip and no dump at all: describe what is fitted, and compose the image."
run 0 compose yarrow.json -o yarrow.bin
run 0 show yarrow.bin --map
run 0 convert yarrow.bin -o yarrow.hex --to intel-hex

say "Before Yarrow's old part is opened: how long will a new cell last, and how is it done?"
run 0 plan --part DS12887 --fitted 2031-05-14
say "The image was written, the power was off for half an hour, and the chip was read again."
run 0 compare retention/written.bin retention/after-30-minutes.bin --after-power-off 30m
run 1 compare retention/written.bin retention/few-bits.bin --after-power-off 30m
say "The clock, a minute ahead after thirty days, is just at a module's limit."
run 0 drift 2031-05-01T12:00 2031-05-31T12:01 --at 2031-05-01T12:00 --at 2031-05-31T12:00

say "Yarrow's new part goes into the socket of a small board first. Does it fit, and how is the board wired?"
run 0 board wiring --part DS12887 -o yarrow-wiring.html
run 1 board wiring --part DS12B887
if [ -n "${BOARD_ON_TERMINAL:-}" ]; then
  say "The part sits in its socket (a simulated one): what it holds is read and saved, then it is written. Does it hold?"
  # The simulated board says the name of its port, and goes when the other end of its input is closed.
  mkfifo board-input
  "$BOARD_ON_TERMINAL" "$BOARD_FIRMWARE" < board-input > board-port &
  board=$!
  exec 9> board-input
  while [ ! -s board-port ]; do sleep 0.1; done
  port=$(cat board-port)
  run 0 board write yarrow.bin -o yarrow-before.bin --set-clock --port "$port"
  run 0 board hold -o yarrow-held.bin --off 1s --yes --port "$port"
  exec 9>&-
  wait "$board"
  run 0 compare yarrow.bin yarrow-held.bin --layout at
else
  say "(Here it would be read, written and left without power. The simulated board is not at hand: it takes avr-gcc.)"
fi

say "Fennel was here before, twice. What changed, and which image to start from?"
run 1 history history/fennel

say "Six machines, six images that can be trusted. Next: rtcmend --help"
