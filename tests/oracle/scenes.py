"""Free assemblies used as test input. All of them are invented."""

import random
from fractions import Fraction

MM = 1_000_000


def nm(value):
    """Millimetres (whole, Fraction or decimal text) to nanometres, exactly."""
    exact = Fraction(value) * MM
    assert exact.denominator == 1
    return int(exact)


def b(name, normal, at, size, thickness):
    return {"name": name, "normal": normal, "at": [nm(x) for x in at], "size": [nm(x) for x in size], "thickness": nm(thickness)}


def fingers(**params):
    return {"kind": "fingers", **params}


def tabs(width, spacing, end=None):
    return {"kind": "tabs", "width": nm(width), "spacing": nm(spacing), "end": None if end is None else nm(end)}


def halves(p=1, q=2, first="A"):
    return {"kind": "halves", "split": [p, q], "first": first}


def whole(first="A"):
    return {"kind": "whole", "first": first}


def corner(t1=3, t2=3, length=100):
    return [b("one", "x", (0, 0, 0), (80, length), t1), b("two", "y", (0, 0, 0), (60, length), t2)]


def rack(shelves, t=6, ts=6, width=200, depth=100, height=240, back=None):
    """Two sides and shelves through both; with a back the shelves reach into the corners."""
    out = [b("left", "x", (0, 0, 0), (depth, height), t), b("right", "x", (width - t, 0, 0), (depth, height), t)]
    if back:
        out.append(b("back", "y", (0, depth - back, 0), (width, height), back))
    for k, z in enumerate(shelves, 1):
        out.append(b(f"shelf{k}", "z", (0, 0, z), (width, depth), ts))
    return out


def cross(p, q, t1=3, t2=3):
    """Two boards through each other; p and q are their extents along z."""
    return [
        b("p", "x", (50, 0, p[0]), (100, Fraction(p[1]) - p[0]), t1),
        b("q", "y", (0, 40, q[0]), (120, Fraction(q[1]) - q[0]), t2),
    ]


def star(names, at, ends):
    """Three boards, each through the middle of the others."""
    slabs = {
        "x": b("x", "x", (at[0], 0, 0), (ends[1], ends[2]), 4),
        "y": b("y", "y", (0, at[1], 0), (ends[0], ends[2]), 4),
        "z": b("z", "z", (0, 0, at[2]), (ends[0], ends[1]), 4),
    }
    return [slabs[name] for name in names]


def tray(name, lo, hi, t, base_at=None):
    """Four walls and a base; the base may sit higher than the walls' lower edge."""
    x0, y0, z0 = lo
    x1, y1, z1 = hi
    zb = z0 if base_at is None else base_at
    return [
        b(name + "-front", "y", (x0, y0, z0), (x1 - x0, z1 - z0), t),
        b(name + "-back", "y", (x0, y1 - t, z0), (x1 - x0, z1 - z0), t),
        b(name + "-left", "x", (x0, y0, z0), (y1 - y0, z1 - z0), t),
        b(name + "-right", "x", (x1 - t, y0, z0), (y1 - y0, z1 - z0), t),
        b(name + "-base", "z", (x0, y0, zb), (x1 - x0, y1 - y0), t),
    ]


def grid(xs, ys, heights_x, heights_y, t=3):
    out = [b(f"x{k}", "x", (x, 0, h[0]), (100, h[1] - h[0]), t) for k, (x, h) in enumerate(zip(xs, heights_x), 1)]
    out += [b(f"y{k}", "y", (0, y, h[0]), (150, h[1] - h[0]), t) for k, (y, h) in enumerate(zip(ys, heights_y), 1)]
    return out


