"""Whose date counts on into what is made from it: the one rule for card, label, plan, count sheet and check.

The use-by of a component is the earliest of its own keeping time and of the use-bys of the components in it, through
all nesting and under every rule set (FDA Food Code 3-501.17(D); common practice elsewhere). A part does not count on
where it is strained out, where a stage at or after it says ``sets_date``, or where ``kept_by`` keeps it or what it goes
into. What is stored frozen has a time of its own in there; meanwhile the dates of what is in it stand still, and go on
when it is taken out: freezing stops the count and never starts it anew. Knows specs; knows no day of the calendar.
"""

from __future__ import annotations

from collections.abc import Mapping
from datetime import date, timedelta
from enum import Enum
from typing import Final

from linebook.model.component import ByProduct, Component
from linebook.model.contents import stage_of
from linebook.model.house import Climate, Workplace
from linebook.source.exact import Fraction
from linebook.source.frozen import frozen

_DAY: Final = Fraction(24 * 60)
_FROZEN_BELOW: Final = Fraction(-5)
"""Below this food is taken to be frozen (common practice, no source): most of its water is ice."""

Places = Mapping[str, Workplace]


class Counting(Enum):
    """How the date of a part counts in what it goes into.

    ``ON`` no later than the part's own; ``PAUSED`` the part was frozen: only what is in it counts, less the days in
    the freezer; ``STRAINED``, ``ANEW`` and ``KEPT`` not at all.
    """

    ON = "on"
    PAUSED = "paused"
    STRAINED = "strained"
    ANEW = "anew"
    KEPT = "kept"

    @property
    def counts(self) -> bool:
        """Return whether it counts at all."""
        return self in (Counting.ON, Counting.PAUSED)


def counting(user: Component, line: int, part: Component | None, places: Places) -> Counting:
    """Return how the date of a component, None for a by-product, counts in what it goes into on a line of that card."""
    if user.ingredients[line].medium:
        return Counting.STRAINED
    if any(stage.sets_date for stage in user.stages[stage_of(user, line) or 0 :]):
        return Counting.ANEW
    if user.kept_by is not None or (part is not None and part.kept_by is not None):
        return Counting.KEPT
    return Counting.PAUSED if part is not None and is_kept_frozen(part, places) else Counting.ON


def counts_in_trim(maker: Component, line: int, made: ByProduct) -> bool:
    """Return whether the date of what goes in on a line counts in a by-product: it is in it, and nothing dates it anew.

    What is strained out of the card counts too, for it may be what leaves.
    """
    names = [stage.name for stage in maker.stages]
    leaves = names.index(made.after) if made.after in names else max(0, len(names) - 1)
    goes_in = stage_of(maker, line) or 0
    if goes_in > leaves or (made.source is not None and maker.ingredients[line].item != made.source):
        return False
    return not any(stage.sets_date for stage in maker.stages[goes_in : leaves + 1])


def days_kept(kept: Component | ByProduct) -> int | None:
    """Return for how many days it keeps, the first counted in; one where it is hours, None where nobody has said."""
    if kept.keeps is None:
        return None
    return max(1, int(kept.keeps.least / _DAY)) if kept.keeps.in_days else 1


@frozen
class Days:
    """For how many days a component keeps at the most, and for how many it lets keep what it goes into.

    ``own`` is its keeping time, or less where what is in it lets it keep less. ``inside`` counts from the day it goes
    in, where it is as fresh as can be then. Both are None where nobody has said.
    """

    own: int | None
    inside: int | None


def days_of(components: Mapping[str, Component], places: Places) -> dict[str, Days]:
    """Return for how many days each component keeps, by itself and by all it is made from, to any depth."""
    found: dict[str, Days] = {}
    for id_ in components:
        _days(id_, components, places, found, frozenset())
    return found


def own_days(component: str, components: Mapping[str, Component], places: Places) -> int | None:
    """Return for how many days one component keeps, by itself and by all it is made from; see ``days_of``."""
    found: dict[str, Days] = {}
    _days(component, components, places, found, frozenset())
    return found[component].own


def line_days(
    user: Component, line: int, components: Mapping[str, Component], days: Mapping[str, Days], places: Places
) -> int | None:
    """Return for how many days what goes in on a line lets keep what is made from it; None as long as it likes."""
    part = components.get(user.ingredients[line].item)
    if part is None or part.id not in days or not counting(user, line, part, places).counts:
        return None
    return days[part.id].inside


def _days(
    id_: str, components: Mapping[str, Component], places: Places, found: dict[str, Days], above: frozenset[str]
) -> None:
    if id_ in found:
        return
    component, inside = components[id_], frozenset({*above, id_})
    for line in component.ingredients:
        if line.item in components and line.item not in inside:  # a circle is a fault of its own
            _days(line.item, components, places, found, inside)
    parts = [line_days(component, at, components, found, places) for at in range(len(component.ingredients))]
    least = min((days for days in parts if days is not None), default=None)
    own = days_kept(component)
    if is_kept_frozen(component, places):
        # The day it is frozen is used up, so there is one less when it comes out.
        found[id_] = Days(own=own, inside=None if least is None else max(1, least - 1))
        return
    both = min((days for days in (own, least) if days is not None), default=None)
    found[id_] = Days(own=both, inside=both)


def paused(frozen_on: date, taken_out: date) -> timedelta:
    """Return for how long a date stands still. The day it is frozen and the day it is taken out both count."""
    return max(timedelta(0), taken_out - frozen_on - timedelta(days=1))


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
