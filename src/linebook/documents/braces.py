"""What an amount in braces prints: on a night sheet the load's figure, in a binder words that hold for every column.

A binder's columns differ, so a figure in a step would be right for one of them only. There ``{butter}`` is
*the* before its name, or *the butter* where no name follows, and ``{1/3 of butter}`` is *⅓ of the*.
"""

from __future__ import annotations

import re
from collections.abc import Sequence
from fractions import Fraction
from typing import Final

from linebook.compute.results import Batch, BatchIngredient
from linebook.documents.measures import Measures, share_text
from linebook.documents.second import item_name, prep_text
from linebook.documents.text import EMPTY, Text, strong
from linebook.documents.wording import Wording
from linebook.model.amounts import Amount
from linebook.model.body import AmountOf
from linebook.model.dish import Dish
from linebook.model.house import House
from linebook.model.units import plus, same_measure, times
from linebook.source.frozen import frozen

FIRST: Final = 0
SECOND: Final = 1
"""The languages of a sheet, by their place."""

_OF = ("of", "de", "del")
"""What follows an amount where its name stands in the genitive, in the languages of sheets."""
NAMED_WITH_ARTICLE: Final = re.compile(r"\s+de(l| la| las| los)(?=\s)")
"""Spanish *of the* after an amount. Where no amount is printed the name stands with its article alone: *la sal*."""

_NEAR = 3
_SHORTEST_STEM = 4


@frozen
class BinderBraces:
    """Words for the braces of a batch card in a binder."""

    house: House
    batch: Batch
    wording: Wording

    def say(self, brace: AmountOf, section: str, following: str, language: int = FIRST) -> Text:
        """Return words that are true of every column, in the ``language`` that follows; nothing for all of it."""
        lines = lines_of(self.batch, brace.item, section)
        whole = brace.part == 1
        part = strong(share_text(brace.part))
        if lines and all(line.load is None for line in lines):
            return self.wording.say("brace.to-taste")
        if whole and NAMED_WITH_ARTICLE.match(following):
            return EMPTY
        if "".join(following.split()[:1]) in _OF:
            return strong(self.wording.say("brace.all")) if whole else part
        name = item_name(self.house, brace.item)
        preps = [prep_text(self.house, self.batch.component, line.ingredient) for line in lines]
        if name_follows(following, *(_said_in(text, language) for text in (name, *preps))):
            return self.wording.say("brace.the") if whole else self.wording.say("brace.part", part=part)
        if whole:
            return self.wording.say("brace.the-named", name=name)
        return self.wording.say("brace.part-named", part=part, name=name)


@frozen
class NightBraces:
    """Figures for the braces of a batch card for one night: those of one load."""

    house: House
    batch: Batch
    measures: Measures
    wording: Wording

    def say(self, brace: AmountOf, section: str, _following: str, _language: int = FIRST) -> Text:
        """Return the amount of one load, bold."""
        lines = lines_of(self.batch, brace.item, section)
        amounts = sums_of([line.load for line in lines if line.load is not None])
        if lines and not amounts:
            return self.wording.say("brace.to-taste")
        exact = weighed_exactly(self.house, brace.item)
        shown = [times(amount, brace.part) for amount in amounts or [by_product_load(self.batch, brace.item)]]
        return strong(self.wording.listed_with_and(self.measures.short(amount, exact=exact) for amount in shown))


@frozen
class PortionBraces:
    """Figures for the braces of a dish: those of one portion."""

    dish: Dish
    measures: Measures

    def say(self, brace: AmountOf, _section: str, _following: str, _language: int = FIRST) -> Text:
        """Return the amount of one portion as the dish has it, bold."""
        amounts = sums_of([element.amount for element in self.dish.elements if element.item == brace.item])
        shown = (self.measures.short(times(amount, brace.part)) for amount in amounts)
        return strong(self.measures.wording.listed_with_and(shown))


def lines_of(batch: Batch, item: str, section: str) -> Sequence[BatchIngredient]:
    """Return an item's lines: those of the section's own stage, or where it has none there, all of them."""
    lines = [line for line in batch.ingredients if line.ingredient.item == item]
    here = [line for line in lines if line.ingredient.stage == section]
    return here or lines


def sums_of(amounts: Sequence[Amount]) -> list[Amount]:
    """Return amounts with those of one measure added up: a weight and a count of one item stay two figures."""
    totals: list[Amount] = []
    for amount in amounts:
        for at, total in enumerate(totals):
            if same_measure(total.unit, amount.unit):
                totals[at] = plus(total, amount)
                break
        else:
            totals.append(amount)
    return totals


def by_product_load(batch: Batch, item: str) -> Amount:
    """Return how much of a by-product one load gives."""
    entry = next(entry for entry in batch.component.also_makes if entry.item == item)
    return times(entry.amount, batch.factor / Fraction(batch.loads))


def weighed_exactly(house: House, item: str) -> bool:
    """Return whether an item is one of those that must be weighed exactly."""
    return item in house.pantry and house.pantry[item].weigh_exactly


def name_follows(following: str, *known: str) -> bool:
    """Return whether the item's name is typed after its brace: one of the next words is of its name or its prep."""
    near = [_bare(word) for word in following.split()[:_NEAR]]
    if not following[:1].isspace():
        return False
    names = [_bare(word) for name in known for word in name.split()]
    return any(_same_word(word, name) for word in near for name in names if word and name)


def _said_in(text: Text, language: int) -> str:
    return text.plain if language == FIRST else "".join(piece.words for piece in text.in_second)


def _same_word(word: str, name: str) -> bool:
    shorter, longer = sorted((word, name), key=len)
    return word == name or (len(shorter) >= _SHORTEST_STEM and longer.startswith(shorter))


def _bare(word: str) -> str:
    return word.strip(".,;:()!?").casefold()
