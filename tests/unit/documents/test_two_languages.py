"""Text in two languages: what has a second keeps it, what has none lends its first, and one language changes nothing."""

from __future__ import annotations

from dataclasses import fields, is_dataclass, replace
from fractions import Fraction

import pytest
import sample_house
from hypothesis import given
from hypothesis import strategies as st
from sample_house import binder_view, cover_view, matrix_view, night_view, plating_view, sheet, station_view

from linebook.documents.catalogue import catalogue_of
from linebook.documents.english import ENGLISH
from linebook.documents.places import place_text
from linebook.documents.text import EMPTY, Piece, Text, each_language, in_two, joined, strong, words
from linebook.documents.wording import english, wording_in
from linebook.markup.blocks import Mark, Run, Second, SheetText
from linebook.markup.fingerprint import fingerprint_of
from linebook.markup.seconds import in_second_language, languages_of

HOUSE = sample_house.sample_house()
BOTH = wording_in(("en", "es"))
VIEWS = {
    "binder": binder_view,
    "night": night_view,
    "station": station_view,
    "plating": plating_view,
    "matrix": matrix_view,
    "cover": cover_view,
}

letters = st.text(alphabet="abc ñé", max_size=5)
texts = st.builds(words, letters, st.sampled_from(["", "a", "el ", "ñu"]))


def second(text: Text) -> str:
    return "".join(piece.words for piece in text.in_second)


@given(parts=st.lists(texts, max_size=5), between=texts)
def test_joined_text_is_joined_in_each_language(parts, between):
    said = joined(parts, between)
    kept = [part for part in parts if part]
    assert said.plain == between.plain.join(part.plain for part in kept)
    assert second(said) == second(between).join(second(part) for part in kept)
    if all(part.second is None for part in kept) and (between.second is None or len(kept) < 2):
        assert said.second is None


def test_a_second_that_says_the_same_is_left_out():
    assert words("menu", "menu").second is None
    assert words("menu", "").second is None
    assert words("menu", "menú").second == (Piece(words="menú"),)
    assert joined([words("a", "b"), words("b", "a")], words("")).second is not None
    assert joined([words("ab", "a"), words("c", "bc")]).second is None
    assert in_two((Piece(words="a"),), (Piece(words="a", bold=True),)).second is None


def test_bold_and_changes_are_made_in_each_language():
    assert strong(words("salt", "sal")) == words("salt", "sal", bold=True)
    assert strong(words("salt")) == words("salt", bold=True)
    upper = each_language(
        words("salt", "sal"), lambda pieces: tuple(replace(one, words=one.words.upper()) for one in pieces)
    )
    assert (upper.plain, second(upper)) == ("SALT", "SAL")
    assert words("salt", "sal").both == "salt / sal"
    assert words("salt").both == "salt"
    assert not EMPTY


def test_a_sentence_is_said_in_both_with_the_values_of_each():
    said = BOTH.say("from.line", line=words("Hearth", "Fuego"))
    assert said.both == "from the Hearth line / de la línea Fuego"
    assert BOTH.say("from.line", line="Hearth").both == "from the Hearth line / de la línea Hearth"
    one = english().say("from.line", line=words("Hearth", "Fuego"))
    assert one.both == "from the Hearth line / from the Fuego line", "a value's second is never lost"
    assert english().say("from.line", line="Hearth").second is None


def test_bold_in_a_sentence_is_bold_in_both():
    said = BOTH.say("caution.drafts", what=words("a; b"))
    assert [piece.bold for piece in said.first][:1] == [True]
    assert all(piece.bold for piece in said.in_second)


def test_names_with_a_comma_in_either_language_are_parted_by_semicolons():
    assert BOTH.named([words("leeks", "puerros, en ceniza"), words("rib", "costilla")]).plain == "leeks; rib"
    assert BOTH.named([words("leeks", "puerros"), words("rib", "costilla")]).plain == "leeks, rib"


@pytest.mark.parametrize(
    ("hours", "spanish"),
    [
        (("1",), "la 1"),
        (("3/2",), "la 1½"),
        (("5",), "las 5"),
        (("12", "2"), "las 12 y 2"),
        (("1", "4", "7"), "la 1, 4 y 7"),
    ],
)
def test_an_hour_on_the_plate_has_its_own_article(hours, spanish):
    element = next(iter(HOUSE.dishes["short-rib"].elements))
    places = tuple(replace(element.places[0], clock=Fraction(hour)) for hour in hours)
    said = place_text(HOUSE, replace(element, places=places, shape=None, reach=None, on=None, height=None), BOTH)
    assert second(said) == spanish
    assert said.plain.endswith(" o'clock")


# -- whole sheets


def in_first(value):
    """Return a block tree without its second language, also where that follows in the same line or in a mark's word."""
    if isinstance(value, tuple):
        line = [one for one in value if not isinstance(one, Second)]
        kept = []
        for at, one in enumerate(line):
            if isinstance(one, Run) and one.lang:
                continue
            following = line[at + 1] if at + 1 < len(line) else None
            if isinstance(one, Run) and isinstance(following, Run) and following.lang:
                one = replace(one, text=one.text.removesuffix(" / "))  # noqa: PLW2901
            kept.append(one)
        return tuple(in_first(one) for one in kept if not (isinstance(one, Run) and not one.text))
    if isinstance(value, Mark):
        return replace(value, word=value.word.partition(" / ")[0])
    if is_dataclass(value) and not isinstance(value, type):
        return replace(value, **{one.name: in_first(getattr(value, one.name)) for one in fields(value)})
    return value


def words_of(value) -> list[str]:
    """Return every run and every mark's word of a tree."""
    if isinstance(value, Run):
        return [value.text]
    if isinstance(value, Mark):
        return [value.word]
    if isinstance(value, tuple):
        return ["".join(text for one in value for text in words_of(one))]
    if is_dataclass(value) and not isinstance(value, type):
        return [text for one in fields(value) for text in words_of(getattr(value, one.name))]
    return []


def printed(view: str, languages: tuple[str, ...], monkeypatch) -> SheetText:
    monkeypatch.setattr(sample_house, "english", lambda: wording_in(languages))
    return sheet(VIEWS[view](HOUSE))


@pytest.mark.parametrize("view", VIEWS)
def test_a_second_language_leaves_the_first_as_it_was(view, monkeypatch):
    alone, both = printed(view, ("en",), monkeypatch), printed(view, ("en", "es"), monkeypatch)
    assert languages_of(alone) == ()
    assert languages_of(both) == ("es",)
    assert words_of(in_first(both)) == words_of(alone)
    assert fingerprint_of(both) != fingerprint_of(alone)


# The others have lines with a blank, or words in marks, where both languages stand in one line.
@pytest.mark.parametrize("view", ["station", "plating", "cover"])
def test_the_second_language_says_what_a_house_printing_in_it_says(view, monkeypatch):
    spanish, both = printed(view, ("es",), monkeypatch), printed(view, ("en", "es"), monkeypatch)
    alone = " ".join(words_of(spanish)).replace("\n", " ").split()
    assert " ".join(words_of(in_second_language(both))).split() == alone


@pytest.mark.parametrize("view", VIEWS)
def test_no_english_label_is_left_on_a_spanish_sheet(view, monkeypatch):
    shown = words_of(printed(view, ("es",), monkeypatch))
    own = {
        sentence
        for key, sentence in ENGLISH.items()
        if "{" not in sentence and len(sentence) > 3 and catalogue_of("es").sentences.get(key) != sentence
    }
    assert not own & {text.strip() for text in shown}
