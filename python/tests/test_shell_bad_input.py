"""Bad jobs: exit status 2, one line on stderr that names the key, the value and the range; no file is made, none is touched."""

from pathlib import Path

import pytest
from conftest import Shell

GOOD = {
    "stock": '[stock.grey]\nthickness = [2.46, 2.53]\nsheet = [500, 350]\nborder = 8\n',
    "cutter": '[cutter]\nkind = "blade"\nkerf = 0\ntrail = 0.25\n',
    "fit": "[fit]\ncheek = 0.05\n",
    "box": '[[box]]\nname = "tea"\noutside = [110, 85, 60]\n',
    "assembly": '[[assembly]]\nname = "stand"\nboards = [\n'
    '    { name = "long", normal = "y", at = [0, 50, 0], size = [120, 80] },\n'
    '    { name = "short", normal = "x", at = [60, 0, 0], size = [100, 80] },\n]\n'
    'joints = [{ between = ["long", "short"], kind = "halves" }]\n',
}


def job(**changed: str) -> str:
    return "".join({**GOOD, **changed}.values())


def board(text: str) -> str:
    return GOOD["assembly"].replace('{ name = "short", normal = "x", at = [60, 0, 0], size = [100, 80] }', text)


def joint(text: str) -> str:
    return GOOD["assembly"].replace('{ between = ["long", "short"], kind = "halves" }', text)


def splice(text: str) -> str:
    """Two boards end to end, 80 mm wide, 15 mm into each other."""
    return (
        '[[assembly]]\nname = "stand"\nboards = [\n    { name = "west", normal = "z", at = [0, 0, 0], size = [100, 80] },\n'
        '    { name = "east", normal = "z", at = [85, 0, 0], size = [120, 80] },\n]\n'
        f'joints = [{{ between = ["west", "east"], {text} }}]\n'
    )


def box(text: str) -> str:
    return f'[[box]]\nname = "tea"\n{text}\n'


def hole(text: str) -> str:
    return job(box=box(f"outside = [110, 85, 60]\nholes = [{{ {text} }}]"))


def bolt(text: str) -> str:
    return job(box=box(f"outside = [110, 85, 60]\nfinger_width = 18\nbolts = [{{ {text} }}]"))


def key(text: str) -> str:
    """A butterfly key in two boards of 80 mm that touch."""
    boards = [f'{{ name = "{name}", normal = "z", at = [{at}, 0, 0], size = [100, 80] }}' for name, at in (("west", 0), ("east", 100))]
    return job(assembly=f'[[assembly]]\nname = "leaf"\nboards = [{", ".join(boards)}]\nkeys = [{{ {text} }}]\n')


def long(text: str) -> str:
    return job(more=f'[[splice]]\nname = "plank"\n{text}\n')


def ring(text: str) -> str:
    return job(more=f'[[ring]]\nname = "frame"\n{text}\n')


def motion(keys: str) -> str:
    return job(more=f"[motion]\n{keys}\n")


def corner(text: str) -> str:
    return job(more=f'[[dovetail_corner]]\nname = "corner"\n{text}\n')


GCODE = 'files = ["gcode"]\n'
BUTTERFLY = 'name = "b", between = ["west", "east"], length = 30, width = 20, at = 40, slope = 6'
LONG = "length = 900\nwidth = 80\njoint = { count = 2, slope = 8 }"
RING = "outside = [300, 220]\nwidth = 40\njoint = { count = 1, slope = 6 }"
CORNER = "width = 120\ntail_board = 12\npin_board = 12\ncount = 5\nslope = 8\nsocket = 8"
STOCK_START = "[stock.grey]\n"

