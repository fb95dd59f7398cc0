"""How long a component takes and in which order components are worked, for the order of sheets in a binder.

Knows stages and what uses what; no clock, no date.
"""

from __future__ import annotations

from collections.abc import Iterable
from graphlib import TopologicalSorter

from linebook.model.amounts import Duration
from linebook.model.component import Component
from linebook.model.house import House
from linebook.source.exact import Fraction


def lead_time(component: Component) -> Duration:
    """Return all stages' times end to end, in minutes: hands-on, unattended and finish."""
    return _total(
        time for stage in component.stages for time in (stage.hands_on, stage.unattended, stage.finish) if time
    )


def hands_on_time(component: Component) -> Duration:
    """Return the minutes somebody works on it: hands-on and finish of every stage."""
    return _total(time for stage in component.stages for time in (stage.hands_on, stage.finish) if time)


def working_order(house: House, components: Iterable[str]) -> tuple[str, ...]:
    """Return components in the order in which they must be started to be ready together.

    What others are made from comes before them; beyond that the longest way to service comes first.
    """
    wanted = set(components)
    makers = {id_: {line.item for line in house.components[id_].ingredients} & wanted for id_ in wanted}
    order = tuple(TopologicalSorter({id_: sorted(makers[id_]) for id_ in sorted(wanted)}).static_order())
    users: dict[str, list[str]] = {id_: [] for id_ in order}
    for user in order:
        for id_ in makers[user]:
            users[id_].append(user)
    before_service: dict[str, Fraction] = {}
    for id_ in reversed(order):
        later = [before_service[user] for user in users[id_]]
        before_service[id_] = lead_time(house.components[id_]).most + max(later, default=Fraction(0))
    place = {id_: at for at, id_ in enumerate(order)}
    return tuple(sorted(order, key=lambda id_: (-before_service[id_], place[id_])))


def _total(times: Iterable[Duration]) -> Duration:
    spans = tuple(times)
    return Duration(
        least=sum((span.least for span in spans), Fraction(0)), most=sum((span.most for span in spans), Fraction(0))
    )
