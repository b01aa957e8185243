"""Sweeps over arrays beside numpy in the same process: the gaps of a million fits, and what thousands of closed boxes come to.

numpy gets four ways: a box at a time with its outlines as arrays, all boxes of like fingers at once with their outlines, formulas without any outline, and
formulas with a packer. Each is checked against dryfit before it is timed. Prints a Markdown table; times are the best of several rounds.
"""

import time
from collections.abc import Callable

import dryfit as df
import numpy as np

MM = 1_000_000
T, KERF, REAL = 3 * MM, 200_000, 230_000
HALF = KERF // 2
STOCK = df.Stock(thickness=3, sheet=(600, 400), border=8, gap=1)
ROOM = np.array([600, 400]) * MM - 2 * 8 * MM - 2 * HALF + MM
Ints = np.ndarray


def best(work: Callable[[], object], rounds: int = 5) -> float:
    """The shortest of some rounds, in seconds of this process: others on the machine do not count."""
    times = []
    for _ in range(rounds):
        start = time.process_time()
        work()
        times.append(time.process_time() - start)
    return min(times)


def whole(mm: np.ndarray) -> Ints:
    return np.rint(mm * MM).astype(np.int64)


# Gaps.
def gaps(thickness: np.ndarray, kerf: np.ndarray, board: np.ndarray, cut: np.ndarray) -> list[np.ndarray]:
    further = (whole(cut) >> 1) - (whole(kerf) >> 1)
    thinner = whole(thickness) - whole(board)
    flank, shoulder = 50_000 + 2 * further, 100_000 + further
    cheek = shoulder + further + thinner
    least, most = np.minimum(np.minimum(flank, shoulder), cheek), np.maximum(np.maximum(flank, shoulder), cheek)
    return [column / MM for column in (flank, shoulder, cheek, thinner - further, least, most)]


