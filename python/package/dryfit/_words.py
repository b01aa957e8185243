"""Values and names as one line of text."""

import json
import re
from collections.abc import Iterable
from difflib import get_close_matches

_LONGEST = 60


def line(text: str) -> str:
    """The text on one line, without characters that cannot be printed."""
    return " ".join("".join(c if c.isprintable() else " " for c in text).split())


def shown(value: object) -> str:
    """A value of the job file, on one line and not too long."""
    text = json.dumps(value, ensure_ascii=False) if isinstance(value, str) else repr(value)
    text = line(text)
    return text if len(text) <= _LONGEST else text[: _LONGEST - 3] + "..."


def key(name: str) -> str:
    """A key as it stands in a path: bare, or in quotes where it is not plain."""
    return name if re.fullmatch(r"[A-Za-z0-9_-]{1,60}", name) else shown(name)


def path(above: str, name: str) -> str:
    """The path of a key below another: ``box[0].outside``."""
    return f"{above}.{key(name)}" if above else key(name)


def listed(words: Iterable[str]) -> str:
    """Words in quotes, with commas."""
    return ", ".join(f'"{line(word)}"' for word in words)


def nearest(word: str, known: Iterable[str]) -> str:
    """``; did you mean "..."?`` where a known word is near."""
    found = get_close_matches(word, list(known), n=1, cutoff=0.6)
    return f'; did you mean "{line(found[0])}"?' if found else ""


def number(value: float) -> str:
    """Millimetres and the like, exact to a nanometre and without trailing zeros."""
    return f"{value:.6f}".rstrip("0").rstrip(".") or "0"
