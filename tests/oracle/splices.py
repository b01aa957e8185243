"""Boards of one plane that overlap end to end: the outlines of both, nominal and moved by allowance and kerf.

Everything is worked out on exact numbers (Fraction, and Decimal with 60 digits where a root is taken) and rounded once, at the end.
"""

from decimal import Decimal, localcontext
from fractions import Fraction
from itertools import combinations

from outline import clean, doubled_area, from_lowest
from rounding import half, round_up_half


class SpliceError(ValueError):
    """No such pattern."""


class Board:
    def __init__(self, index, name, normal, at, size, thickness):
        self.index, self.name, self.normal, self.thickness = index, name, "xyz".index(normal), thickness
        self.plane = [axis for axis in range(3) if axis != self.normal]
        self.lo, self.hi = list(at), list(at)
        self.hi[self.normal] += thickness
        for axis, length in zip(self.plane, size):
            self.hi[axis] += length


def tails(run, deep, spec, by_first):
    """Whether the tails' side owns the first span, and the boundaries at mid-depth; `by_first`: the tails are those of the board added first."""
    slope = Fraction(*spec["slope"])
    rise = round_up_half(slope * deep)
    if spec["kind"] == "key":
        pitches, half_pins, whole = 1, True, Fraction(run - 2 * (half(rise) if by_first else rise - half(rise)))
    else:
        half_pins = spec["half"] == "pins"
        pitches = spec["count"] if half_pins else spec["count"] + 1
        pitch = Fraction(run, pitches)
        pin = spec["pin"]
        if pin is not None and pin >= run // pitches:
            raise SpliceError("a pin as wide as the pitch")
        # The whole one in the middle of a pitch: a tail between half pins, a pin between half tails.
        whole = pitch / 2 if pin is None else pitch - pin if half_pins else Fraction(pin)
    boundaries = []
    for k in range(pitches):
        middle = Fraction((2 * k + 1) * run, 2 * pitches)
        boundaries += [round_up_half(middle - whole / 2), round_up_half(middle + whole / 2)]
    # A width loses half the rise on both sides at its neck, the greater half if the board added first owns it; those at the ends on one side.
    middle_is_first = by_first if half_pins else not by_first
    lost = [half(rise), rise - half(rise)]
    necks = [whole // 1 - 2 * lost[middle_is_first]]
    if spec["kind"] != "key":
        other = 2 * lost[not middle_is_first]
        necks += [2 * boundaries[0] - other, 2 * (run - boundaries[-1]) - other]
        if pitches > 1:
            necks.append((Fraction(run, pitches) - whole) // 1 - other)
    if min(necks) <= 0:
        raise SpliceError("flanks meet")
    return not half_pins, boundaries


class Splice:
    """The block of two boards: p was added first, the tails belong to `a`."""

    def __init__(self, p, q, a, spec):
        self.p, self.q = p, q
        overlap = {axis: (max(p.lo[axis], q.lo[axis]), min(p.hi[axis], q.hi[axis])) for axis in p.plane}
        # Along the depth each of the two ends inside the other; along the run one holds the other's whole width.
        (self.deep_axis,) = [axis for axis in p.plane if (p.lo[axis] - q.lo[axis]) * (p.hi[axis] - q.hi[axis]) > 0]
        self.run_axis = sum(p.plane) - self.deep_axis
        self.deep, self.run = overlap[self.deep_axis], overlap[self.run_axis]
        deep, run = self.deep[1] - self.deep[0], self.run[1] - self.run[0]
        if spec is None:
            count = max(1, round_up_half(Fraction(run, 2 * deep)))
            a, spec = p, {"kind": "tails", "count": count, "slope": [1, 8], "half": "pins", "pin": None}
        tails_first, boundaries = tails(run, deep, spec, a is p)
        b = q if a is p else p
        owner = a if tails_first else b
        self.spans = []
        for start, end in zip([0, *boundaries], [*boundaries, run]):
            self.spans.append((self.run[0] + start, self.run[0] + end, owner))
            owner = b if owner is a else a
        self.rise = round_up_half(Fraction(*spec["slope"]) * deep)

    def mate(self, board):
        return self.q if board is self.p else self.p

    def at_level(self, index, level):
        """Where the boundary behind span `index` lies at one level of the depth: p's spans are wide at p's tips and narrow at q's."""
        _, end, owner = self.spans[index]
        tips = self.deep[1] if self.p.hi[self.deep_axis] == self.deep[1] else self.deep[0]
        widens = half(self.rise) if level == tips else -(self.rise - half(self.rise))
        return end + (widens if owner is self.p else -widens)


def ring_of(board, splices):
    """The nominal outline, counter-clockwise: a list of (u, v, mate of the edge that leaves it or None)."""
    own = [s for s in splices if board in (s.p, s.q)]
    (deep_axis,) = {s.deep_axis for s in own}
    run_axis = sum(board.plane) - deep_axis
    ends = [one_end(board, own, deep_axis, run_axis, high) for high in (False, True)]
    sides = [one_side(board, own, deep_axis, run_axis, upper) for upper in (False, True)]
    # Along the lower side to the high end, across it, back along the upper side, across the low end.
    around = sides[0] + ends[1] + turned_back(sides[1]) + turned_back(ends[0])
    points = [((d, t) if deep_axis == board.plane[0] else (t, d), mate) for t, d, mate in around]
    if deep_axis != board.plane[0]:
        # Mirrored: go around the other way.
        points = [(points[k][0], points[k - 1][1]) for k in range(len(points) - 1, -1, -1)]
    return cleaned([(u - board.lo[board.plane[0]], v - board.lo[board.plane[1]], mate) for (u, v), mate in points])


def turned_back(line):
    """The same line the other way: the mate belongs to the edge that leaves a point, the last point has none of its own."""
    mates = [mate for *_, mate in line[:-1]]
    back = [(t, d) for t, d, _ in reversed(line)]
    return [(t, d, mate) for (t, d), mate in zip(back, [*reversed(mates), None])]


def one_end(board, splices, deep_axis, run_axis, high):
    """The line across one end of the board, from its lower to its upper side, as (t, d, mate of the edge that leaves)."""
    outer = board.hi[deep_axis] if high else board.lo[deep_axis]
    here = sorted((s for s in splices if s.deep[1 if high else 0] == outer), key=lambda s: s.run)
    line, free_from = [], board.lo[run_axis]
    for s in here:
        inner = s.deep[0] if high else s.deep[1]
        levels = [outer if owner is board else inner for *_, owner in s.spans]
        start, end = s.run
        if start > free_from:
            line += [(free_from, outer, None), (start, outer, s.mate(board))]
        line.append((start, levels[0], s.mate(board)))
        for k in range(len(s.spans) - 1):
            line += [(s.at_level(k, levels[k]), levels[k], s.mate(board)), (s.at_level(k, levels[k + 1]), levels[k + 1], s.mate(board))]
        line.append((end, levels[-1], s.mate(board)))
        free_from = end
    if free_from < board.hi[run_axis] or not here:
        line += [(free_from, outer, None), (board.hi[run_axis], outer, None)]
    return line


def one_side(board, splices, deep_axis, run_axis, upper):
    """The line along one side of the board, from its low to its high end: free, but for a mate that is wider there."""
    t = board.hi[run_axis] if upper else board.lo[run_axis]
    low, high = board.lo[deep_axis], board.hi[deep_axis]
    beside = []
    for s in splices:
        if s.run[1 if upper else 0] != t:
            continue
        mate = s.mate(board)
        wider = mate.hi[run_axis] > t if upper else mate.lo[run_axis] < t
        if s.spans[-1 if upper else 0][2] is board:
            beside += [(*s.deep, mate)] if wider else []
        elif s.deep[0] == board.lo[deep_axis]:
            low = s.deep[1]
        else:
            high = s.deep[0]
    line = []
    for start, end, mate in sorted(beside, key=lambda stretch: stretch[:2]):
        if low < start:
            line.append((t, low, None))
        line.append((t, start, mate))
        low = end
    if low < high:
        line.append((t, low, None))
    line.append((t, high, None))
    return line


def direction(p, q):
    return q[0] - p[0], q[1] - p[1]


def onwards(d, e):
    return d[0] * e[1] == d[1] * e[0] and d[0] * e[0] + d[1] * e[1] > 0


def cleaned(ring):
    """Without points that stand twice, ways there and back, and points between two edges of one mate in one direction."""
    ring = list(ring)
    k = 0
    while k < len(ring):
        before, point, after = ring[k - 1], ring[k], ring[(k + 1) % len(ring)]
        d, e = direction(before, point), direction(point, after)
        straight = d[0] * e[1] == d[1] * e[0]
        back = straight and d[0] * e[0] + d[1] * e[1] < 0
        if e == (0, 0) or back or (straight and d != (0, 0) and before[2] is point[2]):
            del ring[k]
            k = 0
        else:
            k += 1
    return ring


def moved(ring, amounts):
    """The exact outline after every edge has moved outwards, to the right of travel, by its amount: points as pairs of Decimals.

    `ring` holds pairs of numbers. Where collinear edges part, the outline steps.
    """
    n = len(ring)
    edges = []
    for k in range(n):
        x, y = (Decimal(value) for value in direction(ring[k], ring[(k + 1) % n]))
        length = (x * x + y * y).sqrt()
        edges.append((x, y, amounts[k] * y / length, -amounts[k] * x / length))
    out = []
    for k in range(n):
        px, py = map(Decimal, ring[k][:2])
        (ax, ay, amx, amy), (bx, by, bmx, bmy) = edges[k - 1], edges[k]
        turn = ax * by - ay * bx
        if turn == 0:
            assert ax * bx + ay * by > 0, "an edge turns back"
            if amounts[k - 1] != amounts[k]:
                out += [(px + amx, py + amy), (px + bmx, py + bmy)]
            continue
        # On the first line at px + amx + s ax, so that the second line is met.
        s = ((bmx - amx) * by - (bmy - amy) * bx) / turn
        out.append((px + amx + s * ax, py + amy + s * ay))
    return out


def rounded(points):
    """Halves upwards."""
    return [tuple(int((value + Decimal("0.5")).to_integral_value("ROUND_FLOOR")) for value in point) for point in points]


def cut(board, ring, flank, kerf):
    """The cutter's path and what comes off it, each rounded once; None where an edge would be used up or run through another."""
    shifts = []
    for *_, mate in ring:
        first = mate is not None and board.index < mate.index
        shifts.append(0 if mate is None else -half(flank) if first else half(flank) - flank)
    with localcontext() as context:
        context.prec = 60
        part = moved(ring, [Decimal(shift) for shift in shifts])
        grown = moved(part, [Decimal(half(kerf))] * len(part))
        path = rounded(grown)
        finished = rounded(moved(path, [Decimal(-half(kerf))] * len(path)))
    for made in (grown, path, finished):
        if len(made) != len(part) or any(turned(part, made, k) for k in range(len(part))):
            return None
    if crosses(path) or crosses(finished):
        return None
    return from_lowest(path), from_lowest(finished)


def crosses(points):
    """Any edge with any other that is not its neighbour: both have the other's ends on either side, or touch them, or lie on each other."""
    edges = list(zip(points, [*points[1:], points[0]]))

    def side(a, b, c):
        value = (b[0] - a[0]) * (c[1] - a[1]) - (b[1] - a[1]) * (c[0] - a[0])
        return (value > 0) - (value < 0)

    for (i, (a, b)), (j, (c, d)) in combinations(enumerate(edges), 2):
        if j - i == 1 or (i, j) == (0, len(edges) - 1):
            continue
        apart = any(max(a[k], b[k]) < min(c[k], d[k]) or max(c[k], d[k]) < min(a[k], b[k]) for k in (0, 1))
        if not apart and side(a, b, c) * side(a, b, d) <= 0 and side(c, d, a) * side(c, d, b) <= 0:
            return True
    return False


def turned(one, other, k):
    """The edge that arrives at point k has lost its length or its direction."""
    (x0, y0), (x1, y1) = direction(one[k - 1], one[k]), direction(other[k - 1], other[k])
    return x0 * x1 + y0 * y1 <= 0


def key_board(boards, key):
    """The slab of a butterfly key: as long across the seam as is even, `at` its middle along it."""
    p, q = (next(b for b in boards if b["name"] == name) for name in key["between"])
    p, q = (Board(0, b["name"], b["normal"], b["at"], b["size"], b["thickness"]) for b in (p, q))
    across = next(axis for axis in p.plane if p.hi[axis] == q.lo[axis] or q.hi[axis] == p.lo[axis])
    along = sum(p.plane) - across
    at = list(p.lo)
    at[across] = min(p.hi[across], q.hi[across]) - half(key["length"])
    at[along] = max(p.lo[along], q.lo[along]) + key["at"] - half(key["width"])
    sizes = {across: 2 * half(key["length"]), along: key["width"]}
    return {"name": key["name"], "normal": "xyz"[p.normal], "at": at, "size": [sizes[axis] for axis in p.plane], "thickness": p.thickness}


def work_out(case):
    """[(name, nominal loop, path, finished)] of a case of boards, joints and keys; None where an edge would be used up."""
    rows, specs = list(case["boards"]), {frozenset((p, q)): (p, spec) for p, q, spec in case["joints"]}
    for key in case["keys"]:
        rows.append(key_board(case["boards"], key))
        for name in key["between"]:
            specs[frozenset((key["name"], name))] = (key["name"], {"kind": "key", "slope": key["slope"]})
    boards = [Board(i, b["name"], b["normal"], b["at"], b["size"], b["thickness"]) for i, b in enumerate(rows)]
    splices = []
    for p, q in combinations(boards, 2):
        if all(max(p.lo[axis], q.lo[axis]) < min(p.hi[axis], q.hi[axis]) for axis in range(3)):
            name, spec = specs.get(frozenset((p.name, q.name)), (p.name, None))
            splices.append(Splice(p, q, p if p.name == name else q, spec))
    rings = [ring_of(board, splices) for board in boards]
    slabs = sum((b.hi[b.plane[0]] - b.lo[b.plane[0]]) * (b.hi[b.plane[1]] - b.lo[b.plane[1]]) for b in boards)
    shared = sum((s.deep[1] - s.deep[0]) * (s.run[1] - s.run[0]) for s in splices)
    assert sum(doubled_area(clean(ring)) for ring in rings) == 2 * (slabs - shared), "the boards do not fill their slabs once"
    out = []
    for board, ring in zip(boards, rings):
        made = cut(board, ring, case["flank"], case["kerf"])
        if made is None:
            return None
        out.append((board.name, clean(ring), *made))
    return out
