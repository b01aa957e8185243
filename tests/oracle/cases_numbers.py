"""Test input for lengths, patterns and profiles, and the cases made of it."""

import random

import lengths
import patterns
import profiles

MM = 1_000_000

GOOD_LENGTHS = [
    "0", "-0", "+0", "1", "+1", "-1", "5 mm", "5mm", "12.5", ".5", "5.", "-.5", "+5.", "5.mm", "5. mm",
    ".5in", "-.5 in", "3/32", "3/32 in", "3/32in", '3/32"', '3/32 "', "1 1/2", "1 1/2 in", '1 1/2"', "-1 1/2 in",
    "+1 1/2 ft", "1 5/2 mm", "0/5", "0 0/1 m", "7/7 cm", "1/3", "2/3", "-1/3", "-2/3 mm", "1/3 in", "1/64 in",
    "1/7 um", "1 um", "0.001 um", "0.1 um", "5 \u00b5m", "5 \u03bcm", "1 cm", "1 m", "1 in", '1"', "1 ft", "0.1 mm", "2 cm", "11 in",
    "13 3/4 in", "  5 mm  ", "\t5 mm\n", "\r\n 7/8 in \t", "007", "00.50", "0.000001", "0.000001 mm",
    "0.0000005", "-0.0000005", "0.00000049999", "-0.00000049999", "0.0000015", "-0.0000015", "0.0000025 mm",
    "0.0005 um", "-0.0005 um", "0.0004999 um", "1/2000 um", "-1/2000 um", "3/2000 um", "1/2000000", "5/2000000 mm",
    "0.0000000005 m", "-0.0000000005 m", "0.00000005 cm", "1/50800000 in", "-1/50800000 in", "3/50800000 in",
    "1/609600000 ft", "-1/609600000 ft", "10 m", "-10 m", "+10 m", "10.000000000 m", "9.999999999 m", "10000 mm",
    "-10000", "1000 cm", "10000000 um", "9999.999999", "-9999.999999", "9999 999999/1000000", "32 ft", "393 in",
    '393 5/8"', "32 2/3 ft", "10/1 m", "20/2 m", "000000000000000005", ".123456789012345678", "-.987654321098765432 in",
    "123456789012345678/123456789012345678", "999999999999999999/999999999999999998 m",
    "1 1/999999999999999999 mm", "2.54 cm", "25.4", "0.0254 m", "2.997", "18.3 mm", "3.175 mm", "0.125 in",
]

BAD_LENGTHS = [
    "", " ", "\t\n", "mm", "in", '"', "+", "-", ".", "-.", "+ mm", ". mm", "/", "/2", "1/", "1/ in", "1 1/", "1 /",
    "5 mm mm", "5mm cm", "5 in mm", '5 in"', '5""', "1ft 2in", "1 ft 2 in", "5 m m", "5 nm", "5 km", "5 inch", "5 inches",
    "5 pt", "5 yd", "5 px", "5 x", "5x", "5 MM", "5 Mm", "5 IN", "1/0", "0/0", "1 1/0 in", "-3/0 mm", "1/00",
    "1,5", "1,000", "1,5 mm", "1.000,5", "1e3", "1E3", "1e-3 mm", "1.5e2", "1e", "nan", "NaN", "inf", "-inf", "+inf",
    "infinity", "Infinity mm", "10.000000001 m", "-10.000000001 m", "10000.000001", "-10000.000001", "10001", "11 m",
    "1001 cm", "10000001 um", "33 ft", "-33 ft", "394 in", "400 in", "999999999999999999", "999999999999999999 m",
    "-999999999999999999 ft", "1234567890123456789", "0000000000000000000005", "0.0000000000000000001",
    "1.0000000000000000000 mm", "1/1234567890123456789", "1234567890123456789/1234567890123456789",
    "1 1/1234567890123456789", "1234567890123456789 1/2", "--5", "++5", "+-5", "-+5", "5-", "5+", "5 -mm", "1 -1/2",
    "1/-2", "1/+2", "1.5/2", "1/2.5", "1.5 1/2", "1. 1/2", "1 .5", "1 1.5", "1 2", "1 2 3", "1 2 mm", "1 2 1/2", "1/2/3",
    "1/2 1/2", "1/2 3", "1..5", "1.5.2", "1._5", "1_000", "0x10", "0b1", "(5)", "5;", "5 mm.", "5 mm;", "5!", "#5",
    "5%", "$5", "5'", "5''", "5 \"mm", "mm 5", "in5", "five", "5 mm x", "x5", "=5", "~5", "5\\", "5 mm\u0000", "\u00bd in",
    "5 \u00b5", "5 \u00b5 m", "\uff15", "\u0665", "5\u2033", "\u22125", "5 m2", "5 mm2", "5*2", "5+2", "1/2+1/2", "12.5mm/2", "sqrt2",
]


