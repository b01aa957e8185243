"""The cases of splices.json: two boards end to end, long boards of several pieces, rings, butterfly keys."""

import random
from fractions import Fraction

import splices
from rounding import half, round_up_half

MM = 1_000_000
THICK = 3 * MM


def tails(count, slope=(1, 8), half_="pins", pin=None):
    return {"kind": "tails", "count": count, "slope": list(slope), "half": half_, "pin": pin}


def board(name, normal, at, size, thickness=THICK):
    return {"name": name, "normal": normal, "at": list(at), "size": list(size), "thickness": thickness}


class Plane:
    """One of the six ways to lay a depth and a run into the assembly, at a place of its own."""

    def __init__(self, number):
        self.normal = number % 3
        self.deep, self.run = [axis for axis in range(3) if axis != self.normal][:: 1 if number < 3 else -1]
        self.at = [11 * MM + 1, -7 * MM - 3, 5 * MM]

    def board(self, name, deep, run, thickness=THICK):
        """The board over two intervals."""
        at = list(self.at)
        sizes = {}
        for axis, (low, high) in ((self.deep, deep), (self.run, run)):
            at[axis] += low
            sizes[axis] = high - low
        return board(name, "xyz"[self.normal], at, [sizes[axis] for axis in sorted(sizes)], thickness)


def pair(plane, deep, run, spec, names=("one", "other"), first="one", beyond=(0, 0, 0, 0)):
    """Two boards that reach into each other by `deep`; `beyond`: how far one, then the other, goes past the run below and above."""
    below, above, other_below, other_above = beyond
    boards = [
        plane.board("one", (0, 60 * MM + 7), (-below, run + above)),
        plane.board("other", (60 * MM + 7 - deep, 131 * MM), (-other_below, run + other_above)),
    ]
    if first != "one":
        boards.reverse()
    return {"boards": boards, "joints": [[*names, spec]] if spec else [], "keys": []}


