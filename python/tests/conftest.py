"""What the tests share."""

import subprocess
import sys
import threading
import time
from collections.abc import Callable
from pathlib import Path
from typing import Protocol

import dryfit as df
import pytest

ROOT = Path(__file__).resolve().parents[2]
# Seconds. However slow or busy the machine, nothing takes so long but what hangs or never happens.
PATIENCE = 300


@pytest.fixture
def stock() -> df.Stock:
    return df.Stock(thickness=2.5, sheet=(500, 350), border=8, gap=1)


@pytest.fixture
def blade() -> df.Cutter:
    return df.Cutter.blade(kerf=0.0, trail=0.25)


@pytest.fixture
def locked(stock: df.Stock) -> df.Assembly:
    """Two boards with slots for each other that no straight move leads into."""
    stand = df.Assembly(stock=stock)
    stand.add("tall", normal="x", at=(50, 0, 0), size=(100, 120))
    stand.add("wide", normal="y", at=(0, 50, 20), size=(100, 80))
    stand.joint("tall", "wide", df.Halves())
    return stand


class Shell(Protocol):
    def __call__(self, *arguments: str | Path) -> "subprocess.CompletedProcess[str]": ...


@pytest.fixture
def shell(tmp_path: Path) -> Shell:
    """Runs the command in a folder of its own."""

    def run(*arguments: str | Path) -> "subprocess.CompletedProcess[str]":
        command = [sys.executable, "-m", "dryfit", *map(str, arguments)]
        return subprocess.run(command, cwd=tmp_path, capture_output=True, text=True, timeout=PATIENCE)

    return run


def turns_during(call: Callable[[], object], *, enough: int = 1, work: Callable[[], object] = lambda: None) -> int:
    """How often another thread comes to do its work during one call, which is repeated until that is enough or patience ends.

    The interpreter takes no turns by itself meanwhile, so a turn during a call is one that the call has let through. A busy machine may take long to give it.
    """
    stop, interval = threading.Event(), sys.getswitchinterval()
    turns = during = 0

    def meanwhile() -> None:
        nonlocal turns
        while not stop.is_set():
            work()
            turns += 1
            time.sleep(1e-4)

    other = threading.Thread(target=meanwhile)
    other.start()
    sys.setswitchinterval(1000)
    until = time.monotonic() + PATIENCE
    try:
        while during < enough and time.monotonic() < until:
            before = turns
            call()
            during = max(during, turns - before)
    finally:
        sys.setswitchinterval(interval)
        stop.set()
        other.join()
    return during
