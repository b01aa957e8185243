"""Writes a set of files: all of them, or none."""

import os
import shutil
import tempfile
from pathlib import Path

from dryfit import _words
from dryfit._dryfit import NotWritable


def write(folder: str, files: dict[str, str]) -> None:
    """Writes the files into the folder, which is made if it is not there.

    All are written beside their places first and then moved there, each whole. If anything fails, the folder is as it was before.

    Raises NotWritable.
    """
    try:
        if not folder:
            raise ValueError("it has no name")
        made = _folders(Path(folder))
        try:
            _write(Path(folder), files)
        except BaseException:
            for each in made:
                each.rmdir()
            raise
    except (OSError, ValueError) as error:
        reason = getattr(error, "strerror", None) or str(error)
        raise NotWritable(f"--out: {_words.shown(folder)} given, allowed a folder that can be written: {_words.line(reason)}") from None


def _folders(folder: Path) -> list[Path]:
    """Makes the folder and those above it; returns the new ones, innermost first."""
    missing = [each for each in (folder, *folder.parents) if not each.exists()]
    made: list[Path] = []
    try:
        for each in reversed(missing):
            each.mkdir()
            made.insert(0, each)
    except BaseException:
        for each in made:
            each.rmdir()
        raise
    return made


def _write(folder: Path, files: dict[str, str]) -> None:
    room = Path(tempfile.mkdtemp(prefix=".dryfit-", dir=folder))
    try:
        (room / "new").mkdir()
        (room / "old").mkdir()
        for name, text in files.items():
            with open(room / "new" / name, "x", encoding="utf-8", newline="\n") as opened:
                opened.write(text)
                opened.flush()
                os.fsync(opened.fileno())
        _exchange(folder, room, list(files))
    finally:
        shutil.rmtree(room, ignore_errors=True)


def _exchange(folder: Path, room: Path, names: list[str]) -> None:
    """Moves the new files into their places, and the old ones back if one of the moves fails."""
    placed: list[str] = []
    try:
        for name in names:
            if os.path.lexists(folder / name):
                shutil.copy2(folder / name, room / "old" / name, follow_symlinks=False)
            placed.append(name)
            os.replace(room / "new" / name, folder / name)
    except BaseException:
        for name in placed:
            if os.path.lexists(room / "old" / name):
                os.replace(room / "old" / name, folder / name)
            elif not os.path.lexists(room / "new" / name):
                os.unlink(folder / name)
        raise
