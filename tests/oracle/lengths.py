"""Reading a length from text, by one regular expression and exact fractions."""

import re
from fractions import Fraction

from rounding import round_away

NM = {
    "um": 1_000,
    "\u00b5m": 1_000,
    "\u03bcm": 1_000,
    "mm": 1_000_000,
    "cm": 10_000_000,
    "m": 1_000_000_000,
    "in": 25_400_000,
    '"': 25_400_000,
    "ft": 304_800_000,
}
LIMIT = 10_000_000_000
MOST_DIGITS = 18

SHAPE = re.compile(
    r"(?P<sign>[+-]?)"
    r"(?:(?:(?P<whole>[0-9]+) )?(?P<top>[0-9]+)/(?P<bottom>[0-9]+)"
    r"|(?P<before>[0-9]*)(?P<point>\.?)(?P<after>[0-9]*))"
    r" ?(?P<unit>[u\u00b5\u03bc]m|mm|cm|m|in|\"|ft)?"
)


class LengthError(ValueError):
    pass


def read(text):
    """The length in nanometres, or LengthError."""
    found = SHAPE.fullmatch(text.strip(" \t\r\n"))
    if not found:
        raise LengthError("not a length")
    parts = found.groupdict(default="")
    for part in ("whole", "top", "bottom", "before", "after"):
        if len(parts[part]) > MOST_DIGITS:
            raise LengthError("too many digits")
    if parts["top"]:
        if int(parts["bottom"]) == 0:
            raise LengthError("zero denominator")
        value = Fraction(int(parts["top"]), int(parts["bottom"]))
        value += int(parts["whole"] or "0")
    else:
        if not parts["before"] and not parts["after"]:
            raise LengthError("no number")
        value = Fraction(int(parts["before"] or "0"))
        value += Fraction(int(parts["after"] or "0"), 10 ** len(parts["after"]))
    if parts["sign"] == "-":
        value = -value
    nm = round_away(value * NM[parts["unit"] or "mm"])
    if abs(nm) > LIMIT:
        raise LengthError("out of range")
    return nm
