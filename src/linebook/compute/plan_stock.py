"""What is on hand when a plan begins, handed out to its needs, so that it is not made again.

Knows lives and amounts; how the rest is made is not its business.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import replace
from datetime import date
from typing import TypeAlias

from linebook.compute.plan_demands import Demand
from linebook.compute.results import StockUse
from linebook.compute.services import ServiceDay
from linebook.compute.stock import counted_stock
from linebook.model.amounts import Amount
from linebook.model.house import House
from linebook.model.occasion import Occasion
from linebook.model.supply import StockEntry
from linebook.source.exact import Fraction

LeftStock: TypeAlias = tuple[
    Sequence[tuple[StockEntry, Fraction | None]], Mapping[date, tuple[StockUse, ...]], Mapping[int, date]
]
"""What is left of each entry, what was taken, and the last days of what took it; see ``Stock``."""


class Stock:
    """What is on hand of components, handed out to the needs that come first; what ends first goes first.

    ``used`` is what was taken, by the first service it is for; ``ends`` the last day of the batches that took of it.
    """

    def __init__(self, house: House, on_hand: Sequence[StockEntry], services: Sequence[ServiceDay]) -> None:
        menus = dict.fromkeys(service.menu for service in services)
        entries = (*on_hand, *(entry for menu in menus for entry in house.menus[menu].on_hand))
        self._house = replace(house, menus={id_: replace(menu, on_hand=()) for id_, menu in house.menus.items()})
        self._menu = next(iter(menus), "")
        self._left: list[tuple[StockEntry, Fraction | None]] = [(entry, None) for entry in entries]
        self._items = frozenset(entry.item for entry in entries)
        self.used: dict[date, tuple[StockUse, ...]] = {}
        self.ends: dict[int, date] = {}

    @property
    def items(self) -> frozenset[str]:
        """Return what there is anything of."""
        return self._items

    def less(self, demand: Demand, component: str) -> Demand:
        """Return a demand less what of the stock is in life on the day it is served."""
        if component not in self._items:
            return demand
        occasion = Occasion(
            menu=self._menu, covers=1, date=demand.served, on_hand=tuple(entry for entry, _ in self._left)
        )
        wanted = demand.amount
        counted = list(enumerate(counted_stock(self._house, occasion)))
        for at, use in sorted(counted, key=lambda one: (one[1].last or date.max, one[0])):
            if use.entry.item != component or use.counted is None or not wanted:
                continue
            entry, left = self._left[at]
            there = use.counted.number if left is None else left
            taken = min(there, wanted)
            self._left[at] = (entry, there - taken)
            wanted -= taken
            if taken:
                self._date(demand, use.last)
                told = replace(use, used=Amount(number=taken, unit=use.counted.unit))
                self.used[demand.services[0]] = (*self.used.get(demand.services[0], ()), told)
        return replace(demand, amount=wanted)

    def _date(self, demand: Demand, last: date | None) -> None:
        """Note that a batch must be served by the last day of what it takes of the stock."""
        if demand.batch is not None and demand.dated and last is not None:
            self.ends[demand.batch] = min(last, self.ends.get(demand.batch, last))

    def copy(self) -> LeftStock:
        """Return what is left and what was taken, to come back to."""
        return list(self._left), dict(self.used), dict(self.ends)

    def restore(self, known: LeftStock) -> None:
        """Come back to what was left then."""
        left, used, ends = known
        self._left, self.used, self.ends = list(left), dict(used), dict(ends)
