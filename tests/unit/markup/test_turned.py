"""How a text that is another one now is told: only what is another, never a word that is not in one of the two."""

from __future__ import annotations

import re

import pytest
from hypothesis import given
from hypothesis import strategies as st

from linebook.documents.text import words
from linebook.documents.wording import english
from linebook.markup.turned import SHORT, Turner, few_words, shortened

TURNER = Turner(wording=english())


@pytest.mark.parametrize(
    ("old", "new", "said"),
    [
        ("hands on 10 min, stove, at 400 °F", "hands on 10 min, stove, at 420 °F", "It: at 400 °F → at 420 °F"),
        ("Hake: 30 g; Chips, aioli: 30 g", "Hake: 25 g; Chips, aioli: 30 g", "It: Hake: 30 g → 25 g"),
        ("3 d: day 1 is the day it is made", "2 d: day 1 is the day it is made", "It: 3 d → 2 d"),
        ("through the fryer; from the Fry line", "through the fryer", "It: no longer from the Fry line"),
        ("sheet pan, walk-in, 3 °C", "half sheet pan, walk-in, 3 °C", "It: sheet pan → half sheet pan"),
        ("fork, knife", "knife, fork", "It: the order changed"),
        ("sheet pan, walk-in, 3 °C", "sheet pan, bench", "It: walk-in, 3 °C → bench"),
        ("bench, covered", "walk-in, 3 °C, covered", "It: bench → walk-in, 3 °C"),
        ("Hake; Chips, aioli; Peas", "Cod, lemon; Peas", "It: Hake; Chips, aioli → Cod, lemon"),
        ("salt, oil, peas", "salt, oil", "It: no longer peas"),
        ("wheat, milk, egg", "milk, egg, soy", "It: now also soy; It: no longer wheat"),
        ("nuts (almond, walnut), egg", "nuts (walnut), egg", "It: nuts (almond, walnut) → nuts (walnut)"),
        ("Cornbread, Slaw, Sundae", "Cornbread; Slaw, cup; Sundae", "It: Slaw → Slaw, cup"),
        ("", "warm", "It: now warm"),
        ("warm", "", "It: no longer warm"),
        ("24 cm", "28 cm", "It: 24 cm → 28 cm"),
    ],
)
def test_only_what_is_another_is_told(old: str, new: str, said: str) -> None:
    assert TURNER.turned(words("It"), old, new).plain.replace("\u00a0", " ") == said


@pytest.mark.parametrize(
    ("old", "new", "said"),
    [
        ("Fry at 180\u00a0°C until gold.", "Fry at 185\u00a0°C until gold.", ("180\u00a0°C", "185\u00a0°C")),
        ("Fry and drain it.", "Fry well and drain it.", ("", "well")),
        ("Smoke it. Cut off the ends.", "Smoke it.", ("Cut off the ends", "")),
        ("Wet the meat.", "Dry every leaf with a cloth.", None),
        ("Salt it.", "Salt it", ("it.", "it")),
    ],
)
def test_a_few_words_are_shown_and_many_are_not(old: str, new: str, said: tuple[str, str] | None) -> None:
    assert few_words(old, new) == said


def test_sentences_are_told_one_by_one_and_by_what_they_are_about() -> None:
    old = "Also at hand: toast. Tell the chef."
    assert [one.plain for one in TURNER.sentences(None, old, "Also at hand: toast, chips. Tell the chef.")] == [
        "Also at hand: now also chips"
    ]
    assert [one.plain for one in TURNER.sentences(None, old, "Also at hand: toast.")] == ["out: Tell the chef."]
    assert [one.plain for one in TURNER.sentences(words("Yield"), "Makes 1 kg", "Makes 1 kg, enough for 30")] == [
        "Yield: now also enough for 30"
    ]


TEXTS = st.lists(
    st.sampled_from(["salt", "rye, dark", "(a, b)", "egg: 2", "hot", "3 °C", "cup"]), min_size=1, max_size=6
)


@given(TEXTS, TEXTS, st.sampled_from(["; ", ", ", " · "]))
def test_nothing_is_told_that_is_in_neither_and_something_wherever_they_differ(
    old: list[str], new: list[str], between: str
) -> None:
    before, after = between.join(old), between.join(new)
    if before == after:
        return
    said = TURNER.turned(words("It"), before, after).plain
    told = re.sub(r"It:|→|now also|no longer|the order changed|reworded|[,;·:]", " ", said).split()
    assert set(told) <= set(re.sub(r"[,;·:]", " ", f"{before} {after}").split())
    if "order" not in said and "reworded" not in said:
        assert told


@given(st.text("ab ,;", max_size=200), st.integers(2, 80))
def test_a_shortened_text_is_short_and_begins_as_it_did(text: str, most: int) -> None:
    cut = shortened(text, most)
    assert len(cut) <= max(most, 1)
    assert text.startswith(cut.removesuffix("…"))
    assert most >= SHORT or len(text) <= most or cut.endswith("…")
