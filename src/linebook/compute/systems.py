"""In which system of units an amount is printed: as written, in metric units, in US ones, or in both side by side.

A weight stays a weight and a volume a volume; counts, scoops and the metric kitchen's spoons stay what they are. Exact:
what is asked for is rounded afterwards, on the instruments of its own system.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from typing import Final

from linebook.compute.ladders import is_metric
from linebook.compute.results import Printed
from linebook.compute.rounding import as_shown
from linebook.model.amounts import Amount, Kind, Unit
from linebook.model.house import HouseFile, Systems
from linebook.model.units import GRAM, METRIC_ONLY, MILLILITRE, OUNCE, UNITS, Measures, from_base, to_base
from linebook.source.exact import Fraction
from linebook.source.frozen import frozen

_OWN_TOOLS: Final = ("scoop-", "metric-tablespoon", "metric-teaspoon", "australian-tablespoon")
"""Volumes that are the tools themselves, in whatever system a kitchen works."""

_LEAST_WEIGHT: Final = 56
"""Grams: a little under 2 oz."""

_LEAST_MEASURE: Final = 6
"""Millilitres: a little under 1¼ tsp."""

_TOO_FAR: Final = Fraction(1, 16)
"""What the tools of the system asked for would move by more than this is printed as written: a gram is no ¼ oz."""


@frozen
class System:
    """The system asked for, and which cup is meant by a cup."""

    units: Systems = "as written"
    measures: Measures = METRIC_ONLY

    def asked(self, amount: Amount) -> Amount:
        """Return the same amount in the system that is printed; the same value where nothing is to be changed."""
        if self.units == "metric":
            return _metric(amount)
        return self._customary(amount) if self.units == "us" else amount

    def other(self, amount: Amount) -> Amount | None:
        """Return the same amount in the other system where both are printed, None where it has no other."""
        if self.units != "both":
            return None
        found = self._customary(amount) if is_metric(amount.unit) else _metric(amount)
        return None if found is amount else found

    def _customary(self, amount: Amount) -> Amount:
        if not _changes(amount) or _is_customary(amount.unit, self.measures):
            return amount
        unit = OUNCE if amount.unit.kind is Kind.MASS else UNITS[f"{self.measures.cup or 'us'}-cup"]
        return from_base(to_base(amount), unit)


AS_WRITTEN: Final = System()


def system_of_house(file: HouseFile) -> System:
    """Return in which system a house prints."""
    return System(units=file.units, measures=file.measures) if file.units != "as written" else AS_WRITTEN


def print_in(system: System, amount: Amount, rounded: Callable[[Amount], Printed], *, exact: bool = False) -> Printed:
    """Return an amount rounded in the system asked for.

    Where its tools cannot come near it, or not near enough for what must be weighed exactly, and those of the system it
    is written in can, it stays as written.
    """
    if system.units == "as written":
        return rounded(amount)
    asked = system.asked(amount)
    found = rounded(asked)
    if system.units == "both":
        return replace(found, exactly=exact)
    if asked is not amount and found.moved and (exact or not says(asked, found)):
        as_written = rounded(amount)
        found = found if as_written.moved else as_written
    return replace(found, settled=True)


def says(exact: Amount, printed: Printed) -> bool:
    """Return whether a rounded amount of the other system is worth printing: not moved, or near and not too small.

    Under 2 oz the USDA guide rounds no weight, and under 1¼ tsp an eighth of a teaspoon is too coarse.
    """
    base = to_base(exact)
    if not printed.moved:
        return True
    if not is_metric(exact.unit) and base < (_LEAST_WEIGHT if exact.unit.kind is Kind.MASS else _LEAST_MEASURE):
        return False
    return abs(as_shown(printed.amount) - base) <= _TOO_FAR * base


def _metric(amount: Amount) -> Amount:
    if not _changes(amount) or is_metric(amount.unit):
        return amount
    return from_base(to_base(amount), GRAM if amount.unit.kind is Kind.MASS else MILLILITRE)


def _changes(amount: Amount) -> bool:
    return amount.unit.kind is not Kind.COUNT and not amount.unit.key.startswith(_OWN_TOOLS)


def _is_customary(unit: Unit, measures: Measures) -> bool:
    """Return whether a unit is one of those that a US kitchen of this house's cup measures in."""
    if unit.kind is Kind.MASS:
        return not is_metric(unit)
    return unit.key.startswith("us-") or unit.key == f"{measures.cup}-cup"
