"""The chef's copy of a line's tasting notes: each dish and component with its notes, newest first, and room to write.

Works from the specs alone. What the crew cooks from is on other sheets, and none of them says anything of this.
"""

from __future__ import annotations

from datetime import date
from typing import Final

from linebook.documents.binder_order import components_of_line, dishes_of_line
from linebook.documents.second import item_name, line_name, menu_name
from linebook.documents.text import EMPTY, Text, joined, strong, words
from linebook.documents.wording import Wording
from linebook.model.component import Component
from linebook.model.dish import Dish
from linebook.model.house import House
from linebook.model.tasting import Tasting
from linebook.source.frozen import frozen

DOCUMENT: Final = "tasting-notes"


@frozen
class NoteRow:
    """One note."""

    key: str
    """For data-key."""
    day: Text
    """The day it was tasted."""
    tasted: Text
    """What was tasted."""
    changed: Text
    """What was changed for it; may be empty."""
    by: Text
    """Who tasted; may be empty."""


@frozen
class NotedCard:
    """One dish or component."""

    key: str
    """For data-key."""
    name: Text
    """What it is called."""
    aside: Text
    """When it was last tested, or that it is a draft."""
    rows: tuple[NoteRow, ...]
    """Its notes, newest first; may be none."""


@frozen
class NotedGroup:
    """The dishes of a line, or what it makes."""

    key: str
    """For data-key."""
    title: Text
    """Which they are."""
    cards: tuple[NotedCard, ...]
    """Each of them in the order of the binder."""


@frozen
class TastingNotes:
    """All that the chef's copy of a line's tasting notes shows."""

    id: str
    """The sheet's own id."""
    line: str
    """The id of its line."""
    kicker: Text
    """Over the name: the menu and what sheet this is."""
    title: Text
    """The name of the line."""
    aside: Text
    """That it is the chef's copy."""
    lead: Text
    """What is on it, and what is to be done with what is written on it."""
    groups: tuple[NotedGroup, ...]
    """The dishes of the line, then what it makes."""


def tasting_notes(house: House, menu: str, line: str, wording: Wording, since: date = date.min) -> TastingNotes:
    """Return the chef's copy for a line and a menu, with the notes from the day ``since`` on."""
    say = wording.say
    dishes: tuple[Dish | Component, ...] = dishes_of_line(house, menu, line)
    made = tuple(house.components[id_] for id_ in components_of_line(house, menu, line))
    groups = [
        NotedGroup(key=key, title=say(f"notes.{key}"), cards=tuple(_card(house, one, wording, since) for one in cards))
        for key, cards in (("dishes", dishes), ("components", made))
        if cards
    ]
    return TastingNotes(
        id=f"{DOCUMENT}:{line}",
        line=line,
        kicker=joined((menu_name(house, menu), say(f"document.{DOCUMENT}")), say("kicker.between")),
        title=line_name(house, line),
        aside=strong(say("notes.copy")),
        lead=say("notes.lead") if since == date.min else say("notes.lead-since", day=wording.full_day(since)),
        groups=tuple(groups),
    )


def told_note(note: Tasting, wording: Wording) -> Text:
    """Return a note in one sentence: *tasted 12 March 2027 (MH): more acid - changed: verjuice 20 g to 28 g*."""
    day = wording.full_day(note.day)
    told = wording.say("notes.told", day=day, tasted=note.tasted)
    if note.by:
        told = wording.say("notes.told-by", day=day, by=note.by, tasted=note.tasted)
    return joined((told, wording.say("notes.told-changed", changed=note.changed) if note.changed else EMPTY))


def _card(house: House, card: Dish | Component, wording: Wording, since: date) -> NotedCard:
    aside = (
        wording.say("notes.tested", day=wording.full_day(card.tested)) if card.tested else wording.say("notes.draft")
    )
    kept = [(at, note) for at, note in enumerate(card.tastings) if note.day >= since]
    newest_first = sorted(kept, key=lambda one: (one[1].day, one[0]), reverse=True)
    return NotedCard(
        key=card.id,
        name=item_name(house, card.id),
        aside=aside,
        rows=tuple(_row(f"{card.id}.{at}", note, wording) for at, note in newest_first),
    )


def _row(key: str, note: Tasting, wording: Wording) -> NoteRow:
    return NoteRow(
        key=f"note.{key}",
        day=wording.full_day(note.day),
        tasted=words(note.tasted),
        changed=words(note.changed or ""),
        by=words(note.by or ""),
    )
