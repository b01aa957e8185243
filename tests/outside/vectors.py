"""Vector files, read where the oracle wrote them, and their cases through the public package."""

import json
from pathlib import Path

import dryfit as df
from lengths import text, texts

FOLDER = Path(__file__).parent.parent / "vectors"


def cases(file):
    found = json.loads((FOLDER / f"{file}.json").read_text(encoding="utf-8"))
    assert found, f"{file}.json has no cases"
    return found


def named(file):
    return {case["name"]: case for case in cases(file)}


def stock(thickness):
    return df.Stock(thickness=text(thickness), sheet=("10 m", "10 m"))


def box(case):
    asked = {"top": case["top"], "dividers": tuple(case["dividers"])}
    if case["finger_width"] is not None:
        asked["finger_width"] = text(case["finger_width"])
    if "clearance" in case:
        asked["lid_clearance"] = text(case["clearance"])
    if "shelves" in case:
        asked["shelves"] = texts(case["shelves"])
    if "feet" in case:
        asked["feet"] = text(case["feet"])
    return df.box(outside=texts(case["size"]), stock=stock(case["thickness"]), **asked)


def spec(asked):
    """A joint's spec as an object of the package; what is left out gets the package's defaults."""
    first = {"first": asked["first"].lower()} if "first" in asked else {}
    least = {"least": text(asked["least"])} if "least" in asked else {}
    match asked["kind"]:
        case "fingers" if "count" in asked:
            return df.Fingers(count=asked["count"], **first, **least)
        case "fingers":
            parity = {"parity": asked["parity"]} if "parity" in asked else {}
            return df.Fingers(width=text(asked["width"]), **parity, **first, **least)
        case "tabs":
            end = {} if asked.get("end") is None else {"end": text(asked["end"])}
            return df.Tabs(width=text(asked["width"]), spacing=text(asked["spacing"]), **end)
        case "halves":
            split = {"split": tuple(asked["split"])} if "split" in asked else {}
            return df.Halves(**split, **first)
        case "tails":
            pin = {} if asked["pin"] is None else {"pin_width": text(asked["pin"])}
            return df.Tails(count=asked["count"], slope=tuple(asked["slope"]), half=asked["half"], **pin)
        case "whole":
            # Python has no word for it: one finger is the whole run.
            return df.Fingers(count=1, least=text(1), **first)
    raise AssertionError(asked)


def assembly(case):
    asm = df.Assembly(stock=stock(3_000_000))
    for board in case["boards"]:
        asm.add(board["name"], normal=board["normal"], at=texts(board["at"]), size=texts(board["size"]), stock=stock(board["thickness"]))
    for p, q, asked in case["joints"]:
        asm.joint(p, q, spec(asked))
    for key in case.get("keys", []):
        sizes = {name: text(key[name]) for name in ("length", "width", "at")}
        asm.key(key["name"], between=tuple(key["between"]), slope=tuple(key["slope"]), **sizes)
    return asm


def by_recipe(recipe):
    """A long board or a ring by the function that makes it."""
    joint, of = spec(recipe["joint"]), stock(recipe["thickness"])
    depth = None if recipe["depth"] is None else text(recipe["depth"])
    if recipe["make"] == "ring":
        return df.ring(outside=texts(recipe["outside"]), width=text(recipe["width"]), stock=of, joint=joint, depth=depth)
    return df.splice(length=text(recipe["length"]), width=text(recipe["width"]), stock=of, joint=joint, pieces=recipe["pieces"], depth=depth)


def loops(thing):
    """Loops as lists of whole nanometres."""
    return [ring.tolist() for ring in thing.loops_nm]
