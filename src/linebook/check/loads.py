"""More loads than one card can log: a largest batch that is far too small for what is made.

What a night needs is not known here: the pipeline asks the same of every batch it sizes.
"""

from __future__ import annotations

from collections.abc import Iterator
from math import ceil
from typing import Final

from linebook.check.index import Index
from linebook.model.component import Component
from linebook.model.conversion import in_makes
from linebook.model.quantities import write_amount
from linebook.model.units import ratio
from linebook.source.codes import fault
from linebook.source.faults import Fault, ValueMistake

MOST_LOADS: Final = 100


def check_loads(index: Index) -> Iterator[Fault]:
    """Yield LB316 where the batch as written is split into more loads than a card can log."""
    for component in index.components.values():
        if component.largest_batch is None:
            continue
        try:
            loads = ceil(ratio(component.makes, in_makes(component, component.largest_batch)))
        except ValueMistake:
            continue  # LB304 tells it
        yield from find_too_many_loads(component, loads, f"`{write_amount(component.makes)}`")


def find_too_many_loads(component: Component, loads: int, made: str) -> Iterator[Fault]:
    """Yield LB316 where ``made`` takes more loads than a card can log."""
    if loads > MOST_LOADS and component.largest_batch is not None:
        largest = write_amount(component.largest_batch)
        yield fault(
            "LB316",
            f"{made} takes {loads:,} loads of `{largest}` {component.name}, and a card can log {MOST_LOADS}",
            component.at("largest_batch"),
            hints=("make `largest_batch` larger, or make less at a time",),
        )
