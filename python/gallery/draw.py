"""Runs every example and writes the picture that it makes.

Usage: draw.py FOLDER
"""

import pathlib
import runpy
import sys

EXAMPLES = pathlib.Path(__file__).resolve().parent / "examples"


def pictures() -> dict[str, str]:
    """The SVG text that each example leaves in ``picture``, by the example's name."""
    return {file.stem: runpy.run_path(str(file))["picture"] for file in sorted(EXAMPLES.glob("*.py"))}


def main() -> None:
    folder = pathlib.Path(sys.argv[1])
    folder.mkdir(parents=True, exist_ok=True)
    for name, text in pictures().items():
        (folder / f"{name}.svg").write_text(text, encoding="utf-8", newline="\n")
        print(folder / f"{name}.svg")


if __name__ == "__main__":
    main()
