"""`boxes`: each row is what box, cut and lay_out make of it."""

import inspect
import math
import pickle
from typing import Any

import dryfit as df
import numpy as np
import pytest
from conftest import turns_during

SHEET = df.Stock(thickness=3, sheet=(420, 300), border=8)
FIT = df.Fit(flank=0.06, cheek=-0.04, tip=0.02)


def one_by_one(sizes: Any, thickness: Any, kerf: Any, *, which: str = "outside", fit: df.Fit | None = None, pace: df.Pace | None = None, **asked: Any) -> list[tuple[Any, ...]]:
    """The long way: (code, parts, sheets, cut_length, area, gaps, minutes) of each row."""
    rows: list[tuple[Any, ...]] = []
    for size, t, k in zip(sizes, thickness, kerf, strict=True):
        stock = df.Stock(thickness=t, sheet=SHEET.sheet, border=SHEET.border)
        try:
            parts = df.box(**{which: size}, stock=stock, **asked).cut(cutter=df.Cutter.beam(kerf=k), fit=fit)
            layout = parts.lay_out(stock)
        except df.DryfitError as refused:
            rows.append((refused.code, 0, 0, *[math.nan] * 5))
            continue
        report = parts.dry_fit()
        area = math.fsum(part.area for part in parts.values())
        minutes = math.nan if pace is None else layout.minutes(pace)
        rows.append((0, len(parts), len(layout.sheets), layout.cut_length, area, report.gap_min, report.gap_max, minutes))
    return rows


def table(boxes: df.Boxes) -> list[tuple[Any, ...]]:
    columns = [boxes.code, boxes.parts, boxes.sheets, boxes.cut_length, boxes.area, boxes.gap_min, boxes.gap_max]
    minutes = np.full(boxes.shape, math.nan) if boxes.minutes is None else boxes.minutes
    return list(zip(*(column.tolist() for column in (*columns, minutes) if column is not None), strict=True))


ASKED: list[dict[str, Any]] = [
    {}, {"top": "open", "finger_width": 7}, {"which": "inside"}, {"top": "lift-off", "lid_clearance": 0.3}, {"top": "sliding", "which": "inside"},
    {"dividers": (1, 2)}, {"top": "open", "dividers": (2, 0), "dividers_in_base": True}, {"fit": FIT}, {"fit": FIT, "dividers": (1, 1)},
    {"pace": df.Pace(feed=20, acceleration=400, lift=0.3)}, {"shelves": [14.5, 30], "fit": FIT}, {"feet": 12, "fit": FIT},
    {"which": "inside", "shelves": ["2 cm"], "feet": 9, "top": "lift-off"}, {"feet": 9, "dividers": (1, 0), "pace": df.Pace(feed=20, acceleration=400)},
]  # fmt: skip


@pytest.mark.parametrize("asked", ASKED, ids=map(str, ASKED))
def test_rows_are_those_of_the_long_way(asked: dict[str, Any]) -> None:
    rng = np.random.default_rng(len(str(asked)))
    sizes: Any = np.round(rng.uniform(8, 200, (40, 3)), 3)
    # One that its walls fill, and one that is larger than the sheet.
    sizes[7], sizes[23] = (80, 5, 70), (900, 80, 70)
    thickness, kerf = rng.choice([2.5, 3, 4.1], 40), np.round(rng.uniform(0, 0.3, 40), 3)
    asked = dict(asked)
    wanted = one_by_one(sizes, thickness, kerf, **asked)
    which = asked.pop("which", "outside")
    made = df.boxes(**{which: sizes}, thickness=thickness, kerf=kerf, stock=SHEET, **asked)
    assert sum(row[0] != 0 for row in wanted) in range(1, 20)
    for given, row in zip(table(made), wanted, strict=True):
        assert given[:4] == pytest.approx(row[:4], abs=0, rel=0, nan_ok=True) and given[5:] == pytest.approx(row[5:], abs=0, rel=0, nan_ok=True)
        assert given[4] == pytest.approx(row[4], rel=1e-14, nan_ok=True)
    # Without a layout all else is the same, but for what does not fit a sheet.
    asked.pop("pace", None)
    bare = df.boxes(**{which: sizes}, thickness=thickness, kerf=kerf, stock=SHEET, lay_out=False, **asked)
    assert bare.sheets is None and bare.minutes is None and "sheets" not in bare.columns()
    fits = made.code != df.LargerThanSheet.code
    for name in ("cut_length", "area", "parts", "gap_min", "gap_max", "code"):
        assert np.array_equal(bare.columns()[name][fits], made.columns()[name][fits], equal_nan=True), name


