#!/bin/sh
# figures.sh [diagnosis] [suspects] [delivery] [plants] [discovery] [board] [phone]: prints the figures of docs/figures.md,
# all of them when nothing is named. Diagnosis takes a few minutes, suspects a quarter of an hour, the
# thousand plants of the solver half an hour, discovery one hour, the board some minutes, phone one. Speeds come from benchmarks/.
set -eu
cd "$(dirname "$0")/.."
[ $# -gt 0 ] || set -- diagnosis suspects delivery plants discovery board phone

scripts/packages.sh build test
case " $* " in *" board "*) scripts/packages.sh board ;; esac
cmake --preset release -DBUILD_TESTING=ON > /dev/null
cmake --build --preset release --target rtcmend tests_judge tests_repair tests_discover > /dev/null
for figures in "$@"; do
  case $figures in
    diagnosis) build/release/tests/tests_judge "[figures]" ;;
    suspects) build/release/tests/tests_repair "[suspects]" ;;
    delivery) build/release/rtcmend deliver --list ;;
    plants) build/release/tests/tests_discover "[whole]" ;;
    discovery) build/release/tests/tests_discover "discovery*[figures]" ;;
    board)
      cmake --build --preset release --target tests_firmware > /dev/null
      build/release/tests/tests_firmware "[figures]" ;;
    phone)
      cmake --build --preset release --target tests_qr tests_deliver > /dev/null
      build/release/tests/tests_qr "[figures]"
      build/release/tests/tests_deliver "[figures]" ;;
    *) echo "figures.sh: unknown figures '$figures': diagnosis, suspects, delivery, plants, discovery, board or phone" >&2; exit 2 ;;
  esac
done
