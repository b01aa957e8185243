"""Turned boards, laps and prisms: what comes in, what is refused, what files say."""

from collections.abc import Callable
from pathlib import Path
from typing import Any

import dryfit as df
import pytest
from dryfit.__main__ import main

STOCK = df.Stock(thickness=3, sheet=(500, 350), border=8)


def star(*turns: float) -> df.Assembly:
    made = df.Assembly(stock=STOCK)
    for k, turn in enumerate(turns):
        made.add(f"board-{k}", normal="y", at=(0, 48.5, 0), size=(100, 60), turn=turn)
    return made


def prism(**keys: Any) -> df.Assembly:
    return df.prism(**{"sides": 6, "outside": 60, "height": 50, "stock": STOCK, **keys})


def test_three_ways_to_give_the_size() -> None:
    # A hexagon's side is half the circle's diameter; its flats lie sqrt 3 sides apart.
    for keys in ({"outside": 60}, {"outside": None, "across_corners": 120}, {"outside": None, "across_flats": "103.923048 mm"}):
        assert prism(**keys).panels["side-1"].loops_nm[0][:, 0].max() == pytest.approx(60_000_000, abs=1)
    square = df.prism(sides=4, across_flats=60, height=50, stock=STOCK, top="closed")
    box = df.box(outside=(60, 60, 50), stock=STOCK)
    assert (square.panels["base"].loops_nm[0] == box.panels["base"].loops_nm[0]).all()


def test_a_prism_becomes_files() -> None:
    made = prism(top="closed", finger_width=8)
    parts = made.cut(cutter=df.Cutter.beam(kerf=0.18), fit=df.Fit(cheek=0.05))
    assert parts.dry_fit().ok
    assert len(parts.lay_out(STOCK).sheets) >= 1
    assert made.picture().count("<title>side-") == 6
    assert made.picture(explode=0).startswith("<svg")
    assert {step.direction[1] for step in made.order()} <= set("xyzuvw")


JOB = """
[stock.grey]
thickness = 3
sheet = [500, 350]
border = 8

[cutter]
kind = "beam"
kerf = 0.18

[[prism]]
name = "pot"
sides = 6
outside = 60
height = 50

[[assembly]]
name = "star"
boards = [
    { name = "low", normal = "y", at = [0, 48.5, 0], size = [100, 60], turn = 0 },
    { name = "middle", normal = "y", at = [0, 48.5, 0], size = [100, 60], turn = 60 },
    { name = "high", normal = "y", at = [0, 48.5, 0], size = [100, 60], turn = 120, about = "z" },
]
laps = [["low", "middle", "high"]]
"""


@pytest.mark.parametrize(
    ("change", "status", "said"),
    [
        (("", ""), 0, ""),
        (("sides = 6", "sides = 60"), 2, "prism[0].sides: 60 given, allowed 3 to 12"),
        (("sides = 6", ""), 2, "prism[0].sides: missing"),
        (('"high"]', '"tall"]'), 2, 'assembly[0].laps[0]: board "tall": lap: '),
        (("turn = 60", "turn = 5"), 2, "angle between boards: 5 deg given, allowed 15 deg to 90 deg"),
        (("laps = [[", "laps = [[[]], ["), 2, "assembly[0].laps[0].names[0]: [] given, allowed a string"),
    ],
)
def test_job_files(
    tmp_path: Path, capsys: pytest.CaptureFixture[str], change: tuple[str, str], status: int, said: str
) -> None:
    file = tmp_path / "job.toml"
    file.write_text(JOB.replace(*change))
    assert main(["job", str(file), "--out", str(tmp_path / "out")]) == status
    assert said in capsys.readouterr().err
    if status == 0:
        assert "(-w)" in (tmp_path / "out" / "report.txt").read_text()


@pytest.mark.parametrize(
    ("keys", "error", "said"),
    [
        ({"sides": 2}, df.OutOfRange, "sides: 2 given, allowed 3 to 12"),
        ({"sides": 13}, df.OutOfRange, "sides: 13 given, allowed 3 to 12"),
        ({"sides": 6.5}, df.WrongType, "sides: 6.5 given, allowed a whole number"),
        ({"outside": 8}, df.OutOfRange, "outside: 8 mm given, allowed 8.196154 mm to 10000 mm"),
        ({"outside": float("nan")}, df.NotFinite, "outside: "),
        ({"height": 3}, df.ThickerThanBox, "height: 3 mm given"),
        ({"outside": None}, df.MissingKey, "outside, across_flats, across_corners"),
        ({"across_corners": 120}, df.UnknownKey, "outside, across_flats, across_corners"),
        ({"outside": None, "across_flats": 90, "sides": 5}, df.OddSides, "across flats: only an even number"),
        ({"top": "round"}, df.OutOfRange, "top: 'round' given"),
        ({"finger_width": 0}, df.OutOfRange, "finger_width: 0 mm given"),
        ({"stock": 3}, df.WrongType, "stock: 3 given"),
    ],
)
def test_refused_prisms(keys: dict[str, Any], error: type[Exception], said: str) -> None:
    with pytest.raises(error, match=said):
        prism(**keys)


def panels(made: df.Assembly) -> Any:
    return made.panels


@pytest.mark.parametrize(
    ("use", "error", "said"),
    [
        (lambda: star(0, 10), df.OutOfRange, "angle between boards: 10 deg given, allowed 15 deg to 90 deg"),
        (lambda: star(361), df.OutOfRange, "turn: 361 deg given, allowed -360 deg to 360 deg"),
        (lambda: star(float("inf")), df.NotFinite, "turn: inf given"),
        (lambda: df.Assembly(stock=STOCK).add("a", normal="x", at=(0, 0, 0), size=(9, 9), turn="30"), df.WrongType, "turn: '30' given"),  # type: ignore[arg-type]
        (lambda: df.Assembly(stock=STOCK).add("a", normal="x", at=(0, 0, 0), size=(9, 9), about="y"), df.MissingKey, "turn: missing"),
        (lambda: df.Assembly(stock=STOCK).add("a", normal="z", at=(0, 0, 0), size=(9, 9), turn=20), df.TwoAxes, 'board "a": turn: '),
        (lambda: panels(star(0, 60, 120)), df.NotLapped, 'boards "board-0", "board-1" and "board-2"'),
        (lambda: star(0, 60).lap(["board-0"]), df.OutOfRange, "boards of a lap: 1 given, allowed 2 to 4"),
        (lambda: star(0, 60).lap("board-0"), df.WrongType, "names: 'board-0' given, allowed a list of names"),
        (lambda: star(0, 60).lap(["board-0", "board-9"]), df.NoSuchBoard, 'board "board-9"'),
        (lambda: star(0, 60).lap(["board-0", "board-0"]), df.NameTaken, 'board "board-0"'),
    ],
)
def test_refused_turns_and_laps(use: Callable[[], object], error: type[Exception], said: str) -> None:
    with pytest.raises(error, match=said):
        use()
