"""What the built libraries show to a linker."""

import sys
from pathlib import Path

import pytest
from building import HERE, STRICT, run
from header import constants, functions

COMMITTED = (HERE / "symbols.txt").read_text().split()


def test_the_list_is_what_the_header_declares() -> None:
    assert COMMITTED == sorted(functions())


def exported(library: Path, *words: str) -> list[str]:
    return sorted(line.split()[-1] for line in run("nm", *words, "--defined-only", "--extern-only", library).splitlines() if line)


def test_the_shared_library_exports_the_list_and_nothing_else(prefix: Path) -> None:
    assert exported(prefix / "lib" / "libdryfit.so", "-D") == COMMITTED


def test_the_static_library_has_them_all(prefix: Path) -> None:
    assert set(COMMITTED) <= set(exported(prefix / "lib" / "libdryfit.a"))


def test_the_loader_finds_it_by_its_soname_and_loads_nothing_but_libc(prefix: Path) -> None:
    lines = run("readelf", "-d", prefix / "lib" / "libdryfit.so").splitlines()
    assert [line.split()[-1] for line in lines if "(SONAME)" in line] == ["[libdryfit.so.0]"]
    assert [line.split()[-1] for line in lines if "(NEEDED)" in line] == ["[libc.so.6]"]


def test_it_asks_libc_for_memory_and_little_more(prefix: Path) -> None:
    lines = run("nm", "-D", "--undefined-only", prefix / "lib" / "libdryfit.so").splitlines()
    wanted = {line.split()[-1].split("@")[0] for line in lines if line.split()[-2] == "U"}
    memory = {"malloc", "calloc", "realloc", "free", "posix_memalign", "aligned_alloc", "abort"}
    assert wanted <= memory | {"memcpy", "memmove", "memset", "memcmp", "bcmp", "strlen"}


@pytest.mark.parametrize("order", [1, -1], ids=["first", "last"])
def test_two_rust_libraries_in_one_program(prefix: Path, tmp_path: Path, order: int) -> None:
    """Without std each has its own heap and its own way to die, under names that must not clash."""
    small = [f"-C{option}" for option in ("panic=abort", "opt-level=s", "lto=fat")]
    program = with_another(prefix, tmp_path, "second", small, [], order)
    assert run(program) == "6 boards, and 6 from the other\n"


@pytest.mark.parametrize("order", [1, -1], ids=["first", "last"])
def test_a_rust_library_that_unwinds_still_does(prefix: Path, tmp_path: Path, order: int) -> None:
    needs = ["-lgcc_s", "-lutil", "-lrt", "-lpthread", "-lm", "-ldl"]
    program = with_another(prefix, tmp_path, "unwinds", ["-Copt-level=2"], needs, order)
    assert run(program) == "6 boards, and 6 from the other\n"
    assert run(program, "too many") == "6 boards, and 7 from the other\n"


def with_another(prefix: Path, folder: Path, name: str, options: list[str], needs: list[str], order: int) -> Path:
    other, program = folder / f"lib{name}.a", folder / name
    run("rustc", "--edition=2024", "--crate-type=staticlib", *options, HERE / "second" / f"{name}.rs", "-o", other)
    libraries = [prefix / "lib" / "libdryfit.a", other][::order]
    run("gcc", "-Wall", "-Werror", "-DDRYFIT_HOST", "-I", prefix / "include", HERE / "second" / "both.c", *libraries, *needs, "-o", program)
    return program


@pytest.mark.parametrize("library", ["libdryfit.a", "libdryfit.so"])
def test_cpp_still_throws(prefix: Path, tmp_path: Path, library: str) -> None:
    program = tmp_path / "throws"
    run("g++", "-std=c++17", *STRICT, "-I", prefix / "include", HERE / "second" / "throws.cpp", prefix / "lib" / library, "-o", program)
    assert run(program, LD_LIBRARY_PATH=prefix / "lib") == "length, 2 cleaned\n"


def test_it_is_opened_without_any_other_library(prefix: Path) -> None:
    """As by the loader of a language that brings nothing: every name is bound at once."""
    opened = "import ctypes, os, sys; print(ctypes.CDLL(sys.argv[1], mode=os.RTLD_NOW).dryfit_abi_version())"
    assert run(sys.executable, "-c", opened, prefix / "lib" / "libdryfit.so").strip() == constants()["DRYFIT_ABI_VERSION"]
