"""The shell command on good input, and on jobs that do not fit."""

import subprocess
import sys
import xml.etree.ElementTree as ET
from pathlib import Path

import dryfit as df
import pytest
from conftest import PATIENCE, ROOT, Shell

CABINET = ROOT / "python" / "demo-job" / "cabinet.toml"

SMALL = """
[stock.grey]
thickness = 2.5
sheet = [500, 350]
[cutter]
kind = "beam"
kerf = 0.18
[[box]]
name = "tea"
outside = [60, 50, 40]
"""

CUT_IN_TWO = """
[stock.grey]
thickness = 2.5
sheet = [500, 350]
[cutter]
kind = "blade"
kerf = 0
trail = 0.25
[[assembly]]
name = "odd"
boards = [
    { name = "cut", normal = "z", at = [0, 0, 50], size = [100, 60] },
    { name = "across", normal = "x", at = [40, 0, 0], size = [60, 100] },
]
joints = [{ between = ["across", "cut"], kind = "fingers", count = 1 }]
"""


def test_the_cabinet(shell: Shell, tmp_path: Path) -> None:
    ran = shell("job", CABINET, "--out", "out")
    assert (ran.returncode, ran.stderr) == (0, "")
    files = sorted(path.name for path in (tmp_path / "out").iterdir())
    sheets = [name for name in files if name.startswith("sheet-")]
    kinds = ("dxf", "gcode", "svg")
    assert sheets == [f"sheet-{n}.{kind}" for n in range(1, len(sheets) // 3 + 1) for kind in kinds]
    assert set(files) == {*sheets, "labels-exploded.svg", "drawer-exploded.svg", "rack-exploded.svg", "report.txt"}
    for name in files:
        assert f"out/{name}" in ran.stdout
        if name.endswith(".svg"):
            ET.parse(tmp_path / "out" / name)
    code = (tmp_path / "out" / "sheet-1.gcode").read_text()
    assert code.startswith("(title: Swatch cabinet of the dye garden, sheet 1 of ") and code.count("M0\n") == 2 and "G1 Z-0.3 " in code and "G1 Z-2.5075 " in code
    root = ET.parse(tmp_path / "out" / "sheet-1.svg").getroot()
    assert (root.get("width"), root.get("height"), root.get("viewBox")) == ("500mm", "350mm", "0 0 500 350")
    report = (tmp_path / "out" / "report.txt").read_text()
    for word in ("2.5075 thick", "labels (box of 6 panels)", "2 of them", "rack (assembly of 6 panels)", "drawer 2 divider-y2", "base: put it down", "sheet 1: 3 passes, 0.3, 1.25375 and 2.5075 deep; ", "the thickest reading is 0.0425 more than the last pass is deep"):
        assert word in report
    assert report.count("design: fits") == report.count("cut parts: fits") == 3


def test_the_drawers_fit_the_rack() -> None:
    """The bays are wider and higher than a drawer, with at least a millimetre of play, and the drawer stands proud at the front."""
    from dryfit import _job

    job = _job.load(str(CABINET))
    rack = next(piece for piece in job.pieces if piece.name == "rack").assembly
    drawer = next(piece for piece in job.pieces if piece.name == "drawer").assembly
    ends = {name: panel.frame[:3, 3] for name, panel in rack.panels.items()}
    thick = rack.stock.thickness
    width, height = drawer.panels["front"].loops[0].max(axis=0)
    depth = drawer.panels["left"].loops[0].max(axis=0)[0]
    assert 1 < ends["right"][0] - (ends["left"][0] + thick) - width < 4
    assert all(1 < ends[above][2] - (ends[below][2] + thick) - height < 4 for below, above in (("floor", "shelf"), ("shelf", "top")))
    assert 5 < depth - (ends["back"][1] - thick) < 10


def test_check_writes_nothing(shell: Shell, tmp_path: Path) -> None:
    (tmp_path / "job.toml").write_text(SMALL)
    ran = shell("check", "job.toml")
    assert (ran.returncode, ran.stdout, ran.stderr) == (0, "tea: fits, panels: 6\n", "")
    assert [path.name for path in tmp_path.iterdir()] == ["job.toml"]


def test_the_same_job_gives_the_same_bytes(shell: Shell, tmp_path: Path) -> None:
    (tmp_path / "job.toml").write_text(SMALL)
    read = []
    for folder in ("one", "two"):
        assert shell("job", "job.toml", "--out", folder).returncode == 0
        read.append({path.name: path.read_bytes() for path in (tmp_path / folder).iterdir()})
    assert read[0] == read[1]


def test_files_are_replaced_and_others_stay(shell: Shell, tmp_path: Path) -> None:
    (tmp_path / "job.toml").write_text(SMALL)
    out = tmp_path / "out"
    out.mkdir()
    (out / "report.txt").write_text("old")
    (out / "notes.txt").write_text("mine")
    (out / "sheet-7.svg").write_text("of another job")
    (out / "pot-exploded.svg").write_text("of another job")
    ran = shell("job", "job.toml", "--out", "out")
    assert ran.returncode == 0 and "not of this job: pot-exploded.svg, sheet-7.svg" in ran.stdout
    assert sorted(path.name for path in out.iterdir()) == ["notes.txt", "pot-exploded.svg", "report.txt", "sheet-1.svg", "sheet-7.svg", "tea-exploded.svg"]
    assert (out / "notes.txt").read_text() == "mine" and (out / "report.txt").read_text() != "old"


def test_a_fit_that_fails(shell: Shell, tmp_path: Path) -> None:
    (tmp_path / "job.toml").write_text(CUT_IN_TWO)
    for command in (["check", "job.toml"], ["job", "job.toml", "--out", "out"]):
        ran = shell(*command)
        assert ran.returncode == 1 and ran.stdout == ""
        assert "the fit fails" in ran.stderr and 'odd: design: panel "cut" comes in 2 pieces' in ran.stderr
        assert [path.name for path in tmp_path.iterdir()] == ["job.toml"]


def test_a_design_that_fails_is_named_before_its_cut(shell: Shell, tmp_path: Path) -> None:
    """Three boards of one size through one point: no flat boards make that, whatever the kerf."""
    boards = [("a", "x", [40, 0, 0]), ("b", "y", [0, 40, 0]), ("c", "z", [0, 0, 40])]
    rows = ", ".join(f'{{ name = "{name}", normal = "{normal}", at = {at}, size = [80, 80] }}' for name, normal, at in boards)
    (tmp_path / "job.toml").write_text(f'{SMALL.split("[[box]]")[0]}[[assembly]]\nname = "star"\nboards = [{rows}]\n')
    ran = shell("check", "job.toml")
    assert ran.returncode == 1 and "star: design: " in ran.stderr


def test_boards_with_stocks_of_their_own_need_no_other(shell: Shell, tmp_path: Path) -> None:
    (tmp_path / "job.toml").write_text("""
[stock.thick]
thickness = 6
sheet = [500, 350]
[stock.thin]
thickness = 3
sheet = [500, 350]
[cutter]
kind = "blade"
[[assembly]]
name = "shelf"
boards = [
    { name = "side", normal = "x", at = [0, 0, 0], size = [100, 200], stock = "thick" },
    { name = "board", normal = "z", at = [0, 0, 90], size = [150, 100], stock = "thin" },
]
""")
    ran = shell("check", "job.toml")
    assert (ran.returncode, ran.stdout, ran.stderr) == (0, "shelf: fits, panels: 2\n", "")


@pytest.mark.skipif(not Path("/dev/full").exists(), reason="needs a device that is always full")
def test_words_that_find_no_taker(tmp_path: Path) -> None:
    """One line, no traceback; the files are there."""
    (tmp_path / "job.toml").write_text(SMALL)
    command = [sys.executable, "-m", "dryfit", "job", "job.toml", "--out", "out"]
    with open("/dev/full", "w") as full:
        ran = subprocess.run(command, cwd=tmp_path, stdout=full, stderr=subprocess.PIPE, text=True, timeout=PATIENCE)
    assert ran.returncode == 2 and ran.stderr.startswith("dryfit: standard output: ") and ran.stderr.count("\n") == 1
    assert (tmp_path / "out" / "report.txt").exists()


def test_a_byte_order_mark_and_windows_lines_are_fine(shell: Shell, tmp_path: Path) -> None:
    (tmp_path / "job.toml").write_bytes(b"\xef\xbb\xbf" + SMALL.replace("\n", "\r\n").encode())
    assert shell("check", "job.toml").returncode == 0


def test_help_and_version(shell: Shell) -> None:
    assert shell("--version").stdout == f"dryfit {df.__version__}\n"
    for command in ([], ["job"], ["check"]):
        ran = shell(*command, "--help")
        assert ran.returncode == 0 and "usage: dryfit" in ran.stdout
