"""Profile: a pattern seen from one side, as a polyline with roles.

Travel goes along +x from 0 to the length, the solid lies on the left, so
outwards is -y. Spans of the side lie at y = 0, the others at y = depth.
"""

import patterns
from rounding import half


class ProfileError(ValueError):
    pass


def make(length, spec, side, depth, flank, cheek, tip, kerf):
    """List of [x, y, role of the segment that leaves the vertex]."""
    first, boundaries = patterns.make(length, spec)
    spans = patterns.spans(length, first, boundaries)
    flank_out = half(kerf) - (half(flank) if side == "A" else flank - half(flank))
    cheek_out = half(kerf) - cheek
    tip_out = half(kerf) + tip

    # Where each span begins and ends after the flanks have moved.
    xs = [0]
    for index, boundary in enumerate(boundaries):
        solid_before = spans[index][2] == side
        xs.append(boundary + flank_out if solid_before else boundary - flank_out)
    xs.append(length)
    if any(low >= high for low, high in zip(xs, xs[1:])):
        raise ProfileError("a width would be zero or less")

    vertices = []
    for index, (_, _, owner) in enumerate(spans):
        own = owner == side
        y = 0 - tip_out if own else depth - cheek_out
        last = index == len(spans) - 1
        vertices.append([xs[index], y, "tip" if own else "cheek"])
        vertices.append([xs[index + 1], y, None if last else "flank"])
    return vertices
