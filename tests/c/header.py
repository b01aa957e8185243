"""What include/dryfit.h declares, read from what the preprocessor makes of it."""

import re
import subprocess
from dataclasses import dataclass
from pathlib import Path

ROOT = Path(__file__).parents[2]
HEADER = ROOT / "ffi" / "include" / "dryfit.h"


@dataclass(frozen=True)
class Parameter:
    type: str
    name: str

    @property
    def is_pointer(self) -> bool:
        return self.type.endswith("*") or self.type in CALLBACKS


@dataclass(frozen=True)
class Function:
    result: str
    name: str
    parameters: tuple[Parameter, ...]


def declared(host: bool = True) -> str:
    """The header's own lines without comments and conditions; those of the headers it includes are left out."""
    define = ["-DDRYFIT_HOST"] if host else []
    text = subprocess.run(["gcc", "-E", *define, "-x", "c", HEADER], check=True, capture_output=True, text=True).stdout
    kept, ours = [], False
    for line in text.splitlines():
        if line.startswith("#"):
            ours = f'"{HEADER}"' in line
        elif ours:
            kept.append(re.sub(r"__attribute__\(\(.*?\)\)\)?", "", line))
    return "\n".join(kept)


def callbacks(host: bool = True) -> dict[str, str]:
    """The types of function pointers, by name, with what they look like."""
    return dict((name, whole) for whole, name in re.findall(r"typedef\s+([^;{}]*\(\s*\*\s*(\w+)\s*\)[^;]*);", declared(host)))


def functions(host: bool = True) -> dict[str, Function]:
    # Without the bodies of structs and the types, a name before a bracket is a function.
    rest = re.sub(r"typedef\b[^;{]*(\{[^}]*\}[^;]*)?;", "", declared(host))
    found = {}
    for result, name, inside in re.findall(r"([\w\s*]+?)\b(dryfit_\w+)\s*\(([^;{}]*)\)\s*;", rest):
        inside = " ".join(inside.replace("struct ", "").split())
        parts = [] if inside == "void" else [re.fullmatch(r"(.*?)(\w+)", part.strip()) for part in inside.split(",")]
        found[name] = Function(" ".join(result.split()), name, tuple(Parameter(part[1].strip(), part[2]) for part in parts))
    return found


def structs(host: bool = True) -> dict[str, dict[str, str]]:
    """The public structs with a body: name -> its fields in their order, with their types."""
    found = {}
    for body, name in re.findall(r"typedef\s+struct\s+\w*\s*\{([^}]*)\}\s*(\w+)\s*;", declared(host)):
        fields = [re.fullmatch(r"(.*?)(\w+)\s*((?:\[[^\]]*\])*)", " ".join(field.split())) for field in body.split(";") if field.strip()]
        found[name] = {field[2]: (field[1] + field[3]).strip() for field in fields}
    return found


def constants() -> dict[str, str]:
    """The macros, with the text that stands for each; the header's guard is none."""
    text = subprocess.run(["gcc", "-E", "-dD", "-DDRYFIT_HOST", "-x", "c", HEADER], check=True, capture_output=True, text=True).stdout
    found = re.findall(r"^#define (DRYFIT_\w+) (.+)$", text, re.MULTILINE)
    return {name: value for name, value in found if name not in ("DRYFIT_H", "DRYFIT_HOST")}


CALLBACKS = callbacks()
