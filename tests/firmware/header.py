"""What C sees of the bare layer: its functions and the numbers of its constants, read from the header."""

import re

from build import INCLUDE


def _bare():
    text = (INCLUDE / "dryfit.h").read_text(encoding="utf-8")
    # The host's part is no business of a board.
    kept, depth = [], None
    for line in text.splitlines():
        if re.match(r"#\s*if.*\bDRYFIT_HOST\b", line):
            assert depth is None
            depth = 0
        elif depth is not None and re.match(r"#\s*if", line):
            depth += 1
        elif depth is not None and re.match(r"#\s*endif", line):
            depth = None if depth == 0 else depth - 1
        elif depth is None:
            kept.append(line)
    return re.sub(r"/\*.*?\*/", "", "\n".join(kept), flags=re.DOTALL)


def functions():
    """Every function that a firmware can call."""
    # A name with a bracket after it; types of functions stand in brackets themselves.
    found = sorted(set(re.findall(r"(?<!\(\*)\b(dryfit_\w+)\(", _bare())))
    assert len(found) > 20, found
    return found


def constants():
    """The numbers by their names, without the prefix."""
    found = re.findall(r"#define\s+DRYFIT_(\w+)\s+\(?(-?\d+)\)?\s*$", _bare(), flags=re.MULTILINE)
    return {name: int(number) for name, number in found}