BAD: list[tuple[str, str, str]] = [
    # what is wrong, the job, what the line says
    ("empty", "", "stock: missing, allowed tables [stock.NAME]"),
    ("unknown table", job(fits="[fits]\ncheek = 1\n"), 'fits: unknown key, allowed "title", "stock", "cutter", "fit", "web", "relief", "layout", "motion", "pace", "box", "prism", "splice", "ring", "assembly", "dovetail_corner"; did you mean "fit"?'),
    ("unknown key of a box", job(box=box("outsid = [1, 2, 3]")), 'box[0].outsid: unknown key, allowed "name", "stock"'),
    ("its nearest", job(box=box("outsid = [1, 2, 3]")), 'did you mean "outside"?'),
    ("unknown key of a board", job(assembly=board('{ name = "short", norm = "x" }')), "assembly[0].boards[1].norm: unknown key"),
    ("unknown key of a joint", job(assembly=joint('{ between = ["long", "short"], kind = "halves", spilt = 0.5 }')), "assembly[0].joints[0].spilt: unknown key"),
    ("a key of another kind", job(assembly=joint('{ between = ["long", "short"], kind = "halves", width = 5 }')), "assembly[0].joints[0].width: unknown key"),
    ("a key of another cutter", job(cutter='[cutter]\nkind = "beam"\nkerf = 0.1\ntrail = 1\n'), "cutter.trail: unknown key, allowed"),
    ("odd key", job(fit='[fit]\n"a\\nb\\u001b" = 1\n'), "fit."),
    ("no cutter", job(cutter=""), "cutter: missing, allowed"),
    ("said once", job(cutter="[cutter]\nkerf = 0\n"), "dryfit: cutter.kind: missing"),
    ("no kind", job(cutter="[cutter]\nkerf = 0\n"), 'cutter.kind: missing, allowed one of "blade", "beam", "bit"'),
    ("unknown kind", job(cutter='[cutter]\nkind = "axe"\n'), 'cutter.kind: "axe" given, allowed "blade", "beam", "bit"'),
    ("no kerf", job(cutter='[cutter]\nkind = "beam"\n'), "cutter.kerf: missing, allowed a length"),
    ("negative kerf", job(cutter='[cutter]\nkind = "beam"\nkerf = -0.1\n'), "cutter.kerf: -0.1 mm given, allowed 0 mm to 20 mm"),
    ("no pieces", job(box="", assembly=""), "box, prism, splice, ring, assembly: missing, allowed tables [[box]], [[prism]], [[splice]], [[ring]], [[assembly]], one at least"),
    ("zero thickness", job(stock=STOCK_START + "thickness = 0\nsheet = [500, 350]\n"), "stock.grey.thickness: 0 mm given, allowed 0.01 mm to 200 mm"),
    ("negative thickness", job(stock=STOCK_START + "thickness = -2\nsheet = [500, 350]\n"), "stock.grey.thickness: -2 mm given"),
    ("not a number", job(stock=STOCK_START + "thickness = nan\nsheet = [500, 350]\n"), "stock.grey.thickness: nan given, allowed 0.01 mm to 200 mm"),
    ("infinite", job(stock=STOCK_START + "thickness = 2\nsheet = [inf, 350]\n"), "stock.grey.sheet[0]: inf given, allowed 1 mm to 10000 mm"),
    ("more than 10 m", job(stock=STOCK_START + "thickness = 2\nsheet = [10001, 350]\n"), "stock.grey.sheet[0]: 10001 mm given, allowed 1 mm to 10000 mm"),
    ("a reading", job(stock=STOCK_START + 'thickness = [2, "x"]\nsheet = [500, 350]\n'), "stock.grey.thickness[1]: 'x' given"),
    ("no readings", job(stock=STOCK_START + "thickness = []\nsheet = [500, 350]\n"), "stock.grey.thickness: no reading given, allowed 1 to 10000"),
    ("no thickness", job(stock=STOCK_START + "sheet = [500, 350]\n"), "stock.grey.thickness: missing"),
    ("unknown unit", job(stock=STOCK_START + 'thickness = "2 ells"\nsheet = [500, 350]\n'), "stock.grey.thickness: '2 ells' given"),
    ("wide border", job(stock=GOOD["stock"].replace("border = 8", "border = 175")), "stock.grey.border: 175 mm given, allowed 0 mm to 174.999999 mm"),
    ("a date", job(stock=STOCK_START + "thickness = 2026-11-25\nsheet = [500, 350]\n"), "stock.grey.thickness: datetime.date(2026, 11, 25) given"),
    ("stock is no table", "stock = 2.5\n" + job(stock=""), "stock: 2.5 given, allowed tables"),
    ("no sheets at all", job(stock=GOOD["stock"] + "count = 0\n"), "stock.grey.count: 0 given, allowed 1 to 1000000"),
    ("a grain across", job(stock=GOOD["stock"] + 'grain = "z"\n'), 'stock.grey.grain: \'z\' given, allowed "x", "y"'),
    ("a layout of an unknown kind", job(more="[layout]\nshare = true\n"), 'layout.share: unknown key, allowed "share_cuts"'),
    ("cuts shared by half", job(more="[layout]\nshare_cuts = 1\n"), "layout.share_cuts: 1 given, allowed True or False"),
    ("a search without time", job(more="[layout]\nseconds = 0\n"), "layout.seconds: 0 given, allowed more than 0 to 86400"),
    ("allowance", job(fit="[fit]\ncheek = 11\n"), "fit.cheek: 11 mm given, allowed -10 mm to 10 mm"),
    ("truth", job(fit="[fit]\ncheek = true\n"), "fit.cheek: True given, allowed a number of mm"),
    ("fit is no table", "fit = 1\n" + job(fit=""), 'fit: 1 given, allowed a table with "flank", "cheek", "tip"'),
    ("relief without radius", job(fit="[relief]\nshape = 'flank'\n"), "relief.radius: missing"),
    ("relief of no kind", job(fit="[relief]\nradius = 1\nshape = 'round'\n"), "relief.shape: 'round' given, allowed \"diagonal\", \"flank\", \"cheek\""),
    ("large relief", job(fit="[relief]\nradius = 15\n"), 'box[0]: panel "front" near ('),
    ("negative web", "web = -1\n" + job(), "web: -1 mm given, allowed 0 mm to 10000 mm"),
    ("web", "web = 40\n" + job(), 'box[0]: panel "front" near ('),
    ("title", "title = 3\n" + job(), "title: 3 given, allowed a string"),
    ("no name", job(box="[[box]]\noutside = [9, 9, 9]\n"), "box[0].name: missing"),
    ("a path as name", job(box='[[box]]\nname = "../tea"\noutside = [90, 90, 90]\n'), 'box[0].name: "../tea" given, allowed 1 to 60 letters, digits, - and _'),
    ("empty name", job(box='[[box]]\nname = ""\noutside = [90, 90, 90]\n'), 'box[0].name: "" given'),
    ("long name", job(box=f'[[box]]\nname = "{"x" * 61}"\noutside = [90, 90, 90]\n'), "box[0].name: "),
    ("two pieces of one name", job(more=box("outside = [90, 90, 90]").replace("tea", "TEA")), 'box[1].name: "TEA" given, taken by box[0]'),
    ("no size", job(box=box("")), "box[0].outside, inside: give one of the two"),
    ("both sizes", job(box=box("outside = [90, 90, 90]\ninside = [90, 90, 90]")), "box[0].outside, inside: give one of the two"),
    ("zero size", job(box=box("outside = [0, 85, 60]")), "box[0].outside[0]: 0 mm given, allowed 0.001 mm to 10000 mm"),
    ("thicker than the box", job(box=box("outside = [4, 85, 60]")), "box[0].outside[0]: 4 mm given, allowed 4.990001 mm to 10000 mm"),
    ("two sizes", job(box=box("outside = [110, 85]")), "box[0].outside: [110, 85] given, allowed 3 values"),
    ("a million fingers", job(assembly=joint('{ between = ["long", "short"], kind = "fingers", count = 1000000 }')), "assembly[0].joints[0].count: 1000000 given, allowed 1 to 100000"),
    ("fingers that do not fit", job(assembly=joint('{ between = ["long", "short"], kind = "fingers", count = 99 }')), "assembly[0].joints[0]: joint of \"long\" and \"short\": finger count: 99 given, allowed 1 to 32"),
    ("named the other way round", job(assembly=joint('{ between = ["short", "long"], kind = "fingers", count = 99 }')), "assembly[0].joints[0]: "),
    ("fingers without width", job(box=box("outside = [110, 85, 60]\nfinger_width = 0")), "box[0].finger_width: 0 mm given"),
    ("top", job(box=box('outside = [110, 85, 60]\ntop = "lid"')), 'box[0].top: \'lid\' given, allowed "closed", "open", "lift-off", "sliding"'),
    ("clearance", job(box=box('outside = [110, 85, 60]\ntop = "sliding"\nlid_clearance = 11')), "box[0].lid_clearance: 11 mm given, allowed 0 mm to 10 mm"),
    ("no lid", job(box=box("outside = [110, 85, 60]\nlid_clearance = 1")), 'box[0].lid_clearance: given without a lid, allowed with top="lift-off" or top="sliding"'),
    ("small for a lid", job(box=box('outside = [27, 85, 60]\ntop = "sliding"')), "box[0].outside[0]: 27 mm given, allowed 27.8"),
    ("one shelf", job(box=box("outside = [110, 85, 60]\nshelves = 20")), "box[0].shelves: 20 given, allowed a list of lengths"),
    ("a shelf is no length", job(box=box('outside = [110, 85, 60]\nshelves = [20, "high"]')), "box[0].shelves[1]: 'high' given, allowed 0.001 mm"),
    ("a shelf above the top", job(box=box("outside = [110, 85, 60]\nshelves = [20, 70]")), "box[0]: shelf 2: shelves: 70 mm given, allowed 2"),
    ("two shelves in one place", job(box=box("outside = [110, 85, 60]\nshelves = [20, 20]")), "box[0]: shelf 2: shelves: 20 mm given, allowed 2"),
    ("a shelf and dividers", job(box=box("outside = [110, 85, 60]\nshelves = [20]\ndividers = [1, 0]")), "box[0]: with dividers: shelves: this version cannot"),
    ("low feet", job(box=box("outside = [110, 85, 60]\nfeet = 1")), "box[0].feet: 1 mm given, allowed 2."),
    ("high feet", job(box=box('outside = [110, 85, 60]\nfeet = "2 m"')), "box[0].feet: 2000 mm given, allowed 0.1 mm to 1000 mm"),
    ("dividers", job(box=box("outside = [110, 85, 60]\ndividers = [0, 2.5]")), "box[0].dividers[1]: 2.5 given, allowed a whole number"),
    ("many dividers", job(box=box("outside = [110, 85, 60]\ndividers = [0, 99]")), "box[0].dividers: 99 given, allowed 0 to "),
    ("copies", job(box=box("outside = [110, 85, 60]\ncopies = 0")), "box[0].copies: 0 given, allowed 1 to 100"),
    ("half a copy", job(box=box("outside = [110, 85, 60]\ncopies = 1.5")), "box[0].copies: 1.5 given, allowed a whole number from 1 to 100"),
    ("unknown stock", job(box=box('outside = [110, 85, 60]\nstock = "gray"')), 'box[0].stock: "gray" given, allowed "grey"; did you mean "grey"?'),
    ("box is no list", "box = 3\n" + job(box=""), "box: 3 given, allowed [[box]] tables"),
    ("boxes are no tables", "box = [3]\n" + job(box=""), "box[0]: 3 given, allowed a table"),
    ("no boards", job(assembly='[[assembly]]\nname = "stand"\n'), "assembly[0].boards: missing"),
    ("empty boards", job(assembly='[[assembly]]\nname = "stand"\nboards = []\n'), "assembly[0].boards: the assembly is empty"),
    ("normal", job(assembly=board('{ name = "short", normal = "w", at = [60, 0, 0], size = [100, 80] }')), "assembly[0].boards[1].normal: 'w' given, allowed \"x\", \"y\", \"z\""),
    ("no corner", job(assembly=board('{ name = "short", normal = "x", size = [100, 80] }')), "assembly[0].boards[1].at: missing"),
    ("corner", job(assembly=board('{ name = "short", normal = "x", at = [60, 0, "up"], size = [100, 80] }')), "assembly[0].boards[1].at[2]: 'up' given"),
    ("one name twice", job(assembly=board('{ name = "long", normal = "x", at = [60, 0, 0], size = [100, 80] }')), 'assembly[0].boards[1]: board "long": name'),
    ("one place twice", job(assembly=board('{ name = "short", normal = "y", at = [0, 51, 0], size = [120, 80] }')), 'assembly[0].boards[1]: boards "long" and "short": at'),
    ("boards that never meet", job(assembly=board('{ name = "short", normal = "x", at = [200, 0, 0], size = [100, 80] }')), 'assembly[0].joints[0]: boards "long" and "short": joint'),
    ("a board alone", job(assembly=board('{ name = "short", normal = "x", at = [200, 0, 0], size = [100, 80] }').split("joints")[0]), 'assembly[0]: board "long": at, size'),
    ("line breaks in a name", job(assembly=board('{ name = "a\\nb", normal = "x", at = [200, 0, 0], size = [100, 80] }').split("joints")[0] .replace("long", "c\\nd")), "assembly[0]: board"),
    ("kind of joint", job(assembly=joint('{ between = ["long", "short"], kind = "glue" }')), 'assembly[0].joints[0].kind: "glue" given, allowed "fingers", "tabs", "halves"'),
    ("unknown board", job(assembly=joint('{ between = ["long", "tall"], kind = "halves" }')), 'assembly[0].joints[0]: board "tall": joint'),
    ("one board", job(assembly=joint('{ between = ["long"], kind = "halves" }')), "assembly[0].joints[0].between: ['long'] given, allowed the names of two boards"),
    ("one joint twice", job(assembly=joint('{ between = ["long", "short"], kind = "halves" }, { between = ["short", "long"], kind = "halves" }')), "assembly[0].joints[1].between: ['short', 'long'] given, taken by assembly[0].joints[0]"),
    ("tails without count", job(assembly=splice('kind = "tails", slope = 8')), "assembly[0].joints[0].count: missing, allowed a whole number"),
    ("tails without slope", job(assembly=splice('kind = "tails", count = 2')), "assembly[0].joints[0].slope: missing, allowed n for 1:n or a ratio"),
    ("no tails", job(assembly=splice('kind = "tails", count = 0, slope = 8')), "assembly[0].joints[0].count: 0 given, allowed 1 to 100000"),
    ("half a tail", job(assembly=splice('kind = "tails", count = 1.5, slope = 8')), "assembly[0].joints[0].count: 1.5 given, allowed a whole number"),
    ("slope upside down", job(assembly=splice('kind = "tails", count = 2, slope = "8:1"')), "assembly[0].joints[0].slope: '8:1' given, allowed n for 1:n, at least 1, or a ratio"),
    ("no slope", job(assembly=splice('kind = "tails", count = 2, slope = [0, 5]')), "assembly[0].joints[0].slope: [0, 5] given, allowed n for 1:n"),
    ("slope that is no number", job(assembly=splice('kind = "tails", count = 2, slope = nan')), "assembly[0].joints[0].slope: nan given, allowed n for 1:n"),
    ("ends of tails", job(assembly=splice('kind = "tails", count = 2, slope = 8, half = "sockets"')), "assembly[0].joints[0].half: 'sockets' given, allowed \"pins\", \"tails\""),
    ("wide pins", job(assembly=splice('kind = "tails", count = 2, slope = 8, pin_width = 40')), 'assembly[0].joints[0]: joint of "west" and "east": pin_width: 40 mm given, allowed 0.000001 mm to 39.999999 mm'),
    ("steep tails", job(assembly=splice('kind = "tails", count = 4, slope = 1')), 'assembly[0].joints[0]: joint of "west" and "east": slope times depth: 15 mm given, allowed 0 mm to 9.999998 mm'),
    ("tails at a corner", job(assembly=joint('{ between = ["long", "short"], kind = "tails", count = 2, slope = 8 }')), 'assembly[0].joints[0]: joint of "long" and "short": joint: tails join boards of one plane'),
    ("tab width", job(assembly=joint('{ between = ["long", "short"], kind = "tabs", spacing = 10 }')), "assembly[0].joints[0].width: missing"),
    ("split", job(assembly=joint('{ between = ["long", "short"], kind = "halves", split = 1 }')), "assembly[0].joints[0].split: 1 given, allowed more than 0 and less than 1"),
    ("hole of no board", hole("at = [9, 9], diameter = 2"), "box[0].holes[0].board: missing, allowed the name of a board"),
    ("hole nowhere", hole('board = "front", diameter = 2'), "box[0].holes[0].at: missing, allowed its middle (x, y) on the board"),
    ("hole of no size", hole('board = "front", at = [9, 9]'), "box[0].holes[0].diameter, size: one of the two must be given"),
    ("hole of another board", hole('board = "lid", at = [9, 9], diameter = 2'), 'box[0].holes[0]: board "lid"'),
    ("hole with an odd key", hole('board = "front", at = [9, 9], radius = 2'), "box[0].holes[0].radius: unknown key, allowed"),
    ("negative hole", hole('board = "front", at = [9, 9], diameter = -2'), "box[0].holes[0].diameter: -2 mm given, allowed 0.001 mm to 10000 mm"),
    ("ends of a hole", hole('board = "front", at = [9, 9], size = [2, 3], ends = "oval"'), "box[0].holes[0].ends: 'oval' given, allowed \"round\", \"square\""),
    ("a pattern of none", hole('board = "front", at = [9, 9], diameter = 2, count = [0, 3], spacing = [5, 5]'), "box[0].holes[0].count[0]: 0 given, allowed 1 to 1000"),
    ("a pattern without spacing", hole('board = "front", at = [9, 9], diameter = 2, count = [2, 3]'), "box[0].holes[0].spacing: missing"),
    ("hole over the edge", hole('board = "front", at = [1, 30], diameter = 9'), 'box[0]: panel "front" near (1, 30) mm: opening'),
    ("holes are no list", job(box=box("outside = [110, 85, 60]\nholes = 3")), "box[0].holes: 3 given, allowed a list of holes"),
    ("a hole is no table", job(box=box("outside = [110, 85, 60]\nholes = [3]")), "box[0].holes[0]: 3 given, allowed a table"),
    ("bolt without thread", bolt('edge = "front", face = "left", length = 20, at = 30'), "box[0].bolts[0].thread: missing"),
    ("bolt of no length", bolt('edge = "front", face = "left", thread = "M3", at = 30'), "box[0].bolts[0].length: missing, allowed a length"),
    ("bolt without face", bolt('edge = "front", thread = "M3", at = 30'), "box[0].bolts[0].face: missing"),
    ("thread", bolt('edge = "front", face = "left", thread = "M7", length = 20, at = 30'), "box[0].bolts[0].thread: 'M7' given, allowed \"M2\""),
    ("wide screw", bolt('edge = "front", face = "left", thread = "M3", length = 20, at = 30'), 'box[0].bolts[0]: bolt of "front" to "left": screw diameter: 3 mm given, allowed 0.000001 mm to 2.495 mm'),
    ("short screw", bolt('edge = "front", face = "left", thread = "M2", length = 3, at = 30'), 'box[0].bolts[0]: bolt of "front" to "left": screw length: 3 mm given'),
    ("bolt of a board to itself", bolt('edge = "front", face = "front", thread = "M2", length = 12, at = 30'), "box[0].bolts[0]: "),
    ("bolt in a finger", bolt('edge = "front", face = "left", thread = "M2", length = 12, at = 8'), "box[0]: panel \"front\" near"),
    ("key without slope", key(BUTTERFLY.replace(", slope = 6", "")), "assembly[0].keys[0].slope: missing, allowed n for 1:n or a ratio"),
    ("key without name", key(BUTTERFLY.replace('name = "b", ', "")), "assembly[0].keys[0].name: missing"),
    ("key of one board", key(BUTTERFLY.replace('"west", ', "")), "assembly[0].keys[0].between: ['east'] given, allowed the names of two boards"),
    ("key of an unknown board", key(BUTTERFLY.replace("west", "north")), 'assembly[0].keys[0]: board "north"'),
    ("key beyond the seam", key(BUTTERFLY.replace("at = 40", "at = 75")), "assembly[0].keys[0]"),
    ("long key", key(BUTTERFLY.replace("length = 30", "length = 300")), "assembly[0].keys[0]"),
    ("steep key", key(BUTTERFLY.replace("slope = 6", "slope = 1")), "assembly[0].keys[0]: joint of "),
    ("splice without length", long("width = 80"), "splice[0].length: missing, allowed a length"),
    ("splice without joint", long("length = 900\nwidth = 80"), "splice[0].joint: missing, allowed a table with count and slope"),
    ("splice of no tails", long(LONG.replace("count = 2", "count = 0")), "splice[0].joint.count: 0 given, allowed 1 to 100000"),
    ("splice with a kind", long(LONG.replace("count = 2", 'kind = "tails", count = 2')), 'splice[0].joint.kind: unknown key, allowed "count", "slope", "half", "pin_width"'),
    ("splice without slope", long(LONG.replace(", slope = 8", "")), "splice[0].joint.slope: missing"),
    ("splice of one", long(LONG + "\npieces = 1"), "splice[0].pieces: 1 given, allowed 2 to 100"),
    ("deep splice", long(LONG + "\ndepth = 201"), "splice[0].depth: 201 mm given, allowed 0.000001 mm to 200 mm"),
    ("splice that closes", long(LONG.replace("slope = 8", "slope = 1") + "\ndepth = 30"), 'splice[0]: joint of "piece-1" and "piece-2": slope times depth: 30 mm given'),
    ("negative splice", long(LONG.replace("900", "-900")), "splice[0].length: -900 mm given, allowed 0.001 mm to 10000 mm"),
    ("ring without size", ring("width = 40"), "ring[0].outside: missing, allowed two sizes"),
    ("ring of one size", ring(RING.replace("[300, 220]", "[300]")), "ring[0].outside: [300] given, allowed 2 values"),
    ("ring of boards too wide", ring(RING.replace("width = 40", "width = 400")), "ring[0].width: 400 mm given, allowed 0.001 mm to 1"),
    ("ring of another stock", ring(RING + '\nstock = "oak"'), 'ring[0].stock: "oak" given, allowed "grey"'),
    ("corner without width", corner("tail_board = 12"), "dovetail_corner[0].width: missing, allowed a length"),
    ("corner without count", corner(CORNER.replace("count = 5", "")), "dovetail_corner[0].count: missing, allowed a whole number"),
    ("corner that closes", corner(CORNER.replace("slope = 8", "slope = 1")), "dovetail_corner[0].count: 5 given, allowed 1 to 4"),
    ("kind of corner", corner(CORNER + '\nkind = "mitred"'), "dovetail_corner[0].kind: 'mitred' given, allowed \"through\", \"lapped\""),
    ("lap of a through corner", corner(CORNER + "\nlap = 4"), 'dovetail_corner[0].lap: only a corner of kind="lapped" has one'),
    ("corner with an odd key", corner(CORNER + "\nstock = 'grey'"), "dovetail_corner[0].stock: unknown key, allowed"),
    ("corner named as a box", corner(CORNER).replace('"corner"', '"Tea"'), 'dovetail_corner[0].name: "Tea" given, taken by box[0]'),
    ("corner alone", job(box="", assembly="", more=f'[[dovetail_corner]]\nname = "c"\n{CORNER}\n'), "box, prism, splice, ring, assembly: missing"),
    ("motion without files", motion("feed = 10"), 'motion.files: missing, allowed a list of "gcode", "hpgl", "dxf", "svg"'),
    ("motion of no files", motion("files = []"), "motion.files: [] given, allowed a list of"),
    ("motion of odd files", motion('files = ["gcode", "cnc"]'), "motion.files: ['gcode', 'cnc'] given"),
    ("motion files that are a word", motion('files = "gcode"'), "motion.files: \"gcode\" given"),
    ("motion with an odd key", motion(GCODE + "speeed = 3"), 'motion.speeed: unknown key, allowed "files", "feed"'),
    ("no feed", motion(GCODE + "feed = 0"), "motion.feed: 0 given, allowed 0.001 mm/s to 10000 mm/s"),
    ("feed that is no number", motion(GCODE + "feed = nan"), "motion.feed: nan given, allowed 0.001 mm/s to 10000 mm/s"),
    ("no passes", motion(GCODE + "passes = 0"), "motion.passes: 0 given, allowed 1 to 1000"),
    ("depth above the bed", motion(GCODE + "depth = 2"), "motion.depth: 2 mm given, allowed 2.495 mm to 7.495 mm"),
    ("depth below the bed", motion(GCODE + "depth = 9"), "motion.depth: 9 mm given, allowed 2.495 mm to 7.495 mm"),
    ("passes and step", motion(GCODE + "passes = 2\nstep = 1"), "motion.step: either the number of passes or the depth of one is given"),
    ("bridges twice", motion(GCODE + "bridges = 2\nbridge_spacing = 80"), "motion.bridge_spacing: given beside bridges"),
    ("a beam's power for a blade", motion(GCODE + "power = 5"), "motion.power: the tool of this job has no such setting"),
    ("lead of a blade", motion(GCODE + "lead = 1"), "motion.lead: the tool of this job has no such setting"),
    ("pause within a line", motion(GCODE + 'pause = true\nby = "line"'), "motion.pause: the machine can wait between passes over the whole sheet"),
    ("too tight", job(fit="[fit]\nflank = 9.9\n"), 'box[0]: panel "front" near ('),
    ("syntax", job() + "\nx = = 1\n", "the file is not TOML"),
    ("a key twice", job() + "[fit]\n", "the file is not TOML"),
    ("deep nesting", "x = " + "[" * 100_000, "nested too deeply"),
    ("a key with many dots", job() + "a" + ".a" * 400_000 + " = 1\n", "a key of more than 64 parts in line "),
    ("a header with many dots", job() + '["a"' + ' . "a"' * 100_000 + "]\n", "a key of more than 64 parts in line "),
    ("a number with many digits", "web = " + "9" * 5000, ""),
]


