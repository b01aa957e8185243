"""Everything that a user would send to another process gets there: pickles, copies, spawned processes."""

import copy
import multiprocessing
import pickle
from typing import Any

import dryfit as df
import pytest
from test_values import VALUES


def stand() -> df.Assembly:
    """An assembly made by every way of adding to one."""
    made = df.Assembly(stock=df.Stock(thickness=6, sheet=(600, 400)))
    made.add("base", normal="z", at=(0, 0, 0), size=(200, "150 mm"))
    made.add("wall", normal="x", at=(0, 0, 0), size=(150, 90))
    made.add("far", normal="z", at=(200, 0, 0), size=(100, 150), stock=df.Stock(thickness=6, sheet=(500, 500)))
    made.joint("wall", "base", df.Tabs(width=20, spacing=30))
    made.joint("base", "wall", df.Fingers(width=30, first="b"))
    made.hole("wall", at=(75, 60), size=(40, 20), ends="square")
    made.hole("base", at=(100, 30), diameter=5, count=(2, 2), spacing=(20, 20))
    made.bolt("wall", "base", thread="M3", length=16, at="105 mm", clearance="fine", gap=0.3)
    made.key("key", between=["base", "far"], length=40, width=20, at=75, slope="1:6")
    return made


def star() -> df.Assembly:
    made = df.Assembly(stock=df.Stock(thickness=3, sheet=(500, 350)))
    for name, turn in [("low", 0), ("middle", 60.123456789), ("high", -60)]:
        made.add(name, normal="y", at=(0, 48.5, 0), size=(100, 60), turn=turn, about="z")
    made.lap(name for name in ("low", "middle", "high"))
    return made


STOCK = df.Stock(thickness=3, sheet=(500, 350), border=8)


def assemblies() -> list[df.Assembly]:
    return [
        df.Assembly(stock=STOCK),
        df.box(outside=(110, 85, 60), stock=STOCK),
        df.box(inside=("4 in", 90, 70), stock=STOCK, top="lift-off", lid_clearance=0.3, shelves=(height for height in [30]), feet=12, finger_width=8),
        df.box(outside=(230, 160, 48), stock=STOCK, top="open", dividers=[3, 2], dividers_in_base=True),
        df.prism(sides=6, across_corners=100 / 3, height=50, stock=STOCK, top="closed", finger_width="7 mm"),
        df.prism(sides=5, outside=40, height=50, stock=STOCK),
        df.prism(sides=8, across_flats=90, height=50, stock=STOCK),
        df.splice(length=700, width=80, stock=STOCK, joint=df.Tails(count=2, slope="5:24"), pieces=3, depth=15),
        df.splice(length=700, width=80, stock=STOCK, joint=df.Tails(count=2, slope=8)),
        df.ring(outside=(400, 300), width=40, stock=STOCK, joint=df.Tails(count=1, slope=6), depth=20),
        stand(),
        star(),
    ]


def results() -> list[Any]:
    """Results of every class, some in many ways."""
    every: list[Any] = assemblies()
    pieces = every[1:]
    for piece in pieces:
        every += [piece.panels[name] for name in list(piece.panels)[-2:]]
        every += [piece.dry_fit(), *piece.order()[-2:]]
    bit, beam = df.Cutter.bit(diameter=1), df.Cutter.beam(kerf=0.2)
    box = pieces[0]
    parts = box.cut(cutter=beam, fit=df.Fit(cheek=0.1), label="tea") + box.cut(cutter=beam)
    relieved = stand().cut(cutter=bit, web=0.5, relief=df.Relief(radius=1, shape="flank"))
    plain = df.Parts.rectangles([(60, 40), (60, "2 in")], names=["front", "back"], thickness=3) + df.Parts.rectangles([(30, 20)])
    every += [parts, relieved, plain, parts + (plain + plain), parts["tea top"], plain["1"], parts.dry_fit()]
    layout = (parts + parts).lay_out([STOCK, df.Stock(thickness=3, sheet=(500, 350), count=2, grain="x")], share_cuts=True, grain={"tea top": "y"}, seed=3)
    few = df.Parts.rectangles([(60, 40)] * 5).lay_out(df.Stock(thickness=1, sheet=(100, 70), count=1))
    sheet, pace = layout.sheets[-1], df.Pace(feed=20, acceleration=500)
    route = sheet.route(start="middle", outer="clockwise", home=True)
    every += [layout, few, *layout.sheets, *sheet.placements[:2], *sheet.offcuts, *layout.offcuts, route, *route.cuts[:3], layout.check(), layout.tally()]
    every += [sheet.plan(), sheet.plan(df.Motion(cutter=df.Cutter.bit(diameter=3), passes=2, feed=20)), layout.estimate(pace), sheet.route()]
    corner = df.dovetail_corner(width=120, tail_board=STOCK, pin_board=12, count=5, slope=8, kind="lapped", lap=4, gauge="0.5 mm", socket=8)
    every += [corner, *corner.lines[:3], df.dovetail_corner(width=120, tail_board=12, pin_board=12, count=5, slope=8)]
    every += [df.gaps(thickness=3, kerf=[0.1, 0.2]), df.boxes(stock=df.Stock(thickness=3, sheet=(500, 350)), outside=[(110, 85, 60)])]
    return every


