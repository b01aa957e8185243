"""What must hold of every assembly the oracle has worked out."""

from itertools import combinations

import cut
from outline import clean, doubled_area


def check(assembly, panels):
    one_owner(assembly, panels)
    prismatic(panels)
    flanks_pair_up(panels)
    for panel in panels:
        rings = panel.rings()
        assert all(len(ring) >= 4 for ring in rings)
        assert sum(doubled_area(ring) for ring in rings) == 2 * panel.area()
        outer = sum(doubled_area(ring) > 0 for ring in rings)
        assert outer == len(set(panel.component.values()))
        for ring in rings:
            points = [vertex[:2] for vertex in ring]
            assert len(set(points)) == len(points), "a loop meets itself"
        loops = [clean(ring) for ring in rings]
        assert cut.cut_loops(panel.board, rings) == loops


def one_owner(assembly, panels):
    """Volume of all panels = volume of the union of the slabs; no cell is claimed twice.

    The union is counted by inclusion and exclusion: at most three slabs share a point."""
    claimed = sum(panel.area() * panel.board.thickness for panel in panels)
    union = 0
    for how_many, sign in ((1, 1), (2, -1), (3, 1)):
        for some in combinations(assembly.boards, how_many):
            union += sign * common_volume(some)
    assert claimed == union, (claimed, union)
    for one, other in combinations(panels, 2):
        joint = assembly.joint(one.board, other.board)
        if joint:
            no_double_claim(assembly, one, other, joint)


def common_volume(boards):
    volume = 1
    for k in range(3):
        volume *= max(0, min(b.hi[k] for b in boards) - max(b.lo[k] for b in boards))
    return volume


def no_double_claim(assembly, one, other, joint):
    """Along the run of a block exactly one board claims each bit of it."""
    run = joint.run
    ladder = {joint.start, joint.end}
    for panel in (one, other):
        ladder.update(c for c in (panel.us if panel.p == run else panel.vs) if joint.start < c < joint.end)
    ladder = sorted(ladder)
    for low, high in zip(ladder, ladder[1:]):
        point = [0, 0, 0]
        point[run] = low + high
        for board in (one.board, other.board):
            n = board.normal
            point[n] = 2 * board.lo[n] + 1
        owner = assembly.owner_at(point)
        for panel in (one, other):
            assert claims_point(panel, point) == (owner is panel.board)


def claims_point(panel, point):
    for i, j in panel.cells:
        if (2 * panel.us[i] < point[panel.p] < 2 * panel.us[i + 1]
                and 2 * panel.vs[j] < point[panel.q] < 2 * panel.vs[j + 1]):
            return True
    return False


def prismatic(panels):
    """The owner is the same near both faces of a sheet as in its middle."""
    for panel in panels:
        n = panel.board.normal
        for (i, j), owner in panel.owner.items():
            for level in (2 * panel.board.lo[n] + 1, 2 * panel.board.hi[n] - 1):
                point = panel.middle(i, j)
                point[n] = level
                assert panel.assembly.owner_at(point) is owner


def flanks_pair_up(panels):
    """Where one board has a flank edge of its mate, the mate has one of it, at the same place."""
    found = {}
    for panel in panels:
        board = panel.board
        for ring in panel.rings():
            for k, (u, v, role, mate) in enumerate(ring):
                if role != "flank":
                    continue
                u2, v2 = ring[(k + 1) % len(ring)][:2]
                run = panel.assembly.joint(board, mate).run
                place = board.lo[run] + (u if run == panel.p else v)
                assert abs(u2 - u) + abs(v2 - v) == mate.thickness
                found.setdefault((board.index, mate.index), []).append(place)
    for (one, other), places in found.items():
        assert sorted(places) == sorted(found.get((other, one), []))


def apart(loops):
    """No two edges of one part meet, but for neighbours at their common corner."""
    edges = []
    for number, loop in enumerate(loops):
        for k in range(len(loop)):
            a, b = loop[k - 1], loop[k]
            edges.append((number, k, [sorted((a[0], b[0])), sorted((a[1], b[1]))]))
    for (loop, k, box), (loop2, k2, box2) in combinations(edges, 2):
        n = len(loops[loop])
        if loop == loop2 and (k - k2) % n in (1, n - 1):
            continue
        assert any(box[i][1] < box2[i][0] or box2[i][1] < box[i][0] for i in (0, 1)), "two edges meet"


def shell_areas(make_box):
    """Outside 100 x 80 x 60 and the like: the sum of the areas is the shell's volume / t."""
    mm = 1_000_000
    for size, t, top, expected in [
        ((100, 80, 60), 3, "closed", 34792),
        ((200, 150, 100), 6, "closed", 119488),
        ((60, 60, 60), 2, "closed", 20192),
        ((100, 80, 60), 3, "open", 27836),
    ]:
        panels = make_box([mm * s for s in size], mm * t, top)
        assert sum(panel.area() for panel in panels) == expected * mm * mm
