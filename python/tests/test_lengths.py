"""What counts as a length, and what does not."""

from decimal import Decimal
from fractions import Fraction
from typing import Any

import dryfit as df
import numpy as np
import pytest


def read(value: Any) -> float:
    return df.Fit(cheek=value).cheek


@pytest.mark.parametrize(
    ("given", "mm"),
    [
        (2, 2.0),
        (0.1, 0.1),
        (-0.25, -0.25),
        ("3/32 in", 2.38125),
        ("0.1 mm", 0.1),
        ("2 mm", 2.0),
        ("0.2 cm", 2.0),
        (" 1 1/2 mm ", 1.5),
        (np.float32(0.5), 0.5),
        (np.float64(0.1), 0.1),
        (np.int64(3), 3.0),
        (np.uint8(3), 3.0),
        (np.array(0.25), 0.25),
        (np.str_("2 mm"), 2.0),
        (Decimal("0.1"), 0.1),
        (Fraction(1, 8), 0.125),
    ],
)
def test_lengths(given: Any, mm: float) -> None:
    assert read(given) == mm


@pytest.mark.parametrize(
    ("given", "kind"),
    [
        (float("nan"), df.NotFinite),
        (float("inf"), df.NotFinite),
        (Decimal("NaN"), df.NotFinite),
        (np.float64("-inf"), df.NotFinite),
        (True, df.WrongType),
        (np.True_, df.WrongType),
        (1j, df.WrongType),
        ([1], df.WrongType),
        (b"2 mm", df.WrongType),
        (object(), df.WrongType),
        ("", df.NotALength),
        ("2 parsecs", df.NotALength),
        ("1/0 mm", df.NotALength),
        ("\ud800", df.NotALength),
        ("nan", df.NotALength),
        (10.000001, df.OutOfRange),
        ("1 m", df.OutOfRange),
        (10**400, df.OutOfRange),
        (-(10**30), df.OutOfRange),
        (1e300, df.OutOfRange),
    ],
)
def test_no_lengths(given: Any, kind: type[df.DryfitError]) -> None:
    with pytest.raises(df.DryfitError) as caught:
        read(given)
    assert type(caught.value) is kind
    assert caught.value.parameter == "cheek"
    message = str(caught.value)
    assert message.startswith("cheek: ") and " given, allowed " in message and "\n" not in message and len(message) < 250


def test_the_mean_of_readings_is_exact() -> None:
    stock = df.Stock(thickness=[2.46, "2.53 mm", Decimal("2.49"), Fraction(255, 100)], sheet=(500, 350))
    assert stock.thickness == 2.5075
    assert df.Stock(thickness=np.array([2.4, 2.5]), sheet=(500, 350)).thickness == 2.45
    assert df.Stock(thickness=(x for x in (1, 1, 2)), sheet=(500, 350)).thickness == 1.333333


@pytest.mark.parametrize(
    ("arguments", "parameter"),
    [
        (dict(thickness=0, sheet=(500, 350)), "thickness"),
        (dict(thickness=None, sheet=(500, 350)), "thickness"),
        (dict(thickness=[], sheet=(500, 350)), "thickness"),
        (dict(thickness=[2.5, float("nan")], sheet=(500, 350)), "thickness[1]"),
        (dict(thickness=[2.5, [2.5]], sheet=(500, 350)), "thickness[1]"),
        (dict(thickness=[2.5] * 10_001, sheet=(500, 350)), "thickness"),
        (dict(thickness=2.5, sheet=500), "sheet"),
        (dict(thickness=2.5, sheet="ab"), "sheet"),
        (dict(thickness=2.5, sheet=(500, 350, 2)), "sheet"),
        (dict(thickness=2.5, sheet=(500, "x")), "sheet[1]"),
        (dict(thickness=2.5, sheet=(500, 0)), "sheet[1]"),
        (dict(thickness=2.5, sheet=(500, 350), border=-1), "border"),
        (dict(thickness=2.5, sheet=(500, 350), border=175), "border"),
        (dict(thickness=2.5, sheet=(500, 350), gap="wide"), "gap"),
    ],
)
def test_a_refusal_names_its_parameter(arguments: dict[str, Any], parameter: str) -> None:
    with pytest.raises(df.DryfitError) as caught:
        df.Stock(**arguments)
    assert caught.value.parameter == parameter
