"""Every item, line, course, plate, vessel, place, medium and dish that a card names exists (LB201, LB206 to LB211).

One unknown word is one fault, however many cards use it, so that an id mistyped where it is defined is told once.
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable, Iterator, Mapping

from linebook.check.index import Index, place
from linebook.check.words import gathered, listing, meant
from linebook.read.house_folder import HOUSE_ID, PANTRY_ID
from linebook.read.ids import is_id, kebab
from linebook.source.codes import fault
from linebook.source.faults import Fault, Related
from linebook.source.nearest import nearest
from linebook.source.spans import Span


def check_items(index: Index) -> Iterator[Fault]:
    """Yield a fault for each word used as an item that no file defines."""
    if index.is_incomplete(PANTRY_ID):
        return  # the id may be the one that was lost
    used: dict[str, list[Span]] = defaultdict(list)
    for reference in index.references:
        if reference.item in index.unresolved:
            used[reference.item].append(reference.span)
    for word, spans in used.items():
        yield gathered(
            "LB201",
            f"no pantry item, component or by-product has the id `{word}`",
            spans,
            hints=item_hints(index, word),
            label="also used here",
        )


def check_carried(index: Index) -> Iterator[Fault]:
    """Yield a fault for each thing a shared medium carries that is no pantry item."""
    for medium in index.file.media if index.file is not None else ():
        for number, item in enumerate(medium.carries):
            if item in index.pantry or index.is_broken(item):
                continue
            span = place(medium, f"carries.{number}", "carries")
            if item in index.components or item in index.by_products:
                mend = "name the bought items that are in it"
                yield fault("LB201", f"`{item}` is made here, and `carries` names pantry items", span, hints=(mend,))
            else:
                mend = meant(item, index.pantry, "add it to a pantry file")
                yield fault("LB201", f"no pantry item has the id `{item}`", span, hints=(mend,))


def check_lines(index: Index) -> Iterator[Fault]:
    """Yield a fault for each line a card names that the house does not have."""
    if index.file is None:
        return
    uses: list[tuple[str | None, Span]] = [(card.line, card.at("line")) for card in index.cards]
    uses += [(strand.line, strand.at("line")) for dish in index.dishes.values() for strand in dish.pick_up]
    lines = {line.id: line.name for line in index.file.lines}
    yield from _unknown(index, "LB206", uses, lines, "line", "add it under `lines` of house.yaml")


def check_plates(index: Index) -> Iterator[Fault]:
    """Yield a fault for each plate a dish names that the house does not have."""
    if index.file is None:
        return
    uses = [(dish.plate, dish.at("plate")) for dish in index.dishes.values() if dish.plate is not None]
    plates = {plate.id: plate.name for plate in index.file.plates}
    yield from _unknown(index, "LB208", uses, plates, "plate", "add it under `plates` of house.yaml")


def check_vessels_and_places(index: Index) -> Iterator[Fault]:
    """Yield a fault for each vessel and each place that the house does not have."""
    if index.file is None:
        return
    vessels: list[tuple[str | None, Span]] = []
    places: list[tuple[str | None, Span]] = []
    for component in index.components.values():
        for stage in component.stages:
            vessels.append((stage.vessel, stage.at("vessel")))
            places.append((stage.where, stage.at("where")))
        if component.store is not None:
            vessels.append((component.store.vessel, place(component.store, "in", "vessel")))
            places.append((component.store.place, place(component.store, "where", "place")))
    for dish in index.dishes.values():
        holds = [element.hold for element in dish.elements if element.hold is not None]
        vessels += [(hold.vessel, place(hold, "in", "vessel")) for hold in holds]
        places += [(strand.where, strand.at("where")) for strand in dish.pick_up]
    known_vessels = {vessel.id: vessel.name for vessel in index.file.vessels}
    known_places = {where.id: where.name for where in index.file.places}
    yield from _unknown(
        index, "LB209", vessels, known_vessels, "vessel", "add it under `vessels` of house.yaml", other=known_places
    )
    yield from _unknown(
        index, "LB209", places, known_places, "place", "add it under `places` of house.yaml", other=known_vessels
    )


def check_media(index: Index) -> Iterator[Fault]:
    """Yield a fault for each shared medium that the house does not have."""
    if index.file is None:
        return
    uses: list[tuple[str | None, Span]] = []
    for component in index.components.values():
        for stage in component.stages:
            uses += [(m, place(stage, f"through.{n}", "through")) for n, m in enumerate(stage.through)]
    for dish in index.dishes.values():
        for element in dish.ever_served:
            uses += [(m, place(element, f"through.{n}", "through")) for n, m in enumerate(element.through)]
    media = {medium.id: medium.name for medium in index.file.media}
    yield from _unknown(index, "LB210", uses, media, "shared medium", "add it under `media` of house.yaml")


def check_menu_dishes(index: Index) -> Iterator[Fault]:
    """Yield a fault for each dish on a menu that no file has."""
    used: dict[str, list[Span]] = defaultdict(list)
    for menu in index.menus.values():
        for entry in menu.dishes:
            if entry.dish in index.unresolved_dishes:
                used[entry.dish].append(entry.at("dish"))
    names = {dish.name: dish.id for dish in index.dishes.values() if is_id(dish.id)}
    for word, spans in used.items():
        message = f"no dish has the id `{word}`"
        hint = _by_name_or_near(word, names.values(), names, f"add the file dishes/{word}.md, or take it off the menu")
        if word in index.items:
            message = f"`{word}` is {_kind(index, word)}, and a menu lists dishes"
            carry = [dish.id for dish in index.dishes.values() if any(e.item == word for e in dish.elements)]
            hint = f"did you mean {listing(carry[:3], 'or')}, which carries it?" if carry else hint
        yield gathered("LB211", message, spans, hints=(hint,), label="also listed here")


def check_courses(index: Index) -> Iterator[Fault]:
    """Yield a fault for each course of a dish that a menu listing the dish does not have."""
    used: dict[str, list[tuple[Span, Related | None]]] = defaultdict(list)
    known: dict[str, set[str]] = defaultdict(set)
    for menu in index.menus.values():
        courses = {course.id for course in menu.courses}
        for entry in menu.dishes:
            dish = index.dishes.get(entry.dish)
            if dish is None or dish.course in courses or index.is_broken(dish.course) or index.is_incomplete(menu.id):
                continue
            known[dish.course] |= courses
            related = Related(span=place(menu, "courses"), label=f"the courses of {menu.name}")
            used[dish.course].append((dish.at("course"), related))
    for word, places in used.items():
        spans = list(dict.fromkeys(span for span, _ in places))
        related = next(relation for _, relation in places if relation is not None)
        yield gathered(
            "LB207",
            f"`{word}` is no course of a menu that lists this dish",
            spans,
            hints=(meant(word, known[word], "add it to the `courses` of the menu"),),
            related=(related,),
            label="also this dish",
        )


def item_hints(index: Index, word: str) -> tuple[str, ...]:
    """Return what to write instead of an unknown item: the id of that name or the nearest one, or a new entry."""
    add = f"add it to a pantry file, or as components/{word}.md"
    hint = _by_name_or_near(word, index.items, index.by_name, add)
    return (hint,) if hint == add else (hint, f"or {add}")


def _by_name_or_near(word: str, ids: Iterable[str], names: Mapping[str, str], otherwise: str) -> str:
    """Return the hint for an unknown id: that of the very name, the nearest, or that of the nearest name."""
    named = next((id for name, id in names.items() if kebab(name) == kebab(word)), None)
    close = named or nearest(word, ids)
    if close is None:
        close = names.get(nearest(word, names) or "")
    return f"did you mean `{close}`?" if close else otherwise


def _unknown(
    index: Index,
    code: str,
    uses: Iterable[tuple[str | None, Span]],
    known: Mapping[str, str],
    kind: str,
    otherwise: str,
    *,
    other: Mapping[str, str] | None = None,
) -> Iterator[Fault]:
    used: dict[str, list[Span]] = defaultdict(list)
    for word, span in () if index.is_incomplete(HOUSE_ID) else uses:
        if word is not None and word not in known and not index.is_broken(word):
            used[word].append(span)
    names = {name: id for id, name in known.items()}
    for word, spans in used.items():
        if other and word in other:
            what, field = ("place", "where") if kind == "vessel" else ("vessel", "vessel")
            message = f"`{word}` is a {what} of this house, not a {kind}"
            mend = (
                f"write one of {listing(sorted(known), 'or')}" if len(known) <= 8 else f"name one of the {kind}s here"
            )
            yield gathered(code, message, spans, hints=(mend, f"in a stage the {what} goes in `{field}: {word}`"))
            continue
        message = f"the house has no {kind} `{word}`"
        close = _by_name_or_near(word, known, names, "")
        hint = close or (f"write one of {listing(sorted(known), 'or')}" if 0 < len(known) <= 8 else otherwise)
        yield gathered(code, message, spans, hints=(hint,) if hint == otherwise else (hint, f"or {otherwise}"))


def _kind(index: Index, word: str) -> str:
    if word in index.components:
        return "a component"
    return "a pantry item" if word in index.pantry else "a by-product"
