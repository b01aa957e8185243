"""Builds the package with maturin, once Rust's cargo is known to be there. Without it maturin would download a toolchain by itself."""

import re
import shutil
from pathlib import Path

import maturin

HERE = Path(__file__).resolve().parent


def _need_cargo():
    if shutil.which("cargo"):
        return
    # In the repository the workspace says which Rust; in a source distribution it stands at the top.
    manifests = [folder / "Cargo.toml" for folder in HERE.parents[:3]]
    found = [re.search(r'rust-version = "([\d.]+)"', file.read_text(encoding="utf-8")) for file in manifests if file.is_file()]
    version = next((match[1] for match in found if match), "1.89")
    raise SystemExit(
        f"dryfit is built with Rust {version} or newer, and Rust's cargo was not found. "
        "Install Rust first (https://www.rust-lang.org/tools/install), or by the system's packages; then try again."
    )


def _checked(hook):
    def checked(*arguments, **named):
        _need_cargo()
        return hook(*arguments, **named)

    return checked


get_requires_for_build_wheel = _checked(maturin.get_requires_for_build_wheel)
get_requires_for_build_editable = _checked(maturin.get_requires_for_build_editable)
get_requires_for_build_sdist = _checked(maturin.get_requires_for_build_sdist)
prepare_metadata_for_build_wheel = _checked(maturin.prepare_metadata_for_build_wheel)
prepare_metadata_for_build_editable = _checked(maturin.prepare_metadata_for_build_editable)
build_wheel = _checked(maturin.build_wheel)
build_editable = _checked(maturin.build_editable)
build_sdist = _checked(maturin.build_sdist)
