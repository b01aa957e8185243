"""Minutes: by a machine's numbers, by known jobs, and what is refused."""

import pickle
import warnings
from typing import Any, Callable

import dryfit as df
import numpy as np
import pytest

STOCK = df.Stock(thickness=2, sheet=("11 in", "11 in"), border=6.5)
TOUCHING = df.Stock(thickness=2, sheet=("11 in", "11 in"), border=6.5, gap=0)
BLADE = df.Cutter.blade(kerf=0)


def cube(side: float, stock: df.Stock = STOCK) -> df.Layout:
    return df.box(outside=(side, side, side), stock=stock).cut(cutter=BLADE).lay_out(stock)


def tiles(*sizes: tuple[float, float]) -> df.Layout:
    return df.Parts.rectangles(sizes).lay_out(df.Stock(thickness=2, sheet=(500, 400), gap=5))


@pytest.mark.parametrize("stock", [STOCK, TOUCHING])
def test_two_cubes_tell_of_those_between(stock: df.Stock) -> None:
    """Common practice, no source: 92 minutes at 80 mm, 102 minutes at 120 mm; the larger ones take two sheets."""
    pace = df.Pace.from_known([(cube(80, stock), 92), (cube(120, stock), 102.0)])
    assert pace.costs is not None
    assert [name for name, cost in pace.costs.items() if cost > 0] == ["cut", "parts"]
    assert np.allclose(pace.residuals, 0) and pace.spread is None
    sides = np.arange(80, 121)
    with warnings.catch_warnings():
        warnings.simplefilter("error")
        minutes = np.array([cube(float(side), stock).minutes(pace) for side in sides])
    assert np.all(np.diff(minutes) > 0)
    assert np.abs(minutes - (92 + (sides - 80) / 4)).max() < 1


def test_outside_the_known_jobs_there_is_a_warning() -> None:
    pace = df.Pace.from_known([(cube(80), 92), (cube(100), 96.5), (cube(120), 102)])
    with pytest.warns(df.OutsideKnown, match=r"outside the known ones \(cut, corners\)"):
        cube(140).minutes(pace)
    estimate = cube(140).estimate(pace)
    assert estimate.outside == ["cut", "corners"] and estimate.spread is not None and pace.spread is not None
    assert estimate.spread > pace.spread
    assert repr(estimate).startswith("<dryfit.Estimate: 10") and "outside the known jobs: cut, corners>" in repr(estimate)
    assert estimate == cube(140).estimate(pace) and estimate != cube(130).estimate(pace)


def test_a_machine_takes_as_long_as_kinematics_say() -> None:
    # From the sheet's corner to the tile's, 100 mm each side: t = d/v + v/a, and the corners are stops.
    layout = tiles((100, 100))
    (placement,) = layout.sheets[0].placements
    assert (placement.x, placement.y) == (0, 0) and layout.travel_length == 0
    pace = df.Pace(feed=50, acceleration=500)
    assert layout.minutes(pace) == pytest.approx(4 * 2.1 / 60, rel=1e-12)
    lifted = df.Pace(feed=50, acceleration=500, lift=0.5)
    assert layout.minutes(lifted, passes=3) == pytest.approx(3 * (4 * 2.1 + 0.5) / 60, rel=1e-12)
    assert layout.minutes(df.Pace(feed=50, acceleration=500, deviation="0.01 mm")) < layout.minutes(pace)
    estimate = layout.estimate(pace)
    assert (estimate.spread, estimate.outside) == (None, [])
    assert (pace.costs, pace.residuals, pace.spread, pace.known) == (None, [], None, [])
    assert (pace.feed, pace.travel_speed, pace.acceleration, pace.deviation, lifted.lift, pace.swivel) == (50, 50, 500, 0, 0.5, 0)


