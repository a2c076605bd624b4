#!/usr/bin/env python3
"""Lays out the seeds of corpus/ from the example workshop and the built-in layouts.

seeds.py RTCMEND   RTCMEND: a built program, for the forms that it writes.
"""
import pathlib
import subprocess
import sys

here = pathlib.Path(__file__).resolve().parent
root = here.parent
program = sys.argv[1]
dump = root / "examples/machines/bramble.bin"


def put(target, name, content):
    folder = here / "corpus" / target
    folder.mkdir(parents=True, exist_ok=True)
    (folder / name).write_bytes(content)


def written(form):
    return subprocess.run([program, "convert", dump, "--to", form, "-o", "-"],
                          check=True, capture_output=True).stdout


for form in ["raw", "hex", "rows", "intel-hex", "s-record", "c-array", "json"]:
    put(f"form_{form}", "bramble", written(form))
    put("detection", form, written(form))
    put("command_line", form, bytes([2]) + written(form))
put("form_hex", "juniper", (root / "examples/machines/juniper.txt").read_bytes())
put("form_rows", "thistle", (root / "examples/machines/thistle.txt").read_bytes())
for layout in ["at-64", "crc-64", "balance-64"]:
    text = (root / f"layouts/{layout}.json").read_bytes()
    put("layout_file", layout, text)
    put("command_line", layout, bytes([14]) + text)
put("description", "yarrow", (root / "examples/machines/yarrow.json").read_bytes())
put("command_line", "yarrow", bytes([10]) + (root / "examples/machines/yarrow.json").read_bytes())
session = (root / "examples/unknown/session.json").read_bytes()
put("session", "unknown", session[:2000] if len(session) < 2000 else session)
put("drift_log", "two-readings",
    b'{"shown":"2031-05-31T12:01:00","reference":"2031-05-31T12:00:00",'
    b'"daylight_saving":false,"running":true}\n'
    b'{"shown":"2031-06-30T12:02:00","reference":"2031-06-30T12:00:00",'
    b'"daylight_saving":false,"running":true}\n')
