"""A reader of G-code for tests, written from the report on RS-274/NGC: Kramer, Proctor, Messina, NIST IR 6556 (2000). It knows nothing of this project's writer.

What the report calls an error is a ``Fault`` here; what it has beyond straight and round motion in the plane z is not known and a fault too.
"""

import math
import re
from dataclasses import dataclass, field

WORD = re.compile(r"([A-Z])([+-]?(?:\d+\.?\d*|\.\d+))")
# Modal groups of G and M words (tables 4 and 6 of the report), as far as they are read here.
GROUPS = {
    **dict.fromkeys((0.0, 1.0, 2.0, 3.0, 80.0), "motion"),
    **dict.fromkeys((17.0, 18.0, 19.0), "plane"),
    **dict.fromkeys((90.0, 91.0), "distance"),
    **dict.fromkeys((93.0, 94.0), "feed mode"),
    **dict.fromkeys((20.0, 21.0), "units"),
    **dict.fromkeys((40.0, 41.0, 42.0), "radius"),
    **dict.fromkeys((43.0, 49.0), "length"),
    **dict.fromkeys((4.0,), "none"),
}
M_GROUPS = {0.0: "stop", 1.0: "stop", 2.0: "stop", 30.0: "stop", 3.0: "spindle", 4.0: "spindle", 5.0: "spindle"}
LETTERS = set("FGIJMNPSXYZ")
LONGEST = 256
# Section 3.5.3.2: how far the radii at both ends of an arc may differ, in mm.
RADII = 0.002


class Fault(Exception):
    """What the report does not allow."""


@dataclass(frozen=True)
class Motion:
    """One motion: where from and to, the centre if it is round, and what held meanwhile."""

    kind: int
    start: tuple[float, float, float]
    end: tuple[float, float, float]
    centre: tuple[float, float] | None
    feed: float
    spindle: int
    speed: float

    @property
    def clockwise(self):
        return self.kind == 2

    def sweep(self):
        """The signed angle of an arc; a full turn where both ends are one point."""
        (cx, cy), a, b = self.centre, self.start, self.end
        angle = math.atan2(b[1] - cy, b[0] - cx) - math.atan2(a[1] - cy, a[0] - cx)
        if self.clockwise:
            return -((-angle) % (2 * math.pi) or 2 * math.pi)
        return angle % (2 * math.pi) or 2 * math.pi

    def points(self, tolerance=2e-4):
        """Points along the motion, ends and all, no chord farther from an arc than the tolerance."""
        if self.centre is None:
            return [self.start, self.end]
        (cx, cy), sweep = self.centre, self.sweep()
        radius = math.hypot(self.start[0] - cx, self.start[1] - cy)
        count = max(1, math.ceil(abs(sweep) / (2 * math.acos(max(-1.0, 1 - tolerance / radius)))))
        first = math.atan2(self.start[1] - cy, self.start[0] - cx)
        turned = [first + sweep * k / count for k in range(1, count)]
        z0, z1 = self.start[2], self.end[2]
        between = [(cx + radius * math.cos(t), cy + radius * math.sin(t), z0 + (z1 - z0) * k / count) for k, t in enumerate(turned, 1)]
        return [self.start, *between, self.end]


@dataclass
class Program:
    """What a file makes a machine do."""

    motions: list[Motion] = field(default_factory=list)
    comments: list[str] = field(default_factory=list)
    messages: list[str] = field(default_factory=list)
    stops: list[int] = field(default_factory=list)
    """At how many motions the machine waits."""
    ended: bool = False


def read(text, at=(0.0, 0.0, 0.0)):
    """The program of a file, from where the machine stands."""
    if not text.isascii():
        raise Fault("a letter that is not ASCII")
    program, state = Program(), {"motion": 80.0, "plane": 17.0, "distance": 90.0, "feed mode": 94.0, "units": 21.0, "F": 0.0, "S": 0.0, "spindle": 0}
    at = list(at)
    for line in text.splitlines():
        if program.ended:
            raise Fault(f"a line after the end: {line}")
        _line(line, program, state, at)
    return program


