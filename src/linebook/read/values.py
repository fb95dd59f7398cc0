"""The types of single values, each declared once: texts, numbers, amounts, times, places on the plate.

Owns which bounds a value has and what an editor may offer for it; how a text becomes a value is in ``model``.
"""

from __future__ import annotations

from collections.abc import Callable
from typing import Final

from linebook.model import quantities
from linebook.model.amounts import Amount, Kind
from linebook.model.units import COUNT_WORDS, Measures, unit_for
from linebook.read.fields import Choice, Parse, Plain
from linebook.source.exact import Fraction
from linebook.source.faults import ValueMistake

_NUMBER: Final = "[0-9½⅓⅔¼¾⅕⅖⅗⅘⅙⅚⅛⅜⅝⅞]"
_AMOUNT_PATTERN: Final = f"^{_NUMBER}.*[A-Za-z0-9]$"
MOST_PORTIONS: Final = Fraction(12)
"""The most portions of one dish that a cover can be expected to order: more is a percentage without its sign."""

_DURATION_PATTERN: Final = "^[0-9].*(h|min|s|d|[0-9])$"


def _alone(parse: Callable[[str], object]) -> Parse:
    """Make a parser that needs no measures fit where one is given them."""

    def parse_alone(text: str, measures: Measures | None) -> object:
        del measures
        return parse(text)

    return parse_alone


def _clean_text(text: str) -> str:
    return " ".join(line.strip() for line in text.split("\n")).strip() if "\n" in text else text.strip()


def _whole(text: str, least: int, most: int) -> int:
    number = quantities.parse_number(text)
    if number.denominator != 1:
        raise ValueMistake("LB301", f"`{text}` is not a whole number", (f"type `{round(number)}`",))
    if not least <= number <= most:
        raise ValueMistake(
            "LB316", f"`{text}` is out of range here", (f"type a whole number from {least} to {most:,}",)
        )
    return int(number)


def whole(least: int, most: int = 100_000) -> Plain:
    """A whole number within bounds."""
    return Plain(
        words="a whole number", parse=_alone(lambda text: _whole(text, least, most)), pattern="^[0-9]+$", numeric=True
    )


def number(
    *, least: Fraction | None = None, most: Fraction | None = None, zero: bool = True, signed: bool = False
) -> Plain:
    """A number; without ``zero`` it must be more than nothing."""

    def parse(text: str, measures: Measures | None) -> Fraction:
        del measures
        negative = signed and text.strip()[:1] in ("-", "−")
        found = quantities.parse_number(text.strip()[1:] if negative else text)
        found = -found if negative else found
        _keep_within(text, found, least, most, zero=zero or signed)
        return found

    return Plain(
        words="a number", parse=parse, pattern=f"^-?{_NUMBER}.*$" if signed else f"^{_NUMBER}.*$", numeric=True
    )


def part(
    *, least: Fraction = Fraction(0), most: Fraction | None = None, below: Fraction | None = None, zero: bool = True
) -> Plain:
    """A part of one typed as a percentage, ``75 %`` being 3/4."""

    def parse(text: str, measures: Measures | None) -> Fraction:
        del measures
        found = quantities.parse_percent(text)
        _keep_within(text, found, least, most, zero=zero, percent=True)
        if below is not None and found >= below:
            raise ValueMistake("LB316", f"`{text}` is too much here", (f"type less than {float(below * 100):g} %",))
        return found

    return Plain(words="a percentage", parse=parse, pattern=f"^{_NUMBER}.* ?%$")


def _keep_within(
    text: str, found: Fraction, least: Fraction | None, most: Fraction | None, *, zero: bool, percent: bool = False
) -> None:
    times, sign = (100, " %") if percent else (1, "")
    if not zero and found == 0:
        raise ValueMistake("LB310", f"`{text}` is nothing", ("type more than nothing, or delete the line",))
    if (least is not None and found < least) or (most is not None and found > most):
        bounds = [f"at least {float(least * times):g}{sign}"] if least is not None else []
        bounds += [f"at most {float(most * times):g}{sign}"] if most is not None else []
        raise ValueMistake("LB316", f"`{text}` is out of range here", (f"type {' and '.join(bounds)}",))


def _share(text: str, measures: Measures | None) -> Fraction:
    del measures
    found = quantities.parse_percent(text) if text.rstrip().endswith("%") else quantities.parse_number(text)
    if found > MOST_PORTIONS:
        hint = f"type `{text} %` or `{float(found / 100):g}` if so many of a hundred covers order it"
        raise ValueMistake("LB316", f"`{text}` is that many portions for every cover", (hint,))
    return found


def _parts_in_a_million(text: str) -> Fraction:
    number, sign, unit = text.strip().replace("mg/kg", "ppm").partition("ppm")
    if not sign or unit:
        raise ValueMistake("LB301", f"`{text}` is not parts in a million", ("type it as `150 ppm` or `150 mg/kg`",))
    found = quantities.parse_number(number.strip()) / 1_000_000
    _keep_within(text, found, None, Fraction(1), zero=False)
    return found


