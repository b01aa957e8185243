"""The header by itself: every standard, every warning, and the versions that it tells."""

import shutil
from pathlib import Path

import pytest
from building import INCLUDE, STRICT, STRICTER, run
from header import constants

COMPILERS = [compiler for compiler in ("gcc", "clang") if shutil.which(compiler)]
C = ["c99", "c11", "c17", "gnu2x"]
CPP = ["c++11", "c++17", "c++20"]


@pytest.mark.parametrize("layer", [[], ["-DDRYFIT_HOST"]], ids=["bare", "host"])
@pytest.mark.parametrize("standard", C + CPP)
@pytest.mark.parametrize("compiler", COMPILERS)
def test_every_standard(compiler: str, standard: str, layer: list[str], tmp_path: Path) -> None:
    language, more = ("c++", []) if standard in CPP else ("c", ["-Wc++-compat", "-Wstrict-prototypes"])
    # First of all headers, so that it brings what it needs; and twice.
    source = tmp_path / "source"
    source.write_text('#include <dryfit.h>\n#include <dryfit.h>\nconst char *version(void);\nconst char *version(void) { return dryfit_version(); }\n')
    run(compiler, "-x", language, f"-std={standard}", *STRICTER, *more, *layer, "-I", INCLUDE, "-fsyntax-only", source)


@pytest.mark.parametrize("layer", [[], ["-DDRYFIT_HOST"]], ids=["bare", "host"])
def test_a_chip_without_c_library(layer: list[str]) -> None:
    run("gcc", "-x", "c", "-std=c99", *STRICT, "-ffreestanding", "-m32", "-malign-double", *layer, "-fsyntax-only", INCLUDE / "dryfit.h")


def test_one_version_four_times() -> None:
    told = constants()
    parts = [told[f"DRYFIT_VERSION_{part}"] for part in ("MAJOR", "MINOR", "PATCH")]
    assert told["DRYFIT_VERSION"] == f'"{".".join(parts)}"'
    manifest = (INCLUDE.parents[1] / "Cargo.toml").read_text()
    assert f'\nversion = {told["DRYFIT_VERSION"]}\n' in manifest
    # That the library itself tells the same, the consumer asks while it runs.