WRONG: list[dict[str, Any]] = [
    {"top": "shut"}, {"top": 3}, {"finger_width": 0}, {"finger_width": "wide"}, {"dividers": 2}, {"dividers": (1, 2, 3)}, {"dividers": (1, -1)},
    {"dividers_in_base": 1}, {"lid_clearance": 0.3}, {"lid_clearance": 0.3, "top": "open"}, {"top": "sliding", "lid_clearance": -1}, {"shelves": 20},
    {"shelves": [20, "high"]}, {"shelves": [math.nan]}, {"feet": -1}, {"feet": True}, {"inside": (80, 80, 80)}, {"outside": None},
]  # fmt: skip


def test_boxes_has_every_option_of_box() -> None:
    options = set(inspect.signature(df.box).parameters)
    assert options <= set(inspect.signature(df.boxes).parameters)
    assert options - {"stock"} == {name for wrong in WRONG for name in wrong}


@pytest.mark.parametrize("wrong", WRONG, ids=str)
def test_box_refuses_in_the_same_words(wrong: dict[str, Any]) -> None:
    with pytest.raises(df.DryfitError) as one:
        df.box(**{"stock": SHEET, "outside": (80, 80, 80), **wrong})
    with pytest.raises(df.DryfitError) as many:
        df.boxes(**{"stock": SHEET, "outside": (80, 80, 80), **wrong})
    assert type(one.value) is type(many.value) and str(one.value) == str(many.value)


def test_what_box_makes_of_several_boards_is_refused_row_by_row() -> None:
    made = df.boxes(stock=SHEET, outside=[(80, 80, 80), (80, 5, 80)], shelves=[30], dividers=(1, 0))
    assert made.code.tolist() == [df.NotAvailable.code, df.ThickerThanBox.code]
    made = df.boxes(stock=SHEET, outside=[(80, 80, 80), (80, 80, 40)], shelves=[34])
    assert made.code[0] == 0 != made.code[1] and made.parts.tolist() == [7, 0]


def test_real_boards_and_cuts_change_the_gaps_alone() -> None:
    boards, cuts = np.linspace(2.8, 3.2, 5)[:, None], np.linspace(0.1, 0.3, 3)
    asked: dict[str, Any] = {"stock": SHEET, "outside": (110, 85, 60), "kerf": 0.2, "fit": FIT, "lay_out": False}
    real: dict[str, Any] = {"real_thickness": boards, "real_kerf": cuts}
    gaps = df.gaps(thickness=3, kerf=0.2, fit=FIT, **real)
    plain, divided = df.boxes(**asked, **real), df.boxes(**asked, **real, dividers=(1, 0))
    assert np.array_equal(plain.gap_min, np.minimum(gaps.flank, gaps.shoulder)) and np.array_equal(plain.gap_max, np.maximum(gaps.flank, gaps.shoulder))
    assert np.array_equal(divided.gap_min, gaps.gap_min) and np.array_equal(divided.gap_max, gaps.gap_max)
    meant = df.boxes(**asked)
    assert plain.shape == (5, 3) and meant.shape == () and (plain.cut_length == meant.cut_length).all() and (plain.code == 0).all()


def test_shapes_go_together_as_numpy_has_it() -> None:
    sizes = np.array([[[110, 85, 60]], [[90, 85, 60]]])
    grid = df.boxes(stock=SHEET, outside=sizes, thickness=[2.5, 3, 4], kerf=0.1, lay_out=False)
    assert grid.shape == (2, 3)
    for row, size in enumerate(sizes[:, 0]):
        assert grid.cut_length[row].tolist() == [float(df.boxes(stock=SHEET, outside=size, thickness=t, kerf=0.1, lay_out=False).cut_length) for t in (2.5, 3, 4)]
    said: Any = [("110 mm", 85, 60), (90, "85", "6 cm")]
    words = df.boxes(stock=SHEET, outside=said, thickness=["2.5 mm", "3"], cutter=df.Cutter.beam(kerf=0.1), lay_out=False)
    assert words.cut_length.tolist() == [grid.cut_length[0, 0], grid.cut_length[1, 1]]


def test_too_few_sheets_are_a_refusal_of_the_row() -> None:
    stock = df.Stock(thickness=3, sheet=(300, 200), count=1)
    made = df.boxes(stock=stock, outside=[(60, 50, 40), (150, 150, 100), (400, 50, 50)])
    assert made.code.tolist() == [0, df.NoSheetLeft.code, df.LargerThanSheet.code]
    assert made.sheets is not None and made.sheets.tolist() == [1, 0, 0] and np.isnan(made.cut_length).tolist() == [False, True, True]


