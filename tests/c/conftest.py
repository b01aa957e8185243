"""The library, installed once as users install it, and built once more with everything watched."""

from collections.abc import Sequence
from pathlib import Path

import pytest
from building import INSTALL, STRICTER, cargo_rustc, run


@pytest.fixture(scope="session")
def prefix(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """A prefix with the library installed. Its name has a space: so have users' folders."""
    place = tmp_path_factory.mktemp("the prefix")
    run(INSTALL, "--prefix", place)
    return place


@pytest.fixture(scope="session")
def watched() -> Path:
    """The static library whose every access to memory AddressSanitizer watches, and whose sums and unsafe calls are checked."""
    host = next(line.split()[1] for line in run("rustc", "-vV").splitlines() if line.startswith("host:"))
    checks = {f"CARGO_PROFILE_CABI_{check}": "true" for check in ("DEBUG_ASSERTIONS", "OVERFLOW_CHECKS")}
    made = cargo_rustc(
        "--target", host, "--crate-type", "staticlib",
        RUSTC_BOOTSTRAP=1, RUSTFLAGS="-Zsanitizer=address", CARGO_PROFILE_CABI_DEBUG="line-tables-only", **checks,
    )  # fmt: skip
    return next(path for path in made if path.suffix == ".a")


class Watch:
    """Compiles C against the library and runs it under watch; a wrong access, undefined behaviour and a leak are failures."""

    def __init__(self, library: Path, include: Path, flags: list[str], before: list[str], folder: Path) -> None:
        self.library, self.include, self.flags, self.before, self.folder = library, include, flags, before, folder
        self.quick = not before

    def build(self, source: Path, to: Path, more: Sequence[object] = ()) -> None:
        flags = ["-std=c11", "-g", "-O1", *STRICTER, *self.flags, "-DDRYFIT_HOST", "-I", self.include]
        run("gcc", *flags, source, self.library, *more, "-o", to)

    def __call__(self, source: Path, arguments: Sequence[object] = (), more: Sequence[object] = ()) -> str:
        program = self.folder / source.stem
        self.build(source, program, more)
        return run(*self.before, program, *arguments, ASAN_OPTIONS="detect_stack_use_after_return=1:strict_string_checks=1")


@pytest.fixture(params=["sanitizers", "valgrind"])
def watch(request: pytest.FixtureRequest, prefix: Path, tmp_path: Path) -> Watch:
    if request.param == "sanitizers":
        flags = ["-fsanitize=address,undefined", "-fno-sanitize-recover=all", "-fno-omit-frame-pointer"]
        return Watch(request.getfixturevalue("watched"), prefix / "include", flags, [], tmp_path)
    valgrind = ["valgrind", "-q", "--error-exitcode=99", "--leak-check=full", "--show-leak-kinds=all", "--errors-for-leak-kinds=all"]
    return Watch(prefix / "lib" / "libdryfit.a", prefix / "include", [], valgrind, tmp_path)
