#!/usr/bin/env python3
"""report.py EXPORT: of llvm-cov's JSON export, the share of lines and branches reached, a folder a
line, then a blank line and every line and branch that is not reached."""
import collections
import json
import os
import sys

files = json.load(open(sys.argv[1]))["data"][0]["files"]
source = os.path.join(os.path.dirname(os.path.abspath(__file__)), "..", "..", "src", "")
source = os.path.normpath(source) + os.sep
sums = collections.defaultdict(lambda: [0, 0, 0, 0])
missed = []
for file in sorted(files, key=lambda file: file["filename"]):
    # A compiler that was given paths from the folder of the build names them so.
    path = os.path.normpath(file["filename"])
    if not path.startswith(source):
        continue
    name = "src/" + path[len(source):]
    lines = open(path).read().split("\n")
    summary = file["summary"]
    for key in (name.rsplit("/", 1)[0], "together"):
        for i, (what, which) in enumerate((("lines", "covered"), ("lines", "count"),
                                           ("branches", "covered"), ("branches", "count"))):
            sums[key][i] += summary[what][which]
    # A segment says how often what follows it ran; a line is missed when nothing on it ran.
    for line, column, count, counted, entry, gap in file["segments"]:
        if counted and entry and not gap and count == 0:
            missed.append(f"{name}:{line}: never    | {lines[line - 1].strip()}")
    # A branch of a template is listed once for each time it is made: reached once is reached.
    reached = collections.defaultdict(lambda: [0, 0])
    for line, column, _, _, true, false, *_ in file["branches"]:
        reached[line, column][0] += true
        reached[line, column][1] += false
    for (line, column), (true, false) in reached.items():
        if bool(true) != bool(false):
            way = "true" if false else "false"
            missed.append(f"{name}:{line}:{column}: never {way}    | {lines[line - 1].strip()}")

print("folder             lines            branches")
for name, (lines, of, branches, outof) in sums.items():
    print(f"{name:<14}{lines:>6} {100 * lines / max(of, 1):>6.1f} % {branches:>9} {100 * branches / max(outof, 1):>6.1f} %")
print()
print("\n".join(missed))
