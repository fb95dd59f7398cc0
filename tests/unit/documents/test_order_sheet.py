"""The order sheet and its words, over orders written by hand: every notice, one supplier and none, two languages."""

from __future__ import annotations

from dataclasses import replace
from datetime import date, time
from fractions import Fraction
from pathlib import Path

import pytest
from sample_house import sheet
from test_view_mutations import mutations

from linebook.compute.order import Delivery, InSeason, Order, OrderLine
from linebook.compute.order_late import TooLate
from linebook.compute.order_needs import Short
from linebook.compute.results import StockUse, Uncounted
from linebook.compute.services import ServiceDay
from linebook.compute.told_amounts import told
from linebook.documents.order_sheet import OrderSheet, order_sheet
from linebook.documents.wording import english, wording_in
from linebook.markup.blocks import Box, Heading, Run
from linebook.markup.difference import describe_difference
from linebook.markup.fingerprint import fingerprint_of
from linebook.model.amounts import Amount
from linebook.model.house import House
from linebook.model.pantry import Season
from linebook.model.quantities import parse_amount
from linebook.model.supply import StockEntry
from linebook.model.units import Measures, times, to_base
from linebook.pipeline import load_house
from linebook.source.spans import SourceFile

AT = {"span": SourceFile(path="test", text="").whole(), "spans": {}}


def amount(text: str) -> Amount:
    if text.startswith("0 "):
        return times(amount(f"1{text[1:]}"), Fraction(0))
    return parse_amount(text, Measures(cup="us", spoon="us", pint="us"))


def house() -> House:
    loaded = load_house(Path(__file__).parents[2] / "houses" / "osier-lock", "osier-lock")
    assert loaded.value is not None
    return loaded.value


def march(day: int) -> date:
    return date(2027, 3, day)


HOUSE = house()


def line(item: str, needed: str, ordered: str, over: str, pack: str | None = None, packs: int | None = None, **own):
    return OrderLine(
        item=item,
        needed=amount(needed),
        ordered=amount(ordered),
        over=amount(over),
        pack=None if pack is None else amount(pack),
        packs=packs,
        **{"users": ("brill-fillet",), "services": (march(2), march(3)), **own},
    )


def order(**own) -> Order:
    fish = Delivery(
        supplier="Bankside Fish",
        day=march(2),
        order_by=date(2027, 2, 27),
        until=time(14),
        lines=(line("brill", "26 kg", "30 kg", "4 kg", "5 kg", 6, services=(march(3),)),),
    )
    plain = {
        "first": march(1),
        "last": march(7),
        "written": date(2027, 2, 20),
        "services": (
            ServiceDay(day=march(2), menu="march", covers=20),
            ServiceDay(day=march(3), menu="march", covers=1),
        ),
        "without_menu": (),
        "deliveries": (fish,),
        "too_late": (),
        "seasons": (),
        "short": (),
        "uncounted": (),
        "idle": (),
    }
    return Order(**{**plain, **own})


