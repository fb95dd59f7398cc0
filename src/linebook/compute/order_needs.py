"""What is taken of every bought item for a service: as purchased, by whom, and when it must be in the house.

Works on one night that is already computed. Knows no supplier, no pack and no stock.
"""

from __future__ import annotations

from collections.abc import Collection, Iterator, Mapping
from dataclasses import replace
from datetime import date, timedelta
from graphlib import TopologicalSorter
from math import ceil
from typing import Final

from linebook.compute.portions import portion_amounts
from linebook.compute.results import Balance, Night, Standing
from linebook.compute.totals import lead_time
from linebook.compute.weights import facts_for
from linebook.compute.yields import as_purchased
from linebook.model.amounts import Amount
from linebook.model.component import Component
from linebook.model.conversion import convert_to
from linebook.model.dish import Dish
from linebook.model.house import House
from linebook.model.units import times
from linebook.source.exact import Fraction
from linebook.source.frozen import frozen

MINUTES_OF_A_DAY: Final = 24 * 60


@frozen
class Wanted:
    """What one card takes of one bought item for one service, as purchased. ``user`` is a dish or a component.

    ``by`` is the day it must be in the house.
    """

    item: str
    service: date
    by: date
    user: str
    amount: Amount


@frozen
class Short:
    """A by-product of which too little is made for a service, and which the pantry does not sell: make or buy it.

    ``apart`` is true where what is made cannot be compared; then ``amount`` is all that is needed.
    """

    item: str
    service: date
    amount: Amount
    users: tuple[str, ...]
    apart: bool = False


def days_before(house: House, component: str, among: Collection[str] | None = None) -> int:
    """Return how many days before a service the goods for a component must be in the house.

    It is the longest way from its first stage to the plate, its own stages and those of what is made from it, in whole
    days rounded up. ``among`` are the components that are made for the night; None is all of the house.
    """
    made = house.components if among is None else among
    return _whole_days(ways_to_service(house, made)[component])


def ways_to_service(house: House, among: Collection[str]) -> dict[str, Fraction]:
    """Return the minutes from the first stage of each component to service, at the longest, with nothing in between.

    What takes a by-product can begin when the stage is over after which that leaves.
    """
    made = {id_: house.components[id_] for id_ in among}
    users = {id_: [(user, lead_time(made[id_]).most) for user in found] for id_, found in _users(made).items()}
    with_trim = {id_: [*found, *_takers_of_trim(made, made[id_])] for id_, found in users.items()}
    ways: dict[str, Fraction] = {}
    for id_ in _last_first(with_trim):
        after = [offset + ways[user] for user, offset in with_trim[id_]]
        ways[id_] = max([*after, lead_time(made[id_]).most])
    return ways


def wanted_for(house: House, night: Night, day: date) -> tuple[Wanted, ...]:
    """Return all that a night takes of bought items, earliest first, by-products of its own cooking taken off.

    As purchased is the amount over the item's yield; a line that is weighed before its prep is so already. What is
    added to taste has no amount and is not in it.
    """
    ways = ways_to_service(house, night.batches)
    found = sorted(_takes(house, night, day, ways), key=lambda one: (one.by, one.item))
    comparable = {
        item: balance
        for item, balance in night.balances.items()
        if item in house.pantry and balance.standing is not Standing.APART
    }
    return tuple(_purchased(house, found, comparable))


def short_for(house: House, night: Night, day: date) -> tuple[Short, ...]:
    """Return the by-products of which a night needs more than it leaves, and which cannot be bought."""
    return tuple(
        Short(
            item=item,
            service=day,
            amount=balance.difference if balance.standing is Standing.SHORT else balance.needed,
            users=tuple(dict.fromkeys(use.user for use in balance.uses)),
            apart=balance.standing is Standing.APART,
        )
        for item, balance in night.balances.items()
        if item not in house.pantry and balance.standing in (Standing.SHORT, Standing.APART)
    )


