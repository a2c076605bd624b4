#!/bin/sh
# figures.sh [diagnosis] [suspects] [delivery] [plants]: prints the figures of docs/figures.md, all of them
# when nothing is named. Diagnosis takes a few minutes, the thousand plants of the solver half an
# hour. Speeds come from benchmarks/.
set -eu
cd "$(dirname "$0")/.."
[ $# -gt 0 ] || set -- diagnosis suspects delivery plants

scripts/packages.sh build test
cmake --preset release -DBUILD_TESTING=ON > /dev/null
cmake --build --preset release --target rtcmend tests_judge tests_repair tests_discover > /dev/null
for figures in "$@"; do
  case $figures in
    diagnosis) build/release/tests/tests_judge "[figures]" ;;
    suspects) build/release/tests/tests_repair "[suspects]" ;;
    delivery) build/release/rtcmend deliver --as list ;;
    plants) build/release/tests/tests_discover "[whole]" ;;
    *) echo "figures.sh: unknown figures '$figures': diagnosis, suspects, delivery or plants" >&2; exit 2 ;;
  esac
done