def full() -> Order:
    """An order with one of everything that can be said."""
    growers = Delivery(
        supplier="Garth Growers",
        day=march(4),
        order_by=None,
        until=None,
        lines=(
            line(
                "leek",
                "1250 g",
                "1250 g",
                "0 g",
                users=("brill-plate", "brill-fillet", "asparagus-tips", "brill-plate"),
            ),
            line("asparagus", "1.2 kg", "2 kg", "800 g", "1 kg", 2, users=("asparagus-tips",) * 5),
        ),
    )
    nobody = Delivery(
        supplier="",
        day=march(1),
        order_by=None,
        until=None,
        lines=(line("salt", "70 g", "70 g", "0 g"), line("water", "9 L", "9 L", "0 ml")),
    )
    season = InSeason(
        item="asparagus",
        season=Season(first=march(1), last=march(4), **AT),
        here=amount("12 kg"),
        in_all=amount("34.4 kg"),
        after=amount("25.6 kg"),
        after_here=amount("3.2 kg"),
        before=amount("1.6 kg"),
        ends=march(20),
        last_delivery=march(3),
    )
    late = TooLate(
        item="brill",
        amount=amount("33 kg"),
        by=march(1),
        comes=march(5),
        users=("brill-fillet",),
        services=(march(2),),
        missed=date(2027, 2, 26),
        order_by=date(2027, 2, 23),
        until=time(14),
        serves=march(6),
        dishes=("brill-plate",),
    )
    left = StockEntry(item="brill-fillet", amount=amount("1.5 kg"), **AT)
    base = order()
    return order(
        deliveries=(*base.deliveries, growers, nobody),
        without_menu=(march(6), march(7)),
        too_late=(late,),
        seasons=(season,),
        short=(
            Short(item="brill", service=march(2), amount=amount("2 kg"), users=("brill-plate",)),
            Short(item="leek", service=march(3), amount=amount("9 each"), users=("brill-plate",), apart=True),
        ),
        uncounted=("leek", "asparagus"),
        idle=(StockUse(entry=left, reason=Uncounted.OVER), StockUse(entry=left, reason=Uncounted.UNDATED)),
    )


PLAIN, FULL = order_sheet(HOUSE, order(), english()), order_sheet(HOUSE, full(), english())


@pytest.mark.parametrize("shown", [PLAIN, FULL], ids=["plain", "full"])
def test_every_field_is_on_the_sheet_and_its_change_is_said(shown: OrderSheet) -> None:
    before = sheet(shown)
    seen = {fingerprint_of(before)}
    for path, changed in mutations(shown):
        after = sheet(changed)
        assert fingerprint_of(after) not in seen, f"{path} is not on the sheet"
        seen.add(fingerprint_of(after))
        assert describe_difference(before, after, english()), f"{path}: nothing is said"
    assert len(seen) > 12


def test_what_is_asked_of_whom_by_when() -> None:
    (fish,) = PLAIN.suppliers
    assert fish.name.plain == "Bankside Fish"
    assert fish.about.plain == "delivers Tue, Fri; takes orders until 14:00; by telephone"
    (group,) = fish.groups
    assert said(group.title) == "For delivery Tue 2 March: order by Sat 27 February 14:00"
    (row,) = group.rows
    assert said(row.order), said(row.needed) == ("6 × 5 kg", "26 kg")
    assert said(row.over) == "4 kg"
    assert said(row.note) == "Wed 3"  # not every service, so which one is said
    assert said(fish.uses) == "brill, whole for Brill fillet, salted"


def test_what_is_over_is_what_is_ordered_less_what_is_told_as_needed() -> None:
    bones = line("brill", "12.243279 kg", "20 kg", "7.756721 kg", "10 kg", 2)
    (delivery,) = order().deliveries
    (fish,) = order_sheet(HOUSE, order(deliveries=(replace(delivery, lines=(bones,)),)), english()).suppliers
    (row,) = fish.groups[0].rows
    assert (said(row.order), said(row.needed), said(row.over)) == ("2 × 10 kg", "12.25 kg", "7.75 kg")


def test_where_something_is_not_known_it_is_said() -> None:
    _, growers, nobody = FULL.suppliers
    (group,) = growers.groups
    assert said(group.title) == "For delivery Thu 4 March: ask how long it takes, no lead time is known"
    assert said(group.rows[0].note) == "no pack known"
    assert said(group.rows[1].note) == ""
    assert said(growers.uses) == (
        "asparagus for Asparagus, trimmed; leek for Brill, asparagus, leek; Brill fillet, salted; Asparagus, trimmed"
    )
    assert {fact.key: said(fact.value) for fact in FULL.also}["also.unsaid"] == "water 9 L"
    assert nobody.name.plain == "No supplier known"
    assert [said(row.name) for group in nobody.groups for row in group.rows] == ["salt"]  # water is asked of nobody
    assert "no menu is in force on Sat 6 March and Sun 7 March" in said(FULL.services)


