"""Values show themselves so that they can be pasted back; they compare, hash, pickle, and cannot be changed."""

import copy
import pickle
from typing import Any

import dryfit as df
import pytest

VALUES: list[Any] = [
    df.Stock(thickness=[2.46, 2.53, 2.49, 2.55], sheet=(500, "13 3/4 in"), border=8, gap="0.04 in"),
    df.Stock(thickness="1/64 in", sheet=(10_000, 1)),
    df.Fit(),
    df.Fit(flank=-0.000001, cheek=0.1, tip="1/64 in"),
    df.Cutter.blade(kerf=0, trail=0.25),
    df.Cutter.beam(kerf=0.18),
    df.Cutter.bit(diameter="1/8 in"),
    df.Fingers(width="1/2 in"),
    df.Fingers(width=7, parity="even", first="b", least=1.5),
    df.Fingers(count=7, first="b"),
    df.Tabs(width=20, spacing=40),
    df.Tabs(width=20, spacing=40, end=3),
    df.Halves(),
    df.Halves(split="1/3", first="b"),
    df.Halves(split=0.3),
    df.Tails(count=3, slope=8),
    df.Tails(count=3, slope=(5, 24), half="tails"),
    df.Tails(count=1, slope=1, pin_width="1/2 in"),
    df.Relief(radius=1.5),
    df.Relief(radius="1/16 in", shape="cheek"),
    df.Motion(),
    df.Motion(cutter=df.Cutter.bit(diameter=3), feed=20.5, step="0.06 in", speed=12_000, bridges=2, start="middle", pause=False, swivel_above=12.5),
    df.Pace(feed=20, acceleration=1 / 3, deviation="0.1 mm", lift=0.4),
    df.Pace.from_known([(df.Tally(cut=2500, parts=6), 92), (df.Tally(cut=3750, parts=6), 102.25)]),
    df.Tally(cut=2527.000001, parts=6, starts=7, corners=312, travel=80, sheets=2),
]


@pytest.mark.parametrize("value", VALUES, ids=repr)
def test_values(value: Any) -> None:
    again = eval(repr(value), vars(df))
    assert again == value and hash(again) == hash(value) and repr(again) == repr(value)
    assert pickle.loads(pickle.dumps(value)) == value
    assert copy.deepcopy(value) == value
    assert type(value).__module__ == "dryfit"
    assert [other for other in VALUES if other == value] == [value]
    assert value != repr(value)
    for name in ("thickness", "kerf", "flank", "width", "split", "anything"):
        with pytest.raises(AttributeError):
            setattr(value, name, 1)


def test_ways_to_give_a_split() -> None:
    from fractions import Fraction

    ways: list[Any] = ["1/3", (1, 3), [2, 6], Fraction(1, 3), 1 / 3]
    assert {df.Halves(split=way) for way in ways} == {df.Halves(split="1/3")}


def test_ways_to_give_a_slope() -> None:
    from decimal import Decimal
    from fractions import Fraction

    ways: list[Any] = ["5:24", " 5 : 24 ", (5, 24), [10, 48], 4.8, Fraction(24, 5), Decimal("4.8")]
    assert {df.Tails(count=2, slope=way) for way in ways} == {df.Tails(count=2, slope="5:24")}
    assert df.Tails(count=2, slope=8) == df.Tails(count=2, slope="1:8", half="pins") != df.Tails(count=2, slope=7)


def test_results_show_themselves(stock: df.Stock, blade: df.Cutter) -> None:
    box = df.box(outside=(110, 85, 60), stock=stock)
    parts = box.cut(cutter=blade)
    layout = parts.lay_out(stock)
    shown = [box, box.panels["top"], box.dry_fit(), box.order()[0], parts, parts["top"], layout, layout.sheets[0], layout.sheets[0].placements[0]]
    for each in shown:
        assert repr(each).startswith("<dryfit.") and "\n" not in repr(each)
    assert "it fits" in repr(box.dry_fit())


def test_parts_read_like_a_dict(stock: df.Stock, blade: df.Cutter) -> None:
    parts = df.box(outside=(110, 85, 60), stock=stock).cut(cutter=blade)
    assert len(parts) == 6 and "top" in parts and "lid" not in parts and 3 not in parts
    assert list(parts) == parts.keys() == [part.name for part in parts.values()]
    assert dict(parts.items()) == {name: parts[name] for name in parts}
    assert parts.get("lid") is None and parts.get("lid", 7) == 7 and parts.get("top") == parts["top"]
    for missing in ("lid", 3):
        with pytest.raises(KeyError):
            parts[missing]  # type: ignore[index]
    with pytest.raises(TypeError):
        parts + [1]  # type: ignore[operator]
    assert list(parts + parts + parts)[-1] == "top-3"
