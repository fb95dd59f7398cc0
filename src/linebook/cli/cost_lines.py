"""What ``linebook cost`` says: tables of money for the chef, in the terminal and for other programs."""

from __future__ import annotations

import csv
from collections.abc import Iterable, Iterator
from io import StringIO
from math import floor
from typing import TYPE_CHECKING

import click

from linebook.source.exact import Fraction
from linebook.source.frozen import frozen

if TYPE_CHECKING:
    from linebook.compute.cost import Cost, CostLine, Costs
    from linebook.model.amounts import Amount
    from linebook.model.house import House

AS_WRITTEN = "By the prices of the pantry and the menu as they are written; tax is not considered."


@frozen
class CostTable:
    """A table to say, and the same for other programs. ``costs`` are all that its notes are of; ``said`` follows it."""

    title: str
    heads: tuple[str, ...]
    rows: tuple[tuple[str, ...], ...]
    columns: tuple[str, ...]
    cells: tuple[tuple[str, ...], ...]
    cost: Cost
    said: tuple[str, ...] = ()


def menu_table(house: House, costs: Costs, menu: str) -> CostTable:
    """Return every dish of a menu in every size: its cost, the price and the part of it that the food costs."""
    from linebook.compute.cost import sum_of

    plates = [plate for entry in house.menus[menu].dishes for plate in costs.plates(house.dishes[entry.dish])]
    rows, cells = [], []
    for plate in plates:
        price = money(house, plate.price) if plate.price is not None else ""
        share = percent(plate.share) if plate.share is not None else ""
        least = "≥ " if plate.total.unpriced else ""
        name = house.dishes[plate.dish].name
        rows.append(
            (name, plate.size, f"{least}{money(house, plate.total.money)}", price, f"{least}{share}" * bool(share))
        )
        figures = (_decimal(plate.total.money), "yes" if plate.total.unpriced else "no", _decimal(plate.price))
        cells.append((plate.dish, name, plate.size, *figures, _decimal(plate.share, 6), *_names(plate.total)))
    return CostTable(
        title=f"{house.menus[menu].name}: what a portion costs",
        heads=("dish", "size", "cost", "price", "share"),
        rows=tuple(rows),
        columns=("dish", "name", "size", "cost", "at_least", "price", "share", "without_price", "to_taste", "no_value"),
        cells=tuple(cells),
        cost=sum_of(plate.total for plate in plates),
    )


def dish_table(house: House, costs: Costs, dish: str) -> CostTable:
    """Return what a portion of a dish is made up of, in every size."""
    from linebook.compute.cost import sum_of

    plates = costs.plates(house.dishes[dish])
    rows, cells = [], []
    for plate in plates:
        for line in plate.lines:
            rows.append((plate.size, *_line_row(house, line, plate.total.money)))
            cells.append((plate.size, *_line_cells(house, line)))
        total = _total(house, plate.total)
        rows.append((plate.size, "", "in all", total, ""))
    said = [
        f"{percent(plate.share)} of the price, {money(house, plate.price)}"
        for plate in plates
        if plate.share is not None and plate.price is not None
    ]
    return CostTable(
        title=f"{house.dishes[dish].name}: what a portion costs",
        heads=("size", "amount", "what", "cost", "part"),
        rows=tuple(rows),
        columns=("size", *_LINE_COLUMNS),
        cells=tuple(cells),
        cost=sum_of(plate.total for plate in plates),
        said=tuple(said),
    )


def batch_table(house: House, costs: Costs, component: str) -> CostTable:
    """Return what the spec's batch of a component is made up of, and what a unit and each portion of it cost."""
    batch = costs.batch(component)
    own = house.components[component]
    rows = [_line_row(house, line, batch.total.money) for line in batch.lines]
    rows.append((_amount(batch.makes), "in all", _total(house, batch.total), ""))
    return CostTable(
        title=f"{own.name}: what a batch of {_amount(batch.makes)} costs",
        heads=("amount", "what", "cost", "part"),
        rows=tuple(rows),
        columns=_LINE_COLUMNS,
        cells=tuple(_line_cells(house, line) for line in batch.lines),
        cost=batch.total,
        said=tuple(_units_said(house, costs, component)),
    )


def say_table(house: House, table: CostTable) -> None:
    """Print a table, what follows it, and all that is not in its money."""
    click.echo(click.style(table.title, bold=True))
    widths = [max(len(row[at]) for row in (table.heads, *table.rows)) for at in range(len(table.heads))]
    left = {at for at, head in enumerate(table.heads) if head in ("dish", "size", "what")}
    for row in (table.heads, *table.rows):
        cells = (cell.ljust(widths[at]) if at in left else cell.rjust(widths[at]) for at, cell in enumerate(row))
        click.echo("  ".join(cells).rstrip())
    for line in (*table.said, *_notes(house, table.cost), AS_WRITTEN):
        click.echo(line)


