"""Percentages of one card do not hang on each other in a circle (LB314)."""

from __future__ import annotations

from collections.abc import Iterator

from linebook.check.circles import find_circles
from linebook.check.index import Index, place
from linebook.check.weights import base_lines
from linebook.model.amounts import Amount, Percent
from linebook.model.component import Component
from linebook.source.codes import fault
from linebook.source.faults import Fault, Related


def check_percent_circles(index: Index) -> Iterator[Fault]:
    """Yield a fault for each circle of percentages on a card."""
    for component in index.components.values():
        yield from _circles(component)


def _circles(component: Component) -> Iterator[Fault]:
    lines = component.ingredients
    percents = [at for at, line in enumerate(lines) if isinstance(line.amount, Percent)]
    graph = {str(at): [str(other) for other in base_lines(lines, at) if other in percents] for at in percents}
    for path in find_circles(graph):
        first, *rest = (lines[int(at)] for at in path)
        words = " -> ".join(line.item for line in (first, *rest, first))
        if not rest:
            message = f"the percentage of `{first.item}` is of itself"
        else:
            message = f"percentages on this card go round in a circle: {words}"
        weighed = [line.item for line in lines if isinstance(line.amount, Amount) and not line.medium] or ["flour"]
        yield fault(
            "LB314",
            message,
            place(first, "of", "of.0", "amount"),
            hints=(f"take it of what has a weight of its own, as in `of: [{', '.join(weighed[:3])}]`",),
            related=tuple(Related(span=place(line, "of", "of.0", "amount"), label="hangs on it too") for line in rest),
        )
