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


def boards(size, t, top, dividers, clearance=0, shelves=(), feet=0):
    x, y, z = size
    c, low = clearance, feet
    # What is above the inside, and where dividers have to end.
    above = {"open": 0, "closed": t, "lift-off": t, "sliding": 3 * t + c}[top]
    roof = z - above - {"open": 0, "closed": 0, "lift-off": 2 * t + c, "sliding": t}[top]
    rim = z - t if top == "lift-off" else z
    front = z - above if top == "sliding" else rim
    out = [
        board("front", "y", (0, 0, low), (x, t, front)),
        board("back", "y", (0, y - t, low), (x, y, rim)),
        board("left", "x", (0, 0, low), (t, y, rim)),
        board("right", "x", (x - t, 0, low), (x, y, rim)),
        board("base", "z", (0, 0, low), (x, y, low + t)),
    ]
    if top == "closed":
        out.append(board("top", "z", (0, 0, z - t), (x, y, z)))
    if top == "lift-off":
        out += [
            board("lid", "z", (0, 0, z - t), (x, y, z)),
            board("batten-left", "x", (t + c, t + c, z - 3 * t), (2 * t + c, y - t - c, z)),
            board("batten-right", "x", (x - 2 * t - c, t + c, z - 3 * t), (x - t - c, y - t - c, z)),
        ]
    if top == "sliding":
        kicker = front + t + c
        out += [
            board("runner-left", "z", (0, 0, front - t), (4 * t, y, front)),
            board("runner-right", "z", (x - 4 * t, 0, front - t), (x, y, front)),
            board("kicker-left", "z", (0, 0, kicker), (4 * t, y, kicker + t)),
            board("kicker-right", "z", (x - 4 * t, 0, kicker), (x, y, kicker + t)),
            board("lid", "z", (t + c, 0, front), (x - t - c, y - t - c, front + t)),
            board("pull", "y", (4 * t + c, 2 * t, front), (x - 4 * t - c, 3 * t, z)),
        ]
    nx, ny = dividers
    for k, start in enumerate(divider_starts(x, t, nx), 1):
        out.append(board(f"divider-x{k}", "x", (start, 0, low + t), (start + t, y, roof)))
    for k, start in enumerate(divider_starts(y, t, ny), 1):
        out.append(board(f"divider-y{k}", "y", (0, start, low + t), (x, start + t, roof)))
    for k, height in enumerate(shelves, 1):
        out.append(board(f"shelf-{k}", "z", (0, 0, low + t + height), (x, y, low + 2 * t + height)))
    if feet:
        out += [
            board("foot-x1", "x", (5 * t, 2 * t, 0), (6 * t, y - 2 * t, low + t)),
            board("foot-x2", "x", (x - 6 * t, 2 * t, 0), (x - 5 * t, y - 2 * t, low + t)),
            board("foot-y1", "y", (2 * t, 5 * t, 0), (x - 2 * t, 6 * t, low + t)),
            board("foot-y2", "y", (2 * t, y - 6 * t, 0), (x - 2 * t, y - 5 * t, low + t)),
        ]
    return out


def joints(box_boards, finger_width):
    if finger_width is None:
        return []
    spec = {"kind": "fingers", "width": finger_width}
    walls = [b for b in box_boards if b["name"] in WALLS]
    return [[p["name"], q["name"], spec] for p, q in combinations(walls, 2) if p["normal"] != q["normal"]]
