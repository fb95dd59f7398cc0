"""What is called otherwise now: an old sheet under the new names, and what a sheet says in its second language."""

from __future__ import annotations

from dataclasses import replace

import pytest

from linebook.documents.text import words
from linebook.documents.wording import english, wording_in
from linebook.markup.blocks import Fact, Facts, Inline, Mark, Paragraph, Run, Second, SheetText
from linebook.markup.compared import tell_changes
from linebook.markup.new_names import under_new_names
from linebook.markup.spoken import spoken_of
from linebook.markup.turned import Turner


def line(first: str, second: str = "") -> Inline:
    return (Run(text=first), Second(content=(Run(text=second),), lang="es")) if second else (Run(text=first),)


def sheet(*facts: Fact, title: str = "Jus") -> SheetText:
    return SheetText(
        id="batch-card:jus",
        kind="batch-card",
        line="hearth",
        landscape=False,
        kicker=(),
        title=line(title),
        aside=(),
        blocks=(Paragraph(content=line("for Hock, peas"), key="for"), Facts(facts=facts)),
    )


def fact(key: str, term: tuple[str, str], value: tuple[str, str]) -> Fact:
    return Fact(term=line(*term), value=line(*value), key=key)


@pytest.mark.parametrize(
    ("old", "new"),
    [
        ("Hock, peas", "Hock, leeks"),
        ("for Hock, peas: 40 g", "for Hock, leeks: 40 g"),
        ("Cream; Hock, peas, warm", "Cream; Hock, leeks, warm"),
        ("(Hock, peas)", "(Hock, leeks)"),
        ("Hock, peas (milk)", "Hock, leeks (milk)"),
        ("plate: 2 Hock, peas, 40: pool", "plate: 2 Hock, leeks, 40: pool"),
        ("Hock, peas terrine", "Hock, peas terrine"),
        ("Hock, peasants", "Hock, peasants"),
    ],
)
def test_a_name_is_another_one_only_where_it_stands_whole(old: str, new: str) -> None:
    before = sheet(fact("fact.portion", ("A portion", ""), (old, "")))
    after, found = under_new_names(before, [(words("Hock, peas"), words("Hock, leeks"))])
    value = after.blocks[1]
    assert isinstance(value, Facts)
    assert value.facts[0].value == line(new)
    assert len(found) == 1, "it stands over the facts at any rate"


def test_what_only_names_another_card_is_told_once_and_is_no_other_recipe() -> None:
    before = sheet(fact("fact.portion", ("A portion", ""), ("Hock, peas: 40 g", "")))
    after = sheet(fact("fact.portion", ("A portion", ""), ("Hock, leeks: 40 g", "")))
    renames = [(words("Hock, peas"), words("Hock, leeks"))]
    told = tell_changes(before, under_new_names(after, renames)[0], english(), renames)
    assert [one.plain for one in told.other] == ["Hock, peas is now called Hock, leeks"]
    assert not told.itself


def test_what_stands_on_a_sheet_is_said_with_its_second_language() -> None:
    wording = wording_in(["en", "es"])
    spoken = spoken_of(
        wording,
        [
            sheet(
                fact("a", ("Contains", "Contiene"), ("sesame", "sésamo")),
                fact("b", ("Takes", "Tarda"), ("3 h in all, 20 min by hand", "3 h en total, 20 min con las manos")),
                fact("c", ("Salt", "Sal"), ("then oil, not salt", "sin sal, luego aceite")),
            )
        ],
    )
    assert spoken.told("sesame").both == "sesame / sésamo"
    assert spoken.told("20 min by hand").both == "20 min by hand / 20 min con las manos"
    assert spoken.told("Contains, sesame").both == "Contains, sesame / Contiene, sésamo"
    assert spoken.told("not salt").both == "not salt", "in running words what comes first may come last there"
    assert spoken.told("Contains, mustard").both == "Contains, mustard", "half of it is no translation"
    assert spoken.say("change.renamed", old="Contains", new="Contains a").both.count("/") == 1


def test_a_name_of_the_house_is_said_in_its_second_language_also_where_it_stands_in_a_list() -> None:
    both = sheet(fact("a", ("At hand", "A mano"), ("salt, tamarind", "sal, tamarindo")))
    alone = spoken_of(wording_in(["en", "es"]), [both])
    spoken = spoken_of(wording_in(["en", "es"]), [both], {"tamarind": "tamarindo"})
    assert alone.told("tamarind").both == "tamarind"
    assert spoken.told("tamarind").both == "tamarind / tamarindo"


@pytest.mark.parametrize(
    ("old", "new", "said"),
    [
        ("the density of Beet, Curd and Plum", "the density of Beet, Curd, Rice and Plum", "Note: now also Rice"),
        ("the density of Beet and Curd", "the density of Curd and Beet", "Note: the order changed"),
        ("Hock, peas: 40 g", "Hock: 40 g", "Note: Hock, peas → Hock"),
        ("Hock, peas: 40 g", "Hock, peas: 40 g; Cream, oats: 30 g", "Note: now also Cream, oats: 30 g"),
    ],
)
def test_a_list_with_an_and_is_a_list_and_a_name_with_a_comma_is_none(old: str, new: str, said: str) -> None:
    assert Turner(wording=english()).turned(words("Note"), old, new).plain == said


def test_a_mark_says_the_new_name_aloud_too():
    mark = Mark(kind="contains-leave", word="contains eggs, can be served without Tartare sauce")
    before = replace(sheet(), blocks=(Paragraph(content=(mark,)),))
    now, found = under_new_names(before, [(words("Tartare sauce"), words("Caper mayonnaise"))])
    assert found
    assert now.blocks == (
        Paragraph(content=(replace(mark, word=mark.word.replace("Tartare sauce", "Caper mayonnaise")),)),
    )
