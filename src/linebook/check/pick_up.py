"""The strands of a pick-up hang together with the call, and with themselves (LB620 to LB622).

Lines and places that the house does not have are told with all others, in ``references``.
"""

from __future__ import annotations

from collections.abc import Iterator
from typing import Final

from linebook.check.index import Index, place
from linebook.model.amounts import Duration
from linebook.model.dish import Dish, PickUp
from linebook.model.times import write_duration
from linebook.source.codes import fault
from linebook.source.exact import Fraction
from linebook.source.faults import Fault, Related

_LONGEST: Final = Fraction(180)
"""Minutes. What takes longer is not begun at the call: common practice, no source."""


def check_pick_up(index: Index) -> Iterator[Fault]:
    """Yield a fault for each strand that cannot be, and a warning where the longest is not the `call`."""
    for dish in index.dishes.values():
        wrong = [found for strand in dish.pick_up for found in _strand_faults(dish, strand)]
        yield from wrong
        if dish.pick_up and dish.call is not None and not wrong and not index.is_incomplete(dish.id):
            yield from _call_differs(dish, dish.call)


def _strand_faults(dish: Dish, strand: PickUp) -> Iterator[Fault]:
    length = _length(strand)
    if not strand.takes.most:
        yield fault(
            "LB621",
            f"`{strand.do}` in the pick-up of {dish.name} takes no time",
            strand.at("takes"),
            hints=("type how long it takes, such as `3 min`",),
        )
    elif length > _LONGEST:
        yield fault(
            "LB621",
            f"`{strand.do}` in the pick-up of {dish.name} needs {_written(length)} from the call",
            strand.at("takes"),
            hints=("type the minutes from call to pass", "what is made ahead is a component, with stages of its own"),
        )
    if strand.at_once is not None and strand.where is None:
        yield fault(
            "LB622",
            f"`{strand.do}` says how many portions go at once, and not where",
            strand.at("at_once"),
            hints=("add `where` with the id of the place they fill, or delete `at_once`",),
        )


def _call_differs(dish: Dish, call: Duration) -> Iterator[Fault]:
    longest = max(dish.pick_up, key=_length)
    length = _length(longest)
    if call.least <= length <= call.most:
        return
    yield fault(
        "LB620",
        f"{dish.name} says `call: {write_duration(call)}`, and its longest strand needs {_written(length)}",
        dish.at("call"),
        hints=(f"type `call: {_written(length)}`, or change the strand",),
        related=(Related(span=place(longest, "takes"), label="the longest strand"),),
    )


def _length(strand: PickUp) -> Fraction:
    return strand.takes.most + (strand.rests.most if strand.rests else 0)


def _written(minutes: Fraction) -> str:
    return write_duration(Duration(least=minutes, most=minutes))
