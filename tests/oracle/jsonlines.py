"""A JSON array with one case a line, so that differences can be read."""

import json


def dump(cases):
    lines = [json.dumps(case, ensure_ascii=True, separators=(",", ":")) for case in cases]
    return "[\n" + ",\n".join(lines) + "\n]\n"