def not_counted(house: House, nights: Collection[Night]) -> tuple[str, ...]:
    """Return the bought items that nights take without an amount: to taste, for the pan, in the fryer."""
    found: dict[str, None] = {}
    media = {medium.id: medium.carries for medium in house.file.media}
    for night in nights:
        dishes = [house.dishes[demand.dish] for demand in night.demands]
        components = [batch.component for batch in night.batches.values()]
        for batch in night.batches.values():
            found |= dict.fromkeys(line.ingredient.item for line in batch.ingredients if line.total is None)
        through = [stage.through for component in components for stage in component.stages]
        through += [element.through for dish in dishes for element in dish.elements]
        cards: list[Component | Dish] = [*components, *dishes]
        for card in cards:
            found |= dict.fromkeys(card.also_touches)
        for component in components:
            found |= dict.fromkeys(component.adjust_with)
        for medium in (medium for one in through for medium in one):
            found |= dict.fromkeys(media.get(medium, ()))
    return tuple(item for item in found if item in house.pantry)


@frozen
class _Take:
    """What a card takes, before its yield."""

    item: str
    service: date
    by: date
    user: str
    amount: Amount
    weighed_before: bool


def _takes(house: House, night: Night, day: date, ways: Mapping[str, Fraction]) -> Iterator[_Take]:
    for demand in night.demands:
        for item, amount in portion_amounts(house.dishes[demand.dish], demand.size):
            if item in house.pantry:
                whole = times(amount, Fraction(demand.portions))
                yield _Take(item=item, service=day, by=day, user=demand.dish, amount=whole, weighed_before=False)
    for id_, batch in night.batches.items():
        by = day - timedelta(days=_whole_days(ways[id_]))
        for line in batch.ingredients:
            item = line.ingredient.item
            if line.total is not None and item in house.pantry:
                before = line.ingredient.weigh_before
                yield _Take(item=item, service=day, by=by, user=id_, amount=line.total, weighed_before=before)


def _purchased(house: House, takes: list[_Take], balances: Mapping[str, Balance]) -> Iterator[Wanted]:
    """Yield what is to be bought. Of what is short of a by-product, the first to need it is bought for first."""
    left = {item: balance.needed.number - balance.made.number for item, balance in balances.items()}
    for take in takes:
        part = Fraction(1)
        if take.item in left:
            own = convert_to(take.amount, balances[take.item].made.unit, facts_for(house, take.item)).number
            bought = max(Fraction(0), min(own, left[take.item]))
            left[take.item] -= bought
            part = bought / own if own else part
        number = as_purchased(house.pantry[take.item], take.amount.number * part, take.weighed_before)
        if number:
            amount = Amount(number=number, unit=take.amount.unit)
            yield Wanted(item=take.item, service=take.service, by=take.by, user=take.user, amount=amount)


def _users(made: Mapping[str, Component]) -> dict[str, list[str]]:
    users: dict[str, list[str]] = {id_: [] for id_ in made}
    for component in made.values():
        for item in dict.fromkeys(line.item for line in component.ingredients):
            if item in users:
                users[item].append(component.id)
    return users


def _takers_of_trim(made: Mapping[str, Component], maker: Component) -> Iterator[tuple[str, Fraction]]:
    for by_product in maker.also_makes:
        for user in made.values():
            if user is not maker and any(line.item == by_product.item for line in user.ingredients):
                yield user.id, _until(maker, by_product.after)


def _until(maker: Component, after: str | None) -> Fraction:
    """Return the minutes from the start of a component until a stage of it is over; None is its last."""
    names = [stage.name for stage in maker.stages]
    if after not in names:
        return lead_time(maker).most
    return lead_time(replace(maker, stages=maker.stages[: names.index(after) + 1])).most


def _last_first(users: Mapping[str, list[tuple[str, Fraction]]]) -> tuple[str, ...]:
    graph = {id_: sorted({user for user, _ in found}) for id_, found in users.items()}
    return tuple(TopologicalSorter(graph).static_order())


def _whole_days(minutes: Fraction) -> int:
    return ceil(minutes / MINUTES_OF_A_DAY)
