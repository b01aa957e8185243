"""What the linker put into an image, by its map and its symbols."""

import re

from build import run

LIBRARY = "libdryfit.a"
ROW = re.compile(r"^ (\.\S+)?\s+0x([0-9a-f]+)\s+0x([0-9a-f]+)\s+(\S.*)$")


def library(image):
    """Bytes of flash and of RAM that the library takes in an image."""
    text = image.with_suffix(".map").read_text(encoding="utf-8").split("Linker script and memory map", 1)[1]
    # A name that is too long stands on a line of its own.
    text = re.sub(r"^( \.\S+)\n(?=\s+0x)", r"\1", text, flags=re.MULTILINE)
    flash = ram = 0
    section = ""
    for line in text.splitlines():
        if found := re.match(r"^(\.[\w.]+|/DISCARD/)", line):
            section = found[1]
        elif (row := ROW.match(line)) and LIBRARY in row[4]:
            size = int(row[3], 16)
            flash += size if section in (".text", ".data") else 0
            ram += size if section in (".data", ".bss") else 0
    assert flash > 0, image
    return flash, ram


def whole(board, image):
    """Bytes of flash and of static RAM of all of an image, without its stack."""
    text, data, bss = map(int, run([f"{board.prefix}size", image]).splitlines()[1].split()[:3])
    return text + data, data + bss


def symbols(board, image):
    """Every name in an image, as it was written in the source."""
    return [line.split(" ", 2)[-1] for line in run([f"{board.prefix}nm", "--demangle", "--defined-only", image]).splitlines()]
