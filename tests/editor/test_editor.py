"""The extension in the editor, without a screen: what it draws, measured in mm, and one step to undo it.

A refusal is a window that waits for somebody to read it, so it is not tried here.
"""

import os
import shutil
import signal
import subprocess
from pathlib import Path

import pytest
from conftest import PATIENCE, drawn, same, wanted
from documents import DOCUMENTS
from lxml import etree

if not (shutil.which("inkscape") and shutil.which("xvfb-run")):
    pytest.skip("THE EDITOR IS NOT TESTED: it is not installed (tests/editor/install)", allow_module_level=True)

def edit(profile: Path, document: Path, *actions: str) -> str:
    """The document after some actions. The editor's status tells nothing, so only the file counts."""
    out = document.with_name("out.svg")
    told = ";".join([*actions, f"export-filename:{out}", "export-plain-svg", "export-do"])
    environment = {**os.environ, "INKSCAPE_PROFILE_DIR": str(profile), "PATH": "/usr/bin:/bin", "LC_ALL": "C"}
    command = ["xvfb-run", "-a", "inkscape", "--batch-process", f"--actions={told}", str(document)]
    with subprocess.Popen(command, env=environment, stdout=subprocess.PIPE, stderr=subprocess.STDOUT, text=True, start_new_session=True) as editor:
        try:
            said, _ = editor.communicate(timeout=PATIENCE)
        except subprocess.TimeoutExpired:
            # The display and the editor too.
            os.killpg(editor.pid, signal.SIGKILL)
            raise
    assert out.exists(), said
    return out.read_text()


@pytest.fixture(scope="module")
def profile(extension: Path) -> Path:
    """The editor's own folder, with the preferences that it makes itself: with others it asks questions that nobody answers."""
    (extension.parent / "in.svg").write_text(DOCUMENTS["mm"].text())
    edit(extension.parent, extension.parent / "in.svg")
    return extension.parent


@pytest.fixture
def editor(profile: Path, tmp_path: Path):
    """Runs actions on a document, with parameters as the dialogue keeps them; what the document is then."""

    def run(document: str, *actions: str, **parameters: object) -> str:
        preferences = etree.parse(profile / "preferences.xml")
        (extensions,) = preferences.xpath("//*[@id='extensions']")
        for name in [name for name in extensions.attrib if name.startswith("dryfit.")]:
            del extensions.attrib[name]
        extensions.attrib.update({f"dryfit.box.{name}": str(value) for name, value in parameters.items()})
        preferences.write(profile / "preferences.xml")
        (tmp_path / "in.svg").write_text(document)
        return edit(profile, tmp_path / "in.svg", *actions)

    return run


@pytest.mark.parametrize("kind", ["mm", "inch", "px", "in a scaled layer"])
def test_parts_measured_in_mm(kind: str, editor) -> None:
    made = editor(DOCUMENTS[kind].text(), "select-by-id:r", "dryfit.box.noprefs", other=70, thickness=3.2, kerf=0.2, keep=0)
    same(drawn(made), wanted((110, 85, 70), 3.2, 0.2))
    assert 'id="r"' not in made


def test_it_is_undone_and_done_again_as_one_step(editor) -> None:
    document = DOCUMENTS["mm"].text()
    undone = editor(document, "select-by-id:r", "dryfit.box.noprefs", "undo")
    assert drawn(undone) == [] and 'id="r"' in undone
    again = editor(document, "select-by-id:r", "dryfit.box.noprefs", "undo", "redo")
    same(drawn(again), wanted((110, 85, 60), 3, 0))
