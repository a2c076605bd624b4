#!/bin/sh
# coverage.sh: builds everything with gcc's counters, runs the whole test suite and reports which lines
# and branches of the core (src/ without the page) it reaches: a table here, each line in
# build/coverage/lines.txt and build/coverage/html/. Branches that only an exception takes are left out:
# the compiler makes one behind every call. docs/figures.md says what stays uncovered, and why.
set -eu
cd "$(dirname "$0")/.."
scripts/packages.sh build test trust
cmake -G Ninja -S . -B build/coverage -DCMAKE_BUILD_TYPE=Debug -DBUILD_TESTING=ON \
  -DCMAKE_CXX_FLAGS="--coverage -fprofile-abs-path -fprofile-update=atomic" > /dev/null
cmake --build build/coverage
find build/coverage -name '*.gcda' -delete
ctest --test-dir build/coverage -j 2 --output-on-failure | tail -n 4
mkdir -p build/coverage/html
gcovr -r . --object-directory build/coverage --filter 'src/' --exclude 'src/page/' --exclude '.*_windows\.cpp' \
  --exclude-throw-branches --exclude-unreachable-branches --print-summary -j 2 \
  --txt build/coverage/lines.txt --html-details build/coverage/html/index.html
# A folder a line: lines and branches reached.
gcovr -r . --object-directory build/coverage --filter 'src/' --exclude 'src/page/' --exclude '.*_windows\.cpp' \
  --exclude-throw-branches --exclude-unreachable-branches --json-summary-pretty |
  python3 -c '
import collections, json, sys
sums = collections.defaultdict(lambda: [0, 0, 0, 0])
for file in json.load(sys.stdin)["files"]:
    folder = "/".join(file["filename"].split("/")[:2])
    for name in (folder, "together"):
        for i, key in enumerate(("line_covered", "line_total", "branch_covered", "branch_total")):
            sums[name][i] += file[key]
print("folder           lines          branches")
for name, (lines, of, branches, outof) in sums.items():
    print(f"{name:<14}{lines:>6} {100 * lines / of:>5.1f} % {branches:>8} {100 * branches / max(outof, 1):>5.1f} %")
'
