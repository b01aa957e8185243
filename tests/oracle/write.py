"""Writes all vector files. With --check: exit status 1 if any file is stale."""

import sys
from pathlib import Path

import cases_boards
import cases_dovetails
import cases_numbers
import cases_splices
import jsonlines

FOLDER = Path(__file__).resolve().parent.parent / "vectors"


def all_files():
    return {
        "lengths.json": cases_numbers.length_cases(),
        "patterns.json": cases_numbers.pattern_cases(),
        "profiles.json": cases_numbers.profile_cases(),
        "dovetails.json": cases_dovetails.dovetail_cases(),
        "boxes.json": cases_boards.box_cases(),
        "assemblies.json": cases_boards.assembly_cases(),
        "cuts.json": cases_boards.cut_cases(),
        "splices.json": cases_splices.splice_cases(),
    }


def main(arguments):
    if arguments not in ([], ["--check"]):
        print("usage: write.py [--check]", file=sys.stderr)
        return 2
    stale = []
    for name, cases in all_files().items():
        path = FOLDER / name
        text = jsonlines.dump(cases)
        if path.exists() and path.read_text(encoding="ascii") == text:
            continue
        stale.append(name)
        if not arguments:
            path.write_text(text, encoding="ascii", newline="\n")
    for name in stale:
        print(("stale: " if arguments else "written: ") + name)
    return 1 if arguments and stale else 0


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
