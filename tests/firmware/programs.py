"""Reads the service's G-code: where the tool goes while it is down, in steps of the fourth decimal."""

import re


def step(nm):
    """A length on the file's grid, halves upwards."""
    return (nm + 50) // 100


def steps(points):
    """Points on the file's grid; what falls into one step is one point."""
    found = []
    for x, y in points:
        if not found or found[-1] != [step(x), step(y)]:
            found.append([step(x), step(y)])
    return found


def number(text):
    """A decimal as steps, exactly."""
    sign, whole, part = re.fullmatch(r"(-?)(\d+)(?:\.(\d{1,4}))?", text).groups()
    value = int(whole) * 10_000 + int((part or "").ljust(4, "0"))
    return -value if sign else value


def programs(lines):
    """The lines of each program; one ends with M2."""
    found, one = [], []
    for line in lines:
        one.append(line)
        if line == "M2":
            found.append(one)
            one = []
    assert not one, one[:3]
    return found


def ways(program):
    """The ways that a beam cuts, each a list of points; straight moves only."""
    at, on, found = [0, 0], False, []
    for line in program:
        word = line.split(" ")[0]
        if word in ("M3", "M4"):
            on = True
            found.append([at])
        elif word == "M5":
            on = False
        elif word in ("G0", "G1"):
            assert (word == "G1") == on, line
            words = dict(re.findall(r" ([XY])(-?[\d.]+)", line))
            at = [number(words[axis]) if axis in words else old for axis, old in zip("XY", at)]
            if on:
                found[-1].append(at)
        else:
            assert line.startswith(("(", "G17 ", "M2")), line
    return found
