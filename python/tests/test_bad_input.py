"""Anything may be given for any parameter: it is taken, or refused by a DryfitError that names the parameter. Nothing else comes out."""

import itertools
from collections.abc import Callable, Iterator
from decimal import Decimal
from fractions import Fraction
from typing import Any

import dryfit as df
import numpy as np
import pytest

STOCK = df.Stock(thickness=3, sheet=(500, 350), border=8)
BOX = df.box(outside=(110, 85, 60), stock=STOCK)
BEAM = df.Cutter.beam(kerf=0.2)
PARTS = BOX.cut(cutter=BEAM)
LAYOUT = df.Parts.rectangles([(60, 40), (30, 20)]).lay_out(STOCK)
SHEET = LAYOUT.sheets[0]
CORNER = df.dovetail_corner(width=120, tail_board=12, pin_board=12, count=5, slope=8, socket=8)
TAILS = df.Tails(count=1, slope=6)


def fresh() -> df.Assembly:
    made = df.Assembly(stock=STOCK)
    made.add("left", normal="z", at=(0, 0, 0), size=(200, 90))
    made.add("right", normal="z", at=(200, 0, 0), size=(200, 90))
    made.add("wall", normal="x", at=(0, 0, 0), size=(90, 60))
    made.add("far", normal="x", at=(397, 0, 0), size=(90, 60))
    return made


def method(name: str) -> Callable[..., Any]:
    """A method of an assembly of its own, and the panels of what it did."""

    def call(*plain: Any, **named: Any) -> Any:
        made = fresh()
        getattr(made, name)(*plain, **named)
        return made.panels

    return call


MOTION = {
    "cutter": BEAM, "feed": 10, "plunge": 2, "height": 2, "passes": 1, "step": 1, "depth": 3, "light": 0.2, "by": "line", "pause": False, "power": 5,
    "light_power": 1, "dynamic": True, "speed": 9000, "ramp": 5, "swivel_above": 10, "overcut": 0.5, "turn_depth": 1, "bridges": 1, "bridge_spacing": 50,
    "bridge_width": 0.5, "bed": 20, "lead": 1, "flat": 0.1, "start": "corner", "outer": "stored", "inner": "stored",
}  # fmt: skip

