#!/usr/bin/env python3
"""Lays out the seeds of corpus/ from the example workshop and the built-in layouts.

seeds.py RTCMEND   RTCMEND: a built program, for the forms that it writes.
"""
import io
import pathlib
import subprocess
import sys
import tarfile
import zipfile

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


def tar_of(members, mode):
    """A tar with the same bytes at every run."""
    packed = io.BytesIO()
    with tarfile.open(fileobj=packed, mode=mode, format=tarfile.USTAR_FORMAT) as archive:
        for name, content in members.items():
            entry = tarfile.TarInfo(name)
            entry.size = len(content)
            archive.addfile(entry, io.BytesIO(content))
        link = tarfile.TarInfo("../outside")
        link.type, link.linkname = tarfile.SYMTYPE, "/etc/hostname"
        archive.addfile(link)
    return packed.getvalue()


def zip_of(members):
    packed = io.BytesIO()
    with zipfile.ZipFile(packed, "w", zipfile.ZIP_DEFLATED) as archive:
        for name, content in members.items():
            archive.writestr(zipfile.ZipInfo(name), content, zipfile.ZIP_DEFLATED)
    return packed.getvalue()


def command(number, name, content):
    """A seed for a line of targets/command_line.cpp."""
    put("command_line", name, bytes([number]) + content)


for form in ["raw", "hex", "rows", "code-text", "intel-hex", "s-record", "c-array", "json"]:
    put(f"form_{form}", "bramble", written(form))
    put("detection", form, written(form))
    command(2, form, written(form))
undecided = b"\x04\x04\x02\x04\x04\x02"  # targets/listing.cpp: no option given
put("listing", "bramble", undecided + written("hex"))
for name in ["a64-xxd-e", "b128-od-plain", "a64-gdb-xb", "b128-table-frame", "a64-editor-wrapped"]:
    put("listing", name, undecided + (root / f"tests/forms/listings/{name}.txt").read_bytes())
put("form_hex", "juniper", (root / "examples/machines/juniper.txt").read_bytes())
put("form_rows", "thistle", (root / "examples/machines/thistle.txt").read_bytes())
for layout in ["at", "crc+slots-19", "balance"]:
    text = (root / f"layouts/{layout}.json").read_bytes()
    put("layout_file", layout, text)
    command(14, layout, text)
whole = b'{"layout": "mine", "title": "Mine", "includes": ["a", "b"]}'
part = b'{"includes": ["%s", "%s"], "fields": [{"id": "%s", "label": "L", "group": "g", "source": "s", ' \
       b'"at": "%s", "number": {}}]}'
put("layout_parts", "tree", b"\x1e".join([
    whole, part % (b"c", b"d", b"fa", b"20"), part % (b"c", b"d", b"fb", b"21"),
    b'{}', b'{"includes": ["c"]}']))
put("layout_parts", "circle", b"\x1e".join([whole, part % (b"b", b"b", b"fa", b"20"),
                                            part % (b"a", b"a", b"fb", b"21")]))
put("layout_parts", "deep", b"\x1e".join([whole] + [
    b'{"includes": ["%c"]}' % (ord("b") + i) for i in range(25)]))
put("archive_headers", "folders", bytes([5, 0, 0, 255]) * 5)
put("archive_headers", "claims", bytes([0, 255, 23, 1, 0, 1, 9, 3, 2, 0, 0, 9]))
put("archive_headers", "names", bytes([10, 200, 3, 2, 11, 9, 9, 9, 13, 1, 1, 1]))
for number, word in enumerate([b"$(: tripped)", b"`: tripped`", b"a b  c", b"it's", b"~", b"*", b"a;b",
                               b"!x", b"caf\xc3\xa9", b"\\", b"-n", b"a=b$(x)", b"{a,b}", b"#x", b"~root", b"."]):
    put("completion_words", f"word-{number}", word)
put("description", "yarrow", (root / "examples/machines/yarrow.json").read_bytes())
command(10, "yarrow", (root / "examples/machines/yarrow.json").read_bytes())
session = (root / "examples/unknown/session.json").read_bytes()
put("session", "unknown", session[:2000] if len(session) < 2000 else session)
log = (
    b'{"shown":"2031-05-31T12:01:00","reference":"2031-05-31T12:00:00",'
    b'"daylight_saving":false,"running":true}\n'
    b'{"shown":"2031-06-30T12:02:00","reference":"2031-06-30T12:00:00",'
    b'"daylight_saving":false,"running":true}\n')
put("drift_log", "two-readings", log)
members = {"bramble.bin": dump.read_bytes(), "/abs/../juniper.txt": written("hex")}
archives = {"tar": tar_of(members, "w"), "bz2": tar_of(members, "w:bz2"), "xz": tar_of(members, "w:xz"),
            "zip": zip_of(members)}
for name, content in archives.items():
    put("archive", name, content)
    command(19, f"audit-{name}", content)
command(17, "log", log)
for number, name in [(18, "audit"), (20, "audit-packed"), (21, "history"), (22, "sheet"), (24, "deliver")]:
    command(number, name, dump.read_bytes())
crc = (root / "layouts/crc+slots-19.json").read_bytes()
for number in [15, 23, 25, 26, 27, 28, 29, 30]:
    command(number, f"layout-{number}", crc)
