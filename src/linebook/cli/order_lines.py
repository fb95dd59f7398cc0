"""What ``linebook order`` says in the terminal: what to ask of whom by when, and what cannot be had."""

from __future__ import annotations

from typing import TYPE_CHECKING

import click

if TYPE_CHECKING:
    from collections.abc import Iterator

    from linebook.compute.order import Delivery, Order
    from linebook.documents.order_sheet import OrderSheet
    from linebook.documents.text import Text
    from linebook.model.house import House


def say_order(house: House, order: Order) -> None:
    """Say, by supplier, what comes when and by when it is ordered; then everything that must not be missed."""
    from linebook.documents.order_sheet import order_sheet
    from linebook.documents.wording import english

    sheet = order_sheet(house, order, english())
    click.echo(_plain(sheet.services))
    for line in _lines(order):
        click.echo(line)
    if sheet.nothing:
        click.echo(_plain(sheet.nothing))
    _say_notices(sheet)


def _lines(order: Order) -> Iterator[str]:
    """Yield a line for each delivery."""
    from linebook.documents.order_words import supplier_text, when_text
    from linebook.documents.wording import english

    wording = english()
    rows = [
        (
            _plain(supplier_text(delivery.supplier, wording)),
            _plain(wording.day(delivery.day)),
            _items(delivery),
            _plain(when_text(delivery, wording)),
        )
        for delivery in order.deliveries
    ]
    heads = ("supplier", "delivery", "items", "order by")
    widths = [max(len(row[at]) for row in (heads, *rows)) for at in range(len(heads))]
    if rows:
        for at, row in enumerate((heads, *rows)):
            cells = (row[0].ljust(widths[0]), row[1].ljust(widths[1]), row[2].rjust(widths[2]), row[3])
            yield click.style("  ".join(cells).rstrip(), bold=at == 0)


def _items(delivery: Delivery) -> str:
    return str(len(delivery.lines))


def _say_notices(sheet: OrderSheet) -> None:
    for notice in sheet.notices:
        click.echo("")
        click.echo(click.style(_plain(notice.title), bold=True))
        for point in notice.points:
            click.echo(f"  {_plain(point.text)}")
    for fact in sheet.also:
        click.echo("")
        click.echo(f"{_plain(fact.label)}: {_plain(fact.value)}")


def _plain(text: Text) -> str:
    return text.plain.replace("\u00a0", " ")
