"""The host's answers against the oracle's vectors: whole nanometres, and G-code on its grid of four decimals."""

import programs
import pytest
import vectors
from asked import NUMBER

# The buffer of the service holds no more boundaries or vertices; programs are streamed and know no such limit.
ROOM = 128
TOO_SMALL = "error 811 "


def numbers(answer):
    return [[int(word) for word in line.split(" ")] for line in answer.lines]


def sort(group, size=len):
    """The answers that were made, with what the oracle says; errors and what is larger than the buffer are looked at here."""
    refused = large = 0
    for one, answer in group:
        if one.wanted is None:
            refused += 1
            code = int(answer.end.removeprefix("error ").split(" ")[0])
            assert not answer.lines and 101 <= code < 500, (one, answer)
        elif size(one.wanted) > ROOM:
            large += 1
            assert answer.end.startswith(TOO_SMALL) and not answer.lines, (one, answer)
        else:
            assert answer.end == "ok", (one, answer)
            yield one.wanted, answer
    assert refused and (large or size is not len)


def test_lengths(host):
    for wanted, answer in sort(host["lengths"], size=lambda nm: 1):
        assert numbers(answer) == [[wanted]]


def test_patterns(host):
    for wanted, answer in sort(host["patterns"], size=lambda made: len(made) - 1):
        assert [number for number, in numbers(answer)] == wanted


def test_vertices(host):
    for wanted, answer in sort(host["vertices"]):
        assert numbers(answer) == [[x, y, NUMBER[f"ROLE_{role.upper()}"]] for x, y, role in wanted]


def test_tails(host):
    seen = 0
    for wanted, answer in sort(host["tails"], size=lambda made: 1):
        made = numbers(answer)
        assert {role for _, _, role in made[:-1]} == {NUMBER["ROLE_FLANK"]}
        assert [[x, y] for x, y, _ in made][1:-1] == wanted[1:-1]
        assert [y for _, y, _ in made] == [y for _, y in wanted]
        seen += 1
    assert seen > 20


@pytest.mark.parametrize("group", ["edges", "fingers"])
def test_edges_as_programs(host, group):
    for wanted, answer in sort(host[group], size=lambda made: 1):
        program, = programs.programs(answer.lines)
        assert programs.ways(program) == [programs.steps([x, y] for x, y, _ in wanted)]


def test_panels(host):
    large = 0
    for one, answer in host["panels"]:
        if one.wanted is None:
            # An open box has no top.
            assert answer.end.startswith("error 302 "), (one, answer)
        elif answer.end.startswith(TOO_SMALL):
            large += 1
        else:
            assert answer.end == "ok", (one, answer)
            assert vectors.clean([[x, y] for x, y, _ in numbers(answer)]) == one.wanted, one
    assert 0 < large < 20


def test_boxes_as_programs(host):
    for one, answer in host["boxes"]:
        assert answer.end == "ok", one
        made = programs.programs(answer.lines)
        assert len(made) == len(one.wanted)
        for face, program in enumerate(made):
            assert f"(title: {vectors.FACES[face]})" == program[0]
            way, = programs.ways(program)
            assert way[0] == way[-1]
            assert vectors.clean(way[:-1]) == vectors.clean(programs.steps(one.wanted[face])), one


def test_broken_lines(host):
    for one, answer in host["broken"]:
        assert (answer.lines, answer.end) == ([], one.wanted), one
