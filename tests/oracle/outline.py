"""Panels as flat cells, and their outlines traced cell side by cell side."""


class Panel:
    """The cells of one board's slab that the board itself owns."""

    def __init__(self, assembly, board):
        self.assembly, self.board = assembly, board
        self.p, self.q = board.in_plane
        self.us = self.coordinates(self.p)
        self.vs = self.coordinates(self.q)
        self.owner = {}
        for i in range(len(self.us) - 1):
            for j in range(len(self.vs) - 1):
                self.owner[i, j] = assembly.owner_at(self.middle(i, j))
        self.cells = {cell for cell, owner in self.owner.items() if owner is board}
        self.component = self.components()

    def coordinates(self, axis):
        """Every coordinate along the axis at which the owner could change."""
        found = set()
        for other in self.assembly.boards:
            found.update((other.lo[axis], other.hi[axis]))
            joint = self.assembly.joint(self.board, other)
            if joint and joint.run == axis:
                for start, end, _ in joint.pieces:
                    found.update((start, end))
        lo, hi = self.board.lo[axis], self.board.hi[axis]
        return sorted(c for c in found if lo <= c <= hi)

    def middle(self, i, j):
        """Doubled middle of a cell, half way through the thickness."""
        n = self.board.normal
        point = [0, 0, 0]
        point[n] = self.board.lo[n] + self.board.hi[n]
        point[self.p] = self.us[i] + self.us[i + 1]
        point[self.q] = self.vs[j] + self.vs[j + 1]
        return point

    def area(self):
        return sum((self.us[i + 1] - self.us[i]) * (self.vs[j + 1] - self.vs[j]) for i, j in self.cells)

    def components(self):
        """Cells joined side by side get the same number."""
        number, count = {}, 0
        for seed in sorted(self.cells):
            if seed in number:
                continue
            count += 1
            todo = [seed]
            while todo:
                cell = todo.pop()
                if cell not in self.cells or cell in number:
                    continue
                number[cell] = count
                i, j = cell
                todo += [(i + 1, j), (i - 1, j), (i, j + 1), (i, j - 1)]
        return number

    def role(self, cell, step):
        """(role, mate) of the side of a cell towards step, a unit step in (i, j)."""
        i, j = cell
        along = 0 if step[0] == 0 else 1
        # c is the side's coordinate on axis p; it extends along axis q.
        p, q = (self.q, self.p) if along == 0 else (self.p, self.q)
        if along == 0:
            c, middle = self.vs[j + (step[1] > 0)], self.us[i] + self.us[i + 1]
        else:
            c, middle = self.us[i + (step[0] > 0)], self.vs[j] + self.vs[j + 1]
        beyond = self.owner.get((i + step[0], j + step[1]))
        if beyond is not None:
            if beyond.normal == p:
                assert c in (beyond.lo[p], beyond.hi[p])
                return "cheek", beyond
            return "flank", beyond
        assert c in (self.board.lo[p], self.board.hi[p])
        mates = self.assembly.mates(self.board)
        flanks = [
            y for y in mates
            if y.normal == q and 2 * y.lo[q] < middle < 2 * y.hi[q]
            and (y.hi[p] > c if sum(step) > 0 else y.lo[p] < c)
        ]
        tips = []
        for y in mates:
            if y.normal == p and c in (y.lo[p], y.hi[p]):
                joint = self.assembly.joint(self.board, y)
                assert joint.run == q
                if 2 * joint.start < middle < 2 * joint.end:
                    tips.append(y)
        assert len(flanks) <= 1 and len(tips) <= 1
        if flanks:
            return "flank", flanks[0]
        if tips:
            return "tip", tips[0]
        return "free", None

    def sides(self):
        """Directed cell sides with the solid on their left: start -> list of sides."""
        out = {}
        for i, j in sorted(self.cells):
            for step, start, end in [
                ((0, -1), (i, j), (i + 1, j)),
                ((1, 0), (i + 1, j), (i + 1, j + 1)),
                ((0, 1), (i + 1, j + 1), (i, j + 1)),
                ((-1, 0), (i, j + 1), (i, j)),
            ]:
                if (i + step[0], j + step[1]) not in self.cells:
                    side = {"cell": (i, j), "start": start, "end": end, "role": self.role((i, j), step)}
                    out.setdefault(start, []).append(side)
        return out

    def rings(self):
        """Raw rings: lists of (u, v, role, mate board), in the order of the rules."""
        sides = self.sides()
        left = [side for start in sorted(sides) for side in sides[start]]
        rings = []
        while left:
            ring = [left[0]]
            while True:
                following = self.next_side(sides, ring[-1])
                if following is ring[0]:
                    break
                ring.append(following)
            left = [side for side in left if not any(side is used for used in ring)]
            rings.append(self.finish(ring))
        return in_order(rings)

    def next_side(self, sides, side):
        """The side that leaves where this one ends.

        Where four sides meet: if the two solids are one piece elsewhere, the holes
        stay apart (turn right, round the hole); if they touch only here, the solids
        stay apart (turn left, round the solid)."""
        ways = sides[side["end"]]
        if len(ways) == 1:
            return ways[0]
        one, other = ways
        one_piece = self.component[one["cell"]] == self.component[other["cell"]]
        dx, dy = direction(side)
        wanted = (dy, -dx) if one_piece else (-dy, dx)
        return one if direction(one) == wanted else other

    def finish(self, ring):
        """Cell sides -> vertices in nanometres, joined where nothing changes."""
        n = len(ring)
        keep = [k for k in range(n) if (direction(ring[k - 1]), ring[k - 1]["role"]) != (direction(ring[k]), ring[k]["role"])]
        u0, v0 = self.board.lo[self.p], self.board.lo[self.q]
        vertices = []
        for k in keep:
            i, j = ring[k]["start"]
            vertices.append((self.us[i] - u0, self.vs[j] - v0, *ring[k]["role"]))
        return from_lowest(vertices)


def direction(side):
    return side["end"][0] - side["start"][0], side["end"][1] - side["start"][1]


def from_lowest(ring):
    """Starts at the lowest, then leftmost vertex."""
    k = min(range(len(ring)), key=lambda k: (ring[k][1], ring[k][0]))
    return ring[k:] + ring[:k]


def doubled_area(ring):
    n = len(ring)
    return sum(ring[k - 1][0] * ring[k][1] - ring[k][0] * ring[k - 1][1] for k in range(n))


def in_order(rings):
    """Outer loops first, then holes, each group by first vertex."""
    return sorted(rings, key=lambda ring: (doubled_area(ring) < 0, ring[0][1], ring[0][0]))


def clean(ring):
    """The corners alone: no repeated and no three collinear points in a row."""
    points = [tuple(vertex[:2]) for vertex in ring]
    changed = True
    while changed:
        changed = False
        for k in range(len(points)):
            a, b, c = points[k - 2], points[k - 1], points[k]
            if (b[0] - a[0]) * (c[1] - b[1]) == (b[1] - a[1]) * (c[0] - b[0]):
                del points[k - 1]
                changed = True
                break
    return from_lowest(points)
