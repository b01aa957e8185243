"""Boards of one plane: what ``Tails``, ``splice``, ``ring`` and ``Assembly.key`` refuse, and that nothing else ever comes out of them."""

import os
import random
from typing import Any, Callable

import dryfit as df
import numpy as np
import pytest

STOCK = df.Stock(thickness=3, sheet=(500, 350), border=8)
RUNS = int(os.environ.get("DRYFIT_FUZZ_RUNS", "400"))


def tails(**asked: Any) -> df.Tails:
    return df.Tails(**{"count": 2, "slope": 8, **asked})


def boards(*rows: tuple[str, str, tuple[float, float, float], tuple[float, float]]) -> df.Assembly:
    made = df.Assembly(stock=STOCK)
    for name, normal, at, size in rows:
        made.add(name, normal=normal, at=at, size=size)  # type: ignore[arg-type]
    return made


def spliced(spec: df.Tails | None, deep: float = 15) -> df.Assembly:
    """Two boards end to end, 60 mm wide."""
    made = boards(("left", "z", (0, 0, 0), (100, 60)), ("right", "z", (100 - deep, 0, 0), (120, 60)))
    if spec:
        made.joint("left", "right", spec)
    return made


def touching() -> df.Assembly:
    """Two boards side by side with a seam of 80 mm."""
    return boards(("left", "z", (0, 0, 0), (100, 80)), ("right", "z", (100, 0, 0), (90, 80)))


def keyed(made: df.Assembly | None = None, **asked: Any) -> df.Assembly:
    made = made or touching()
    made.key("key", **{"between": ("left", "right"), "length": 30, "width": 20, "at": 40, "slope": 6, **asked})
    return made


def splice(**asked: Any) -> df.Assembly:
    return df.splice(**{"length": 700, "width": 80, "stock": STOCK, "joint": tails(), **asked})


def ring(**asked: Any) -> df.Assembly:
    return df.ring(**{"outside": (400, 300), "width": 40, "stock": STOCK, "joint": df.Tails(count=1, slope=8), **asked})


def corner() -> df.Assembly:
    made = boards(("one", "x", (0, 0, 0), (80, 100)), ("two", "y", (0, 0, 0), (60, 100)))
    made.joint("one", "two", tails())
    return made


def crossed(made: df.Assembly, normal: str, at: tuple[float, float, float]) -> df.Assembly:
    made.add("third", normal=normal, at=at, size=(190, 60) if normal == "y" else (60, 40))  # type: ignore[arg-type]
    return made


SLOPE = 'allowed n for 1:n, at least 1, or a ratio of rise to run such as "5:24" or (5, 24)'
LENGTH = 'allowed a number of mm or a string such as "3/32 in"'

Refusal = tuple[Callable[[], Any], type[df.DryfitError], str, str]


def slopes() -> list[Refusal]:
    """What is refused as the slope of tails is refused as that of a key."""
    bad: list[tuple[Any, type[df.DryfitError]]] = [
        *((word, df.WrongType) for word in ("", "8", "1/8", "a:b", "1:2:3", "-1:8", "1:-8", "1:8 mm", "\u0661:8", "\ud800", "1" + 30 * "0" + ":2")),
        *((word, df.OutOfRange) for word in ("8:1", "0:5", "5:0", "25:24", "1:2000000")),
        *((number, df.OutOfRange) for number in (0, -1, 0.5, 1e-9, 2_000_000, 10**30)),
        *((pair, df.OutOfRange) for pair in ((0, 5), (5, 0), (2, 1), [8, 1], (-1, 8), (1, -8))),
        *((other, df.WrongType) for other in (True, False, None, np.bool_(True), float("nan"), float("inf"), 1j, object(), b"1:8")),
        *((other, df.WrongType) for other in ((1,), (1, 2, 3), (1.5, 8), ("1", "8"), (True, 8), (1, float("nan")), (None, 8), (np.zeros(2), 8))),
    ]
    allowed = {bool: "", tuple: "", list: "", bytes: ""}
    found: list[Refusal] = []
    for value, kind in bad:
        text = "given, allowed " + allowed.get(type(value), "")
        found.append((lambda value=value: tails(slope=value), kind, "slope", text))
        found.append((lambda value=value: keyed(slope=value), kind, "slope", text))
    return found