def long_board(length, width, thickness, pieces, deep, joint):
    """A long board of several pieces, as `df.splice` makes it."""
    pitches = joint["count"] + (joint["half"] == "tails")
    d = deep or min(max(width // (2 * pitches), thickness), 200 * MM)
    starts = [round_up_half(Fraction(i * (length - d), pieces)) for i in range(pieces + 1)]
    boards = [
        board(f"piece-{i + 1}", "z", (starts[i], 0, 0), (starts[i + 1] + d - starts[i], width), thickness) for i in range(pieces)
    ]
    recipe = {"make": "splice", "length": length, "width": width, "thickness": thickness, "pieces": pieces, "depth": deep, "joint": joint}
    return {"boards": boards, "joints": [[f"piece-{i}", f"piece-{i + 1}", joint] for i in range(1, pieces)], "keys": [], "recipe": recipe}


def ring(outside, width, thickness, deep, joint):
    """Two stiles and two rails, as `df.ring` makes them."""
    (x, y), d = outside, deep or half(width)
    rail = (x - 2 * (width - d), width)
    boards = [
        board("left", "z", (0, 0, 0), (width, y), thickness), board("right", "z", (x - width, 0, 0), (width, y), thickness),
        board("bottom", "z", (width - d, 0, 0), rail, thickness), board("top", "z", (width - d, y - width, 0), rail, thickness),
    ]
    joints = [[rail, stile, joint] for rail in ("bottom", "top") for stile in ("left", "right")]
    recipe = {"make": "ring", "outside": list(outside), "width": width, "thickness": thickness, "depth": deep, "joint": joint}
    return {"boards": boards, "joints": joints, "keys": [], "recipe": recipe}


def keyed(plane, seam, keys, names=("one", "other")):
    """Two boards that touch, the upper one wider, and keys over their seam: (length, width, at, slope)."""
    boards = [plane.board("one", (0, 60 * MM), (0, seam)), plane.board("other", (60 * MM, 131 * MM), (0, seam + 9 * MM))]
    made = [
        {"name": f"key-{k}", "between": list(names), "length": length, "width": width, "at": at, "slope": list(slope)}
        for k, (length, width, at, slope) in enumerate(keys, 1)
    ]
    return {"boards": boards, "joints": [], "keys": made}


def chosen():
    ways = [Plane(number) for number in range(6)]
    for plane in ways:
        yield pair(plane, 15 * MM, 60 * MM, tails(1, (1, 6)))
        yield pair(plane, 12_345_679, 71_234_567, tails(3, (1, 7), "tails", 5_000_003), ("other", "one"))
        yield pair(plane, 14_999_999, 80 * MM, tails(2, (5, 24)), first="other", beyond=(2 * MM + 1, 3 * MM, 0, 0))
        yield pair(plane, 9_000_001, 47_000_001, tails(2, (1, 8), "tails"), ("other", "one"), beyond=(0, 0, 1 * MM, 4 * MM + 1))
        yield keyed(plane, 80 * MM, [(30 * MM + 2, 20 * MM, 40 * MM, (1, 7))], ("other", "one"))
    yield keyed(ways[0], 90 * MM, [(31_000_001, 15_000_001, 20_000_003, (1, 6)), (24_000_003, 13_000_001, 61_000_001, (3, 20))])
    for deep, run in [(12 * MM, 60 * MM), (30 * MM, 60 * MM), (13 * MM + 1, 91 * MM), (40 * MM, 25 * MM), (8 * MM, 20 * MM - 1), (20 * MM, 100 * MM)]:
        yield pair(ways[run % 6], deep, run, None)
    # Rise that is nothing, one, two, three; pins and tails that come down to the last nanometre.
    for slope in [(1, 1_000_000), (1, 400_000), (3, 1_000_000), (1, 1), (2, 3)]:
        yield pair(ways[2], 1 * MM, 30 * MM, tails(1, slope))
    for pin in (2_500_000, 2_500_001, 2_500_002, 7_499_999, 7_500_000, 9_999_998, 9_999_999, 10 * MM):
        yield pair(ways[3], 20 * MM, 30 * MM, tails(3, (1, 8), "pins", pin))
        yield pair(ways[3], 20 * MM, 30 * MM, tails(2, (1, 8), "tails", pin))
    for rise in (7_499_999, 7_500_000, 7_500_001):
        yield pair(ways[1], 4 * rise, 60 * MM, tails(4, (1, 4)))
    yield long_board(700 * MM, 80 * MM, THICK, 2, None, tails(2))
    yield long_board(1_200_000_001, 90 * MM + 1, THICK, 3, None, tails(2, (1, 6), "tails"))
    yield long_board(2_000_000_003, 120 * MM, 18 * MM, 5, None, tails(7, (1, 8), "pins", 6 * MM))
    yield long_board(500 * MM, 61 * MM, THICK, 4, 22_222_223, tails(2, (1, 9)))
    yield long_board(333_333_333, 400 * MM, 2_500_000, 2, 9 * MM, tails(20, (1, 7)))
    yield ring((400 * MM, 300 * MM), 50 * MM, THICK, None, tails(1, (1, 6)))
    yield ring((123_456_789, 98_765_431), 21_000_001, 2_999_957, None, tails(2, (1, 7), "tails"))
    yield ring((200 * MM, 200 * MM), 41 * MM, THICK, 13_000_001, tails(2, (1, 8), "pins", 7 * MM))


def drawn(rng, how_many):
    for number in range(how_many):
        deep, run = rng.randrange(4 * MM, 25 * MM), rng.randrange(40 * MM, 160 * MM)
        pin = rng.choice([None, None, rng.randrange(3 * MM, 9 * MM)])
        spec = tails(rng.randrange(1, 6), (rng.randrange(1, 4), rng.randrange(12, 31)), rng.choice(["pins", "tails"]), pin)
        names = rng.sample(["one", "other"], 2)
        one_is_wider = rng.choice([True, False])
        beyond = [rng.choice([0, rng.randrange(1 * MM, 9 * MM)]) * (k // 2 == one_is_wider) for k in range(4)]
        yield pair(Plane(number % 6), deep, run, spec, names, rng.choice(["one", "other"]), beyond)


FITS = [(0, 0), (100 * 1000, 200 * 1000), (50_001, 180_003), (-20_001, 99_999), (1, 1), (0, 150_001), (133_333, 0), (-1, 2)]


def splice_cases():
    cases = []
    for number, case in enumerate([*chosen(), *drawn(random.Random(8128), 40)]):
        flank, kerf = FITS[number % len(FITS)]
        case = {"name": f"splice{number + 1}", **case, "flank": flank, "kerf": kerf}
        try:
            panels = splices.work_out(case)
        except splices.SpliceError as error:
            case["error"] = str(error)
        else:
            if panels is None:
                case["flank"], case["kerf"] = 0, 0
                panels = splices.work_out(case)
            case["panels"] = [dict(zip(("name", "loop", "path", "finished"), panel)) for panel in panels]
        cases.append(case)
    return cases
