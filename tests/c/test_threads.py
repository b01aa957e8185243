"""What the contract says many threads may read, many threads read, while a race detector looks on."""

from pathlib import Path

import pytest
from building import HERE, STRICTER, run


def program(prefix: Path, to: Path, *more: str) -> list[object]:
    flags = ["-std=c11", "-g", "-O1", *STRICTER, "-DDRYFIT_HOST", *more, "-I", prefix / "include"]
    run("gcc", *flags, HERE / "programs" / "threads.c", prefix / "lib" / "libdryfit.a", "-lpthread", "-o", to)
    return ["valgrind", "-q", "--tool=helgrind", "--error-exitcode=9", to]


def test_readers_do_not_meet(prefix: Path, tmp_path: Path) -> None:
    assert run(*program(prefix, tmp_path / "threads")) == "0\n"


def test_writers_would_be_seen(prefix: Path, tmp_path: Path) -> None:
    with pytest.raises(AssertionError, match=r"Possible data race(.|\n)*dryfit_assembly_add"):
        run(*program(prefix, tmp_path / "threads", "-DRACE"))
