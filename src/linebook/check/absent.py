"""What a card speaks of and does not list (LB201, LB214, LB305, LB603).

Percentages, braces in the method, by-products, amounts of a size and elements that stand on others all name a line of
the card's list. One line that is taken away is one fault, told where it matters most.
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable, Iterator, Sequence, Set

from linebook.check.braces import braces
from linebook.check.index import Index, place
from linebook.check.words import gathered, meant, number_text
from linebook.model.amounts import BATCH, Percent, ToTaste
from linebook.model.component import Component
from linebook.model.dish import Dish
from linebook.source.codes import fault
from linebook.source.faults import Fault
from linebook.source.frozen import frozen
from linebook.source.nearest import nearest
from linebook.source.spans import Span


@frozen
class _Mention:
    """One place that names a line of the card. The lowest ``rank`` is told, the others stand beside it."""

    rank: int
    code: str
    message: str
    span: Span


def check_absent(index: Index) -> Iterator[Fault]:
    """Yield a fault for each word of a card that should be one of its lines and is not."""
    for component in index.components.values():
        if not index.is_incomplete(component.id):
            yield from _absent(index, _mentions(component), [line.item for line in component.ingredients])
    for dish in index.dishes.values():
        if not index.is_incomplete(dish.id):
            yield from _absent(index, _mentions(dish), [element.item for element in dish.elements])


def check_weightless_bases(index: Index) -> Iterator[Fault]:
    """Yield a fault for each percentage of something that is only added to taste."""
    for component in index.components.values():
        yield from weightless_bases(component)


def weightless_bases(component: Component) -> Iterator[Fault]:
    """Yield the faults of one component's percentages of what is only added to taste."""
    to_taste = {line.item for line in component.ingredients if isinstance(line.amount, ToTaste)}
    weighed = {line.item for line in component.ingredients if not isinstance(line.amount, ToTaste)}
    for line in component.ingredients:
        if not isinstance(line.amount, Percent):
            continue
        for number, item in enumerate(line.amount.of):
            if item in to_taste - weighed:
                yield fault(
                    "LB305",
                    f"`{item}` is to taste on this card, so there is no weight to take "
                    f"{number_text(line.amount.number)} % of",
                    place(line, f"of.{number}", "of"),
                    hints=(f"give `{item}` an amount, or take the percentage of something that has one",),
                )


def explained_by_unknown(index: Index, lines: Iterable[str], word: str) -> bool:
    """Return whether a word missing from a card's list is most likely one of its lines mistyped.

    Then the mistyped line is the one report, and what names the right id elsewhere on the card is not at fault.
    """
    unknown = [line for line in lines if line in index.unresolved]
    return any(nearest(typed, index.items) in (word, None) or nearest(typed, [word]) for typed in unknown)


def absent_words(card: Component | Dish) -> frozenset[str]:
    """Return the words of a card that should be lines of its list and are not."""
    return frozenset(word for word, _ in _mentions(card))


def _absent(index: Index, mentions: Iterable[tuple[str, _Mention]], listed: Sequence[str]) -> Iterator[Fault]:
    found: dict[str, list[_Mention]] = defaultdict(list)
    for word, mention in mentions:
        if not explained_by_unknown(index, listed, word):
            found[word].append(mention)
    for word, places in found.items():
        first, *rest = sorted(places, key=lambda mention: mention.rank)
        hints = [meant(word, listed, "add it to the card")]
        if index.knows(word):
            add = f"add `- {{item: {word}, amount: ...}}` to the card"
            hints = [f"did you mean `{close}`?", f"or {add}"] if (close := nearest(word, listed)) else [add]
        spans = [mention.span for mention in (first, *rest)]
        yield gathered(first.code, first.message, spans, hints=hints, label="named here")


def _mentions(card: Component | Dish) -> Iterator[tuple[str, _Mention]]:
    """Yield what a card speaks of and does not list. Nearly all is listed, so no message is worded for nothing."""
    if isinstance(card, Component):
        return _component_mentions(card, {line.item for line in card.ingredients})
    return _dish_mentions(card, {element.item for element in card.elements})


def _component_mentions(component: Component, listed: Set[str]) -> Iterator[tuple[str, _Mention]]:
    for line in component.ingredients:
        if isinstance(line.amount, Percent):
            for number, item in enumerate(line.amount.of):
                if item != BATCH and item not in listed:
                    text = f"{number_text(line.amount.number)} % is of `{item}`, which this card does not list"
                    span = place(line, f"of.{number}", "of")
                    yield item, _Mention(rank=0, code="LB305", message=text, span=span)
    made_here = {made.item for made in component.also_makes}
    yield from _brace_mentions(component, "ingredient", listed | made_here)
    for made in component.also_makes:
        if made.source is not None and made.source not in listed:
            text = f"`{made.item}` comes from `{made.source}`, which this card does not list"
            yield made.source, _Mention(rank=2, code="LB201", message=text, span=place(made, "from", "source"))


def _dish_mentions(dish: Dish, listed: Set[str]) -> Iterator[tuple[str, _Mention]]:
    for element in dish.elements:
        if element.on is not None and element.on not in listed:
            text = f"`{element.item}` stands on `{element.on}`, which is no element of this dish"
            yield element.on, _Mention(rank=0, code="LB603", message=text, span=element.at("on"))
    yield from _brace_mentions(dish, "element", listed)
    for size in dish.sizes:
        for item in (item for item in size.amounts if item not in listed):
            text = f"`{item}` is no element of this dish, so `{size.id}` cannot have an amount of it"
            span = place(size, f"amounts.{item}", "amounts")
            yield item, _Mention(rank=2, code="LB201", message=text, span=span)


def _brace_mentions(card: Component | Dish, kind: str, there: Set[str]) -> Iterator[tuple[str, _Mention]]:
    for brace in braces(card.body):
        if brace.item in there:
            continue
        text = f"`{{{brace.item}}}` names no {kind} of this card"
        yield brace.item, _Mention(rank=1, code="LB214", message=text, span=brace.span)
