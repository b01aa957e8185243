"""Allowances and kerf: every edge of a raw ring moves, then the corners are joined again.

The allowances come first; then the whole outline, steps included, moves out by half the kerf."""

from outline import clean, doubled_area, in_order
from rounding import half


class CutError(ValueError):
    pass


def shift(board, edge_start, flank, cheek, tip):
    """How far outwards the allowances move the edge that leaves edge_start."""
    u, v, role, mate = edge_start
    if role == "tip":
        return tip
    if role == "free":
        return 0
    if role == "flank":
        first = board.index < mate.index
        return -(half(flank) if first else flank - half(flank))
    n = mate.normal
    slot = board.lo[n] < mate.lo[n] and mate.hi[n] < board.hi[n]
    if not slot:
        return -cheek
    c = board.lo[n] + (u if n == board.in_plane[0] else v)
    if c == mate.lo[n]:
        return -half(cheek)
    assert c == mate.hi[n]
    return -(cheek - half(cheek))


def unit(a, b):
    dx, dy = b[0] - a[0], b[1] - a[1]
    assert (dx == 0) != (dy == 0)
    return (dx > 0) - (dx < 0), (dy > 0) - (dy < 0)


def moved_ring(ring, amount):
    """The ring with every edge moved outwards; list of points, with a step where collinear edges part."""
    n = len(ring)
    # Outwards is to the right of the direction of travel.
    moves = []
    for k in range(n):
        dx, dy = unit(ring[k], ring[(k + 1) % n])
        by = amount(ring[k])
        moves.append((dy * by, -dx * by))
    starts, ends = [], [None] * n
    for k in range(n):
        before, after = moves[k - 1], moves[k]
        u, v = ring[k][:2]
        if unit(ring[k - 1], ring[k]) == unit(ring[k], ring[(k + 1) % n]):
            ends[k - 1] = (u + before[0], v + before[1])
            starts.append((u + after[0], v + after[1]))
        else:
            corner = (u + before[0] + after[0], v + before[1] + after[1])
            ends[k - 1] = corner
            starts.append(corner)
    points = []
    for k in range(n):
        if starts[k] == ends[k] or unit(starts[k], ends[k]) != unit(ring[k], ring[(k + 1) % n]):
            raise CutError("an edge is used up")
        points += [starts[k], ends[k]]
    return points


def cut_loops(board, rings, flank=0, cheek=0, tip=0, kerf=0):
    """Clean shifted loops of one board, in the order of the rules."""
    loops = []
    for ring in rings:
        finished = clean(moved_ring(ring, lambda start: shift(board, start, flank, cheek, tip)))
        loop = clean(moved_ring(finished, lambda start: half(kerf)))
        if (doubled_area(loop) > 0) != (doubled_area(ring) > 0):
            raise CutError("a loop is turned inside out")
        loops.append(loop)
    return in_order(loops)
