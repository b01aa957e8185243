"""Outlines as edges, however a file says them: both ends and the middle of each, which for an arc lies on it."""

import itertools
import math

import numpy as np
from scipy.spatial import cKDTree


def edge(start, end, centre=None, clockwise=True):
    """One edge as rows ``(x, y)`` of start, end and middle. Arcs are told clockwise, whichever way they were drawn."""
    (ax, ay), (bx, by) = start[:2], end[:2]
    if centre is None:
        return (ax, ay, bx, by, (ax + bx) / 2, (ay + by) / 2)
    if not clockwise:
        return edge(end, start, centre)
    (cx, cy), (dx, dy) = centre, (ax - centre[0], ay - centre[1])
    half = ((math.atan2(dy, dx) - math.atan2(by - cy, bx - cx)) % (2 * math.pi)) / 2
    return (ax, ay, bx, by, cx + dx * math.cos(half) + dy * math.sin(half), cy - dx * math.sin(half) + dy * math.cos(half))


def of(placements):
    """The edges of the paths of placed parts, in mm."""
    found = []
    for placement in placements:
        for loop, arcs in zip(placement.loops_nm, placement.arcs_nm, strict=True):
            centres = {int(index): (x / 1e6, y / 1e6) for index, x, y in arcs}
            points = [(x / 1e6, y / 1e6) for x, y in loop.tolist()]
            pairs = itertools.pairwise([*points, points[0]])
            found += [edge(a, b, centres.get(k)) for k, (a, b) in enumerate(pairs)]
    return found


def same(found, wanted, tolerance):
    """Whether two lists of edges are the same but for their order and their ways round, and how often each comes; no coordinate is farther off than the tolerance."""
    # A straight edge has no way round, so either counts.
    found, wanted = (np.array([row for x0, y0, x1, y1, *middle in edges for row in ((x0, y0, x1, y1, *middle), (x1, y1, x0, y0, *middle))]) for edges in (found, wanted))
    near = [cKDTree(edges).query_ball_point(wanted, tolerance, p=math.inf, return_length=True) for edges in (found, wanted)]
    return len(found) == len(wanted) and np.array_equal(*near) and bool(np.all(cKDTree(wanted).query(found, p=math.inf)[0] <= tolerance))
