"""What the computations give: exact figures for one occasion, with nothing rounded for print."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import field
from datetime import date
from enum import Enum

from linebook.model.amounts import Amount
from linebook.model.component import Component, Ingredient
from linebook.model.occasion import Occasion
from linebook.model.supply import StockEntry
from linebook.source.exact import Fraction
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

    ``base`` is all of the spec's batch, ``load`` one load, ``total`` all loads, of which there are ``loads``: those of
    the stage it goes in at. ``rate`` is grams a kilogram for a percentage. ``unrounded`` is set for a line in whole
    counts: a load before it was made one. ``of`` are the lines that a percentage is of, and ``cured`` is true of
    what a percentage that must be weighed exactly is of: its own figure is held as close as a scale can. ``room`` is
    how many times as much it may be before an active substance in it is over the house's ceiling, None for no ceiling.
    """

    ingredient: Ingredient
    base: Amount | None
    load: Amount | None
    total: Amount | None
    rate: Fraction | None = None
    unrounded: Amount | None = None
    loads: int = 1
    of: tuple[PercentBase, ...] = ()
    cured: bool = False
    room: Fraction | None = None


@frozen
class PercentBase:
    """A line that another is a percentage of, and what all loads of it weigh; ``exact`` where it is weighed exactly."""

    line: BatchIngredient
    grams: Fraction
    exact: bool = False


@frozen
class Batch:
    """One component made for one occasion. ``total`` is in the unit of ``makes``; ``pieces`` its count,

    whole for a night, exact where a size was asked for. ``loads`` are those of the whole component, ``load`` its yield
    in one of them; ``stage_loads`` are how many loads each of its stages takes, in the order of the stages.

    Where it is made for a night ``needed`` is all that the night takes, loss included, ``on_hand`` what stock gives of
    it (None where there is none), and ``surplus`` what is made beyond both; all in the unit of ``makes``. All three
    are None where a size was asked for.
    """

    component: Component
    total: Amount
    pieces: Fraction | None
    factor: Fraction
    loads: int
    load: Amount
    ingredients: tuple[BatchIngredient, ...]
    uses: tuple[Use, ...] = ()
    stage_loads: tuple[int, ...] = ()
    needed: Amount | None = None
    on_hand: Amount | None = None
    surplus: Amount | None = None


class Standing(Enum):
    """How what there is of a by-product stands against what is needed; APART where the two cannot be compared."""

    COVERED = "covered"
    SHORT = "short"
    SPARE = "spare"
    APART = "apart"


@frozen
class Balance:
    """What there is of one by-product on one night, and what is needed.

    All amounts are in one unit, that of its first card, unless it stands ``APART``; then ``made``, ``on_hand`` and
    ``needed`` are sums in units that cannot meet, and ``difference`` is nothing. ``difference`` is how much is short or
    spare. ``makers`` are components with what each leaves, ``uses`` who takes how much.
    """

    item: str
    standing: Standing
    made: Amount
    on_hand: Amount
    needed: Amount
    difference: Amount
    makers: tuple[Use, ...] = ()
    uses: tuple[Use, ...] = ()


class Uncounted(Enum):
    """Why an entry of stock does not count for a night."""

    UNDATED = "no day it was made"
    OVER = "past its life"
    NO_LIFE = "made before, and nothing says how long it keeps"
    AHEAD = "made after the service"
    UNITS = "in a unit that cannot meet what is needed"
    UNKNOWN = "nothing of the house has its id"


@frozen
class StockUse:
    """One entry of stock on one night: what of it counts and what the night takes of it, earliest last day first.

    Both amounts are in the unit that the item is made (or left over) in; of a bought item as typed. Where it does not
    count, ``counted`` and ``used`` are None and ``reason`` says why. ``last`` is the last day it may be served, None
    for a bought item without one.
    """

    entry: StockEntry
    counted: Amount | None = None
    used: Amount | None = None
    last: date | None = None
    reason: Uncounted | None = None


@frozen
class Leftover:
    """What is left of an ingredient that was had, in the unit it was had in; ``left`` is ``had`` less ``used``."""

    item: str
    had: Amount
    used: Amount
    left: Amount


@frozen
class PortionsGiven:
    """How many whole portions a batch gives, loss taken off, if all of it goes to one dish in one size.

    ``dish`` and ``size`` are None where the portion was asked for by hand.
    """

    amount: Amount
    count: int
    dish: str | None = None
    size: str | None = None


@frozen
class Sized:
    """A batch sized from what is asked or had. ``limiting`` are the ingredients that decide it, () where none was had.

    ``left`` is what remains of everything had, in the order it was given.
    """

    batch: Batch
    limiting: tuple[str, ...] = ()
    left: tuple[Leftover, ...] = ()
    portions: tuple[PortionsGiven, ...] = ()


@frozen
class Night:
    """All demand and batches of one occasion. ``needs`` holds bought items in grams, millilitres or singles.

    ``apart`` holds those whose amounts cannot be added up (a bunch and a weight): one sum for each kind. Both are what
    the night takes, before stock of bought items. ``balances`` are those of by-products that are made or needed, by
    their ids. ``stock`` is every entry of stock; none on a night without a date. ``covered`` are the needs of
    components of which enough is on hand, so that none is made. ``sized`` is how its one batch was sized, where it was
    not sized for a night.
    """

    occasion: Occasion
    demands: tuple[DishDemand, ...]
    batches: Mapping[str, Batch]
    needs: Mapping[str, Amount]
    apart: Mapping[str, tuple[Amount, ...]] = field(default_factory=dict)
    balances: Mapping[str, Balance] = field(default_factory=dict)
    stock: tuple[StockUse, ...] = ()
    covered: Mapping[str, Amount] = field(default_factory=dict)
    sized: Sized | None = None


@frozen
class Printed:
    """An amount rounded once for print. ``moved`` is true where rounding moved it beyond its tolerance.

    ``settled`` is true where it was put into the system of units that is printed, or left out of it for good reason.
    ``exactly`` is true where it must be weighed exactly, so that no figure of another system stands beside it.
    """

    amount: Amount
    moved: bool = False
    settled: bool = False
    exactly: bool = False


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
