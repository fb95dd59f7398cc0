"""A prepared component: what a batch makes, from what, in which stages, and how long it keeps."""

from __future__ import annotations

from datetime import date
from enum import Enum

from linebook.model.amounts import Amount, Duration, IngredientAmount, Temperature
from linebook.model.body import Body
from linebook.model.record import Record
from linebook.model.supply import Substitute
from linebook.model.tasting import Tasting
from linebook.source.exact import Fraction
from linebook.source.frozen import frozen


class Scale(Enum):
    """How an ingredient grows with the batch."""

    LINEAR = "linear"
    WHOLE = "whole"
    PER_LOAD = "per load"
    HELD_BACK = "held back"


class Growth(Enum):
    """What a larger load does to the time of a stage."""

    SAME = "same"
    GROWS = "grows"
    JUDGE = "judge"


class Attended(Enum):
    """Who must be near while a stage works by itself."""

    YES = "yes"
    BUILDING = "someone in the building"
    LEFT = "may be left"


class Limit(Enum):
    """The food-safety rule a stage must meet; the figures come from the house's rule set."""

    COOK = "cook"
    COOL = "cool"
    HOLD = "hold"
    REHEAT = "reheat"
    FREEZE = "freeze for raw"
    TIME = "time as control"
    PACKED = "packed without air"
    ACIDIFY = "acidify"
    OIL = "kept under oil"


class KeptBy(Enum):
    """What keeps a food beside the cold, where the house's food-safety plan says so."""

    ACID = "acid"
    DRY = "dry"
    CURED = "cured"
    RAW = "raw"
    PLAN = "own plan"


@frozen
class Ingredient(Record):
    """One line of a batch. ``stage`` is where it goes in; ``medium`` is strained out or thrown away.

    ``first`` is the part that goes in at once where it is held back, 0 < first < 1. ``prep_as_for`` is the item whose
    prep this is, where another stands in for it and does not say how it is prepared itself.
    """

    item: str
    amount: IngredientAmount
    prep: str | None = None
    prep_as_for: str | None = None
    stage: str | None = None
    medium: bool = False
    scale: Scale = Scale.LINEAR
    first: Fraction | None = None
    weigh_before: bool = False
    note: str | None = None


@frozen
class ByProduct(Record):
    """Trim or liquor another component uses.

    It carries the allergens of ``source`` alone (an ingredient of this card) only where ``after`` names
    the stage it leaves at and nothing else has gone in by then; else it inherits all its parent's. ``keeps`` counts
    from when it leaves.
    """

    item: str
    name: str
    amount: Amount
    source: str | None = None
    after: str | None = None
    keeps: Duration | None = None


@frozen
class Stage(Record):
    """One stage, in order. Times are minutes; ``vessel`` and ``where`` are ids of the house.

    ``at_most`` is what one load of it may be, counted in the ingredients ``of`` (ids of this card; () is all that is in
    the vessel then). ``work`` is what a larger load does to the hands-on times, ``time`` to the unattended.
    ``sets_date`` is true where its keeping time counts anew, whatever that of what went in.
    """

    name: str
    hands_on: Duration | None = None
    unattended: Duration | None = None
    finish: Duration | None = None
    may_hold: Duration | None = None
    where: str | None = None
    vessel: str | None = None
    fill: Fraction | None = None
    heat: Temperature | None = None
    until: Temperature | None = None
    limit: Limit | None = None
    attended: Attended | None = None
    through: tuple[str, ...] = ()
    at_most: Amount | None = None
    of: tuple[str, ...] = ()
    work: Growth = Growth.SAME
    time: Growth = Growth.SAME
    sets_date: bool = False


@frozen
class Cut(Record):
    """How a block, slab or tray is cut into pieces: lengths in mm.

    ``block`` is one block as it comes, ``piece`` one piece; ``edges`` is squared off on every side, its own cut
    included, and ``kerf`` is lost to each cut after that. ``blocks`` is how many the spec's batch makes; ``turned``
    lets pieces lie the other way round.
    """

    block: tuple[Fraction, Fraction]
    piece: tuple[Fraction, Fraction]
    kerf: Fraction = Fraction(0)
    edges: Fraction = Fraction(0)
    blocks: int = 1
    turned: bool = False


@frozen
class Store(Record):
    """Where a component waits: temperature and vessel."""

    temperature: Temperature | None = None
    vessel: str | None = None
    place: str | None = None


@frozen
class Component(Record):
    """One prepared component. ``makes`` is usable yield as it leaves the last stage.

    ``largest_batch`` is the most that is made in one load, ``smallest_batch`` the least that can be made well, and
    ``batch_step`` what it is made in whole ones of (a tray, a mould). ``loss`` is the part of what is made that never
    reaches a plate, 0 <= loss < 1. ``kept_by`` is what keeps it beside the cold. ``raw`` names the pantry items
    of animal origin that are raw or undercooked in it.
    """

    id: str
    name: str
    line: str
    sort: str | None = None
    makes: Amount
    pieces: Fraction | None = None
    piece_weighs: Amount | None = None
    largest_batch: Amount | None = None
    smallest_batch: Amount | None = None
    batch_step: Amount | None = None
    cut: Cut | None = None
    density: Fraction | None = None
    loss: Fraction = Fraction(0)
    keeps: Duration | None = None
    kept_by: KeptBy | None = None
    store: Store | None = None
    make_daily: bool = False
    fresh_within: Duration | None = None
    ingredients: tuple[Ingredient, ...] = ()
    adjust_with: tuple[str, ...] = ()
    also_touches: tuple[str, ...] = ()
    raw: tuple[str, ...] = ()
    also_makes: tuple[ByProduct, ...] = ()
    stages: tuple[Stage, ...] = ()
    substitutes: tuple[Substitute, ...] = ()
    tested: date | None = None
    tastings: tuple[Tasting, ...] = ()
    body: Body
