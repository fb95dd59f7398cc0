"""What an amount in braces prints: on a night sheet the load's figure, in a binder words that hold for every column.

A binder's columns differ, so a figure in a step would be right for one of them only. There ``{butter}`` is
*the* before its name, or *the butter* where no name follows, and ``{1/3 of butter}`` is *⅓ of the*.
"""

from __future__ import annotations

import re
from collections.abc import Sequence
from functools import lru_cache
from typing import Final

from linebook.compute.held_back import held_back
from linebook.compute.results import Batch, BatchIngredient, Printed
from linebook.compute.stage_times import loads_at, loads_of_stages
from linebook.documents.measures import Measures, share_text
from linebook.documents.second import item_name, prep_text
from linebook.documents.text import EMPTY, Text, strong
from linebook.documents.weighing import weighing
from linebook.documents.wording import Wording
from linebook.model.amounts import Amount
from linebook.model.body import AmountOf
from linebook.model.dish import Dish
from linebook.model.house import House
from linebook.model.units import plus, same_measure, times
from linebook.read.ids import kebab
from linebook.source.exact import Fraction
from linebook.source.frozen import frozen

FIRST: Final = 0
SECOND: Final = 1
"""The languages of a sheet, by their place."""

_OF = ("of", "de", "del")
"""What follows an amount where its name stands in the genitive, in the languages of sheets."""
NAMED_WITH_ARTICLE: Final = re.compile(r"\s+de(l| la| las| los)(?=\s)")
"""Spanish *of the* after an amount. Where no amount is printed the name stands with its article alone: *la sal*."""

_NEAR = 3
"""So many words after a brace may name its item."""
_SHORTEST_STEM = 4
_KNOWN: Final = 1024
"""Names whose words are kept: most stand in the methods of several cards."""


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
        part = EMPTY if whole else strong(share_text(brace.part))
        if lines and not [line for line in lines if line.load is not None]:
            return self.wording.say("brace.to-taste")
        after = following.split(None, _NEAR)[:_NEAR]
        if after and after[0] in _OF:
            if whole and NAMED_WITH_ARTICLE.match(following):
                return EMPTY
            return strong(self.wording.say("brace.all")) if whole else part
        name = item_name(self.house, brace.item)
        if following[:1].isspace() and self._is_named(tuple(map(_bare, after)), name, lines, language):
            return self.wording.say("brace.the") if whole else self.wording.say("brace.part", part=part)
        if whole:
            return self.wording.say("brace.the-named", name=name)
        return self.wording.say("brace.part-named", part=part, name=name)

    def _is_named(self, after: Sequence[str], name: Text, lines: Sequence[BatchIngredient], language: int) -> bool:
        """Return whether one of the words after a brace is of the item's name or of its prep."""
        if _is_one_of(after, _said_in(name, language)):
            return True
        preps = [prep_text(self.house, self.batch.component, line.ingredient) for line in lines]
        return any(_is_one_of(after, _said_in(prep, language)) for prep in preps)


@frozen
class NightBraces:
    """Figures for the braces of a batch card for one night: those of one load."""

    house: House
    batch: Batch
    measures: Measures
    wording: Wording

    def say(self, brace: AmountOf, section: str, _following: str, _language: int = FIRST) -> Text:
        """Return the amount of one load of the section's stage, bold; of what is held back, both its parts."""
        lines = lines_of(self.batch, brace.item, section)
        if len(lines) == 1 and brace.part == 1 and (held := self._held(lines[0])):
            return held
        amounts = sums_of([amount for line in lines if (amount := self._load(line, section)) is not None])
        if lines and not amounts:
            return self.wording.say("brace.to-taste")
        exact = weighed_exactly(self.house, brace.item)
        if len(lines) == 1 and brace.part == 1 and self._loads(section) in (None, lines[0].loads):
            return strong(self._told(lines[0]))
        shown = [times(amount, brace.part) for amount in amounts or [self._by_product(brace.item, section)]]
        return strong(self.wording.listed_with_and(self.measures.short(amount, exact=exact) for amount in shown))

    def _told(self, line: BatchIngredient) -> Text:
        """Return one load of a line as its row has it: the exact figure of what is weighed as a solution."""
        diluted = weighing(self.house, self.batch, self.batch.ingredients.index(line), self.measures).main
        printed = self.measures.line(line, line.loads, exact=weighed_exactly(self.house, line.ingredient.item)).load
        if diluted is not None or printed is None:
            return diluted.whole if diluted is not None else EMPTY
        return self.measures.told(printed)

    def _load(self, line: BatchIngredient, section: str) -> Amount | None:
        """Return a line's printed part of one load of the section's stage, whose loads may be other than its own."""
        printed = self.measures.line(line, line.loads, exact=weighed_exactly(self.house, line.ingredient.item)).load
        if printed is None:
            return None
        loads = self._loads(section) or line.loads
        return times(printed.amount, Fraction(line.loads, loads)) if loads != line.loads else printed.amount

    def _loads(self, section: str) -> int | None:
        found = zip(self.batch.component.stages, loads_of_stages(self.batch), strict=True)
        return next((loads for stage, loads in found if kebab(stage.name) == section), None)

    def _by_product(self, item: str, section: str) -> Amount:
        entry = next(entry for entry in self.batch.component.also_makes if entry.item == item)
        loads = self._loads(section) or loads_at(self.batch, entry.after)
        return times(entry.amount, self.batch.factor / loads)

    def _held(self, line: BatchIngredient) -> Text | None:
        exact = weighed_exactly(self.house, line.ingredient.item)
        printed = self.measures.line(line, line.loads, exact=exact).load
        parts = (
            held_back(line, printed, self.measures.house.instruments, self.measures.house.tolerance)
            if printed
            else None
        )
        if parts is None or parts.rest is None:
            return None
        first, rest = (
            strong(self.measures.told(Printed(amount=part, settled=True))) for part in (parts.first, parts.rest)
        )
        return self.wording.say("brace.held-back", first=first, rest=rest)


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
    if len(lines) == 1:  # as of most, whatever their stage
        return lines
    here = [line for line in lines if line.ingredient.stage is not None and kebab(line.ingredient.stage) == section]
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


def weighed_exactly(house: House, item: str) -> bool:
    """Return whether an item is one of those that must be weighed exactly."""
    return item in house.pantry and house.pantry[item].weigh_exactly


def _is_one_of(after: Sequence[str], known: str) -> bool:
    """Return whether one of some words is of a name, be it with another ending."""
    names = _words_of(known)
    if not names.isdisjoint(after):
        return True
    return any(_same_word(word, name) for word in after for name in names)


@lru_cache(_KNOWN)
def _words_of(name: str) -> frozenset[str]:
    return frozenset(filter(None, map(_bare, name.split())))


def _said_in(text: Text, language: int) -> str:
    return text.plain if language == FIRST else "".join(piece.words for piece in text.in_second)


def _same_word(word: str, name: str) -> bool:
    """Return whether one of two words is the other with an ending."""
    return min(len(word), len(name)) >= _SHORTEST_STEM and (word.startswith(name) or name.startswith(word))


def _bare(word: str) -> str:
    return word.strip(".,;:()!?").casefold()
