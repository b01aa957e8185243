"""Every refusal is a DryfitError with a number, a parameter and a place."""

import pickle
from typing import Any, Callable

import dryfit as df
import pytest
from dryfit import dxf, notebook, plots, solids, tables

STOCK = df.Stock(thickness=2.5, sheet=(500, 350), border=8)
BLADE = df.Cutter.blade(kerf=0, trail=0.25)
CLASSES: list[type[df.DryfitError]] = [
    value
    for value in (getattr(df, name) for name in df.__all__)
    if isinstance(value, type) and issubclass(value, df.DryfitError) and value is not df.DryfitError
]


def test_one_class_a_code() -> None:
    codes = [each.code for each in CLASSES]
    assert codes == sorted(set(codes)) and 101 in codes and 809 in codes
    assert issubclass(df.DryfitError, ValueError) and df.DryfitError.code == 0
    for each in CLASSES:
        assert each.__module__ == "dryfit" and getattr(df, each.__name__) is each and each.__name__ in df.__all__
        assert each.__doc__ and str(each.code) in each.__doc__


def assembly(*boards: tuple[Any, ...]) -> df.Assembly:
    made = df.Assembly(stock=STOCK)
    for name, normal, at, size in boards:
        made.add(name, normal=normal, at=at, size=size)
    return made


def corner() -> df.Assembly:
    return assembly(("one", "x", (0, 0, 0), (80, 100)), ("two", "y", (0, 0, 0), (60, 100)))


def drilled(at: tuple[float, float]) -> df.Assembly:
    made = corner()
    made.hole("one", at=at, diameter=2)
    return made


def joined(spec: Any) -> df.Assembly:
    made = corner()
    made.joint("one", "two", spec)
    return made


def parts() -> df.Parts:
    return df.box(outside=(110, 85, 60), stock=STOCK).cut(cutter=BLADE)


