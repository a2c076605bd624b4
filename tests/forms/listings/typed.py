#!/usr/bin/env python3
"""Writes the listings that are in the style of programs which cannot be run here, from memory, and of
people who type: debuggers of DOS and Windows, shells, serial monitors, forums, tables, languages."""
import base64
from make import A, B, images, put

crlf = lambda text: text.replace("\n", "\r\n").encode()


def rows(chip, line, size=16, start=0):
    data = images[chip]
    return "".join(line(start + r, data[r:r + size]) + "\n" for r in range(0, len(data), size))


hexes = lambda row: " ".join(f"{x:02X}" for x in row)
text = lambda row: "".join(chr(x) if 32 <= x < 127 else "." for x in row)
words = lambda row, size: [int.from_bytes(row[i:i + size], "little") for i in range(0, len(row), size)]
dashed = lambda row: hexes(row[:8]) + "-" + hexes(row[8:])

# A debugger of DOS, and the copy that one makes of its screen.
for chip, last in (("a64", 0x13F), ("b128", 0x17F)):
    put(chip, "dos-debugger", crlf(f"C:\\>debug cmos.bin\n-d 100 {last:x}\n" + rows(
        chip, lambda at, row: f"0B1C:{at:04X}  {dashed(row)}   {text(row)}", start=0x100) + "-q\n"))
put("a64", "dos-debugger-no-text", rows("a64", lambda at, row: f"0B1C:{at:04X}  {dashed(row)}", start=0x100).encode())
put("a64", "dos-debugger-emulator", rows("a64", lambda at, row: f"0B1C:{at:04X}   {hexes(row)}  {text(row)}", start=0x240).encode())
put("b128", "dos-ports", crlf("".join(f"-o 70 {i:x}\n-i 71\n{x:02X}\n" for i, x in enumerate(B)) + "-q\n"))

# The shells of Windows; what they print into a file is UTF-16.
old_shell = lambda chip: ("\n\n           Path: C:\\dumps\\cmos.bin\n\n           00 01 02 03 04 05 06 07 08 09 0A 0B 0C 0D 0E 0F\n\n"
                          + rows(chip, lambda at, row: f"{at:08X}   {hexes(row):<47}  {text(row)}") + "\n\n")
put("a64", "windows-shell", crlf(old_shell("a64")))
put("b128", "windows-shell-utf16", b"\xff\xfe" + old_shell("b128").replace("\n", "\r\n").encode("utf-16-le"))
new_shell = lambda chip: ("\n   Label: C:\\dumps\\cmos.bin\n\n          Offset Bytes                                           Ascii\n"
                          "                 00 01 02 03 04 05 06 07 08 09 0A 0B 0C 0D 0E 0F\n"
                          "          ------ ----------------------------------------------- -----\n"
                          + rows(chip, lambda at, row: f"{at:016X} {hexes(row):<47} {text(row)}"))
put("a64", "windows-new-shell", crlf(new_shell("a64")))
put("b128", "windows-new-shell-utf16be", b"\xfe\xff" + new_shell("b128").encode("utf-16-be"))
put("a50", "windows-new-shell", crlf(new_shell("a50")))
certificate = lambda row: hexes(row[:8]).lower() + "  " + hexes(row[8:]).lower()
put("a64", "windows-encodehex", crlf(rows("a64", lambda at, row: f"{at:04x}\t{certificate(row):<48}   {text(row)}")))
put("b128", "windows-encodehex", crlf(rows("b128", lambda at, row: f"{at:04x}\t{certificate(row):<48}   {text(row)}")))
put("b128", "windows-encode", crlf("-----BEGIN CERTIFICATE-----\n" + base64.encodebytes(B).decode().replace("\n", "")[:64] + "\n"
    + base64.encodebytes(B).decode().replace("\n", "")[64:128] + "\n" + base64.encodebytes(B).decode().replace("\n", "")[128:] + "\n-----END CERTIFICATE-----\n"))
put("a64", "windows-debugger-db", rows("a64", lambda at, row: f"00000000`{at:08x}  {dashed(row).lower()}  {text(row)}", start=0x404040).encode())
put("a64", "windows-debugger-dd-ask", rows("a64", lambda at, row: f"{at:08x}  " + " ".join(f"{w:08x}" for w in words(row, 4)), start=0x404040).encode())

# Loaders and monitors of boards.
put("a64", "loader-md-b", ("=> md.b 82000000 40\n" + rows("a64", lambda at, row: f"{at:08x}: {hexes(row).lower()}    {text(row)}", start=0x82000000)).encode())
put("b128", "loader-md", ("=> md 82000000 20\n" + rows("b128", lambda at, row: f"{at:08x}: " + " ".join(f"{w:08x}" for w in words(row, 4)) + f"    {text(row)}", start=0x82000000)).encode())
put("a64", "bus-dump", ("     0  1  2  3  4  5  6  7  8  9  a  b  c  d  e  f    0123456789abcdef\n"
    + rows("a64", lambda at, row: f"{at:02x}: {hexes(row).lower()}    {text(row)}")).encode())
