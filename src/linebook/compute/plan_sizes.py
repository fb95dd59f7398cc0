"""Batches by what is needed of them, each with its legs; what was sized once is not sized again.

Knows sizes and stages; knows no moment.
"""

from __future__ import annotations

from linebook.compute.base import base_batch
from linebook.compute.batches import Sizing
from linebook.compute.plan_legs import LegPlan, chains_of, life_leg
from linebook.compute.results import Batch
from linebook.model.amounts import Amount
from linebook.model.house import House
from linebook.source.exact import Fraction
from linebook.source.frozen import frozen


@frozen(eq=False)
class Sized:
    """A batch with its chains of legs. ``lives`` are the legs, one of each chain, whose end begins its life."""

    batch: Batch
    chains: tuple[tuple[LegPlan, ...], ...]
    lives: tuple[int, ...]

    @property
    def component(self) -> str:
        """Return the id of what is made."""
        return self.batch.component.id


class Sizes:
    """The batches of one house."""

    def __init__(self, house: House) -> None:
        self._house = house
        self._sizing = Sizing(house)
        self._bases: dict[str, Batch] = {}
        self._known: dict[tuple[str, Fraction], Sized] = {}

    def of(self, component: str, needed: Fraction) -> Sized:
        """Return what is made where so much is needed, in the unit of the component's yield, loss included."""
        key = (component, needed)
        if key not in self._known:
            self._known[key] = self._sized(component, needed)
        return self._known[key]

    def _sized(self, component: str, needed: Fraction) -> Sized:
        spec = self._house.components[component]
        batch = self._sizing.for_need(spec, Amount(number=needed, unit=spec.makes.unit), None, ())
        if component not in self._bases:
            self._bases[component] = base_batch(self._house, component)
        chains = chains_of(self._house, batch, self._bases[component])
        return Sized(batch=batch, chains=chains, lives=tuple(life_leg(self._house, spec, legs) for legs in chains))
