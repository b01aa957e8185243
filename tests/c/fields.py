"""C that puts the largest, the smallest or no number at all into every number of every argument in turn: each is refused, and the error names a parameter."""

from calls import GOOD_STATUS, STAGE, good, program, sizes
from header import functions, structs

# What no number of the kind may be.
WRONG = {"uint32_t": ["UINT32_MAX"], "int64_t": ["INT64_MIN", "INT64_MAX"], "dryfit_nm": ["INT64_MIN", "INT64_MAX"], "double": ["NAN", "INFINITY", "-1e300"]}
# Any number will do here: an error is only put into words, a seed is a seed, and so many sheets there may be.
ANY = {"dryfit_error", "dryfit_layout_spec.seed", "dryfit_stock.count"}
# These are not looked at: a straight move has no centre; a count of fingers is held against the run when
# panels are made of the boards; a drawing says nothing of speeds.
NOT_HERE = {
    ("moves_drag", "moves", place) for place in ("centre.x", "centre.y")
} | {
    ("knife_deviation", "moves", place) for place in ("centre.x", "centre.y")
} | {
    ("assembly_joint", "joint", "count"), ("assembly_of_box", "box", "fingers.count"),
} | {
    (f"layout_{format}", "motion", place) for format in ("svg", "dxf", "hpgl") for place in ("feed", "plunge")
}  # fmt: skip


def numbers(struct: str, path: str = "") -> list[tuple[str, str]]:
    """The places of the numbers in a struct, with their types."""
    found = []
    for name, kind in structs()[struct].items():
        if {struct, f"{struct}.{name}"} & ANY:
            continue
        plain, _, rest = kind.removeprefix("struct ").partition("[")
        plain = plain.strip()
        places = [f"{path}{name}[{at}]" for at in range(int(rest.rstrip("]")))] if rest else [f"{path}{name}"]
        if plain in WRONG:
            found += [(place, plain) for place in places]
        elif plain in structs():
            found += [pair for place in places for pair in numbers(plain, f"{place}.")]
    return found


def wrong_numbers() -> str:
    blocks = []
    for function in functions().values():
        if function.result != "dryfit_status" or function.name in GOOD_STATUS or not any(parameter.name == "error" for parameter in function.parameters):
            continue
        arguments = [good(function, parameter) for parameter in function.parameters]
        for at, parameter in enumerate(function.parameters):
            for wrong in WRONG.get(parameter.type, []):
                blocks.append(refused(function.name, [*arguments[:at], wrong, *arguments[at + 1 :]], f"{parameter.name} {wrong}", ""))
            struct = parameter.type.removeprefix("const ").removesuffix(" *")
            if parameter.type.startswith("const ") and struct in structs() and parameter.name not in sizes(function):
                looked_at = [pair for pair in numbers(struct) if (function.name.removeprefix("dryfit_"), parameter.name, pair[0]) not in NOT_HERE]
                for place, kind in looked_at:
                    for wrong in WRONG[kind]:
                        setting = f"{struct} spoiled = {arguments[at].removeprefix('&')}; spoiled.{place} = {wrong};"
                        blocks.append(refused(function.name, [*arguments[:at], "&spoiled", *arguments[at + 1 :]], f"{parameter.name}.{place} {wrong}", setting))
    return program(blocks, "fields.h")


def refused(name: str, arguments: list[str], what: str, setting: str) -> str:
    return f'{STAGE}\n    {setting}\n    memset(&error, 0, sizeof error);\n    refused("{name}: {what}", {name}({", ".join(arguments)}), &error);'