def test_what_must_not_be_missed_stands_in_boxes_until_there_are_too_many() -> None:
    text = sheet(FULL)
    assert [box.key for box in text.blocks if isinstance(box, Box)] == ["late", "after", "short"]
    (one,) = full().too_late
    late = tuple(replace(one, missed=march(day)) for day in range(1, 8))
    loud = sheet(order_sheet(HOUSE, order(too_late=late), english()))
    assert not [box for box in loud.blocks if isinstance(box, Box)]
    heads = [block for block in loud.blocks if isinstance(block, Heading)]
    assert "Too late to come in time" in "".join(piece.text for piece in heads[0].content if isinstance(piece, Run))


def test_what_comes_too_late_names_the_van_what_comes_next_and_whom_it_touches() -> None:
    (notice,) = order_sheet(HOUSE, order(too_late=full().too_late), english()).notices
    assert [said(point.text) for point in notice.points] == [
        "Too late for Bankside Fish of Fri 26 February (order-by was Tue 23 February 14:00): next delivery Fri 5 March, "
        "first service it can serve Sat 6 March. brill, whole 33 kg, by Mon 1 March. Touches Brill, asparagus, leek on Tue 2."
    ]


def test_one_van_that_is_missed_is_said_once_with_all_that_should_come_with_it() -> None:
    (brill,) = full().too_late
    leek = replace(brill, item="leek", missed=march(1), order_by=None, until=None, serves=None)
    found = order_sheet(HOUSE, order(too_late=(brill, replace(brill, amount=amount("2 kg")), leek)), english())
    (notice,) = found.notices
    assert len(notice.points) == 2
    assert "brill, whole 33 kg, by Mon 1 March; brill, whole 2 kg, by Mon 1 March." in said(notice.points[0].text)
    assert said(notice.points[1].text).startswith(
        "Too late for Garth Growers of Mon 1 March: next delivery Fri 5 March, too late for every service of this order."
    )


def test_nothing_to_order_is_said() -> None:
    assert said(order_sheet(HOUSE, order(deliveries=()), english()).nothing) == "Nothing has to be ordered."


def test_in_two_languages_everything_is_said_in_both() -> None:
    both = order_sheet(HOUSE, full(), wording_in(("en", "es")))
    assert both.title.both.replace("\u00a0", " ").endswith(" / Pedido del lun 1 de marzo al dom 7 de marzo")
    title = both.suppliers[0].groups[0].title
    assert "pedir antes del" in "".join(piece.words for piece in title.in_second)


@pytest.mark.parametrize(
    ("typed", "up", "down"),
    [
        ("8571.43 g", "8.572 kg", "8.571 kg"),
        ("348482 g", "348.5 kg", "348.4 kg"),
        ("26 kg", "26 kg", "26 kg"),
        ("2.7134 g", "2.72 g", "2.71 g"),
        ("0.001 g", "0.01 g", "0 g"),
        ("1234567 each", "1234567 each", "1234567 each"),
        ("0.484 head", "0.49 head", "0.48 head"),
        ("7.61 lb", "7.625 lb", "7.5625 lb"),
        ("1.875 lb", "1.875 lb", "1.875 lb"),
        ("78.5 lb", "78.5 lb", "78.5 lb"),
        ("3.1 oz", "3.25 oz", "3 oz"),
    ],
)
def test_needs_are_never_told_too_small_nor_leftovers_too_large(typed, up, down) -> None:
    exact = amount(typed)
    assert told(exact) == amount(up)
    assert told(exact, up=False) == amount(down)
    assert told(exact).number >= 0


def test_told_amounts_are_near() -> None:
    for number in (Fraction(1, 3), Fraction(997, 7), Fraction(123456, 11)):
        exact = Amount(number=number, unit=amount("1 g").unit)
        assert 0 <= to_base(told(exact)) - number <= max(number / 1000, Fraction(1, 100))


def said(text) -> str:
    return text.plain.replace("\u00a0", " ")
