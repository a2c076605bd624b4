#!/bin/sh
# valgrind.sh [PATTERN]: the test suite of a release build under valgrind's memory checker, every
# rtcmend that a test starts too; any error or lost memory fails. Takes about an hour of one
# processor. PATTERN keeps to the test programs whose name begins so, such as tests_forms.
#
# Left out: the tests marked as long, which start emulators, kill or fault the program on purpose or
# run thousands of millions of steps, and those that limit what a process may do; the sanitizers run
# them all. Other programs that tests start are not looked into.
set -eu
cd "$(dirname "$0")/.."
scripts/packages.sh build test trust
# The checker watches memory through the shared library of C.
cmake --preset release -B build/valgrind -DBUILD_TESTING=ON -DRTCMEND_STATIC=OFF > /dev/null
cmake --build build/valgrind > /dev/null
others='*/qemu*,*/dosbox*,*/python*,*/pcbasic*,*/zsh,*/fish,*/bash,*/sh,*/xxd,*/hexdump,*/objcopy,*/srec_*,*/groff,*/troff,*/grotty,*/preconv'
failed=0
for program in build/valgrind/tests/tests_*; do
  [ -x "$program" ] && [ -f "$program" ] || continue
  name=${program##*/}
  case $name in ${1:-tests_}*) ;; *) continue ;; esac
  if valgrind --quiet --error-exitcode=99 --leak-check=full --show-leak-kinds=definite,indirect \
      --errors-for-leak-kinds=definite,indirect --trace-children=yes --trace-children-skip="$others" \
      "$program" '~[long]~[rlimit]~[.]' > "build/valgrind/$name.log" 2>&1; then
    echo "$name: $(tail -n 2 "build/valgrind/$name.log" | head -n 1)"
  else
    echo "$name: FAILED, see build/valgrind/$name.log"
    failed=1
  fi
done
exit $failed
