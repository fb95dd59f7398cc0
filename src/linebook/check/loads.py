"""More loads than one card can log: a largest batch, or a stage's most, that is far too small for what is made.

What a night needs is not known here: the pipeline asks the same of every batch it sizes. How many loads a stage of the
batch as written takes is told in ``stage_most``.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from math import ceil
from typing import Final

from linebook.check.index import Index, place
from linebook.model.component import Component, Stage
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


def find_too_many_loads(component: Component, loads: int, made: str, stages: Sequence[int] = ()) -> Iterator[Fault]:
    """Yield LB316 where ``made`` takes more loads than a card can log, as a whole or else at one of its stages."""
    if loads > MOST_LOADS and component.largest_batch is not None:
        largest = write_amount(component.largest_batch)
        yield fault(
            "LB316",
            f"{made} takes {loads:,} loads of `{largest}` {component.name}, and a card can log {MOST_LOADS}",
            component.at("largest_batch"),
            hints=("make `largest_batch` larger, or make less at a time",),
        )
        return
    most = max(range(len(stages)), key=lambda at: stages[at], default=None)
    if most is not None and stages[most] > MOST_LOADS:
        yield too_many_at_stage(component, component.stages[most], stages[most], made)


def too_many_at_stage(component: Component, stage: Stage, loads: int, made: str) -> Fault:
    """Return LB316 for a stage that ``made`` takes through in more loads than a card can log."""
    field = "vessel" if stage.at_most is None else "at_most"
    mend = "make `at_most` larger" if stage.at_most is not None else "name a larger vessel"
    return fault(
        "LB316",
        f"{made} of {component.name} takes {loads:,} loads at `{stage.name}`, and a card can log {MOST_LOADS}",
        place(stage, field, "name"),
        hints=(f"{mend}, or make less at a time",),
    )
