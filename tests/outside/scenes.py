"""Random boxes and free assemblies, the same ones in every run: what the outside libraries are asked about."""

import random

import dryfit as df

from lengths import text, texts

MM = 1_000_000


def stock(thickness):
    return df.Stock(thickness=text(thickness), sheet=("2 m", "2 m"))


def boxes(how_many, seed=1729):
    """(name, sizes, thickness, box) of so many boxes, one in three with dividers."""
    rng = random.Random(seed)
    made = []
    while len(made) < how_many:
        t = rng.choice([rng.randrange(1 * MM, 8 * MM), 2_500_000, 3 * MM])
        size = [rng.randrange(7 * t, 40 * t) for _ in range(3)]
        asked = {"top": rng.choice(["closed", "open"])}
        if rng.random() < 0.4:
            asked["finger_width"] = text(rng.randrange(t, 5 * t))
        if len(made) % 3 == 2:
            asked["dividers"] = (rng.randrange(0, 3), rng.randrange(1, 3))
        try:
            box = df.box(outside=texts(size), stock=stock(t), **asked)
            box.panels
        except df.DryfitError:
            continue  # dividers too close together, a run too short
        made.append((f"box {len(made)}: {texts(size)} in {text(t)}, {asked}", size, t, box))
    return made


def planes(rng):
    """For each axis up to three sheets that boards may lie in."""
    out = []
    for _ in range(3):
        at, sheets = rng.randrange(20 * MM, 40 * MM), []
        for _ in range(rng.choice([1, 2, 2, 3])):
            t = rng.choice([2_500_000, 3 * MM, 4_100_001, 6 * MM])
            sheets.append((at, at + t))
            at += t + rng.randrange(25 * MM, 70 * MM)
        out.append(sheets)
    return out


def slabs(rng):
    """Boards as (normal, lo, hi); they end at each other's faces or a little beyond."""
    sheets = planes(rng)
    found = []
    for axis in range(3):
        for low, high in sheets[axis]:
            if rng.random() < 0.15:
                continue
            lo, hi = [low] * 3, [high] * 3
            for other in set(range(3)) - {axis}:
                first = rng.randrange(len(sheets[other]))
                last = rng.randrange(first, len(sheets[other]))
                lo[other] = sheets[other][first][0] - rng.choice([0, 0, 9 * MM, 12 * MM])
                hi[other] = sheets[other][last][1] + rng.choice([0, 0, 8 * MM, 11 * MM])
            found.append((axis, lo, hi))
    rng.shuffle(found)
    return found


def overlap(*some):
    """(lo, hi) of what slabs have in common, or None."""
    lo = [max(s[1][k] for s in some) for k in range(3)]
    hi = [min(s[2][k] for s in some) for k in range(3)]
    return (lo, hi) if all(a < b for a, b in zip(lo, hi)) else None


def assembly(some):
    asm = df.Assembly(stock=stock(3 * MM))
    for number, (axis, lo, hi) in enumerate(some):
        size = [hi[k] - lo[k] for k in range(3) if k != axis]
        asm.add(f"b{number}", normal="xyz"[axis], at=texts(lo), size=texts(size), stock=stock(hi[axis] - lo[axis]))
    return asm


def free_assemblies(how_many, seed=6174):
    """(name, slabs, assembly) of so many assemblies of three boards or more that meet."""
    rng = random.Random(seed)
    made = []
    while len(made) < how_many:
        some = slabs(rng)
        if len(some) < 3:
            continue
        asm = assembly(some)
        try:
            panels = asm.panels
        except df.DryfitError:
            continue  # a board that meets nothing, a run too short
        if all(panel.loops for panel in panels.values()):
            made.append((f"assembly {len(made)}", some, asm))
    return made
