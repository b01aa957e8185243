"""The page for C's users: its commands run as they stand and say what it says they say, and it leaves no function out."""

import itertools
import os
import re
import shlex
from pathlib import Path

import pytest
from building import ROOT, STRICT, run
from header import HEADER, functions

PAGE = ROOT / "ffi" / "README.md"
BLOCKS = re.findall(r"^```(\w+)\n(.*?)^```$", PAGE.read_text(encoding="utf-8"), re.MULTILINE | re.DOTALL)
SOURCES = [text for kind, text in BLOCKS if kind == "c"]


@pytest.fixture(scope="module")
def dialogue(tmp_path_factory: pytest.TempPathFactory) -> list[tuple[str, str]]:
    """What each block of commands printed, beside what the page says. One shell does them all; programs are saved where it stands when they come."""
    home, told = tmp_path_factory.mktemp("home"), tmp_path_factory.mktemp("told")
    script = ["set -euo pipefail"]
    for number, (kind, text) in enumerate(BLOCKS):
        if kind == "sh":
            script.append(f"{{\n{text}}} >{shlex.quote(str(told / str(number)))}")
        elif kind == "c" and (name := re.match(r"/\* (\w+\.c): ", text)):
            script.append(f"cat >{name[1]} <<'END OF {name[1]}'\n{text}END OF {name[1]}")
    # Rust finds its own things below the real home.
    kept = {name: os.environ.get(name, str(Path.home() / folder)) for name, folder in (("CARGO_HOME", ".cargo"), ("RUSTUP_HOME", ".rustup"))}
    run("bash", "-c", "\n".join(script), cwd=ROOT, HOME=home, **kept)
    following = itertools.zip_longest(BLOCKS, BLOCKS[1:], fillvalue=("", ""))
    return [((told / str(number)).read_text(), after[1] if after[0] == "text" else "") for number, (block, after) in enumerate(following) if block[0] == "sh"]


def test_commands_say_what_the_page_says(dialogue: list[tuple[str, str]]) -> None:
    assert len(dialogue) >= 4
    assert sum(bool(wanted) for _, wanted in dialogue) >= 3
    for said, wanted in dialogue:
        assert said == wanted


@pytest.mark.parametrize("standard", ["c99", "c11", "c17"])
@pytest.mark.parametrize("source", SOURCES, ids=lambda text: text.splitlines()[0][:20])
def test_programs_are_clean(source: str, standard: str, prefix: Path, tmp_path: Path) -> None:
    (tmp_path / "source.c").write_text(source)
    run("gcc", f"-std={standard}", *STRICT, "-fsyntax-only", "-I", prefix / "include", tmp_path / "source.c")


def test_the_front_page_s_program(prefix: Path, tmp_path: Path) -> None:
    [source] = re.findall(r"^```c\n(.*?)^```$", (ROOT / "README.md").read_text(encoding="utf-8"), re.MULTILINE | re.DOTALL)
    (tmp_path / "edge.c").write_text(source)
    run("gcc", "-std=c99", *STRICT, "-I", prefix / "include", tmp_path / "edge.c", prefix / "lib" / "libdryfit.a", "-o", tmp_path / "edge")
    # An inch is 96 pixels: the run is 4 inches long, and a finger a fifth of that; y points down.
    assert run(tmp_path / "edge") == "M0 0H76.8V-11.338583H153.6V0H230.4V-11.338583H307.2V0H384"


def test_every_block_is_of_a_known_kind() -> None:
    assert {kind for kind, _ in BLOCKS} == {"c", "sh", "text"}
    assert len(SOURCES) >= 4


def test_links_lead_somewhere() -> None:
    links = re.findall(r"\]\(([^)#]+)\)", PAGE.read_text(encoding="utf-8"))
    assert links
    assert [link for link in links if not (PAGE.parent / link).exists()] == []


def named(page: str) -> set[str]:
    """The functions that the page names; {a,b} stands for either."""
    found = set()
    for word in re.findall(r"`(dryfit_[\w{},]+)`", page):
        parts = [part[1:-1].split(",") if part.startswith("{") else [part] for part in re.findall(r"\{[^}]*\}|[^{}]+", word)]
        found |= {"".join(choice) for choice in itertools.product(*parts)}
    return found


def test_who_owns_what_leaves_no_function_out() -> None:
    rows = PAGE.read_text(encoding="utf-8").split("### Who owns what")[1].split("###")[0]
    assert named(rows) == set(functions())


COMMENTED = re.findall(r"/\*\*((?:(?!\*/).)*)\*/\s*DRYFIT_API[^;/(]*?\b(dryfit_\w+)\s*\(", HEADER.read_text(), re.DOTALL)
COMMENTS = {name: comment for comment, name in COMMENTED}


@pytest.mark.parametrize("name", sorted(functions()))
def test_header_says_who_owns_what_and_which_threads_may(name: str) -> None:
    function = functions()[name]
    assert "Threads: " in COMMENTS[name]
    if "*" in function.result or any(parameter.is_pointer for parameter in function.parameters):
        assert "Ownership: " in COMMENTS[name]
    if function.result == "dryfit_status":
        assert "Errors: " in COMMENTS[name]
