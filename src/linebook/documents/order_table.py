"""The order as a table for other programs: comma-separated text, a row for each item of each delivery.

Knows no view and no language: names are the specs' own, days and amounts are written for machines.
"""

from __future__ import annotations

import csv
from collections.abc import Iterator
from io import StringIO
from math import ceil, floor
from typing import Final

from linebook.compute.order import Delivery, Order, OrderLine, is_bought
from linebook.model.house import House
from linebook.source.exact import Fraction

HEADS: Final = (
    *("supplier", "order_by", "delivery", "item", "name", "needed", "unit", "pack", "packs", "ordered", "over"),
    *("for", "services", "season_last", "in_time"),
)
_FORMULA: Final = ("=", "+", "-", "@", "\t", "\r")
_PLACES: Final = 10**6


def order_table(house: House, order: Order) -> str:
    """Return the order as text: a head, then a row each; lines end as RFC 4180 has it.

    ``needed`` is as purchased; it, ``pack``, ``ordered`` and ``over`` are in ``unit``. Of what has no pack, ``pack``
    and ``packs`` are empty. What is asked of nobody, as tap water, has no row. A
    name that a spreadsheet would take for a formula begins with an apostrophe.
    """
    written = StringIO()
    table = csv.writer(written, lineterminator="\r\n")
    table.writerow(HEADS)
    for delivery in order.deliveries:
        for line in delivery.lines:
            if is_bought(house.pantry[line.item]):
                table.writerow([plain_cell(cell) for cell in _cells(house, order, delivery, line)])
    return written.getvalue()


def plain_cell(cell: str) -> str:
    """Return a cell that no spreadsheet reads as a formula."""
    return f"'{cell}" if cell.startswith(_FORMULA) else cell


def decimal_cell(number: Fraction, *, up: bool) -> str:
    """Return a number as a plain decimal of at most six places, rounded up or down."""
    whole = (ceil if up else floor)(number * _PLACES)
    return f"{whole // _PLACES}.{whole % _PLACES:06d}".rstrip("0").rstrip(".")


def _cells(house: House, order: Order, delivery: Delivery, line: OrderLine) -> Iterator[str]:
    item = house.pantry[line.item]
    yield delivery.supplier
    until = f"T{delivery.until:%H:%M}" if delivery.until else ""
    yield f"{delivery.order_by.isoformat()}{until}" if delivery.order_by else ""
    yield delivery.day.isoformat()
    yield line.item
    yield item.name
    yield decimal_cell(line.needed.number, up=True)
    yield line.needed.unit.symbol
    yield decimal_cell(line.pack.number, up=True) if line.pack is not None else ""
    yield str(line.packs) if line.packs is not None else ""
    yield decimal_cell(line.ordered.number, up=True)
    yield decimal_cell(line.over.number, up=False)
    yield " ".join(line.users)
    yield " ".join(day.isoformat() for day in line.services)
    yield item.season.last.isoformat() if item.season is not None else ""
    late = any(one.item == line.item and one.comes == delivery.day for one in order.too_late)
    yield "no" if late else "yes"
