"""Tables against the numbers of the layouts that they are made of."""

from decimal import Decimal

import dryfit as df
import numpy as np
import pytest
from dryfit import tables

STOCK = df.Stock(thickness=3, sheet=(400, 300), border=6, gap=2, count=1)
LARGE = df.Stock(thickness=3, sheet=("20 in", 400), border=6, gap=2)
THICK = df.Stock(thickness=5, sheet=(400, 300), border=6, gap=2)
PACE = df.Pace(feed=12, acceleration=800, lift=0.3)


def job(share_cuts=False):
    thin = df.box(outside=(150, 110, 70), stock=STOCK, dividers=(2, 1)).cut(cutter=df.Cutter.beam(kerf=0.16))
    thick = df.box(outside=(120, 100, 60), stock=THICK, top="open").cut(cutter=df.Cutter.beam(kerf=0.16))
    return (thin + thin + thick).lay_out([STOCK, LARGE, THICK], share_cuts=share_cuts), thin + thin + thick


def test_parts_add_up():
    _, parts = job()
    table = tables.parts(parts)
    assert list(table.columns) == ["name", "count", "width_mm", "height_mm", "thickness_mm", "area_mm2"]
    assert table["count"].sum() == len(parts)
    assert (table["count"] * table.area_mm2).sum() == pytest.approx(sum(part.area for part in parts.values()), rel=1e-12)
    names = [name for row in table.name for name in row.split(", ")]
    assert sorted(names) == sorted(parts)
    for row in table.itertuples():
        for name in row.name.split(", "):
            points = np.vstack(parts[name].finished_loops)
            assert (row.width_mm, row.height_mm) == pytest.approx(tuple(np.ptp(points, axis=0)))
            assert (row.thickness_mm, row.area_mm2) == (parts[name].thickness, parts[name].area)
    # Both boxes are alike, and so are front and back.
    assert "front, back, front-2, back-2" in set(table.name)


def test_parts_one_by_one():
    _, parts = job()
    table = tables.parts(parts, alike=False)
    assert list(table.name) == list(parts) and set(table["count"]) == {1}
    assert list(table.area_mm2) == [part.area for part in parts.values()]


def test_alike_is_alike_to_the_nanometre_and_in_thickness():
    sizes = [(60, 40), (60, 40), (60, "40.000001 mm"), (40, 60)]
    assert list(tables.parts(df.Parts.rectangles(sizes, thickness=3))["count"]) == [2, 1, 1]
    two = df.Parts.rectangles([(60, 40)], thickness=3) + df.Parts.rectangles([(60, 40)], thickness=4) + df.Parts.rectangles([(60, 40)])
    table = tables.parts(two)
    assert list(table["count"]) == [1, 1, 1] and table.thickness_mm.isna().tolist() == [False, False, True]
    holed = df.Assembly(stock=STOCK)
    for number, at in enumerate([(20, 20), (20, 20), (21, 20)]):
        holed.add(f"plate {number}", normal="z", at=(0, 0, 50 * number), size=(60, 40))
        holed.hole(f"plate {number}", at=at, diameter=5)
    holed.add("post", normal="x", at=(50, 0, -10), size=(40, 130))
    assert list(tables.parts(holed)["count"]) == [2, 1, 1]


@pytest.mark.parametrize("share_cuts", [False, True])
def test_cuts_add_up(share_cuts):
    layout, parts = job(share_cuts)
    table = tables.cuts(layout)
    assert list(table.columns) == ["sheet", "order", "part", "kind", "closed", "length_mm"]
    assert table.length_mm.sum() == pytest.approx(layout.cut_length, rel=1e-12)
    for number, sheet in enumerate(layout.sheets, 1):
        rows = table[table.sheet == number]
        assert rows.length_mm.sum() == pytest.approx(sheet.cut_length, rel=1e-12)
        assert list(rows.order) == list(range(1, len(rows) + 1))
        assert list(rows.kind) == [cut.kind for cut in sheet.route().cuts]
    shared = table[table.kind == "cut-shared"]
    assert bool(len(shared)) == share_cuts
    assert shared.length_mm.sum() == pytest.approx(layout.shared_length, rel=1e-12)
    if not share_cuts:
        assert set(table.part) == set(parts) and table.closed.all()


