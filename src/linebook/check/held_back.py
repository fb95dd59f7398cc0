"""What is held back can be: it has an amount, and it is nothing that must be weighed exactly (LB321, LB322)."""

from __future__ import annotations

from collections.abc import Iterator

from linebook.check.index import Index
from linebook.model.amounts import ToTaste
from linebook.model.component import Component, Ingredient, Scale
from linebook.source.codes import fault
from linebook.source.faults import Fault, Related


def check_held_back(index: Index) -> Iterator[Fault]:
    """Yield a fault for each first part of what is not held back, and for each line that may not be held back."""
    for component in index.components.values():
        for line in component.ingredients:
            yield from _of_nothing(line)
            if line.scale is Scale.HELD_BACK:
                yield from _exact(index, component, line)


def _of_nothing(line: Ingredient) -> Iterator[Fault]:
    held = line.scale is Scale.HELD_BACK
    if line.first is not None and not held:
        yield fault(
            "LB321",
            f"`first` stands only beside `scale: held back`, and `{line.item}` is not held back",
            line.at("first"),
            hints=("add `scale: held back`, or delete `first`",),
        )
    elif held and isinstance(line.amount, ToTaste):
        yield fault(
            "LB321",
            f"`{line.item}` is to taste already, and nothing of it can be held back",
            line.at("scale"),
            hints=("delete `scale: held back`, or give it an amount",),
        )


def _exact(index: Index, component: Component, line: Ingredient) -> Iterator[Fault]:
    item = index.pantry.get(line.item)
    if item is None or not item.weigh_exactly:
        return
    yield fault(
        "LB322",
        f"`{line.item}` must be weighed exactly, and {component.name} holds some of it back to be tasted",
        line.at("scale"),
        hints=("delete `scale: held back`: all of it goes in, to the gram",),
        related=(Related(span=item.at("weigh_exactly"), label="weighed exactly"),),
    )
