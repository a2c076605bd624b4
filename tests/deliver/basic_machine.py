"""Runs a listing in PC-BASIC, a copy of the BASIC of the time that knows nothing of rtcmend, on a
machine with a clock chip of 128 bytes at ports 70h and 71h.

basic_machine.py LISTING CHIP KEYS: types LISTING in, then RUN, then what KEYS holds. CHIP holds the
chip's bytes before, and after the run what they have become. Prints the screen, then one line of
the addresses written to, in order.
"""

import io
import sys

from pcbasic import Session
from pcbasic.basic import values
from pcbasic.basic.machine import MachinePorts


class Chip:
    def __init__(self, path):
        with open(path, "rb") as file:
            self.bytes = bytearray(file.read())
        self.selected = 0
        self.written = []

    def inp(self, port):
        return self.bytes[self.selected] if port == 0x71 else 0xFF

    def out(self, port, value):
        assert 0 <= value <= 0xFF and port in (0x70, 0x71), (port, value)
        if port == 0x70:
            self.selected = value & 0x7F
        else:
            self.bytes[self.selected] = value
            self.written.append(self.selected)


def main(listing, chip_path, keys):
    chip = Chip(chip_path)
    MachinePorts.inp = lambda _, port: chip.inp(port)

    def out(_, arguments):
        port = values.to_int(next(arguments), unsigned=True)
        chip.out(port, values.to_int(next(arguments), unsigned=True))
        list(arguments)

    MachinePorts.out_ = out
    screen = io.BytesIO()
    columns_at = 0x44A  # where the firmware keeps the screen's columns (RBIL61)
    session = Session(input_streams=None, output_streams=[screen], peek_values={columns_at: 80})
    with open(listing, encoding="ascii", newline="") as file:
        for line in file.read().split("\r\n"):
            session.execute(line)
    with open(keys, encoding="ascii") as file:
        session.press_keys(file.read().replace("\n", "\r"))
    session.execute("RUN")
    session.close()
    with open(chip_path, "wb") as file:
        file.write(chip.bytes)
    print(screen.getvalue().decode("cp437"))
    print("written:", *(f"{at:02X}" for at in chip.written))


main(*sys.argv[1:])
