"""What a house is tonight that its specs do not say: what cannot be had, what stands in for it, and what falls.

Values only. How a house is changed so is ``compute.substitutes``'s business, how it is said ``documents``'.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import field
from typing import TYPE_CHECKING

from linebook.source.exact import Fraction
from linebook.source.frozen import frozen

if TYPE_CHECKING:
    from linebook.model.house import House


@frozen
class StandIn:
    """``item`` stands in for ``missing``; ``ratio`` is how much of it replaces one of the other.

    ``by`` is *weight*, or *measure* or *count* where amounts were turned by the typed measure or by their number;
    several where cards differ. ``prep`` is how it is prepared first, ``note`` what the cook must know of it.
    """

    missing: str
    item: str
    ratio: Fraction
    by: tuple[str, ...] = ("weight",)
    note: str | None = None
    prep: str | None = None


@frozen
class Fallen:
    """A dish, component or by-product that cannot be had tonight; ``path`` leads from it to what is missing."""

    id: str
    path: tuple[str, ...]


@frozen
class Change:
    """One place of a card that names another item tonight. ``part`` is the field it stands in, as the chef types it."""

    card: str
    part: str
    was: str
    now: str


@frozen
class Tonight:
    """What tonight is otherwise. ``before`` is the house as its specs have it, ``missing`` what was said to be.

    ``touched`` names, by dish or component, what of the missing reaches it replaced, directly or through a component.
    ``gone`` are by-products that nothing leaves tonight, as what they come from is replaced. ``unused`` are missing and
    on no card.
    """

    before: House
    missing: tuple[str, ...]
    stands_in: tuple[StandIn, ...] = ()
    changes: tuple[Change, ...] = ()
    dishes: tuple[Fallen, ...] = ()
    components: tuple[Fallen, ...] = ()
    gone: tuple[Fallen, ...] = ()
    touched: Mapping[str, tuple[str, ...]] = field(default_factory=dict)
    unused: tuple[str, ...] = ()
