"""A reader of HP-GL for tests, written from the makers' manuals (7470A; HP-GL/2): one unit is 0.025 mm. It knows nothing of this project's writer."""

from dataclasses import dataclass

UNIT = 0.025


@dataclass(frozen=True)
class Stroke:
    """What one pen draws without being lifted, in mm."""

    pen: int
    points: list[tuple[float, float]]


def instructions(text):
    """Mnemonics with what follows them; quoted text may hold any letter."""
    found, word, quoted = [], "", False
    for letter in text:
        quoted ^= letter == '"'
        if letter == ";" and not quoted:
            found.append(word.strip())
            word = ""
        else:
            word += letter
    assert not word.strip() and not quoted, "the last instruction has no end"
    return [(word[:2].upper(), word[2:]) for word in found if word]


def read(text):
    """The strokes of a file."""
    at, pen, down, strokes = (0, 0), 0, False, []
    for name, rest in instructions(text):
        if name == "IN":
            at, pen, down = (0, 0), 0, False
        elif name == "SP":
            pen, down = int(rest or 0), False
        elif name in ("PU", "PD"):
            numbers = [int(number) for number in rest.split(",") if number]
            assert len(numbers) % 2 == 0
            if name == "PD" and not down and pen:
                strokes.append(Stroke(pen, [_mm(at)]))
            down = name == "PD"
            for pair in zip(numbers[::2], numbers[1::2], strict=True):
                at = pair
                if down and pen:
                    strokes[-1].points.append(_mm(at))
        else:
            assert name == "CO" and rest.strip().startswith('"'), f"not known: {name}"
    assert not down and pen == 0, "the pen is left down, or in its holder"
    return strokes


def _mm(at):
    return (at[0] * UNIT, at[1] * UNIT)
