"""The vectors that a board can serve: what is asked, and what the oracle says."""

import json
from pathlib import Path

import asked

FOLDER = Path(__file__).parent.parent / "vectors"
FACES = ("front", "back", "left", "right", "base", "top")
# A pattern does not ask for the board's thickness where the least width is told, but no board is without one.
BOARD = 3_000_000


def cases(file):
    found = json.loads((FOLDER / f"{file}.json").read_text(encoding="utf-8"))
    assert found, f"{file}.json has no cases"
    return found


def lengths():
    """Text as bytes, nanometres or None."""
    for case in cases("lengths"):
        yield case["text"].encode(), case.get("nm")


def patterns():
    """The numbers of a pattern's request; the first owner and the boundaries, or None. In C a count or width of 0 is the default's, and no error."""
    for case in cases("patterns"):
        if "error" in case and 0 in (case["spec"].get("count"), case["spec"].get("width")):
            continue
        made = None if "error" in case else [asked.NUMBER[f"SIDE_{case['first']}"], *case["boundaries"]]
        yield [*asked.joint(case["spec"]), case["length"], BOARD], made


def profiles():
    """The numbers of an edge; its vertices with their roles, or None."""
    for case in cases("profiles"):
        allowances = {name: case[name] for name in ("flank", "cheek", "tip", "kerf")}
        edge = asked.edge(case["spec"], case["length"], BOARD, case["depth"], case["side"], **allowances)
        yield edge, None if "error" in case else [[x, y, role or "free"] for x, y, role in case["vertices"]]


def boxes():
    """The numbers of a box; the loops of its panels by face. Boxes without dividers, lids, shelves and feet, cut as they are and with allowances."""
    plain = {}
    for case in cases("boxes"):
        extras = ("clearance", "shelves", "feet")
        if case["dividers"] == [0, 0] and case["top"] in ("open", "closed") and not any(name in case for name in extras):
            plain[case["name"]] = case
            yield _box(case), _loops(case)
    for cut in cases("cuts"):
        if cut["file"] == "boxes" and cut["name"] in plain:
            yield _box(plain[cut["name"]], **{name: cut[name] for name in ("flank", "cheek", "tip", "kerf")}), _loops(cut)


def _box(case, **allowances):
    return asked.box(case["size"], case["thickness"], case["top"], case["finger_width"], **allowances)


def _loops(case):
    loops = {FACES.index(board["name"]): board["loops"] for board in case["boards"]}
    assert all(len(rings) == 1 for rings in loops.values())
    return {face: rings[0] for face, rings in loops.items()}


def clean(ring):
    """A ring from its lowest, then leftmost point, without points between collinear neighbours."""
    def turns(a, b, c):
        return (b[0] - a[0]) * (c[1] - b[1]) != (b[1] - a[1]) * (c[0] - b[0])

    kept = [b for a, b, c in zip(ring[-1:] + ring, ring, ring[1:] + ring[:1]) if turns(a, b, c)]
    start = kept.index(min(kept, key=lambda point: (point[1], point[0])))
    return kept[start:] + kept[:start]


def tails():
    """Splices of two boards as wide as each other: the numbers of either edge, whose "thickness" is how far they reach into each other; its points, or None. With a kerf the sides of the board move too, which
    is not the edge's business: the ends' x is left out (None)."""
    for case in cases("splices"):
        if len(case["boards"]) != 2 or len(case["joints"]) != 1 or case["keys"]:
            continue
        first, second = case["boards"]
        plane = [axis for axis in range(3) if axis != "xyz".index(first["normal"])]
        p, q, spec = case["joints"][0]
        ranges = [[(board["at"][axis], board["at"][axis] + board["size"][k]) for k, axis in enumerate(plane)] for board in (first, second)]
        along = [k for k in range(2) if ranges[0][k] == ranges[1][k]]
        # The board added first is side A here, or else both levels are rounded the other way round.
        if len(along) != 1 or (p, q) != (first["name"], second["name"]):
            continue
        run, across = along[0], 1 - along[0]
        (a_low, a_high), (b_low, b_high) = ranges[0][across], ranges[1][across]
        depth = min(a_high, b_high) - max(a_low, b_low)
        for k, side in enumerate("AB"):
            (low, high), other_low = ranges[k][across], ranges[1 - k][across][0]
            edge = asked.edge(spec, ranges[0][run][1] - ranges[0][run][0], depth, depth, side, flank=case["flank"], kerf=case["kerf"])
            if "error" in case:
                yield edge, None
                continue
            path = case["panels"][k]["path"]
            points = [[at[run], high - low - at[across] if low < other_low else at[across]] for at in path]
            yield edge, _stretch(points, depth)


def _stretch(points, depth):
    """The points near the splice, along the run."""
    near = [y < depth + 2_000_000 for _, y in points]
    start = next(k for k in range(len(points)) if near[k] and not near[k - 1])
    turned = points[start:] + points[:start]
    stretch = turned[: sum(near)]
    if stretch[0][0] > stretch[-1][0]:
        stretch.reverse()
    return [[None, stretch[0][1]], *stretch[1:-1], [None, stretch[-1][1]]]
