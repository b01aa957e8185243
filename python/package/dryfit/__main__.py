"""The shell command: ``dryfit job FILE.toml --out DIR`` and ``dryfit check FILE.toml``.

Exit status 0; 1 if the fit fails, with the problems on stderr; 2 for bad input, with one line on stderr that names the key, the value
and the allowed range.
"""

import argparse
import os
import re
import sys
from collections.abc import Sequence
from typing import NoReturn

from dryfit import _files, _job, _make, _prove, _words
from dryfit._dryfit import DryfitError
from dryfit._version import __version__


class _Parser(argparse.ArgumentParser):
    """Says what is wrong in one line."""

    def error(self, message: str) -> NoReturn:
        self.exit(2, f"dryfit: {_words.line(message)}\n")


def _parser() -> _Parser:
    parser = _Parser(prog="dryfit", description="From sizes to verified cut parts of flat-pack boxes.")
    parser.add_argument("--version", action="version", version=f"dryfit {__version__}")
    commands = parser.add_subparsers(dest="command", required=True, metavar="COMMAND")
    job = commands.add_parser("job", help="prove a job and write its files", description="Proves a job and writes sheets, pictures and a report.")
    job.add_argument("file", metavar="FILE.toml", help="the job")
    job.add_argument("--out", required=True, metavar="DIR", help="the folder for the files; made if it is not there")
    check = commands.add_parser("check", help="only prove that a job fits", description="Proves that a job fits, and writes nothing.")
    check.add_argument("file", metavar="FILE.toml", help="the job")
    return parser


def main(arguments: Sequence[str] | None = None) -> int:
    """Runs the command and returns its exit status."""
    given = _parser().parse_args(arguments)
    for stream in (sys.stdout, sys.stderr):
        if hasattr(stream, "reconfigure"):
            stream.reconfigure(errors="backslashreplace")
    try:
        return _run(given)
    except DryfitError as error:
        print(f"dryfit: {_words.line(str(error))}", file=sys.stderr)
        return 2
    except OSError as error:
        # What is written is written; only the words found no taker, and whoever closes the stream at the end shall not find that again.
        sys.stdout = open(os.devnull, "w", encoding="utf-8")
        print(f"dryfit: standard output: {_words.line(error.strerror or str(error))}", file=sys.stderr)
        return 2


def _run(given: argparse.Namespace) -> int:
    job = _job.load(given.file)
    proved, problems = _prove.prove(job)
    if problems:
        print(f"dryfit: the fit fails, problems: {len(problems)}", *problems, sep="\n", file=sys.stderr)
        return 1
    if given.command == "check":
        for each in proved:
            print(f"{each.piece.name}: fits, panels: {len(each.parts)}")
        sys.stdout.flush()
        return 0
    files = _make.files(job, proved)
    _files.write(given.out, files)
    _say(given.out, files)
    return 0


def _say(folder: str, files: dict[str, str]) -> None:
    sheets = [name for name in files if name.startswith("sheet-")]
    pictures = [name for name in files if name.endswith("-exploded.svg")]
    layouts = [name for name in files if name.endswith("-layout.svg")]
    print("It fits. Open:")
    print(f"  {os.path.join(folder, 'report.txt')}  what fits, what to cut, how to put it together")
    for name in pictures:
        print(f"  {os.path.join(folder, name)}  how the boards stand to each other")
    for name in layouts:
        print(f"  {os.path.join(folder, name)}  to be set out and cut by hand")
    for name in sheets:
        print(f"  {os.path.join(folder, name)}  for the cutter, in mm")
    stale = sorted(name for name in os.listdir(folder) if re.fullmatch(r"sheet-[0-9]+\.svg|.+-(exploded|layout)\.svg", name) and name not in files)
    if stale:
        print(f"Also there, but not of this job: {', '.join(stale)}")
    sys.stdout.flush()


if __name__ == "__main__":
    sys.exit(main())
