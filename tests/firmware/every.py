"""All that is asked of every board and of the host, and what the oracle says to it, by groups."""

import functools
from dataclasses import dataclass

import asked
import nasty
import vectors
from asked import line


@dataclass(frozen=True)
class Asked:
    line: bytes
    # What the oracle, or the table of broken lines, says; None where it is an error.
    wanted: object = None


# trail, swivel above (millionths of a degree), overcut
KNIFE = (250_000, 10_000_000, 500_000)
# tool dynamic feed plunge height depth turn-depth power speed; the last is what the service begins with
MACHINES = {
    "blade": (asked.NUMBER["TOOL_BLADE"], 0, 0, 0, 0, 3_200_000, 500_000, 0, 0),
    "bit": (asked.NUMBER["TOOL_BIT"], 0, 12_345_678, 3_000_000, 5_000_000, 3_200_001, 0, 0, 18_000),
    "dynamic": (asked.NUMBER["TOOL_BEAM"], 1, 0, 0, 0, 0, 0, 123_456_789, 0),
    "beam": (asked.NUMBER["TOOL_BEAM"], 0, 20_000_000, 0, 0, 0, 0, 800_000_000, 0),
}


@functools.cache
def groups():
    """The groups by name, in the order in which they are asked."""
    edges, boxes = list(vectors.profiles()), list(vectors.boxes())
    found = {
        "lengths": [Asked(b"length " + text, nm) for text, nm in vectors.lengths() if b"\n" not in text],
        "patterns": [Asked(line("pattern", *numbers), made) for numbers, made in vectors.patterns()],
        "vertices": [Asked(line("vertices", *numbers), made) for numbers, made in edges],
        "tails": [Asked(line("vertices", *numbers), made) for numbers, made in vectors.tails()],
        "edges": [Asked(line("edge", *numbers), made) for numbers, made in edges],
        "fingers": [Asked(line("fingers", *numbers), made if numbers[0] == asked.NUMBER["JOINT_FINGERS"] else None) for numbers, made in edges],
        "panels": [Asked(line("panel", face, *numbers), loops.get(face)) for numbers, loops in boxes for face in range(6)],
        "boxes": [Asked(line("box", *numbers), loops) for numbers, loops in boxes],
    }
    # Every way of cutting the edge of every kind of joint, and every kind of file.
    for name, machine in MACHINES.items():
        found[name] = [Asked(line("machine", *machine)), *(Asked(line("edge", *numbers)) for numbers, _ in edges[::24])]
    found["drags"] = [Asked(line("machine", *MACHINES["blade"])), *(Asked(line("drag", *KNIFE, *numbers)) for numbers, _ in edges[::3])]
    found["drag boxes"] = [*(Asked(line("dragbox", *KNIFE, *numbers)) for numbers, _ in boxes[::4]), Asked(line("machine", *MACHINES["beam"]))]
    for word in ("hpgl", "svg", "dxf", "path"):
        found[word] = [Asked(line(word, *numbers)) for numbers, _ in edges[::12]]
    good = [one.line for group in found.values() for one in group if not one.line.startswith(b"length")]
    return found | {
        "broken": [Asked(text, answer) for text, answer in nasty.BROKEN],
        "junk": [Asked(text) for text in nasty.junk()],
        "extremes": [Asked(text) for text in nasty.extremes()],
        "near": [Asked(text) for text in nasty.near(good)],
    }


def every():
    """All of them in their order."""
    return [one for group in groups().values() for one in group]


def lines():
    return [one.line for one in every()]


def sorted_out(answers):
    """The answers by group, each with what was asked."""
    rest = iter(answers)
    return {name: [(one, next(rest)) for one in group] for name, group in groups().items()}
