"""The table of layouts in ffi/src/layout.rs: read, said in C as static assertions, and written anew from the header."""

import re
import subprocess
import sys
import tempfile
from pathlib import Path

from header import CALLBACKS, HEADER, ROOT, structs

TABLE = ROOT / "ffi" / "src" / "layout.rs"
ENTRY = re.compile(r'^    (\w+)(?: \["(\d+)"\])?: (\d+), (\d+) \{ (.*) \}$', re.MULTILINE)


def table() -> dict[str, tuple[str, int, int, dict[str, int]]]:
    """name -> (bits of a pointer that it holds for, or all: "", size, alignment, field -> offset)"""
    found = {}
    for name, bits, size, align, fields in ENTRY.findall(TABLE.read_text()):
        pairs = (pair.split(": ") for pair in fields.split(", "))
        found[name] = (bits, int(size), int(align), {field: int(offset) for field, offset in pairs})
    return found


def assertions(bits: int) -> str:
    """C11 that compiles where the table holds."""
    lines = ["#include <dryfit.h>", "#include <stddef.h>"]
    for name, (only, size, align, fields) in table().items():
        if only in ("", str(bits)):
            lines.append(f'_Static_assert(sizeof({name}) == {size}, "size of {name}");')
            lines.append(f'_Static_assert(_Alignof({name}) == {align}, "alignment of {name}");')
            lines += [f'_Static_assert(offsetof({name}, {field}) == {at}, "{name}.{field}");' for field, at in fields.items()]
    return "\n".join(lines) + "\n"


def measured(host: bool) -> str:
    """The table's lines, as this machine's C compiler lays the structs out."""
    known = structs(host=True) if host else structs(host=False)
    if host:
        known = {name: fields for name, fields in known.items() if name not in structs(host=False)}
    lines = ["#define DRYFIT_HOST", "#include <dryfit.h>", "#include <stdio.h>", "int main(void) {"]
    for name, fields in known.items():
        wide = any("*" in kind or "size_t" in kind or kind in CALLBACKS for kind in fields.values())
        mark = ' [\\"64\\"]' if wide else ""
        offsets = ", ".join(f"{field}: %zu" for field in fields)
        values = ", ".join(f"offsetof({name}, {field})" for field in fields)
        lines.append(f'printf("    {name}{mark}: %zu, %zu {{ {offsets} }}\\n", sizeof({name}), _Alignof({name}), {values});')
    lines.append("return 0; }")
    with tempfile.TemporaryDirectory() as folder:
        source, program = Path(folder) / "layouts.c", Path(folder) / "layouts"
        source.write_text("\n".join(lines))
        subprocess.run(["gcc", "-I", HEADER.parent, source, "-o", program], check=True)
        return subprocess.run([program], check=True, capture_output=True, text=True).stdout


def written() -> str:
    """The file with a new table; what stands before the table stays."""
    before = TABLE.read_text().split("\nlayout! {")[0]
    text = f"{before}\nlayout! {{\n{measured(host=False)}}}\n"
    host = measured(host=True)
    return text + (f'\n#[cfg(feature = "host")]\nlayout! {{\n{host}}}\n' if host else "")


if __name__ == "__main__":
    if sys.argv[1:] != ["--write"]:
        sys.exit("usage: python3 tests/c/layouts.py --write")
    TABLE.write_text(written())