# Boxes: counts of fingers, boundaries, outlines.
def counts(runs: Ints) -> Ints:
    """The odd number nearest to a third of the run in boards, the smaller one on a tie, at most as many as have room."""
    wide = 3 * T
    lower = np.maximum(1, (runs // wide - 1) // 2 * 2 + 1)
    nearest = np.where(runs * 2 > wide * (2 * lower + 2), lower + 2, lower)
    room = runs // T
    return np.minimum(nearest, room - 1 + room % 2)


def side(run: Ints, count: int, own: bool) -> tuple[Ints, Ints]:
    """Along and across of one edge's vertices, for many runs of as many fingers: (m, 2 (count - 1)). Half a kerf goes around."""
    index = np.arange(1, count)
    at = T + (2 * index * run[:, None] + count) // (2 * count)
    leaves = (index % 2 == 1) == own
    along = at + np.where(leaves, HALF, -HALF)
    across = np.where(np.stack([leaves, ~leaves], axis=1).ravel(), -HALF, T - HALF)
    return np.repeat(along, 2, axis=1), np.broadcast_to(across, (len(run), 2 * (count - 1)))


def measure(width: Ints, height: Ints, fingers: tuple[int, int], own: tuple[bool, bool]) -> tuple[Ints, Ints]:
    """Length of the path, and area of the part, of panels that own their corners with both first fingers, or lose them with one or both."""
    u, lu = side(width - 2 * T, fingers[0], own[0])
    v, lv = side(height - 2 * T, fingers[1], own[1])
    w, h = width[:, None], height[:, None]
    # A corner stands out where the span beside it on the other side does.
    cu, cv = (-HALF if own[1] else T - HALF), (-HALF if own[0] else T - HALF)
    if own == (True, False):
        cu, cv = T - HALF, -HALF
    one = np.ones_like(w)
    x = np.concatenate([cu * one, u, w - cu, w - lv, w - cu, u[:, ::-1], cu * one, lv[:, ::-1]], axis=1)
    y = np.concatenate([cv * one, lu, cv * one, v, h - cv, h - lu[:, ::-1], h - cv, v[:, ::-1]], axis=1)
    length = np.abs(np.diff(x, append=x[:, :1])).sum(axis=1) + np.abs(np.diff(y, append=y[:, :1])).sum(axis=1)
    area = np.abs((x.astype(float) * np.diff(y.astype(float), append=y[:, :1])).sum(axis=1))
    return length, area - HALF * length.astype(float) + 4.0 * HALF * HALF


def by_outlines(sizes: Ints, fingers: Ints) -> tuple[Ints, np.ndarray]:
    """Boxes whose runs have as many fingers."""
    (x, y, z), (a, b, c) = sizes.T, map(int, fingers)
    front, left, base = measure(x, z, (a, c), (True, True)), measure(y, z, (b, c), (True, False)), measure(x, y, (a, b), (False, False))
    return 2 * (front[0] + left[0] + base[0]), 2 * (front[1] + left[1] + base[1])


def one_by_one(sizes: Ints) -> tuple[np.ndarray, np.ndarray]:
    fingers = counts(sizes - 2 * T)
    made = [by_outlines(sizes[row : row + 1], fingers[row]) for row in range(len(sizes))]
    return np.concatenate([length for length, _ in made]), np.concatenate([area for _, area in made])


def by_groups(sizes: Ints) -> tuple[np.ndarray, np.ndarray]:
    fingers, place = np.unique(counts(sizes - 2 * T), axis=0, return_inverse=True)
    order = np.argsort(place.ravel(), kind="stable")
    ends = np.cumsum(np.bincount(place.ravel()))[:-1]
    length, area = np.empty(len(sizes), np.int64), np.empty(len(sizes))
    for count, rows in zip(fingers, np.split(order, ends)):
        length[rows], area[rows] = by_outlines(sizes[rows], count)
    return length, area


def by_formulas(sizes: Ints) -> tuple[np.ndarray, np.ndarray]:
    """Rim of the bounding rectangle, two depths a notch, four kerfs a panel; the shell's volume by its thickness. For three fingers a run or more."""
    x, y, z = sizes.T
    a, b, c = (counts(sizes - 2 * T) // 2).T
    rim = 4 * (x + z + y + z + x + y)
    notches = 2 * (2 * a + 2 * c) + 2 * (2 * b + 2 * (c - 1)) + 2 * (2 * (a - 1) + 2 * (b - 1))
    inside = (sizes - 2 * T).astype(float)
    outside = sizes.astype(float)
    return rim + notches * 2 * T + 24 * KERF, (outside.prod(axis=1) - inside.prod(axis=1)) / T


def gap_limits(count: int) -> tuple[np.ndarray, np.ndarray]:
    further = np.full(count, REAL // 2 - HALF)
    return np.minimum(2 * further, further), np.maximum(2 * further, further)


def sheets(sizes: Ints) -> Ints:
    """Parts lying, by falling height, each on the first shelf and sheet with room for it: shelves of all boxes at once."""
    x, y, z = (sizes + KERF + MM).T
    pairs = np.stack([np.stack([a, b], axis=1) for a, b in ((x, z), (x, z), (y, z), (y, z), (x, y), (x, y))], axis=1)
    wide, high = pairs.max(axis=2), pairs.min(axis=2)
    order = np.argsort(-high, axis=1, kind="stable")
    wide, high = np.take_along_axis(wide, order, axis=1), np.take_along_axis(high, order, axis=1)
    rows = np.arange(len(sizes))
    used = np.zeros((len(sizes), 6), np.int64)
    shelf_high = np.zeros((len(sizes), 6), np.int64)
    for part in range(6):
        fits = (used + wide[:, part, None] <= ROOM[0]) & ((shelf_high >= high[:, part, None]) | (shelf_high == 0))
        shelf = fits.argmax(axis=1)
        shelf_high[rows, shelf] = np.maximum(shelf_high[rows, shelf], high[:, part])
        used[rows, shelf] += wide[:, part]
    filled = np.zeros((len(sizes), 6), np.int64)
    for shelf in range(6):
        fits = filled + shelf_high[:, shelf, None] <= ROOM[1]
        filled[rows, fits.argmax(axis=1)] += shelf_high[:, shelf]
    return np.count_nonzero(filled, axis=1)


def whole_sweep(sizes: Ints) -> tuple[np.ndarray, ...]:
    return (*by_formulas(sizes), *gap_limits(len(sizes)), sheets(sizes))


def fits() -> list[list[str]]:
    count = 1_000_000
    rng = np.random.default_rng(1)
    given = [rng.uniform(low, high, count) for low, high in ((2.8, 3.2), (0.1, 0.3), (2.8, 3.2), (0.1, 0.3))]
    fit = df.Fit(flank=0.05, cheek=0.1)

    def ours() -> df.Gaps:
        thickness, kerf, board, cut = given
        return df.gaps(thickness=thickness, kerf=kerf, real_thickness=board, real_kerf=cut, fit=fit)

    for mine, theirs in zip(ours().columns().values(), gaps(*given), strict=True):
        assert np.array_equal(mine, theirs)
    mine, theirs = best(ours), best(lambda: gaps(*given))
    row = ["gaps of 1,000,000 fits, four arrays in and six out", "a formula", show(mine / count), show(theirs / count), f"{theirs / mine:.1f}x"]
    print(f"Fits evaluated in a second on one core: {count / mine / 1e6:.1f} million.\n")
    return [row]


def boxes() -> list[list[str]]:
    count = 3000
    sizes = np.random.default_rng(3).integers(60 * MM, 200 * MM, (count, 3))
    asked = {"stock": STOCK, "outside": sizes / MM, "kerf": KERF / MM, "real_kerf": REAL / MM, "progress": False}

    def ours(lay_out: bool) -> df.Boxes:
        return df.boxes(**asked, lay_out=lay_out)

    made = ours(True)
    for way in (one_by_one, by_groups, by_formulas):
        length, area = way(sizes)
        assert np.array_equal(length / MM, made.cut_length), way.__name__
        assert np.allclose(area / 1e12, made.area, rtol=1e-12), way.__name__
    for found, wanted in zip(gap_limits(count), (made.gap_min, made.gap_max)):
        assert np.array_equal(found / MM, wanted)
    found = sheets(sizes)
    assert (found >= made.sheets).all()
    more = int((found > made.sheets).sum())
    bare, laid = best(lambda: ours(False)), best(lambda: ours(True))
    long_way = best(lambda: [df.box(outside=size, stock=STOCK).cut(cutter=df.Cutter.beam(kerf=KERF / MM)).lay_out(STOCK) for size in asked["outside"][:200]], 3)
    rows = [["closed boxes, length, area, gap limits", name, show(bare / count), show(theirs / count), f"{theirs / bare:.3g}x"] for name, theirs in [
        ("outlines, box after box", best(lambda: one_by_one(sizes), 3)), ("outlines, boxes of like fingers at once", best(lambda: by_groups(sizes))),
        ("formulas that need no outline", best(lambda: (by_formulas(sizes), gap_limits(count)))),
    ]]  # fmt: skip
    theirs = best(lambda: whole_sweep(sizes))
    name = f"formulas and shelves, a sheet too many for {more / count:.1%} of the boxes"
    rows.append(["the same and sheets", name, show(laid / count), show(theirs / count), f"{theirs / laid:.3g}x"])
    rows.append(["the same and sheets", "(no numpy: `box`, `cut` and `lay_out` called from Python)", show(laid / count), show(long_way / 200), f"{long_way / 200 / laid * count:.3g}x"])
    return rows


def show(seconds: float) -> str:
    return f"{seconds * 1e6:.3g} us" if seconds >= 1e-6 else f"{seconds * 1e9:.3g} ns"


def main() -> None:
    print("Sweeps over arrays from Python, beside numpy in the same run; times for one fit, one box:\n")
    rows = [*fits(), *boxes()]
    print("| sweep | numpy's way | dryfit | numpy | numpy / dryfit |\n| --- | --- | ---: | ---: | ---: |")
    for row in rows:
        print("| " + " | ".join(row) + " |")


if __name__ == "__main__":
    main()
