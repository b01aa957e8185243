"""C that misuses every function of the header in turn, made from the header itself, so that no function is forgotten."""

import re

from header import Function, Parameter, functions, structs

# A good argument for each type, in the words of programs/samples.h.
GOOD = {
    "double": "2.5",
    "int64_t": "1000",
    "uint32_t": "0",
    "size_t": "0",
    "dryfit_nm": "3 * DRYFIT_MM",
    "dryfit_status": "DRYFIT_NULL_POINTER",
    "size_t *": "&needed",
    "void *": "&user",
    "uint32_t *": "&number",
    "dryfit_error *": "&error",
    "char *": "bytes",
    "const char *": '"2.5 mm"',
    "dryfit_file *": "&file",
    "dryfit_fingers *": "&fingers",
    "dryfit_each_move": "each_move",
    "dryfit_write": "write_nowhere",
    "dryfit_progress": "go_on",
    "dryfit_point *": "&point",
    "const dryfit_nm *": "&sample_lengths",
    "dryfit_nm *": "lengths",
    "dryfit_vertex *": "vertices",
    "dryfit_move *": "moves",
    "dryfit_step *": "steps",
    "dryfit_placement *": "placements",
    "dryfit_stock *": "stocks",
    "dryfit_sheet *": "&sheet",
    "dryfit_part *": "&part",
    "dryfit_findings *": "&findings",
}
# Where a type does not say enough.
BY_NAME = {
    ("int64_t", "power"): "0",
    ("dryfit_nm", "run"): "100 * DRYFIT_MM",
    ("dryfit_nm", "width"): "100 * DRYFIT_MM",
    ("dryfit_nm", "height"): "100 * DRYFIT_MM",
    ("const char *", "first"): '"front"',
    ("const char *", "second"): '"left"',
    ("const char *", "board"): '"front"',
}
BY_FUNCTION = {("dryfit_parts_find", "name"): '"front"', ("dryfit_parts_find", "out"): "&needed", ("dryfit_layout_hpgl", "motion"): "&sample_blade", ("dryfit_file_error", "of"): "known_error()"}
# These may be NULL: the caller wants to know no more; it is the callback's own; the blade points along the line already; the corner is 0, 0; all is as
# usual; nobody looks on. A drawing needs no tool. There may be nothing to free.
MAY_BE_NULL = {"error", "user", "offset", "corner", "spec", "progress"}
MAY_BE_NULL_HERE = {("dryfit_layout_svg", "motion"), ("dryfit_layout_dxf", "motion")}
# What is not even well with good arguments: the parts that are at hand have no problem to tell of.
GOOD_STATUS = {"dryfit_report_problem": "DRYFIT_OUT_OF_RANGE"}
SIZES = re.compile("cap|count|(.*_)?size|length")
HANDLES = ("assembly", "parts", "layout", "report")
# What a call may write to, declared before each; and what is done after it.
STAGE = """stage();
    size_t needed = 77; int user = 0; uint32_t number = 0; dryfit_error error; dryfit_point point = {0, 0};
    dryfit_sheet sheet; dryfit_part part; dryfit_findings findings;
    (void)needed; (void)user; (void)number; (void)error; (void)point; (void)sheet; (void)part; (void)findings;"""
CLEAN = "let_go();"


def sizes(function: Function) -> dict[str, Parameter]:
    """The sizes among the parameters, each with the pointer before it whose size it is."""
    pairs = zip(function.parameters[1:], function.parameters, strict=False)
    return {size.name: pointer for size, pointer in pairs if size.type == "size_t" and SIZES.fullmatch(size.name)}


def may_be_null(function: Function, parameter: Parameter) -> bool:
    return parameter.name in MAY_BE_NULL or (function.name, parameter.name) in MAY_BE_NULL_HERE or function.name.endswith("_free")


