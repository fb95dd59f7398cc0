"""Exact numbers hold what the standard library's fractions hold: every sum, text, hash and error against theirs."""

from __future__ import annotations

import copy
import fractions
import math
import operator
import pickle
from collections.abc import Callable
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from linebook.source.exact import Fraction

_SUMS = (operator.add, operator.sub, operator.mul, operator.truediv, operator.floordiv, operator.mod, divmod)
_COMPARISONS = (operator.eq, operator.ne, operator.lt, operator.le, operator.gt, operator.ge)
_OF_ONE: tuple[Callable[[Any], object], ...] = (
    *(str, repr, hash, float, bool, int, round, math.floor, math.ceil, operator.neg, operator.pos, abs),
    lambda one: (one.numerator, one.denominator),
    lambda one: round(one, 2),
    lambda one: one.limit_denominator(7),
    lambda one: one**2,
    lambda one: f"{float(one):.3f}",
)

standard = st.fractions() | st.fractions(-4, 4, max_denominator=12)
others = st.integers() | st.integers(-3, 3) | st.floats(allow_nan=False, allow_infinity=False) | standard


def ours(value: object) -> Any:
    return Fraction(value.numerator, value.denominator) if type(value) is fractions.Fraction else value


def told(ask: Callable[[], object]) -> tuple[object, ...]:
    """What an operation gives: its value and whether that is exact, or its error in full."""
    try:
        value = ask()
    except Exception as mistake:
        return type(mistake), str(mistake)
    return value, isinstance(value, fractions.Fraction), str(value)


@given(one=standard, other=others)
@pytest.mark.parametrize("way", [*_SUMS, *_COMPARISONS])
def test_two_numbers_give_what_the_standard_ones_give(
    one: fractions.Fraction, other: Any, way: Callable[[Any, Any], object]
) -> None:
    assert told(lambda: way(ours(one), ours(other))) == told(lambda: way(one, other))
    assert told(lambda: way(ours(other), ours(one))) == told(lambda: way(other, one))
    assert told(lambda: way(ours(one), other)) == told(lambda: way(one, other))  # with a standard one, too
    assert told(lambda: way(other, ours(one))) == told(lambda: way(other, one))


@given(one=standard)
@pytest.mark.parametrize("way", _OF_ONE)
def test_one_number_gives_what_the_standard_one_gives(one: fractions.Fraction, way: Callable[[Any], object]) -> None:
    assert told(lambda: way(ours(one))) == told(lambda: way(one))


@given(numerator=st.integers() | st.integers(-9, 9), denominator=st.integers() | st.integers(-9, 9))
def test_a_number_is_made_of_two_as_the_standard_one(numerator: int, denominator: int) -> None:
    assert told(lambda: Fraction(numerator, denominator)) == told(lambda: fractions.Fraction(numerator, denominator))


@pytest.mark.parametrize("given", ["3/4", " -1.25 ", "1e3", 0.5, True, None, "", "1/0", fractions.Fraction(2, 3), [1]])
def test_a_number_is_read_as_the_standard_one(given: Any) -> None:
    assert told(lambda: Fraction(given)) == told(lambda: fractions.Fraction(given))


def test_a_number_is_copied_sent_and_found_in_a_mapping_as_itself() -> None:
    one = Fraction(473, 2)
    assert Fraction(one) is one
    for other in (copy.copy(one), copy.deepcopy(one), pickle.loads(pickle.dumps(one))):
        assert (other, type(other)) == (one, Fraction)
    assert {fractions.Fraction(473, 2): "cup"}[one] == "cup"
    held: dict[object, str] = {Fraction(2): "two"}
    assert held[2] == "two"


def test_sums_stay_quick() -> None:
    total = sum((Fraction(1, part) for part in range(1, 9)), Fraction(0))
    assert (total, type(total), type(2 * total), type(1 + total), type(total / 3)) == (
        fractions.Fraction(761, 280),
        *(Fraction,) * 4,
    )
