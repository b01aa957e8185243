"""`gaps`: arrays in and out, what they may look like, and what is refused."""

import array
import pickle
from decimal import Decimal
from fractions import Fraction
from typing import Any

import dryfit as df
import numpy as np
import pytest
from conftest import turns_during

FIT = df.Fit(flank=0.05, cheek=0.1, tip=-0.02)


def by_hand(thickness: Any, kerf: Any, board: Any, cut: Any) -> list[Any]:
    """The rule, in Python's whole numbers."""
    t, k, b, c = (round(float(value) * 1e6) for value in (thickness, kerf, board, cut))
    d, thin = c // 2 - k // 2, t - b
    gaps = [50_000 + 2 * d, 100_000 + d, 100_000 + 2 * d + thin]
    return [value / 1e6 for value in (*gaps, -20_000 - d + thin, min(gaps), max(gaps))]


def test_every_value_is_that_of_the_rule() -> None:
    rng = np.random.default_rng(7)
    thickness, board = rng.uniform(0.5, 20, (2, 40, 1, 3))
    kerf, cut = rng.uniform(0, 1, (40, 5, 1)), rng.uniform(0, 1, 3)
    gaps = df.gaps(thickness=thickness, kerf=kerf, real_thickness=board, real_kerf=cut, fit=FIT)
    assert gaps.shape == (40, 5, 3)
    wide = np.broadcast_arrays(thickness, kerf, board, cut)
    for at in np.ndindex(gaps.shape):
        assert [column[at] for column in gaps.columns().values()] == by_hand(*(values[at] for values in wide)), at


def test_what_is_left_out_is_as_meant() -> None:
    gaps = df.gaps(thickness=3, fit=FIT)
    assert gaps.shape == () and gaps == df.gaps(thickness=3, kerf=0, real_thickness=3, real_kerf="0 mm", fit=FIT)
    assert [float(column) for column in gaps.columns().values()] == [0.05, 0.1, 0.1, -0.02, 0.05, 0.1]
    assert df.gaps(thickness=3, flank=0.05, cheek="0.1 mm", tip=-0.02) == gaps
    assert df.gaps(thickness=[3, 4], kerf=[0.1, 0.2]).flank.tolist() == [0, 0]


@pytest.mark.parametrize("values", [
    [2.5, 3, "3.5 mm"], (Decimal("2.5"), Fraction(3), np.float32(3.5)), np.array([2.5, 3, 3.5], ">f8"), np.array([2.5, 3, 3.5], "f4"),
    np.array(["2.5", "3 mm", "0.35 cm"]), np.array([2.5, "3", 3.5], object), array.array("d", [2.5, 3, 3.5]), memoryview(array.array("f", [2.5, 3, 3.5])),
    np.array([2.5, 0, 3, 0, 3.5])[::2], np.array([3.5, 3, 2.5])[::-1], np.array([[2.5, 9], [3, 9], [3.5, 9]])[:, 0], np.ma.masked_array([2.5, 3, 3.5]),
    np.array([5, 6, 7], "u1") / np.float64(2), np.frombuffer(b"." + np.array([2.5, 3, 3.5]).tobytes(), "u1")[1:].view("f8"),
])  # fmt: skip
def test_arrays_of_many_kinds(values: Any) -> None:
    assert df.gaps(thickness=4, real_thickness=values).cheek.tolist() == [1.5, 1, 0.5]


def test_columns_of_tables() -> None:
    pandas = pytest.importorskip("pandas")
    table = pandas.DataFrame({"board": [2.5, 3, 3.5], "named": ["2.5", "3 mm", "0.35 cm"]}, index=["a", "b", "c"])
    for column in (table["board"], table["board"].astype("Float64"), table["named"]):
        assert df.gaps(thickness=4, real_thickness=column).cheek.tolist() == [1.5, 1, 0.5]
    assert df.gaps(thickness=4, real_thickness=table[["board", "board"]]).cheek.tolist() == [[1.5, 1.5], [1, 1], [0.5, 0.5]]
    with pytest.raises(df.NotFinite, match="real_thickness\\[1\\]: nan given"):
        df.gaps(thickness=4, real_thickness=table["board"].where([True, False, True]))