def chosen():
    """(name, boards, joints)."""
    bare = rack([40, 120, 200])
    backed = rack([40, 117, 200], back=4)
    return [
        ("corner", corner(), []),
        ("corner-odd", corner("3.000001", "6.35", "99.999989"), []),
        ("corner-count", corner(), [["two", "one", fingers(count=8, first="B")]]),
        ("corner-even", corner(3, 4), [["one", "two", fingers(width=nm(8), parity="even", least=nm(2))]]),
        ("corner-tabs", corner(), [["two", "one", tabs(7, 11)]]),
        ("corner-halves", corner(), [["one", "two", halves(2, 7, "B")]]),
        ("corner-whole", corner(), [["two", "one", whole()]]),
        ("tee", [b("side", "x", (0, 0, 0), (90, 120), 5), b("shelf", "z", (0, 0, 50), (140, 90), 3)], []),
        ("tee-short", [b("side", "x", (0, 0, 0), (5, 60), 5), b("shelf", "z", (0, 0, 50), (140, 5), 3)], []),
        ("tee-fingers", [b("shelf", "z", (0, 0, 50), (140, 90), 3), b("side", "x", (0, 5, 0), (70, 120), 5)],
         [["shelf", "side", fingers(count=6)]]),
        ("rack", bare, []),
        ("rack-tabs", bare, [
            ["shelf1", "left", tabs(20, 40)], ["left", "shelf2", tabs(20, 40)], ["shelf3", "right", tabs(30, 20, 7)],
            ["right", "shelf1", tabs(60, 30)],
        ]),
        ("rack-thick", rack([31, 99, 170], t=9, ts=4), []),
        ("rack-back", backed, []),
        ("rack-back-tabs", backed, [
            ["left", "shelf1", tabs(15, 20)], ["shelf2", "back", tabs(20, 40)], ["left", "back", fingers(width=nm(11), least=nm(1))],
            ["back", "right", tabs(17, 19)],
        ]),
        ("rack-back-halves", backed, [["back", "left", halves(1, 2)], ["right", "back", whole("B")]]),
        ("rack-slivers", rack([20, "41.5", 83, 88, "130.000001", 160, 167], t=5, ts=3, height=203, back=5), []),
        ("rack-two-slivers", rack([60, 70, 100], t=6, ts=3, height=182, back=6), [["left", "back", fingers(count=14, least=nm(6))]]),
        ("rack-ends", rack([0, 3, 90, 93, 194, 197], t=5, ts=3, height=200, back=3), []),
        ("cross", cross((0, 60), (0, 60)), []),
        ("cross-lower", cross((0, 60), (0, 40), 3, 5), []),
        ("cross-high", cross((20, 80), (0, 60)), []),
        ("cross-split", cross((0, "60.000001"), (0, "60.000001")), [["q", "p", halves(1, 3)]]),
        ("cross-split-b", cross((0, 60), (0, 60)), [["q", "p", halves(355, 452, "B")]]),
        ("cross-through", cross((20, 50), (0, 80), 3, 4), []),
        ("cross-through-later", cross((0, 80), (20, 50), 3, 4), []),
        ("grid", grid([20, 60, 110], [30, 65], [(0, 50), (0, 50), (0, 30)], [(0, 50), (0, 42)]), [["y1", "x3", halves(2, 5)]]),
        ("star", star("xyz", (48, 48, 48), (100, 100, 100)), []),
        ("star-other", star("zxy", (30, 48, 61), (100, 110, 120)), [["y", "z", halves(1, 5, "B")], ["x", "z", whole("B")]]),
        ("tray-in-tray", tray("outer", (0, 0, 0), (150, 110, 50), 3) + tray("inner", (3, 20, 3), (90, 107, 40), 2), []),
        ("tray-through-tray", tray("outer", (0, 0, 0), (150, 110, 50), 3) + tray("inner", (40, 30, 0), (100, 80, 40), 2, 10),
         [["inner-left", "outer-base", tabs(9, 6)]]),
    ]


def wrong():
    """(name, boards, joints, error)."""
    return [
        ("same-place", [b("one", "x", (0, 0, 0), (50, 50), 3), b("two", "x", (0, 0, 0), (50, 50), 3)], [], "same place"),
        ("same-place-partly", [b("one", "z", (0, 0, 0), (50, 50), 3), b("two", "z", (49, 49, "2.999999"), (50, 50), 3)], [], "same place"),
        ("blind-housing", [b("side", "x", (0, 0, 0), (80, 80), 6), b("shelf", "z", (3, 0, 30), (100, 80), 3)], [], "blind"),
        ("blind-edge", [b("side", "x", (0, 0, 0), (80, "31.5"), 6), b("shelf", "z", (0, 0, 30), (100, 80), 3)], [], "blind"),
        ("blind-by-one", [b("side", "x", (0, 0, 0), (80, 80), 6), b("shelf", "z", ("0.000001", 0, 30), (100, 80), 3)], [], "blind"),
        ("meets-nothing", corner() + [b("far", "z", (0, 0, 200), (50, 50), 3)], [], "meets nothing"),
        ("only-touches", corner() + [b("lid", "z", (0, 0, 100), (50, 50), 3)], [], "meets nothing"),
        ("tab-too-wide", rack([40]), [["shelf1", "left", tabs(90, 40)]], "pattern"),
        ("too-many-fingers", corner(), [["one", "two", fingers(count=34)]], "pattern"),
        ("too-short-corner", corner(3, 8, 7), [], "pattern"),
    ]


def drawn(rng):
    """Boards on random planes; they end at each other's faces or a little beyond."""
    planes = []
    for _ in range(3):
        at, found = rng.randrange(20, 40), []
        for _ in range(rng.choice([1, 2, 2, 3])):
            t = rng.choice([3, 4, 6])
            found.append((at, at + t))
            at += t + rng.randrange(25, 60)
        planes.append(found)
    boards = []
    for axis in range(3):
        for low, high in planes[axis]:
            if rng.random() < 0.2:
                continue
            at, size = [0, 0, 0], []
            at[axis] = low
            for other in range(3):
                if other == axis:
                    continue
                faces = planes[other]
                first = rng.randrange(len(faces))
                last = rng.randrange(first, len(faces))
                start = faces[first][0] - rng.choice([0, 0, 9, 12])
                end = faces[last][1] + rng.choice([0, 0, 8, 11])
                at[other] = start
                size.append(end - start)
            boards.append(b(f"b{len(boards) + 1}", "xyz"[axis], at, size, high - low))
    rng.shuffle(boards)
    return boards


def all_drawn(how_many):
    rng = random.Random(1618)
    return [(f"drawn{k}", drawn(rng), []) for k in range(1, how_many + 1)]
