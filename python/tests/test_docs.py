"""Every public docstring: what, parameters, shapes, units, errors, and an example that runs."""

import ast
import doctest
import importlib
import inspect
import pkgutil
import re
import tomllib
from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path
from types import ModuleType
from typing import Any

import dryfit as df
import pytest
from conftest import ROOT

STUB = ast.parse((Path(df.__file__).parent / "_dryfit.pyi").read_text(encoding="utf-8"))
UNIT = re.compile(r"\b(mm|minutes?|seconds?|degrees|nanometres|a second|share|turns)\b|mm/s")
LENGTHS = re.compile(r"_Length|_Floats|float")
NAMES = dict(vars(df))
EXTRAS = tomllib.loads((ROOT / "python" / "pyproject.toml").read_text(encoding="utf-8"))["project"]["optional-dependencies"]


@dataclass(frozen=True)
class Public:
    """Something public: its path, what it is, its own part of the stub, and its docstring."""

    path: str
    node: ast.FunctionDef | ast.ClassDef
    doc: str

    def __str__(self) -> str:
        return self.path


def described(node: ast.AST, owner: Any, path: str) -> Iterator[Public]:
    for child in ast.iter_child_nodes(node):
        if isinstance(child, ast.FunctionDef | ast.ClassDef) and not child.name.startswith("_"):
            value = getattr(owner, child.name)
            yield Public(f"{path}{child.name}", child, value.__doc__ or "")
            if isinstance(child, ast.ClassDef):
                yield from described(child, value, f"{child.name}.")


# Overloads are one.
PUBLIC = {public.path: public for public in described(STUB, df, "")}.values()
ERRORS = [public for public in PUBLIC if "." not in public.path and issubclass(type(getattr(df, public.path)), type) and issubclass(getattr(df, public.path), Exception)]
PROPERTIES = [public for public in PUBLIC if any(isinstance(mark, ast.Name) and mark.id == "property" for mark in public.node.decorator_list)]
OTHERS = [public for public in PUBLIC if public not in ERRORS and public not in PROPERTIES]


def parameters(node: ast.FunctionDef | ast.ClassDef) -> list[ast.arg]:
    """Of a function, or of what makes a class."""
    if isinstance(node, ast.ClassDef):
        made = [child for child in node.body if isinstance(child, ast.FunctionDef) and child.name == "__new__"]
        return parameters(made[-1])[:] if made else []
    args = node.args
    return [arg for arg in (*args.posonlyargs, *args.args, *args.kwonlyargs) if arg.arg not in ("self", "cls")]


def sentences(doc: str) -> str:
    """The words without the example."""
    return " ".join(line for line in doc.splitlines() if not line.lstrip().startswith((">>>", "...")))


def test_all_kinds_are_there() -> None:
    assert len(ERRORS) > 50 and len(PROPERTIES) > 100 and len(OTHERS) > 50


@pytest.mark.parametrize("public", OTHERS, ids=str)
def test_classes_functions_and_methods_say_what_with_what_and_show_it(public: Public) -> None:
    assert public.doc[:1].isupper(), "what it is"
    assert ">>>" in public.doc, "an example"
    given = parameters(public.node)
    said = sentences(public.doc)
    missing = [arg.arg for arg in given if f"``{arg.arg}``" not in said]
    assert not missing, f"parameters: {missing}"
    if any(re.search("_Length", ast.unparse(arg)) for arg in given):
        assert UNIT.search(said), "units"
    if given:
        assert "Raises" in said, "errors"


@pytest.mark.parametrize("public", PROPERTIES, ids=str)
def test_properties_say_what_in_which_unit_and_shape(public: Public) -> None:
    assert public.doc[:1].isupper() or public.doc[:1] == '"', "what it is"
    assert isinstance(public.node, ast.FunctionDef) and public.node.returns
    kind = ast.unparse(public.node.returns)
    if "float" in kind or "_Floats" in kind:
        assert UNIT.search(public.doc), "the unit"
    if "_Floats" in kind or "_Ints" in kind:
        assert re.search(r"array|as ``\w+``", public.doc), "an array"
        assert re.search(r"\(\w+, \w+\)|as ``\w+``|shape", public.doc), "its shape"


@pytest.mark.parametrize("public", ERRORS, ids=str)
def test_errors_say_what_and_their_number(public: Public) -> None:
    assert public.doc[:1].isupper()
    if issubclass(getattr(df, public.path), df.DryfitError) and public.path != "DryfitError":
        assert public.doc.endswith(f"Code {getattr(df, public.path).code}.")


@pytest.mark.parametrize("public", [public for public in PUBLIC if ">>>" in public.doc], ids=str)
def test_examples(public: Public) -> None:
    example = doctest.DocTestParser().get_doctest(public.doc, dict(NAMES), public.path, None, 0)
    assert example.examples and doctest.DocTestRunner().run(example).failed == 0


MODULES = [df, *(importlib.import_module(name) for _, name, _ in pkgutil.iter_modules(df.__path__, "dryfit.") if not name.split(".")[1].startswith("_"))]
"""The package, and what it has beside it that is public."""
FUNCTIONS = {
    f"{module.__name__}.{name}": value
    for module in MODULES
    for name, value in vars(module).items()
    if inspect.isfunction(value) and name in getattr(module, "__all__", vars(module)) and not name.startswith("_") and value.__module__.startswith("dryfit")
}
"""What is written in Python."""


@pytest.mark.parametrize("path", FUNCTIONS, ids=str)
def test_functions_in_python_say_what_with_what_and_show_it(path: str) -> None:
    function = FUNCTIONS[path]
    doc = function.__doc__ or ""
    given = [name for name in inspect.signature(function).parameters if f"``{name}``" not in sentences(doc)]
    assert doc[:1].isupper() and ">>>" in doc and "Raises" in doc and not given, given


@pytest.mark.parametrize("module", MODULES, ids=lambda module: module.__name__)
def test_the_examples_of_modules(module: ModuleType) -> None:
    assert module.__doc__
    # An extra has the name of the module that needs it.
    for needed in EXTRAS.get(module.__name__.removeprefix("dryfit."), []):
        pytest.importorskip(needed.split(">=")[0])
    own = doctest.DocTestFinder(recurse=False).find(module, globs=dict(NAMES) | vars(module))
    for test in own:
        assert doctest.DocTestRunner().run(test).failed == 0
    for path, function in FUNCTIONS.items():
        if function.__module__ == module.__name__:
            example = doctest.DocTestParser().get_doctest(function.__doc__ or "", dict(NAMES) | vars(module), path, None, 0)
            assert doctest.DocTestRunner().run(example).failed == 0
