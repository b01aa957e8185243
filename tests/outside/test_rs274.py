"""The reader of G-code itself, against the report's own words (NIST IR 6556, sections named)."""

import math

import pytest
import rs274

START = "G17 G21 G90 G94 F100\n"


def motion(text, at=(0.0, 0.0, 0.0)):
    return rs274.read(START + text, at).motions[-1]


def test_the_example_of_an_arc():
    """Section 3.5.3.2: from (7, 7), G17 G2 X10 Y16 I3 J4 Z9 runs about (10, 11) with radius 5; its angle and length are worked out by hand."""
    arc = motion("G17 G2 X 10 Y 16 I 3 J 4 Z 9\n", (7.0, 7.0, 0.0))
    assert arc.centre == (10.0, 11.0) and arc.end == (10.0, 16.0, 9.0)
    assert math.degrees(arc.sweep()) == pytest.approx(-143.130102, abs=1e-6)
    assert -5 * arc.sweep() == pytest.approx(12.490458, abs=1e-6)
    points = arc.points()
    assert all(math.hypot(x - 10, y - 11) == pytest.approx(5) for x, y, _ in points) and points[-1] == arc.end


def test_a_circle_ends_where_it_begins():
    """Section 3.5.3.1: in centre format start and end may be one point."""
    assert motion("G3 X0 Y0 I5 J0\n").sweep() == pytest.approx(2 * math.pi)
    assert motion("G2 X0 Y0 I5 J0\n").sweep() == pytest.approx(-2 * math.pi)


@pytest.mark.parametrize(
    "text",
    [
        "G2 X10 Y0 I5.2 J0\n",  # section 3.5.3.2: the radii differ by more than 0.002 mm
        "G2 X10 Y0\n",
        "G2 I5 J0\n",
        "F0 G1 X1\n",  # section 3.5.2: a feed of zero
        "G1 X1 X2\n",  # section 3.3.3.1: a word twice
        "G0 G1 X1\n",  # section 3.4: two words of one modal group
        "G1 X1 (a (b))\n",  # section 3.3.4: comments do not nest
        "G1 X1 (a\n",
        "G4\n",
        "Q5\n",
        "G1 X1e3\n",
        "G20 G1 X1\n",
        "M2\nG0 X1\n",
    ],
)
def test_what_the_report_forbids(text):
    with pytest.raises(rs274.Fault):
        rs274.read(START + text)


def test_a_difference_of_two_micrometres_is_allowed():
    assert motion("G3 X10 Y0 I5.0009 J0\n").centre == (5.0009, 0.0)
    with pytest.raises(rs274.Fault):
        motion("G3 X10 Y0 I5.0011 J0\n")


def test_what_holds_on():
    program = rs274.read("G17 G21 G90 G94\nM3 S500\nG1 X1 F60 (MSG, look)\nY2\nM5\nM0\nG0 Z3\nM2\n")
    assert [(m.kind, m.end, m.feed, m.spindle, m.speed) for m in program.motions] == [
        (1, (1.0, 0.0, 0.0), 60.0, 1, 500.0),
        (1, (1.0, 2.0, 0.0), 60.0, 1, 500.0),
        (0, (1.0, 2.0, 3.0), 60.0, 0, 500.0),
    ]
    assert program.messages == ["look"] and program.stops == [2] and program.ended
