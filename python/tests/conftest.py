"""What the tests share."""

import subprocess
import sys
from pathlib import Path
from typing import Protocol

import dryfit as df
import pytest

ROOT = Path(__file__).resolve().parents[2]


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
        return subprocess.run(command, cwd=tmp_path, capture_output=True, text=True, timeout=60)

    return run
