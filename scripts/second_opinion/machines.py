#!/usr/bin/env python3
"""Random AT-class machines, and what a kernel says of them against what rtcmend says.

machines.py compose COUNT RTCMEND FOLDER
machines.py compare COUNT RTCMEND FOLDER SAID
"""
import json
import random
import re
import subprocess
import sys

# The names that the driver prints (Linux, drivers/char/nvram.c), and ours.
FLOPPIES = {"none": "none", "5.25'' 360k": "360K", "5.25'' 1.2M": "1.2M", "3.5'' 720k": "720K",
            "3.5'' 1.44M": "1.44M"}
DISPLAYS = {"monochrome": "mono-80", "EGA, VGA, ... (with BIOS)": "own-firmware",
            "CGA (40 cols)": "colour-40", "CGA (80 cols)": "colour-80"}


def machine(number):
    """A description; the same number gives the same machine."""
    dice = random.Random(number)
    floppies = [dice.choice(["none", "360K", "1.2M", "720K", "1.44M"]) for _ in range(2)]
    disk = lambda: dice.choice([0, dice.randint(1, 14), dice.randint(16, 47)])
    return {"layout": "at", "clock": "2031-05-14T09:30:00",
            "set": {"floppy_a": floppies[0], "floppy_b": floppies[1],
                    "disk_0_type": disk(), "disk_1_type": disk(),
                    "base_memory_kib": dice.choice([256, 512, 640]),
                    "extended_memory_kib": dice.randrange(0, 65536, 64),
                    "display": dice.choice(list(DISPLAYS.values())),
                    "coprocessor": dice.random() < 0.5}}


def compose(count, program, folder):
    for number in range(count):
        subprocess.run([program, "compose", "-", "-o", f"{folder}/{number:03}.bin"], check=True,
                       input=json.dumps(machine(number)), text=True, stdout=subprocess.DEVNULL)


def shown(program, image):
    """What rtcmend shows, by field."""
    result = subprocess.run([program, "show", image, "--layout", "at", "--json"],
                            capture_output=True, text=True)
    return {field["id"]: field["value"] for field in json.loads(result.stdout)["fields"]}


def ours_for(words, theirs):
    """Our word for one of the driver's; a word that is not among them disagrees with everything."""
    return words.get(theirs, f"\"{theirs}\"")


def kernel_view(text):
    """What the driver printed, in rtcmend's words."""
    rows = dict(re.findall(r"^(.+?)\s*: (.*?)\s*$", text, re.M))
    memory = re.match(r"(\d+) kB \(configured\), (\d+) kB \(tested\)", rows["Extended memory"])
    # "none", or the type in hex with words behind it.
    disk = lambda words: 0 if words.startswith("none") else int(words.split()[0], 16)
    return {"valid": "not" not in rows["Checksum status"],
            "floppy_count": int(rows["# floppies"]),
            "floppy_a": ours_for(FLOPPIES, rows["Floppy 0 type"]),
            "floppy_b": ours_for(FLOPPIES, rows["Floppy 1 type"]),
            "disk_0_type": disk(rows["HD 0 type"]), "disk_1_type": disk(rows["HD 1 type"]),
            "base_memory_kib": int(rows["DOS base memory"].split()[0]),
            "extended_memory_kib": int(memory[1]), "extended_memory_found_kib": int(memory[2]),
            "display": ours_for(DISPLAYS, rows["Gfx adapter"]),
            "coprocessor": not rows["FPU"].startswith("not")}


def compare(count, program, folder, said):
    text = open(said, errors="replace").read().replace("\r", "")
    parts = re.split(r"^machine ", text, flags=re.M)[1:]
    wrong = 0
    if len(parts) != count + 1:
        sys.exit(f"the kernel spoke of {len(parts) - 1} machines, not {count}:\n{text[-1500:]}")
    for number, part in enumerate(parts[:count]):
        theirs = kernel_view(part)
        ours = shown(program, f"{folder}/{number:03}.bin")
        # A machine without floppies still stores a count of one drive; the driver then says 0.
        if not ours["floppy_fitted"]:
            ours["floppy_count"] = 0
        for key, value in theirs.items():
            if value != (True if key == "valid" else ours[key]):
                wrong += 1
                print(f"machine {number}: {key}: the kernel says {value}, rtcmend {ours.get(key)}")
    print(f"{count} machines, {len(theirs)} facts each, {wrong} disagreements")
    sys.exit(1 if wrong else 0)


if sys.argv[1] == "compose":
    compose(int(sys.argv[2]), sys.argv[3], sys.argv[4])
else:
    compare(int(sys.argv[2]), sys.argv[3], sys.argv[4], sys.argv[5])
