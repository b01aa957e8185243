"""Request lines: a joint, an edge, a box as the service reads them."""

from header import constants

NUMBER = constants()
JOINT = ("kind", "count", "parity", "first", "numerator", "denominator", "ends", "width", "spacing", "end", "least")


def line(word, *numbers):
    return " ".join([word, *map(str, numbers)]).encode()


def joint(spec):
    """The numbers of a joint that is written as in the vectors; 0 for what is not said."""
    asked = {"first": NUMBER[f"SIDE_{spec['first']}"]} if "first" in spec else {}
    match spec["kind"]:
        case "fingers":
            asked |= {"kind": NUMBER["JOINT_FINGERS"], "least": spec["least"]}
            if "count" in spec:
                asked |= {"count": spec["count"]}
            else:
                asked |= {"width": spec["width"], "parity": NUMBER[f"PARITY_{spec['parity'].upper()}"]}
        case "tabs":
            asked |= {"kind": NUMBER["JOINT_TABS"], "width": spec["width"], "spacing": spec["spacing"], "end": spec["end"] or 0}
        case "halves":
            asked |= {"kind": NUMBER["JOINT_HALVES"], "numerator": spec["split"][0], "denominator": spec["split"][1]}
        case "tails":
            asked |= {"kind": NUMBER["JOINT_TAILS"], "count": spec["count"], "numerator": spec["slope"][0], "denominator": spec["slope"][1]}
            asked |= {"ends": NUMBER[f"ENDS_HALF_{spec['half'].upper()}"], "width": spec["pin"] or 0}
        case "whole":
            asked |= {"kind": NUMBER["JOINT_WHOLE"]}
    return [asked.get(name, 0) for name in JOINT]


def edge(spec, run, thickness, depth, side, flank=0, cheek=0, tip=0, kerf=0):
    return [*joint(spec), run, thickness, depth, flank, cheek, tip, kerf, 0, 0, NUMBER[f"SIDE_{side}"]]


def box(size, thickness, top, finger_width, flank=0, cheek=0, tip=0, kerf=0):
    fingers = [0] * len(JOINT) if finger_width is None else joint({"kind": "fingers", "width": finger_width, "parity": "odd", "least": 0})
    return [*size, thickness, *fingers, flank, cheek, tip, kerf, 0, 0, NUMBER[f"TOP_{top.upper()}"]]
