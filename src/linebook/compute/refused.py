"""What a batch may not be printed with: an amount to be weighed exactly that no instrument reads (LB328), or more of an
active substance than the house's ceiling (LB327).

Asked of every batch that a command sizes; a card as written is checked with the house.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from math import ceil

from linebook.compute.ceilings import find_over_ceilings
from linebook.compute.ladders import is_metric
from linebook.compute.printed_lines import print_load
from linebook.compute.results import Batch, BatchIngredient
from linebook.compute.rounding import EXACTLY, as_shown, finest_taking
from linebook.compute.systems import system_of_house
from linebook.model.amounts import Amount, Kind
from linebook.model.house import House
from linebook.model.quantities import write_amount
from linebook.model.units import GRAM, OUNCE, from_base, to_base
from linebook.source.codes import fault
from linebook.source.exact import Fraction
from linebook.source.faults import Fault, Related


def find_refused(house: House, batch: Batch, made: str) -> Iterator[Fault]:
    """Yield a fault for each line of a batch that cannot be weighed exactly, and for each ceiling it is over.

    ``made`` says what the batch is for, as *a night of 80 covers*.
    """
    file, system = house.file, system_of_house(house.file)
    for line in batch.ingredients:
        item = house.pantry.get(line.ingredient.item)
        if item is None or not item.weigh_exactly or line.load is None:
            continue
        if print_load(line, file.instruments, file.tolerance, exact=True, system=system).moved:
            yield _cannot_be_weighed(house, batch, line, made)
    over = list(find_over_ceilings(house, batch))
    if not over and (printed := _as_printed(house, batch)) is not batch:
        over = list(find_over_ceilings(house, printed))
    yield from over


def _as_printed(house: House, batch: Batch) -> Batch:
    """Return a batch as a cook weighs it: what is cured may have been rounded down, and what cures it up."""
    file, system = house.file, system_of_house(house.file)
    if not file.ceilings or all(line.room is None for line in batch.ingredients):
        return batch

    def weighed(line: BatchIngredient) -> BatchIngredient:
        if line.load is None:
            return line
        item = house.pantry.get(line.ingredient.item)
        exact = item is not None and item.weigh_exactly
        printed = print_load(line, file.instruments, file.tolerance, exact=exact, system=system)
        total = as_shown(printed.amount) * line.loads
        return replace(line, total=from_base(total, line.load.unit))

    return replace(batch, ingredients=tuple(map(weighed, batch.ingredients)))


def _cannot_be_weighed(house: House, batch: Batch, line: BatchIngredient, made: str) -> Fault:
    assert line.load is not None
    sides = 2 if line.room is None else 1  # what is near its ceiling may only be rounded down
    least = to_base(line.load) * house.file.tolerance / EXACTLY * sides / 2
    reads = finest_taking(line.load, house.file.instruments)
    amount = f"`{_shown(line.load)}` of {house.name_of(line.ingredient.item)}"
    load = "one load of " if line.loads > 1 else ""
    what = f"{amount} in {load}{batch.component.name} for {made}"
    if reads is None:
        return fault(
            "LB328",
            f"{what} cannot be weighed exactly",
            line.ingredient.at("amount"),
            hints=("type it by weight, and name a scale that reads it in `instruments:` of house.yaml",),
        )
    unit = line.load.unit
    small = (GRAM if is_metric(unit) else OUNCE) if unit.kind is Kind.MASS else unit
    finest, times = _fine(from_base(least, small).number), ceil(reads / 2 / least)
    return fault(
        "LB328",
        f"{what} cannot be weighed exactly: the finest scale that takes it reads `{_shown(from_base(reads, unit))}`",
        line.ingredient.at("amount"),
        hints=(
            f"name a scale in `instruments:` that reads `{finest} {small.symbol}` or less",
            f"or make {times} times as much in one load",
        ),
        related=(Related(span=house.file.at("instruments"), label="the instruments"),),
    )


def _fine(number: Fraction) -> str:
    """Return the largest of 1, 0.1, 0.01 … whose half step is no more than a number."""
    places = 0
    while Fraction(1, 10**places) > number * 2:
        places += 1
    return f"{1 / 10**places:.{places}f}"


def _shown(amount: Amount) -> str:
    """Return an amount near enough to tell it: four places at most."""
    return write_amount(Amount(number=Fraction(round(amount.number * 10_000), 10_000), unit=amount.unit))
