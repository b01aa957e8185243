"""The extension by the editor's own helpers for tests, without the editor."""

import subprocess
import sys
from pathlib import Path

import pytest

pytest.importorskip("inkex")

import inkex  # noqa: E402
from conftest import PATIENCE, drawn, same, wanted  # noqa: E402
from documents import DOCUMENTS, Document  # noqa: E402
from inkex.tester import TestCase  # noqa: E402
from inkex.tester.inx import InxMixin  # noqa: E402
from lxml import etree  # noqa: E402


class Helped(InxMixin, TestCase):
    """What inkex brings to try an effect."""

    def runTest(self) -> None:
        """One is asked for."""


@pytest.fixture
def helped(extension: Path) -> Helped:
    from dryfit_box import Box

    case = Helped()
    case.effect_class = Box
    case.setUp()
    return case


@pytest.fixture
def drawing(tmp_path: Path):
    """Writes a document of a kind."""

    def write(document: Document | str) -> str:
        path = tmp_path / "in.svg"
        path.write_text(document if isinstance(document, str) else document.text())
        return str(path)

    return write


def text(effect: inkex.EffectExtension) -> str:
    return etree.tostring(effect.document, encoding="unicode")


@pytest.mark.parametrize("kind", DOCUMENTS)
@pytest.mark.parametrize("kerf", [0, 0.2])
def test_parts_are_those_of_the_package(kind: str, kerf: float, helped: Helped, drawing) -> None:
    effect = helped.assertEffect(drawing(DOCUMENTS[kind]), id="r", args=[f"--kerf={kerf}"])
    same(drawn(text(effect)), wanted((110, 85, 60), 3, kerf))


def test_all_parameters(helped: Helped, drawing) -> None:
    args = ["--face=front", "--other=75.5", "--thickness=4.2", "--finger_width=9", "--closed=false", "--kerf=0.15", "--gap=8"]
    effect = helped.assertEffect(drawing(DOCUMENTS["inch"]), id="r", args=args)
    same(drawn(text(effect)), wanted((110, 75.5, 85), 4.2, 0.15, finger_width=9, top="open"))


def group(effect: inkex.EffectExtension) -> inkex.Group:
    (made,) = [element for element in effect.svg.descendants() if element.get_id().startswith("cut-outer")]
    return made


@pytest.mark.parametrize("keep", [True, False])
def test_one_group_is_added_and_the_rectangle_kept_or_not(keep: bool, helped: Helped, drawing) -> None:
    effect = helped.assertEffect(drawing(DOCUMENTS["in a scaled layer"]), id="r", args=[f"--keep={str(keep).lower()}"])
    layer = effect.svg.getElementById("layer")
    made = group(effect)
    assert list(layer) == ([layer[0], made] if keep else [made])
    assert (effect.svg.getElementById("r") is not None) == keep
    assert [path.label for path in made] == ["front", "back", "left", "right", "base", "top"]
    assert made.label == "Box 110 x 85 x 60 mm, board 3 mm, kerf 0 mm"
    # Nothing else is touched.
    assert effect.svg.getElementById("c").get("r") == "3" and len(effect.svg) == 2
    ids = [element.get_id() for element in effect.svg.descendants()]
    assert len(ids) == len(set(ids))


@pytest.mark.parametrize("kind", ["mm", "inch", "in a scaled layer", "moved"])
def test_parts_lie_beside_the_rectangle_or_in_its_place_and_apart(kind: str, helped: Helped, drawing) -> None:
    per_mm = 2 if kind == "in a scaled layer" else DOCUMENTS[kind].per_mm
    for keep in (True, False):
        effect = helped.assertEffect(drawing(DOCUMENTS[kind]), id="r", args=[f"--keep={str(keep).lower()}", "--kerf=0.4", "--gap=6"])
        rectangle = inkex.load_svg(drawing(DOCUMENTS[kind])).getroot().getElementById("r")
        around = rectangle.bounding_box(rectangle.getparent().composed_transform())
        made = group(effect)
        boxes = [path.bounding_box(made.composed_transform()) for path in made]
        left, top = min(box.left for box in boxes), min(box.top for box in boxes)
        # The cut is half the kerf outside the part.
        assert left == pytest.approx((around.right + 6 * per_mm if keep else around.left) - 0.2 * per_mm, abs=1e-4)
        assert top == pytest.approx(around.top - 0.2 * per_mm, abs=1e-4)
        assert boxes[1].left - boxes[0].right == pytest.approx(6 * per_mm, abs=1e-4)
        assert boxes[2].top - boxes[0].bottom == pytest.approx(6 * per_mm, abs=1e-4)


def test_a_group_within_a_group_keeps_its_size(helped: Helped, drawing) -> None:
    nested = '<svg xmlns="http://www.w3.org/2000/svg" width="300mm" height="200mm" viewBox="0 0 300 200"><g transform="scale(-2,0.5)"><g transform="translate(3,4)"><rect id="r" x="1" y="2" width="55" height="170"/></g></g></svg>'
    effect = helped.assertEffect(drawing(nested), id="r")
    same(drawn(text(effect)), wanted((110, 85, 60), 3, 0))


