"""Lengths of time, times of day and dates, read from a chef's text and written back; nothing reads the clock.

Dates are year-month-day and times of day have 24 hours; whatever can be read in two ways is refused with both.
"""

from __future__ import annotations

import re
from datetime import date, time
from typing import Final

from linebook.model.amounts import Duration
from linebook.model.mends import mend_duration, mend_time
from linebook.model.numbers import NUMBER_START, clean, parse_number, quote, write_number
from linebook.source.exact import Fraction
from linebook.source.faults import ValueMistake
from linebook.source.nearest import nearest

LONGEST: Final = Fraction(3660 * 1440)
FIRST_YEAR: Final = 2000
LAST_YEAR: Final = 2199

_SPELLINGS: Final = {
    Fraction(7 * 1440): "wk wks week weeks",
    Fraction(1440): "d day days",
    Fraction(60): "h hr hrs hour hours",
    Fraction(1): "min mins minute minutes",
    Fraction(1, 60): "s sec secs second seconds",
}
_MINUTES: Final = {word: minutes for minutes, words in _SPELLINGS.items() for word in words.split()}
_DAY: Final = Fraction(1440)
_MOST_PARTS: Final = 4

_REFUSED: Final = {
    "m": "`m` can be minutes or months: type `min` for minutes",
    "month": "a month has no set length: type days, such as `30 d`",
    "months": "a month has no set length: type days, such as `30 d`",
}
_HINT: Final = "type a number and a unit, such as `25 min`, `1 h 30 min` or `3 d`"
_RANGE_HINT: Final = "type one length of time such as `18 h`, or a range such as `16 h to 20 h`"

_PART: Final = re.compile(rf"([{NUMBER_START}][{NUMBER_START}.,/⁄_ ]*)([A-Za-z]*)\.?\s*")
_TO: Final = re.compile(r"\s+to\s+|\s*[–—-]\s*")
_COLON: Final = re.compile(r"([0-9]{1,3}):([0-9]{2})")
_CLOCK: Final = re.compile(r"([0-9]{1,2}):([0-9]{2})")
_DATE: Final = re.compile(r"([0-9]{4})-([0-9]{2})-([0-9]{2})")
_LOOSE_DATE: Final = r"([0-9]{1,4})[-./ ]([0-9]{1,2})[-./ ]([0-9]{1,4})"
_WORDED_DATE: Final = r"([0-9]{1,2})(?:st|nd|rd|th)?[ -]([A-Za-z]{3,9})\.?,?[ -]([0-9]{4})"
_MONTHS: Final = (
    *("january", "february", "march", "april", "may", "june"),
    *("july", "august", "september", "october", "november", "december"),
)


def parse_duration(text: str, *, allow_range: bool = False) -> Duration:
    """Return a length of time in minutes: ``25 min``, ``1 h 30``, ``3 d``; ``16 h to 20 h`` where a range may stand.

    Raises ValueMistake LB312 (unreadable), LB303 (a comma), LB315 (range backwards), LB316 (over ten years).
    """
    plain = clean(text)
    ends = _TO.split(plain) if len(plain) <= 80 else [plain]
    if len(ends) == 1:
        minutes, in_days = _read_length(plain, plain)
        return Duration(least=minutes, most=minutes, in_days=in_days)
    if len(ends) != 2 or not all(ends):
        raise ValueMistake("LB312", f"{quote(plain)} is not a length of time", (_RANGE_HINT,))
    if not allow_range:
        raise ValueMistake("LB312", f"{quote(plain)} is a range and one length of time is needed", (_HINT,))
    least, least_days = _read_length(_with_unit_of(ends[0], ends[1]), plain)
    most, most_days = _read_length(ends[1], plain)
    if most < least:
        raise ValueMistake("LB315", f"{quote(plain)} ends before it starts", (f"type `{ends[1]} to {ends[0]}`",))
    return Duration(least=least, most=most, in_days=least_days and most_days)


def parse_time(text: str) -> time:
    """Return a time of day such as ``17:30``. Raises ValueMistake LB313."""
    plain = clean(text)
    match = _CLOCK.fullmatch(plain)
    if match is None:
        raise _not_a_time(plain)
    hour, minute = int(match[1]), int(match[2])
    if hour > 23 or minute > 59:
        hints = (
            ("type `00:00` for midnight",) if (hour, minute) == (24, 0) else ("type hours 00 to 23, minutes 00 to 59",)
        )
        raise ValueMistake("LB313", f"{quote(plain)} is no time of day", hints)
    return time(hour, minute)


