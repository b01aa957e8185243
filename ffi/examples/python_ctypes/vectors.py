"""Asks the C library for every case of the shared vectors that its bare layer can serve, and compares to the nanometre.

    python3 vectors.py PREFIX VECTORS      # where ffi/install put the library, and tests/vectors of the repository
"""

import ctypes
import json
import sys
from collections.abc import Callable, Iterator
from pathlib import Path
from typing import Any

from dryfit_c import Library, Refused

Case = dict[str, Any]
REFUSED = "refused"
# The thicker board. Every case states the widths that would else depend on it.
BOARD = 3_000_000
PLAIN_BOX = ("name", "size", "thickness", "top", "dividers", "finger_width", "boards")


def says_zero(spec: Case) -> bool:
    """Fingers of no count or no width are refused elsewhere. C has no word for them: there 0 is the usual value."""
    return spec["kind"] == "fingers" and 0 in (spec.get("count"), spec.get("width"))


class Asked:
    """The library, asked in the words of the vectors."""

    def __init__(self, c: Library) -> None:
        self.c = c

    def number(self, kind: str, word: str) -> int:
        return int(getattr(self.c, f"DRYFIT_{kind}_{word.upper()}"))

    def joint(self, spec: Case) -> Any:
        joint = self.c.dryfit_joint(kind=self.number("JOINT", spec["kind"]))
        for name in ("count", "width", "spacing", "end", "least"):
            setattr(joint, name, spec.get(name) or 0)
        joint.parity = self.number("PARITY", spec.get("parity", "odd"))
        joint.first = self.number("SIDE", spec.get("first", "A"))
        joint.numerator, joint.denominator = spec.get("split", (0, 0))
        return joint

    def fit(self, case: Case) -> Any:
        return self.c.dryfit_fit(**{name: case.get(name, 0) for name in ("flank", "cheek", "tip")})

    def length(self, case: Case) -> Any:
        text, out = case["text"].encode(), self.c.dryfit_nm()
        self.c.call("dryfit_length_parse", text, len(text), ctypes.byref(out))
        return out.value

    def pattern(self, case: Case) -> Any:
        first = ctypes.c_uint32()
        joint = self.joint(case["spec"])
        boundaries = self.c.all("dryfit_pattern", self.c.dryfit_nm, ctypes.byref(joint), case["length"], BOARD, ctypes.byref(first))
        return ["AB"[first.value], *boundaries]

    def profile(self, case: Case) -> Any:
        edge = self.c.dryfit_edge(joint=self.joint(case["spec"]), run=case["length"], thickness=BOARD, depth=case["depth"])
        edge.fit, edge.kerf, edge.side = self.fit(case), case["kerf"], self.number("SIDE", case["side"])
        vertices = self.c.all("dryfit_edge_vertices", self.c.dryfit_vertex, ctypes.byref(edge))
        return [[vertex.at.x, vertex.at.y, vertex.role] for vertex in vertices]

    def box(self, case: Case, cut: Case) -> Any:
        flat = self.c.dryfit_flat_box(outside=tuple(case["size"]), thickness=case["thickness"], top=self.number("TOP", case["top"]))
        flat.fingers.width, flat.fit, flat.kerf = case["finger_width"] or 0, self.fit(cut), cut.get("kerf", 0)
        panels = {}
        for face in range(self.c.DRYFIT_FACE_TOP if flat.top else self.c.DRYFIT_FACE_COUNT):
            vertices = self.c.all("dryfit_panel_vertices", self.c.dryfit_vertex, ctypes.byref(flat), face)
            panels[self.c.dryfit_face_name(face).decode()] = [[[vertex.at.x, vertex.at.y] for vertex in vertices]]
        return panels


def cases(folder: Path, file: str) -> list[Case]:
    found = json.loads((folder / f"{file}.json").read_text(encoding="utf-8"))
    if not found:
        raise ValueError(f"{file}.json has no cases")
    return list(found)


def wanted(asked: Asked, folder: Path) -> Iterator[tuple[str, Case, Callable[[], Any], Any]]:
    """Of each case: its file, itself, what to do, and what must come of it."""
    for case in cases(folder, "lengths"):
        yield "lengths", case, lambda case=case: asked.length(case), case.get("nm", REFUSED)
    for case in cases(folder, "patterns"):
        if not says_zero(case["spec"]):
            yield "patterns", case, lambda case=case: asked.pattern(case), REFUSED if "error" in case else [case["first"], *case["boundaries"]]
    for case in cases(folder, "profiles"):
        if not says_zero(case["spec"]):
            vertices = [[x, y, asked.number("ROLE", role or "free")] for x, y, role in case.get("vertices", ())]
            yield "profiles", case, lambda case=case: asked.profile(case), vertices or REFUSED
    plain = {case["name"]: case for case in cases(folder, "boxes") if set(case) == set(PLAIN_BOX) and case["dividers"] == [0, 0] and case["top"] in ("open", "closed")}
    for case in plain.values():
        yield "boxes", case, lambda case=case: asked.box(case, {}), {board["name"]: board["loops"] for board in case["boards"]}
    for cut in cases(folder, "cuts"):
        if cut["file"] == "boxes" and cut["name"] in plain:
            yield "cuts", cut, lambda cut=cut: asked.box(plain[cut["name"]], cut), {board["name"]: board["loops"] for board in cut["boards"]}


def main(prefix: str, folder: str) -> int:
    counts: dict[str, list[int]] = {}
    for file, case, work, expected in wanted(Asked(Library(prefix)), Path(folder)):
        try:
            made = work()
        except Refused:
            made = REFUSED
        if made != expected:
            print(f"{file}: {json.dumps(case)}\nwanted {expected}\n  made {made}", file=sys.stderr)
            return 1
        equal = counts.setdefault(file, [0, 0])
        equal[0] += 1
        equal[1] += expected == REFUSED
    for file, (equal, refused) in counts.items():
        print(f"{file}: {equal} equal, {refused} of them refused")
    return 0


if __name__ == "__main__":
    if len(sys.argv) != 3:
        sys.exit(__doc__)
    sys.exit(main(*sys.argv[1:]))