def length_cases():
    cases = []
    for text in GOOD_LENGTHS:
        cases.append({"text": text, "nm": lengths.read(text)})
    for text in BAD_LENGTHS:
        try:
            nm = lengths.read(text)
        except lengths.LengthError:
            cases.append({"text": text, "error": True})
        else:
            raise AssertionError(f"{text!r} read as {nm}, meant to be an error")
    rng = random.Random(20240607)
    units = ["um", "mm", "cm", "m", "in", "ft", '"', ""]
    while len(cases) < 400:
        unit = rng.choice(units)
        sign = rng.choice(["", "", "-", "+"])
        number = rng.choice([
            f"{rng.randrange(1000)}",
            f"{rng.randrange(100)}.{rng.randrange(10 ** 9):09d}",
            f".{rng.randrange(10 ** 7):07d}",
            f"{rng.randrange(200)}/{rng.randrange(1, 128)}",
            f"{rng.randrange(20)} {rng.randrange(64)}/64",
        ])
        text = sign + number + rng.choice(["", " "]) + unit
        if text.endswith(" "):
            text = text[:-1]
        try:
            cases.append({"text": text, "nm": lengths.read(text)})
        except lengths.LengthError:
            cases.append({"text": text, "error": True})
    return cases


def by_width(width, least, parity="odd", first="A"):
    return {"kind": "fingers", "width": width, "parity": parity, "first": first, "least": least}


def by_count(count, least, first="A"):
    return {"kind": "fingers", "count": count, "first": first, "least": least}


def tabs(width, spacing, end=None):
    return {"kind": "tabs", "width": width, "spacing": spacing, "end": end}


def halves(p, q, first="A"):
    return {"kind": "halves", "split": [p, q], "first": first}


def whole(first="A"):
    return {"kind": "whole", "first": first}


def chosen_patterns():
    """Cases chosen by hand: (length, spec)."""
    out = []
    for parity in ("odd", "even", "any"):
        for first in "AB":
            # Plain, tie (L / w half way between two candidates), prime, cut off by least, nothing left.
            for length, width, least in [
                (100 * MM, 9 * MM, 3 * MM), (100 * MM, 25 * MM, 3 * MM), (90 * MM, 20 * MM, 3 * MM), (4, 1, 1), (6, 1, 1),
                (5, 2, 1), (7, 2, 1), (99_999_989, 9_000_011, 3_000_017), (10_000 * MM, 50 * MM, 18 * MM),
                (10_000 * MM, 50_125_313, 18 * MM), (100 * MM, 1 * MM, 3 * MM), (100 * MM, 1 * MM, 34 * MM),
                (100 * MM, 1 * MM, 50 * MM), (100 * MM, 1 * MM, 50 * MM + 1), (100 * MM, 9 * MM, 100 * MM),
                (100 * MM, 9 * MM, 100 * MM + 1), (100 * MM, 1000 * MM, 3 * MM), (1, 1, 1), (2, 1, 1), (3, 1, 1),
                (10_000 * MM, 10_000 * MM, 1), (9_999_999_967, 49_999_999, 1),
            ]:
                out.append((length, by_width(width, least, parity, first)))
    for count in (1, 2, 3, 4, 7, 13, 50, 97, 200):
        for length in (100 * MM, 99_999_989, 10_000 * MM, 200, 211):
            out.append((length, by_count(count, 1, "AB"[count % 3 == 0])))
    out += [
        (30 * MM, by_count(10, 3 * MM)), (30 * MM - 1, by_count(10, 3 * MM)), (30 * MM, by_count(11, 3 * MM)),
        (30 * MM, by_count(0, 3 * MM)), (5, by_count(5, 1)), (5, by_count(6, 1)), (0, by_count(1, 1)), (0, by_width(1, 1)),
        (100, by_width(0, 1)), (100 * MM, tabs(20 * MM, 40 * MM)), (200 * MM, tabs(20 * MM, 40 * MM)),
        (200 * MM, tabs(20 * MM, 40 * MM, 5 * MM)), (60 * MM, tabs(20 * MM, 40 * MM)), (60 * MM - 1, tabs(20 * MM, 40 * MM)),
        (60 * MM + 1, tabs(20 * MM, 40 * MM)), (120 * MM, tabs(20 * MM, 40 * MM)), (120 * MM - 1, tabs(20 * MM, 40 * MM)),
        (21, tabs(5, 1)), (3, tabs(1, 1)), (2, tabs(1, 1)), (4, tabs(1, 1)), (5, tabs(1, 1)), (11, tabs(3, 3, 1)),
        (10, tabs(0, 3)), (10_000 * MM, tabs(30 * MM, 70 * MM)), (9_999_999_967, tabs(30_000_001, 70_000_003)),
        (9_999_999_967, tabs(30_000_001, 70_000_003, 1)), (1 * MM, tabs(2 * MM, 1 * MM)),
        (1, halves(1, 2)), (1, halves(1, 3)), (2, halves(1, 2)), (3, halves(1, 2)), (101, halves(1, 2, "B")),
        (100, halves(0, 1)), (100, halves(1, 1)), (100, halves(3, 2)), (100, halves(1, 0)), (100, halves(1, 1000)),
        (100 * MM, halves(1, 3)), (100 * MM, halves(2, 3, "B")), (99_999_989, halves(355, 452)),
        (10_000 * MM, halves(1, 7)), (7, halves(1, 14)), (7, halves(13, 14)), (1, whole()), (0, whole()),
        (10_000 * MM, whole("B")),
    ]
    return out


