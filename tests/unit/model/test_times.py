"""Lengths of time, times of day and dates: read as meant, or refused with both readings."""

from __future__ import annotations

from datetime import date, time
from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from linebook.model.amounts import Duration
from linebook.model.times import parse_clock_range, parse_date, parse_duration, parse_time, write_duration
from linebook.source.faults import ValueMistake


@pytest.mark.parametrize(
    ("typed", "minutes", "in_days"),
    [
        ("25 min", "25", False),
        ("25min.", "25", False),
        ("1 h 30", "90", False),
        ("1 h 30 min", "90", False),
        ("1h30", "90", False),
        ("1 hour 30 minutes", "90", False),
        ("1½ h", "90", False),
        ("1.5 hrs", "90", False),
        ("90 s", "3/2", False),
        ("1 min 30 s", "3/2", False),
        ("3 d", "4320", True),
        ("2 weeks", "20160", True),
        ("1 wk 2 d", "12960", True),
        ("2 d 12 h", "3600", False),
        ("0 min", "0", False),
        ("3660 d", "5270400", True),
    ],
)
def test_duration(typed: str, minutes: str, in_days: bool) -> None:
    assert parse_duration(typed) == Duration(least=Fraction(minutes), most=Fraction(minutes), in_days=in_days)


@pytest.mark.parametrize(
    ("typed", "least", "most", "in_days"),
    [
        ("16 h to 20 h", 960, 1200, False),
        ("16 to 20 h", 960, 1200, False),
        ("16-20 h", 960, 1200, False),
        ("16 – 20 h", 960, 1200, False),
        ("30 min to 1 h 15", 30, 75, False),
        ("1 h 30 to 2 h", 90, 120, False),
        ("3 to 5 d", 4320, 7200, True),
        ("1 d to 36 h", 1440, 2160, False),
        ("2 h to 2 h", 120, 120, False),
    ],
)
def test_range(typed: str, least: int, most: int, in_days: bool) -> None:
    assert parse_duration(typed, allow_range=True) == Duration(
        least=Fraction(least), most=Fraction(most), in_days=in_days
    )
    with pytest.raises(ValueMistake) as raised:
        parse_duration(typed)
    assert raised.value.code == "LB312"


@pytest.mark.parametrize(
    ("typed", "code", "hint"),
    [
        ("1:30", "LB312", "`1 h 30 min` or `1 min 30 s`"),
        ("90", "LB312", "`90 min`, `90 h` or `90 d`"),
        ("30 m", "LB312", "type `min` for minutes"),
        ("1 month", "LB312", "`30 d`"),
        ("overnight", "LB312", "`10 h to 14 h`"),
        ("10 mintes", "LB312", "`minutes`"),
        ("10 z", "LB312", "`25 min`"),
        ("30 min 1 h", "LB312", "`25 min`"),
        ("1 h 90 min", "LB312", "`25 min`"),
        ("1 h 2 h", "LB312", "`25 min`"),
        ("1 h 30 20", "LB312", "type a number"),
        ("1 wk 1 d 1 h 1 min 1 s", "LB312", "`25 min`"),
        ("1.2.3 h", "LB312", "type a number"),
        ("a while", "LB312", "`25 min`"),
        ("", "LB312", "`25 min`"),
        ("1 h to", "LB312", "`25 min`"),
        ("1 h to 2 h to 3 h", "LB312", "`16 h to 20 h`"),
        ("- 2 h", "LB312", "`16 h to 20 h`"),
        ("20 h to 16 h", "LB315", "`16 h to 20 h`"),
        ("1,5 h", "LB303", "`1.5`"),
        ("3661 d", "LB316", "`25 min`"),
        ("999999999999 wk", "LB316", "`25 min`"),
    ],
)
def test_duration_refused(typed: str, code: str, hint: str) -> None:
    with pytest.raises(ValueMistake) as raised:
        parse_duration(typed, allow_range=True)
    assert raised.value.code == code
    assert hint in " ".join(raised.value.hints)


@pytest.mark.parametrize(
    ("typed", "value"), [("17:30", time(17, 30)), ("9:05", time(9, 5)), ("00:00", time()), (" 23:59 ", time(23, 59))]
)
def test_time(typed: str, value: time) -> None:
    assert parse_time(typed) == value


