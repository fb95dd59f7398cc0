"""Guesses at what was meant: each is offered only where it reads back as a sound value, and never read as one."""

import pytest

from linebook.model import quantities as q
from linebook.model.units import Measures
from linebook.source.faults import ValueMistake

HOUSE = Measures(cup="us", spoon="metric", pint="imperial")


def hints_of(parse, *arguments):
    with pytest.raises(ValueMistake) as raised:
        parse(*arguments)
    return raised.value.code, " | ".join(raised.value.hints)


@pytest.mark.parametrize(
    ("typed", "meant"),
    [
        ("half a kilo", "1/2 kilo"),
        ("two bunches", "2 bunches"),
        ("a dozen", "1 dozen"),
        ("a pinch", "to taste"),
        ("two tins", "what is in it"),
        ("about 350 g", "350 g"),
        ("approx. 2 kg", "2 kg"),
        ("35O g", "350 g"),
        ("1O0 g", "100 g"),
        ("350 g (12 oz)", "350 g"),
        ("350 g / 12 oz", "350 g"),
        ("350 g = 12 oz", "350 g"),
        ("as needed", "to taste"),
        ("q.s.", "to taste"),
        ("1.1 % of celeriac", "amount: 1.1 %, of: celeriac"),
        ("3 % of the trout loins", "amount: 3 %, of: trout-loins"),
        ("3 eggs", "each"),
        ("1/2 lemon", "each"),
    ],
)
def test_amounts(typed, meant):
    code, hints = hints_of(q.parse_ingredient_amount, typed, HOUSE)
    assert code in ("LB301", "LB302")
    assert meant in hints


@pytest.mark.parametrize("typed", ["2 cups/2", "half past", "O g", "about", "g (12 oz"])
def test_nothing_is_guessed_that_is_no_amount(typed):
    _, hints = hints_of(q.parse_ingredient_amount, typed, HOUSE)
    assert "type `" not in hints or "such as" in hints or "type `each`" in hints, hints


@pytest.mark.parametrize(
    ("parse", "typed", "meant"),
    [
        (q.parse_number, "£26", "`26`"),
        (q.parse_number, "12°", "`12`"),
        (q.parse_number, "x1.8", "`1.8`"),
        (q.parse_number, "70 %", "`0.7`"),
        (q.parse_percent, "5", "`5 %`"),
        (q.parse_percent, "0.05", "`5 %`"),
        (q.parse_percent, "0.125", "`12.5 %`"),
        (q.parse_duration, "half an hour", "`30 min`"),
        (q.parse_duration, "a week", "`7 d`"),
        (q.parse_time, "5.30pm", "`17:30`"),
        (q.parse_time, "9", "`09:00`"),
        (q.parse_clock_range, "9-23", "`09:00 to 23:00`"),
        (q.parse_clock_range, "5pm to 11.30pm", "`17:00 to 23:30`"),
        (q.parse_place, "half past 5", "`5:30 o'clock`"),
        (q.parse_place, "quarter to 6", "`5:45 o'clock`"),
        (q.parse_place, "quarter to one", "`12:45 o'clock`"),
        (q.parse_place, "quarter past six", "`6:15 o'clock`"),
        (q.parse_place, "six o’clock", "`6 o'clock`"),
        (q.parse_place, "6.30 o'clock", "`6:30 o'clock`"),
        (q.parse_place, "6", "`6 o'clock`"),
        (q.parse_place, "bottom left", "`7:30 o'clock`"),
        (q.parse_place, "top", "`12 o'clock`"),
        (q.parse_place, "upside down", "centre"),
        (q.parse_length_pair, "78 x 26", "`78 x 26 mm` or `78 x 26 cm`"),
        (q.parse_length_pair, "78 * 26 mm", "`78 x 26 mm`"),
        (q.parse_length, "28", "`28 cm` or `28 mm`"),
    ],
)
def test_values(parse, typed, meant):
    _, hints = hints_of(parse, typed)
    assert meant in hints


@pytest.mark.parametrize(
    ("typed", "meant"),
    [
        ("£14.50 per kg", "14.50 per kg"),
        ("14.50/kg", "14.50 per kg"),
        ("€3 each", "3 per each"),
        ("1.20 a bunch", "1.20 per bunch"),
    ],
)
def test_prices(typed, meant):
    _, hints = hints_of(q.parse_price, typed, HOUSE)
    assert f"`{meant}`" in hints
    assert q.parse_price(meant, HOUSE)


def test_two_numbers_with_a_stroke_are_not_a_small_fraction():
    code, hints = hints_of(q.parse_number, "35 / 45")
    assert code == "LB303"
    assert "`35/45`" in hints
    assert q.parse_number("35/45")
    assert q.parse_number("1 / 2")
