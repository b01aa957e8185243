"""Threads: long calls let others run, and an assembly may be added to while others use it."""

import copy
import time
from collections.abc import Callable
from concurrent.futures import ThreadPoolExecutor
from typing import Any

import dryfit as df
import pytest
from conftest import PATIENCE, turns_during

STOCK = df.Stock(thickness=3, sheet=(1500, 1200), border=8)


def rack() -> df.Assembly:
    return df.box(outside=(900, 700, 150), stock=STOCK, top="open", dividers=(14, 12))


def long_calls() -> dict[str, Callable[[], Any]]:
    made = rack()
    parts = made.cut(cutter=df.Cutter.beam(kerf=0.2))
    small = df.box(outside=(110, 85, 60), stock=STOCK).cut(cutter=df.Cutter.beam(kerf=0.2))
    for _ in range(4):
        small += small
    layout = small.lay_out(STOCK)
    sheet = layout.sheets[0]
    holes = df.Assembly(stock=STOCK)
    holes.add("plate", normal="z", at=(0, 0, 0), size=(1400, 1100))
    jobs = [(df.Tally(cut=1000 + 7 * n, parts=n % 50, corners=n % 300, travel=n % 90, sheets=1 + n % 3), 10 + n % 60) for n in range(1000)]
    return {
        "box": lambda: df.box(outside=(3000, 3000, 150), stock=STOCK, top="open", dividers=(200, 200)),
        "panels": lambda: rack().panels,
        "dry_fit": made.dry_fit,
        "order": made.order,
        "cut": lambda: made.cut(cutter=df.Cutter.bit(diameter=1), relief=df.Relief(radius=0.5)),
        "picture": lambda: made.picture(explode=0),
        "hole": lambda: holes.hole("plate", at=(5, 5), diameter=1, count=(700, 600), spacing=(2, 2)),
        "Parts.dry_fit": parts.dry_fit,
        "Parts.lay_out": lambda: small.lay_out(STOCK),
        "Layout.check": layout.check,
        "Layout.cut_length": lambda: layout.cut_length,
        "Layout.shared_length": lambda: layout.shared_length,
        "Layout.offcuts": lambda: layout.offcuts,
        "Layout.tally": layout.tally,
        "Layout.travel_length": lambda: layout.travel_length,
        "Layout.estimate": lambda: layout.estimate(df.Pace(feed=20, acceleration=500)),
        "Sheet.route": sheet.route,
        "Sheet.plan": sheet.plan,
        "Sheet.svg": lambda: sheet.svg(df.Motion()),
        "Sheet.gcode": sheet.gcode,
        "Sheet.hpgl": lambda: sheet.hpgl(df.Motion()),
        "Sheet.dxf": sheet.dxf,
        "Pace.from_known": lambda: df.Pace.from_known(jobs),
    }


def seconds(call: Callable[[], object]) -> float:
    """What a call takes of the processor, whatever else runs: the least of three."""

    def once() -> float:
        began = time.thread_time()
        call()
        return time.thread_time() - began

    return min(once() for _ in range(3))


def test_long_calls_let_other_threads_run() -> None:
    calls = long_calls()
    took = {name: seconds(call) for name, call in calls.items()}
    long = [name for name in calls if took[name] > 0.0005]
    assert len(long) >= 6, took
    for name in long:
        assert turns_during(calls[name]), f"{name} holds the interpreter for {1e3 * took[name]:.1f} ms"


def test_an_assembly_is_added_to_while_others_use_it() -> None:
    made = df.box(outside=(230, 160, 48), stock=STOCK, top="open", dividers=(3, 2))
    beam = df.Cutter.beam(kerf=0.2)
    states = [copy.copy(made)]
    for width in (8, 9, 10):
        other = copy.copy(made)
        other.joint("front", "left", df.Fingers(width=width))
        states.append(other)
    expected = [state.cut(cutter=beam) for state in states]

    def work(number: int) -> int:
        seen = 0
        for step in range(25):
            kind = (number + step) % 8
            if kind == 0:
                made.joint("front", "left", df.Fingers(width=8 + step % 3))
            elif kind == 1:
                with pytest.raises(df.DryfitError):
                    made.add("front", normal="y", at=(0, 0, 0), size=(9, 9))
            elif kind == 2:
                assert copy.copy(made).dry_fit().ok
            elif kind == 3:
                assert made.order() and repr(made)
            else:
                # Every result is of one state, whole.
                seen += made.cut(cutter=beam) in expected
                assert len(made.panels) == 10 and made.dry_fit().ok
        return seen

    with ThreadPoolExecutor(8) as pool:
        found = sum(pool.map(work, range(16), timeout=PATIENCE))
    assert found == sum((number + step) % 8 > 3 for number in range(16) for step in range(25))
    assert made.cut(cutter=beam) in expected


def test_one_layout_in_many_threads() -> None:
    layout = df.Parts.rectangles([(60, 40), (30, 20)] * 10).lay_out(STOCK)
    said = [(sheet.svg(), sheet.gcode(), sheet.route(), layout.check(), hash(layout)) for sheet in layout.sheets]
    with ThreadPoolExecutor(8) as pool:
        runs = pool.map(lambda _: [(sheet.svg(), sheet.gcode(), sheet.route(), layout.check(), hash(layout)) for sheet in layout.sheets], range(80))
        assert all(run == said for run in runs)
