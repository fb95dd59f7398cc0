"""Station card and plating guide: the ticket first, what a portion carries, and what can be said to a guest."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction

import pytest
from sample_house import (
    block,
    hake_dish,
    leek_dish,
    plating_view,
    sample_house,
    section,
    sheet,
    short_rib_dish,
    station_view,
)

from linebook.compute.results import Answer, Column, Finding
from linebook.documents.allergen_lines import Allergens
from linebook.documents.allergen_names import adds_to, column_text
from linebook.documents.wording import english
from linebook.markup.blocks import Facts, FigureRef, Heading, Split, Steps, Table
from linebook.markup.fingerprint import fingerprint_of
from linebook.markup.said import plain
from linebook.model.body import Form
from linebook.model.dish import Shape

HOUSE = sample_house()


def flat(blocks):
    for one in blocks:
        if isinstance(one, Split):
            yield from flat((*one.left, *one.right))
        else:
            yield one


def text_of(content) -> str:
    return plain(content).replace("\u00a0", " ")


def facts_of(view, role: str) -> dict[str, str]:
    found = [one for one in flat(sheet(view).blocks) if isinstance(one, Facts) and one.role == role]
    return {text_of(fact.term).removesuffix(":"): text_of(fact.value) for one in found for fact in one.facts}


def rows_of(view) -> list[list[str]]:
    table = next(one for one in flat(sheet(view).blocks) if isinstance(one, Table))
    return [[" | ".join(filter(None, map(text_of, (c.content, c.note)))) for c in row.cells] for row in table.rows]


def steps_of(view) -> list[str]:
    return [text_of(step.content) for one in flat(sheet(view).blocks) if isinstance(one, Steps) for step in one.steps]


def house_with(dish):
    return sample_house(
        dishes={dish.id: dish for dish in (short_rib_dish(), hake_dish(), leek_dish())} | {dish.id: dish}
    )


def test_the_first_step_reads_the_ticket():
    for dish in HOUSE.dishes:
        assert steps_of(station_view(HOUSE, dish))[0] == "Read the ticket for allergies."


def test_the_ticket_is_not_read_twice():
    body = replace(
        short_rib_dish().body, sections=(section("Pick-up", "Read the ticket for allergies. Then fire.", "Plate."),)
    )
    view = station_view(house_with(replace(short_rib_dish(), body=body)))
    assert steps_of(view) == ["Read the ticket for allergies. Then fire.", "Plate."]
    first = next(one for one in flat(sheet(view).blocks) if isinstance(one, Steps)).steps[0]
    assert (first.content[0].text, first.content[0].bold) == ("Read the ticket for allergies.", True)


def test_a_first_step_that_goes_on_from_the_ticket_is_not_said_before_it():
    text = "Read the ticket for allergies and say back what you read."
    body = replace(short_rib_dish().body, sections=(section("Pick-up", text),))
    view = station_view(house_with(replace(short_rib_dish(), body=body)))
    assert steps_of(view) == [text]
    first = next(one for one in flat(sheet(view).blocks) if isinstance(one, Steps)).steps[0]
    assert [(run.text, run.bold) for run in first.content] == [
        ("Read the ticket for allergies", True),
        (" and say back what you read.", False),
    ]
    other = replace(short_rib_dish().body, sections=(section("Pick-up", "Read the ticket for allergiesome."),))
    assert len(steps_of(station_view(house_with(replace(short_rib_dish(), body=other))))) == 2


def test_a_menu_s_words_that_are_the_dish_s_name_are_not_said_twice():
    assert text_of(sheet(station_view(HOUSE)).aside) == "Smoked short rib, celeriac, pickled walnut"
    dish = replace(short_rib_dish(), menu_text=short_rib_dish().name.upper())
    assert sheet(station_view(house_with(dish))).aside == ()
    draft = replace(short_rib_dish(), tested=None)
    aside = text_of(sheet(station_view(house_with(draft))).aside)
    assert aside == "Smoked short rib, celeriac, pickled walnut · draft: not yet tested"


def test_what_a_portion_carries_in_plating_order_and_in_every_size():
    rows = rows_of(station_view(HOUSE))
    assert [row[0] for row in rows] == ["1", "2", "3", "4", "5"]
    assert [" ".join(row[1:3]) for row in rows] == ["70 g", "2 pieces", "6 g", "3 leaves", "25 ml"]
    # to share is 1.8 times, the rib its own 4 pieces, and a leaf is never cut
    assert [row[4] for row in rows] == ["126 g", "4 pieces", "10.8 g", "6 leaves", "45 ml"]
    assert rows[0][3] == "Celeriac purée | no. 16 scoop; third pan 100 deep, hold at 65 °C, 2 h at most, then bin"
    assert rows[2][3] == "Walnut crumb | can be left off, ask the pass"
    assert rows[4][3] == "Short rib jus | from the Stove line"


def test_a_note_on_plating_is_on_the_guide_and_on_the_card_where_there_is_none():
    assert "thick end left" not in repr(rows_of(station_view(HOUSE)))
    assert "thick end left" in rows_of(plating_view(HOUSE))[0][3]
    bare = station_view(house_with(replace(short_rib_dish(), plate=None)))
    assert "thick end left" in rows_of(bare)[0][3]


def test_at_the_pass_is_on_the_guide_and_on_the_card_where_there_is_none():
    def headings(view):
        return [text_of(one.content) for one in flat(sheet(view).blocks) if isinstance(one, Heading)]

    assert "At the pass" in headings(plating_view(HOUSE))
    assert "At the pass" not in headings(station_view(HOUSE))
    assert "At the pass" in headings(station_view(house_with(replace(short_rib_dish(), plate=None))))
    assert plating_view(house_with(replace(short_rib_dish(), plate=None))) is None


def test_three_lines_about_allergens_on_every_card_and_none_is_blank():
    for dish in HOUSE.dishes:
        lines = facts_of(station_view(HOUSE, dish), "allergens")
        assert list(lines) == ["Contains", "May contain", "Undeclared"]
        assert all(lines.values())
    lines = facts_of(station_view(HOUSE), "allergens")
    assert "nuts (walnut)" in lines["Contains"]
    assert "cereals containing gluten (wheat)" in lines["Contains"]
    assert lines["Undeclared"] == "chipotle paste: treat as containing every allergen"
    crisps = facts_of(station_view(HOUSE, "celeriac-crisp"), "allergens")
    assert crisps == {
        "Contains": "celery",
        "May contain": "cereals containing gluten (wheat, from the shared fryer), "
        "fish (species not named, from the shared fryer)",
        "Undeclared": "nothing, all items are declared",
    }


def test_nothing_is_promised_of_what_is_not_declared():
    def contains_line(undeclared):
        findings = {"celery": Finding(answer=Answer.UNDECLARED if undeclared else Answer.FREE)}
        allergens = Allergens(
            house=HOUSE, columns=(CELERY,), findings=findings, undeclared=undeclared, wording=english()
        )
        return [", ".join(member.text.plain for member in line.members) for line in allergens.lines()]

    assert contains_line(()) == ["nothing on this house's lists", "nothing known", "nothing, all items are declared"]
    assert contains_line(("chipotle-paste",)) == [
        "cannot say: not all of it is declared",
        "cannot say: not all of it is declared",
        "chipotle paste",
    ]


def test_verdicts_stand_first_and_cover_everything():
    verdicts = facts_of(station_view(HOUSE), "verdicts")
    assert list(verdicts) == ["Do not serve", "Cannot say, ask the chef"]
    assert "nuts (walnut)" in verdicts["Do not serve"]
    assert verdicts["Cannot say, ask the chef"].endswith("honey, anything else")
    crisps = facts_of(station_view(HOUSE, "celeriac-crisp"), "verdicts")
    assert crisps["Cannot say, ask the chef"].endswith("anything else")


CELERY = Column(id="celery", name="celery", substances=("celery",))
NUTS = Column(id="tree-nut", name="nuts", substances=("walnut", "almond"))
FISH = Column(id="fish", name="fish", substances=("fish",))


def verdicts_for(*findings: Finding) -> dict[str, str]:
    columns = (CELERY, NUTS, FISH)[: len(findings)]
    allergens = Allergens(
        house=HOUSE,
        columns=columns,
        findings={column.id: finding for column, finding in zip(columns, findings, strict=True)},
        undeclared=(),
        wording=english(),
    )
    return {
        verdict.action.plain: ", ".join(member.text.plain for member in verdict.members)
        for verdict in allergens.verdicts()
    }


def test_each_answer_has_its_action():
    assert verdicts_for(Finding(answer=Answer.CONTAINS)) == {
        "Do not serve": "celery",
        "Cannot say, ask the chef": "anything else",
    }
    for answer in (Answer.MAY, Answer.UNDECLARED):
        assert verdicts_for(Finding(answer=answer)) == {"Cannot say, ask the chef": "celery, anything else"}
    assert verdicts_for(Finding(answer=Answer.FREE)) == {"Cannot say, ask the chef": "anything else"}
    for answer in (Answer.CONTAINS, Answer.MAY, Answer.UNDECLARED):
        found = verdicts_for(Finding(answer=answer, without=("walnut-crumb", "lovage")))
        assert found["Serve without Walnut crumb and lovage"] == "celery"
        assert found["Cannot say, ask the chef"] == "anything else"


def test_columns_with_one_remedy_stand_together():
    nuts = Finding(answer=Answer.CONTAINS, substances=("walnut",), without=("walnut-crumb",))
    fish = Finding(answer=Answer.MAY, without=("walnut-crumb",))
    found = verdicts_for(Finding(answer=Answer.CONTAINS), nuts, fish)
    assert found == {
        "Do not serve": "celery",
        "Serve without Walnut crumb": "nuts (walnut), fish",
        "Cannot say, ask the chef": "anything else",
    }


@pytest.mark.parametrize(
    ("group", "substance", "adds"),
    [
        ("nuts", "walnut", "walnut"),
        ("eggs", "egg", ""),
        ("eggs", "hen's egg", "hen's egg"),
        ("soybeans", "soy", ""),
        ("sulphur dioxide and sulphites", "sulphites", ""),
        ("fish", "fish, species not named", "species not named"),
        ("fish", "hake", "hake"),
        ("milk", "milk", ""),
    ],
)
def test_what_a_substance_adds_to_its_group(group, substance, adds):
    assert adds_to(group, substance) == adds


def test_the_words_that_promise_are_never_printed():
    for view in (station_view(HOUSE), station_view(HOUSE, "celeriac-crisp"), plating_view(HOUSE)):
        text = repr(sheet(view)).lower()
        assert "-free" not in text
        assert " free" not in text
        assert "safe to" not in text


def test_no_price_is_on_a_crew_s_sheet():
    dearer = house_with(replace(short_rib_dish(), price=Fraction(99)))
    assert sheet(station_view(dearer)) == sheet(station_view(HOUSE))
    assert sheet(plating_view(dearer)) == sheet(plating_view(HOUSE))


def test_a_number_in_a_step_is_the_portion_s():
    assert steps_of(station_view(HOUSE))[-1].endswith("Jus at the pass, 25 ml of it.")


@pytest.mark.parametrize(
    "changes",
    [
        {"amount": None},
        {"places": ()},
        {"reach": Fraction("0.6")},
        {"on": None},
        {"shape": Shape.DISC},
        {"size": (Fraction(40), Fraction(30))},
        {"turned": Fraction(40)},
        {"note": "skin up"},
        {"leave_off": True},
    ],
)
def test_whatever_moves_on_the_plate_moves_both_fingerprints(changes):
    if "amount" in changes:
        changes = {"amount": short_rib_dish().elements[3].amount}
    elements = list(short_rib_dish().elements)
    elements[1] = replace(elements[1], **changes)
    house = house_with(replace(short_rib_dish(), elements=tuple(elements)))
    assert fingerprint_of(sheet(plating_view(HOUSE))) != fingerprint_of(sheet(plating_view(house)))
    if changes.keys() & {"note"}:
        return
    assert fingerprint_of(sheet(station_view(HOUSE))) != fingerprint_of(sheet(station_view(house)))


def test_the_plate_is_said_in_words_from_the_guest_s_side():
    figure = next(one for one in flat(sheet(plating_view(HOUSE)).blocks) if isinstance(one, FigureRef))
    words = figure.alternative.replace("\u00a0", " ")
    assert figure.name == "plate"
    assert words.startswith(
        "oval plate 30 cm, oval, 300 by 220 mm, rim 30 mm, from the guest's side: 1 Celeriac purée, 70: "
    )
    assert "from 10 o'clock to 3 o'clock, swoosh, 110 × 34 mm" in words
    assert "2 Smoked short rib, glazed, 2: 5 o'clock, 0.4 of the way to the inner rim, on Celeriac purée" in words
    assert "4 lovage, 3: 9, 12 and 2 o'clock" in words
    assert "5 Short rib jus, 25: centre, pool" in words
    small = next(one for one in flat(sheet(station_view(HOUSE)).blocks) if isinstance(one, FigureRef))
    assert (small.name, small.role) == ("plate-small", "small")


def test_every_heading_of_the_body_is_on_the_card():
    odd = section("Also", "First a paragraph.", form=Form.PARAGRAPH)
    odd = replace(odd, blocks=(*odd.blocks, block(Form.POINT, "a point"), block(Form.STEP, "a step")))
    body = replace(short_rib_dish().body, sections=(*short_rib_dish().body.sections, odd))
    view = station_view(house_with(replace(short_rib_dish(), body=body)))
    kinds = [type(one).__name__ for one in flat(sheet(view).blocks)]
    assert kinds[-4:] == ["Heading", "Paragraph", "Points", "Steps"]


def test_a_column_s_text():
    assert column_text(NUTS, ("walnut", "almond"), english()).plain == "nuts (walnut, almond)"
    assert column_text(CELERY, ("celery",), english()).plain == "celery"