def parse_clock_range(text: str) -> tuple[time, time]:
    """Return ``10:00 to 23:30``; the end may be after midnight. Raises ValueMistake LB313, LB315 where both are one."""
    plain = clean(text)
    ends = _TO.split(plain) if len(plain) <= 80 else []
    if len(ends) != 2:
        raise ValueMistake("LB313", f"{quote(plain)} is not from one time to another", ("type `10:00 to 23:30`",))
    try:
        first, last = parse_time(ends[0]), parse_time(ends[1])
    except ValueMistake as mistake:
        meant = [mend_time(end) for end in ends]
        hints = (f"type `{meant[0]} to {meant[1]}`",) if all(meant) else mistake.hints
        raise ValueMistake(mistake.code, f"{quote(plain)} is not from one time to another", hints) from None
    if first == last:
        raise ValueMistake("LB315", f"{quote(plain)} ends when it starts", ("type two different times",))
    return first, last


def parse_date(text: str) -> date:
    """Return a date written year-month-day. Raises ValueMistake LB313, LB316 (years 2000 to 2199)."""
    plain = clean(text)
    match = _DATE.fullmatch(plain)
    if match is None:
        raise _not_a_date(plain)
    year, month, day = (int(part) for part in match.groups())
    if not FIRST_YEAR <= year <= LAST_YEAR:
        hint = f"type a year from {FIRST_YEAR} to {LAST_YEAR}"
        raise ValueMistake("LB316", f"the year of {quote(plain)} is out of range", (hint,))
    try:
        return date(year, month, day)
    except ValueError:
        raise _no_such_day(plain, year, month) from None


def write_duration(duration: Duration) -> str:
    """Return a length of time as text that reads back to the same: ``1 h 30 min``, ``7 h to 9 h``, ``3 d``."""
    least = _write_minutes(duration.least, duration.in_days)
    if duration.least == duration.most:
        return least
    return f"{least} to {_write_minutes(duration.most, duration.in_days)}"


def _write_minutes(minutes: Fraction, in_days: bool) -> str:
    if in_days:
        return f"{write_number(minutes / _DAY)} d"
    top, bottom = minutes.as_integer_ratio()
    hours, rest = divmod(top, 60 * bottom)
    whole, part = divmod(rest, bottom)
    words = [f"{hours} h"] if hours else []
    if part and 60 % bottom == 0:
        words += [f"{whole} min"] if whole else []
        words.append(f"{part * 60 // bottom} s")
    elif rest or not hours:
        words.append(f"{write_number(Fraction(rest, bottom))} min")
    return " ".join(words)


def _read_length(text: str, shown: str) -> tuple[Fraction, bool]:
    parts = _split_parts(text, shown)
    total, above, in_days = Fraction(0), None, True
    for number, unit in parts:
        if above is not None and (unit >= above or number * unit >= above):
            raise ValueMistake(
                "LB312", f"{quote(shown)} is not larger units first with less than one in the next", (_HINT,)
            )
        total += number * unit
        above, in_days = unit, in_days and unit >= _DAY
    if total > LONGEST:
        raise ValueMistake("LB316", f"{quote(shown)} is longer than ten years", (_HINT,))
    return total, in_days


def _split_parts(text: str, shown: str) -> list[tuple[Fraction, Fraction]]:
    colon = _COLON.fullmatch(text)
    if colon:
        first, second = (str(int(part)) for part in colon.groups())
        raise ValueMistake(
            "LB312",
            f"{quote(shown)} can be hours and minutes or minutes and seconds",
            (f"type `{first} h {second} min` or `{first} min {second} s`",),
        )
    parts: list[tuple[Fraction, Fraction]] = []
    at = 0
    while at < len(text):
        match = _PART.match(text, at)
        if match is None or len(parts) == _MOST_PARTS:
            raise ValueMistake("LB312", f"{quote(shown)} is not a length of time", _hints_for(text))
        parts.append((_number(match[1], shown), _unit(match[2], parts, shown)))
        at = match.end()
    if not parts:
        raise ValueMistake("LB312", "a length of time is missing", (_HINT,))
    return parts


