"""Builds the library and images for the boards, and the same service for the host."""

import functools
import os
import shutil
import subprocess
from pathlib import Path

HERE = Path(__file__).parent
ROOT = HERE.parent.parent
INCLUDE = ROOT / "ffi" / "include"
TARGET = Path(os.environ.get("CARGO_TARGET_DIR", ROOT / "target")) / "firmware"

# A panic that can be reached calls a function that does not exist, so that no image links.
FEATURES = ("--no-default-features", "--features", "bare,prove-no-panic")
# One kind of library: beside others, cargo does not optimise the whole.
CARGO = ("rustc", "--quiet", "--locked", "--profile", "chip", "-p", "dryfit-ffi", "--lib", "--crate-type", "staticlib", *FEATURES, "--target-dir", str(TARGET))
C = ("-std=c11", "-Os", "-g", "-Wall", "-Wextra", "-Wpedantic", "-Werror", f"-I{INCLUDE}", f"-I{HERE / 'boards'}", f"-I{HERE / 'src'}")
# No C library at all: what the compiler calls of its own, memcpy for instance, the library brings along.
FREESTANDING = ("-ffreestanding", "-nostdlib", "-ffunction-sections", "-fdata-sections", "-Wl,--gc-sections", "-Wl,-z,noexecstack", f"-L{HERE / 'boards'}")


def run(command, **options):
    done = subprocess.run([str(part) for part in command], cwd=ROOT, capture_output=True, text=True, **options)
    assert done.returncode == 0, f"{' '.join(str(part) for part in command)}\n{done.stdout}{done.stderr}"
    return done.stdout


def compiler():
    return run(["/usr/bin/rustc", "--version"]).strip()


@functools.cache
def library(board):
    """The archive for a board, made by Debian's own compiler: it is the one that comes with the source of core."""
    environment = dict(os.environ, RUSTC="/usr/bin/rustc", RUSTC_BOOTSTRAP="1", PATH="/usr/bin:/bin")
    environment.pop("RUSTUP_TOOLCHAIN", None)
    run(["/usr/bin/cargo", *CARGO, "-Zbuild-std=core", "--target", board.triple], env=environment)
    # Out of the way of builds with other features, which go to the same place.
    kept = TARGET / "images" / board.name / "libdryfit.a"
    kept.parent.mkdir(parents=True, exist_ok=True)
    return Path(shutil.copy(TARGET / board.triple / "chip" / "libdryfit.a", kept))


def image(board, name, sources, archive, more=()):
    """Links an image, with a map beside it."""
    out = TARGET / "images" / board.name / f"{name}.elf"
    parts = [HERE / "boards" / source for source in board.sources]
    link = ("-T", board.script, f"-Wl,-Map={out.with_suffix('.map')}", "-o", out)
    run([f"{board.prefix}gcc", *board.flags, *C, *FREESTANDING, *sources, *parts, archive, *more, *link])
    return out


def host(name, sources):
    """The same sources for the host, with the sanitizers' eyes on the C side."""
    run(["cargo", *CARGO])
    out = TARGET / "images" / f"host-{name}"
    out.parent.mkdir(parents=True, exist_ok=True)
    watch = ("-fsanitize=address,undefined", "-fno-sanitize-recover=all")
    run(["cc", *C, *watch, *sources, HERE / "boards" / "host.c", TARGET / "chip" / "libdryfit.a", "-o", out])
    return out
