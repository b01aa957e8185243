"""Reads a job file: its size, its text, its syntax."""

import os
import re
import stat
import tomllib
from typing import Any

from dryfit import _words
from dryfit._dryfit import BadSyntax, DryfitError, NotReadable, NotText, TooLarge

LIMIT = 1 << 20
"""A job file has at most so many bytes."""

_LONG_KEY = re.compile(r"""(?<![\w"'.-])(?:[\w"'-]++[ \t]*+\.[ \t]*+){64}""")
"""A dotted key of more parts than any table of a job is deep; Python's reader takes minutes for a file full of them."""


def toml(file: str) -> dict[str, Any]:
    """The tables of a job file.

    Raises NotReadable, TooLarge, NotText or BadSyntax, with the file's name and the line.
    """
    name = _words.shown(file)
    try:
        data = _bytes(file, name)
    except DryfitError:
        raise
    except (OSError, ValueError) as error:
        reason = getattr(error, "strerror", None) or str(error)
        raise NotReadable(f"{name}: the file cannot be read: {reason}") from None
    try:
        text = data.decode("utf-8-sig")
    except UnicodeDecodeError as error:
        line = data.count(b"\n", 0, error.start) + 1
        raise NotText(f"{name}: byte 0x{data[error.start]:02x} in line {line}: the file is not UTF-8 text") from None
    if long := _LONG_KEY.search(text):
        raise BadSyntax(f"{name}: a key of more than 64 parts in line {text.count(chr(10), 0, long.start()) + 1}")
    try:
        return tomllib.loads(text)
    except RecursionError:
        raise BadSyntax(f"{name}: tables or lists are nested too deeply") from None
    except ValueError as error:
        raise BadSyntax(f"{name}: the file is not TOML: {error}") from None


def _bytes(file: str, name: str) -> bytes:
    mode = os.stat(file)
    if stat.S_ISDIR(mode.st_mode):
        raise NotReadable(f"{name}: a folder given, allowed a TOML file")
    if not stat.S_ISREG(mode.st_mode):
        raise NotReadable(f"{name}: no plain file given, allowed a TOML file")
    if mode.st_size > LIMIT:
        raise _too_large(name, mode.st_size)
    with open(file, "rb") as opened:
        data = opened.read(LIMIT + 1)
    if len(data) > LIMIT:
        raise _too_large(name, len(data))
    return data


def _too_large(name: str, size: int) -> TooLarge:
    return TooLarge(f"{name}: {size} bytes given, allowed 1 to {LIMIT}")