def test_costs_add_up():
    layout, _ = job()
    prices = {STOCK: 4.25, LARGE: Decimal("7.10"), THICK: np.float32(6.5)}
    table = tables.costs(layout, per_sheet=prices, pace=PACE, per_hour=42, passes=2)
    assert list(table.columns) == ["item", "sheets", "minutes", "price_per_sheet", "price_per_hour", "price"]
    used = [sheet.stock for sheet in layout.sheets]
    minutes = layout.minutes(PACE, passes=2)
    assert table.price.sum() == pytest.approx(sum(float(prices[stock]) for stock in used) + minutes / 60 * 42, rel=1e-12)
    assert table.sheets.sum() == len(used) and table.minutes.sum() == minutes > 1
    assert len(table) == len(set(used)) + 1 and list(table.item)[-1] == "machine"
    assert "board 508 x 400 x 3 mm" in set(table.item)


def test_costs_of_boards_alone():
    layout, _ = job()
    table = tables.costs(layout, per_sheet=3)
    assert table.price.sum() == 3 * len(layout.sheets) and "machine" not in set(table.item)


def test_an_empty_layout_has_empty_tables():
    none = df.Parts.rectangles([])
    layout = none.lay_out(STOCK)
    for table in (tables.parts(none), tables.cuts(layout), tables.costs(layout, per_sheet=3)):
        assert len(table) == 0 and len(table.columns) > 5
    assert tables.cuts(layout).length_mm.sum() == 0


@pytest.mark.parametrize(
    ("given", "error", "words"),
    [
        ({"per_sheet": -1}, df.OutOfRange, r"^per_sheet: -1 given, allowed 0 to 1000000000$"),
        ({"per_sheet": float("nan")}, df.NotFinite, r"^per_sheet: nan given, allowed 0 to 1000000000$"),
        ({"per_sheet": "4.5"}, df.WrongType, r'^per_sheet: "4.5" given, allowed a number from 0 to 1000000000$'),
        ({"per_sheet": True}, df.WrongType, r"^per_sheet: True given"),
        ({"per_sheet": None}, df.WrongType, r"^per_sheet: None given"),
        ({"per_sheet": {STOCK: 3}}, df.MissingKey, r"^per_sheet: no price for Stock\(thickness=3, sheet=\(508, 400\)"),
        ({"per_sheet": {STOCK: 3, LARGE: 4, THICK: -2}}, df.OutOfRange, r"^per_sheet\[Stock\(thickness=5"),
        ({"per_sheet": 3, "pace": PACE}, df.MissingKey, r"^per_hour: missing, needed beside pace$"),
        ({"per_sheet": 3, "per_hour": 40}, df.MissingKey, r"^pace: missing, needed beside per_hour$"),
        ({"per_sheet": 3, "per_hour": float("inf"), "pace": PACE}, df.NotFinite, r"^per_hour: inf given"),
        ({"per_sheet": 3, "per_hour": 40, "pace": 3}, df.WrongType, r"^pace: "),
        ({"per_sheet": 3, "per_hour": 40, "pace": PACE, "passes": 0}, df.OutOfRange, r"^passes: "),
    ],
)
def test_what_is_refused(given, error, words):
    layout, _ = job()
    with pytest.raises(error, match=words):
        tables.costs(layout, **given)


def test_wrong_things_are_refused():
    for call, name in ((tables.parts, "of"), (tables.cuts, "layout"), (lambda what: tables.costs(what, per_sheet=1), "layout")):
        with pytest.raises(df.WrongType, match=f"^{name}: 3 given, allowed "):
            call(3)
