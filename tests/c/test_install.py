"""What ffi/install leaves behind, and what it says when it cannot."""

import os
import re
import shutil
import stat
import subprocess
from pathlib import Path

import pytest
from building import INCLUDE, INSTALL, PATIENCE, run

VERSION = re.search(r'DRYFIT_VERSION "(.+)"', (INCLUDE / "dryfit.h").read_text())[1]
MAJOR = VERSION.split(".")[0]


def refused(*arguments: object, **variables: str) -> tuple[int, str]:
    done = subprocess.run([INSTALL, *map(str, arguments)], env={**os.environ, **variables}, capture_output=True, text=True, timeout=PATIENCE)
    assert done.returncode != 0
    return done.returncode, done.stderr


def everything(place: Path) -> dict[str, str]:
    """Each file below the place with its mode, or what it points to."""
    found = {}
    for path in sorted(place.rglob("*")):
        name = str(path.relative_to(place))
        if path.is_symlink():
            found[name] = f"-> {os.readlink(path)}"
        elif path.is_file():
            found[name] = stat.filemode(path.stat().st_mode)
    return found


def expected() -> dict[str, str]:
    headers = {f"include/{path.name}": "-rw-r--r--" for path in INCLUDE.iterdir() if path.suffix in (".h", ".hpp")}
    return {
        **headers,
        f"lib/libdryfit.so.{VERSION}": "-rwxr-xr-x",
        f"lib/libdryfit.so.{MAJOR}": f"-> libdryfit.so.{VERSION}",
        "lib/libdryfit.so": f"-> libdryfit.so.{MAJOR}",
        "lib/libdryfit.a": "-rw-r--r--",
        "lib/pkgconfig/dryfit.pc": "-rw-r--r--",
        "lib/cmake/dryfit/dryfitConfig.cmake": "-rw-r--r--",
        "lib/cmake/dryfit/dryfitConfigVersion.cmake": "-rw-r--r--",
    }


def test_these_files_and_no_others(prefix: Path) -> None:
    assert everything(prefix) == expected()


def test_over_an_older_one_below_a_destdir_under_a_strict_umask(tmp_path: Path) -> None:
    library = tmp_path / "usr" / "lib" / f"libdryfit.so.{VERSION}"
    library.parent.mkdir(parents=True)
    library.write_text("an older one")
    library.chmod(0o444)
    run("sh", "-c", f"umask 077 && '{INSTALL}' --destdir='{tmp_path}' --prefix /usr")
    assert everything(tmp_path / "usr") == expected()
    assert library.read_bytes()[:4] == b"\x7fELF"


@pytest.mark.parametrize(
    ("arguments", "words"),
    [
        (["--prefix"], "--prefix needs a folder after it"),
        (["--destdir"], "--destdir needs a folder after it"),
        (["--prefix", "here"], "--prefix must be a path that begins with /, given 'here'"),
        (["--prefix="], "--prefix must be a path that begins with /, given ''"),
        (["--destdir=../there"], "--destdir must be a path that begins with /, given '../there'"),
        (["--libs", "/x"], "unknown argument '--libs'"),
        (["/opt"], "unknown argument '/opt'"),
    ],
)
def test_wrong_arguments_are_named(arguments: list[str], words: str) -> None:
    status, said = refused(*arguments)
    assert status == 2
    assert words in said
    assert "usage: ffi/install [--prefix PREFIX] [--destdir DIR]" in said


def test_a_place_that_cannot_be_written(tmp_path: Path) -> None:
    (tmp_path / "file").write_text("in the way")
    status, said = refused("--prefix", tmp_path / "file" / "below")
    assert status == 1
    assert f"cannot write into {tmp_path}/file/below. Choose another place with --prefix" in said


def test_no_cargo(tmp_path: Path) -> None:
    tools = tmp_path / "bin"
    tools.mkdir()
    for tool in ("bash", "env", "dirname", "uname", "mkdir", "mktemp", "rm", "cc"):
        (tools / tool).symlink_to(shutil.which(tool))
    status, said = refused("--prefix", tmp_path / "p", PATH=str(tools))
    assert status == 1
    assert "Rust's cargo is needed and was not found" in said
    (tools / "cargo").symlink_to(shutil.which("true"))
    (tools / "cc").unlink()
    status, said = refused("--prefix", tmp_path / "p", PATH=str(tools))
    assert status == 1
    assert "a C compiler (cc) is needed" in said


def test_a_build_that_fails_leaves_nothing(tmp_path: Path) -> None:
    (tmp_path / "cargo").write_text("#!/bin/sh\necho 'error: the disk is full' >&2\nexit 101\n")
    (tmp_path / "cargo").chmod(0o755)
    status, said = refused("--prefix", tmp_path / "p", PATH=f"{tmp_path}:{os.environ['PATH']}")
    assert status == 1
    assert "error: the disk is full" in said
    assert "the library could not be built; what cargo says stands above" in said
    assert list((tmp_path / "p").iterdir()) == []
