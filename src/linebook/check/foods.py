"""Foods that a method names and its card does not list: they would miss the allergens (LB213)."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterator, Mapping, Sequence
from itertools import pairwise
from typing import Final, TypeAlias

from linebook.check.absent import absent_words
from linebook.check.index import Index, dish_references
from linebook.check.prose import Run, Token, all_text, contains, runs, stem_set, stems, tokens
from linebook.model.component import Component
from linebook.model.dish import Dish
from linebook.source.codes import fault
from linebook.source.faults import Fault
from linebook.source.frozen import frozen

_QUIET: Final = ("taste-for", "notes", "if-it-goes-wrong")
_NO_FOOD: Final = (
    *("water bath", "ice bath", "iced water bath", "bain marie", "butter knife", "egg timer", "rice cooker"),
    *(
        "pepper mill",
        "salt box",
        "bread knife",
        "potato ricer",
        "garlic press",
        "butter paper",
        "egg ring",
        "salt crust",
    ),
)
"""Things of the kitchen whose names hold the word for a food."""

Stems: TypeAlias = tuple[str, ...]


@frozen
class _Name:
    stems: Stems
    item: str | None


_Names: TypeAlias = Mapping[str, tuple[_Name, ...]]


def check_foods(index: Index) -> Iterator[Fault]:
    """Yield a warning, once a card, for each pantry item or component its method names and it does not list.

    What is inside a listed component is listed. A name that is part of a listed name is that thing.
    """
    spelled = _spellings(index)
    names = _names(index, spelled)
    for card in index.cards:
        if not index.is_incomplete(card.id):
            yield from _foods_of(index, card, names, spelled)


def _foods_of(
    index: Index, card: Component | Dish, names: _Names, spelled: Mapping[str, list[Stems]]
) -> Iterator[Fault]:
    sections = [section for section in card.body.sections if section.key not in _QUIET]
    blocks = [block for section in sections for block in section.blocks]
    words = stem_set(all_text(blocks))
    listed = _listed(index, card)
    named = [name for first in names.keys() & words for name in names[first] if words.issuperset(name.stems)]
    unlisted = [name for name in named if name.item is not None and name.item not in listed]
    if not unlisted:
        return
    if any(index.is_broken(item) or item in index.unresolved for item in listed):
        return  # what is inside is not known, so nothing is missing for certain
    known = [form for item in listed for form in spelled.get(item, ())] + [stems(card.name)]
    if all(_is_known(index, name.item or "", name.stems, known) for name in unlisted):
        return  # so that most methods need not be read word by word
    told = set(absent_words(card)) | listed
    for block in blocks:
        for run in runs(block):
            for item, at, form in _named_in(run, names):
                if item not in told and not _is_known(index, item, form, known):
                    told.add(item)
                    yield _unlisted(card, item, run, tokens(run.text)[at : at + len(form)])


def _is_known(index: Index, item: str, form: Stems, known: Sequence[Stems]) -> bool:
    """Return whether a name is that of what the card lists, or a part of it, or of more than a listed component."""
    first = form[0]
    return any(contains(other, form) for other in known if first in other) or (
        item in index.components and any(contains(form, other) for other in known)
    )


def _listed(index: Index, card: Component | Dish) -> set[str]:
    """Return every item the card lists, with all that is inside it, what it makes and what its media carry."""
    waiting = [reference.item for reference in dish_references(card)] if isinstance(card, Dish) else []
    if isinstance(card, Component):
        waiting += index.inside[card.id]
    through = [m for step in (card.stages if isinstance(card, Component) else card.ever_served) for m in step.through]
    for medium in index.file.media if index.file is not None else ():
        if medium.id in through:
            waiting += medium.carries
    found = {card.id}
    if isinstance(card, Component):
        found |= {made.item for made in card.also_makes}
    while waiting:
        item = waiting.pop()
        if item in found:
            continue
        found.add(item)
        if item in index.components:
            waiting += index.inside[item]
        for maker, made in index.by_products.get(item, ()):
            waiting.append(made.source or maker.id)
    return found


def _named_in(run: Run, names: _Names) -> Iterator[tuple[str, int, Stems]]:
    """Yield the foods a text names, with which word each begins at, the longest name first at each place."""
    words = stems(run.text)
    placed: list[Token] = []  # the same words with their places, which few texts need
    free = 0
    for at in [at for at, word in enumerate(words) if word in names]:  # nearly no word is
        if at < free:
            continue
        for name in names[words[at]]:
            end = at + len(name.stems)
            if words[at:end] != name.stems:
                continue
            if end > at + 1:
                placed = placed or tokens(run.text)
            if end == at + 1 or _side_by_side(run, placed[at:end]):
                if name.item is not None:
                    yield name.item, at, name.stems
                free = end
                break


def _side_by_side(run: Run, words: Sequence[Token]) -> bool:
    gaps = pairwise(words)
    return all(run.text[first.end : second.start].strip(" \n-") == "" for first, second in gaps)


def _spellings(index: Index) -> Mapping[str, list[Stems]]:
    """Return every way each item is called. *Short rib, bone in* is also *short rib*."""
    called: dict[str, list[str]] = {id: [component.name] for id, component in index.components.items()}
    for item, entries in index.by_products.items():
        called.setdefault(item, []).extend(made.name for _, made in entries)
    for id, bought in index.pantry.items():
        shorter = (bought.name.split(",")[0], bought.name.split("(")[0])
        called.setdefault(id, []).extend((bought.name, *shorter, *bought.also_called))
    return {item: [form for text in texts if (form := stems(text))] for item, texts in called.items()}


def _names(index: Index, spelled: Mapping[str, list[Stems]]) -> _Names:
    """Return every name to look for by its first word, longest first.

    A component with a name of one word is not looked for: *glaze* and *crumb* are also what cooks do.
    """
    found: dict[str, dict[Stems, _Name]] = defaultdict(dict)
    for text in (*_NO_FOOD, *index.equipment):
        form = stems(text)
        if form:
            found[form[0]].setdefault(form, _Name(stems=form, item=None))
    for item in (*index.pantry, *index.components):
        for form in spelled[item]:
            if item in index.pantry or len(form) > 1:
                found[form[0]].setdefault(form, _Name(stems=form, item=item))
    return {
        first: tuple(sorted(forms.values(), key=lambda name: (-len(name.stems), name.stems)))
        for first, forms in found.items()
    }


def _unlisted(card: Component | Dish, item: str, run: Run, words: Sequence[Token]) -> Fault:
    where = "`ingredients`, `adjust_with`" if isinstance(card, Component) else "`elements`"
    typed = run.text[words[0].start : words[-1].end]
    return fault(
        "LB213",
        f"the method names `{' '.join(typed.split())}`, and the card does not list it, so its allergens are missed",
        run.span(words[0].start, words[-1].end),
        hints=(f"add `{item}` to {where} or `also_touches` of this card",),
    )
