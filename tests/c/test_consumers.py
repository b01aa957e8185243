"""A program of somebody else finds the library with pkg-config, CMake and Meson, shared and static, wherever its folder was moved."""

import os
import shutil
import subprocess
from pathlib import Path

import pytest
from building import HERE, PATIENCE, STRICT, run

SAYS = "dryfit 0.1.0: ok\n"
SOURCE = HERE / "consumer" / "consumer.c"


@pytest.fixture(scope="module", params=["as installed", "moved"])
def place(prefix: Path, request: pytest.FixtureRequest, tmp_path_factory: pytest.TempPathFactory) -> Path:
    if request.param == "as installed":
        return prefix
    moved = tmp_path_factory.mktemp("elsewhere") / "under another name"
    return shutil.copytree(prefix, moved, symlinks=True)


def pkg_config(place: Path, *words: str) -> list[str]:
    import shlex

    return shlex.split(run("pkg-config", *words, "dryfit", PKG_CONFIG_PATH=place / "lib" / "pkgconfig"))


def needs(program: Path) -> bool:
    return "libdryfit.so.0" in run("readelf", "-d", program)


def test_pkg_config(place: Path, tmp_path: Path) -> None:
    assert pkg_config(place, "--modversion") == ["0.1.0"]
    program = tmp_path / "shared"
    run("gcc", "-std=c99", *STRICT, SOURCE, *pkg_config(place, "--cflags", "--libs"), "-o", program)
    assert needs(program)
    assert run(program, LD_LIBRARY_PATH=place / "lib") == SAYS
    # Nothing at all is left to be found at run time.
    program = tmp_path / "static"
    run("gcc", "-static", *STRICT, SOURCE, *pkg_config(place, "--static", "--cflags", "--libs"), "-o", program)
    assert "NEEDED" not in run("readelf", "-d", program)
    assert run(program) == SAYS


def cmake(place: Path, build: Path, *words: str) -> subprocess.CompletedProcess[str]:
    command = ["cmake", "-S", HERE / "consumer", "-B", build, f"-DCMAKE_PREFIX_PATH={place}", "-DCMAKE_C_FLAGS=-Wall -Wextra -Werror", *words]
    return subprocess.run(command, capture_output=True, text=True, timeout=PATIENCE)


def test_cmake(place: Path, tmp_path: Path) -> None:
    done = cmake(place, tmp_path)
    assert done.returncode == 0, done.stdout + done.stderr
    run("cmake", "--build", tmp_path)
    assert needs(tmp_path / "with-shared")
    assert not needs(tmp_path / "with-static")
    for program in ("with-shared", "with-static"):
        assert run(tmp_path / program) == SAYS


@pytest.mark.parametrize(
    ("wanted", "found"),
    [("0", True), ("0.1.0", True), ("0.1.0;EXACT", True), ("0.1.1", False), ("0.2", False), ("0.0.9", False), ("1", False)],
)
def test_cmake_takes_the_versions_that_serve(prefix: Path, tmp_path: Path, wanted: str, found: bool) -> None:
    done = cmake(prefix, tmp_path, f"-DWANTED={wanted}")
    assert (done.returncode == 0) is found
    assert found or "version: 0.1.0" in done.stderr


def test_cmake_names_the_file_that_is_gone(prefix: Path, tmp_path: Path) -> None:
    broken = shutil.copytree(prefix, tmp_path / "broken", symlinks=True)
    (broken / "lib" / "libdryfit.a").unlink()
    done = cmake(broken, tmp_path / "build")
    assert done.returncode != 0
    assert "libdryfit.a is not there; install dryfit again" in " ".join(done.stderr.split())


def test_meson(place: Path, tmp_path: Path) -> None:
    run("meson", "setup", tmp_path, HERE / "consumer", PKG_CONFIG_PATH=place / "lib" / "pkgconfig")
    run("meson", "compile", "-C", tmp_path)
    assert needs(tmp_path / "with-shared")
    assert not needs(tmp_path / "with-static")
    for program in ("with-shared", "with-static"):
        assert run(tmp_path / program) == SAYS
