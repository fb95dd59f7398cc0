"""No component is made from itself, by however long a way (LB204)."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import pairwise

from linebook.check.circles import find_circles
from linebook.check.index import Index
from linebook.model.component import Component
from linebook.source.codes import fault
from linebook.source.faults import Fault, Related
from linebook.source.spans import Span


def check_cycles(index: Index) -> Iterator[Fault]:
    """Yield a fault for each way round, printed whole; a by-product leads to every component that makes it."""
    graph: dict[str, list[str]] = {}
    spans: dict[tuple[str, str], Span] = {}
    for component in index.components.values():
        graph[component.id] = []
    for reference in index.references:
        user = reference.user
        if isinstance(user, Component) and reference.item != user.id:  # LB216 tells a card that lists itself
            graph[user.id].append(reference.item)
            spans.setdefault((user.id, reference.item), reference.span)
    for item, makers in index.by_products.items():
        if item not in index.components:
            graph[item] = [maker.id for maker, _ in makers]
            spans |= {(item, maker.id): made.at("item") for maker, made in makers}
    for path in find_circles(graph):
        start = next((word for word in path if word in index.components), path[0])
        turned = (*path[path.index(start) :], *path[: path.index(start)], start)
        steps = list(pairwise(turned))
        yield fault(
            "LB204",
            f"a component is made from itself: {' -> '.join(turned)}",
            spans[steps[0]],
            hints=("take the item out of one of these cards, or buy it in as a pantry item with an id of its own",),
            related=tuple(Related(span=spans[step], label=_label(step, index)) for step in steps[1:]),
        )


def _label(step: tuple[str, str], index: Index) -> str:
    return f"lists `{step[1]}`" if step[0] in index.components else f"`{step[0]}` is left over here"