@pytest.mark.parametrize(
    ("typed", "hint"),
    [
        ("24:00", "`00:00`"),
        ("25:00", "00 to 23"),
        ("17:60", "00 to 59"),
        ("17.30", "`17:30`"),
        ("1730", "`17:30`"),
        ("17h30", "`17:30`"),
        ("17h", "`17:00`"),
        ("5:30 pm", "`17:30`"),
        ("5pm", "`17:00`"),
        ("5 a.m.", "`05:00`"),
        ("12am", "`00:00`"),
        ("12 pm", "`12:00`"),
        ("13 pm", "`17:30`"),
        ("noon", "`17:30`"),
        ("", "`17:30`"),
        ("17:30:00", "`17:30`"),
        ("990", "`17:30`"),
    ],
)
def test_time_refused(typed: str, hint: str) -> None:
    with pytest.raises(ValueMistake) as raised:
        parse_time(typed)
    assert raised.value.code == "LB313"
    assert hint in raised.value.hints[0]


def test_clock_range() -> None:
    assert parse_clock_range("10:00 to 23:30") == (time(10), time(23, 30))
    assert parse_clock_range("16:00–01:00") == (time(16), time(1))


@pytest.mark.parametrize(
    ("typed", "code"),
    [
        ("10:00", "LB313"),
        ("10:00 to", "LB313"),
        ("10 to 11", "LB313"),
        ("10:00 to 10:00", "LB315"),
        ("a to b to c", "LB313"),
    ],
)
def test_clock_range_refused(typed: str, code: str) -> None:
    with pytest.raises(ValueMistake) as raised:
        parse_clock_range(typed)
    assert raised.value.code == code


def test_date() -> None:
    assert parse_date("2027-03-02") == date(2027, 3, 2)
    assert parse_date("2028-02-29") == date(2028, 2, 29)


@pytest.mark.parametrize(
    ("typed", "code", "words"),
    [
        ("2026-02-30", "LB313", "February 2026 has 28"),
        ("2026-12-32", "LB313", "December 2026 has 31"),
        ("2026-04-00", "LB313", "April 2026 has 30"),
        ("2199-12-99", "LB313", "December 2199 has 31"),
        ("2027-13-01", "LB313", "no month 13"),
        ("2027-00-01", "LB313", "no month 0"),
        ("2/3/2027", "LB313", "`2027-02-03` or `2027-03-02`"),
        ("31.12.2026", "LB313", "`2026-12-31`"),
        ("2027/3/2", "LB313", "`2027-03-02`"),
        ("2027-3-2", "LB313", "`2027-03-02`"),
        ("99/99/2027", "LB313", "`2027-03-02`"),
        ("1/2/3", "LB313", "`2027-03-02`"),
        ("2 March 2027", "LB313", "`2027-03-02`"),
        ("2nd Mar. 2027", "LB313", "`2027-03-02`"),
        ("1 may 2027", "LB313", "`2027-05-01`"),
        ("1 jun 2027", "LB313", "`2027-06-01`"),
        ("1 zzz 2027", "LB313", "the year, the month"),
        ("1 juu 2027", "LB313", "the year, the month"),
        ("today", "LB313", "the year, the month"),
        ("", "LB313", "the year, the month"),
        ("1999-01-01", "LB316", "2000 to 2199"),
        ("2200-01-01", "LB316", "2000 to 2199"),
        ("٢٠٢٧-٠٣-٠٢", "LB313", "the year, the month"),
    ],
)
def test_date_refused(typed: str, code: str, words: str) -> None:
    with pytest.raises(ValueMistake) as raised:
        parse_date(typed)
    assert raised.value.code == code
    assert words in " ".join((raised.value.message, *raised.value.hints))


@pytest.mark.parametrize(
    ("typed", "written"),
    [
        ("90 min", "1 h 30 min"),
        ("60 min", "1 h"),
        ("7 h to 9 h", "7 h to 9 h"),
        ("72 h", "72 h"),
        ("3 d", "3 d"),
        ("90 s", "1 min 30 s"),
        ("30 s", "30 s"),
        ("0 min", "0 min"),
        ("1/7 min", "1/7 min"),
        ("1 to 2 wk", "7 d to 14 d"),
    ],
)
def test_writing(typed: str, written: str) -> None:
    assert write_duration(parse_duration(typed, allow_range=True)) == written


@given(
    st.fractions(min_value=0, max_value=5000, max_denominator=600),
    st.fractions(min_value=0, max_value=5000, max_denominator=60),
)
def test_what_is_written_reads_back_exactly(least: Fraction, more: Fraction) -> None:
    duration = Duration(least=least, most=least + more)
    assert parse_duration(write_duration(duration), allow_range=True) == duration


@given(st.integers(1, 3000), st.integers(0, 600))
def test_days_read_back_as_days(days: int, more: int) -> None:
    duration = Duration(least=Fraction(days * 1440), most=Fraction((days + more) * 1440), in_days=True)
    assert parse_duration(write_duration(duration), allow_range=True) == duration
