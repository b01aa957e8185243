"""What the built libraries show to a linker."""

from pathlib import Path

import pytest
from building import HERE, run
from header import functions

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
    """Each with its own allocator and way to die; std in either would be met twice."""
    second = tmp_path / "libsecond.a"
    run("rustc", "--edition=2024", "--crate-type=staticlib", "-Cpanic=abort", "-Copt-level=s", "-Clto=fat", HERE / "second" / "second.rs", "-o", second)
    libraries = [prefix / "lib" / "libdryfit.a", second][::order]
    program = tmp_path / "both"
    run("gcc", "-Wall", "-Werror", "-I", prefix / "include", HERE / "second" / "both.c", *libraries, "-o", program)
    assert run(program) == "0.1.0, and 6 from the other\n"
