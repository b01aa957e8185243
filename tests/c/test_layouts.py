"""Both languages lay the structs out as the one table says: Rust asserts it in every build, C here."""

import platform
import shutil
from pathlib import Path

import pytest
from building import INCLUDE, run
from header import structs
from layouts import TABLE, assertions, table, written

CHIPS = {
    "this machine": (64, ["gcc"]),
    # As on i386, but with eight-byte numbers on eight-byte bounds, as every 32-bit chip of today has them.
    "32 bits": (32, ["gcc", "-m32", "-malign-double"]),
    "Cortex-M4": (32, ["arm-none-eabi-gcc", "-mcpu=cortex-m4", "-mthumb"]),
    "RV32IMAC": (32, ["riscv64-unknown-elf-gcc", "-march=rv32imac", "-mabi=ilp32"]),
}


def test_every_struct_with_every_field_stands_in_the_table() -> None:
    assert {name: list(fields) for name, (_, _, _, fields) in table().items()} == {name: list(fields) for name, fields in structs().items()}


def test_the_table_is_what_the_header_gives() -> None:
    assert TABLE.read_text() == written()


@pytest.mark.parametrize("chip", CHIPS)
def test_c_lays_them_out_so(chip: str, tmp_path: Path) -> None:
    bits, compiler = CHIPS[chip]
    if shutil.which(compiler[0]) is None or ("-m32" in compiler and platform.machine() != "x86_64"):
        pytest.skip(f"{compiler[0]} is not there, or not for this")
    source = tmp_path / "layouts.c"
    source.write_text(assertions(bits))
    assert source.read_text().count("_Static_assert") > 3
    run(*compiler, "-std=c11", "-ffreestanding", "-Wall", "-Werror", "-DDRYFIT_HOST", "-I", INCLUDE, "-fsyntax-only", source)
