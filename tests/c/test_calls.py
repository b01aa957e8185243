"""Calls, good and bad, under the sanitizers and under valgrind."""

from pathlib import Path

import calls
import fields
import pytest
from building import HERE

PROGRAMS = sorted((HERE / "programs").glob("*.c"))


@pytest.mark.parametrize("source", PROGRAMS, ids=lambda path: path.stem)
def test_program(source: Path, watch) -> None:
    watch(source, more=["-lm"])


@pytest.fixture
def generated(tmp_path: Path):
    def write(name: str, text: str) -> Path:
        for shared in (HERE / "programs").glob("*.h"):
            (tmp_path / shared.name).write_text(shared.read_text())
        source = tmp_path / name
        source.write_text(text)
        return source

    return write


def test_null_for_every_pointer_in_turn(watch, generated) -> None:
    watch(generated("nulls.c", calls.nulls()))


def test_rooms_of_every_size(watch, generated) -> None:
    watch(generated("rooms.c", calls.rooms()), more=["-lm"])


def test_numbers_that_nothing_can_be(watch, generated) -> None:
    watch(generated("fields.c", fields.wrong_numbers()), more=["-lm"])


def test_odd_arguments(watch, generated) -> None:
    # Valgrind sees what the sanitizers see at a thirtieth of their pace: a few rounds for the library as it is shipped.
    watch(generated("odds.c", calls.odds(rounds=300 if watch.quick else 10)), more=["-lm"])