def good(function: Function, parameter: Parameter) -> str:
    kind = parameter.type.removeprefix("const ")
    if parameter.name in ("file", "fingers") and not function.name.endswith("_begin"):
        return f"begun_{function.name.split('_')[1]}()"
    if parameter.name in sizes(function):
        of = sizes(function)[parameter.name]
        return "ROOM" if not of.type.startswith("const ") else str(len(good(function, of)) - 2) if of.type == "const char *" else "1"
    for handle in HANDLES:
        if kind == f"dryfit_{handle} *":
            return f"good_{handle}()"
        if kind == f"dryfit_{handle} **":
            return f"&made.{handle}"
    if (function.name, parameter.name) in BY_FUNCTION:
        return BY_FUNCTION[function.name, parameter.name]
    known = BY_NAME.get((parameter.type, parameter.name)) or GOOD.get(parameter.type)
    if known is None and parameter.type.startswith("const dryfit_"):
        # Of every struct that goes in there is a sample of its own name; the compiler says if it is missing.
        known = f"&sample_{kind.removeprefix('dryfit_').removesuffix(' *')}"
    if known is None:
        raise LookupError(f"{function.name}: no good {parameter.type} {parameter.name} is known; add one to tests/c/calls.py")
    return known


# What every program has for results of every kind.
ROOMS = """static char bytes[ROOM]; static dryfit_nm lengths[ROOM]; static dryfit_vertex vertices[ROOM]; static dryfit_move moves[ROOM];
static dryfit_step steps[ROOM]; static dryfit_placement placements[ROOM]; static dryfit_stock stocks[ROOM];
void *rooms[] = {bytes, lengths, vertices, moves, steps, placements, stocks};"""


def program(blocks: list[str], header: str) -> str:
    """A program of one function for each block, so that no function is too long for the tools that watch it."""
    lines = [f'#include "{header}"', ROOMS]
    lines += [f"static void block_{at}(void)\n{{\n    {block}\n    {CLEAN}\n}}" for at, block in enumerate(blocks)]
    lines += ["int main(void)\n{"]
    lines += [f"    block_{at}();" for at in range(len(blocks))]
    return "\n".join([*lines, "    return checked();\n}\n"])


def nulls() -> str:
    """Every function once with good arguments, then with NULL for each pointer in turn, then with nothing but NULL and 0."""
    blocks = []
    for function in functions().values():
        arguments = [good(function, parameter) for parameter in function.parameters]
        answers = function.result == "dryfit_status"
        tells = any(parameter.name == "error" for parameter in function.parameters)
        well = GOOD_STATUS.get(function.name, "DRYFIT_OK")
        if answers:
            blocks.append(f"{STAGE}\n    CHECK({function.name}({', '.join(arguments)}) == {well});")
        for at, parameter in enumerate(function.parameters):
            if not parameter.is_pointer:
                continue
            call = f"{function.name}({', '.join('NULL' if at == other else good for other, good in enumerate(arguments))})"
            if not answers:
                blocks.append(f"{STAGE}\n    {call};")
            elif may_be_null(function, parameter):
                blocks.append(f"{STAGE}\n    CHECK({call} == {well});")
            elif tells:
                blocks.append(f'{STAGE}\n    CHECK_REFUSED({call}, DRYFIT_NULL_POINTER, "{parameter.name}");')
            else:
                blocks.append(f"{STAGE}\n    CHECK({call} == DRYFIT_NULL_POINTER);")
        nothing = ", ".join("NULL" if parameter.is_pointer else "0" for parameter in function.parameters)
        needs = any(parameter.is_pointer and not may_be_null(function, parameter) for parameter in function.parameters)
        blocks.append(f"CHECK({function.name}({nothing}) != DRYFIT_OK);" if answers and needs else f"(void){function.name}({nothing});")
    return program(blocks, "samples.h")