PLAIN = '<svg xmlns="http://www.w3.org/2000/svg" width="300mm" height="200mm" viewBox="0 0 300 200">{}</svg>'
RECTANGLE = '<rect id="r" width="110" height="85" {}/>'
MM = PLAIN.format(RECTANGLE.format(""))

REFUSED = {
    "nothing": (MM, [], "Nothing is selected: select one rectangle, whose size is the outside of the box."),
    "two": (PLAIN.format(RECTANGLE.format("") + '<rect id="c" width="9" height="9"/>'), ["--id=r", "--id=c"], "2 objects are selected: select one rectangle, whose size is the outside of the box."),
    "no rectangle": (PLAIN.format('<circle id="r" r="30"/>'), ["--id=r"], "What is selected is no rectangle but a circle: select one rectangle, made with the tool for rectangles."),
    "rotated": (PLAIN.format(RECTANGLE.format('transform="rotate(10)"')), ["--id=r"], "The rectangle is rotated or skewed: its sides must run along those of the page."),
    "skewed": (PLAIN.format(f'<g transform="skewX(5)">{RECTANGLE.format("")}</g>'), ["--id=r"], "The rectangle is rotated or skewed: its sides must run along those of the page."),
    "a drawing in it": (PLAIN.format(f'<svg viewBox="0 0 9 9" width="30" height="30">{RECTANGLE.format("")}</svg>'), ["--id=r"], "The rectangle lies in a drawing within the drawing, which has a scale of its own."),
    "stretched": (MM.replace("viewBox", 'preserveAspectRatio="none" viewBox').replace("300mm", "400mm"), ["--id=r"], "The document is stretched: its viewBox is scaled differently along x and y."),
    "too thick": (MM, ["--id=r", "--thickness=60"], "This box cannot be made.\noutside x: 110 mm given, allowed 120.000001 mm to 10000 mm: two walls and the space between them do not fit the size"),
    "no thickness": (MM, ["--id=r", "--thickness=0"], "This box cannot be made.\nthickness: 0 mm given, allowed "),
    "too long": (MM, ["--id=r", "--other=20000"], "This box cannot be made.\nother: 20000 mm given, allowed -10000 mm to 10000 mm"),
    "no number": (MM, ["--id=r", "--kerf=nan"], "This box cannot be made.\nkerf: "),
    "kerf": (MM, ["--id=r", "--kerf=21"], "This box cannot be made.\nkerf: 21 mm given, allowed 0 mm to 20 mm"),
    "fingers": (MM, ["--id=r", "--finger_width=-3"], "This box cannot be made.\n"),
    "gap": (MM, ["--id=r", "--gap=-1"], "This box cannot be made.\ngap: -1 mm given, allowed 0 mm to 10000 mm"),
    "empty": (PLAIN.format('<rect id="r" width="0" height="85"/>'), ["--id=r"], "This box cannot be made.\noutside x: 0 mm given, allowed "),
}


def ran(extension: Path, path: str, *args: str, **environment: str) -> "subprocess.CompletedProcess[str]":
    """As the editor runs it."""
    return subprocess.run([sys.executable, extension / "dryfit_box.py", *args, path], capture_output=True, text=True, timeout=PATIENCE, env=environment or None)


@pytest.mark.parametrize("case", REFUSED)
def test_refusals_are_words_and_no_document(case: str, extension: Path, drawing) -> None:
    document, args, words = REFUSED[case]
    done = ran(extension, drawing(document), *args)
    assert done.stdout == "" and done.returncode == inkex.utils.ABORT_STATUS % 256
    assert done.stderr.startswith(words) and "Traceback" not in done.stderr, done.stderr


def test_a_missing_library_is_said_with_the_places(extension: Path, drawing, tmp_path: Path) -> None:
    done = ran(extension, drawing(MM), "--id=r", DRYFIT_PREFIX=str(tmp_path / "nowhere"))
    assert done.returncode == inkex.utils.ABORT_STATUS % 256
    assert done.stderr.startswith(f"libdryfit is not installed. Looked for:\n    {tmp_path}/nowhere/lib/libdryfit.so.0\n")


@pytest.mark.filterwarnings("ignore:The .non-ISO. Schematron:DeprecationWarning")
def test_the_dialogue_has_the_parameters_of_the_program(helped: Helped, extension: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.chdir(extension)
    helped.assertInxIsGood(str(extension / "dryfit_box.inx"))
    inx = etree.parse(extension / "dryfit_box.inx")
    named = {param.get("name") for param in inx.iter("{*}param")}
    assert named == {"face", "other", "thickness", "finger_width", "kerf", "gap", "closed", "keep"}


def test_files_without_a_unit_are_pixels(helped: Helped, drawing) -> None:
    for head in ('viewBox="0 0 1200 800"', 'width="100%" height="100%" viewBox="0 0 1200 800"', ""):
        effect = helped.assertEffect(drawing(Document(head, 96 / 25.4)), id="r")
        found = group(effect)[0].bounding_box(group(effect).composed_transform())
        assert (found.width, found.height) == pytest.approx((110 * 96 / 25.4, 60 * 96 / 25.4), abs=1e-4)