def drawn_patterns(rng, how_many):
    """Cases drawn at random: (length, spec), at most 200 spans."""
    out = []
    while len(out) < how_many:
        length = rng.choice([rng.randrange(1, 60), rng.randrange(MM, 400 * MM), rng.randrange(MM, 10_000 * MM + 1)])
        width = max(1, length // rng.randrange(1, 80) + rng.randrange(-3, 4))
        first = rng.choice("AB")
        kind = rng.randrange(5)
        if kind <= 1:
            least = max(1, width // rng.choice([1, 2, 3, 7]) * rng.choice([1, 1, 2]))
            spec = by_width(width, least, rng.choice(["odd", "odd", "even", "any"]), first)
        elif kind == 2:
            spec = by_count(rng.randrange(1, 60), max(1, length // 40), first)
        elif kind == 3:
            end = rng.choice([None, None, max(1, width // 3)])
            spec = tabs(width, max(1, int(width * rng.choice([0.4, 1, 2.3]))), end)
        else:
            q = rng.randrange(2, 100)
            spec = halves(rng.randrange(1, q), q, first)
        out.append((length, spec))
    return out


def pattern_cases():
    cases = []
    for length, spec in chosen_patterns() + drawn_patterns(random.Random(31337), 260):
        case = {"length": length, "spec": spec}
        try:
            first, boundaries = patterns.make(length, spec)
            assert len(boundaries) < 205
            case.update(first=first, boundaries=boundaries)
        except patterns.PatternError:
            case.update(error=True)
        cases.append(case)
    return cases


def profile_cases():
    rng = random.Random(271828)
    plain = [
        (100 * MM, by_count(5, 3 * MM)), (100 * MM, by_width(9 * MM, 3 * MM, "odd", "B")), (99_999_989, by_count(8, 1, "B")),
        (120 * MM, tabs(20 * MM, 40 * MM)), (120 * MM, halves(1, 2)), (77_777_777, halves(2, 5, "B")), (50 * MM, whole()),
        (50 * MM, whole("B")), (31, by_count(3, 1)), (10_000 * MM, by_count(41, 18 * MM)),
    ]
    fits = [
        (0, 0, 0, 0), (100_000, 50_000, 20_000, 180_000), (101, 33, 7, 11), (-101, -33, -7, 11), (-1, 0, 0, 0),
        (1, 0, 0, 1), (-50_001, 25_000, -10_003, 150_001), (0, 0, 0, 3), (2, 1, 0, 0),
    ]
    inputs = [(length, spec, side, 3 * MM, fit) for length, spec in plain for side in "AB" for fit in fits]
    # Widths that come down to one, to nothing and below.
    for flank in (8, 9, 10, 11, 12, 19, 20, 21, -9, -10, -11, -20):
        for side in "AB":
            inputs.append((50, by_count(5, 1), side, 10, (flank, 0, 0, 0)))
    for kerf in (4, 9, 10, 11, 12, 18, 20, 22):
        inputs.append((30, by_count(3, 1), "A", 40, (0, 0, 0, kerf)))
    for length, spec in drawn_patterns(rng, 150):
        fit = tuple(rng.randrange(-120_000, 200_001) for _ in range(3)) + (rng.randrange(0, 300_000),)
        inputs.append((length, spec, rng.choice("AB"), rng.randrange(MM, 20 * MM), fit))
    cases = []
    for length, spec, side, depth, (flank, cheek, tip, kerf) in inputs:
        case = {"length": length, "spec": spec, "side": side, "depth": depth, "flank": flank, "cheek": cheek, "tip": tip, "kerf": kerf}
        try:
            case["vertices"] = profiles.make(length, spec, side, depth, flank, cheek, tip, kerf)
        except (patterns.PatternError, profiles.ProfileError):
            case["error"] = True
        cases.append(case)
    return cases
