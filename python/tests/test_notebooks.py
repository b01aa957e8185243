"""The notebooks run, and show what they are kept with."""

import base64
import importlib.util
import io
import re
from pathlib import Path
from types import ModuleType
from typing import Any

import pytest
from conftest import ROOT

for module in ("nbclient", "ipykernel", "ipywidgets", "matplotlib"):
    pytest.importorskip(module)

FOLDER = ROOT / "python" / "notebooks"
FILES = sorted(FOLDER.glob("*.ipynb"))


@pytest.fixture(scope="module")
def runner() -> ModuleType:
    spec = importlib.util.spec_from_file_location("execute", FOLDER / "execute.py")
    assert spec and spec.loader
    module = importlib.util.module_from_spec(spec)
    spec.loader.exec_module(module)
    return module


def read(file: Path) -> Any:
    import nbformat

    return nbformat.read(file, as_version=4)


def pixels(png: str) -> Any:
    from matplotlib.image import imread

    return imread(io.BytesIO(base64.b64decode(png)))


def same(made: dict[str, str], kept: dict[str, str]) -> None:
    """Text to the letter; plots by their size and nearly all of their dots, since fonts are drawn a little differently from one machine to the next."""
    assert set(made) == set(kept)
    for kind, value in kept.items():
        if kind != "image/png":
            assert made[kind] == value
            continue
        one, other = pixels(made[kind]), pixels(value)
        assert abs(one.shape[0] - other.shape[0]) <= 6 and abs(one.shape[1] - other.shape[1]) <= 6
        rows, columns = min(one.shape[0], other.shape[0]), min(one.shape[1], other.shape[1])
        assert abs(one[:rows, :columns] - other[:rows, :columns]).mean() < 0.05


@pytest.mark.parametrize("file", FILES, ids=lambda file: file.stem)
def test_a_notebook_shows_today_what_it_is_kept_with(file: Path, runner: ModuleType, tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    # The kernel of this very Python, with nothing of the home of whoever runs it.
    monkeypatch.setenv("JUPYTER_PLATFORM_DIRS", "1")
    monkeypatch.setenv("IPYTHONDIR", str(tmp_path / "ipython"))
    monkeypatch.setenv("MPLCONFIGDIR", str(tmp_path / "matplotlib"))
    kept, made = read(file), runner.executed(file, tmp_path)
    assert len(made.cells) == len(kept.cells)
    for one, other in zip(made.cells, kept.cells, strict=True):
        assert one.cell_type == other.cell_type and one.source == other.source
        if one.cell_type != "code":
            continue
        assert one.execution_count == other.execution_count
        assert [output.output_type for output in one.outputs] == [output.output_type for output in other.outputs], one.source
        for output, was in zip(one.outputs, other.outputs, strict=True):
            if output.output_type == "stream":
                assert (output.name, output.text) == ("stdout", was.text), one.source
            else:
                same(output.data, was.data)
    # What a reader would cut by is written where the notebook runs.
    written = {path.name for path in tmp_path.iterdir() if path.is_file()}
    named = set(re.findall(r'open\("([^"]*)"', "".join(cell.source for cell in kept.cells)))
    assert named <= written


def test_all_are_there_and_small() -> None:
    assert [file.stem for file in FILES] == ["calipers_to_box", "cheapest_size", "family_of_boxes", "rack_from_slabs", "reading_a_coupon"]
    assert all(file.stat().st_size < 250_000 for file in FILES)


@pytest.mark.parametrize("file", FILES, ids=lambda file: file.stem)
def test_they_warn_before_anything_is_cut_and_name_no_machine(file: Path) -> None:
    book = read(file)
    told = next(number for number, cell in enumerate(book.cells) if "cut fingers, beams blind and burn" in cell.source)
    assert "maker" in book.cells[told].source and "rules of your workplace" in book.cells[told].source
    first = next((number for number, cell in enumerate(book.cells) if re.search(r"open\(|\.svg\(|\.gcode\(|\.hpgl\(|\.dxf\(", cell.source)), len(book.cells))
    assert told < first
    text = file.read_text(encoding="utf-8")
    assert not re.search(r"/home/|/root|/tmp/|/work|site-packages|Traceback", text)
    assert "<script" not in text and "application/vnd.jupyter.widget" not in text


@pytest.mark.parametrize("file", FILES, ids=lambda file: file.stem)
def test_what_is_plotted_and_slid_is_kept_as_a_picture(file: Path) -> None:
    for cell in read(file).cells:
        if cell.cell_type == "code":
            kinds = {kind for output in cell.outputs for kind in output.get("data", ())}
            assert "plots." not in cell.source or "image/png" in kinds, cell.source
            assert "notebook." not in cell.source or "<svg" in "".join(output.data["text/html"] for output in cell.outputs), cell.source


@pytest.mark.parametrize("file", FILES, ids=lambda file: file.stem)
def test_they_use_what_they_ask_for(file: Path) -> None:
    book = read(file)
    code = "\n".join(cell.source for cell in book.cells if cell.cell_type == "code")
    extras = set(re.findall(r"\w+", re.search(r"dryfit\[([\w,]+)\]", book.cells[0].source)[1]))  # type: ignore[index]
    used = {"notebook"} if "notebook." in code else set()
    assert extras == used | ({"plots"} if "plots." in code else set())
    links = re.findall(r"\]\((\w+\.ipynb)\)", "\n".join(cell.source for cell in book.cells))
    assert all((FOLDER / link).is_file() for link in links)
