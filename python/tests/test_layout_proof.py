"""The proof of a layout, and what is left of its sheets, from Python."""

import dryfit as df
import pytest


@pytest.fixture(scope="module")
def stock():
    return df.Stock(thickness=3, sheet=(350, 250), border=8, gap=1, count=2)


@pytest.fixture(scope="module")
def parts(stock):
    return df.box(outside=(110, 85, 60), stock=stock).cut(cutter=df.Cutter.beam(kerf=0.2))


def test_a_layout_is_proved(parts, stock):
    report = parts.lay_out(stock).check()
    assert isinstance(report, df.LayoutReport)
    assert (report.ok, report.problems, report.gap_min, report.shared_length) == (True, [], 1.0, 0.0)
    assert repr(report) == "<dryfit.LayoutReport: it can be cut; least gap 1 mm>"
    assert report == parts.lay_out(stock).check()


def test_one_part_has_no_gap(stock):
    assert df.Parts.rectangles([(40, 20)]).lay_out(stock).check().gap_min is None


@pytest.mark.parametrize("together", [False, True])
def test_what_was_asked_for_is_what_is_proved(parts, together):
    """Grain, several kinds of sheets, sheets that run out, parts kept together."""
    job = parts + parts + parts
    stocks = [
        df.Stock(thickness=3, sheet=(230, 160), border=5, gap=2, count=1, grain="y"),
        df.Stock(thickness=3, sheet=(230, 160), border=5, gap=2, count=1, grain="y"),
        df.Stock(thickness=3, sheet=(300, 200), border=5, gap=2, count=2, grain="x"),
    ]
    grain = {name: "y" for name in job if name.startswith("front")}
    layout = job.lay_out(stocks, grain=grain, together=together)
    report = layout.check()
    assert report.ok, report.problems
    assert report.gap_min is not None and report.gap_min >= 2
    assert len(layout.sheets) > 2


def test_shared_cuts_are_proved():
    stock = df.Stock(thickness=2, sheet=("11 in", "11 in"), border=6.5, gap=1)
    layout = df.box(outside=(80, 80, 80), stock=stock).cut(cutter=df.Cutter.blade(kerf=0)).lay_out(stock, share_cuts=True)
    report = layout.check()
    assert report.ok, report.problems
    assert report.shared_length == layout.shared_length > 0


def test_offcuts_are_stock(stock):
    layout = df.Parts.rectangles([(100, 234)], thickness=3).lay_out(stock, turns=False)
    (offcut,) = layout.sheets[0].offcuts
    assert (offcut.x, offcut.y, offcut.width, offcut.height) == (109, 0, 241, 250)
    assert repr(offcut) == "<dryfit.Offcut 241 mm x 250 mm at 109, 0>"
    assert offcut.stock == df.Stock(thickness=3, sheet=(241, 250), border=8, gap=1, count=1)
    assert layout.offcuts == [offcut.stock]
    assert hash(offcut) == hash(layout.sheets[0].offcuts[0])
    again = df.Parts.rectangles([(225, 234), (300, 200)], thickness=3).lay_out([*layout.offcuts, stock])
    assert [sheet.stock.sheet for sheet in again.sheets] == [(241, 250), (350, 250)]
    assert again.check().ok


def test_a_full_sheet_leaves_nothing():
    stock = df.Stock(thickness=3, sheet=(116, 66), border=8)
    layout = df.Parts.rectangles([(100, 50)]).lay_out(stock)
    assert layout.offcuts == [] and layout.sheets[0].offcuts == []