def _number(text: str, shown: str) -> Fraction:
    try:
        return parse_number(text)
    except ValueMistake as mistake:
        if mistake.code != "LB301":
            raise
        raise ValueMistake("LB312", f"{quote(shown)} is not a length of time", mistake.hints) from None


def _unit(word: str, before: list[tuple[Fraction, Fraction]], shown: str) -> Fraction:
    if not word and before and before[-1][1] == 60:
        return Fraction(1)  # `1 h 30`
    if not word:
        hint = f"type `{shown} min`, `{shown} h` or `{shown} d`" if shown.isdigit() else _HINT
        raise ValueMistake("LB312", f"{quote(shown)} does not say minutes, hours or days", (hint,))
    folded = word.casefold()
    if folded in _MINUTES:
        return _MINUTES[folded]
    if folded in _REFUSED:
        raise ValueMistake("LB312", f"{quote(shown)} is not sure to be one length of time", (_REFUSED[folded],))
    meant = nearest(folded, _MINUTES) if len(folded) > 2 else None
    hints = (f"did you mean `{meant}`?",) if meant else ()
    raise ValueMistake("LB312", f"`{word}` in {quote(shown)} is not a unit of time", (*hints, _HINT))


def _hints_for(text: str) -> tuple[str, ...]:
    if text.casefold() in ("overnight", "over night"):
        return ("type how long that is here, such as `10 h to 14 h`",)
    if meant := mend_duration(text):
        return (f"type `{meant}`",)
    return (_HINT,)


def _with_unit_of(first: str, second: str) -> str:
    if first[-1:].isalpha() or first.endswith("."):
        return first
    word = re.search(r"[A-Za-z]+\.?$", second)
    single = len(re.findall(r"[A-Za-z]+", second)) == 1
    return f"{first} {word[0]}" if word and single and not re.search("[A-Za-z]", first) else first


def _not_a_time(plain: str) -> ValueMistake:
    meant = mend_time(plain)
    hint = f"type `{meant}`" if meant else "type hours and minutes, such as `17:30`"
    return ValueMistake("LB313", f"{quote(plain)} is not a time of day", (hint,))


def _not_a_date(plain: str) -> ValueMistake:
    worded, loose = re.fullmatch(_WORDED_DATE, plain), re.fullmatch(_LOOSE_DATE, plain)
    hints: tuple[str, ...] = ("type the year, the month and the day, such as `2027-03-02`",)
    if worded:
        months = [n for n, name in enumerate(_MONTHS, 1) if name.startswith(worded[2].casefold())]
        if len(months) == 1 or worded[2].casefold() == "may":
            hints = (f"type `{worded[3]}-{months[0]:02d}-{int(worded[1]):02d}`",)
    elif loose:
        hints = _loose_date_hints(*loose.groups()) or hints
    return ValueMistake("LB313", f"{quote(plain)} is not a date", hints)


def _loose_date_hints(first: str, second: str, third: str) -> tuple[str, ...]:
    if len(first) == 4 and len(third) <= 2:
        return _date_hint({f"{first}-{int(second):02d}-{int(third):02d}"})
    if len(third) == 4 and len(first) <= 2:
        return _date_hint(
            {f"{third}-{int(second):02d}-{int(first):02d}", f"{third}-{int(first):02d}-{int(second):02d}"}
        )
    return ()


def _date_hint(readings: set[str]) -> tuple[str, ...]:
    possible = []
    for reading in sorted(readings):
        try:
            date.fromisoformat(reading)
        except ValueError:
            continue
        possible.append(f"`{reading}`")
    return (f"type {' or '.join(possible)}",) if possible else ()


def _no_such_day(plain: str, year: int, month: int) -> ValueMistake:
    if not 1 <= month <= 12:
        return ValueMistake(
            "LB313", f"{quote(plain)} has no month {month}", ("type year, month and day, in that order",)
        )
    following = date(year + month // 12, month % 12 + 1, 1)
    days = (following - date(year, month, 1)).days
    name = _MONTHS[month - 1].capitalize()
    return ValueMistake(
        "LB313", f"{quote(plain)} is no day: {name} {year} has {days}", (f"type a day from 01 to {days}",)
    )
