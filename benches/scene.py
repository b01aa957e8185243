"""The closed box that the peers make: the numbers of src/scenes.rs, shared out as the core shares it out.

Every run has an odd number of fingers and the earlier face owns the first: so front and back own all eight corners.
"""

OUTSIDE = (110.0, 100.0, 96.0)
THICKNESS = 3.0
FINGERS = 11
# A width that gives every run of the box this number of fingers.
FINGER_WIDTH = 8.8
# Corners of all six outlines; peers may leave more points on straight edges.
VERTICES = 504

NAMES = ("front", "back", "left", "right", "base", "top")
# Per pair of panels: the axes of its plane, its normal, and the rank in which it wins.
PLANES = ((0, 2, 1), (1, 2, 0), (0, 1, 2))


def panel(number: int) -> tuple[tuple[float, float], list, list]:
    """Size of a slab, the rectangles it loses and the fingers and corners it keeps: (left, bottom, right, top) in mm."""
    rank = number // 2
    u, v, _ = PLANES[rank]
    width, height = OUTSIDE[u], OUTSIDE[v]
    t = THICKNESS
    lost, kept = [], []
    rank_across = {PLANES[other][2]: other for other in range(3)}
    for along, length, place in ((u, width, lambda a, b, c: (a, c, b, c + t)), (v, height, lambda a, b, c: (c, a, c + t, b))):
        across = v if along == u else u
        mate = rank_across[across]
        step = (length - 2 * t) / FINGERS
        for c in (0.0, OUTSIDE[across] - t):
            for k in range(FINGERS):
                mine = (k % 2 == 0) == (rank < mate)
                (kept if mine else lost).append(place(t + k * step, t + (k + 1) * step, c))
    corners = kept if rank == 0 else lost
    corners += [(x, y, x + t, y + t) for x in (0.0, width - t) for y in (0.0, height - t)]
    return (width, height), lost, kept


def frame(number: int) -> list[list[float]]:
    """The 3 x 4 matrix that places a panel: (u, v, w) right-handed, the sheet at 0 <= w <= thickness."""
    u, v, normal = PLANES[number // 2]
    far = number % 2 == 1
    rows = [[0.0] * 4 for _ in range(3)]
    rows[u][0] = rows[v][1] = 1.0
    rows[normal][2] = -1.0 if normal == 1 else 1.0
    rows[normal][3] = OUTSIDE[normal] - THICKNESS if far else 0.0
    if normal == 1:
        rows[normal][3] += THICKNESS
    return rows