@pytest.fixture
def out(tmp_path: Path) -> Path:
    folder = tmp_path / "out"
    folder.mkdir()
    (folder / "report.txt").write_text("old")
    return folder


def refused(shell: Shell, out: Path, file: str) -> str:
    """Runs both commands; returns the line."""
    lines = set()
    before = sorted(path.name for path in out.parent.iterdir())
    for command in (["check", file], ["job", file, "--out", "out"], ["job", file, "--out", "new/folder"]):
        ran = shell(*command)
        assert ran.returncode == 2, ran
        assert ran.stdout == "" and ran.stderr.startswith("dryfit: ") and ran.stderr.count("\n") == 1 and ran.stderr.endswith("\n"), ran
        assert ran.stderr[:-1].isprintable() and len(ran.stderr) < 600
        lines.add(ran.stderr)
        assert [path.name for path in out.iterdir()] == ["report.txt"] and (out / "report.txt").read_text() == "old"
        assert sorted(path.name for path in out.parent.iterdir()) == before
    assert len(lines) == 1
    return lines.pop()


@pytest.mark.parametrize(("text", "says"), [row[1:] for row in BAD], ids=[row[0] for row in BAD])
def test_bad_jobs(shell: Shell, out: Path, text: str, says: str) -> None:
    (out.parent / "job.toml").write_text(text, encoding="utf-8")
    assert says in refused(shell, out, "job.toml")


