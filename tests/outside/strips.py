"""Strips with known optima, as in tests/data/packing: read, and refused where a file is not what it says."""

import re
from dataclasses import dataclass
from pathlib import Path

DATA = Path(__file__).parent.parent / "data" / "packing"
HEAD = re.compile(r"# (\S+) strip width (\d+) known optimal height (\d+) items (\d+) total area (\d+)")


@dataclass(frozen=True)
class Strip:
    name: str
    width: int
    optimum: int
    sizes: tuple[tuple[int, int], ...]


def read(text: str) -> Strip:
    """A strip from the text of its file; a ValueError tells what is wrong with it."""
    lines = text.splitlines() or [""]
    head = HEAD.fullmatch(lines[0].strip())
    if not head:
        raise ValueError(f"line 1: not the head of a strip: {lines[0]!r}")
    width, optimum, items, area = map(int, head.groups()[1:])
    sizes = []
    for number, line in enumerate(lines[1:], 2):
        if not line.strip() or line.startswith("#") or line == "width,height":
            continue
        size = re.fullmatch(r"\s*([1-9]\d{0,5})\s*,\s*([1-9]\d{0,5})\s*", line)
        if not size:
            raise ValueError(f"line {number}: not two whole numbers above zero: {line!r}")
        w, h = map(int, size.groups())
        if min(w, h) > width:
            raise ValueError(f"line {number}: {w} x {h} is wider than the strip of {width}")
        sizes.append((w, h))
    if len(sizes) != items:
        raise ValueError(f"{len(sizes)} items, not {items} as the head says")
    total = sum(w * h for w, h in sizes)
    if total != area or area > width * optimum:
        raise ValueError(f"total area {total}, not {area} as the head says, or more than {width} x {optimum}")
    return Strip(head[1], width, optimum, tuple(sizes))


def strips(folder: str) -> list[Strip]:
    """All strips of a folder, by name."""
    return [read(file.read_text()) for file in sorted((DATA / folder).glob("*.csv"))]
