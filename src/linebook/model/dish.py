"""A dish: what one portion carries, where it sits on the plate, and what may be left off."""

from __future__ import annotations

from collections.abc import Mapping
from datetime import date
from enum import Enum

from linebook.model.amounts import Amount, Duration, Temperature
from linebook.model.body import Body
from linebook.model.record import Record
from linebook.model.tasting import Tasting
from linebook.source.exact import Fraction
from linebook.source.frozen import frozen


class Shape(Enum):
    """How an element lies on the plate, for drawing."""

    MOUND = "mound"
    LINE = "line"
    DISC = "disc"
    PIECE = "piece"
    DOTS = "dots"
    LEAVES = "leaves"
    SWOOSH = "swoosh"
    POWDER = "powder"
    POOL = "pool"


@frozen
class Place:
    """A place on the plate seen from the guest's side; 6 o'clock is nearest the guest.

    ``clock`` is hours 0 < clock <= 12, None for the centre. How far out is the element's ``reach``.
    """

    clock: Fraction | None


@frozen
class Hold(Record):
    """How an element waits on the line: temperature, most time, and what happens after."""

    temperature: Temperature | None = None
    most: Duration | None = None
    after: str | None = None
    vessel: str | None = None


@frozen
class Alternative(Record):
    """What may be served to a guest in place of an element. ``through`` are the media it goes through itself."""

    item: str
    amount: Amount
    through: tuple[str, ...] = ()
    note: str | None = None


@frozen
class Element(Record):
    """One thing on the plate, in plating order. ``on`` names the element it is set on.

    ``size`` is length and width in mm as drawn, ``height`` how high one stands, in mm; ``reach`` is a fraction of the
    inner rim. ``raw`` is true where what is of animal origin in it is served raw or undercooked.
    """

    item: str
    amount: Amount
    places: tuple[Place, ...] = ()
    reach: Fraction | None = None
    on: str | None = None
    shape: Shape | None = None
    size: tuple[Fraction, Fraction] | None = None
    turned: Fraction | None = None
    height: Fraction | None = None
    tool: str | None = None
    hold: Hold | None = None
    through: tuple[str, ...] = ()
    leave_off: bool = False
    alternatives: tuple[Alternative, ...] = ()
    raw: bool = False
    note: str | None = None


@frozen
class Size(Record):
    """A size the dish is served in. ``amounts`` (by item) win over ``factor`` times the element's amount."""

    id: str
    name: str
    factor: Fraction = Fraction(1)
    amounts: Mapping[str, Amount]


@frozen
class PickUp(Record):
    """One strand of work from call to pass: ``takes`` minutes on the fire or in the hand, ``rests`` minutes after it.

    ``line`` works it, None for the dish's own; ``where`` is the id of its place. ``at_once`` is how many portions fill
    that place: more go in turns, and what other dishes have on it counts.
    """

    do: str
    takes: Duration
    rests: Duration | None = None
    line: str | None = None
    where: str | None = None
    at_once: int | None = None


@frozen
class Dish(Record):
    """One dish. Without ``sizes`` it is served as written, in a size whose id is ``full``.

    ``photo`` is the path of a photograph of it in the house folder. ``plain`` says in plain words what it is, for the
    guest who asks; ``cutlery`` is what is laid for it, ``shared`` whether it is set in the middle of the table.
    """

    id: str
    name: str
    line: str
    course: str
    price: Fraction | None = None
    menu_text: str | None = None
    plate: str | None = None
    warm: bool | None = None
    call: Duration | None = None
    elements: tuple[Element, ...] = ()
    also_touches: tuple[str, ...] = ()
    sizes: tuple[Size, ...] = ()
    tested: date | None = None
    photo: str | None = None
    pick_up: tuple[PickUp, ...] = ()
    plain: str | None = None
    cutlery: tuple[str, ...] = ()
    shared: bool = False
    tastings: tuple[Tasting, ...] = ()
    body: Body

    @property
    def alternatives(self) -> tuple[Alternative, ...]:
        """Return what may be served instead of its elements, in plating order."""
        return tuple(other for element in self.elements for other in element.alternatives)

    @property
    def ever_served(self) -> tuple[Element | Alternative, ...]:
        """Return its elements, then its alternatives."""
        return (*self.elements, *self.alternatives)
