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


def known_on_lines(
    before: Mapping[str, Issue], after: Issue, texts: Mapping[str, SheetText], old: OldTexts
) -> Mapping[str, Issue]:
    """Return what the binders are of, by line, with what went to another line under the ids it has there now.

    A card that has another id, name and line is the same one where it is made up of the same by the very same steps:
    less would take a new dish for one that went elsewhere. ``texts`` is what the sheets of ``after`` say.
    """
    from linebook.compute.swap import renamed

    were = [sheet for line in after.lines if line in before for sheet in before[line].of_line(line)]
    now = {sheet.id: texts[sheet.fingerprint] for sheet in after.sheets}
    elsewhere = renamed(were, after.sheets)
    known = {one.place for one in were} | {*elsewhere.values()}
    gone = [one for one in were if one.id not in now and one.place not in elsewhere]
    come = {one.id: now[one.id] for one in after.sheets if one.place not in known}
    again = _same(gone, come, old, steps=True)
    if not again:
        return before
    return {
        line: replace(issue, sheets=tuple(_under(one, again) for one in issue.sheets)) for line, issue in before.items()
    }


def _same(
    gone: Iterable[IssuedSheet], come: Mapping[str, SheetText], old: OldTexts, *, steps: bool = False
) -> Mapping[str, str]:
    """Return the subjects that cards have now by those they had: of each two that alone are made up so.

    ``steps`` is whether what is done must be the same too.
    """
    found = {}
    for document, start in _MADE_UP.items():
        after = {id_: _rows(text, start, steps) for id_, text in come.items() if id_.startswith(f"{document}:")}
        cards = [one for one in gone if one.document == document] if after else []
        before = {one.subject: _rows(text, start, steps) for one in cards if (text := old.read(one))}
        for subject, rows in before.items():
            same = [id_ for id_, others in after.items() if others == rows]
            if rows and len(same) == 1 and [*before.values()].count(rows) == 1:
                found[subject] = same[0].partition(":")[2]
    return found


def _under(sheet: IssuedSheet, again: Mapping[str, str]) -> IssuedSheet:
    subject = again.get(sheet.subject)
    return replace(sheet, id=f"{sheet.document}:{subject}") if subject else sheet


def _rows(text: SheetText, start: str, steps: bool) -> frozenset[str]:
    """Return the keys of what a card is made up of; with ``steps`` what is done with it too."""
    from linebook.markup.said import SaidList, what_is_said

    said = what_is_said(text)
    done = [one for said_ in said.values() if isinstance(said_, SaidList) for one in said_.texts] if steps else []
    rows = [key for key in said if key.startswith(start)]
    return frozenset((*rows, *done)) if rows else frozenset()


def _title(text: SheetText) -> str:
    from linebook.markup.said import plain

    return plain(text.title)
