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
from dryfit import _dryfit, _job, _minutes, _motion


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


def test_the_readme_has_the_keys_of_sheets_and_minutes() -> None:
    text = (ROOT / "python" / "README.md").read_text(encoding="utf-8")
    listed = set(re.findall(r"[a-z_]+", " ".join(re.findall(r"`([^`]*)`", text))))
    for key in (*_job.STOCK, *_job.LAYOUT, *_minutes.MACHINE, *_minutes.KNOWN, "known", "passes", *_motion.SETTINGS, "files"):
        assert key in listed, key
