"""What a batch may not be printed with: an amount to be weighed exactly that no instrument reads (LB328), or more of an
active substance than the house's ceiling (LB327).

Asked of every batch that a command sizes; a card as written is checked with the house.
"""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction
from math import ceil

from linebook.compute.ceilings import find_over_ceilings
from linebook.compute.printed_lines import print_load
from linebook.compute.results import Batch, BatchIngredient
from linebook.compute.rounding import EXACTLY, finest_taking
from linebook.compute.systems import system_of_house
from linebook.model.amounts import Amount
from linebook.model.house import House
from linebook.model.quantities import write_amount
from linebook.model.units import from_base, to_base
from linebook.source.codes import fault
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
    yield from find_over_ceilings(house, batch)


def _cannot_be_weighed(house: House, batch: Batch, line: BatchIngredient, made: str) -> Fault:
    assert line.load is not None
    least = to_base(line.load) * house.file.tolerance / EXACTLY
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
    times = ceil(reads / 2 / least)
    return fault(
        "LB328",
        f"{what} cannot be weighed exactly: the finest scale that takes it reads `{_shown(from_base(reads, unit))}`",
        line.ingredient.at("amount"),
        hints=(
            f"name a scale in `instruments:` that reads `{_fine(least)} g` or less",
            f"or make {times} times as much in one load",
        ),
        related=(Related(span=house.file.at("instruments"), label="the instruments"),),
    )


def _fine(grams: Fraction) -> str:
    """Return the largest of 1, 0.1, 0.01 … whose half step is no more than ``grams``."""
    places = 0
    while Fraction(1, 10**places) > grams * 2:
        places += 1
    return f"{1 / 10**places:.{places}f}"


def _shown(amount: Amount) -> str:
    """Return an amount near enough to tell it: four places at most."""
    return write_amount(Amount(number=Fraction(round(amount.number * 10_000), 10_000), unit=amount.unit))