put("b128", "bus-dump", ("     0  1  2  3  4  5  6  7  8  9  a  b  c  d  e  f    0123456789abcdef\n"
    + rows("b128", lambda at, row: f"{at:02x}: {hexes(row).lower()}    {text(row)}")).encode())
put("a64", "serial-times", "".join(f"09:30:{i // 10:02d}.{i % 10 * 100:03d} -> {i:02X}: {x:02X}\r\n" for i, x in enumerate(A)).encode())
put("b128", "serial-times-rows", "".join(f"[2031-05-14 09:30:{r // 16:02d}] {r:02X}: {hexes(B[r:r + 16])}\n" for r in range(0, 128, 16)).encode())
put("a64", "serial-decimal", "".join(f"{i}: 0x{x:X}\n" for i, x in enumerate(A)).encode())
put("b128", "serial-decimal-both", "".join(f"{i}: {x}\n" for i, x in enumerate(B)).encode())
put("a64", "serial-words", "".join(f"CMOS[{i:02X}h] = {x:02X}h\n" for i, x in enumerate(A)).encode())
put("b128", "serial-reg", "".join(f"reg{i}={x}\n" for i, x in enumerate(B)).encode())
put("a64", "serial-arrow", "".join(f"0x{i:02x} -> 0x{x:02x}\n" for i, x in enumerate(A)).encode())
put("b128", "serial-remarks", "".join(f"{i:02X}: {x:02X}{'   ; status A' if i == 10 else ''}\n" for i, x in enumerate(B)).encode())
put("a64", "serial-register-words", "".join(f"Register 0x{i:02X}: 0x{x:02X} ({x})\n" for i, x in enumerate(A)).encode())

# Mails and forums.
quoted = rows("a64", lambda at, row: f"> {at:08x}  {certificate(row)}  |{text(row)}|")
put("a64", "mail-quoted", ("On Tuesday somebody wrote:\n> here is what I got from the machine in the shed:\n>\n" + quoted
    + "> \n> 00000040\n>\n> does that look right?\n\nYes, it does.\n").encode())
put("b128", "mail-twice-quoted", ("> > The chip says:\n" + rows("b128", lambda at, row: f"> > {at:02X}: {hexes(row)}") + "> Thank you.\n").encode())
put("a64", "forum-code", ("Hello all, my dump:\n[code]\n" + rows("a64", lambda at, row: f"{at:02X}: {hexes(row)}") + "[/code]\nWhat do you think? Regards\n").encode())
put("b128", "forum-table", ("[table]\n" + "".join("[tr][td]" + f"{r:02X}" + "[/td][td]" + "[/td][td]".join(f"{x:02X}" for x in B[r:r + 16]) + "[/td][/tr]\n"
    for r in range(0, 128, 16)) + "[/table]\n").encode())
put("a64", "page-table", ("<table>\n" + "".join("<tr><td>" + f"0x{r:02X}" + "</td><td>" + "</td><td>".join(f"{x:02X}" for x in A[r:r + 16]) + "</td></tr>\n"
    for r in range(0, 64, 16)) + "</table>\n").encode())
put("a64", "markdown-fence", ("Dump of the chip:\n\n```\n" + rows("a64", lambda at, row: f"{at:04X}  {hexes(row)}  {text(row)}") + "```\n\nThanks!\n").encode())
put("b128", "table-frame", ("+------+-------------------------------------------------+\n| Addr | Bytes                                           |\n+------+-------------------------------------------------+\n"
    + rows("b128", lambda at, row: f"| {at:04X} | {hexes(row)} |") + "+------+-------------------------------------------------+\n").encode())
put("a64", "table-two-columns", ("| Address | Value |\n|---------|-------|\n" + "".join(f"| 0x{i:02X} | 0x{x:02X} |\n" for i, x in enumerate(A))).encode())
put("b128", "csv-decimal-head", ("addr;value\r\n" + "".join(f"{i};{x}\r\n" for i, x in enumerate(B))).encode())
put("a64", "csv-quoted", ('"address","value"\n' + "".join(f'"{i:02X}","{x:02X}"\n' for i, x in enumerate(A))).encode())
put("b128", "csv-rows", "".join(f"{r:02X}," + ",".join(f"{x:02X}" for x in B[r:r + 16]) + "\n" for r in range(0, 128, 16)).encode())

