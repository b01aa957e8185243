"""Whatever a job file says, the command ends with a status and its lines; never with a traceback."""

import os
import random
import tomllib
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest
from conftest import ROOT
from dryfit.__main__ import main

RUNS = int(os.environ.get("DRYFIT_FUZZ_RUNS", "400"))
VALUES: list[Any] = [
    *(0, 1, -1, 2, 5, 10**6, 10**18, -(10**30), 0.5, 2.5, 60.0, 1e-9, 1e300, float("nan"), float("inf"), True, False),
    *("", "x", "tabs", "fingers", "halves", "closed", "beam", "greyboard", "left", "3/32 in", "1/3", "\n\x1b[31m", "é" * 80, "\U0010ffff"),
    *([], [1], [1, 2], [1, 2, 3], [0, 0, 0], ["left", "back"], [[[]]], {}, {"a": {"b": 1}}, {"name": "left"}),
]


def places(value: Any) -> Iterator[tuple[Any, Any]]:
    """Every element of nested tables and lists: its holder and its key or index."""
    for key in list(value) if isinstance(value, dict) else range(len(value)):
        yield value, key
        if isinstance(value[key], (dict, list)):
            yield from places(value[key])


def spoil(job: dict[str, Any], chance: random.Random) -> None:
    for _ in range(chance.choice([1, 1, 1, 2, 3])):
        holder, key = chance.choice(list(places(job)))
        action = chance.randrange(6)
        if action == 0:
            del holder[key]
        elif action == 1 and isinstance(holder, dict):
            holder[chance.choice(["odd", "a b", "\n", key + "s", "kind", "name"])] = holder.pop(key)
        elif action == 2 and isinstance(holder, list):
            holder.append(holder[key])
        elif action == 3 and isinstance(holder[key], (int, float)):
            holder[key] *= chance.choice([-1, 0, 0.1, 0.9, 1.01, 3, 1000])
        else:
            holder[key] = chance.choice(VALUES)


@pytest.mark.parametrize("seed", range(4))
def test_spoilt_jobs(seed: int, tmp_path: Path, capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch) -> None:
    chance, out, seen = random.Random(seed), tmp_path / "out", set()
    for _ in range(RUNS // 4):
        job: dict[str, Any] = tomllib.loads((ROOT / "python" / "demo-job" / "cabinet.toml").read_text())
        spoil(job, chance)
        monkeypatch.setattr("dryfit._read.toml", lambda _, job=job: job)
        before = {path.name: path.read_bytes() for path in out.iterdir()} if out.exists() else {}
        status = main(["job", "job.toml", "--out", str(out)])
        said = capsys.readouterr()
        seen.add(status)
        assert status in (0, 1, 2), job
        if status:
            assert said.out == "" and (status == 1 or said.err.count("\n") == 1), said.err
            assert all(line.isprintable() for line in said.err.splitlines())
            after = {path.name: path.read_bytes() for path in out.iterdir()} if out.exists() else {}
            assert after == before
    assert 2 in seen
