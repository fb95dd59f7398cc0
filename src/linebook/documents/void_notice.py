"""What is said when something turns out wrong in the middle of service: the notice on each new sheet, and the one line
that is read aloud at the pass.

Compares answers before and after; knows neither files nor paper.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence

from linebook.compute.answers import WORST_FIRST
from linebook.compute.results import AllergenTable, Answer, Column, Finding
from linebook.compute.voiding import Turned
from linebook.documents.allergen_changes import action_text, change_key
from linebook.documents.allergen_names import column_name, substance_name
from linebook.documents.naming import medium_name
from linebook.documents.second import avoidance_name, dish_name, item_name
from linebook.documents.text import EMPTY, Text, joined, strong, words
from linebook.documents.wording import Wording
from linebook.model.house import House
from linebook.model.taxonomy import SUBSTANCES
from linebook.source.frozen import frozen

DOCUMENT = "void-notice"


@frozen
class VoidNotice:
    """What stands at the top of a sheet that takes the place of another."""

    id: str
    """The notice's own id."""
    replaces: Text
    """Which sheet it takes the place of, by its fingerprint."""
    reason: Text
    """What has turned out wrong, and how that is known."""
    aloud: Text
    """What is read aloud; empty on all but the matrix."""


def void_notice(fingerprint: str, reason: Text, wording: Wording, aloud: Text = EMPTY) -> VoidNotice:
    """Return the notice of a sheet that takes the place of the one with this fingerprint."""
    return VoidNotice(
        id=DOCUMENT,
        replaces=strong(wording.say("void.replaces", fingerprint=words(fingerprint))),
        reason=reason,
        aloud=aloud,
    )


def reason_said(house: House, things: Sequence[str], turned: Turned, says: str, wording: Wording) -> Text:
    """Return what has turned out wrong and how that is known: *walnut crumb contains milk (new label)*."""
    return wording.say(
        "void.reason", what=what_is_wrong(house, things, turned, wording), says=wording.say(f"says.{says}")
    )


def what_is_wrong(house: House, things: Sequence[str], turned: Turned, wording: Wording) -> Text:
    """Return what has turned out wrong, in plain words."""
    items = wording.listed_with_and(thing_name(house, thing, wording) for thing in things)
    if turned.undeclared:
        return wording.say("void.undeclared", items=items)
    said = [
        wording.say(key, items=items, what=wording.listed_with_and(_substance(house, one, wording) for one in kinds))
        for key, kinds in (("void.contains", turned.contains), ("void.may", turned.may_contain))
        if kinds
    ]
    return wording.separated(said)


def read_aloud(
    house: House, before: AllergenTable, after: AllergenTable, what: Text, wording: Wording, *, unknown: bool = False
) -> Text:
    """Return the one line for the pass: what is wrong, and which dishes are off or changed for whom.

    Of what is ``unknown`` nobody can remember for whom a dish is still right: it is off for any allergy.
    """
    said = [wording.say("void.from-now", what=what)]
    off, changed = _worse(before, after)
    if unknown and (off or changed):
        lost = {dish for dishes in off.values() for dish in dishes} | {dish for dish, _ in changed}
        dishes = _dishes(house, [dish for dish in after.dishes if dish in lost], wording)
        return joined((*said, wording.say("void.unknown", dishes=dishes)), wording.say("sentence.between"))
    said += [
        wording.say(
            "void.off", columns=_columns(house, columns, after, wording), dishes=_dishes(house, dishes, wording)
        )
        for columns, dishes in off.items()
    ]
    for (dish, _), (finding, columns) in changed.items():
        said.append(
            wording.say(
                "void.change",
                dish=dish_name(house, dish),
                columns=_columns(house, tuple(columns), after, wording),
                action=action_text(house, finding, wording),
            )
        )
    if not off and not changed:
        said.append(wording.say("void.no-dish"))
    return joined(said, wording.say("sentence.between"))


def thing_name(house: House, thing: str, wording: Wording) -> Text:
    """Return the printed name of what has turned out wrong: food, or a shared medium."""
    if any(medium.id == thing for medium in house.file.media) and thing not in house.pantry:
        return medium_name(house, thing, wording)
    return item_name(house, thing)


def _worse(
    before: AllergenTable, after: AllergenTable
) -> tuple[dict[tuple[str, ...], list[str]], dict[tuple[str, str], tuple[Finding, list[str]]]]:
    """Return the dishes that are off, by the columns they are off for, and what else is done now by dish and change."""
    off: dict[tuple[str, ...], list[str]] = {}
    changed: dict[tuple[str, str], tuple[Finding, list[str]]] = {}
    for dish, findings in after.dishes.items():
        lost = []
        for column in after.columns:
            finding = findings[column.id]
            if not _is_worse(before.dishes[dish][column.id], finding):
                continue
            if key := change_key(finding):
                changed.setdefault((dish, key), (finding, []))[1].append(column.id)
            else:
                lost.append(column.id)
        if lost:
            off.setdefault(tuple(lost), []).append(dish)
    return off, changed


def _is_worse(old: Finding, new: Finding) -> bool:
    """Return whether an answer is more dangerous now, or what helped a guest no longer does, or other things do."""
    if new.answer is Answer.FREE:
        return False
    more = WORST_FIRST.index(new.answer) < WORST_FIRST.index(old.answer)
    return more or change_key(old) != change_key(new) or not set(old.substances) >= set(new.substances)


def _columns(house: House, columns: tuple[str, ...], table: AllergenTable, wording: Wording) -> Text:
    names = {column.id: column for column in table.columns}
    return wording.listed(_name(names[one], house, wording) for one in columns)


def _name(column: Column, house: House, wording: Wording) -> Text:
    return column_name(column, wording, house)


def _dishes(house: House, dishes: Sequence[str], wording: Wording) -> Text:
    return wording.named(dish_name(house, dish) for dish in dishes)


def _substance(house: House, id_: str, wording: Wording) -> Text:
    own: Mapping[str, str] = house.file.allergens.avoid
    return avoidance_name(house, id_, own[id_]) if id_ in own else substance_name(SUBSTANCES[id_].name, wording)


def changed_subjects(before: AllergenTable, after: AllergenTable) -> Iterator[str]:
    """Yield the dishes and components of which anything is answered otherwise than before."""
    for old, new in ((before.dishes, after.dishes), (before.components, after.components)):
        for id_ in new:
            same = new[id_] == old[id_] and after.undeclared[id_] == before.undeclared[id_]
            if not same or after.parts.get(id_) != before.parts.get(id_):
                yield id_