NAN = float("nan")
REFUSED: list[tuple[dict[str, Any], type[df.DryfitError], str]] = [
    ({}, df.MissingKey, "outside, inside: give one of the two"),
    ({"outside": (1, 2, 3), "inside": (1, 2, 3)}, df.UnknownKey, "outside, inside: give one of the two"),
    ({"outside": np.full((18, 3), 80.0) + [0, 0, 0] + np.eye(18, 3, -15) * [0, 0, NAN]}, df.NotFinite, "outside[0][2]: nan given, allowed 0.001 mm to 10000 mm"),
    ({"outside": [[80, 80, 80], [80, -1, 80]]}, df.OutOfRange, "outside[1][1]: -1 mm given, allowed 0.001 mm to 10000 mm"),
    ({"outside": [[80, 80]]}, df.WrongType, "outside: an array of shape (1, 2) given, allowed (..., 3): sizes along x, y and z"),
    ({"inside": 80}, df.WrongType, "inside: an array of shape () given"),
    ({"inside": []}, df.OutOfRange, "inside: an empty array of shape (0,) given"),
    ({"outside": [[80, 80, 80]] * 2, "thickness": [3, 3, 3]}, df.WrongType, "outside, thickness: arrays of shape (2, 3), (3,) given"),
    ({"outside": (80, 80, 80), "thickness": [3, 300]}, df.OutOfRange, "thickness[1]: 300 mm given, allowed 0.01 mm to 200 mm"),
    ({"outside": (80, 80, 80), "kerf": 0.1, "cutter": df.Cutter.beam(kerf=0.1)}, df.UnknownKey, "kerf, cutter: give one of the two"),
    ({"outside": (80, 80, 80), "cutter": 0.1}, df.WrongType, "cutter: 0.1 given, allowed a Cutter"),
    ({"outside": (80, 80, 80), "fit": [FIT]}, df.WrongType, "fit: [Fit("),
    ({"outside": (80, 80, 80), "top": "shut"}, df.OutOfRange, "top: 'shut' given, allowed \"closed\", \"open\""),
    ({"outside": (80, 80, 80), "lid_clearance": 1}, df.UnknownKey, "lid_clearance: given without a lid"),
    ({"outside": (80, 80, 80), "lay_out": 1}, df.WrongType, "lay_out: 1 given, allowed True or False"),
    ({"outside": (80, 80, 80), "pace": 20}, df.WrongType, "pace: 20 given, allowed a Pace"),
    ({"outside": (80, 80, 80), "pace": df.Pace(feed=20, acceleration=400), "lay_out": False}, df.UnknownKey, "pace: given with lay_out=False"),
    ({"outside": (80, 80, 80), "stock": 3}, df.WrongType, "stock: 3 given, allowed a Stock"),
    ({"outside": (80, 80, 80), "progress": 3}, df.WrongType, "progress: 3 given, allowed None, True, False or a function"),
]  # fmt: skip


@pytest.mark.parametrize(("given", "error", "text"), REFUSED, ids=[text for _, _, text in REFUSED])
def test_refusals(given: dict[str, Any], error: type[df.DryfitError], text: str) -> None:
    with pytest.raises(error) as refused:
        df.boxes(**{"stock": SHEET, **given})
    assert str(refused.value).startswith(text) and type(refused.value) is error


def test_results_are_values_and_chunks_the_same_bytes() -> None:
    sizes = np.random.default_rng(5).uniform(10, 150, (30, 3))
    made = df.boxes(stock=SHEET, outside=sizes, kerf=0.1)
    again = pickle.loads(pickle.dumps(made))
    assert again == made and hash(again) == hash(made) and made != df.boxes(stock=SHEET, outside=sizes, kerf=0.1, lay_out=False) and made != 3
    assert repr(made) == f"<dryfit.Boxes of shape (30,), {np.count_nonzero(made.code)} refused>"
    chunks = [df.boxes(stock=SHEET, outside=chunk, kerf=0.1) for chunk in np.array_split(sizes, 7)]
    assert df.Boxes.join(chunks) == made
    with pytest.raises(df.WrongType, match="chunks: sweeps with and without layouts"):
        df.Boxes.join([made, df.boxes(stock=SHEET, outside=sizes, lay_out=False)])
    with pytest.raises(ValueError):
        made.code[0] = 1
    for column, values in made.columns().items():
        assert values.dtype == (np.int64 if column in ("parts", "sheets", "code") else np.float64)


def test_a_pace_of_known_jobs_warns_once() -> None:
    known = [df.box(outside=size, stock=SHEET).cut(cutter=df.Cutter.blade(kerf=0)).lay_out(SHEET) for size in [(90, 70, 50), (90, 80, 60), (140, 120, 100)]]
    pace = df.Pace.from_known(list(zip(known, (10.0, 11.0, 15.0), strict=True)))
    with pytest.warns(df.OutsideKnown, match="2 of the boxes lie outside the known jobs") as warned:
        made = df.boxes(stock=SHEET, outside=[(60, 50, 40), (90, 80, 60), (200, 150, 100)], pace=pace)
    assert len(warned) == 1 and made.minutes is not None and np.isfinite(made.minutes).all()


def test_other_threads_run_meanwhile() -> None:
    sizes = np.random.default_rng(5).uniform(60, 150, (4000, 3))
    assert turns_during(lambda: df.boxes(stock=SHEET, outside=sizes, dividers=(1, 1), lay_out=False, progress=False), enough=10) >= 10
