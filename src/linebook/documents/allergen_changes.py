"""What can be changed on a plate so that a guest may have it, in words: left off, exchanged, and what comes with that.

Works from computed findings alone. Knows no sheet.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from linebook.compute.results import Answer, Column, Finding, PartFindings
from linebook.documents.allergen_names import column_name, column_text
from linebook.documents.naming import medium_name, names_of
from linebook.documents.second import item_name
from linebook.documents.text import EMPTY, Text
from linebook.documents.wording import Wording
from linebook.model.house import House
from linebook.source.frozen import frozen


@frozen
class Exchange:
    """What goes off a plate, what comes instead of which of it, and what of it is only left off."""

    others: tuple[str, ...]
    items: tuple[str, ...]
    left: tuple[str, ...]


def exchange_of(finding: Finding) -> Exchange | None:
    """Return the exchange that makes a finding free, None where there is none."""
    if not finding.instead:
        return None
    others = dict.fromkeys(other for _, other in finding.instead if other is not None)
    items = dict.fromkeys(item for item, other in finding.instead if other is not None)
    left = dict.fromkeys(item for item, other in finding.instead if other is None)
    return Exchange(others=tuple(others), items=tuple(items), left=tuple(left))


def change_key(finding: Finding) -> str:
    """Return what tells one change from another, () in order; '' where nothing can be changed."""
    exchange = exchange_of(finding)
    if exchange is None:
        return f"without.{'.'.join(finding.without)}" if finding.without else ""
    kept = (*exchange.others, "for", *exchange.items, *(("without", *exchange.left) if exchange.left else ()))
    return f"with.{'.'.join(kept)}{'.or-without' if finding.without else ''}"


def and_names(house: House, items: Sequence[str], wording: Wording) -> Text:
    """Return names with *and*: one of several alone does not help."""
    return wording.listed_with_and(item_name(house, item) for item in items)


def exchange_text(house: House, key: str, exchange: Exchange, wording: Wording, **values: Text) -> Text:
    """Return an exchange in the sentence of ``key``, or of ``key-left`` where something is left off besides."""
    named = {
        "others": and_names(house, exchange.others, wording),
        "items": and_names(house, exchange.items, wording),
        **values,
    }
    if not exchange.left:
        return wording.say(key, **named)
    return wording.say(f"{key}-left", left=and_names(house, exchange.left, wording), **named)


def action_text(house: House, finding: Finding, wording: Wording) -> Text:
    """Return how a dish is served so that a finding is free: with what instead, or without what."""
    exchange = exchange_of(finding)
    without = and_names(house, finding.without, wording)
    if exchange is None:
        return wording.say("verdict.without", items=without)
    change = exchange_text(house, "serve.with", exchange, wording)
    return wording.say("serve.or-without", change=change, items=without) if finding.without else change


def change_notes(house: House, found: Sequence[tuple[Column, Finding]], wording: Wording) -> Iterator[Text]:
    """Yield a sentence for each exchange, then for each leaving off, with the columns it is for."""
    exchanges: dict[Exchange, list[Text]] = {}
    without: dict[tuple[str, ...], list[Text]] = {}
    for column, finding in found:
        name = column_name(column, wording, house)
        if exchange := exchange_of(finding):
            exchanges.setdefault(exchange, []).append(name)
        if finding.without:
            without.setdefault(finding.without, []).append(name)
    for exchange, columns in exchanges.items():
        yield exchange_text(house, "matrix.note.with", exchange, wording, columns=wording.listed(columns))
    for items, columns in without.items():
        named = and_names(house, items, wording)
        yield wording.say("matrix.note.without", items=named, columns=wording.listed(columns))


def brought(
    house: House,
    columns: Sequence[Column],
    part: PartFindings,
    wording: Wording,
    undeclared_key: str = "brings.undeclared",
) -> tuple[Text, ...]:
    """Return what one part of a plate brings: not declared, contains, may contain; () where it is none of all that.

    ``undeclared_key`` says it of what is not known.
    """
    found = [(column, part.findings[column.id]) for column in columns]
    sure = [(column, finding) for column, finding in found if finding.answer is Answer.CONTAINS]
    may = [(column, possible) for column, finding in found if (possible := possible_in(finding))]
    undeclared = names_of(house, part.undeclared, wording)
    said = [
        wording.say(undeclared_key, items=undeclared) if undeclared else EMPTY,
        wording.say("brings.contains", what=_columns(house, sure, wording)) if sure else EMPTY,
        wording.say("brings.may", what=_columns(house, may, wording)) if may else EMPTY,
    ]
    return tuple(one for one in said if one)


def brought_text(brought: Sequence[Text], wording: Wording) -> Text:
    """Return what a part of a plate brings in one sentence, or that it is none of all that."""
    return wording.separated(brought) if brought else wording.say("brings.nothing")


def possible_in(finding: Finding) -> Finding | None:
    """Return what may be in a dish besides what is known to be, as a finding of its own; None where nothing may."""
    if finding.answer is Answer.MAY:
        return finding
    if not finding.also_may:
        return None
    return Finding(answer=Answer.MAY, substances=finding.also_may, media=finding.also_media, partly=finding.also_partly)


def reason_text(house: House, finding: Finding, wording: Wording) -> Text:
    """Return from which shared media it, or some of it, comes; nothing where none brings it."""
    if not finding.media:
        return EMPTY
    known = {medium.id for medium in house.file.media}
    media = wording.listed_with_and(medium_name(house, id_, wording) for id_ in finding.media if id_ in known)
    if not media:
        return EMPTY
    return wording.say("allergens.partly-from" if finding.partly else "allergens.from", medium=media)


def _columns(house: House, found: Sequence[tuple[Column, Finding]], wording: Wording) -> Text:
    return wording.listed(
        column_text(column, finding.substances, wording, reason_text(house, finding, wording), house=house)
        for column, finding in found
    )