# What an editor makes of them.
put("a64", "editor-typographic", ("cmos = [" + ", ".join(f"\u20180x{x:02X}\u2019" for x in A) + "]\n").encode())
put("b128", "editor-no-break", rows("b128", lambda at, row: f"{at:02X}:\u00a0" + hexes(row).replace(" ", "\u00a0")).encode())
put("a64", "editor-wrapped", "".join(f"{r:08X}  {hexes(A[r:r + 8])}\n{hexes(A[r + 8:r + 16])}  {text(A[r:r + 16])}\n" for r in range(0, 64, 16)).encode())
put("b128", "editor-mac", rows("b128", lambda at, row: f"{at:02X}: {hexes(row)}").replace("\n", "\r").encode())
put("a64", "editor-bom", b"\xef\xbb\xbf" + rows("a64", lambda at, row: f"{at:02X} {hexes(row)}").encode())

# Languages.
listed = lambda data, form, per=12, sep=", ": (sep.rstrip() + "\n    ").join(sep.join(form.format(x) for x in data[i:i + per]) for i in range(0, len(data), per))
put("a64", "c-uint8", (f"#include <stdint.h>\n\n/* read on 14 May */\nstatic const uint8_t cmos[64] = {{\n    {listed(A, '0x{:02X}')}\n}};\n").encode())
put("b128", "c-decimal", (f"unsigned char cmos[] = {{\n    {listed(B, '{:3d}', 16)}\n}};\n").encode())
put("a64", "c-words-ask", ("const uint16_t cmos[32] = {\n    " + listed(words(A, 2), "0x{:04X}", 8) + "\n};\n").encode())
put("a64", "cpp-comments", ("std::array<std::uint8_t, 64> cmos{\n" + "".join(f"    /* {r:02X} */ " + ", ".join(f"0x{x:02X}" for x in A[r:r + 8]) + ",\n" for r in range(0, 64, 8)) + "};\n").encode())
put("b128", "java", ("byte[] cmos = {\n    " + listed(B, "(byte) 0x{:02X}", 8) + "\n};\n").encode())
put("a64", "rust", (f"const CMOS: [u8; 64] = [\n    {listed(A, '0x{:02x}')},\n];\n").encode())
put("b128", "rust-string", ("let cmos = b\"" + "".join(f"\\x{x:02x}" for x in B) + "\";\n").encode())
put("a64", "javascript", (f"const cmos = Uint8Array.of(\n    {listed(A, '{}', 16)}\n);\n").encode())
put("b128", "python-bytes", ("CMOS = bytes([\n" + "".join("    " + ", ".join(f"0x{x:02X}" for x in B[r:r + 16]) + f",  # {r:02X}\n" for r in range(0, 128, 16)) + "])\n").encode())
put("a64", "python-fromhex", ("cmos = bytes.fromhex(\"" + hexes(A) + "\")\n").encode())
put("a64", "basic-data", "".join(f"{1000 + i * 10} DATA " + ",".join(str(x) for x in A[r:r + 16]) + "\r\n" for i, r in enumerate(range(0, 64, 16))).encode())
put("b128", "basic-data-hex", "".join(f"{1000 + i * 10} DATA " + ",".join(f"&H{x:02X}" for x in B[r:r + 16]) + "\r\n" for i, r in enumerate(range(0, 128, 16))).encode())
put("a64", "asm-db", ("cmos    label byte\n" + "".join("        db " + ", ".join(f"{x:03X}h" if x > 0x9F else f"{x:02X}h" for x in A[r:r + 8]) + f"   ; {r:02X}\n" for r in range(0, 64, 8))).encode())
put("b128", "asm-byte", ("cmos:\n" + "".join("        .byte   " + ", ".join(f"0x{x:02x}" for x in B[r:r + 8]) + "\n" for r in range(0, 128, 8))).encode())
put("a64", "asm-dollar", "".join("        dc.b $" + ",$".join(f"{x:02X}" for x in A[r:r + 16]) + "\n" for r in range(0, 64, 16)).encode())
put("b128", "pascal", ("const Cmos: array[0..127] of Byte = (\n    " + listed(B, "${:02X}") + ");\n").encode())
put("a64", "visual-basic", ("Dim cmos() As Byte = {" + ", ".join(f"&H{x:02X}" for x in A) + "}\n").encode())
put("b128", "shell-printf", ("printf '" + "".join(f"\\{x:03o}" for x in B) + "' > cmos.bin\n").encode())
put("a64", "shell-echo", ("echo -ne \"" + "".join(f"\\x{x:02x}" for x in A[:32]) + "\" \\\n  \"" + "".join(f"\\x{x:02x}" for x in A[32:]) + "\"\n").encode())
put("b128", "json-rows", ("[\n" + ",\n".join("  " + ", ".join(str(x) for x in B[r:r + 16]) for r in range(0, 128, 16)) + "\n]\n").encode())

