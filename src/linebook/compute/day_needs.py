"""What a line takes out of stores on one day of a plan, and what of it is cut: sums over all that is started that day.

Exact. Knows the plan and the cards; where a thing is kept is said by its own spec.
"""

from __future__ import annotations

from collections.abc import Iterator
from datetime import date

from linebook.compute.plan_results import Making, PlannedStage, PrepPlan
from linebook.compute.results import BatchIngredient
from linebook.compute.weights import bought_total
from linebook.model.amounts import Amount
from linebook.model.contents import stage_of
from linebook.model.conversion import in_makes
from linebook.model.house import House
from linebook.model.units import plus, times
from linebook.source.exact import Fraction
from linebook.source.frozen import frozen


@frozen
class DayNeed:
    """All of one item that a line takes on a day. ``amounts`` has one sum for each measure; () is to taste.

    ``place`` is the id of where it is kept, None where nobody has said; ``users`` are the components it goes into.
    """

    item: str
    amounts: tuple[Amount, ...]
    place: str | None
    users: tuple[str, ...]


@frozen
class KnifeWork:
    """All of one item that is prepared in one way on a day, over all cards.

    ``as_for`` is the missing item whose prep it is, where this one stands in for it and does not say its own.
    """

    item: str
    prep: str
    amounts: tuple[Amount, ...]
    users: tuple[str, ...]
    as_for: str | None = None


def day_needs(house: House, plan: PrepPlan, line: str, day: date) -> tuple[DayNeed, ...]:
    """Return what a line takes on a day, in the order in which it is first wanted."""
    taken: dict[str, tuple[list[Amount], list[str]]] = {}
    for making, _, ingredient, amount in _taken(plan, line, day):
        amounts, users = taken.setdefault(ingredient.ingredient.item, ([], []))
        if amount is not None:
            amounts.append(amount)
        if making.component not in users:
            users.append(making.component)
    return tuple(
        DayNeed(item=item, amounts=_sum(house, item, amounts), place=place_of(house, item), users=tuple(users))
        for item, (amounts, users) in taken.items()
    )


def knife_work(house: House, plan: PrepPlan, line: str, day: date) -> tuple[KnifeWork, ...]:
    """Return what is cut, peeled or picked on a line on a day, each item in each way once, over all cards."""
    found: dict[tuple[str, str, str | None], tuple[list[Amount], list[str]]] = {}
    for making, _, line_of, amount in _taken(plan, line, day):
        if line_of.ingredient.prep is None or amount is None:
            continue
        key = (line_of.ingredient.item, line_of.ingredient.prep, line_of.ingredient.prep_as_for)
        amounts, users = found.setdefault(key, ([], []))
        amounts.append(amount)
        if making.component not in users:
            users.append(making.component)
    return tuple(
        KnifeWork(item=item, prep=prep, amounts=_sum(house, item, amounts), users=tuple(users), as_for=as_for)
        for (item, prep, as_for), (amounts, users) in found.items()
    )


def place_of(house: House, item: str) -> str | None:
    """Return the id of the place where an item is kept, None where nobody has said."""
    if item in house.components:
        store = house.components[item].store
        return store.place if store else None
    return house.pantry[item].kept if item in house.pantry else None


def _taken(
    plan: PrepPlan, line: str, day: date
) -> Iterator[tuple[Making, PlannedStage, BatchIngredient, Amount | None]]:
    """Yield each ingredient of each load that is started on a line on a day, with how much of it."""
    for making in plan.makings:
        if making.batch.component.line != line:
            continue
        for stage in making.stages:
            if stage.start.date() != day:
                continue
            for at, ingredient in enumerate(making.batch.ingredients):
                if (stage_of(making.batch.component, at) or 0) == stage.number:
                    total = ingredient.total
                    yield making, stage, ingredient, None if total is None else times(total, Fraction(1, stage.loads))


def _sum(house: House, item: str, amounts: list[Amount]) -> tuple[Amount, ...]:
    if not amounts:
        return ()
    if item not in house.components:
        return bought_total(house, item, amounts)
    total, *others = [in_makes(house.components[item], amount) for amount in amounts]
    for other in others:
        total = plus(total, other)
    return (total,)
