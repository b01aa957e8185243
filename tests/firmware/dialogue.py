"""Answers of the service, taken apart."""

import re
from dataclasses import dataclass

USED = re.compile(rb"^used (\d+) (\d+)\n", flags=re.MULTILINE)


@dataclass(frozen=True)
class Answer:
    # What came before the last line.
    lines: list
    # The last line: "ok", "error ..." or "refused ...".
    end: str
    # Bytes of stack and ticks of the clock.
    stack: int
    ticks: int


def plain(output):
    """The answers alone, without what they used: these bytes are the same everywhere."""
    return USED.sub(b"", output)


def answers(output):
    """Every answer, each followed by what it used."""
    found, lines = [], []
    for line in output.decode("latin-1").split("\n"):
        if used := re.fullmatch(r"used (\d+) (\d+)", line):
            assert lines and lines[-1].split(" ")[0] in ("ok", "error", "refused"), lines[-3:]
            found.append(Answer(lines[:-1], lines[-1], *map(int, used.groups())))
            lines = []
        else:
            lines.append(line)
    assert lines == [""], lines[-3:]
    return found


def requests(lines):
    """Bytes for the service: each request, what it used, and an end."""
    return b"".join(line + b"\nused\n" for line in lines) + b"bye\n"
