"""One id names one thing, and a card lists a thing once (LB202, LB212, LB216)."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterator

from linebook.check.index import Index, Reference
from linebook.check.words import gathered
from linebook.model.component import Component
from linebook.model.dish import Dish
from linebook.source.codes import fault
from linebook.source.faults import Fault, Related
from linebook.source.spans import Span


def check_duplicate_ids(index: Index) -> Iterator[Fault]:
    """Yield a fault for each id that names two things.

    A by-product may be a pantry item too: then it can also be bought. Two components may make the same by-product.
    """
    places: dict[str, list[tuple[str, Span]]] = defaultdict(list)
    parsed = index.parsed
    for item in parsed.pantry:
        places[item.id].append(("a pantry item", item.span))
    for component in parsed.components:
        places[component.id].append(("a component", component.span))
    for dish in parsed.dishes:
        places[dish.id].append(("a dish", dish.span))
    for entries in index.by_products.values():
        by_product = entries[0][1]
        if by_product.item in index.components or by_product.item in index.dishes:
            places[by_product.item].append(("a by-product", by_product.at("item")))
    for word, found in places.items():
        for what, span in found[1:]:
            first_what, first_span = found[0]
            kind = f"{what} and {first_what}" if what != first_what else f"two {_plural(what)}"
            yield fault(
                "LB202",
                f"`{word}` names {kind}",
                span,
                hints=("give one of them another id, and use that id wherever it is meant",),
                related=(Related(span=first_span, label=f"{first_what} with this id"),),
            )


def check_own_items(index: Index) -> Iterator[Fault]:
    """Yield a fault where a component lists itself, and where a dish is used as an item."""
    as_items: dict[str, list[Reference]] = defaultdict(list)
    for reference in index.references:
        if reference.item == reference.user.id:
            if isinstance(reference.user, Dish) and reference.item in index.items:
                continue  # two things with one id: LB202 tells it
            yield fault(
                "LB216",
                f"`{reference.item}` lists itself under `{reference.part}`",
                reference.span,
                hints=("name what goes into it, or take this line away",),
            )
        elif reference.item in index.dishes and reference.item not in index.items:
            as_items[reference.item].append(reference)
    for item, references in as_items.items():
        yield gathered(
            "LB216",
            f"`{item}` is a dish, and a dish cannot be an item of a card",
            [reference.span for reference in references],
            hints=("name the component or the pantry item that is meant",),
        )


def check_listed_twice(index: Index) -> Iterator[Fault]:
    """Yield a fault where one list of a card or a menu has the same thing twice."""
    for component in index.components.values():
        yield from _ingredients_twice(component)
        yield from _by_products_twice(component)
    for menu in index.menus.values():
        courses = [(course.id, course.at("course")) for course in menu.courses]
        yield from _twice(courses, f"the courses of {menu.name}", "take one of the two away")
        dishes = [(entry.dish, entry.at("dish")) for entry in menu.dishes]
        yield from _twice(dishes, f"the dishes of {menu.name}", "take one of the two away, and add the shares up")
    if index.file is not None and index.file.service is not None:
        service = index.file.service
        closed = [(str(day), service.spans.get(f"closed.{n}", service.span)) for n, day in enumerate(service.closed)]
        yield from _twice(closed, "the closed days", "take one of the two away, or put the day that was meant")


def _ingredients_twice(component: Component) -> Iterator[Fault]:
    seen: dict[tuple[str, str | None, str | None], Span] = {}
    for line in component.ingredients:
        key = (line.item, line.stage, line.prep)
        if key in seen:
            yield fault(
                "LB212",
                f"`{line.item}` is listed twice among the ingredients",
                line.at("item"),
                hints=("add the two amounts up, or give each line its own `stage` or `prep`",),
                related=(Related(span=seen[key], label="first here"),),
            )
        seen.setdefault(key, line.at("item"))


def _by_products_twice(component: Component) -> Iterator[Fault]:
    entries = [(entry.item, entry.at("item")) for entry in component.also_makes]
    yield from _twice(entries, f"what {component.name} also makes", "add the two amounts up on one line")


def _twice(entries: list[tuple[str, Span]], where: str, mend: str) -> Iterator[Fault]:
    seen: dict[str, Span] = {}
    for word, span in entries:
        if word in seen:
            yield fault(
                "LB212",
                f"`{word}` stands twice in {where}",
                span,
                hints=(mend,),
                related=(Related(span=seen[word], label="first here"),),
            )
        seen.setdefault(word, span)


def _plural(what: str) -> str:
    return {"a pantry item": "pantry items", "a component": "components", "a dish": "dishes"}.get(what, "by-products")