# For each: what is called, values for what has no name of its own (by the names in the stubs), values for the rest.
CALLS: dict[str, tuple[Callable[..., Any], dict[str, Any], dict[str, Any]]] = {
    "Stock": (df.Stock, {}, {"thickness": 3, "sheet": (500, 350), "border": 8, "gap": 1, "count": 2, "grain": "x"}),
    "Cutter.blade": (df.Cutter.blade, {}, {"kerf": 0, "trail": 0.25}),
    "Cutter.beam": (df.Cutter.beam, {}, {"kerf": 0.2}),
    "Cutter.bit": (df.Cutter.bit, {}, {"diameter": 3}),
    "Fit": (df.Fit, {}, {"flank": 0, "cheek": 0.1, "tip": 0}),
    "Fingers": (df.Fingers, {}, {"width": 12, "parity": "odd", "first": "a", "least": 1}),
    "Fingers by count": (df.Fingers, {}, {"count": 3}),
    "Tabs": (df.Tabs, {}, {"width": 20, "spacing": 30, "end": 5}),
    "Halves": (df.Halves, {}, {"split": "1/3", "first": "b"}),
    "Tails": (df.Tails, {}, {"count": 2, "slope": 8, "half": "pins", "pin_width": 5}),
    "Relief": (df.Relief, {}, {"radius": 1, "shape": "flank"}),
    "Motion": (df.Motion, {}, {key: value for key, value in MOTION.items() if key != "bridge_spacing"}),
    "Motion by spacing": (df.Motion, {}, {"bridge_spacing": 50}),
    "Tally": (df.Tally, {}, {"cut": 100, "parts": 1, "starts": 1, "corners": 4, "travel": 7, "sheets": 1}),
    "Pace": (df.Pace, {}, {"feed": 20, "acceleration": 500, "travel_speed": 30, "deviation": 0.1, "lift": 1, "swivel": 1}),
    "Pace.from_known": (df.Pace.from_known, {"known": [(df.Tally(cut=2500, parts=6), 92), (df.Tally(cut=3750, parts=6), 102)]}, {}),
    "Pace.from_known, a job": (lambda known: df.Pace.from_known([known, (df.Tally(cut=3750, parts=6), 102)]), {"known": (df.Tally(cut=2500, parts=6), 92)}, {}),
    "box": (df.box, {}, {"stock": STOCK, "outside": (110, 85, 90), "top": "lift-off", "finger_width": 8, "lid_clearance": 0.2, "shelves": [30], "feet": 12}),
    "box inside": (df.box, {}, {"stock": STOCK, "inside": (110, 85, 60), "dividers": (2, 1), "dividers_in_base": True}),
    "prism": (df.prism, {}, {"sides": 6, "height": 50, "stock": STOCK, "outside": 40, "top": "open", "finger_width": 8}),
    "prism across flats": (df.prism, {}, {"sides": 6, "height": 50, "stock": STOCK, "across_flats": 90}),
    "prism across corners": (df.prism, {}, {"sides": 6, "height": 50, "stock": STOCK, "across_corners": 90}),
    "ring": (df.ring, {}, {"outside": (400, 300), "width": 40, "stock": STOCK, "joint": TAILS, "depth": 20}),
    "splice": (df.splice, {}, {"length": 700, "width": 80, "stock": STOCK, "joint": TAILS, "pieces": 3, "depth": 15}),
    "dovetail_corner": (
        df.dovetail_corner,
        {},
        {"width": 120, "tail_board": 12, "pin_board": 12, "count": 5, "slope": 8, "socket": 8, "kind": "lapped", "lap": 4, "gauge": 0.5},
    ),
    "Assembly": (df.Assembly, {}, {"stock": STOCK}),
    "Assembly.add": (method("add"), {"name": "side"}, {"normal": "y", "at": (0, 0, 0), "size": (200, 60), "stock": STOCK, "turn": 0, "about": "z"}),
    "Assembly.lap": (fresh().lap, {"names": ["left", "wall"]}, {}),
    "Assembly.joint": (method("joint"), {"a": "left", "b": "wall", "spec": df.Fingers(count=3)}, {}),
    "Assembly.hole": (method("hole"), {"board": "wall"}, {"at": (45, 30), "size": (20, 10), "ends": "round", "count": (1, 2), "spacing": (0, 15)}),
    "Assembly.hole, round": (method("hole"), {"board": "wall"}, {"at": (45, 30), "diameter": 5}),
    "Assembly.bolt": (method("bolt"), {"edge": "left", "face": "wall"}, {"thread": "M2", "length": 16, "at": 35, "clearance": "fine", "gap": 0.2}),
    "Assembly.key": (method("key"), {"name": "key"}, {"between": ("left", "right"), "length": 40, "width": 20, "at": 45, "slope": 6}),
    "Assembly.cut": (BOX.cut, {}, {"cutter": BEAM, "fit": df.Fit(), "web": 0.5, "relief": df.Relief(radius=0.1), "label": "tea"}),
    "Assembly.picture": (BOX.picture, {}, {"explode": 20}),
    "Part.picture": (PARTS["front"].picture, {}, {"kerf": 0.2, "side": 20}),
    "Parts.rectangles": (df.Parts.rectangles, {"sizes": [(60, 40)]}, {"thickness": 3, "names": ["card"]}),
    "Parts.get": (PARTS.get, {"name": "front", "default": 3}, {}),
    "Parts.lay_out": (
        df.Parts.rectangles([(60, 40), (30, 20)]).lay_out,
        {"stock": STOCK},
        {"share_cuts": False, "turns": True, "flips": False, "together": False, "grain": "x", "seed": 1, "seconds": 0.05, "progress": lambda _: False},
    ),
    "Layout.tally": (LAYOUT.tally, {}, {"passes": 1}),
    "Layout.estimate": (LAYOUT.estimate, {"pace": df.Pace(feed=20, acceleration=500)}, {"passes": 1}),
    "Layout.minutes": (LAYOUT.minutes, {"pace": df.Pace(feed=20, acceleration=500)}, {"passes": 1}),
    "Sheet.route": (SHEET.route, {}, {"start": "corner", "outer": "stored", "inner": "stored", "home": True}),
    "Sheet.plan": (SHEET.plan, {"motion": df.Motion()}, {}),
    "Sheet.svg": (SHEET.svg, {"motion": df.Motion()}, {"title": "Cards"}),
    "Sheet.dxf": (SHEET.dxf, {"motion": df.Motion()}, {"title": "Cards", "version": "R12"}),
    "Sheet.gcode": (SHEET.gcode, {"motion": df.Motion()}, {"title": "Cards"}),
    "Sheet.hpgl": (SHEET.hpgl, {"motion": df.Motion()}, {}),
    "DovetailCorner.svg": (CORNER.svg, {}, {"title": "Chest"}),
}


