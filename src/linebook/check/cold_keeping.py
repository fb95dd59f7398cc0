"""What the checks of keeping times share: is it kept cold, or frozen, or hot, and for how many days.

Knows one component and the places of the house; judges nothing.
"""

from __future__ import annotations

from typing import Final

from linebook.check.index import Index
from linebook.check.limits import COLD_TO, HOT_FROM
from linebook.model.amounts import Duration
from linebook.model.component import Component, Limit, Stage
from linebook.model.dating import Places, is_kept_frozen, store_celsius
from linebook.model.house import Climate
from linebook.source.exact import Fraction

_DAY: Final = Fraction(24 * 60)


def places_of(index: Index) -> Places:
    """Return the places of the house by their ids."""
    return {where.id: where for where in index.file.places} if index.file is not None else {}


def is_hot(stage: Stage, places: Places) -> bool:
    """Return whether a stage is hot: by its limit, its place or its temperature."""
    where = places.get(stage.where or "")
    if stage.limit in (Limit.COOK, Limit.REHEAT) or (where is not None and where.climate is Climate.HOT):
        return True
    return any(t is not None and t.celsius >= HOT_FROM for t in (stage.heat, stage.until))


def is_from_room(component: Component, stage: int, places: Places) -> bool:
    """Return whether what goes into a stage never was hot on its card: every stage before is known to be no hotter.

    A stage that says neither where it is nor how hot may be hot.
    """
    for before in component.stages[:stage]:
        known = before.where in places or before.heat is not None or before.until is not None
        if not known or before.through or is_hot(before, places):
            return False
    return True


def is_kept_cold(component: Component, places: Places) -> bool:
    """Return whether it is stored cold and not frozen."""
    where = places.get(component.store.place or "") if component.store is not None else None
    at = store_celsius(component, places)
    cold = (where is not None and where.climate is Climate.COLD) or (at is not None and at <= COLD_TO)
    return cold and not is_kept_frozen(component, places)


def days_kept(keeps: Duration) -> Fraction:
    """Return for how many days something keeps, the first counted in: at least one."""
    return max(Fraction(1), keeps.most / _DAY)