def test_whole_numbers_are_millimetres() -> None:
    for dtype in ("i1", "u2", "i8", ">i4"):
        assert df.gaps(thickness=np.array([3, 4], dtype), real_thickness=np.int64(3)).cheek.tolist() == [0, 1]


def test_neither_layout_nor_writing_rights_matter() -> None:
    boards = np.arange(1, 13, dtype=float).reshape(3, 4)
    frozen = boards.copy()
    frozen.flags.writeable = False
    wanted = df.gaps(thickness=boards, real_kerf=0.1)
    for same in (np.asfortranarray(boards), frozen, boards.tolist(), np.repeat(boards, 2, axis=1)[:, ::2]):
        assert df.gaps(thickness=same, real_kerf=0.1) == wanted


NAN, INF = float("nan"), float("inf")
REFUSED: list[tuple[dict[str, Any], type[df.DryfitError], str]] = [
    ({"thickness": [3, NAN]}, df.NotFinite, "thickness[1]: nan given, allowed 0.01 mm to 200 mm"),
    ({"thickness": np.array([[3, 3, 3], [3, 3, -INF]])}, df.NotFinite, "thickness[1][2]: -inf given, allowed 0.01 mm to 200 mm"),
    ({"thickness": 3, "kerf": np.array([0.1, -0.1])}, df.OutOfRange, "kerf[1]: -0.1 mm given, allowed 0 mm to 20 mm"),
    ({"thickness": 3, "kerf": np.array([1e300])}, df.OutOfRange, "kerf[0]: 1e300 given, allowed 0 mm to 20 mm"),
    ({"thickness": 3, "real_kerf": [[0.1], [21]]}, df.OutOfRange, "real_kerf[1][0]: 21 mm given"),
    ({"thickness": 3, "real_thickness": np.array([3, 0], "i4")}, df.OutOfRange, "real_thickness[1]: 0 mm given"),
    ({"thickness": ["3 mm", "3 yards"]}, df.NotALength, "thickness[1]: '3 yards' given"),
    ({"thickness": [3, True]}, df.WrongType, "thickness[1]: True given"),
    ({"thickness": [3, None]}, df.WrongType, "thickness[1]: None given"),
    ({"thickness": [[3, 3], [3]]}, df.WrongType, "thickness[0]: [3, 3] given"),
    ({"thickness": np.ma.masked_array([3.0, 3.0], [False, True])}, df.NotFinite, "thickness[1]: nan given"),
    ({"thickness": np.ma.masked_array(["3 mm", "3 mm"], [False, True])}, df.NotFinite, "thickness[1]: nan given"),
    ({"thickness": np.ma.masked_array([3, "3 mm"], [False, True], object)}, df.NotFinite, "thickness[1]: nan given"),
    ({"thickness": {3}}, df.WrongType, "thickness: {3} given"),
    ({"thickness": []}, df.OutOfRange, "thickness: an empty array of shape (0,) given, allowed one value or more"),
    ({"thickness": np.zeros((2, 0))}, df.OutOfRange, "thickness: an empty array of shape (2, 0) given"),
    ({"thickness": np.array([3j])}, df.WrongType, "thickness: array([0.+3.j]) given, allowed a number of mm, a string"),
    ({"thickness": np.array([True])}, df.WrongType, "thickness: array([ True]) given"),
    ({"thickness": np.array(["2020-01-01"], "M8")}, df.WrongType, "thickness: array(['2020-01-01']"),
    ({"thickness": b"3"}, df.WrongType, "thickness: b'3' given"),
    ({"thickness": {3: 4}}, df.WrongType, "thickness: {3: 4} given"),
    ({"thickness": (3 for _ in "ab")}, df.WrongType, "thickness: <generator"),
    ({"thickness": None}, df.WrongType, "thickness: None given"),
    ({"thickness": np.array(NAN)}, df.NotFinite, "thickness: array(nan) given"),
    ({"thickness": [3, 3], "kerf": [0, 0, 0], "real_kerf": 0.1}, df.WrongType,
     "thickness, kerf: arrays of shape (2,), (3,) given, allowed shapes that numpy broadcasts together"),
    ({"thickness": 3, "fit": 0.1}, df.WrongType, "fit: 0.1 given, allowed a Fit"),
    ({"thickness": 3, "fit": FIT, "tip": 0}, df.UnknownKey, "fit, flank, cheek, tip: given together"),
    ({"thickness": 3, "flank": [0, 11]}, df.OutOfRange, "flank[1]: 11 mm given, allowed -10 mm to 10 mm"),
]  # fmt: skip