EVERY = [*VALUES, *results()]


@pytest.mark.parametrize("value", EVERY, ids=repr)
def test_pickles_and_copies(value: Any) -> None:
    for protocol in range(2, pickle.HIGHEST_PROTOCOL + 1):
        again = pickle.loads(pickle.dumps(value, protocol))
        assert again == value and type(again) is type(value) and repr(again) == repr(value)
    for other in (copy.copy(value), copy.deepcopy(value)):
        assert other == value and repr(other) == repr(value)
    # What is made again can be sent on.
    assert pickle.loads(pickle.dumps(again)) == value
    if isinstance(value, df.Assembly):
        with pytest.raises(TypeError, match="unhashable"):
            hash(value)
    else:
        assert hash(again) == hash(value)


def test_every_class_is_tried() -> None:
    public = {value for value in vars(df).values() if isinstance(value, type) and not issubclass(value, Exception)}
    assert {type(value) for value in EVERY} >= public


def test_values_differ_where_they_should() -> None:
    for index, value in enumerate(EVERY):
        assert value != index and not (value == repr(value))
    box = df.box(outside=(110, 85, 60), stock=STOCK)
    assert box.panels["front"] == box.panels["front"] != box.panels["left"]
    assert box == df.box(outside=("110 mm", 85, 60), stock=STOCK) != df.box(outside=(110, 85, 61), stock=STOCK)


def test_a_pickled_assembly_has_the_same_panels_and_can_be_changed() -> None:
    for made in assemblies()[1:]:
        again = pickle.loads(pickle.dumps(made))
        assert dict(again.panels) == dict(made.panels)
    box = assemblies()[1]
    other, third = pickle.loads(pickle.dumps(box)), copy.copy(box)
    for changed in (other, third):
        changed.joint("front", "left", df.Fingers(count=3))
        assert changed != box and changed.panels["front"] != box.panels["front"]


def test_pickles_stay_small() -> None:
    box = df.box(outside=(110, 85, 60), stock=STOCK)
    for count in range(1_000):
        box.joint("front", "left", df.Fingers(count=3 + 2 * (count % 3)))
    assert len(pickle.dumps(box)) < 1_000
    parts = box.cut(cutter=df.Cutter.beam(kerf=0.2))
    for copies in range(20):
        parts += box.cut(cutter=df.Cutter.beam(kerf=0.2))
    assert len(pickle.dumps(parts)) < 6_000 and pickle.loads(pickle.dumps(parts)) == parts


def test_a_pickle_is_checked() -> None:
    layout = df.Parts.rectangles([(60, 40)]).lay_out(STOCK)
    make, (parts, grains, stocks, sheets, unplaced) = layout.__reduce__()  # type: ignore[misc]
    (stock, shared, _), = sheets
    for bad in [(7, 0.0, 0.0, 0, False), (0, float("nan"), 0.0, 0, False), (0, 1e9, 0.0, 0, False)]:
        with pytest.raises(df.DryfitError):
            make(parts, grains, stocks, [(stock, shared, [bad])], unplaced)
    with pytest.raises(df.DryfitError):
        make(parts, [], stocks, sheets, unplaced)
    with pytest.raises(df.DryfitError):
        make(parts, grains, stocks, sheets, [1])
    make, (calls,) = df.box(outside=(110, 85, 60), stock=STOCK).__reduce__()  # type: ignore[misc]
    for bad_calls in [(), (("Stock", (), {}),), (*calls, ("__reduce__", (), {})), (*calls, ("add", (), {}))]:
        with pytest.raises((df.DryfitError, TypeError)):
            make(bad_calls)


def work(value: Any) -> Any:
    return value.lay_out(STOCK) if type(value) is df.Parts else value


def fail(_: int) -> None:
    df.box(outside=(110, 85, 60), stock=STOCK).cut(cutter=df.Cutter.beam(kerf=0.2), fit=df.Fit(flank=9.5))


def test_a_spawned_process_gets_and_gives_back_the_same() -> None:
    parts = df.box(outside=(110, 85, 60), stock=STOCK).cut(cutter=df.Cutter.beam(kerf=0.2))
    with multiprocessing.get_context("spawn").Pool(1) as pool:
        each = list({type(value): value for value in EVERY if type(value) is not df.Parts}.values())
        assert pool.map(work, each) == each and len(each) > 20
        assert pool.apply(work, (parts,)) == work(parts)
        with pytest.raises(df.SlotCloses) as caught:
            pool.map(fail, [0])
    assert caught.value.code == df.SlotCloses.code and caught.value.place.startswith("panel") and caught.value.parameter
