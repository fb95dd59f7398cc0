"""Numbers as cooks write them: exact, or refused with what to type instead."""

from __future__ import annotations

from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from linebook.model.numbers import MOST_DIGITS, parse_number, quote, write_number
from linebook.source.faults import ValueMistake


@pytest.mark.parametrize(
    ("typed", "value"),
    [
        ("3", "3"),
        ("0", "0"),
        ("2.5", "5/2"),
        ("0.125", "1/8"),
        ("1.10", "11/10"),
        ("1/2", "1/2"),
        ("3/2", "3/2"),
        ("1 1/2", "3/2"),
        ("1½", "3/2"),
        ("1 ½", "3/2"),
        ("½", "1/2"),
        ("⅔", "2/3"),
        ("1⁄3", "1/3"),
        ("10/11", "10/11"),
        ("12/16", "3/4"),
        ("12½", "25/2"),
        ("10 10/11", "120/11"),
        ("  2\u00a01/2 ", "5/2"),
        ("999999999999", "999999999999"),
    ],
)
def test_a_number_is_read_exactly(typed: str, value: str) -> None:
    assert parse_number(typed) == Fraction(value)


@pytest.mark.parametrize(
    ("typed", "code", "hint"),
    [
        ("1,5", "LB303", "type `1.5` with a point, or `15` without the comma"),
        ("1,500", "LB303", "type `1.5` with a point, or `1500` without the comma"),
        ("1,000,000", "LB303", "type `1000000` without the comma"),
        ("1,000.5", "LB303", "type `1000.5` without the comma"),
        ("010", "LB301", "type `10`, or `0.10` if a point is missing"),
        ("00", "LB301", "type `0`"),
        ("00.5", "LB301", "type `0.5`"),
        ("1_000", "LB301", "type `1000`"),
        ("1 000", "LB301", "type `1000`"),
        ("1'000", "LB301", "type `1000`"),
        ("1e3", "LB301", "write the number out in full"),
        ("1e400", "LB301", "write the number out in full"),
        ("nan", "LB301", "type a number such as"),
        ("inf", "LB301", "type a number such as"),
        ("0x10", "LB301", "type a number such as"),
        ("2**3", "LB301", "type a number such as"),
        ("1-1/2", "LB303", "type `1 1/2` with a space"),
        ("4-6", "LB301", "type a number such as"),
        (".5", "LB301", "type `0.5`"),
        ("5.", "LB301", "type `5`"),
        ("1/0", "LB301", "type a fraction"),
        ("1 3/2", "LB301", "type `2 1/2`"),
        ("1/2/3", "LB301", "type a number such as"),
        ("½½", "LB301", "type a number such as"),
        ("1.2.3", "LB301", "type a number such as"),
        ("-3", "LB310", "type `3`"),
        ("+3", "LB301", "type `3`"),
        ("", "LB301", "type a number such as"),
        ("1" * (MOST_DIGITS + 1), "LB316", "shorter number"),
        ("1/" + "3" * 5000, "LB316", "shorter number"),
        ("٣", "LB301", "type a number such as"),
        ("３", "LB301", "type a number such as"),
        ("2²", "LB301", "type a number such as"),
        ("Ⅷ", "LB301", "type a number such as"),
    ],
)
def test_a_number_that_would_be_guessed_is_refused(typed: str, code: str, hint: str) -> None:
    with pytest.raises(ValueMistake) as raised:
        parse_number(typed)
    assert raised.value.code == code
    assert hint in raised.value.hints[0]


def test_a_comma_says_both_readings() -> None:
    with pytest.raises(ValueMistake, match=r"`1,500` can be read as 1\.5 or as 1500"):
        parse_number("1,500")


@pytest.mark.parametrize(
    ("value", "decimal", "kitchen"),
    [
        ("3", "3", "3"),
        ("5/2", "2.5", "2 1/2"),
        ("1/8", "0.125", "1/8"),
        ("3/8", "0.375", "3/8"),
        ("1/3", "1/3", "1/3"),
        ("5/3", "1 2/3", "1 2/3"),
        ("11/10", "1.1", "1.1"),
        ("1/16", "0.0625", "0.0625"),
        ("1/32", "1/32", "1/32"),
        ("1/7", "1/7", "1/7"),
        ("0", "0", "0"),
        ("-5/2", "-2.5", "-2 1/2"),
        ("100", "100", "100"),
    ],
)
def test_writing(value: str, decimal: str, kitchen: str) -> None:
    assert write_number(Fraction(value)) == decimal
    assert write_number(Fraction(value), fractions=True) == kitchen


@given(st.fractions(min_value=0, max_value=9999, max_denominator=9999), st.booleans())
def test_what_is_written_reads_back_exactly(number: Fraction, fractions: bool) -> None:
    assert parse_number(write_number(number, fractions=fractions)) == number


@given(st.text(max_size=30) | st.text(alphabet="0123456789.,/ ½⅓-_eE+x'", max_size=20))
def test_any_text_is_a_number_or_a_mistake(text: str) -> None:
    try:
        number = parse_number(text)
    except ValueMistake as mistake:
        found = mistake
    else:
        found = None
    if found:
        assert found.code in ("LB301", "LB303", "LB310", "LB316")
        assert found.hints
    else:
        assert number >= 0
        assert parse_number(write_number(number)) == number


def test_long_text_is_shortened_where_it_is_quoted() -> None:
    assert quote("a  b") == "`a b`"
    assert len(quote("x" * 500)) == 42
