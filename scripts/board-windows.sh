#!/bin/sh
# board-windows.sh: the Windows program of package_windows.sh under wine64, with the simulated board at
# its COM12 and COM1: a pseudo-terminal. It writes a chip, sees whether it holds, watches its clock,
# finds the port by itself, and names a port that is not there.
#
# What this cannot try, because wine's serial ports are this computer's terminals and a terminal that
# is no real port has neither lines nor a cable: that opening the port resets the board (DTR), that a
# port in use is refused (wine lets two programs have it), that a cable is pulled, and Windows' own
# drivers for USB bridges. The words for these are tested with made-up errors or not at all.
set -eu
cd "$(dirname "$0")/.."
scripts/packages.sh build test windows board
[ -f build/windows/rtcmend.exe ] || scripts/package_windows.sh
cmake --preset release -DBUILD_TESTING=ON > /dev/null
cmake --build --preset release --target board_on_terminal rtcmend_firmware_made > /dev/null
board=$PWD/build/release/tests

wine=$(command -v wine64 || echo /usr/lib/wine/wine64)
bench=$(mktemp -d)
leave() {
  exec 9>&-
  "$(dirname "$wine")"/wineserver64 -k 2> /dev/null || true
  rm -rf "$bench"
}
trap leave EXIT
export WINEPREFIX="$bench/wine" WINEDEBUG=-all WINEARCH=win64
program=$PWD/build/windows/rtcmend.exe
cp examples/machines/bramble.bin "$bench"
cd "$bench"
"$wine" "$program" --version > /dev/null 2>&1  # makes the prefix

mkfifo input
"$board/board_on_terminal" "$board/board_firmware.hex" < input > port 2> complaints &
simulated=$!
exec 9> input
while [ ! -s port ]; do sleep 0.1; done

# link NAME: the board is at this port of wine's. From COM10 on another way of writing is needed.
link() { ln -sf "$(cat port)" "$WINEPREFIX/dosdevices/$1"; }
# run EXPECTED WORDS COMMAND...: it ends so, and says that.
run() {
  expected=$1 words=$2
  shift 2
  status=0
  "$wine" "$program" board "$@" > said 2>&1 || status=$?
  [ "$status" = "$expected" ] && grep -q -- "$words" said && return
  cat said >&2
  echo "board-windows: board $* ended with $status; $expected and \"$words\" were expected" >&2
  exit 1
}

link com12
run 0 'Equal in everything that matters' write bramble.bin -o before.bin --set-clock --port COM12
run 0 'Kept: every byte that matters' hold -o held.bin --off 2s --yes --port COM12
# RAM of the chip and RAM that was to be written.
cmp -i 14 -n 50 bramble.bin held.bin
run 0 'give or take' clock --for 12s --port COM12
run 3 'there is no such port' read -o nothing.bin --port COM77
[ ! -e nothing.bin ]
link com1
run 0 'Read 128 bytes' read -o found.bin
cmp -i 14 held.bin found.bin
exec 9>&-
wait "$simulated"
[ ! -s complaints ] || { cat complaints >&2; exit 1; }
echo "board-windows: fine"
