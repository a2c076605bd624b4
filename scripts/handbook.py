#!/usr/bin/env python3
"""handbook.py PROGRAM [--write] [PAGE ...]: runs every command that the handbook shows.

In a block that begins with ```console, a line beginning with "$ " is a command, and what follows it
up to the next one is what it printed. Each page runs in a copy of examples/ of its own, from its
first command to its last. A difference is an error; with --write the page gets the real output.
"""
import difflib
import os
import pathlib
import re
import shutil
import subprocess
import sys
import tempfile

ROOT = pathlib.Path(__file__).resolve().parent.parent
TIMEOUT_SECONDS = 60


def run(command, folder, program):
    """What a reader would see: standard output and errors, in the order they came."""
    environment = {"PATH": f"{program.parent}:/usr/local/bin:/usr/bin:/bin", "HOME": str(folder), "RTCMEND_LAYOUTS": "my-layouts",
                   "LC_ALL": "C.UTF-8", "TZ": "UTC", "NO_COLOR": "1"}
    done = subprocess.run(["sh", "-c", command], cwd=folder, env=environment,
                          stdin=subprocess.DEVNULL, stdout=subprocess.PIPE,
                          stderr=subprocess.STDOUT, timeout=TIMEOUT_SECONDS, check=False)
    return done.stdout.decode("utf-8", "replace").replace("\r\n", "\n")


def with_real_output(page, program):
    """The page's text with what its commands print now, and how many commands it shows."""
    lines, inside, shown, copying = [], False, 0, True
    with tempfile.TemporaryDirectory() as scratch:
        folder = pathlib.Path(scratch) / "examples"
        shutil.copytree(ROOT / "examples", folder)
        for line in page.read_text().splitlines():
            if line.startswith("```"):
                inside, copying = line == "```console", True
            elif inside and line.startswith("$ "):
                lines.append(line)
                lines += run(line[2:], folder, program).rstrip("\n").split("\n")
                if lines[-1] == "":
                    lines.pop()
                shown, copying = shown + 1, False
                continue
            if copying:
                lines.append(line)
    return "\n".join(lines) + "\n", shown


def missing_commands(program):
    """Commands of the program that the reference has no section for."""
    reference = (ROOT / "docs/handbook/09-commands.md").read_text()
    listed = run("rtcmend help", ROOT, program).split("Commands (")[1]
    names = re.findall(r"^  ([a-z]+) ", listed, re.MULTILINE)
    return [name for name in names if f"\n## {name}\n" not in reference]


def main(arguments):
    write = "--write" in arguments
    words = [word for word in arguments if word != "--write"]
    if not words:
        sys.exit(__doc__)
    program = pathlib.Path(os.path.abspath(words[0]))
    pages = [pathlib.Path(word) for word in words[1:]] or sorted((ROOT / "docs/handbook").glob("*.md"))
    total = stale = 0
    for page in pages:
        real, shown = with_real_output(page, program)
        total += shown
        told = page.read_text()
        if real == told:
            continue
        stale += 1
        if write:
            page.write_text(real)
        sys.stdout.writelines(difflib.unified_diff(told.splitlines(True), real.splitlines(True),
                                                   str(page), "as it is now"))
    missing = missing_commands(program)
    for name in missing:
        print(f"handbook: docs/handbook/09-commands.md has no section \"## {name}\"")
    print(f"handbook: {total} commands on {len(pages)} pages run, {stale} pages "
          f"{'brought up to date' if write else 'stale'}")
    if (stale and not write) or missing or total == 0:
        sys.exit("handbook: scripts/handbook.py PROGRAM --write puts the real output in")


if __name__ == "__main__":
    main(sys.argv[1:])