class Text(str):
    pass


class Whole(int):
    pass


class Number(float):
    pass


class Own(Exception):
    """What an object of the caller's raises by itself."""


class Raises:
    def __float__(self) -> float:
        raise Own

    def __repr__(self) -> str:
        raise Own


class RaisesIndex:
    def __index__(self) -> int:
        raise Own


class RaisesIteration:
    def __iter__(self) -> Iterator[int]:
        yield 3
        raise Own


class Strange:
    """Every question is answered wrongly."""

    def __float__(self) -> float:
        return "three"  # type: ignore[return-value]

    def __index__(self) -> int:
        return "three"  # type: ignore[return-value]

    def __iter__(self) -> Iterator[int]:
        return 3  # type: ignore[return-value]

    def __bool__(self) -> bool:
        raise Own

    def __eq__(self, other: object) -> bool:
        raise Own

    def __len__(self) -> int:
        return -1

    def items(self) -> int:
        return 3


class Index:
    def __init__(self, value: int) -> None:
        self.value = value

    def __index__(self) -> int:
        return self.value


RECURSIVE: list[Any] = []
RECURSIVE.append(RECURSIVE)


def bad() -> list[Any]:
    """Values of every kind; made anew, since some can be used once."""
    return [
        None, True, False, np.bool_(True), 0, -1, 1, 3, 2**31, 2**63, 2**64, -(2**200), 10**400, 0.0, -0.0, 5e-324, 1e308, float("nan"), float("inf"),
        -float("inf"), np.float64("nan"), np.float32(3), np.float16(3), np.longdouble("1e4000"), np.int8(-3), np.uint64(2**64 - 1), np.array(3.0), np.array(3),
        np.array([1.0, 2.0]), np.array([1.0, np.nan, 3.0]), np.array([]), np.zeros((3, 3)), np.array(["a", "b"]), np.array([None, 1], dtype=object),
        np.datetime64("2020-01-01"), np.ma.masked, Decimal("3"), Decimal("NaN"), Decimal("sNaN"), Decimal("1e400"), Fraction(7, 2), Fraction(10**400, 3),
        3 + 4j, "", " ", "3", "3 mm", "0.1 in", "3 furlongs", "1e400 mm", "1/0 in", "1/0", "0:0", "1:0", "9" * 500, "\u0663 mm", "\xe9" * 1000, "\ud800",
        "\0", "a\nb", "x", "odd", "M4", b"3 mm", bytearray(b"3"), memoryview(b"3"), Text("3 mm"), Text("x"), Whole(3), Number(3.5), (), [], {}, set(),
        {"front": "x"}, {"1": "q"}, {3: "x"}, [3], (3, 4), [3, 4, 5], (3, None), ["a", "b"], ["left", "wall", None], [[1]], RECURSIVE, object(), int, len,
        lambda *_: 1 // 0, (x for x in (3, 4)), (1 // x for x in (1, 0)), iter([]), itertools.repeat(30), itertools.repeat((6, 4)), itertools.count(),
        range(2), range(10**9), Raises(), RaisesIndex(), RaisesIteration(), Strange(), Index(3), Index(-3), Index(2**70), Ellipsis, NotImplemented, STOCK,
        BEAM, df.Fit(), TAILS, BOX, PARTS, LAYOUT, df.DryfitError, df.Motion(passes=2), Own(), [Own], [Raises()], [(Raises(), 3)], [(3, 4, 5)],
        [(LAYOUT, 1, -1), (LAYOUT, 1)], [(LAYOUT, float("nan"))] * 2, [(df.Tally(cut=1, parts=1), 3, 4)] * 2,
    ]  # fmt: skip


