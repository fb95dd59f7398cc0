"""The guest sheet and its words, over verdicts written by hand: every action, every kind of reason, one seat and more."""

from __future__ import annotations

from dataclasses import replace
from typing import Any

import pytest
from sample_house import SATURDAY, amount, made, sample_house, sheet
from test_view_mutations import mutations

from linebook.compute.avoidances import Avoidance, of_diet
from linebook.compute.guest import Action, DishVerdict, Reason
from linebook.compute.results import Answer
from linebook.documents.guest_answers import GuestWriter
from linebook.documents.guest_request import AnsweredSeat, AskedWord, Degree, GuestRequest, GuestSeat
from linebook.documents.guest_sheet import GuestSheet, guest_sheet
from linebook.documents.wording import english, wording_in
from linebook.markup.blocks import Box, Cell, Facts, Heading, Paragraph, Run, Table
from linebook.markup.fingerprint import fingerprint_of
from linebook.model.diets import DIETS
from linebook.model.dish import Alternative
from linebook.model.house import House

NUT = Avoidance(id="tree-nut", name="nuts", kind="group", substances=frozenset(("walnut",)))
MILK = Avoidance(id="milk", name="milk", kind="group", substances=frozenset(("milk", "cows-milk")))
VEGAN = of_diet(DIETS["vegan"])
RAW_EGG = of_diet(DIETS["raw-egg"])
LEAF = Avoidance(id="lovage", name="lovage", kind="item", items=frozenset(("lovage",)))


def house() -> House:
    """The sample house, whose crumb may be exchanged for mustard seed."""
    plain = sample_house()
    dish = plain.dishes["short-rib"]
    other = made(Alternative, item="mustard-seed", amount=amount("2 g"))
    elements = tuple(
        replace(element, alternatives=(other,)) if element.item == "walnut-crumb" else element
        for element in dish.elements
    )
    return replace(plain, dishes={**plain.dishes, "short-rib": replace(dish, elements=elements)})


HOUSE = house()


def seat(*places: str, degree: Degree = "", word: str = "nuts", avoidance: Avoidance = NUT) -> GuestSeat:
    return GuestSeat(places=places, degree=degree, asked=(AskedWord(word=word, avoidances=(avoidance,)),))


def told(verdict: DishVerdict, guest: GuestSeat | None = None) -> tuple[str, str]:
    writer = GuestWriter(house=HOUSE, wording=english(), seat=guest or seat())
    return writer.action(verdict).plain.replace("\u00a0", " "), writer.reason(verdict).plain.replace("\u00a0", " ")


def reason(answer: Answer = Answer.CONTAINS, avoidance: Avoidance = NUT, **others: Any) -> Reason:
    given = {"items": ("walnut",), "substances": ("walnut",), "element": "walnut-crumb", **others}
    return Reason(avoidance=avoidance, answer=answer, **given)


# -- actions and reasons


def test_a_dish_that_is_served_says_no_more() -> None:
    assert told(DishVerdict(dish="short-rib", action=Action.SERVE)) == ("Serve", "")


def test_what_is_left_off_is_named_and_which_nut_it_is() -> None:
    verdict = DishVerdict(
        dish="short-rib", action=Action.WITHOUT, leave_off=("walnut-crumb", "lovage"), reasons=(reason(),)
    )
    assert told(verdict) == ("Serve without Walnut crumb and lovage", "Walnut crumb: contains nuts (walnut)")


def test_an_exchange_has_its_amount_in_each_size_of_the_dish() -> None:
    verdict = DishVerdict(
        dish="short-rib", action=Action.WITH, exchange=(("walnut-crumb", "mustard-seed"),), reasons=(reason(),)
    )
    assert told(verdict)[0] == "Serve with mustard seed 2 g (full), 3.6 g (to share) instead of Walnut crumb"
    both = replace(verdict, leave_off=("lovage",))
    assert told(both)[0].endswith("instead of Walnut crumb, and without lovage")


def test_what_the_pass_changes_has_all_amounts() -> None:
    verdict = DishVerdict(
        dish="short-rib", action=Action.WITH, exchange=(("walnut-crumb", "mustard-seed"),), leave_off=("lovage",)
    )
    writer = GuestWriter(house=HOUSE, wording=english(), seat=seat())
    assert writer.change(verdict).plain.replace("\u00a0", " ") == (
        "with mustard seed 2 g (full), 3.6 g (to share) instead of Walnut crumb; "
        "without lovage (3 leaves (full), ≈ 6 leaves (to share))"
    )
    assert not writer.change(DishVerdict(dish="short-rib", action=Action.REFUSE))


def test_a_refusal_gives_only_what_cannot_be_taken_away() -> None:
    verdict = DishVerdict(
        dish="short-rib",
        action=Action.REFUSE,
        reasons=(
            reason(),  # the crumb may be left off
            reason(Answer.MAY, element="short-rib-jus", media=("fryer",)),
            reason(Answer.UNDECLARED, element="lovage", items=("lovage",), substances=()),
        ),
    )
    assert told(verdict) == ("Do not serve", "Short rib jus: may contain nuts (walnut) from the shared fryer")


