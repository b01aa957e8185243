"""The boards against the host, byte for byte, over the whole folder of vectors and over lines that are none."""

import every
import dialogue


def test_every_byte_is_the_hosts(heard, spoken):
    ours, theirs = dialogue.plain(heard), dialogue.plain(spoken)
    if ours != theirs:
        at = next((k for k, (a, b) in enumerate(zip(ours, theirs)) if a != b), min(len(ours), len(theirs)))
        raise AssertionError((at, ours[at - 200 : at + 100], theirs[at - 200 : at + 100]))
    # More than lines of errors.
    assert theirs.count(b"\nM2\n") > 400 and theirs.count(b"\nok\n") > 1000


def test_whatever_came_it_answered_and_went_on(heard):
    answers = dialogue.answers(heard)
    assert {answer.end.split(" ")[0] for answer in answers} == {"ok", "error", "refused"}
    # The clock and the stack were really measured, wherever the library was called.
    for one, answer in zip(every.every(), answers, strict=True):
        called = answer.end.startswith(("ok", "error")) and not one.line.startswith(b"machine ")
        assert (answer.ticks > 0, answer.stack > 0) == (called, called), one
