"""What ``linebook why`` prints, as plain lines of at most 80 columns: the answer, then each way with file and line."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import replace
from datetime import date
from textwrap import wrap
from typing import TYPE_CHECKING, Final

from linebook.compute.ages import aged_items
from linebook.compute.makeup import components_of
from linebook.compute.results import Answer
from linebook.compute.why import Path, Why, why
from linebook.documents.guest_names import avoided_name, taken_as
from linebook.documents.wording import english
from linebook.model.amounts import Amount
from linebook.model.dish import Dish, Element
from linebook.model.menu import MenuDish
from linebook.model.taxonomy import SUBSTANCES

if TYPE_CHECKING:
    from linebook.compute.avoidances import Avoidance
    from linebook.compute.flows import Step
    from linebook.documents.guest_request import AskedWord
    from linebook.model.house import House

COLUMNS: Final = 80
_ANSWERS: Final = {
    Answer.CONTAINS: "Contains",
    Answer.UNDECLARED: "Not declared",
    Answer.MAY: "May contain",
    Answer.FREE: "Not in it, no known contact",
}
_HEADS: Final = {
    Answer.CONTAINS: "In it",
    Answer.UNDECLARED: "Nobody has said, so it counts as being in it",
    Answer.MAY: "May be in it",
}


def proof_lines(house: House, menu: str, subject: str, asked: AskedWord, on: date) -> Iterator[str]:
    """Yield the proof for a dish of the menu or a component, for each thing that a word is taken as."""
    wording = english()
    taken = taken_as(house, asked, wording).plain
    if taken.casefold() != asked.word.casefold():
        yield from _wrapped(f"{asked.word}: taken as {taken}", "", "  ")
        yield ""
    for number, avoidance in enumerate(asked.avoidances):
        if number:
            yield ""
        yield from _proof(house, menu, subject, avoidance, asked.word, on)


def _proof(house: House, menu: str, subject: str, avoidance: Avoidance, word: str, on: date) -> Iterator[str]:
    is_dish = subject in house.dishes
    asked_house = house if is_dish else _as_dish(house, menu, subject)
    proof = why(asked_house, menu, subject, avoidance)
    name = house.dishes[subject].name if is_dish else house.components[subject].name
    about = word if avoidance.kind == "item" else avoided_name(house, avoidance, english()).plain
    served = is_dish or subject in components_of(house, house.menus[menu])
    where = "on the menu" if served else "not on, but as if it were cooked for, the menu"
    yield from _wrapped(f"{name}, {where} {house.menus[menu].name}", "", "  ")
    yield from _wrapped(f"{_ANSWERS[proof.answer]}: {about}", "", "  ")
    if not proof.paths:
        yield from _looked_at(house, proof)
        return
    old = frozenset(aged_items(house, {path.item for path in proof.paths}, on))
    number = 0
    for answer, head in _HEADS.items():
        ways = [path for path in proof.paths if path.answer is answer]
        if ways:
            yield ""
            yield f"{head}: {_count(len(ways), 'way', 'ways')}"
        for path in ways:
            number += 1
            yield from _way(house, avoidance, path, number, old, skip=0 if is_dish else 1)
    if proof.cut:
        yield ""
        yield f"There are more ways than these {len(proof.paths)}; no item is left out."


def _way(
    house: House, avoidance: Avoidance, path: Path, number: int, old: frozenset[str], *, skip: int
) -> Iterator[str]:
    """Yield one way: a step a line, its file and line at the end of it, or under it where there is no room."""
    lead = f"{number:>3}. "
    before = ""
    for at, step in enumerate(path.steps[skip:]):
        said = _said(house, step, before)
        if step.kind == "ground":
            named = at > 0 and path.steps[skip + at - 1].id == path.item
            said = _ground(house, avoidance, path, old, name="" if named else house.name_of(path.item))
        before = step.kind
        place = f"{step.span.source.path}:{step.span.line}"
        first = lead if not at else " " * len(lead)
        indent = " " * (len(lead) + 2)
        lines = wrap(said, COLUMNS, initial_indent=first, subsequent_indent=indent)
        if len(lines[-1]) + 2 + len(place) <= COLUMNS:
            lines[-1] = f"{lines[-1]}{place:>{COLUMNS - len(lines[-1])}}"
        else:
            lines.append(f"{place:>{COLUMNS}}" if len(place) <= COLUMNS else f"{indent}{place}")
        yield from lines


def _said(house: House, step: Step, before: str) -> str:
    """Return what a step is, in words; ``before`` is the kind of the step it follows."""
    if step.kind == "medium":
        return f"through the {_medium(house, step.id)}"
    if step.kind == "menu":
        return f"still in it from the menu {house.menus[step.id].name}"
    if step.kind == "dish":
        return f"which the dish {house.dishes[step.id].name} goes through"
    name = house.name_of(step.id)
    if before in ("medium", "menu"):
        return f"which {name} goes through"
    told = {"touches": f"{name}, also used", "by-product": f"made along with {name}"}
    return told.get(step.kind, name)


def _ground(house: House, avoidance: Avoidance, path: Path, old: frozenset[str], name: str) -> str:
    """Return what the end of a way says: who declares what and when, or that nobody does. ``name`` may be ''."""
    said = _asked_about(house, avoidance, path) or _declared(house, path, old)
    return f"{name}: {said}" if name else said


def _asked_about(house: House, avoidance: Avoidance, path: Path) -> str:
    """Return the end of a way that asks for a food by name or for a diet; '' for an allergen."""
    if avoidance.kind == "item" and path.item in avoidance.items:
        return "this is what is asked about"
    if avoidance.kind == "item" and not path.substances:
        return "nothing says that it is one food alone"
    if avoidance.kind != "diet":
        return ""
    if path.answer is Answer.UNDECLARED:
        return "not given whether it is raw or pasteurised" if avoidance.raw else _open_origin(house, path.item)
    came = ", ".join(word.replace("-", " ") for word in path.substances)
    return f"origin {came}{', and raw or not pasteurised' if avoidance.raw else ''}"


def _open_origin(house: House, item: str) -> str:
    """Return that an origin is not given, or not closely enough to answer."""
    given = house.pantry[item].origin if item in house.pantry else None
    if not given:
        return "not given what it comes from"
    return f"origin {', '.join(word.replace('-', ' ') for word in given)}: not close enough to say"


def _declared(house: House, path: Path, old: frozenset[str]) -> str:
    item = house.pantry.get(path.item)
    if item is None or item.allergens is None:
        return "no declaration"
    verb = "contains" if set(path.substances) & set(item.allergens.contains) else "may contain"
    words = ", ".join(_word(house, word) for word in path.substances)
    age = ", older than the house allows" if path.item in old else ""
    return f"{verb} {words}: {item.allergens.says}, {item.allergens.since.isoformat()}{age}"


def _word(house: House, word: str) -> str:
    known = SUBSTANCES.get(word)
    if known is not None:
        return known.name
    return house.file.allergens.avoid.get(word, word.replace("-", " "))


def _looked_at(house: House, proof: Why) -> Iterator[str]:
    """Yield what an answer was looked for in, and how old the oldest word for it is."""
    seen = proof.looked_at
    yield ""
    yield "Looked at"
    listed: Sequence[tuple[str, Sequence[str]]] = (
        (_count(len(seen.items), "bought item", "bought items"), [house.name_of(id_) for id_ in seen.items]),
        (_count(len(seen.components), "component", "components"), [house.name_of(id_) for id_ in seen.components]),
        (_count(len(seen.media), "shared medium", "shared media"), [_medium(house, id_) for id_ in seen.media]),
        ("and what goes through them too", [house.name_of(id_) for id_ in seen.also_through]),
    )
    for head, names in listed:
        if names:
            parted = "; " if any("," in name for name in names) else ", "
            yield from _wrapped(f"{head}: {parted.join(names)}", "  ", "    ")
    if not seen.media:
        yield "  no shared medium"
    if seen.oldest is not None:
        item, since = seen.oldest
        yield from _wrapped(f"oldest declaration: {house.name_of(item)}, {since.isoformat()}", "  ", "    ")


def _medium(house: House, medium: str) -> str:
    name = next(entry.name for entry in house.file.media if entry.id == medium)
    return name.removeprefix("the ")


def _as_dish(house: House, menu: str, component: str) -> House:
    """Return the house with a component served by itself, so that it can be asked about as a dish is."""
    from linebook.model.units import GRAM
    from linebook.source.exact import Fraction

    made = house.components[component]
    element = Element(span=made.span, spans={}, item=component, amount=Amount(number=Fraction(1), unit=GRAM))
    alone = Dish(
        span=made.span,
        spans={},
        id=component,
        name=made.name,
        line=made.line,
        course="",
        elements=(element,),
        body=made.body,
    )
    served = house.menus[menu]
    entry = MenuDish(span=made.span, spans={}, dish=component, share=Fraction(1), mix={})
    return replace(
        house,
        dishes={**house.dishes, component: alone},
        menus={**house.menus, menu: replace(served, dishes=(*served.dishes, entry))},
    )


def _count(number: int, one: str, many: str) -> str:
    return f"{number} {one if number == 1 else many}"


def _wrapped(text: str, first: str, rest: str) -> Iterator[str]:
    yield from wrap(text, COLUMNS, initial_indent=first, subsequent_indent=rest)
