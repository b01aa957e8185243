"""dryfit.hpp and its examples: compiled as strictly as can be, run under the sanitizers and under valgrind."""

from pathlib import Path

import dryfit
import pytest
from building import HERE, ROOT, STRICTER, run

EXAMPLES = ROOT / "ffi" / "examples"
WATCHED = {"ASAN_OPTIONS": "detect_stack_use_after_return=1:strict_string_checks=1"}


def built(watch, source: Path, *more: str) -> list[object]:
    """The words that run a program of C++."""
    program = watch.folder / source.stem
    run("g++", "-std=c++17", "-g", "-O1", *STRICTER, *watch.flags, *more, "-I", watch.include, source, watch.library, "-o", program)
    return [*watch.before, program]


@pytest.mark.parametrize("layer", [[], ["-DDRYFIT_HOST"]], ids=["bare", "host"])
def test_exceptions_callables_and_handles(watch, layer: list[str]) -> None:
    run(*built(watch, HERE / "programs" / "wrapper.cpp", *layer), **WATCHED)


@pytest.mark.parametrize("standard", ["c++17", "c++20", "c++23", "gnu++17"])
def test_the_header_is_of_its_own_and_may_stand_in_many_files(prefix: Path, tmp_path: Path, standard: str) -> None:
    one, other = tmp_path / "one.cpp", tmp_path / "other.cpp"
    one.write_text("#include <dryfit.hpp>\n#include <dryfit.hpp>\nbool other();\nint main() { return dryfit::fits_library() && other() ? 0 : 1; }\n")
    other.write_text("#include <dryfit.hpp>\nbool other();\nbool other() { return dryfit::fits_library(); }\n")
    program = tmp_path / "program"
    run("g++", f"-std={standard}", *STRICTER, "-DDRYFIT_HOST", "-I", prefix / "include", one, other, prefix / "lib" / "libdryfit.a", "-o", program)
    run(program)


def test_panel_is_that_of_c(watch, prefix: Path, tmp_path: Path) -> None:
    run("gcc", EXAMPLES / "panel.c", "-I", prefix / "include", prefix / "lib" / "libdryfit.a", "-o", tmp_path / "in-c")
    panel = built(watch, EXAMPLES / "cpp" / "panel.cpp")
    assert run(*panel, 110, 85, 60, 3, **WATCHED) == run(tmp_path / "in-c")
    with pytest.raises(AssertionError, match="status 1\nlength: a length is a number and a unit"):
        run(*panel, 110, 85, 60, "3 km", **WATCHED)
    with pytest.raises(AssertionError, match="status 2\nusage: "):
        run(*panel, **WATCHED)


def test_box_is_that_of_python(watch) -> None:
    stock = dryfit.Stock(thickness=3, sheet=(500, 350), border=8, gap=1)
    cutter = dryfit.Cutter.beam(kerf=0.2)
    parts = dryfit.box(outside=(110, 85, 60), stock=stock, top="open", dividers=(2, 0)).cut(cutter=cutter, fit=dryfit.Fit(cheek=0.05))
    [sheet] = parts.lay_out(stock).sheets
    assert run(*built(watch, EXAMPLES / "cpp" / "box.cpp", "-DDRYFIT_HOST"), **WATCHED) == sheet.gcode(motion=dryfit.Motion(cutter=cutter), title="Box")


@pytest.mark.parametrize(
    ("wrong", "words"),
    [
        ("dryfit::all<dryfit_nm>(dryfit_pattern, &joint, 2.5, length, &number)", "lengths are whole nanometres"),
        ("dryfit::all<dryfit_vertex>(dryfit_panel_vertices, &box, length)", "another type than in dryfit.h"),
        ("dryfit::all<dryfit_vertex>(dryfit_panel_vertices, static_cast<void *>(&box), 0)", "another type than in dryfit.h"),
        ("dryfit::all<dryfit_nm>(dryfit_panel_vertices, &box, 0)", "another type than in dryfit.h"),
        ("dryfit::call(dryfit_length_from_mm, 2.5)", "another number of arguments"),
        ("dryfit::call(dryfit_gcode_lift, static_cast<const dryfit_file *>(nullptr))", "another type than in dryfit.h"),
        ("dryfit::begin<dryfit::Hpgl>([](std::string_view) { return false; })", "what cannot write throws"),
    ],
)
def test_the_compiler_checks_arguments(prefix: Path, tmp_path: Path, wrong: str, words: str) -> None:
    source = tmp_path / "wrong.cpp"
    source.write_text(
        "#include <dryfit.hpp>\nvoid wrong();\nvoid wrong()\n{\n    dryfit_joint joint{};\n    dryfit_flat_box box{};\n    dryfit_nm length = 0;\n    uint32_t number = 0;\n"
        f"    {wrong};\n    (void)joint; (void)box; (void)length; (void)number;\n}}\n"
    )
    with pytest.raises(AssertionError, match=f"static assertion failed: .*{words}"):
        run("g++", "-std=c++17", "-fsyntax-only", "-I", prefix / "include", source)