def test_tallies_say_what_a_job_costs_in() -> None:
    layout = tiles((100, 100), (60, 40))
    tally = layout.tally()
    assert (tally.cut, tally.parts, tally.starts, tally.corners, tally.sheets) == (600, 2, 2, 8, 1)
    assert tally.cut == layout.cut_length and tally.travel == layout.travel_length > 0
    twice = layout.tally(passes=2)
    assert (twice.cut, twice.parts, twice.starts, twice.corners, twice.travel) == (1200, 2, 4, 16, tally.travel)
    other = tiles((200, 150), (60, 40))
    by_layout = df.Pace.from_known([(layout, 5), (other, 7)])
    by_tally = df.Pace.from_known([(layout.tally(), 5), (other.tally(), 7.0)])
    assert by_layout == by_tally and by_layout.known == [(layout.tally(), 5.0), (other.tally(), 7.0)]
    assert df.Pace.from_known([(layout, 10, 2), (other, 7)]) == df.Pace.from_known([(twice, 10), (other, 7)])


@pytest.mark.parametrize(
    "pace",
    [
        df.Pace(feed=20, acceleration=500),
        df.Pace(feed=12.5, acceleration=300.25, travel_speed=100, deviation="1/64 in", lift=0.4, swivel=0.25),
        df.Pace.from_known([(df.Tally(cut=1000.5, parts=6), 9), (df.Tally(cut=2000, parts=6, corners=7, travel=0.1, sheets=2), 17.25)]),
    ],
    ids=repr,
)
def test_paces_are_values(pace: df.Pace) -> None:
    assert eval(repr(pace), vars(df)) == pace == pickle.loads(pickle.dumps(pace))
    assert pace != df.Pace(feed=19, acceleration=500)
    with pytest.raises(AttributeError):
        pace.feed = 3.0  # type: ignore[misc]


def test_routes() -> None:
    hole = df.box(outside=(120, 90, 60), stock=STOCK, dividers=(1, 0)).cut(cutter=BLADE).lay_out(STOCK).sheets[0]
    route = hole.route()
    kinds = [cut.kind for cut in route.cuts]
    assert kinds == sorted(kinds) and set(kinds) == {"cut-inner", "cut-outer"}
    assert sorted(cut.part or "" for cut in route.cuts if cut.kind == "cut-outer") == sorted(p.part for p in hole.placements)
    assert sum(cut.length for cut in route.cuts) == pytest.approx(hole.cut_length)
    # From the sheet's corner through all, as the points say.
    at, way = np.zeros(2), 0.0
    for cut in route.cuts:
        assert cut.closed and np.array_equal(cut.points[0], cut.points[-1]) and not cut.points.flags.writeable
        assert np.array_equal(cut.points_nm / 1e6, cut.points)
        way += float(np.hypot(*(cut.points[0] - at)))
        at = cut.points[-1]
    assert way == pytest.approx(route.travel) == hole.travel_length
    assert hole.route(home=True).travel > route.travel


def area(points: Any) -> float:
    x, y = points.T
    return float(np.sum(x[:-1] * y[1:] - x[1:] * y[:-1])) / 2


def test_directions_and_starts() -> None:
    sheet = df.box(outside=(120, 90, 60), stock=STOCK, dividers=(1, 0)).cut(cutter=BLADE).lay_out(STOCK).sheets[0]
    for outer in ("counter-clockwise", "clockwise"):
        for inner in ("counter-clockwise", "clockwise"):
            for cut in sheet.route(outer=outer, inner=inner).cuts:
                asked = outer if cut.kind == "cut-outer" else inner
                assert (area(cut.points) > 0) == (asked == "counter-clockwise")
    for cut in sheet.route(start="middle").cuts:
        first, last = cut.points[1] - cut.points[0], cut.points[-1] - cut.points[-2]
        # The start lies half way along an edge, so the last move is as long as the first and goes the same way.
        assert np.allclose(first, last, atol=2e-6)


