#!/bin/sh
# board-windows.sh: the Windows program of package_windows.sh under wine64, with the simulated board at
# its COM7: a pseudo-terminal. It writes a chip, and sees whether it holds.
set -eu
cd "$(dirname "$0")/.."
scripts/packages.sh build test windows board
[ -f build/windows/rtcmend.exe ] || scripts/package_windows.sh
cmake --preset release -DBUILD_TESTING=ON > /dev/null
cmake --build --preset release --target board_on_terminal rtcmend_firmware_made > /dev/null
board=$PWD/build/release/tests

wine=$(command -v wine64 || echo /usr/lib/wine/wine64)
bench=$(mktemp -d)
trap 'exec 9>&-; rm -rf "$bench"' EXIT
export WINEPREFIX="$bench/wine" WINEDEBUG=-all WINEARCH=win64
program=$PWD/build/windows/rtcmend.exe
cp examples/machines/bramble.bin "$bench"
cd "$bench"
"$wine" "$program" --version > /dev/null  # makes the prefix

mkfifo input
"$board/board_on_terminal" "$board/board_firmware.hex" < input > port 2> complaints &
exec 9> input
while [ ! -s port ]; do sleep 0.1; done
ln -sf "$(cat port)" "$WINEPREFIX/dosdevices/com7"

"$wine" "$program" board write bramble.bin -o before.bin --set-clock --port COM7
"$wine" "$program" board hold -o held.bin --off 2s --yes --port COM7
# RAM of the chip and RAM that was to be written.
cmp -i 14 -n 50 bramble.bin held.bin
status=0
"$wine" "$program" board read -o nothing.bin --port COM77 || status=$?
[ "$status" = 3 ]
exec 9>&-
wait
[ ! -s complaints ] || { cat complaints >&2; exit 1; }
echo "board-windows: fine"
