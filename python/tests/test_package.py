"""Stubs that agree, versions that match, READMEs that run."""

import importlib
import re
import subprocess
import sys
import tomllib
from pathlib import Path
from types import ModuleType

import dryfit as df
import pytest
from conftest import ROOT
from dryfit import _assembly, _corners, _dryfit, _job, _joints, _minutes, _motion, _openings, _pieces


def test_exports_are_those_of_the_extension() -> None:
    assert set(df.__all__) == {name for name in _dryfit.__all__ if not name.startswith("_") or name == "__version__"}


def test_versions(monkeypatch: pytest.MonkeyPatch) -> None:
    cargo = tomllib.loads((ROOT / "Cargo.toml").read_text())
    assert df.__version__ == _dryfit.__version__ == cargo["workspace"]["package"]["version"]
    monkeypatch.setattr(_dryfit, "__version__", "0.0.0")
    with pytest.raises(ImportError, match="files of two versions are mixed"):
        importlib.reload(df)
    monkeypatch.undo()
    importlib.reload(df)


@pytest.mark.parametrize("command", [["mypy.stubtest", "dryfit"], ["mypy", "--strict", "-p", "dryfit"]])
def test_types(command: list[str], tmp_path: Path) -> None:
    pytest.importorskip("mypy")
    ran = subprocess.run([sys.executable, "-m", *command], cwd=tmp_path, capture_output=True, text=True)
    assert ran.returncode == 0, ran.stdout + ran.stderr


@pytest.mark.parametrize("folder", ["python", "."])
@pytest.mark.filterwarnings("error::UserWarning")
def test_the_readmes_run(folder: str, tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.chdir(tmp_path)
    text = (ROOT / folder / "README.md").read_text(encoding="utf-8")
    blocks = text.split("```python\n")[1:]
    for block in blocks:
        exec(compile(block.split("```")[0], "README.md", "exec"), ModuleType("readme").__dict__)
    assert blocks and (tmp_path / "sheet-1.svg").read_text().startswith("<svg")


def job_tables() -> dict[str, set[str]]:
    """The tables of a job file, or what stands in them, and their keys."""
    pieces = {f"[[{kind}]]": {"name", "stock", "copies", *keys} for kind, (_, keys) in _pieces.KINDS.items()}
    pieces["[[assembly]]"] |= {*_assembly.BOARD, *_assembly.KEY}
    joints = {key for _, need, may in _joints.KINDS.values() for key in (*need, *may)} | set(_joints.KINDS)
    singles = {key for key in _job.JOB if not any(key in table for table in ("stock", "cutter", "fit", "relief", "layout", "motion", "pace", "dovetail_corner", *_pieces.KINDS))}
    return pieces | {
        "top": singles,
        "[stock.NAME]": set(_job.STOCK),
        "[cutter]": {"kind", *_job.CUTTERS, *(key for keys in _job.CUTTERS.values() for key in keys)},
        "[fit]": set(_job.FIT),
        "[relief]": set(_job.RELIEF),
        "[layout]": set(_job.LAYOUT),
        "[motion]": {*_motion.SETTINGS, "files"},
        "[pace]": {*_minutes.MACHINE, *_minutes.KNOWN, "known", "passes"},
        "[[dovetail_corner]]": {"name", *_corners.NEED, *_corners.MAY},
        "all pieces": {*_openings.KEYS, *_openings.HOLE, *_openings.BOLT, "board", "edge", "face"},
        "joint": joints,
    }


def test_the_readme_has_every_key_of_every_table() -> None:
    text = (ROOT / "python" / "README.md").read_text(encoding="utf-8")
    listed: dict[str, set[str]] = {}
    table = ""
    for row in re.findall(r"^\|(.*)\|$", text[text.index("## The job file") : text.index("## What can be relied on")], re.MULTILINE):
        table = row.split("|")[0].strip("` ") or table
        listed.setdefault(table, set()).update(re.findall(r"[a-z_]+", " ".join(re.findall(r"`([^`]*)`", row))))
    wanted = job_tables()
    assert set(listed) - {"table", "---", "library"} == set(wanted)
    for table, keys in wanted.items():
        assert keys <= listed[table], (table, keys - listed[table])


def test_examples_are_typed(tmp_path: Path) -> None:
    """Every block of Python in the READMEs, and every example, as a strict type checker reads them."""
    pytest.importorskip("mypy")
    files = [file for folder in ("gallery/examples", "examples") for file in sorted((ROOT / "python" / folder).glob("*.py"))]
    for readme in ("README.md", "python/README.md"):
        for number, block in enumerate((ROOT / readme).read_text(encoding="utf-8").split("```python\n")[1:]):
            file = tmp_path / f"{readme.replace('/', '_').removesuffix('.md')}_{number}.py"
            file.write_text(block.split("```")[0], encoding="utf-8")
            files.append(file)
    command = [sys.executable, "-m", "mypy", "--strict", "--ignore-missing-imports", "--config-file=", "--scripts-are-modules", *map(str, files)]
    ran = subprocess.run(command, cwd=tmp_path, capture_output=True, text=True)
    assert ran.returncode == 0 and len(files) > 18, ran.stdout + ran.stderr


def test_there_is_a_class_for_every_number_of_the_core() -> None:
    text = (ROOT / "core" / "src" / "error.rs").read_text(encoding="utf-8")
    table = {name: int(number) for name, number in re.findall(r"^\s*(\w+) = (\d{3}),", text, re.MULTILINE)}
    classes = {name: value.code for name, value in vars(df).items() if isinstance(value, type) and issubclass(value, df.DryfitError) and value.code}
    assert classes == table and len(table) > 50