REFUSALS: list[Refusal] = [
    *slopes(),
    (lambda: tails(slope="8:1"), df.OutOfRange, "slope", f"slope: '8:1' given, {SLOPE}"),
    (lambda: tails(count=0), df.OutOfRange, "count", "count: 0 given, allowed 1 to 100000"),
    (lambda: tails(count=100_001), df.OutOfRange, "count", "count: 100001 given, allowed 1 to 100000"),
    (lambda: tails(count=10**30), df.OutOfRange, "count", "given, allowed 1 to 100000"),
    *((lambda count=count: tails(count=count), df.WrongType, "count", "given, allowed a whole number") for count in (True, None, 2.0, "2", float("nan"))),
    (lambda: tails(half="pin"), df.OutOfRange, "half", 'half: \'pin\' given, allowed "pins", "tails"'),
    (lambda: tails(half=1), df.WrongType, "half", 'half: 1 given, allowed "pins", "tails"'),
    (lambda: tails(pin_width=0), df.OutOfRange, "pin_width", "pin_width: 0 mm given, allowed 0.000001 mm to 10000 mm"),
    (lambda: tails(pin_width=-1), df.OutOfRange, "pin_width", "pin_width: -1 mm given"),
    (lambda: tails(pin_width=float("nan")), df.NotFinite, "pin_width", "pin_width: nan given, allowed 0.000001 mm"),
    (lambda: tails(pin_width=True), df.WrongType, "pin_width", f"pin_width: True given, {LENGTH}"),
    (lambda: tails(pin_width="wide"), df.NotALength, "pin_width", "pin_width: 'wide' given"),
    # What does not fit shows when the panels are made.
    (lambda: spliced(tails(pin_width=30)).panels, df.FingersDoNotFit, "pin_width", 'joint of "left" and "right": pin_width: 30 mm given, allowed 0.000001 mm to 29.999999 mm'),
    (lambda: spliced(tails(slope=1)).panels, df.FingersDoNotFit, "slope times depth", '"left" and "right": slope times depth: 15 mm given, allowed 0 mm to 14.999998 mm'),
    (lambda: spliced(tails(count=100)).panels, df.FingersDoNotFit, "slope times depth", "slope times depth: 1.875 mm given"),
    (lambda: spliced(tails(pin_width="0.000001 mm")).panels, df.FingersDoNotFit, "slope times depth", "allowed 0 mm to 0 mm"),
    (lambda: corner().panels, df.NotInOnePlane, "joint", 'joint of "one" and "two": joint: tails join boards of one plane end to end'),
    (lambda: crossed(spliced(None), "x", (90, 0, 0)).panels, df.Crowded, "at", 'boards "left", "right" and "third": at: a third board may cross a splice only across its run'),
    (lambda: crossed(keyed(), "x", (90, 0, 0)).panels, df.Crowded, "at", 'boards "left", "key" and "third"'),
    (lambda: crossed(spliced(None), "y", (-95, 30, 0)).panels, df.Crowded, "at", 'boards "left", "right" and "third"'),
    (lambda: boards(("a", "z", (0, 0, 0), (90, 60)), ("b", "z", (50, 30, 0), (90, 60))), df.SamePlace, "at", 'boards "a" and "b"'),
    (lambda: boards(("a", "z", (0, 0, 0), (90, 60)), ("b", "z", (80, 0, 1), (90, 60))), df.SamePlace, "at", 'boards "a" and "b"'),
    (lambda: boards(("a", "z", (0, 0, 0), (90, 60)), ("b", "z", (10, 10, 0), (20, 20))), df.SamePlace, "at", 'boards "a" and "b"'),
    # A long board.
    (lambda: splice(length=0), df.OutOfRange, "length", "length: 0 mm given, allowed 0.001 mm to 10000 mm"),
    (lambda: splice(length=10_001), df.OutOfRange, "length", "length: 10001 mm given, allowed 0.001 mm to 10000 mm"),
    (lambda: splice(length=None), df.WrongType, "length", f"length: None given, {LENGTH}"),
    (lambda: splice(width=0), df.OutOfRange, "width", "width: 0 mm given, allowed 0.001 mm to 10000 mm"),
    (lambda: splice(width="wide"), df.NotALength, "width", "width: 'wide' given"),
    (lambda: splice(stock=3), df.WrongType, "stock", "stock: 3 given, allowed a Stock"),
    (lambda: splice(joint=df.Halves()), df.WrongType, "joint", "given, allowed Tails"),
    (lambda: splice(joint=None), df.WrongType, "joint", "joint: None given, allowed Tails"),
    (lambda: splice(pieces=1), df.OutOfRange, "pieces", "pieces: 1 given, allowed 2 to 100"),
    (lambda: splice(pieces=101), df.OutOfRange, "pieces", "pieces: 101 given, allowed 2 to 100"),
    (lambda: splice(pieces=2.0), df.WrongType, "pieces", "pieces: 2.0 given, allowed a whole number"),
    (lambda: splice(pieces=True), df.WrongType, "pieces", "pieces: True given, allowed a whole number"),
    (lambda: splice(depth=0), df.OutOfRange, "depth", "depth: 0 mm given, allowed 0.000001 mm to 200 mm"),
    (lambda: splice(depth=201), df.OutOfRange, "depth", "depth: 201 mm given, allowed 0.000001 mm to 200 mm"),
    (lambda: splice(pieces=5, depth=150), df.OutOfRange, "depth", "depth: 150 mm given, allowed 0.000001 mm to 116.666666 mm"),
    (lambda: splice(depth=200).panels, df.FingersDoNotFit, "slope times depth", 'joint of "piece-1" and "piece-2"'),
    (lambda: splice(width=300, stock=df.Stock(thickness=3, sheet=(100, 100), border=8)), df.OutOfRange, "sheet", "sheet: 84 mm given, allowed 150.000001 mm to 700 mm"),
    # A ring.
    (lambda: ring(outside=400), df.WrongType, "outside", "outside: 400 given, allowed 2 values"),
    (lambda: ring(outside=(400, 0)), df.OutOfRange, "outside[1]", "outside[1]: 0 mm given"),
    (lambda: ring(outside=(400, True)), df.WrongType, "outside[1]", f"outside[1]: True given, {LENGTH}"),
    (lambda: ring(outside=(70, 300)), df.OutOfRange, "width", "width: 40 mm given, allowed 0.001 mm to 34.999999 mm"),
    (lambda: ring(width=150), df.OutOfRange, "width", "width: 150 mm given, allowed 0.001 mm to 149.999999 mm"),
    (lambda: ring(depth=40), df.OutOfRange, "depth", "depth: 40 mm given, allowed 0.000001 mm to 39.999999 mm"),
    (lambda: ring(depth=0), df.OutOfRange, "depth", "depth: 0 mm given"),
    (lambda: ring(joint="tails"), df.WrongType, "joint", "joint: 'tails' given, allowed Tails"),
    # A key.
    (lambda: keyed(between="left"), df.WrongType, "between", "between: 'left' given, allowed 2 values"),
    (lambda: keyed(between=("left", 2)), df.WrongType, "between[1]", "between[1]: 2 given, allowed a string"),
    (lambda: keyed(between=("left", "none")), df.NoSuchBoard, "key", 'board "none"'),
    (lambda: keyed(between=("left", "left")), df.NoSeam, "key", 'boards "left" and "left": key: a key is let into two boards of one plane that touch along a seam'),
    (lambda: keyed(spliced(None)), df.NoSeam, "key", 'boards "left" and "right"'),
    (lambda: keyed(boards(("left", "z", (0, 0, 0), (90, 60)), ("right", "x", (90, 0, 0), (60, 60)))), df.NoSeam, "key", 'boards "left" and "right"'),
    (lambda: keyed(boards(("left", "z", (0, 0, 0), (90, 60)), ("right", "z", (90, 60, 0), (90, 60)))), df.NoSeam, "key", 'boards "left" and "right"'),
    (lambda: keyed(boards(("left", "z", (0, 0, 0), (90, 60)), ("right", "z", (90, 300, 0), (90, 60)))), df.NoSeam, "key", 'boards "left" and "right"'),
    (lambda: keyed(length=180), df.OutOfRange, "length", 'key "key": length: 180 mm given, allowed 0.002 mm to 179.999998 mm'),
    (lambda: keyed(length=0), df.OutOfRange, "length", "length: 0 mm given"),
    (lambda: keyed(width=80), df.OutOfRange, "width", 'key "key": width: 80 mm given, allowed 0.001 mm to 79.999998 mm'),
    (lambda: keyed(at=10), df.OutOfRange, "at", 'key "key": at: 10 mm given, allowed 10.000001 mm to 69.999999 mm'),
    (lambda: keyed(at=70), df.OutOfRange, "at", 'key "key": at: 70 mm given, allowed 10.000001 mm to 69.999999 mm'),
    (lambda: keyed(at=float("nan")), df.NotFinite, "at", "at: nan given"),
    (lambda: keyed(keyed()), df.NameTaken, "name", 'board "key"'),
    (lambda: touching().key("", between=("left", "right"), length=30, width=20, at=40, slope=6), df.NameEmpty, "name", "name"),
    (lambda: keyed(slope=1).panels, df.FingersDoNotFit, "slope times depth", "slope times depth: 15 mm given, allowed 0 mm to 4.999999 mm"),
]