REFUSALS: list[tuple[Callable[[], Any], type[df.DryfitError], str]] = [
    (lambda: joined(df.Fingers(count=99)).panels, df.FingersDoNotFit, "finger count: 99 given, allowed 1 to 40"),
    (lambda: joined(df.Fingers(width=10, least=101)).panels, df.RunTooShort, "allowed 101 mm to"),
    (lambda: joined(df.Tabs(width=90, spacing=20)).panels, df.TabsDoNotFit, 'joint of "one" and "two"'),
    (lambda: df.Fingers(count=1_000_000), df.OutOfRange, "count: 1000000 given, allowed 1 to 100000"),
    (lambda: df.Fingers(count=0), df.OutOfRange, "count: 0 given"),
    (lambda: df.Fingers(count=2.0), df.WrongType, "count: 2.0 given"),  # type: ignore[call-overload]
    (lambda: df.Fingers(), df.MissingKey, "width, count"),  # type: ignore[call-overload]
    (lambda: df.Fingers(width=3, count=3), df.UnknownKey, "width, count"),  # type: ignore[call-overload]
    (lambda: df.Fingers(width=3, parity="prime"), df.OutOfRange, 'allowed "odd", "even", "any"'),  # type: ignore[call-overload]
    (lambda: df.Fingers(width=3, first=1), df.WrongType, 'first: 1 given, allowed "a", "b"'),  # type: ignore[call-overload]
    (lambda: df.Halves(split=0), df.OutOfRange, "split: 0 given, allowed more than 0"),
    (lambda: df.Halves(split=1.0), df.OutOfRange, "split: 1.0 given"),
    (lambda: df.Halves(split="1/2000000"), df.OutOfRange, "split: 2000000 given, allowed 1 to 1000000"),
    (lambda: df.Halves(split=float("nan")), df.WrongType, "split: nan given"),
    (lambda: df.Halves(split=(1, 0)), df.WrongType, "split: (1, 0) given"),
    (lambda: df.Tabs(width=-1, spacing=3), df.OutOfRange, "width: -1 mm given"),
    (lambda: df.Fit(flank=11), df.OutOfRange, "flank: 11 mm given, allowed -10 mm to 10 mm"),
    (lambda: df.Cutter.beam(kerf=-0.1), df.OutOfRange, "kerf: -0.1 mm given, allowed 0 mm to 20 mm"),
    (lambda: df.Cutter.bit(diameter=0), df.OutOfRange, "diameter: 0 mm given"),
    (lambda: df.Assembly(stock=2.5), df.WrongType, "stock: 2.5 given, allowed a Stock"),  # type: ignore[arg-type]
    (lambda: assembly(("one", "w", (0, 0, 0), (1, 1))), df.OutOfRange, "normal: 'w' given"),
    (lambda: corner().hole("three", at=(5, 5), diameter=2), df.NoSuchBoard, 'board "three": opening: the assembly has no board of this name'),
    (lambda: assembly((1, "x", (0, 0, 0), (1, 1))), df.WrongType, "name: 1 given"),
    (lambda: assembly(("", "x", (0, 0, 0), (1, 1))), df.NameEmpty, "name"),
    (lambda: assembly(("a", "x", (0, 0), (1, 1))), df.WrongType, "at: (0, 0) given, allowed 3 values"),
    (lambda: assembly(("a", "x", (0, 0, "up"), (1, 1))), df.NotALength, "at[2]: 'up' given"),
    (lambda: assembly(("a", "x", (0, 0, 9_999), (1, 2))), df.OutOfRange, "at + size"),
    (lambda: assembly(("a", "x", (0, 0, 0), (1, 0))), df.OutOfRange, "size[1]: 0 mm given"),
    (lambda: assembly(*[("a", "x", (0, 0, 0), (9, 9))] * 2), df.NameTaken, 'board "a"'),
    (lambda: assembly(("a", "x", (0, 0, 0), (9, 9)), ("b", "x", (1, 1, 1), (9, 9))), df.SamePlace, 'boards "a" and "b"'),
    (lambda: assembly(("a", "x", (0, 0, 0), (9, 9)), ("b", "y", (50, 0, 0), (9, 9))).panels, df.MeetsNothing, 'board "a"'),
    (lambda: assembly().panels, df.NoBoards, "boards"),
    (lambda: corner().joint("one", "three", df.Halves()), df.NoSuchBoard, 'board "three"'),
    (lambda: corner().joint("one", "one", df.Halves()), df.DoNotMeet, 'boards "one" and "one"'),
    (lambda: corner().joint("one", "two", "fingers"), df.WrongType, "spec: 'fingers' given"),  # type: ignore[arg-type]
    (lambda: df.box(stock=STOCK), df.MissingKey, "outside, inside"),
    (lambda: df.box(stock=STOCK, outside=(1, 2, 3), inside=(1, 2, 3)), df.UnknownKey, "outside, inside"),
    (lambda: df.box(stock=STOCK, outside=(100, 5, 60)), df.ThickerThanBox, "outside[1]: 5 mm given"),
    (lambda: df.box(stock=STOCK, outside=(100, 80, 10_001)), df.OutOfRange, "outside[2]: 10001 mm given"),
    (lambda: df.box(stock=STOCK, outside=(9, 8, 7), top="lid"), df.OutOfRange, 'top: \'lid\' given, allowed "closed", "open", "lift-off", "sliding"'),  # type: ignore[arg-type]
    (lambda: df.box(stock=STOCK, outside=(90, 80, 70), dividers=(0, 201)), df.OutOfRange, "dividers[1]: 201 given, allowed 0 to 200"),
    (lambda: df.box(stock=STOCK, outside=(90, 80, 70), dividers=(99, 0)), df.OutOfRange, "dividers: 99 given"),
    (lambda: df.box(stock=STOCK, outside=(90, 80, 70), dividers_in_base=1), df.WrongType, "dividers_in_base: 1 given"),  # type: ignore[arg-type]
    (lambda: corner().cut(cutter="blade"), df.WrongType, "cutter: 'blade' given"),  # type: ignore[arg-type]
    (lambda: corner().cut(cutter=BLADE, fit=0), df.WrongType, "fit: 0 given"),  # type: ignore[arg-type]
    (lambda: corner().cut(cutter=BLADE, web=-1), df.OutOfRange, "web: -1 mm given"),
    (lambda: corner().cut(cutter=BLADE, web=50), df.WebTooThin, 'panel "one" near ('),
    (lambda: corner().cut(cutter=BLADE, fit=df.Fit(flank=9.5)), df.SlotCloses, 'panel "one" near ('),
    (lambda: corner().hole("one", at=(1, 1)), df.MissingKey, "diameter, size: one of the two must be given"),
    (lambda: corner().hole("one", at=(1, 1), diameter=2, count=(2, 2)), df.MissingKey, "spacing: missing"),
    (lambda: corner().hole("lid", at=(1, 1), diameter=2), df.NoSuchBoard, 'board "lid"'),
    (lambda: corner().hole("one", at=(1, 1), diameter=2, count=(0, 1), spacing=(9, 9)), df.OutOfRange, "count[0]: 0 given, allowed 1 to 1000"),
    (lambda: drilled(at=(0, 0)).panels, df.OpeningMisplaced, 'panel "one" near (0, 0) mm'),
    (lambda: corner().bolt("one", "two", thread="M7", length=20, at=9), df.OutOfRange, "thread: 'M7' given, allowed \"M2\", \"M2.5\""),  # type: ignore[arg-type]
    (lambda: corner().bolt("one", "two", thread="M4", length=20, at=9), df.NutTooWide, "screw diameter: 4 mm given, allowed 0.000001 mm to 2.5 mm"),
    (lambda: corner().bolt("one", "two", thread="M2", length=5, at=20), df.ScrewDoesNotHold, "screw length: 5 mm given, allowed 6.5 mm to "),
    (lambda: df.Relief(radius=0), df.OutOfRange, "radius: 0 mm given, allowed 0.001 mm to 20 mm"),
    (lambda: df.Relief(radius=1, shape="round"), df.OutOfRange, "shape: 'round' given, allowed \"diagonal\", \"flank\", \"cheek\""),  # type: ignore[arg-type]
    (lambda: corner().cut(cutter=BLADE, relief=1), df.WrongType, "relief: 1 given, allowed a Relief"),  # type: ignore[arg-type]
    (lambda: corner().cut(cutter=BLADE, relief=df.Relief(radius=9)), df.ReliefTooLarge, "relief radius: 9 mm given, allowed 0.001 mm to "),
    (lambda: corner().cut(cutter=df.Cutter.bit(diameter=3), relief=df.Relief(radius=1)), df.OutOfRange, "relief radius: 1 mm given, allowed 1.5 mm to 20 mm"),
    (lambda: parts().lay_out("grey"), df.WrongType, "stock"),  # type: ignore[arg-type]
    (lambda: parts().lay_out([]), df.MissingKey, "stock"),
    (lambda: parts().lay_out(df.Stock(thickness=2.4, sheet=(500, 350))), df.WrongThickness, 'part "front"'),
    (lambda: parts().lay_out(df.Stock(thickness=2.5, sheet=(100, 100))), df.LargerThanSheet, 'part "front"'),
]