# Typed by hand.
put("a64", "by-hand-blanks", rows("a64", lambda at, row: hexes(row), 8).encode())
put("b128", "by-hand-no-blanks", B.hex().upper().encode() + b"\n")
put("a64", "by-hand-one-a-line", "".join(f"{x:02X}\n" for x in A).encode())
put("b128", "by-hand-marks", ("# the board from the attic\n" + rows("b128", lambda at, row: f"{at:02X}h: {hexes(row)}")).encode())
put("a64", "by-hand-octal", rows("a64", lambda at, row: f"{at:03o}: " + " ".join(f"{x:03o}" for x in row), 8).encode())
put("b128", "by-hand-binary", "".join(f"{x:08b}\n" for x in B).encode())
put("a64", "by-hand-decimal-rows", rows("a64", lambda at, row: f"{at}: " + " ".join(str(x) for x in row), 10).encode())
put("b128", "by-hand-lower-half", rows("b128", lambda at, row: f"0x{at:02x} | {hexes(row)}").encode())
put("a64", "base64-mail", ("Content-Transfer-Encoding: base64\n\n" + base64.b64encode(A).decode() + "\n").encode())
put("b128", "data-address", ("data:application/octet-stream;base64," + base64.b64encode(B).decode() + "\n").encode())

# What a fresh reader pasted.
put("b128", "pasted-two-halves", ("First half:\n" + "".join(f"{r:02X}: {hexes(B[r:r + 16])}\n" for r in range(0, 64, 16)) + "\nand the second half:\n"
    + "".join(f"{r:02X}: {hexes(B[r:r + 16])}\n" for r in range(64, 128, 16)) + "\nthat is all\n").encode())
put("a64", "pasted-row-numbers", rows("a64", lambda at, row: f"Row {at // 16}: {hexes(row)}").encode())
put("b128", "pasted-numbered", rows("b128", lambda at, row: f"{at // 16 + 1}) {hexes(row)}").encode())
put("a64", "pasted-h", rows("a64", lambda at, row: f"{at:02X}h  {hexes(row)}").encode())
put("a64", "pasted-columns", ("      " + "  ".join("0123456789ABCDEF") + "\n" + rows("a64", lambda at, row: f"{at:02X}   {hexes(row)}")).encode())
put("b128", "pasted-row-x", ("    " + " ".join(f"x{c}" for c in "0123456789ABCDEF") + "\n" + rows("b128", lambda at, row: f"{at // 16:X}x  {hexes(row)}")).encode())
put("a64", "pasted-semicolons", rows("a64", lambda at, row: ";".join(f"{x:02X}" for x in row)).encode())
put("b128", "pasted-tabs-decimal", rows("b128", lambda at, row: "\t".join(str(x) for x in row)).encode())
put("a64", "pasted-csv-head", ("addr," + ",".join(f"{i:X}" for i in range(16)) + "\n" + rows("a64", lambda at, row: f"{at:02X}," + ",".join(f"{x:02X}" for x in row))).encode())
put("b128", "pasted-name", ("dump = " + hexes(B) + "\n").encode())
put("a64", "pasted-colon-first", rows("a64", lambda at, row: f":{at + 0x100:04X}  {dashed(row)}   {text(row)}").encode())
put("b128", "pasted-no-first-bar", (" addr | bytes\n---|---\n" + rows("b128", lambda at, row: f"{at:02X} | {hexes(row)}")).encode())
put("a64", "pasted-difference", ("@@ -0,0 +1,4 @@\n" + rows("a64", lambda at, row: f"+{at:02X}: {hexes(row)}")).encode())
put("b128", "pasted-search", rows("b128", lambda at, row: f"{at // 16 + 3}:{at:08x}  {hexes(row).lower()}").encode())
put("a64", "pasted-pager", rows("a64", lambda at, row: f"{at // 16 + 1:>6}  {at:08x}  {hexes(row).lower()}").encode())
put("b128", "pasted-board-unpadded", rows("b128", lambda at, row: " ".join(f"{x:X}" for x in row)).encode())
put("a64", "pasted-debugger-words-ask", "".join(f"0x{0x404020 + i:x} <cmos+{i}>:\t" + "\t".join(f"0x{w:08x}" for w in words(A[i:i + 16], 4)) + "\n" for i in range(0, 64, 16)).encode())
put("a64", "pasted-three-notations", ("addr  hex  dec  bin\n" + "".join(f"{i:02X}    {x:02X}   {x:3d}  {x:08b}\n" for i, x in enumerate(A))).encode())
put("b128", "pasted-csv-twice", ("address,hex,dec\n" + "".join(f"{i:02X},{x:02X},{x}\n" for i, x in enumerate(B))).encode())
