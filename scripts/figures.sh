#!/bin/sh
# figures.sh [diagnosis] [delivery] [plants] [discovery]: prints the figures of docs/figures.md, all
# of them when nothing is named. Diagnosis takes a few minutes, the thousand plants of the solver half an
# hour, discovery one hour. Speeds come from benchmarks/.
set -eu
cd "$(dirname "$0")/.."
[ $# -gt 0 ] || set -- diagnosis delivery plants discovery

scripts/packages.sh build test
cmake --preset release -DBUILD_TESTING=ON > /dev/null
cmake --build --preset release --target rtcmend tests_judge tests_discover > /dev/null
for figures in "$@"; do
  case $figures in
    diagnosis) build/release/tests/tests_judge "[figures]" ;;
    delivery) build/release/rtcmend deliver --as list ;;
    plants) build/release/tests/tests_discover "[whole]" ;;
    discovery) build/release/tests/tests_discover "discovery*[figures]" ;;
    *) echo "figures.sh: unknown figures '$figures': diagnosis, delivery, plants or discovery" >&2; exit 2 ;;
  esac
done