def amount(*kinds: Kind) -> Plain:
    """An amount; with kinds, only of those."""
    needed = " or ".join(f"a {kind.value}" for kind in kinds)

    def parse(text: str, measures: Measures | None) -> Amount:
        found = quantities.parse_amount(text, measures)
        if kinds and found.unit.kind not in kinds:
            examples = {Kind.MASS: "`250 g`", Kind.VOLUME: "`1.5 L`", Kind.COUNT: "`3 each`"}
            hint = f"type {needed}, such as {' or '.join(examples[kind] for kind in kinds)}"
            raise ValueMistake("LB304", f"`{text}` is a {found.unit.kind.value} and {needed} is needed here", (hint,))
        return found

    return Plain(words=needed if kinds else "an amount", parse=parse, pattern=_AMOUNT_PATTERN)


def _count_word(text: str, measures: Measures | None) -> str:
    try:
        unit = unit_for(text, measures)
    except ValueMistake:
        unit = None
    if unit is None or unit.counts is None or unit.key == "dozen":
        hint = f"write one of {', '.join(COUNT_WORDS)}"
        raise ValueMistake("LB302", f"`{text}` is not a word that things are counted in", (hint,))
    return unit.counts


def _one_or_two_lengths(text: str) -> tuple[Fraction, ...]:
    try:
        return quantities.parse_length_pair(text)
    except ValueMistake as of_two:
        if of_two.code != "LB318" or "x" in text or "×" in text or " by " in text:
            raise
    return (quantities.parse_length(text),)


def _margin(text: str) -> Fraction:
    """Return a length that may be nothing."""
    return Fraction(0) if text.split() in (["0", "mm"], ["0", "cm"], ["0mm"]) else quantities.parse_length(text)


def _two_lengths(text: str) -> tuple[Fraction, Fraction]:
    lengths = _one_or_two_lengths(text)
    return lengths[0], lengths[-1]


TEXT: Final = Plain(words="a text", parse=_alone(_clean_text), numeric=True, boolean=True)
SHORT_TEXT: Final = Plain(words="a text", parse=_alone(_clean_text), numeric=True, boolean=True, most=200)
YES_NO: Final = Choice(
    words="yes or no", values={"yes": True, "no": False}, also={"true": True, "false": False}, boolean=True
)
AMOUNT: Final = amount()
WEIGHT: Final = amount(Kind.MASS)
INGREDIENT_AMOUNT: Final = Plain(
    words="an amount, a percentage or `to taste`",
    parse=quantities.parse_ingredient_amount,
    pattern=f"^({_NUMBER}.*[A-Za-z0-9%]|to taste)$",
)
TEMPERATURE: Final = Plain(
    words="a temperature", parse=_alone(quantities.parse_temperature), pattern="^[-−]?[0-9].* ?°? ?[CF]$"
)
DURATION: Final = Plain(
    words="a length of time",
    parse=_alone(lambda text: quantities.parse_duration(text, allow_range=False)),
    pattern=_DURATION_PATTERN,
)
DURATION_RANGE: Final = Plain(
    words="a length of time",
    parse=_alone(lambda text: quantities.parse_duration(text, allow_range=True)),
    pattern=_DURATION_PATTERN,
)
DATE: Final = Plain(words="a date", parse=_alone(quantities.parse_date), pattern="^[0-9]{4}-[0-9]{2}-[0-9]{2}$")
TIME: Final = Plain(words="a time of day", parse=_alone(quantities.parse_time), pattern="^[0-9]{1,2}:[0-9]{2}$")
CLOCK_RANGE: Final = Plain(
    words="two times of day",
    parse=_alone(quantities.parse_clock_range),
    pattern="^[0-9]{1,2}:[0-9]{2} (to|-|–) [0-9]{1,2}:[0-9]{2}$",
)
LENGTH: Final = Plain(words="a length", parse=_alone(quantities.parse_length), pattern="^[0-9].*(mm|cm)$")
MARGIN: Final = Plain(words="a length", parse=_alone(_margin), pattern="^[0-9].*(mm|cm)$")
SIZE: Final = Plain(words="a length, or two", parse=_alone(_two_lengths), pattern="^[0-9].*(mm|cm)$")
PLATE_SIZE: Final = Plain(words="a length, or two", parse=_alone(_one_or_two_lengths), pattern="^[0-9].*(mm|cm)$")
PLACE: Final = Plain(
    words="a place on the plate", parse=_alone(quantities.parse_place), pattern="^(cent(re|er)|[0-9].* ?o['’]clock)$"
)
DENSITY: Final = Plain(words="a weight for a volume", parse=quantities.parse_density, pattern="^[0-9].*/.+$")
PRICE: Final = Plain(words="a price for an amount", parse=quantities.parse_price, pattern="^[0-9].* per .+$")
PPM: Final = Plain(words="parts in a million", parse=_alone(_parts_in_a_million), pattern="^[0-9].* ?(ppm|mg/kg)$")
SHARE: Final = Plain(words="a number or a percentage", parse=_share, pattern="^[0-9].*$", numeric=True)
COUNT_WORD: Final = Plain(words="a count word", parse=_count_word)
