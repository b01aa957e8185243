"""What goes into the wheel and the source distribution, and what is said where Rust is missing."""

import os
import re
import subprocess
import sys
import tarfile
from importlib.metadata import distribution
from pathlib import Path

import pytest
from conftest import ROOT

PACKAGE = ROOT / "python" / "package" / "dryfit"
SOURCES = {f"dryfit/{file.relative_to(PACKAGE).as_posix()}" for file in PACKAGE.rglob("*") if file.is_file() and file.suffix in (".py", ".pyi", ".typed")}


def test_the_wheel_has_what_it_needs_and_no_more() -> None:
    files = {file.as_posix() for file in distribution("dryfit").files or () if file.suffix != ".pyc"}
    # What pip adds, and the command.
    info = {f"dryfit-{distribution('dryfit').version}.dist-info/{name}" for name in ("METADATA", "WHEEL", "RECORD", "entry_points.txt", "licenses/LICENSE")}
    added = {file for file in files if re.search(r"/(INSTALLER|REQUESTED|direct_url\.json)$|bin/dryfit$|Scripts/dryfit", file)}
    compiled = {file for file in files if re.fullmatch(r"dryfit/_dryfit\.(abi3\.so|pyd)", file)}
    assert len(compiled) == 1
    assert files - added - compiled == SOURCES | info


def test_one_wheel_for_every_python() -> None:
    said = distribution("dryfit")
    assert "Tag: cp311-abi3-" in (said.read_text("WHEEL") or "")
    assert said.metadata["Requires-Python"] == ">=3.11" and said.metadata["License-Expression"] == "MIT"
    assert (said.read_text("licenses/LICENSE") or "") == (ROOT / "LICENSE").read_text(encoding="utf-8") == (ROOT / "python" / "LICENSE").read_text(encoding="utf-8")
    assert "## The job file" in str(said.metadata)


def backend(call: str, path: Path, **environment: str) -> "subprocess.CompletedProcess[str]":
    """One of the hooks that pip calls, with the package's folder as the place."""
    code = f"import sys; sys.path.insert(0, 'backend'); import build_dryfit; print(build_dryfit.{call})"
    return subprocess.run([sys.executable, "-c", code], cwd=ROOT / "python", env={**os.environ, "PATH": str(path), **environment}, capture_output=True, text=True)


def test_the_source_distribution(tmp_path: Path) -> None:
    pytest.importorskip("maturin")
    made = backend(f"build_sdist({str(tmp_path)!r})", Path(f"{Path(sys.executable).parent}{os.pathsep}{os.environ['PATH']}"))
    assert made.returncode == 0, made.stderr
    with tarfile.open(next(tmp_path.glob("*.tar.gz"))) as archive:
        names = {name.split("/", 1)[1] for name in archive.getnames() if "/" in name}
    needed = {f"package/{name}" for name in SOURCES} | {"Cargo.lock", "pyproject.toml", "PKG-INFO", "README.md", "LICENSE", "backend/build_dryfit.py"}
    assert needed <= names
    rust = {name for name in names if re.fullmatch(r"(core|python)/(src/.*\.rs|Cargo\.toml)", name)}
    assert names - needed - rust <= {"Cargo.toml", "python/LICENSE", "python/README.md"}


@pytest.mark.parametrize("call", ["get_requires_for_build_wheel()", "build_wheel('.')", "prepare_metadata_for_build_wheel('.')", "build_editable('.')"])
def test_without_rust_it_says_what_is_missing(call: str, tmp_path: Path) -> None:
    pytest.importorskip("maturin")
    made = backend(call, tmp_path)
    assert made.returncode == 1 and made.stdout == ""
    assert re.fullmatch(r"dryfit is built with Rust 1\.\d+ or newer, and Rust's cargo was not found\. Install Rust first .*\n", made.stderr)
    needed = re.search(r'rust-version = "(.*)"', (ROOT / "Cargo.toml").read_text(encoding="utf-8"))
    assert needed and f"Rust {needed[1]} " in made.stderr
