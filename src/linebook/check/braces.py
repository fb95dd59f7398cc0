"""Amounts in the method: braces name what the card lists, and no bare amount is left behind (LB214, LB306, LB319)."""

from __future__ import annotations

import re
from collections import defaultdict
from collections.abc import Iterator
from functools import cache
from typing import Final

from linebook.check.index import Index
from linebook.check.prose import Run, all_text, runs, stems, tokens, working_blocks
from linebook.check.words import number_text
from linebook.model.amounts import Kind
from linebook.model.body import AmountOf, Body
from linebook.model.component import Component
from linebook.model.dish import Dish
from linebook.model.unit_words import SYSTEM_WORDS, UNIT_WORDS
from linebook.model.units import UNITS
from linebook.source.codes import fault
from linebook.source.exact import Fraction
from linebook.source.faults import Fault

_UNIT_WORDS: Final = sorted(
    [word for word, key in UNIT_WORDS.items() if UNITS[key].kind is not Kind.COUNT] + list(SYSTEM_WORDS),
    key=len,
    reverse=True,
)
_NUMBER: Final = r"(?:\d+(?:[.,]\d+)?(?:\s*/\s*\d+)?(?:\s?[¼½¾⅓⅔⅛⅜⅝⅞])?|[¼½¾⅓⅔⅛⅜⅝⅞])"
# Before the whole pattern, which is slow to compile and to try, a text is asked for a figure and a unit's first word.
_WORD_AFTER_FIGURE: Final = re.compile(r"[\d¼½¾⅓⅔⅛⅜⅝⅞]\s?-?([^\W\d_¼½¾⅓⅔⅛⅜⅝⅞]+)")
_FIRST_WORDS: Final = frozenset(re.split(r"\W", word)[0] for word in _UNIT_WORDS)
_QUIET: Final = ("taste-for", "notes", "if-it-goes-wrong")


def check_brace_parts(index: Index) -> Iterator[Fault]:
    """Yield a warning where the parts of an ingredient in a method add up to more than all of it."""
    for card in index.cards:
        lines = [line.item for line in (card.ingredients if isinstance(card, Component) else card.elements)]
        taken: dict[str, list[AmountOf]] = defaultdict(list)
        for brace in braces(card.body):
            taken[brace.item].append(brace)
        for item, found in taken.items():
            most = lines.count(item)
            if not 0 < most < len(found):  # each is all of it at the most
                continue
            total = Fraction(0)
            for brace in found:
                total += brace.part
                if total > most:
                    yield _too_much(item, found, brace)
                    break


def check_bare_amounts(index: Index) -> Iterator[Fault]:
    """Yield a warning for each weight or volume in a method that would not scale with the batch."""
    names = _equipment_with_numbers(index)
    for card in index.cards:
        blocks = list(working_blocks(card.body, _QUIET))
        for block in blocks if _may_have_amounts(all_text(blocks)) else ():
            for run in runs(block):
                for match in _bare_amounts(run.text):
                    if not _in_a_name(run, match, names):
                        when = "the batch grows" if isinstance(card, Component) else "another size is sent"
                        yield _bare(run, match, when, _item_after(card, run, match) or "butter")


def _bare_amounts(text: str) -> Iterator[re.Match[str]]:
    if _may_have_amounts(text):
        yield from _bare_amount().finditer(text)


def _may_have_amounts(text: str) -> bool:
    return any(word.casefold() in _FIRST_WORDS for word in _WORD_AFTER_FIGURE.findall(text))


@cache
def _bare_amount() -> re.Pattern[str]:
    units = "|".join(map(re.escape, _UNIT_WORDS))
    return re.compile(
        rf"(?<![\w.,/°–-]){_NUMBER}(?:\s*(?:-|–|to)\s*{_NUMBER})?\s?-?(?:{units})\b"
        r"(?!\s*(?:/|per\b|each\b(?! time)|apiece\b|a (?:piece|portion|kilo|kg|litre|liter|l)\b|°))",
        re.IGNORECASE,
    )


def braces(body: Body) -> list[AmountOf]:
    """Return every computed amount of a method, in file order."""
    return [
        piece
        for section in body.sections
        for block in section.blocks
        for piece in block.pieces
        if type(piece) is AmountOf
    ]


def _too_much(item: str, found: list[AmountOf], at: AmountOf) -> Fault:
    total = sum((brace.part for brace in found), Fraction(0))
    parts = " + ".join(_part_text(brace.part) for brace in found)
    return fault(
        "LB319",
        f"the method takes {parts} of `{item}`, which is {number_text(total)} times what the card lists",
        at.span,
        hints=(f"write the part that is meant here, as in `{{1/2 of {item}}}`, or take the braces away",),
    )


def _part_text(part: Fraction) -> str:
    return "all" if part == 1 else f"{part.numerator}/{part.denominator}"


def _item_after(card: Component | Dish, run: Run, match: re.Match[str]) -> str:
    """Return the line of the card whose id has one of the next words in it, as in *200 g butter*; "" if not one."""
    lines = card.ingredients if isinstance(card, Component) else card.elements
    items = dict.fromkeys(line.item for line in lines)
    for token in tokens(run.text[match.end() :])[:3]:
        found = [item for item in items if token.stem in stems(item)]
        if found:
            return found[0] if len(found) == 1 else ""
    return ""


def _bare(run: Run, match: re.Match[str], when: str, item: str) -> Fault:
    typed = match.group()
    return fault(
        "LB306",
        f"`{typed}` in the method stays the same when {when}",
        run.span(match.start(), match.end()),
        hints=(
            f"write its id in braces and its amount is computed, as in `{{{item}}}` or `{{1/3 of {item}}}`",
            f"where it never scales, write `{{fixed {typed}}}`",
        ),
    )


def _equipment_with_numbers(index: Index) -> tuple[str, ...]:
    return tuple(name.casefold() for name in index.equipment if any(c.isdigit() for c in name))


def _in_a_name(run: Run, match: re.Match[str], names: tuple[str, ...]) -> bool:
    """Return whether the amount is part of what the house calls a vessel, as in *the 24 L rondeau*."""
    text = run.text.casefold()
    for name in names:
        at = text.find(name)
        while at >= 0:
            if at <= match.start() and match.end() <= at + len(name):
                return True
            at = text.find(name, at + 1)
    return False
