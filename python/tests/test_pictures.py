"""The pictures in the README are what the demo's job and the gallery's examples make today."""

import pathlib
import runpy

from dryfit.__main__ import main

PYTHON = pathlib.Path(__file__).resolve().parent.parent


def test_the_readme_shows_what_the_demo_makes(tmp_path: pathlib.Path) -> None:
    assert main(["job", str(PYTHON / "demo-job" / "cabinet.toml"), "--out", str(tmp_path)]) == 0
    name = "drawer-exploded.svg"
    assert (tmp_path / name).read_bytes() == (PYTHON / "demo-job" / "pictures" / name).read_bytes()
    assert f"python/demo-job/pictures/{name}" in (PYTHON.parent / "README.md").read_text(encoding="utf-8")


def test_the_gallery_shows_what_its_examples_make() -> None:
    gallery = PYTHON / "gallery"
    made = runpy.run_path(str(gallery / "draw.py"))["pictures"]()
    kept = {file.stem: file.read_text(encoding="utf-8") for file in (gallery / "pictures").glob("*.svg")}
    assert made == kept
    readme = (PYTHON.parent / "README.md").read_text(encoding="utf-8")
    assert [name for name in made if f"python/gallery/pictures/{name}.svg" not in readme] == []
    assert [name for name in made if f"python/gallery/examples/{name}.py" not in readme] == []