def test_the_good_job_is_good(shell: Shell, out: Path) -> None:
    (out.parent / "job.toml").write_text(job())
    assert shell("check", "job.toml").returncode == 0


@pytest.mark.parametrize("good", [long(LONG), ring(RING), corner(CORNER), key(BUTTERFLY)], ids=["splice", "ring", "corner", "key"])
def test_what_the_bad_ones_are_made_of_is_good(shell: Shell, out: Path, good: str) -> None:
    (out.parent / "job.toml").write_text(good)
    ran = shell("check", "job.toml")
    assert ran.returncode == 0, ran


@pytest.mark.parametrize("slope", ["8", "6.5", '"5:24"', "[1, 8]"])
def test_a_good_splice_is_good(shell: Shell, out: Path, slope: str) -> None:
    tails = f'kind = "tails", count = 2, slope = {slope}, half = "tails", pin_width = "9 mm"'
    (out.parent / "job.toml").write_text(job(assembly=splice(tails)))
    ran = shell("check", "job.toml")
    assert ran.returncode == 0, ran


UNPLACED = [
    ("a part too large", job(box=box("outside = [600, 85, 60]")), 'stock.grey.sheet: part "tea front" of 600 mm x 60 mm, at most 484 mm x 334 mm: longer side: 600 mm given, allowed 0 mm to 484 mm'),
    ("no stock is large enough", job(more='[stock.offcut]\nthickness = "2.495 mm"\nsheet = [9, 9]\n', stock=GOOD["stock"].replace("500, 350", "90, 90")), "stock.offcut.sheet: part \"tea front\" of 110 mm x 60 mm, at most 74 mm x 74 mm"),
    ("too few sheets", job(stock=GOOD["stock"].replace("500, 350", "200, 160") + "count = 1\n"), "stock.grey.count: too few sheets given for "),
    ("grain of no part", job(more='[layout]\ngrain = { "tea frnt" = "y" }\n'), "layout.grain: 'tea frnt' given, allowed names of parts"),
]