def test_a_refusal_for_what_is_in_it_does_not_go_on_about_traces() -> None:
    parts = ("celeriac-puree", "short-rib-glazed", "short-rib-jus", "lovage")
    certain = tuple(reason(element=part) for part in parts)
    verdict = DishVerdict(
        dish="short-rib", action=Action.REFUSE, reasons=(*certain, reason(Answer.MAY, element="short-rib-jus"))
    )
    assert told(verdict)[1] == (
        "Celeriac purée; Smoked short rib, glazed; Short rib jus; lovage: contains nuts (walnut)"
    )


def test_what_touches_a_dish_is_told_by_what_it_is() -> None:
    butter = reason(avoidance=MILK, element=None, items=("butter",), substances=("cows-milk",))
    verdict = DishVerdict(dish="short-rib", action=Action.REFUSE, reasons=(butter,))
    assert told(verdict)[1] == "unsalted butter (also used): contains milk"


def test_two_things_in_one_part_are_said_once() -> None:
    both = (reason(element="lovage"), reason(avoidance=MILK, element="lovage", substances=("cows-milk",)))
    assert told(DishVerdict(dish="short-rib", action=Action.REFUSE, reasons=both))[1] == (
        "lovage: contains nuts (walnut) and milk"
    )


def test_a_plate_that_would_be_empty_says_so() -> None:
    verdict = DishVerdict(dish="short-rib", action=Action.REFUSE, reasons=(reason(),), nothing_left=True)
    assert told(verdict) == (
        "Do not serve",
        "Walnut crumb: contains nuts (walnut); nothing else is on the plate",
    )


@pytest.mark.parametrize(
    ("given", "said"),
    [
        (
            reason(Answer.UNDECLARED, element="short-rib-jus", items=("butter", "lovage"), substances=()),
            "Short rib jus: not declared what is in unsalted butter, lovage",
        ),
        (
            reason(Answer.UNDECLARED, element="lovage", items=("lovage",), substances=()),
            "lovage: not declared",
        ),
        (
            reason(Answer.UNDECLARED, element="lovage", items=("lovage",), substances=(), also_may=True),
            "lovage: not declared, and may contain nuts besides",
        ),
        (
            reason(Answer.UNDECLARED, VEGAN, element="short-rib-jus", items=("butter",), substances=()),
            "Short rib jus: not given what unsalted butter comes from",
        ),
        (
            reason(Answer.UNDECLARED, RAW_EGG, element="short-rib-jus", items=("butter",), substances=()),
            "Short rib jus: not given whether unsalted butter is raw or unpasteurised",
        ),
        (
            reason(avoidance=VEGAN, element="short-rib-jus", items=("butter",), substances=("milk",)),
            "Short rib jus: contains what is not vegan (unsalted butter)",
        ),
    ],
)
def test_what_is_not_known_is_said_by_what_was_asked(given: Reason, said: str) -> None:
    refused = given.answer is Answer.CONTAINS or given.also_may
    action = Action.REFUSE if refused else Action.CANNOT_SAY
    verdict = DishVerdict(dish="short-rib", action=action, reasons=(given,))
    assert told(verdict) == ("Do not serve" if refused else "Cannot say", said)


def test_a_food_no_law_names_goes_by_the_guests_own_word() -> None:
    hidden = reason(Answer.UNDECLARED, LEAF, element="short-rib-jus", items=("butter",), substances=())
    guest = seat(word="sea parsley", avoidance=LEAF)
    verdict = DishVerdict(dish="short-rib", action=Action.CANNOT_SAY, reasons=(hidden,))
    assert told(verdict, guest)[1] == "Short rib jus: sea parsley may be hidden in unsalted butter"


# -- the sheet


def verdicts(*actions: Action) -> tuple[DishVerdict, ...]:
    dishes = [entry.dish for entry in HOUSE.menus["early-spring"].dishes]
    changed = {Action.WITHOUT: {"leave_off": ("walnut-crumb",)}}
    return tuple(
        DishVerdict(
            dish=dish, action=action, reasons=(reason(),) * (action is not Action.SERVE), **changed.get(action, {})
        )
        for dish, action in zip(dishes, actions, strict=True)
    )


ONE = (Action.WITHOUT, Action.SERVE, Action.REFUSE)
OTHER = (Action.SERVE, Action.SERVE, Action.CANNOT_SAY)


def view(
    *seats: tuple[GuestSeat, tuple[Action, ...]], table: str = "14", languages: tuple[str, ...] = ("en",)
) -> GuestSheet:
    answers = tuple(AnsweredSeat(seat=guest, verdicts=verdicts(*actions)) for guest, actions in seats)
    request = GuestRequest(table=table, seats=tuple(guest for guest, _ in seats))
    return guest_sheet(HOUSE, "early-spring", request, answers, SATURDAY, wording_in(languages))