def _line(line, program, state, at):
    if len(line) > LONGEST:
        raise Fault("a line of more than 256 letters")
    words, comment = _words(line)
    if comment is not None:
        program.comments.append(comment)
        if comment.strip().upper().startswith("MSG,"):
            program.messages.append(comment.split(",", 1)[1].strip())
    codes, values = _sorted(words, line)
    for letter in "FS":
        if letter in values:
            if values[letter] < 0:
                raise Fault(f"{letter} below zero: {line}")
            state[letter] = values[letter]
    spindle = codes["M"].get("spindle")
    if spindle is not None:
        state["spindle"] = {3.0: 1, 4.0: -1, 5.0: 0}[spindle]
    if codes["G"].get("none") == 4.0 and values.get("P", -1) < 0:
        raise Fault(f"a dwell without time: {line}")
    for group in ("plane", "units", "distance", "feed mode", "motion"):
        state[group] = codes["G"].get(group, state[group])
    if (state["plane"], state["units"], state["distance"], state["feed mode"]) != (17.0, 21.0, 90.0, 94.0):
        raise Fault(f"not in mm in the plane z, absolute, by the minute: {line}")
    if {"X", "Y", "Z"} & values.keys():
        _move(values, program, state, at, line)
    elif {"I", "J"} & values.keys():
        raise Fault(f"a centre without an end: {line}")
    stop = codes["M"].get("stop")
    if stop in (0.0, 1.0):
        program.stops.append(len(program.motions))
    program.ended = stop in (2.0, 30.0)


def _words(line):
    """The words of a line as letters and numbers, and its comment."""
    comment, rest, inside = None, "", None
    for letter in line:
        if inside is not None:
            if letter == "(":
                raise Fault(f"a comment within a comment: {line}")
            if letter == ")":
                comment, inside = inside, None
            else:
                inside += letter
        elif letter == "(":
            inside = ""
        elif letter == ")":
            raise Fault(f"the end of no comment: {line}")
        else:
            rest += letter
    if inside is not None:
        raise Fault(f"a comment without end: {line}")
    # Blanks and tabs mean nothing outside of comments, nor does the case of letters.
    rest = re.sub(r"[ \t]", "", rest).upper()
    words, place = [], 0
    while place < len(rest):
        found = WORD.match(rest, place)
        if not found:
            raise Fault(f"not a word at {rest[place:]!r}")
        words.append((found[1], float(found[2])))
        place = found.end()
    return words, comment


def _sorted(words, line):
    """G and M words by their groups, and the values of all others; no group and no letter comes twice."""
    codes, values = {"G": {}, "M": {}}, {}
    for letter, value in words:
        if letter not in LETTERS:
            raise Fault(f"an unknown letter: {line}")
        if letter in "GM":
            group = (GROUPS if letter == "G" else M_GROUPS).get(value)
            if group is None:
                raise Fault(f"an unknown code: {line}")
            if group in codes[letter]:
                raise Fault(f"two codes of one group: {line}")
            codes[letter][group] = value
        elif letter in values:
            raise Fault(f"a letter twice: {line}")
        else:
            values[letter] = value
    return codes, values


def _move(values, program, state, at, line):
    kind, start = state["motion"], tuple(at)
    for axis, letter in enumerate("XYZ"):
        at[axis] = values.get(letter, at[axis])
    end, centre = tuple(at), None
    if kind not in (0.0, 1.0, 2.0, 3.0):
        raise Fault(f"axis words without a motion: {line}")
    if kind != 0.0 and state["F"] == 0:
        raise Fault(f"a feed of zero: {line}")
    if kind in (2.0, 3.0):
        if not {"X", "Y"} & values.keys() or not {"I", "J"} & values.keys():
            raise Fault(f"an arc without end or centre: {line}")
        centre = (start[0] + values.get("I", 0.0), start[1] + values.get("J", 0.0))
        first, last = math.hypot(start[0] - centre[0], start[1] - centre[1]), math.hypot(end[0] - centre[0], end[1] - centre[1])
        if first == 0 or abs(first - last) > RADII:
            raise Fault(f"radii of {first} and {last} mm: {line}")
    elif {"I", "J"} & values.keys():
        raise Fault(f"a centre of a straight motion: {line}")
    program.motions.append(Motion(int(kind), start, end, centre, state["F"], state["spindle"], state["S"]))
