"""Slabs, blocks, pieces and cubes; in the end one question: who owns this point?

Points are given in doubled coordinates (twice the nanometres), so that the
middle of any cell is a whole number.
"""

from itertools import combinations

import patterns


class AssemblyError(ValueError):
    """Its text is one of: same place, blind, meets nothing, pattern."""


class Board:
    def __init__(self, index, name, normal, at, size, thickness):
        self.index = index
        self.name = name
        self.normal = "xyz".index(normal)
        self.thickness = thickness
        self.in_plane = [axis for axis in range(3) if axis != self.normal]
        self.lo = list(at)
        self.hi = list(at)
        self.hi[self.normal] += thickness
        for axis, length in zip(self.in_plane, size):
            self.hi[axis] += length

    def contains(self, point):
        return all(2 * self.lo[k] < point[k] < 2 * self.hi[k] for k in range(3))


def overlap(*boards):
    """(lo, hi) of what the slabs have in common, or None if that has no volume."""
    lo = [max(board.lo[k] for board in boards) for k in range(3)]
    hi = [min(board.hi[k] for board in boards) for k in range(3)]
    return (lo, hi) if all(lo[k] < hi[k] for k in range(3)) else None


def at_its_edge(board, mate):
    """The mate's thickness interval touches an end of the board's slab."""
    axis = mate.normal
    return mate.lo[axis] == board.lo[axis] or mate.hi[axis] == board.hi[axis]


class Joint:
    """The block of two boards and how it is shared out."""

    def __init__(self, a, b, spec, others):
        self.a, self.b = a, b
        lo, hi = overlap(a, b)
        for board in (a, b):
            axis = board.normal
            if (lo[axis], hi[axis]) != (board.lo[axis], board.hi[axis]):
                raise AssemblyError("blind")
        self.run = 3 - a.normal - b.normal
        self.start, self.end = lo[self.run], hi[self.run]
        self.cubes = []
        for other in others:
            if overlap(a, b, other):
                assert other.normal == self.run
                self.cubes.append((other.lo[self.run], other.hi[self.run], other))
        self.trim()
        self.least = max(a.thickness, b.thickness)
        self.finger_like = False
        # Each piece is [start, end, owner].
        self.pieces = []
        if self.s < self.e:
            self.clip(self.share_out(spec))
            if self.finger_like:
                self.give_slivers_away()

    def trim(self):
        """[s, e] is the run less the cubes at its ends."""
        self.s, self.e = self.start, self.end
        middle = list(self.cubes)
        again = True
        while again:
            again = False
            for cube in list(middle):
                if cube[0] == self.s:
                    self.s, again = cube[1], True
                    middle.remove(cube)
                elif cube[1] == self.e:
                    self.e, again = cube[0], True
                    middle.remove(cube)
        self.middle = middle

    def share_out(self, spec):
        """The spans of [s, e] as (start, end, owner), before the middle cubes."""
        length = self.e - self.s
        try:
            if spec is None:
                side_a, side_b, first, boundaries = self.default(length)
            else:
                side_a, side_b, first, boundaries = self.explicit(length, spec)
        except patterns.PatternError as error:
            raise AssemblyError("pattern") from error
        owner = {"A": side_a, "B": side_b}
        return [
            (self.s + low, self.s + high, owner[side])
            for low, high, side in patterns.spans(length, first, boundaries)
        ]

    def explicit(self, length, spec):
        a, b = self.a, self.b
        if spec["kind"] == "fingers":
            self.finger_like = True
            self.least = spec.get("least", self.least)
            spec = dict(spec, least=self.least)
        if spec["kind"] == "tabs" and at_its_edge(a, b) != at_its_edge(b, a):
            if at_its_edge(b, a):
                a, b = b, a
        return a, b, *patterns.make(length, spec)

    def default(self, length):
        a, b = self.a, self.b
        assert a.index < b.index
        width = 3 * self.least
        edges = at_its_edge(a, b), at_its_edge(b, a)
        if edges == (True, True):
            self.finger_like = True
            spec = {"kind": "fingers", "width": width, "least": self.least}
            return a, b, *patterns.make(length, spec)
        if edges == (False, False):
            return self.crossing(length)
        self.finger_like = True
        if edges == (True, False):
            a, b = b, a
        # Now b is tabbed through a, and a owns the first span.
        count = patterns.default_tabs(length, width, self.least)
        return a, b, *patterns.make(length, {"kind": "fingers", "count": count, "least": 1})

    def crossing(self, length):
        p, q = self.a, self.b
        if self.may_be_low_owner(p, q):
            low, high = p, q
        elif self.may_be_low_owner(q, p):
            low, high = q, p
        elif self.strictly_inside(p, q):
            return p, q, *patterns.make(length, {"kind": "whole"})
        elif self.strictly_inside(q, p):
            return q, p, *patterns.make(length, {"kind": "whole"})
        else:
            low, high = p, q
        return low, high, *patterns.make(length, {"kind": "halves", "split": [1, 2]})

    def may_be_low_owner(self, p, q):
        return p.hi[self.run] == self.end and q.lo[self.run] == self.start

    def strictly_inside(self, inner, outer):
        return outer.lo[self.run] < inner.lo[self.run] and inner.hi[self.run] < outer.hi[self.run]

    def stretches(self):
        """What is left of [s, e] between the middle cubes."""
        low = self.s
        for cube_start, cube_end, _ in sorted(self.middle, key=lambda cube: cube[0]):
            if low < cube_start:
                yield low, cube_start
            low = cube_end
        if low < self.e:
            yield low, self.e

    def clip(self, spans):
        for low, high in self.stretches():
            for start, end, owner in spans:
                if max(start, low) < min(end, high):
                    self.pieces.append([max(start, low), min(end, high), owner])

    def give_slivers_away(self):
        """All pieces are judged as clipped, then all are changed at once."""
        changes = []
        for piece in self.pieces:
            other = self.sliver_beside(piece)
            if other is None:
                continue
            if self.sliver_beside(other) is not None:
                # Two slivers: the longer stays, of two as long the one whose owner was added first.
                length, other_length = piece[1] - piece[0], other[1] - other[0]
                if length > other_length or (length == other_length and piece[2] is self.a):
                    continue
            changes.append((piece, other[2]))
        for piece, owner in changes:
            piece[2] = owner

    def sliver_beside(self, piece):
        """The piece that a sliver at one cube would join, None where the piece is no sliver."""
        start, end, _ = piece
        cube_before = any(cube[1] == start for cube in self.middle)
        cube_behind = any(cube[0] == end for cube in self.middle)
        if cube_before == cube_behind or end - start >= self.least:
            return None
        wanted_end = end if cube_before else start
        for other in self.pieces:
            if (other[0] if cube_before else other[1]) == wanted_end:
                return other
        return None

    def neighbours(self, cube_board):
        """Owners of the pieces that touch the cube of that board."""
        lo, hi = cube_board.lo[self.run], cube_board.hi[self.run]
        return [owner for start, end, owner in self.pieces if end == lo or start == hi]

    def owner_at(self, coordinate):
        """Owner at a doubled coordinate along the run, outside the cubes."""
        owners = [owner for start, end, owner in self.pieces if 2 * start < coordinate < 2 * end]
        assert len(owners) == 1, "a point of a block has not exactly one piece"
        return owners[0]


