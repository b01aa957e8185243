"""What Python's ctypes makes of the header is what C makes of it; refusals and exceptions come through."""

import ctypes
import json
import shutil
import sys
from pathlib import Path

import pytest
from building import ROOT, run

sys.path.insert(0, str(ROOT / "ffi" / "examples" / "python_ctypes"))

from dryfit_c import Library, Refused  # noqa: E402


@pytest.fixture(scope="module")
def c(prefix: Path) -> Library:
    return Library(prefix)


def test_structs_lie_as_the_compiler_lays_them(c: Library, prefix: Path, tmp_path: Path) -> None:
    structs = {name: kind for name, kind in c._names.items() if isinstance(kind, type) and issubclass(kind, ctypes.Structure) and hasattr(kind, "_fields_")}
    assert len(structs) >= 10
    found = {name: [ctypes.sizeof(kind), ctypes.alignment(kind), *(getattr(kind, field[0]).offset for field in kind._fields_)] for name, kind in structs.items()}
    shown = [
        f'printf("\\"{name}\\": [%zu, %zu{", %zu" * len(kind._fields_)}]{{}}\\n", sizeof({name}), _Alignof({name})'
        + "".join(f", offsetof({name}, {field[0]})" for field in kind._fields_) + ");"
        for name, kind in structs.items()
    ]  # fmt: skip
    lines = [line.replace("{}", "," if at + 1 < len(shown) else "") for at, line in enumerate(shown)]
    source = tmp_path / "layout.c"
    source.write_text('#include <dryfit.h>\n#include <stdio.h>\nint main(void)\n{\nputs("{");\n' + "\n".join(lines) + '\nputs("}");\nreturn 0;\n}\n')
    run("gcc", "-std=c11", "-DDRYFIT_HOST", "-I", prefix / "include", source, "-o", tmp_path / "layout")
    assert found == json.loads(run(tmp_path / "layout"))


def test_a_field_that_there_is_not_is_refused(c: Library) -> None:
    assert c.dryfit_flat_box(top=c.DRYFIT_TOP_OPEN).top == c.DRYFIT_TOP_OPEN
    with pytest.raises(AttributeError, match="lid"):
        c.dryfit_flat_box(lid=1)


def test_every_function_is_known_to_it(c: Library, prefix: Path) -> None:
    symbols = run("nm", "-D", "--defined-only", prefix / "lib" / "libdryfit.so").splitlines()
    functions = {line.split()[-1] for line in symbols if " T dryfit_" in line}
    assert functions == {name for name, kind in c._names.items() if isinstance(kind, c._library._FuncPtr)}


def test_numbers_are_known_to_it(c: Library) -> None:
    assert (c.DRYFIT_MM, c.DRYFIT_INCH, c.DRYFIT_OUT_OF_RANGE, c.DRYFIT_VERSION) == (1_000_000, 25_400_000, 102, c.dryfit_version().decode())
    with pytest.raises(AttributeError, match="dryfit.h has no DRYFIT_NOTHING"):
        c.DRYFIT_NOTHING


def test_refusals_are_exceptions(c: Library) -> None:
    out = c.dryfit_nm()
    with pytest.raises(Refused, match="^length: 10001 mm given, allowed -10000 mm to 10000 mm$") as refused:
        c.call("dryfit_length_from_mm", 10_001.0, ctypes.byref(out))
    assert (refused.value.status, refused.value.parameter) == (c.DRYFIT_OUT_OF_RANGE, "length")
    with pytest.raises(Refused) as refused:
        c.call("dryfit_length_from_mm", 1.0, None)
    assert (refused.value.status, refused.value.parameter) == (c.DRYFIT_NULL_POINTER, "out")


def test_a_callback_s_own_number_comes_back(c: Library) -> None:
    edge = c.dryfit_edge(run=100 * c.DRYFIT_MM, thickness=3 * c.DRYFIT_MM, depth=3 * c.DRYFIT_MM)
    words = {5: "a callback returned 5", -7: "a callback returned -7", c.DRYFIT_OUT_OF_RANGE: "callback: the value lies outside the allowed range"}
    for number in words:
        each = c.dryfit_each_move(lambda _user, _move, number=number: number)
        with pytest.raises(Refused) as refused:
            c.call("dryfit_edge_moves", ctypes.byref(edge), each, None)
        assert (refused.value.status, refused.value.parameter, str(refused.value)) == (number, "callback", words[number])


def test_exceptions_go_through_c_and_stop_its_work(c: Library) -> None:
    edge = c.dryfit_edge(run=100 * c.DRYFIT_MM, thickness=3 * c.DRYFIT_MM, depth=3 * c.DRYFIT_MM)
    moves = []

    def third(move: object) -> None:
        moves.append(move.contents.to.x)
        if len(moves) == 3:
            raise KeyError("enough")

    with pytest.raises(KeyError, match="enough"), c.callback("dryfit_each_move", third) as each:
        c.call("dryfit_edge_moves", ctypes.byref(edge), each, None)
    assert len(moves) == 3


def test_a_header_of_another_abi_is_refused(prefix: Path, tmp_path: Path) -> None:
    other = shutil.copytree(prefix, tmp_path / "other", symlinks=True)
    header = other / "include" / "dryfit.h"
    header.write_text(header.read_text().replace("#define DRYFIT_ABI_VERSION 1", "#define DRYFIT_ABI_VERSION 2"))
    with pytest.raises(ImportError, match=r"dryfit.h is of ABI 2, the library of 1"):
        Library(other)