SINGLE = view((seat("3", degree="preference"), ONE))
BLANK = view((seat(), ONE), table="")
SEVERAL = view((seat("3"), ONE), (seat("5", "6", degree="allergy", word="walnut"), OTHER))


def everything(one: Any) -> str:
    """Return all words of a block tree."""
    if isinstance(one, Run):
        return one.text
    if isinstance(one, tuple):
        return " ".join(map(everything, one))
    fields = {
        Heading: ("content", "aside"),
        Paragraph: ("content",),
        Facts: ("facts",),
        Table: ("head", "rows"),
        Cell: ("content", "note"),
        Box: ("blocks",),
    }.get(type(one), ("cells", "term", "value", "content", "points"))
    return " ".join(everything(getattr(one, name)) for name in fields if hasattr(one, name))


@pytest.mark.parametrize("shown", [SINGLE, BLANK, SEVERAL])
def test_no_dish_is_left_out_whatever_its_verdict(shown: GuestSheet) -> None:
    said = everything(sheet(shown).blocks)
    for entry in HOUSE.menus["early-spring"].dishes:
        assert HOUSE.dishes[entry.dish].name in said
    assert "All 3 dishes of the menu are on this sheet. What is not on it must not be served." in said
    assert "Drinks are not covered." in said


def test_what_can_be_served_comes_first_and_a_verdict_stands_alone() -> None:
    (block,) = SINGLE.seats
    assert [group.title.plain for group in block.groups] == ["Serve as it is", "Serve, but changed", "Do not serve"]
    assert [len(group.rows) for group in block.groups] == [1, 1, 1]


def test_a_preference_is_no_weaker_and_says_so() -> None:
    (block,) = SINGLE.seats
    assert block.title.plain == "Preference: nuts"
    assert block.no_weaker.plain == "Handled as an allergy is: no answer is weaker because it is a preference."
    assert not block.degree_open
    (asked,) = BLANK.seats
    assert asked.degree_open
    groups = [group.rows for group in asked.groups]
    assert groups == [group.rows for group in block.groups]


def test_what_was_not_given_is_written_by_hand() -> None:
    assert (BLANK.blank_table, BLANK.blank_seat, BLANK.title.plain) == (True, True, "Guest sheet")
    assert (SINGLE.blank_table, SINGLE.blank_seat, SINGLE.title.plain) == (False, False, "Table 14, seat 3")
    assert SEVERAL.title.plain == "Table 14, seats 3, 5 and 6"


def test_several_seats_have_a_column_each_and_a_summary() -> None:
    (table,) = SEVERAL.tables
    assert [head.plain for head in table.heads] == ["Seat 3", "Seats 5 and 6"]
    rows = {row.name.plain: [cell.plain for cell in row.cells] for row in table.rows if row.cells}
    names = [HOUSE.dishes[entry.dish].name for entry in HOUSE.menus["early-spring"].dishes]
    assert rows[names[0]] == ["Serve without Walnut crumb", "Serve"]
    assert rows[names[2]] == ["Do not serve", "Cannot say"]
    (change,) = SEVERAL.changes
    assert change.value.plain.startswith("Seat 3 without Walnut crumb (")
    assert SEVERAL.read_back.plain.endswith("Table 14. Seat 3, avoids nuts; Seats 5 and 6, allergy: walnut")


def test_a_seat_that_can_be_served_nothing_is_told() -> None:
    nothing = (Action.REFUSE, Action.CANNOT_SAY, Action.REFUSE)
    assert view((seat("3"), nothing)).none_left.plain == "No dish on this menu can be served to this guest."
    several = view((seat("3"), nothing), (seat("5", word="walnut"), ONE))
    assert several.none_left.plain == "No dish on this menu can be served to: Seat 3."
    assert not SEVERAL.none_left


def test_more_seats_than_stand_side_by_side_have_tables_of_their_own() -> None:
    many = view(*((seat(str(number), word=f"nuts {number}"), ONE) for number in range(1, 8)))
    assert [len(table.heads) for table in many.tables] == [3, 3, 1]
    assert all(len(row.cells) == len(table.heads) for table in many.tables for row in table.rows if row.cells)


def test_who_reads_the_other_language_reads_what_the_word_was_taken_as() -> None:
    shown = view((seat("3", degree="allergy"), ONE), languages=("en", "es"))
    assert shown.seats[0].title.both == "Allergy: nuts / Alergia: frutos de cáscara"
    assert "contiene frutos de cáscara (nueces)" in shown.seats[0].groups[2].rows[0].reason.both


@pytest.mark.parametrize("shown", [SINGLE, BLANK, SEVERAL])
def test_every_field_is_on_the_sheet(shown: GuestSheet) -> None:
    seen = {fingerprint_of(sheet(shown))}
    for path, changed in mutations(shown):
        fingerprint = fingerprint_of(sheet(changed))
        assert fingerprint not in seen, f"{path} is not on the sheet"
        seen.add(fingerprint)
    assert len(seen) > 20
