"""The cases of boxes.json, assemblies.json and cuts.json."""

import random

import boxes
import checks
import cut
import scenes
from assembly import Assembly, AssemblyError
from outline import Panel, clean

MM = 1_000_000


def work_out(boards, joints):
    """All panels of an assembly, checked."""
    assembly = Assembly(boards, joints)
    panels = [Panel(assembly, board) for board in assembly.boards]
    checks.check(assembly, panels)
    return panels


MORE = ("clearance", "shelves", "feet")


def box_panels(box):
    more = {key: box[key] for key in MORE if key in box}
    boards = boxes.boards(box["size"], box["thickness"], box["top"], box["dividers"], **more)
    return work_out(boards, boxes.joints(boards, box["finger_width"]))


def box_inputs():
    def box(size, t, top="closed", dividers=(0, 0), finger_width=None, **more):
        # Whole numbers below 2000 are millimetres, all others nanometres.
        size = [s * MM if s < 2000 else s for s in size]
        t = t * MM if t < 100 else t
        return {"size": size, "thickness": t, "top": top, "dividers": list(dividers), "finger_width": finger_width, **more}

    out = [
        box((100, 80, 60), 3), box((200, 150, 100), 6), box((60, 60, 60), 2), box((100, 80, 60), 3, "open"),
        box((110, 85, 60), 2_500_000), box((110, 85, 60), 2_500_000, "open"), box((30, 20, 12), 3),
        box((12, 12, 12), 3), box((9_000_001, 9_000_001, 9_000_001), 3), box((20, 20, 7), 3, "open"), box((40, 30, 9), 3, "open"),
        box((500, 400, 300), 18), box((1999, 1200, 700), 25), box((99_999_989, 79_999_987, 60_000_011), 2_999_957),
        box((101_600_000, 76_200_000, 50_800_000), 3_175_000), box((254_000_001, 200_000_003, 120_000_007), 6_350_001, "open"),
        box((123_456_789, 98_765_431, 45_678_901), 1_999_993), box((100, 80, 60), 3, "closed", (0, 0), 5 * MM),
        box((100, 80, 60), 3, "closed", (0, 0), 20 * MM), box((100, 80, 60), 3, "open", (0, 0), 8_333_333),
        box((300, 200, 150), 4, "closed", (0, 0), 1), box((300, 200, 150), 12, "open", (0, 0), 300 * MM),
    ]
    rng = random.Random(577)
    for _ in range(7):
        t = rng.randrange(2 * MM, 7 * MM)
        size = [rng.randrange(8 * t, 40 * t) for _ in range(3)]
        width = rng.choice([None, rng.randrange(2 * t, 5 * t)])
        out.append(box(size, t, rng.choice(["closed", "open"]), (0, 0), width))
    out += [
        box((100, 80, 60), 3, "open", (1, 0)), box((100, 80, 60), 3, "closed", (0, 1)), box((100, 80, 60), 3, "open", (1, 1)),
        box((120, 90, 40), 3, "closed", (1, 1)), box((200, 150, 60), 3, "open", (2, 1)), box((200, 150, 60), 4, "closed", (1, 2)),
        box((300, 200, 80), 4, "open", (4, 3)), box((100_000_001, 79_999_999, 59_999_997), 2_999_999, "open", (2, 2)),
        box((100, 80, 60), 3, "open", (3, 0), 12 * MM), box((150, 120, 50), 3_000_001, "closed", (2, 2), 7 * MM),
        box((90, 70, 15), 3, "open", (1, 1)), box((333_333_333, 222_222_223, 77_777_777), 5_000_003, "open", (0, 3)),
    ]
    out += [
        box((150, 100, 70), 3, "lift-off", clearance=200_000), box((150, 100, 70), 3, "sliding", clearance=200_000),
        box((110, 85, 60), 2_500_000, "lift-off", (2, 1), clearance=0), box((110, 85, 60), 2_500_000, "sliding", (1, 1), clearance=333_333),
        box((160_000_003, 120_000_001, 90_000_007), 3_000_001, "lift-off", clearance=150_001, shelves=[12_345_678], feet=10_000_001),
        box((160_000_003, 120_000_001, 90_000_007), 3_000_001, "sliding", (0, 0), 11 * MM, clearance=150_001, shelves=[12_345_678], feet=10_000_001),
        box((100, 80, 60), 3, "open", shelves=[3 * MM, 20 * MM, 40 * MM]), box((100, 80, 60), 3, "closed", feet=12 * MM),
        box((100, 80, 60), 3, "open", (2, 2), feet=9 * MM), box((140, 120, 100), 4, "closed", (0, 0), 9 * MM, shelves=[30 * MM, 60 * MM], feet=4 * MM),
    ]
    for number, one in enumerate(out, 1):
        one["name"] = f"box{number}"
    return out


