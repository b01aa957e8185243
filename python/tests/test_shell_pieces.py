"""The shell command on every kind of piece and every key: the job file says the same as the package's functions."""

import re
import xml.etree.ElementTree as ET
from pathlib import Path

import dryfit as df
import pytest
from conftest import Shell
from dryfit import _job

EVERY = """
title = "Every kind of piece"
web = 0.5
[stock.ply]
thickness = 6
sheet = [900, 600]
border = 8
gap = 4
[cutter]
kind = "bit"
diameter = 2
[fit]
cheek = 0.1
flank = 0.05
[relief]
radius = 1.1

[[box]]
name = "crate"
outside = [240, 160, 100]
top = "open"
finger_width = 26
holes = [
    { board = "left", at = [80, 72], size = [70, 24] },
    { board = "front", at = [60, 30], diameter = 5, count = [4, 3], spacing = [40, 20] },
    { board = "base", at = [120, 80], size = [40, 30], ends = "square" },
]
bolts = [{ edge = "front", face = "left", thread = "M4", length = 25, at = 45, clearance = "fine", gap = 0.3 }]

[[prism]]
name = "lamp"
sides = 6
across_flats = 160
height = 120
top = "open"
holes = [{ board = "base", at = [80, 69], diameter = 30 }]

[[splice]]
name = "plank"
length = 1200
width = "90 mm"
joint = { count = 2, slope = 8, half = "tails" }
holes = [{ board = "piece-1", at = [40, 45], diameter = 8 }]

[[splice]]
name = "lath"
copies = 2
length = 500
width = 60
pieces = 2
depth = 15
joint = { count = 1, slope = "1:6", pin_width = 20 }

[[ring]]
name = "frame"
outside = [300, 220]
width = 40
depth = 20
joint = { count = 1, slope = [1, 6] }

[[assembly]]
name = "leaf"
boards = [
    { name = "west", normal = "z", at = [0, 0, 0], size = [120, 100] },
    { name = "east", normal = "z", at = [120, 0, 0], size = [120, 100] },
]
keys = [{ name = "butterfly", between = ["west", "east"], length = 40, width = 25, at = 50, slope = 6 }]

[[assembly]]
name = "star"
boards = [
    { name = "one", normal = "y", at = [-60, -3, 0], size = [120, 90] },
    { name = "two", normal = "y", at = [-60, -3, 0], size = [120, 90], turn = 60 },
    { name = "three", normal = "y", at = [-60, -3, 0], size = [120, 90], turn = 120 },
]
laps = [["one", "two", "three"]]
holes = [{ board = "one", at = [20, 80], diameter = 6 }]

[[dovetail_corner]]
name = "drawer-corner"
width = 120
tail_board = 12
pin_board = "1/2 in"
count = 2
slope = 5
socket = 10
kind = "lapped"
lap = 4
gauge = 0.5
"""

PLY = df.Stock(thickness=6, sheet=(900, 600), border=8, gap=4)


def crate() -> df.Assembly:
    made = df.box(outside=(240, 160, 100), stock=PLY, top="open", finger_width=26)
    made.hole("left", at=(80, 72), size=(70, 24))
    made.hole("front", at=(60, 30), diameter=5, count=(4, 3), spacing=(40, 20))
    made.hole("base", at=(120, 80), size=(40, 30), ends="square")
    made.bolt("front", "left", thread="M4", length=25, at=45, clearance="fine", gap=0.3)
    return made


def lamp() -> df.Assembly:
    made = df.prism(sides=6, across_flats=160, height=120, stock=PLY, top="open")
    made.hole("base", at=(80, 69), diameter=30)
    return made


def plank() -> df.Assembly:
    made = df.splice(length=1200, width=90, stock=PLY, joint=df.Tails(count=2, slope=8, half="tails"))
    made.hole("piece-1", at=(40, 45), diameter=8)
    return made


def leaf() -> df.Assembly:
    made = df.Assembly(stock=PLY)
    made.add("west", normal="z", at=(0, 0, 0), size=(120, 100))
    made.add("east", normal="z", at=(120, 0, 0), size=(120, 100))
    made.key("butterfly", between=("west", "east"), length=40, width=25, at=50, slope=6)
    return made