@pytest.mark.parametrize(("text", "says"), [row[1:] for row in UNPLACED], ids=[row[0] for row in UNPLACED])
def test_what_finds_no_place(shell: Shell, out: Path, text: str, says: str) -> None:
    """Only the whole job lays out sheets."""
    (out.parent / "job.toml").write_text(text)
    assert shell("check", "job.toml").returncode == 0
    ran = shell("job", "job.toml", "--out", "out")
    assert ran.returncode == 2 and says in ran.stderr and ran.stderr.count("\n") == 1, ran
    assert (out / "report.txt").read_text() == "old"


def test_files_that_cannot_be_read(shell: Shell, out: Path) -> None:
    folder = out.parent
    (folder / "big.toml").write_bytes(b"#" * (100 << 20))
    (folder / "bytes.toml").write_bytes(b'title = "a"\n\xff\xfe\n')
    (folder / "folder.toml").mkdir()
    assert "dryfit: \"big.toml\": 104857600 bytes given, allowed 1 to 1048576" in refused(shell, out, "big.toml")
    assert 'bytes.toml": byte 0xff in line 2: the file is not UTF-8 text' in refused(shell, out, "bytes.toml")
    assert 'folder.toml": a folder given' in refused(shell, out, "folder.toml")
    assert 'none.toml": the file cannot be read: No such file' in refused(shell, out, "none.toml")
    assert "no plain file given" in refused(shell, out, "/dev/zero")
    assert "cannot be read" in refused(shell, out, "x" * 5000)
    assert "line 3" in _syntax(shell, out)


