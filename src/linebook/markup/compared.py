"""What changed between two issues of a sheet, as a kitchen reads it: allergens apart, standard nights in a word.

Owns which parts of a sheet are which. How a difference is found and worded is not its business.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import replace
from typing import Final

from linebook.documents.text import Text, words
from linebook.documents.wording import Wording
from linebook.markup.base_batch import nights_differ, without_nights, without_uses
from linebook.markup.blocks import Block, Box, Facts, Mark, Paragraph, SheetText, Split, Table
from linebook.markup.difference import describe_difference
from linebook.markup.menu_lists import KINDS, Verdict, tell_list
from linebook.markup.named import is_named
from linebook.markup.new_names import Renamed, under_new_names
from linebook.markup.said import SaidText, plain, what_is_said
from linebook.markup.seconds import languages_of
from linebook.markup.spoken import spoken_of
from linebook.source.frozen import frozen

_CONTENTS: Final = "line-cover"
_MADE: Final = "fact.made"
_UNDECLARED: Final = "allergens.undeclared"
_MARKS: Final = {"allergens.contains": "change.mark.contains", "allergens.may-contain": "change.mark.may"}
"""How the lines of a card about allergens are called by a word alone."""


@frozen
class Changes:
    """What changed of one sheet: what a guest's safety hangs on, and the rest; both () where nothing did.

    ``verdicts`` are those of ``allergens`` that are a dish's verdict for one allergen, with the dish. ``itself`` is
    false where only the standard nights or what a component is used for are others.
    """

    allergens: tuple[Text, ...] = ()
    other: tuple[Text, ...] = ()
    verdicts: tuple[Verdict, ...] = ()
    itself: bool = True


def tell_changes(
    before: SheetText,
    after: SheetText,
    wording: Wording,
    renames: Sequence[Renamed] = (),
    names: Mapping[str, str] | None = None,
) -> Changes:
    """Return what changed between two issues of a sheet; ``renames`` are cards that are called otherwise now.

    ``names`` are those of the house in its second language, by the first.

    A cover says of every sheet which it is, so that of its contents is told only that they are new. What a batch card
    says of the standard nights follows from what is expected: that is told in one sentence.
    """
    if before == after:
        return Changes()
    own = plain(before.title), plain(after.title)
    others = [pair for pair in renames if tuple(one.plain for one in pair) != own]
    old, found = under_new_names(before, others)
    said = tuple(wording.say("change.renamed", old=was, new=now) for was, now in found)
    if old == after:
        return Changes(other=said, itself=False)
    told = _told(old, after, spoken_of(wording, (before, after), names))
    dress = (wording.say("change.dress"),)
    return replace(told, other=(*said, *told.other)) if not said or told.other != dress else replace(told, other=said)


def _told(before: SheetText, after: SheetText, wording: Wording) -> Changes:
    if after.kind == _CONTENTS:
        return Changes(other=(wording.say("swap.contents"), *_of_the_cover(before, after, wording)))
    if after.kind in KINDS:
        return _listed(before, after, wording)
    old, new = without_nights(before), without_nights(after)
    if languages_of(before) != languages_of(after):
        old, new = (replace(sheet, blocks=tuple(_unwritten(sheet.blocks))) for sheet in (old, new))
    told = list(describe_difference(old, new, wording))
    if old == new or told == [wording.say("change.dress")]:
        told = []
    if old == new or nights_differ(before, after):
        told.append(wording.say("swap.nights"))
    moved = _moved(_alone(old), _alone(new), wording)
    turned = _turned(_alone(old), _alone(new), wording)
    told = [turned.get(one, one) for one in told if one not in moved]
    spoken = _newly_spoken(before, after, wording)
    alone = [turned.get(one, one) for one in describe_difference(_alone(old), _alone(new), wording)]
    grave = [one for one in alone if one in told and one not in spoken]
    rest = tuple(one for one in told if one not in grave)
    return Changes(
        allergens=tuple(grave),
        other=rest if rest or grave else (wording.say(_same_words(old, new)),),
        itself=_is_another(without_uses(old), without_uses(new), spoken, wording),
    )


def _same_words(before: SheetText, after: SheetText) -> str:
    """Return what is said of a sheet of which nothing is told: it may call its allergens as other lists do."""
    allergens = [
        [fact.members for fact in what_is_said(_alone(sheet)).values() if isinstance(fact, SaidText)]
        for sheet in (before, after)
    ]
    return "change.dress" if allergens[0] == allergens[1] else "change.lists"


def _is_another(before: SheetText, after: SheetText, spoken: tuple[Text, ...], wording: Wording) -> bool:
    """Return whether a recipe is another one; in another language it may still be the same."""
    if not spoken or before == after:
        return before != after
    same = (*spoken, wording.say("change.dress"))
    return any(one not in same for one in describe_difference(before, after, wording))


def _listed(before: SheetText, after: SheetText, wording: Wording) -> Changes:
    """Return what changed of a sheet that lists the menu; of one that changed in its second language alone, that."""
    told = tell_list(before, after, wording)
    verdicts = tuple(one.text for one in told.verdicts)
    if verdicts or told.grave or told.other:
        return Changes(allergens=(*verdicts, *told.grave), other=told.other, verdicts=told.verdicts)
    if spoken := _newly_spoken(before, after, wording):
        return Changes(other=spoken)
    if replace(before, id=after.id, kicker=after.kicker, aside=after.aside) == after:
        return Changes(other=(wording.say("swap.menu-named"),))
    return Changes(other=describe_difference(before, after, wording))


def _of_the_cover(before: SheetText, after: SheetText, wording: Wording) -> tuple[Text, ...]:
    """Return what changed on a cover beside its contents: hours, cooks, portions; nothing where the menu is another."""
    if plain(before.aside) != plain(after.aside) or languages_of(before) != languages_of(after):
        return ()
    old, new = (replace(sheet, blocks=tuple(_without_contents(sheet.blocks))) for sheet in (before, after))
    told = describe_difference(old, new, wording)
    return tuple(one for one in told if one not in (wording.say("change.dress"), wording.say("change.order")))


def _without_contents(blocks: Iterable[Block]) -> Iterable[Block]:
    return (one for one in blocks if not isinstance(one, Table) or one.role != "contents")


def _moved(before: SheetText, after: SheetText, wording: Wording) -> list[Text]:
    """Return what would be said to be gone from a line about allergens and only stands in another one now.

    *No longer may contain mustard* is no news, and bad advice, where it now contains mustard; so it is where the house
    follows other lists and calls it otherwise.
    """
    old, new = ([one for one in what_is_said(sheet).values() if isinstance(one, SaidText)] for sheet in (before, after))
    now = [text for fact in new for text in fact.members.values()]
    gone = [
        (fact, text)
        for fact in old
        for text in fact.members.values()
        if (text in now if fact.key == _UNDECLARED else is_named(text, now, wording))
    ]
    return [
        wording.say(f"change.{line}.gone", label=fact.label, what=text)
        for fact, text in gone
        for line in (fact.key, "list")
        if f"change.{line}.gone" in wording
    ]


def _turned(before: SheetText, after: SheetText, wording: Wording) -> Mapping[Text, Text]:
    """Return what is said of an allergen that was on the other line, by what would be said were it new on this one.

    *Now may contain nuts* is read as more than before, where it contained them.
    """
    old, new = (
        {fact.key: [*fact.members.values()] for fact in what_is_said(sheet).values() if isinstance(fact, SaidText)}
        for sheet in (before, after)
    )
    return {
        wording.say(f"change.{now}.added", what=text): wording.say(
            "change.turned", what=text, old=wording.say(_MARKS[was]), new=wording.say(_MARKS[now])
        )
        for was, now in (tuple(_MARKS), tuple(_MARKS)[::-1])
        for text in new.get(now, ())
        if is_named(text, old.get(was, ()), wording) and not is_named(text, new.get(was, ()), wording)
    }


def _newly_spoken(before: SheetText, after: SheetText, wording: Wording) -> tuple[Text, ...]:
    """Return what is said where a sheet speaks another second language now: that is no news of allergens."""
    old, new = languages_of(before), languages_of(after)
    found = []
    for word, here, there in (("added", new, old), ("gone", old, new)):
        for language in (one for one in here if one not in there):
            key = f"language.{language}"
            named = wording.say(key) if key in wording else words(language)
            found.append(wording.say(f"change.second.{word}", language=named))
    return tuple(found)


def _unwritten(blocks: Iterable[Block]) -> Iterable[Block]:
    """Yield blocks without what is written in by hand: each blank has its words in every language beside it."""
    for block in blocks:
        if isinstance(block, Facts):
            yield replace(block, facts=tuple(one for one in block.facts if one.key != _MADE))
        elif isinstance(block, Box):
            yield replace(block, blocks=tuple(_unwritten(block.blocks)))
        elif not isinstance(block, Paragraph) or not any(isinstance(one, Mark) for one in block.content):
            yield block


def _alone(sheet: SheetText) -> SheetText:
    """Return a sheet with only what it says of allergens."""
    return replace(sheet, kicker=(), title=(), aside=(), blocks=tuple(_allergen_facts(sheet.blocks)))


def _allergen_facts(blocks: Iterable[Block]) -> Iterable[Block]:
    for block in blocks:
        if isinstance(block, Facts) and block.role in ("allergens", "verdicts"):
            yield block
        elif isinstance(block, Box):
            yield from _allergen_facts(block.blocks)
        elif isinstance(block, Split):
            yield from _allergen_facts((*block.left, *block.right))
