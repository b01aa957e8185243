"""Modules on packages that need not be there: which, and what is said where one is missing."""

import subprocess
import sys
import tomllib
from collections.abc import Callable
from pathlib import Path
from typing import Any

import dryfit as df
import pytest
from conftest import ROOT

NEEDS = {"solids": ["trimesh", "manifold3d", "networkx", "lxml"], "tables": ["pandas"], "dxf": ["ezdxf"]}


@pytest.mark.parametrize("module", NEEDS)
def test_extras_bring_what_is_needed(module: str) -> None:
    extras = tomllib.loads((ROOT / "python" / "pyproject.toml").read_text())["project"]["optional-dependencies"]
    assert {line.split(">=")[0] for line in extras[module]} == set(NEEDS[module])


def layout(stock: df.Stock) -> df.Layout:
    return df.Parts.rectangles([(60, 40)], thickness=2.5).lay_out(stock)


def calls(stock: df.Stock, tmp_path: Path) -> dict[str, Callable[[], Any]]:
    from dryfit import dxf, solids, tables

    case = df.box(outside=(110, 85, 60), stock=stock)
    return {
        "trimesh": lambda: solids.scene(case),
        "manifold3d": lambda: solids.mesh(case.panels["front"]),
        "networkx": lambda: solids.save(solids.scene(case), tmp_path / "case.3mf"),
        "lxml": lambda: solids.save(solids.scene(case), tmp_path / "case.3mf"),
        "pandas": lambda: tables.parts(case),
        "ezdxf": lambda: dxf.document(case),
    }


@pytest.mark.parametrize(("module", "missing"), [(module, missing) for module, needed in NEEDS.items() for missing in needed])
def test_what_is_missing_is_said(module: str, missing: str, stock: df.Stock, tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    for needed in NEEDS[module]:
        if needed != missing:
            pytest.importorskip(needed)
    call = calls(stock, tmp_path)[missing]
    monkeypatch.setitem(sys.modules, missing, None)
    with pytest.raises(df.NotAvailable) as refused:
        call()
    assert str(refused.value) == f'{missing}: not installed, and needed for this: pip install "dryfit[{module}]"'
    assert not list(tmp_path.iterdir())


def test_sheets_and_a_missing_library(stock: df.Stock, monkeypatch: pytest.MonkeyPatch) -> None:
    from dryfit import dxf

    monkeypatch.setitem(sys.modules, "ezdxf", None)
    with pytest.raises(df.NotAvailable, match=r'^ezdxf: .*pip install "dryfit\[dxf\]"$'):
        dxf.document(layout(stock).sheets[0])


def test_none_of_them_is_imported_before_it_is_needed() -> None:
    code = "import sys, dryfit, dryfit.dxf, dryfit.solids, dryfit.tables; print([name for name in sys.argv[1:] if name in sys.modules])"
    names = [name for needed in NEEDS.values() for name in needed]
    ran = subprocess.run([sys.executable, "-c", code, *names], capture_output=True, text=True, check=True)
    assert ran.stdout.strip() == "[]"