def _syntax(shell: Shell, out: Path) -> str:
    (out.parent / "job.toml").write_text('title = "a"\n\nx = = 1\n')
    return refused(shell, out, "job.toml")


@pytest.mark.parametrize("folder", ["job.toml", "job.toml/out", "/proc/dryfit", "", "x" * 300, "/dev/null/out"])
def test_folders_that_cannot_be_written(shell: Shell, out: Path, folder: str) -> None:
    (out.parent / "job.toml").write_text(job())
    ran = shell("job", "job.toml", "--out", folder)
    assert ran.returncode == 2 and ran.stdout == "" and ran.stderr.count("\n") == 1
    assert ran.stderr.startswith("dryfit: --out: ") and "allowed a folder that can be written" in ran.stderr
    assert sorted(path.name for path in out.parent.iterdir()) == ["job.toml", "out"] and (out.parent / "job.toml").read_text() == job()


@pytest.mark.parametrize("arguments", [[], ["cut"], ["job"], ["job", "a.toml"], ["job", "a.toml", "--out"], ["check"], ["check", "a", "b"], ["--colour"]])
def test_wrong_arguments(shell: Shell, arguments: list[str]) -> None:
    ran = shell(*arguments)
    assert ran.returncode == 2 and ran.stdout == "" and ran.stderr.startswith("dryfit: ") and ran.stderr.count("\n") == 1