class Assembly:
    """boards: list of dicts name, normal, at, size, thickness. joints: [p, q, spec]."""

    def __init__(self, boards, joints=()):
        self.boards = [Board(i, b["name"], b["normal"], b["at"], b["size"], b["thickness"]) for i, b in enumerate(boards)]
        by_name = {board.name: board for board in self.boards}
        assert len(by_name) == len(self.boards)
        self.refuse_lonely()
        specs = {frozenset((p, q)): (p, spec) for p, q, spec in joints}
        self.joints = {}
        for a, b in combinations(self.boards, 2):
            if not overlap(a, b):
                continue
            if a.normal == b.normal:
                raise AssemblyError("same place")
        for a, b in combinations(self.boards, 2):
            if not overlap(a, b):
                continue
            side_a, side_b = a, b
            name, spec = specs.pop(frozenset((a.name, b.name)), (a.name, None))
            if by_name[name] is b:
                side_a, side_b = b, a
            others = [c for c in self.boards if c is not a and c is not b]
            self.joints[frozenset((a.index, b.index))] = Joint(side_a, side_b, spec, others)
        assert not specs, "a joint names boards that do not meet"
        self.cube_owners = {}
        for three in combinations(self.boards, 3):
            if overlap(*three):
                self.cube_owners[frozenset(b.index for b in three)] = self.vote(three)

    def refuse_lonely(self):
        for board in self.boards:
            if len(self.boards) > 1 and not any(overlap(board, other) for other in self.boards if other is not board):
                raise AssemblyError("meets nothing")

    def joint(self, a, b):
        return self.joints.get(frozenset((a.index, b.index)))

    def vote(self, three):
        votes = {board.index: 0 for board in three}
        masters = set()
        for cube_board in three:
            a, b = [board for board in three if board is not cube_board]
            owners = [owner.index for owner in self.joint(a, b).neighbours(cube_board)]
            for owner in owners:
                votes[owner] += 1
            if len(set(owners)) == 1:
                masters.add(owners[0])
        if masters:
            votes = {index: votes[index] for index in masters}
        # Most votes first, then the one added first.
        best = min(votes, key=lambda index: (-votes[index], index))
        return self.boards[best]

    def owner_at(self, point):
        """The board that owns a doubled point, or None where there is none."""
        there = [board for board in self.boards if board.contains(point)]
        if not there:
            return None
        if len(there) == 1:
            return there[0]
        if len(there) == 2:
            joint = self.joint(*there)
            return joint.owner_at(point[joint.run])
        assert len(there) == 3
        return self.cube_owners[frozenset(board.index for board in there)]

    def mates(self, board):
        return [other for other in self.boards if self.joint(board, other)]