def star() -> df.Assembly:
    made = df.Assembly(stock=PLY)
    for name, turn in (("one", 0), ("two", 60), ("three", 120)):
        made.add(name, normal="y", at=(-60, -3, 0), size=(120, 90), turn=turn)
    made.lap(["one", "two", "three"])
    made.hole("one", at=(20, 80), diameter=6)
    return made


@pytest.fixture
def job(tmp_path: Path) -> Path:
    file = tmp_path / "job.toml"
    file.write_text(EVERY)
    return file


def test_pieces_are_those_of_the_functions(job: Path) -> None:
    wanted = {
        "crate": crate(),
        "lamp": lamp(),
        "plank": plank(),
        "lath": df.splice(length=500, width=60, stock=PLY, joint=df.Tails(count=1, slope="1:6", pin_width=20), pieces=2, depth=15),
        "frame": df.ring(outside=(300, 220), width=40, stock=PLY, joint=df.Tails(count=1, slope=(1, 6)), depth=20),
        "leaf": leaf(),
        "star": star(),
    }
    loaded = _job.load(str(job))
    assert [piece.name for piece in loaded.pieces] == list(wanted)
    for piece in loaded.pieces:
        panels, others = piece.assembly.panels, wanted[piece.name].panels
        assert list(panels) == list(others)
        for name, panel in panels.items():
            assert [loop.tolist() for loop in panel.loops_nm] == [loop.tolist() for loop in others[name].loops_nm], (piece.name, name)
            assert [arcs.tolist() for arcs in panel.arcs_nm] == [arcs.tolist() for arcs in others[name].arcs_nm], (piece.name, name)
    corner = df.dovetail_corner(width=120, tail_board=12, pin_board="1/2 in", count=2, slope=5, socket=10, kind="lapped", lap=4, gauge=0.5)
    assert [each.layout for each in loaded.corners] == [corner]


def test_the_whole_job(job: Path, shell: Shell) -> None:
    checked = shell("check", "job.toml")
    assert (checked.returncode, checked.stderr) == (0, "")
    fits = ["crate: fits, panels: 5", "lamp: fits, panels: 7", "plank: fits, panels: 2", "lath: fits, panels: 2", "frame: fits, panels: 4"]
    assert checked.stdout.splitlines() == [*fits, "leaf: fits, panels: 3", "star: fits, panels: 3"]
    ran = shell("job", "job.toml", "--out", "out")
    assert (ran.returncode, ran.stderr) == (0, "")
    out = job.parent / "out"
    for file in out.glob("*.svg"):
        ET.parse(file)
    assert "out/drawer-corner-layout.svg  to be set out and cut by hand" in ran.stdout
    report = (out / "report.txt").read_text()
    for word in ("plank (splice of 2 panels)", "lath (splice of 2 panels, 2 of them)", "frame (ring of 4 panels)", "lamp (prism of 7 panels)"):
        assert word in report
    for word in ("drawer-corner (lapped dovetail for saw and chisel), see drawer-corner-layout.svg", "2 tails at 1:5", "lap 4", "beyond what handbooks advise: "):
        assert word in report


def test_a_layout_is_no_part(job: Path, shell: Shell) -> None:
    """The corner's lines are on a sheet of their own: the job with it has the same sheets as the job without it."""
    assert shell("job", "job.toml", "--out", "with").returncode == 0
    job.write_text(EVERY[: EVERY.index("[[dovetail_corner]]")])
    assert shell("job", "job.toml", "--out", "without").returncode == 0
    files = {path.name: path.read_bytes() for path in (job.parent / "without").iterdir()}
    sheets = [name for name in files if re.match("sheet-", name)]
    assert sheets
    for name in sheets:
        assert files[name] == (job.parent / "with" / name).read_bytes()
    assert "drawer-corner-layout.svg" not in files
    drawing = (job.parent / "with" / "drawer-corner-layout.svg").read_text()
    assert 'id="mark"' in drawing


def test_layouts_of_other_jobs_are_named(job: Path, shell: Shell) -> None:
    (job.parent / "out").mkdir()
    (job.parent / "out" / "old-layout.svg").write_text("of another job")
    assert "not of this job: old-layout.svg" in shell("job", "job.toml", "--out", "out").stdout
