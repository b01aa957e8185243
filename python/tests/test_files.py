"""All files or none."""

import os
from pathlib import Path

import pytest
from dryfit import NotWritable, _files


def tree(folder: Path) -> dict[str, str]:
    return {str(path.relative_to(folder)): path.read_text() for path in folder.rglob("*") if path.is_file()}


def test_new_folders_are_made(tmp_path: Path) -> None:
    _files.write(str(tmp_path / "a" / "b"), {"one": "1\n", "two": "2"})
    assert tree(tmp_path) == {"a/b/one": "1\n", "a/b/two": "2"}


@pytest.mark.parametrize("failing", range(3))
def test_a_move_that_fails_leaves_all_as_it_was(tmp_path: Path, monkeypatch: pytest.MonkeyPatch, failing: int) -> None:
    (tmp_path / "one").write_text("old one")
    (tmp_path / "three").write_text("old three")
    before, real, count = tree(tmp_path), os.replace, 0

    def replace(source: Path, target: Path) -> None:
        nonlocal count
        count += 1
        if count == failing + 1:
            raise OSError(28, "No space left on device")
        real(source, target)

    monkeypatch.setattr(os, "replace", replace)
    with pytest.raises(NotWritable, match="No space left on device"):
        _files.write(str(tmp_path), {"one": "1", "two": "2", "three": "3"})
    assert tree(tmp_path) == before and sorted(path.name for path in tmp_path.iterdir()) == ["one", "three"]


def test_a_write_that_fails_leaves_no_folder(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    def fsync(_: int) -> None:
        raise OSError(5, "Input/output error")

    monkeypatch.setattr(os, "fsync", fsync)
    with pytest.raises(NotWritable, match="Input/output error"):
        _files.write(str(tmp_path / "a" / "b"), {"one": "1"})
    assert list(tmp_path.iterdir()) == []


def test_an_interrupt_is_no_half_job(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    def replace(source: Path, target: Path) -> None:
        raise KeyboardInterrupt

    monkeypatch.setattr(os, "replace", replace)
    with pytest.raises(KeyboardInterrupt):
        _files.write(str(tmp_path / "a"), {"one": "1"})
    assert list(tmp_path.iterdir()) == []


def test_a_folder_in_the_way(tmp_path: Path) -> None:
    (tmp_path / "two").mkdir()
    (tmp_path / "one").write_text("old")
    with pytest.raises(NotWritable):
        _files.write(str(tmp_path), {"one": "1", "two": "2"})
    assert tree(tmp_path) == {"one": "old"} and sorted(path.name for path in tmp_path.iterdir()) == ["one", "two"]
