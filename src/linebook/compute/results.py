"""What the computations give: exact figures for one occasion, with nothing rounded for print."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import field
from enum import Enum
from fractions import Fraction

from linebook.model.amounts import Amount
from linebook.model.component import Component, Ingredient
from linebook.model.occasion import Occasion
from linebook.source.frozen import frozen


@frozen
class DishDemand:
    """Portions of one dish in one size for one occasion."""

    occasion: Occasion
    dish: str
    size: str
    portions: int


@frozen
class Use:
    """How much of an item one user  (a dish in a ``size``, or a component) needs; ``amount`` in the item's own unit."""

    user: str
    amount: Amount
    size: str | None = None


@frozen
class BatchIngredient:
    """One ingredient line of a batch, exact. Amounts are None where it is added to taste.

    ``base`` is the spec's batch, ``load`` one load, ``total`` all loads. ``rate`` is grams a kilogram for a
    percentage. ``unrounded`` is set for a whole-scaled line: a load before it was made a whole count.
    """

    ingredient: Ingredient
    base: Amount | None
    load: Amount | None
    total: Amount | None
    rate: Fraction | None = None
    unrounded: Amount | None = None


@frozen
class Batch:
    """One component made for one occasion. ``total`` is in the unit of ``makes``; ``pieces`` its count,

    whole for a night, exact where a size was asked for.
    """

    component: Component
    total: Amount
    pieces: Fraction | None
    factor: Fraction
    loads: int
    load: Amount
    ingredients: tuple[BatchIngredient, ...]
    uses: tuple[Use, ...] = ()


@frozen
class Night:
    """All demand and batches of one occasion. ``needs`` holds bought items in grams, millilitres or singles.

    ``apart`` holds those whose amounts cannot be added up (a bunch and a weight): one sum for each kind.
    """

    occasion: Occasion
    demands: tuple[DishDemand, ...]
    batches: Mapping[str, Batch]
    needs: Mapping[str, Amount]
    apart: Mapping[str, tuple[Amount, ...]] = field(default_factory=dict)


@frozen
class Printed:
    """An amount rounded once for print. ``moved`` is true where rounding moved it beyond its tolerance."""

    amount: Amount
    moved: bool = False


class Answer(Enum):
    """What is known of a substance in a dish, most dangerous first."""

    CONTAINS = "contains"
    UNDECLARED = "undeclared"
    MAY = "may contain"
    FREE = "free"


@frozen
class Finding:
    """The answer for one column. ``substances`` are named; ``media`` and ``items`` say through what or by whom.

    ``substances`` are printed names; ``media``, ``items`` (pantry ids) and ``without`` (items of elements) are ids.
    ``also_may`` names what a cell that answers otherwise may contain besides, ``also_media`` through what.
    ``partly`` (``also_partly``) is true where only some of it comes through the media. ``without`` is the elements
    that, left off, make it free (computed; () where that does not help). ``instead`` is set where alternatives make it
    free: every item that must go, with what is served instead, None where it is left off.
    """

    answer: Answer
    substances: tuple[str, ...] = ()
    also_may: tuple[str, ...] = ()
    media: tuple[str, ...] = ()
    partly: bool = False
    also_media: tuple[str, ...] = ()
    also_partly: bool = False
    items: tuple[str, ...] = ()
    without: tuple[str, ...] = ()
    instead: tuple[tuple[str, str | None], ...] = ()


@frozen
class Column:
    """One column of the matrix: a declarable group of the house's lists, or one of its own avoidances.

    ``lists`` names the lists it is on, where not all of the house's have it and the name does not say so. ``diet`` is
    the question about diet that it asks instead, by its id.
    """

    id: str
    name: str
    substances: tuple[str, ...]
    own: bool = False
    lists: tuple[str, ...] = ()
    diet: str = ""


@frozen
class PartFindings:
    """The answers for one thing on a plate by column id, contacts at pick-up included.

    ``item`` is an element's or alternative's; '' is all that touches the dish and is no element. ``instead_of`` is the
    element's item that an alternative may come instead of, '' for an element. ``undeclared`` are pantry items.
    """

    item: str
    findings: Mapping[str, Finding]
    instead_of: str = ""
    undeclared: tuple[str, ...] = ()


@frozen
class AllergenTable:
    """Answers by dish id (or component id) and column id, for one menu.

    ``dishes`` are in menu order; ``components`` are all of the house. ``undeclared`` names, by dish or component id,
    every pantry item without a declaration that is in it or may have met it, whatever its cells answer. ``served``
    are the ids of the components that the menu needs. ``aged`` are the pantry items whose declaration is older than the
    house allows on the day of print; () where no day was given. ``parts`` are what each dish is made up of: its
    elements, each followed by its alternatives, then what touches it.
    """

    menu: str
    served: tuple[str, ...]
    columns: tuple[Column, ...]
    dishes: Mapping[str, Mapping[str, Finding]]
    components: Mapping[str, Mapping[str, Finding]]
    undeclared: Mapping[str, tuple[str, ...]] = field(default_factory=dict)
    aged: tuple[str, ...] = ()
    parts: Mapping[str, tuple[PartFindings, ...]] = field(default_factory=dict)
