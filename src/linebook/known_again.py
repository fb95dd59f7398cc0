"""A card that was issued under another id and another name: it is the same one where it is made up of the same.

Reads what old sheets said from the house folder; prints and writes nothing. One file of a dish and its name can change
in one edit: then no name and no id tells what it was, and what is on the plate does.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import replace
from typing import TYPE_CHECKING, Final

if TYPE_CHECKING:
    from linebook.markup.blocks import SheetText
    from linebook.model.issue import Issue, IssuedSheet
    from linebook.swap_changes import OldTexts

_MADE_UP: Final = {"station-card": "element.", "batch-card": "ingredient."}
"""The cards that are known by their rows, and how the keys of those begin."""


def known_in_issue(line: str, before: Issue, after: Issue, old: OldTexts) -> Issue:
    """Return the issue a line's binder was of, its dishes and components under the ids they have in a later one."""
    texts = {one.id: text for one in after.of_line(line) if (text := old.read(one))}
    return known_again(line, before, texts, old)


def known_again(line: str, before: Issue, now: Mapping[str, SheetText], old: OldTexts) -> Issue:
    """Return the issue a line's binder is of, its dishes and components under the ids that they have ``now``, by id."""
    from linebook.compute.swap import renamed
    from linebook.model.issue import IssuedSheet

    were = before.of_line(line)
    are = [IssuedSheet(id=id_, line=line, fingerprint="", pages=0, title=_title(text)) for id_, text in now.items()]
    elsewhere = renamed(were, are)
    gone = [one for one in were if one.id not in now and one.id not in elsewhere]
    come = {id_: text for id_, text in now.items() if id_ not in {one.id for one in were} | {*elsewhere.values()}}
    again = _same(gone, come, old)
    if not again:
        return before
    sheets = tuple(_under(one, again) if one in were else one for one in before.sheets)
    return replace(before, sheets=sheets)


def _same(gone: Iterable[IssuedSheet], come: Mapping[str, SheetText], old: OldTexts) -> Mapping[str, str]:
    """Return the subjects that cards have now by those they had: of each two that alone are made up so."""
    found = {}
    for document, start in _MADE_UP.items():
        after = {id_: _rows(text, start) for id_, text in come.items() if id_.startswith(f"{document}:")}
        cards = [one for one in gone if one.document == document] if after else []
        before = {one.subject: _rows(text, start) for one in cards if (text := old.read(one))}
        for subject, rows in before.items():
            same = [id_ for id_, others in after.items() if others == rows]
            if rows and len(same) == 1 and [*before.values()].count(rows) == 1:
                found[subject] = same[0].partition(":")[2]
    return found


def _under(sheet: IssuedSheet, again: Mapping[str, str]) -> IssuedSheet:
    subject = again.get(sheet.subject)
    return replace(sheet, id=f"{sheet.document}:{subject}") if subject else sheet


def _rows(text: SheetText, start: str) -> frozenset[str]:
    """Return the keys of what a card is made up of."""
    from linebook.markup.said import what_is_said

    return frozenset(key for key in what_is_said(text) if key.startswith(start))


def _title(text: SheetText) -> str:
    from linebook.markup.said import plain

    return plain(text.title)
