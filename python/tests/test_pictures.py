"""The picture in the README is what the demo's job makes today."""

import pathlib

from dryfit.__main__ import main

PYTHON = pathlib.Path(__file__).resolve().parent.parent


def test_the_readme_shows_what_the_demo_makes(tmp_path: pathlib.Path) -> None:
    assert main(["job", str(PYTHON / "demo-job" / "cabinet.toml"), "--out", str(tmp_path)]) == 0
    name = "drawer-exploded.svg"
    assert (tmp_path / name).read_bytes() == (PYTHON / "demo-job" / "pictures" / name).read_bytes()
    assert f"python/demo-job/pictures/{name}" in (PYTHON.parent / "README.md").read_text(encoding="utf-8")
