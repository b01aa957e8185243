"""Patterns: a run of a given length cut into spans that alternate between A and B.

A spec is a dict, as it stands in the vector files:
  {"kind": "fingers", "width": w, "parity": "odd", "first": "A", "least": t}
  {"kind": "fingers", "count": n, "first": "A", "least": t}
  {"kind": "tabs", "width": w, "spacing": s, "end": e or None}
  {"kind": "halves", "split": [p, q], "first": "A"}
  {"kind": "whole", "first": "A"}
"""

from fractions import Fraction

from rounding import half, round_up_half


class PatternError(ValueError):
    pass


def make(length, spec):
    """(first owner, list of boundaries) of the pattern, or PatternError."""
    if length <= 0:
        raise PatternError("no run")
    first, boundaries = {
        "fingers": fingers,
        "tabs": tabs,
        "halves": halves,
        "whole": whole,
    }[spec["kind"]](length, spec)
    ladder = [0] + boundaries + [length]
    if any(low >= high for low, high in zip(ladder, ladder[1:])):
        raise PatternError("a boundary is not strictly inside")
    return first, boundaries


def spans(length, first, boundaries):
    """List of (start, end, side)."""
    ladder = [0] + boundaries + [length]
    sides = ["A", "B"] if first == "A" else ["B", "A"]
    return [(ladder[i], ladder[i + 1], sides[i % 2]) for i in range(len(ladder) - 1)]


def equal(length, n):
    return [round_up_half(Fraction(i * length, n)) for i in range(1, n)]


def nearest(length, width, allowed):
    """The allowed number nearest to length / width, the smaller one on a tie."""
    target = Fraction(length, width)
    return min(allowed, key=lambda n: (abs(n - target), n))


def fingers(length, spec):
    first = spec.get("first", "A")
    least = spec["least"]
    if least <= 0:
        raise PatternError("least")
    if "count" in spec:
        n = spec["count"]
        if n < 1 or n * least > length:
            raise PatternError("count")
        return first, equal(length, n)
    width = spec["width"]
    if width <= 0:
        raise PatternError("width")
    parity = spec.get("parity", "odd")
    fits_parity = {
        "odd": lambda n: n % 2 == 1,
        "even": lambda n: n % 2 == 0,
        "any": lambda n: True,
    }[parity]
    # Nothing beyond length / width + 3 can be the nearest, nothing beyond length / least fits.
    top = min(length // width + 3, length // least)
    allowed = [n for n in range(1, top + 1) if fits_parity(n) and n * least <= length]
    if not allowed:
        raise PatternError("no number is left")
    return first, equal(length, nearest(length, width, allowed))


def default_tabs(length, width, thicker):
    """Number of spans for a board tabbed through another one: odd, at least 3."""
    top = min(length // width + 3, length // thicker)
    allowed = [n for n in range(1, top + 1, 2) if n * thicker <= length]
    n = nearest(length, width, allowed) if allowed else 1
    return max(n, 3)


def tabs(length, spec):
    width, spacing, end = spec["width"], spec["spacing"], spec.get("end")
    if width <= 0 or spacing <= 0:
        raise PatternError("width or spacing")
    if end is None:
        end = max(1, half(spacing))
    if end <= 0:
        raise PatternError("end distance")
    if length < width + 2 * end:
        raise PatternError("too short for one tab")
    count = (length - 2 * end + spacing) // (width + spacing)
    if count == 1:
        starts = [half(length - width)]
    else:
        room = length - 2 * end - width
        starts = [end + round_up_half(Fraction(k * room, count - 1)) for k in range(count)]
    boundaries = []
    for start in starts:
        boundaries += [start, start + width]
    return "B", boundaries


def halves(length, spec):
    p, q = spec.get("split", [1, 2])
    if q <= 0:
        raise PatternError("split")
    return spec.get("first", "A"), [round_up_half(Fraction(length * p, q))]


def whole(length, spec):
    return spec.get("first", "A"), []