@pytest.mark.parametrize(("act", "kind", "parameter", "text"), REFUSALS)
def test_refusals(act: Callable[[], Any], kind: type[df.DryfitError], parameter: str, text: str) -> None:
    with pytest.raises(df.DryfitError) as caught:
        act()
    assert type(caught.value) is kind, caught.value
    assert caught.value.parameter == parameter, caught.value
    assert text in str(caught.value) and "\n" not in str(caught.value)


def test_the_last_that_is_allowed() -> None:
    """One nanometre inside each range of the refusals above."""
    for made in (keyed(length="179.999998 mm", slope=20), keyed(width="79.999998 mm", at=40), keyed(at="10.000001 mm"), ring(depth="39.999999 mm")):
        report = made.dry_fit()
        assert report.overlap_volume == report.void_volume == 0, report.problems
    made = touching()
    with pytest.raises(df.OutOfRange):
        keyed(made, width=80)
    assert keyed(made, width=20).dry_fit().ok, "a refusal leaves nothing behind"


ODD: list[Any] = [
    *(0, 1, -1, 2, 3, 8, 10**6, 10**18, -(10**30), 0.5, 2.5, 60.0, 1e-9, 1e300, float("nan"), float("inf"), True, False, None),
    *("", "x", "pins", "tails", "1:8", "8:1", "5:24", "3/32 in", "1/3", "0.000001 mm", "10 m", "\n\x1b[31m", "é" * 80, "\U0010ffff", "\ud800"),
    *([], [1], [1, 8], (0, 5), (300, 200), (1, 2, 3), ["left", "right"], {}, b"x", 1j, np.float64(7.5), np.int8(3), np.array([1, 8]), object(), STOCK),
]


