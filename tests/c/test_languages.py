"""The library from other languages, which read the header themselves: the shared vectors come out equal, and so does a picture."""

import json
import shutil
import sys
from pathlib import Path

import pytest
from building import ROOT, run

EXAMPLES = ROOT / "ffi" / "examples"
VECTORS = ROOT / "tests" / "vectors"
# Python without any package: it needs none.
LANGUAGES = {"python": ([sys.executable, "-S"], EXAMPLES / "python_ctypes", ".py"), "luajit": (["luajit"], EXAMPLES / "luajit", ".lua")}


@pytest.fixture(params=LANGUAGES)
def example(request: pytest.FixtureRequest):
    """Runs an example in a language."""
    start, folder, ending = LANGUAGES[request.param]
    return lambda name, *words: run(*start, folder / f"{name}{ending}", *words)


def test_vectors_are_equal_to_the_nanometre(example, prefix: Path) -> None:
    lines = dict(line.split(": ") for line in example("vectors", prefix, VECTORS).splitlines())
    assert list(lines) == ["lengths", "patterns", "profiles", "boxes", "cuts"]
    counts = {file: [int(word) for word in words.replace(",", "").split() if word.isdigit()] for file, words in lines.items()}
    # All lengths; all but two patterns, of no fingers and of fingers of no width; all profiles.
    cases = {file: json.loads((VECTORS / f"{file}.json").read_text()) for file in lines}
    for file, left_out in (("lengths", 0), ("patterns", 2), ("profiles", 0)):
        assert counts[file] == [len(cases[file]) - left_out, sum("error" in case for case in cases[file]) - left_out]
    assert counts["boxes"][0] > 20 and counts["cuts"][0] > 5


@pytest.mark.parametrize(
    ("file", "old", "new"),
    [
        ("lengths", '"nm":2381250}', '"nm":2381251}'),
        ("lengths", '"nm":2381250}', '"error":true}'),
        ("patterns", '"first":"A","boundaries":[', '"first":"B","boundaries":['),
        ("profiles", '"vertices":[[0,0,"tip"]', '"vertices":[[0,0,"flank"]'),
        ("boxes", "[11545455,3000000]", "[11545455,3000001]"),
        ("cuts", "[-90000,-90000]", "[-90000,-90001]"),
    ],
)
def test_one_nanometre_is_seen(example, prefix: Path, tmp_path: Path, file: str, old: str, new: str) -> None:
    folder = shutil.copytree(VECTORS, tmp_path / "vectors")
    text = (folder / f"{file}.json").read_text()
    assert old in text
    (folder / f"{file}.json").write_text(text.replace(old, new, 1))
    with pytest.raises(AssertionError, match=f"status 1\n{file}: "):
        example("vectors", prefix, folder)


def test_draws_what_the_example_in_c_draws(example, prefix: Path, tmp_path: Path) -> None:
    run("gcc", EXAMPLES / "panel.c", "-I", prefix / "include", prefix / "lib" / "libdryfit.a", "-o", tmp_path / "panel")
    assert example("panel", prefix) == run(tmp_path / "panel")
