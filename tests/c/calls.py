"""C that misuses every function of the header in turn, made from the header itself, so that no function is forgotten."""

from header import Function, Parameter, functions

# A good argument for each type, in the words of programs/samples.h.
GOOD = {
    "double": "2.5",
    "int64_t": "1000",
    "uint32_t": "0",
    "dryfit_nm": "3 * DRYFIT_MM",
    "dryfit_status": "DRYFIT_NULL_POINTER",
    "size_t *": "&needed",
    "void *": "&user",
    "uint32_t *": "&number",
    "dryfit_error *": "&error",
    "dryfit_nm *": "lengths",
    "char *": "bytes",
    "const char *": '"2.5 mm"',
    "dryfit_vertex *": "vertices",
    "dryfit_point *": "&point",
    "dryfit_file *": "&file",
    "dryfit_each_move": "each_move",
    "dryfit_write": "write_nowhere",
    "const dryfit_error *": "&sample_error",
    "const dryfit_joint *": "&sample_joint",
    "const dryfit_edge *": "&sample_edge",
    "const dryfit_flat_box *": "&sample_box",
    "const dryfit_knife *": "&sample_knife",
    "const dryfit_machine *": "&sample_machine",
    "const dryfit_move *": "&sample_move",
    "const dryfit_point *": "&sample_point",
}
# Where a type does not say enough.
BY_NAME = {("int64_t", "power"): "0", ("dryfit_nm", "run"): "100 * DRYFIT_MM", ("dryfit_nm", "width"): "100 * DRYFIT_MM", ("dryfit_nm", "height"): "100 * DRYFIT_MM"}
# These may be NULL: the caller wants to know no more; it is the callback's own; the blade points along the line already; the corner is 0, 0.
MAY_BE_NULL = {"error", "user", "offset", "corner"}
# What a call may write to, declared before each.
STAGE = """size_t needed = 77; int user = 0; uint32_t number = 0; dryfit_error error; dryfit_point point = {0, 0};
    (void)needed; (void)user; (void)number; (void)error; (void)point; calls_left = ROOM;"""


def sizes(function: Function) -> dict[str, Parameter]:
    """The sizes among the parameters, each with the pointer before it whose size it is."""
    pairs = zip(function.parameters[1:], function.parameters, strict=False)
    return {size.name: pointer for size, pointer in pairs if size.type == "size_t" and pointer.is_pointer}


def good(function: Function, parameter: Parameter) -> str:
    if parameter.name == "file" and not function.name.endswith("_begin"):
        return f"begun_{function.name.split('_')[1]}()"
    if parameter.type == "size_t":
        of = sizes(function)[parameter.name]
        return {"const char *": "6"}.get(of.type, "1" if of.type.startswith("const") else "ROOM")
    try:
        return BY_NAME.get((parameter.type, parameter.name)) or GOOD[parameter.type]
    except KeyError:
        raise LookupError(f"{function.name}: no good {parameter.type} {parameter.name} is known; add one to tests/c/calls.py") from None


def program(blocks: list[str], header: str) -> str:
    """A program of one function for each block, so that no function is too long for the tools that watch it."""
    lines = [f'#include "{header}"', "static char bytes[ROOM]; static dryfit_nm lengths[ROOM]; static dryfit_vertex vertices[ROOM];"]
    lines += [f"static void block_{at}(void)\n{{\n    {block}\n}}" for at, block in enumerate(blocks)]
    lines += ["int main(void)\n{", "    (void)bytes; (void)lengths; (void)vertices;"]
    lines += [f"    block_{at}();" for at in range(len(blocks))]
    return "\n".join([*lines, "    return checked();\n}\n"])


def nulls() -> str:
    """Every function once with good arguments, then with NULL for each pointer in turn, then with nothing but NULL and 0."""
    blocks = []
    for function in functions().values():
        arguments = [good(function, parameter) for parameter in function.parameters]
        answers = function.result == "dryfit_status"
        tells = any(parameter.name == "error" for parameter in function.parameters)
        if answers:
            blocks.append(f"{STAGE}\n    CHECK({function.name}({', '.join(arguments)}) == DRYFIT_OK);")
        for at, parameter in enumerate(function.parameters):
            if not parameter.is_pointer:
                continue
            call = f"{function.name}({', '.join('NULL' if at == other else good for other, good in enumerate(arguments))})"
            if not answers:
                blocks.append(f"{STAGE}\n    {call};")
            elif parameter.name in MAY_BE_NULL:
                blocks.append(f"{STAGE}\n    CHECK({call} == DRYFIT_OK);")
            elif tells:
                blocks.append(f'{STAGE}\n    CHECK_REFUSED({call}, DRYFIT_NULL_POINTER, "{parameter.name}");')
            else:
                blocks.append(f"{STAGE}\n    CHECK({call} == DRYFIT_NULL_POINTER);")
        nothing = ", ".join("NULL" if parameter.is_pointer else "0" for parameter in function.parameters)
        needs = any(parameter.is_pointer and parameter.name not in MAY_BE_NULL for parameter in function.parameters)
        blocks.append(f"CHECK({function.name}({nothing}) != DRYFIT_OK);" if answers and needs else f"(void){function.name}({nothing});")
    return program(blocks, "samples.h")


def odd(function: Function, parameter: Parameter) -> str:
    """An argument that may have anything wrong with it but its own size in memory."""
    kind, name = parameter.type, parameter.name
    if parameter.type == "size_t":
        return name
    size = next((size for size, pointer in sizes(function).items() if pointer == parameter), None)
    plain = {"double": "odd_double()", "uint32_t": "odd_choice()", "int64_t": "odd_number()", "dryfit_nm": "odd_number()", "dryfit_status": "(int32_t)odd_number()"}
    if kind in plain:
        return plain[kind]
    if size is not None and kind == "const char *":
        return f"odd_text({size})"
    if size is not None and not kind.startswith("const "):
        return f"room({size}, sizeof *{good(function, parameter)})"
    if kind.startswith("const ") and name != "file":
        sample = good(function, parameter).removeprefix("&")
        return f"odd_copy(&{sample}, sizeof {sample})"
    return good(function, parameter)


def odds(rounds: int) -> str:
    """Every function so many times with odd arguments."""
    blocks = []
    for function in functions().values():
        if function.result != "dryfit_status" or not function.parameters:
            continue
        lines = [STAGE.replace("calls_left = ROOM;", "calls_left = below(200);"), "memset(&error, 0, sizeof error);"]
        lines += [f"const size_t {size} = {'1' if pointer.type.startswith('const dryfit') else 'odd_room()'};" for size, pointer in sizes(function).items()]
        # Files are begun before their callback may run dry.
        arguments = []
        for parameter in function.parameters:
            argument = odd(function, parameter)
            if argument.startswith("begun_"):
                lines.insert(1, f"calls_left = ROOM; void *const begun = {argument}; calls_left = below(60);")
                argument = "begun"
            arguments.append(argument)
        error = "&error" if "&error" in arguments else "NULL"
        lines.append(f"const dryfit_status status = {function.name}({', '.join(arguments)});")
        if "&needed" in arguments and "cap" in sizes(function):
            lines.append("if (status == DRYFIT_BUFFER_TOO_SMALL) { CHECK(needed > cap && needed != 77); } else if (status == DRYFIT_OK && cap > 0) { CHECK(needed <= cap); }")
        lines.append(f'settle("{function.name}", status, {error});')
        blocks.append(f"for (int round = 0; round < {rounds}; round++) {{\n    " + "\n    ".join(lines) + "\n    }")
    return program(blocks, "odd.h")