def test_whatever_is_given() -> None:
    """A result or a refusal, never a panic; and what comes out fits, before and after the cut."""
    chance = random.Random(12)

    def some(usual: Any) -> Any:
        return chance.choice(ODD) if chance.random() < 0.04 else usual

    def length(most: float) -> Any:
        value = chance.uniform(most / 9, most)
        return some(chance.choice([value, round(value) or 1, f"{value:.6f} mm"]) if chance.random() < 0.95 else 0.001)

    made = refused = 0
    for _ in range(RUNS):
        try:
            joint = df.Tails(count=some(chance.randrange(1, 9)), slope=some(chance.choice([1, 2, 6, 8, 6.5, "5:24", (1, 9)])), half=some(chance.choice(["pins", "tails"])), pin_width=some(None))
            kind = chance.randrange(3)
            if kind == 0:
                asm = df.splice(length=length(3000), width=length(300), stock=some(STOCK), joint=some(joint), pieces=some(chance.choice([None, 2, 3])), depth=chance.choice([None, length(60)]))
            elif kind == 1:
                asm = df.ring(outside=some((length(600), length(600))), width=length(120), stock=some(STOCK), joint=some(joint), depth=chance.choice([None, length(60)]))
            else:
                asm = touching()
                asm.key("key", between=some(("left", "right")), length=length(200), width=length(90), at=length(90), slope=some(chance.choice([3, 6, 8])))
            report = asm.dry_fit()
            assert report.overlap_volume == report.void_volume == 0, report.problems
            flank = chance.choice([0, 0.1, -0.05])
            parts = asm.cut(cutter=df.Cutter.beam(kerf=0.2), fit=df.Fit(flank=flank))
            report = parts.dry_fit()
            assert (report.overlap_max > 2e-6) == (flank < 0) and (report.void_volume > 1) == (flank > 0), (flank, report, asm.panels)
            made += 1
        except df.DryfitError as refusal:
            assert refusal.parameter and str(refusal).isprintable() and len(str(refusal)) < 400
            refused += 1
    assert made > RUNS / 8 and refused > RUNS / 8