def written(table: CostTable) -> str:
    """Return a table as comma-separated text with a head, money as plain decimals."""
    from linebook.documents.order_table import plain_cell

    text = StringIO()
    writer = csv.writer(text, lineterminator="\r\n")
    writer.writerow(table.columns)
    for row in table.cells:
        writer.writerow([cell if _is_number(cell) else plain_cell(cell) for cell in row])
    return text.getvalue()


def money(house: House, amount: Fraction) -> str:
    """Return money to the hundredth, half up: *£7.65*, *12.30 kr*."""
    hundredths = floor(abs(amount) * 100 + Fraction(1, 2))
    sign = "−" if amount < 0 and hundredths else ""
    plain = f"{hundredths // 100:,}.{hundredths % 100:02d}"
    currency = house.file.currency
    if not currency:
        return f"{sign}{plain}"
    return f"{sign}{plain} {currency}" if currency[-1].isalpha() else f"{sign}{currency}{plain}"


def percent(part: Fraction) -> str:
    """Return a part of one in per cent to a tenth, half up: *29.4 %*."""
    tenths = floor(part * 1000 + Fraction(1, 2))
    return f"{'−' if tenths < 0 else ''}{abs(tenths) // 10}.{abs(tenths) % 10} %"


_LINE_COLUMNS = ("item", "name", "amount", "unit", "as_purchased", "cost", "at_least", "credit")


def _line_row(house: House, line: CostLine, total: Fraction) -> tuple[str, ...]:
    name = house.name_of(line.item)
    if line.credit:
        name = f"{name}, left over"
    if line.bought is not None and line.amount is not None and line.bought.number != line.amount.number:
        name = f"{name} ({_amount(line.bought)} as bought)"
    part = percent(line.cost.money / total) if total > 0 and line.amount is not None else ""
    shown = "" if line.amount is None else _amount(line.amount)
    return (shown or "to taste", name, "" if line.amount is None else _total(house, line.cost), part)


def _line_cells(house: House, line: CostLine) -> tuple[str, ...]:
    return (
        line.item,
        house.name_of(line.item),
        "" if line.amount is None else _decimal(line.amount.number, 6),
        "" if line.amount is None else line.amount.unit.symbol,
        "" if line.bought is None else _decimal(line.bought.number, 6),
        "" if line.amount is None else _decimal(line.cost.money),
        "yes" if line.cost.unpriced else "no",
        "yes" if line.credit else "no",
    )


def _units_said(house: House, costs: Costs, component: str) -> Iterator[str]:
    """Yield what a unit, a piece and each portion of a component cost."""
    from linebook.compute.portions import FULL, portion_amounts
    from linebook.model.conversion import in_makes

    batch, own = costs.batch(component), house.components[component]
    least = "at least " if batch.total.unpriced else ""
    lost = f", {percent(own.loss)} lost on the way" if own.loss else ""
    yield f"{least}{money(house, batch.one.money)} a {own.makes.unit.symbol} on the plate{lost}"
    if own.pieces:
        reaching = batch.one.money * own.makes.number / own.pieces
        yield f"{least}{money(house, reaching)} a piece"
    for dish in house.dishes.values():
        for size in [one.id for one in dish.sizes] or [FULL]:
            for item, amount in portion_amounts(dish, size):
                if item == component:
                    cost = batch.one.money * in_makes(own, amount).number
                    yield f"{least}{money(house, cost)} a portion of {_amount(amount)}: {dish.name}, {size}"


def _notes(house: House, cost: Cost) -> Iterator[str]:
    """Yield what is not in the money, by its reason."""
    for items, said in (
        (cost.unpriced, "At least so much: no price that reaches the amount for"),
        (cost.uncounted, "Not counted, to taste:"),
        (cost.unvalued, "By-products that count for nothing, as nothing says their worth:"),
    ):
        if items:
            yield f"{said} {', '.join(house.name_of(item) for item in items)}."


def _names(cost: Cost) -> Iterable[str]:
    return (" ".join(items) for items in (cost.unpriced, cost.uncounted, cost.unvalued))


def _total(house: House, cost: Cost) -> str:
    return f"{'≥ ' if cost.unpriced else ''}{money(house, cost.money)}"


def _amount(amount: Amount) -> str:
    """Return an amount to three decimals at most, as the card has it."""
    from linebook.documents.measures import typed_text
    from linebook.documents.wording import english

    return typed_text(amount, english()).plain.replace("\u00a0", " ")


def _decimal(number: Fraction | None, places: int = 4) -> str:
    from linebook.compute.numerals import decimal_text

    return "" if number is None else decimal_text(number, places)


def _is_number(cell: str) -> bool:
    return cell.removeprefix("-").replace(".", "", 1).isdigit()