@pytest.mark.parametrize(("act", "kind", "text"), REFUSALS)
def test_refusals(act: Callable[[], Any], kind: type[df.DryfitError], text: str) -> None:
    with pytest.raises(df.DryfitError) as caught:
        act()
    assert type(caught.value) is kind, caught.value
    assert text in str(caught.value)
    assert caught.value.parameter and "\n" not in str(caught.value)


@pytest.mark.parametrize(("call", "name"), [
    (dxf.document, "what"), (notebook.explode, "assembly"), (plots.sheet_use, "layout"), (solids.mesh, "board"),
    (tables.parts, "of"), (tables.cuts, "layout"),
])  # fmt: skip
def test_refusals_of_every_module_name_the_parameter(call: Any, name: str) -> None:
    with pytest.raises(df.WrongType, match=f"^{name}: ") as caught:
        call("nothing")
    again = pickle.loads(pickle.dumps(caught.value))
    assert again.parameter == caught.value.parameter == name


def test_errors_can_be_pickled() -> None:
    with pytest.raises(df.SlotCloses) as caught:
        corner().cut(cutter=BLADE, fit=df.Fit(flank=9.5))
    again = pickle.loads(pickle.dumps(caught.value))
    assert (type(again), str(again), again.place) == (df.SlotCloses, str(caught.value), caught.value.place)
    assert again.place.startswith('panel "one" near (')


def test_blind_joint() -> None:
    made = assembly(("wall", "x", (0, 0, 0), (80, 100)), ("shelf", "z", (1, 0, 50), (100, 80)))
    with pytest.raises(df.Blind, match='boards "wall" and "shelf"'):
        made.panels