@pytest.mark.parametrize(("given", "error", "text"), REFUSED, ids=[text for _, _, text in REFUSED])
def test_refusals(given: dict[str, Any], error: type[df.DryfitError], text: str) -> None:
    with pytest.raises(error) as refused:
        df.gaps(**given)
    assert str(refused.value).startswith(text) and type(refused.value) is error
    assert refused.value.parameter == text.split(":")[0]


def test_more_rows_than_memory() -> None:
    with pytest.raises(MemoryError):
        df.gaps(thickness=np.ones((100_000, 1, 1, 1)), kerf=np.ones((100_000, 1, 1)), real_kerf=np.ones((100_000, 1)), flank=np.ones(100_000))


def test_results_are_values() -> None:
    gaps = df.gaps(thickness=3, real_thickness=[2.9, 3.1])
    again = pickle.loads(pickle.dumps(gaps))
    assert again == gaps and hash(again) == hash(gaps) and {gaps, again} == {gaps}
    assert gaps != df.gaps(thickness=3, real_thickness=[[2.9, 3.1]]) and gaps != df.gaps(thickness=3, real_thickness=[2.9, 3.2]) and gaps != 3
    assert repr(gaps) == "<dryfit.Gaps of shape (2,): gaps from -0.1 to 0.1 mm>"
    for column in gaps.columns().values():
        assert column.dtype == np.float64 and column.shape == (2,)
        with pytest.raises(ValueError):
            column[0] = 1
    with pytest.raises(AttributeError):
        gaps.flank = 1  # type: ignore[misc, assignment]
    # All arrays look into one block: none is copied.
    assert gaps.flank.base is not None and not gaps.flank.flags.owndata


def test_chunks_make_the_same_bytes() -> None:
    boards = np.linspace(2.5, 3.5, 101)[:, None]
    cuts = np.linspace(0, 0.4, 7)
    whole = df.gaps(thickness=3, kerf=0.2, real_thickness=boards, real_kerf=cuts)
    chunks = [df.gaps(thickness=3, kerf=0.2, real_thickness=chunk, real_kerf=cuts) for chunk in np.array_split(boards, 4)]
    assert df.Gaps.join(chunks) == whole and df.Gaps.join([whole]) == whole
    for chunks, text in [([], "chunks: none given"), ([df.gaps(thickness=3)], "chunks: a sweep of single values"), ([whole, df.gaps(thickness=[3])], "chunks: several shapes")]:
        with pytest.raises(df.WrongType, match=text):
            df.Gaps.join(chunks)
    with pytest.raises(df.WrongType, match=r"chunks\[1\]: 3 given, allowed Gaps"):
        df.Gaps.join([whole, 3])  # type: ignore[list-item]


def test_others_run_meanwhile_and_may_write_into_what_was_given() -> None:
    boards = np.full(400_000, 3.0)

    def write() -> None:
        boards[:] = NAN
        boards[:] = 3.0

    def sweep() -> None:
        try:
            made = df.gaps(thickness=3, real_thickness=boards)
        except df.NotFinite as refused:
            assert refused.parameter.startswith("real_thickness[")
        else:
            assert float(made.cheek[0]) == float(made.cheek[-1]) == 0

    assert turns_during(sweep, enough=3, work=write) >= 3
