#!/bin/sh
# valgrind.sh [PATTERN]: the test suite of a release build under valgrind's memory checker, every
# process that a test starts too; any error or lost memory fails. Takes about an hour. PATTERN keeps to
# the test programs whose name fits, such as tests_forms.
#
# Left out: tests that time out there because they run thousands of millions of steps, and those that
# kill or fault the program on purpose.
set -eu
cd "$(dirname "$0")/.."
scripts/packages.sh build test trust
cmake --preset release -DBUILD_TESTING=ON > /dev/null
cmake --build --preset release > /dev/null
failed=0
for program in build/release/tests/tests_*; do
  [ -x "$program" ] && [ -f "$program" ] || continue
  name=${program##*/}
  case $name in ${1:-tests_}*) ;; *) continue ;; esac
  if valgrind --quiet --error-exitcode=99 --leak-check=full --show-leak-kinds=definite,indirect \
      --errors-for-leak-kinds=definite,indirect "$program" '~[long]' > "build/valgrind_$name.log" 2>&1; then
    echo "$name: $(tail -n 2 "build/valgrind_$name.log" | head -n 1)"
  else
    echo "$name: FAILED, see build/valgrind_$name.log"
    failed=1
  fi
done
exit $failed