REFUSED: list[tuple[Callable[[], Any], type[df.DryfitError], str]] = [
    (lambda: df.Pace(feed=0, acceleration=500), df.OutOfRange, "feed: 0 given, allowed 0.001 mm/s to 10000 mm/s"),
    (lambda: df.Pace(feed=float("nan"), acceleration=500), df.NotFinite, "feed: nan given, allowed 0.001 mm/s"),
    (lambda: df.Pace(feed=float("inf"), acceleration=500), df.NotFinite, "feed: inf given"),
    (lambda: df.Pace(feed=-5, acceleration=500), df.OutOfRange, "feed: -5 given"),
    (lambda: df.Pace(feed="20", acceleration=500), df.WrongType, "feed: '20' given"),  # type: ignore[arg-type]
    (lambda: df.Pace(feed=True, acceleration=500), df.WrongType, "feed: True given"),
    (lambda: df.Pace(feed=20, acceleration=0), df.OutOfRange, "acceleration: 0 given, allowed 0.001 mm/s^2 to 1000000 mm/s^2"),
    (lambda: df.Pace(feed=20, acceleration=500, travel_speed=1e300), df.OutOfRange, "travel_speed: 1e+300 given"),
    (lambda: df.Pace(feed=20, acceleration=500, deviation=-1), df.OutOfRange, "deviation: -1 mm given"),
    (lambda: df.Pace(feed=20, acceleration=500, lift=-0.0000001), df.OutOfRange, "lift: -1e-07 given, allowed 0 s to 600 s"),
    (lambda: df.Pace(feed=20, acceleration=500, swivel=601), df.OutOfRange, "swivel: 601 given"),
    (lambda: df.Tally(cut=-1, parts=1), df.OutOfRange, "cut: -1 given"),
    (lambda: df.Tally(cut=1, parts=1.5), df.WrongType, "parts: 1.5 given"),  # type: ignore[arg-type]
    (lambda: df.Pace.from_known([]), df.OutOfRange, "known: 0 given, allowed 2 to 10000"),
    (lambda: df.Pace.from_known([(tiles((9, 9)), 5)]), df.OutOfRange, "known: 1 given, allowed 2 to 10000"),
    (lambda: df.Pace.from_known(5), df.WrongType, "known: 5 given"),  # type: ignore[arg-type]
    (lambda: df.Pace.from_known([5, 6]), df.WrongType, "known[0]: 5 given, allowed (Layout or Tally, minutes)"),  # type: ignore[list-item]
    (lambda: df.Pace.from_known([(tiles((9, 9)), 5), (tiles((9, 8)),)]), df.WrongType, "known[1]: (<"),  # type: ignore[list-item]
    (lambda: df.Pace.from_known([(tiles((9, 9)), 5), (tiles((9, 8)), 0)]), df.OutOfRange, "known[1][1]: 0 given, allowed 0.000001 min"),
    (lambda: df.Pace.from_known([(tiles((9, 9)), -2), (tiles((9, 8)), 1)]), df.OutOfRange, "known[0][1]: -2 given"),
    (lambda: df.Pace.from_known([(tiles((9, 9)), 5), (tiles((9, 8)), float("nan"))]), df.NotFinite, "known[1][1]: nan given"),
    (lambda: df.Pace.from_known([(tiles((9, 9)), 5, 0), (tiles((9, 8)), 4)]), df.OutOfRange, "known[0][2]: 0 given, allowed 1 to 1000"),
    (lambda: df.Pace.from_known([(cube(90), 95), (cube(90), 96)]), df.KnownAlike, "known: jobs of one size"),
    (lambda: tiles((9, 9)).minutes(5), df.WrongType, "pace: 5 given, allowed a Pace"),  # type: ignore[arg-type]
    (lambda: tiles((9, 9)).minutes(df.Pace(feed=1, acceleration=1), passes=0), df.OutOfRange, "passes: 0 given, allowed 1 to 1000"),
    (lambda: tiles((9, 9)).sheets[0].route(start="end"), df.OutOfRange, "start: 'end' given, allowed \"corner\", \"middle\""),  # type: ignore[arg-type]
    (lambda: tiles((9, 9)).sheets[0].route(home=1), df.WrongType, "home: 1 given"),  # type: ignore[arg-type]
]


@pytest.mark.parametrize(("call", "error", "text"), REFUSED)
def test_refusals(call: Callable[[], Any], error: type[df.DryfitError], text: str) -> None:
    with pytest.raises(error) as caught:
        call()
    assert str(caught.value).startswith(text), str(caught.value)