@pytest.mark.filterwarnings("ignore:Warning. converting a masked element:UserWarning")
@pytest.mark.parametrize("name", CALLS)
def test_all_that_can_be_given(name: str) -> None:
    call, plain, named = CALLS[name]
    call(*plain.values(), **named)
    for parameter in (*plain, *named):
        for value in bad():
            with_it = [{**values, parameter: value} if parameter in values else values for values in (plain, named)]
            shown = f"{name}, {parameter}={type(value).__name__}"
            try:
                call(*with_it[0].values(), **with_it[1])
            except df.DryfitError as error:
                text = str(error)
                assert "\n" not in text and len(text) < 600, shown
                assert error.parameter and error.parameter in text and type(error) is not df.DryfitError, shown
                if isinstance(error, df.WrongType | df.NotALength | df.NotFinite):
                    assert error.parameter.split("[")[0] == parameter.split(",")[0], f"{shown}: {text}"
            except Own:
                pass
            except TypeError:
                # A function of the caller's.
                assert parameter == "progress" and callable(value), shown
            except ZeroDivisionError:
                # A generator or a function of the caller's.
                assert callable(value) or hasattr(value, "gi_frame"), shown


@pytest.mark.parametrize("name", CALLS)
def test_names_that_are_none(name: str) -> None:
    call, plain, named = CALLS[name]
    with pytest.raises(TypeError):
        call(*plain.values(), **named, colour="red")
    with pytest.raises(TypeError):
        call(*plain.values(), 3, 4, 5, 6, **named)
    needed = [key for key in named if key in ("stock", "cutter", "feed", "sides", "at", "normal", "radius", "diameter")]
    for key in needed[:1]:
        if name in ("Motion", "Assembly.hole, round", "Assembly.cut"):
            continue
        with pytest.raises((TypeError, df.DryfitError)):
            call(*plain.values(), **{other: value for other, value in named.items() if other != key})


def test_numbers_of_every_kind_are_numbers() -> None:
    for value in (3, 3.0, "3 mm", "0.3 cm", np.float64(3), np.float32(3), np.int16(3), np.array(3.0), Decimal(3), Fraction(3), Whole(3), Number(3), Text("3 mm"), Index(3)):
        assert df.Cutter.bit(diameter=value) == df.Cutter.bit(diameter=3), repr(value)
    for count in (3, np.int16(3), np.uint64(3), Whole(3), Index(3)):
        assert df.Fingers(count=count) == df.Fingers(count=3), repr(count)
    for flag in (True, np.bool_(True)):
        assert df.Motion(pause=flag) == df.Motion(pause=True)
    for split in (0.5, "1/2", "0.5", np.float64(0.5), Decimal("0.5"), Fraction(1, 2), (1, 2), [np.int64(1), 2]):
        assert df.Halves(split=split) == df.Halves(), repr(split)


def test_what_a_callers_object_raises_is_passed_on() -> None:
    for value in (Raises(), RaisesIteration(), RaisesIndex()):
        with pytest.raises(Own):
            df.Stock(thickness=value, sheet=(500, 350))  # type: ignore[arg-type]

    class Stop:
        def __float__(self) -> float:
            raise KeyboardInterrupt

    with pytest.raises(KeyboardInterrupt):
        df.Fit(flank=Stop())


def test_every_parameter_is_tried() -> None:
    import test_docs

    tried: dict[str, set[str]] = {}
    for name, (_, plain, named) in CALLS.items():
        tried.setdefault(name.split(" ")[0].rstrip(","), set()).update(plain, named)
    for public in test_docs.OTHERS:
        wanted = {arg.arg for arg in test_docs.parameters(public.node)}
        # Arrays have tests of their own.
        if wanted and public.path.split(".")[0].lower() not in ("gaps", "boxes"):
            assert wanted <= tried.get(public.path, set()), public.path


@pytest.mark.parametrize(("given", "name"), [
    (lambda: df.box(outside={110, 85, 60}, stock=STOCK), "outside"),  # type: ignore[arg-type]
    (lambda: df.Stock(thickness={2.4, 2.5}, sheet=(500, 350)), "thickness"),
    (lambda: df.box(outside=(110, 85, 60), stock=STOCK, shelves=frozenset([30])), "shelves"),
    (lambda: df.Parts.rectangles({(60, 40), (30, 20)}), "sizes"),
    (lambda: df.Parts.rectangles([(60, 40)]).lay_out({STOCK}), "stock"),
    (lambda: fresh().lap({"left", "right"}), "names"),
])  # fmt: skip
def test_a_set_is_no_list(given: Callable[[], Any], name: str) -> None:
    """It has no order, and two equal readings are one in it."""
    with pytest.raises(df.WrongType) as refused:
        given()
    assert refused.value.parameter == name
