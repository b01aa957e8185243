"""The boards and joints of a box, from its outside size."""

from fractions import Fraction
from itertools import combinations

from rounding import round_up_half

WALLS = ["front", "back", "left", "right", "base", "top"]


def board(name, normal, lo, hi):
    n = "xyz".index(normal)
    size = [hi[k] - lo[k] for k in range(3) if k != n]
    return {"name": name, "normal": normal, "at": list(lo), "size": size, "thickness": hi[n] - lo[n]}


def divider_starts(outside, t, count):
    clear = outside - 2 * t - count * t
    return [t + round_up_half(Fraction(k * clear, count + 1)) + (k - 1) * t for k in range(1, count + 1)]


def boards(size, t, top, dividers):
    x, y, z = size
    out = [
        board("front", "y", (0, 0, 0), (x, t, z)),
        board("back", "y", (0, y - t, 0), (x, y, z)),
        board("left", "x", (0, 0, 0), (t, y, z)),
        board("right", "x", (x - t, 0, 0), (x, y, z)),
        board("base", "z", (0, 0, 0), (x, y, t)),
    ]
    roof = z
    if top == "closed":
        out.append(board("top", "z", (0, 0, z - t), (x, y, z)))
        roof = z - t
    nx, ny = dividers
    for k, start in enumerate(divider_starts(x, t, nx), 1):
        out.append(board(f"divider-x{k}", "x", (start, 0, t), (start + t, y, roof)))
    for k, start in enumerate(divider_starts(y, t, ny), 1):
        out.append(board(f"divider-y{k}", "y", (0, start, t), (x, start + t, roof)))
    return out


def joints(box_boards, finger_width):
    if finger_width is None:
        return []
    spec = {"kind": "fingers", "width": finger_width}
    walls = [b for b in box_boards if b["name"] in WALLS]
    return [[p["name"], q["name"], spec] for p, q in combinations(walls, 2) if p["normal"] != q["normal"]]