def box_cases():
    checks.shell_areas(lambda size, t, top: box_panels(
        {"size": size, "thickness": t, "top": top, "dividers": [0, 0], "finger_width": None}))
    cases = []
    for box in box_inputs():
        boards = []
        for panel in box_panels(box):
            loops = [clean(ring) for ring in panel.rings()]
            boards.append({"name": panel.board.name, "area": str(panel.area()), "loops": loops})
        case = {key: box[key] for key in ("name", "size", "thickness", "top", "dividers", "finger_width", *MORE) if key in box}
        cases.append({**case, "boards": boards})
    return cases


def drawn_scenes(how_many):
    """Drawn assemblies in which every board keeps something."""
    found = []
    for name, boards, joints in scenes.all_drawn(200):
        try:
            panels = work_out(boards, joints)
        except AssemblyError:
            continue
        cubes = len(panels[0].assembly.cube_owners)
        if len(panels) >= 4 and cubes and all(panel.cells for panel in panels):
            found.append((name, boards, joints))
    return found[:how_many]


def assembly_inputs():
    return scenes.chosen() + drawn_scenes(12)


def with_mate_names(ring):
    return [[u, v, role, mate.name if mate else None] for u, v, role, mate in ring]


def assembly_cases():
    cases = []
    for name, boards, joints in assembly_inputs():
        panels = []
        for panel in work_out(boards, joints):
            loops = []
            rings = panel.rings()
            for ring in rings:
                loops.append({"raw": with_mate_names(ring), "clean": clean(ring)})
            panels.append({"name": panel.board.name, "area": str(panel.area()), "loops": loops})
        cases.append({"name": name, "boards": boards, "joints": joints, "panels": panels})
    for name, boards, joints, wanted in scenes.wrong():
        try:
            Assembly(boards, joints)
        except AssemblyError as error:
            assert str(error) == wanted, name
        else:
            raise AssertionError(f"{name} is meant to be an error")
        cases.append({"name": name, "boards": boards, "joints": joints, "error": wanted})
    return cases


FITS = [
    {"flank": 100_000, "cheek": 50_000, "tip": 0, "kerf": 180_000},
    {"flank": 50_001, "cheek": 33_333, "tip": 12_345, "kerf": 100_001},
    {"flank": -40_001, "cheek": -20_003, "tip": -10_007, "kerf": 150_003},
    {"flank": 0, "cheek": 0, "tip": 0, "kerf": 200_001},
    {"flank": -1, "cheek": 1, "tip": -1, "kerf": 1},
    {"flank": 1, "cheek": -1, "tip": 1, "kerf": 0},
]

CUT_BOXES = ["box1", "box4", "box8", "box14", "box20", "box31", "box32", "box34", "box37"]


def cut_cases():
    sources = []
    for box in box_inputs():
        if box["name"] in CUT_BOXES:
            sources.append(("boxes", box["name"], box_panels(box)))
    for name, boards, joints in assembly_inputs():
        # The star's panels hang together by a point alone: with kerf their pieces would overlap.
        if name == "star":
            continue
        sources.append(("assemblies", name, work_out(boards, joints)))
    cases = []
    for number, (file, name, panels) in enumerate(sources):
        how_many = 3 if sum(len(panel.us) for panel in panels) < 60 else 1
        for k in range(how_many):
            fit = FITS[(number + k) % len(FITS)]
            boards = []
            for panel in panels:
                loops = cut.cut_loops(panel.board, panel.rings(), **fit)
                checks.apart(loops)
                boards.append({"name": panel.board.name, "loops": loops})
            cases.append({"file": file, "name": name, **fit, "boards": boards})
    return cases
