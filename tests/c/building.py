"""Runs the tools, and says what they said when they fail."""

import os
import subprocess
from pathlib import Path

ROOT = Path(__file__).parents[2]
HERE = Path(__file__).parent
INCLUDE = ROOT / "ffi" / "include"
INSTALL = ROOT / "ffi" / "install"
# Seconds. However slow or busy the machine, only what hangs takes so long.
PATIENCE = 3000
STRICT = ["-Wall", "-Wextra", "-pedantic", "-Werror"]
STRICTER = [*STRICT, "-Wconversion", "-Wshadow"]


def run(*command: object, cwd: Path | None = None, **variables: object) -> str:
    """What the command prints; its words and status are the failure's message."""
    words = [str(word) for word in command]
    environment = {**os.environ, **{name: str(value) for name, value in variables.items()}}
    done = subprocess.run(words, cwd=cwd, env=environment, capture_output=True, text=True, errors="replace", stdin=subprocess.DEVNULL, timeout=PATIENCE)
    assert done.returncode == 0, f"{' '.join(words)}\nstatus {done.returncode}\n{(done.stderr + done.stdout)[:8000]}"
    return done.stdout


def cargo_rustc(*words: str, profile: str = "cabi", features: str = "host", **variables: object) -> list[Path]:
    """Builds the library without std as ffi/install does, in its own way; gives the files that cargo says it made."""
    base = ["cargo", "rustc", "--quiet", "--locked", "--profile", profile, "-p", "dryfit-ffi", "--lib", "--no-default-features"]
    told = run(*base, "--features", features, "--message-format", "json-render-diagnostics", *words, cwd=ROOT, **variables)
    return [Path(name) for line in told.splitlines() if '"name":"dryfit"' in line for name in line.split('"') if "/libdryfit." in name]
