"""What the checks of keeping times share: is it kept cold, or frozen, or hot, and for how many days.

Knows one component and the places of the house; judges nothing.
"""

from __future__ import annotations

from collections.abc import Mapping
from fractions import Fraction
from typing import Final

from linebook.check.index import Index
from linebook.check.limits import COLD_TO, HOT_FROM
from linebook.model.amounts import Duration
from linebook.model.component import Component, Limit, Stage
from linebook.model.house import Climate, Workplace

_DAY: Final = Fraction(24 * 60)

Places = Mapping[str, Workplace]


def places_of(index: Index) -> Places:
    """Return the places of the house by their ids."""
    return {where.id: where for where in index.file.places} if index.file is not None else {}


def is_hot(stage: Stage, places: Places) -> bool:
    """Return whether a stage is hot: by its limit, its place or its temperature."""
    where = places.get(stage.where or "")
    if stage.limit in (Limit.COOK, Limit.REHEAT) or (where is not None and where.climate is Climate.HOT):
        return True
    return any(t is not None and t.celsius >= HOT_FROM for t in (stage.heat, stage.until))


def store_celsius(component: Component, places: Places) -> Fraction | None:
    """Return how cold it is kept: as its store says, else as its place is; None where neither says."""
    store = component.store
    if store is None:
        return None
    if store.temperature is not None:
        return store.temperature.celsius
    where = places.get(store.place or "")
    return where.temperature.celsius if where is not None and where.temperature is not None else None


def is_kept_frozen(component: Component, places: Places) -> bool:
    """Return whether it is stored frozen."""
    where = places.get(component.store.place or "") if component.store is not None else None
    at = store_celsius(component, places)
    return (where is not None and where.climate is Climate.FROZEN) or (at is not None and at < _FROZEN_BELOW)


def is_kept_cold(component: Component, places: Places) -> bool:
    """Return whether it is stored cold and not frozen."""
    where = places.get(component.store.place or "") if component.store is not None else None
    at = store_celsius(component, places)
    cold = (where is not None and where.climate is Climate.COLD) or (at is not None and at <= COLD_TO)
    return cold and not is_kept_frozen(component, places)


def days_kept(keeps: Duration) -> Fraction:
    """Return for how many days something keeps, the first counted in: at least one."""
    return max(Fraction(1), keeps.most / _DAY)


_FROZEN_BELOW: Final = Fraction(-5)
"""Below this food is taken to be frozen (common practice, no source): most of its water is ice."""