def rooms() -> str:
    """Every function that fills memory of the caller: asked how much, given too little, given exactly that."""
    blocks = []
    for function in functions().values():
        kinds = [parameter.name for parameter in function.parameters]
        if kinds[-4:-1] != ["out", "cap", "needed"] and kinds[-3:] != ["out", "cap", "needed"]:
            continue
        at = kinds.index("out")
        fixed = [good(function, parameter) for parameter in function.parameters]
        fixed = [value if not value.startswith("good_") else "handle" for value in fixed]
        handle = next((good(function, parameter) for parameter in function.parameters if good(function, parameter).startswith("good_")), "NULL")

        def call(out: str, cap: str) -> str:
            return f"{function.name}({', '.join([*fixed[:at], out, cap, '&needed', *fixed[at + 3 :]])})"

        blocks.append(f"""{STAGE}
    const void *const handle = {handle}; (void)handle;
    const size_t each = sizeof *{fixed[at]};
    if ({call("NULL", "0")} == {GOOD_STATUS.get(function.name, "DRYFIT_OK")} && needed != 77) {{
        const size_t wanted = needed;
        const size_t caps[] = {{0, 1, wanted / 2, wanted - 1}};
        for (size_t i = 0; i < 4 && wanted > 0; i++) {{
            if (caps[i] < wanted) {{
                unsigned char *const out = room(caps[i], each);
                needed = 77;
                CHECK({call("(void *)out", "caps[i]")} == DRYFIT_BUFFER_TOO_SMALL && needed == wanted);
                for (size_t byte = 0; byte < caps[i] * each; byte++) {{ CHECK(out[byte] == 0xAA); }}
            }}
        }}
        needed = 77;
        CHECK({call("room(wanted, each)", "wanted")} == DRYFIT_OK && needed == wanted);
        needed = 77;
        CHECK({call("room(wanted + 9, each)", "wanted + 9")} == DRYFIT_OK && needed == wanted);
        filled++;
    }}""")
    return program(blocks, "odd.h").replace("    return checked();", f"    CHECK(filled >= {len(blocks) - len(GOOD_STATUS)});\n    return checked();").replace(
        "static void block_0", "static int filled = 0;\nstatic void block_0", 1
    )


def odd(function: Function, parameter: Parameter) -> str:
    """An argument that may have anything wrong with it but its own size in memory."""
    kind, name = parameter.type, parameter.name
    if name in sizes(function):
        return name
    plain = {"double": "odd_double()", "uint32_t": "odd_choice()", "int64_t": "odd_number()", "dryfit_nm": "odd_number()", "dryfit_status": "(int32_t)odd_number()"}
    if kind in plain:
        return plain[kind]
    if kind == "size_t":
        return "odd_index()"
    size = next((size for size, pointer in sizes(function).items() if pointer == parameter), None)
    if size is not None and kind == "const char *":
        return f"odd_text({size})"
    if size is not None and not kind.startswith("const "):
        return f"room({size}, sizeof *{good(function, parameter)})"
    sample = good(function, parameter)
    if sample.startswith("&sample_"):
        sample = sample[1:]
        return f"odd_copy(&{sample}, sizeof {sample}, {pointers(kind.removeprefix('const ').removesuffix(' *'))})"
    return sample


def pointers(struct: str) -> str:
    """From where to where a struct has a pointer and how much it leads to: nobody can tell a wrong one of those."""
    fields = structs().get(struct, {})
    at = next((at for at, kind in enumerate(fields.values()) if "*" in kind), None)
    if at is None:
        return "0, 0"
    names = list(fields)
    return f"offsetof({struct}, {names[at]}), offsetof({struct}, {names[at + 2]})"


def odds(rounds: int) -> str:
    """Every function so many times with odd arguments."""
    blocks = []
    for function in functions().values():
        if function.result != "dryfit_status" or not function.parameters:
            continue
        lines = [STAGE, "memset(&error, 0, sizeof error);"]
        lines += [f"const size_t {size} = {'1' if pointer.type.startswith('const dryfit') else 'odd_room()'};" for size, pointer in sizes(function).items()]
        arguments = [odd(function, parameter) for parameter in function.parameters]
        for at, argument in enumerate(arguments):
            # What is made for the call is made before the callbacks may run dry.
            if argument.startswith(("begun_", "good_")):
                lines.append(f"void *const argument_{at} = {argument};")
                arguments[at] = f"argument_{at}"
        # What an error stands for that a call completes is no matter of how the call ends.
        error = "&error" if any(parameter.name == "error" for parameter in function.parameters) else "NULL"
        lines.append(f"calls_left = below(60); const dryfit_status status = {function.name}({', '.join(arguments)});")
        if "&needed" in arguments and "cap" in sizes(function):
            lines.append("if (status == DRYFIT_BUFFER_TOO_SMALL) { CHECK(needed > cap && needed != 77); } else if (status == DRYFIT_OK && cap > 0) { CHECK(needed <= cap); }")
        lines.append(f'settle("{function.name}", status, {error});')
        blocks.append(f"for (int round = 0; round < {rounds}; round++) {{\n    " + "\n    ".join(lines) + "\n    }")
    return program(blocks, "odd.h")
