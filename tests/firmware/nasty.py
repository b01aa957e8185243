"""Request lines that no board may stumble over: broken ones, binary ones, and numbers from the ends of every range."""

import random

import asked

# The line, and the whole answer.
BROKEN = [
    (b"", "refused unknown word"),
    (b" \t \r", "refused unknown word"),
    (b"edges 1", "refused unknown word"),
    (b"EDGE 1", "refused unknown word"),
    (b"bye bye", "refused unknown word"),
    (b"edge", "refused number missing 1"),
    (b"edge\r", "refused number missing 1"),
    (b"edge 1 2 3", "refused number missing 4"),
    (b"edge 1 two", "refused not a number 2"),
    (b"edge 1 -", "refused not a number 2"),
    (b"edge 1 0x10", "refused not a number 2"),
    (b"edge 1 2.5", "refused not a number 2"),
    (b"edge -1", "refused number too large or too small 1"),
    (b"edge 4294967296", "refused number too large or too small 1"),
    (b"edge 1 2 3 4 5 6 7 9223372036854775808", "refused number too large or too small 8"),
    (b"edge 1 2 3 4 5 6 7 -9223372036854775808", "refused number too large or too small 8"),
    (b"edge 1 2 3 4 5 6 7 " + b"9" * 200, "refused number too large or too small 8"),
    (b"pattern 1 2 3 4 5 6 7 8 9 10 11 12 13 14", "refused more than was asked for, after number 13"),
    (b"edge " + b"1 " * 200, "refused line too long"),
    (b"x" * 321, "refused line too long"),
    (b"x" * 100_000, "refused line too long"),
    (b"edge 1\x002 3", "refused not a number 1"),
    (b"\x00edge", "refused unknown word"),
    (b"\xff\xfe\x04\x03\x1b", "refused unknown word"),
]
EXTREMES = (0, 1, -1, 2, 3, 7, 100, 1000, 65_536, 100_000, 1_000_000, 3_000_000, 20_000_000, 100_000_000, 10_000_000_000, 4_294_967_295, 2**63 - 1, 1 - 2**63)
EDGE, BOX, KNIFE = 21, 22, 3
FIELDS = {
    "pattern": 13, "vertices": EDGE, "edge": EDGE, "fingers": EDGE, "panel": 1 + BOX, "box": BOX, "drag": KNIFE + EDGE, "dragbox": KNIFE + BOX,
    "hpgl": EDGE, "svg": EDGE, "dxf": EDGE, "path": EDGE,
}


def junk(count=100):
    """Bytes of all kinds, line feeds too."""
    chance = random.Random(4)
    for _ in range(count):
        yield chance.randbytes(chance.randrange(1, 400))


def extremes(count=40):
    """Requests of the right length whose numbers come from the ends of the ranges; for every word."""
    chance = random.Random(5)
    for word, fields in FIELDS.items():
        for _ in range(count):
            yield asked.line(word, *(chance.choice(EXTREMES) for _ in range(fields)))


def near(good, count=300):
    """Requests that are good but for one or two numbers."""
    chance = random.Random(6)
    for _ in range(count):
        word, *numbers = chance.choice(good).decode().split(" ")
        for _ in range(chance.randrange(1, 3)):
            numbers[chance.randrange(len(numbers))] = chance.choice(EXTREMES)
        yield asked.line(word, *numbers)
