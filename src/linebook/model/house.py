"""The house: its lines, hours, vessels, instruments and plates; and all its specs, checked."""

from __future__ import annotations

from collections.abc import Mapping
from datetime import date, time
from enum import Enum
from types import MappingProxyType
from typing import TYPE_CHECKING, Literal, TypeAlias

from linebook.model.amounts import Amount, Duration, Temperature
from linebook.model.component import ByProduct, Component
from linebook.model.dish import Dish
from linebook.model.menu import Menu
from linebook.model.pantry import PantryItem
from linebook.model.record import Record
from linebook.model.supply import Supplier
from linebook.model.units import METRIC_ONLY, Measures
from linebook.source.exact import Fraction
from linebook.source.frozen import frozen

if TYPE_CHECKING:
    from linebook.model.tonight import Tonight
    from linebook.model.translations import CardWords, HouseWords, Translations

Ink: TypeAlias = Literal["colour", "grey", "saving"]
"""What is printed with: every colour of the theme; black and its greys alone; black lines on bare paper."""

Systems: TypeAlias = Literal["as written", "metric", "us", "both"]
"""In which system weights and measures are printed: as the card is written, one of two, or both side by side."""


@frozen
class Line(Record):
    """A line of the kitchen. Its place in the house file gives the height of its band on the page edge."""

    id: str
    name: str
    cooks: int = 1
    set_up: time | None = None


@frozen
class Vessel(Record):
    """A pot, tray or pan. ``holds`` is to the brim; ``fill`` is the part of it that is used."""

    id: str
    name: str
    holds: Amount | None = None
    fill: Fraction = Fraction(1)
    count: int | None = None


class Climate(Enum):
    """How warm a place is."""

    HOT = "hot"
    ROOM = "room"
    COLD = "cold"
    FROZEN = "frozen"


@frozen
class Workplace(Record):
    """Where a stage happens: an oven, a smoker, the walk-in."""

    id: str
    name: str
    climate: Climate
    temperature: Temperature | None = None
    count: int | None = None


@frozen
class Medium(Record):
    """Something several foods go through: a fryer, a boiler, a grill, a slicer."""

    id: str
    name: str
    carries: tuple[str, ...] = ()
    changed_between: bool = False


class PlateShape(Enum):
    """The outline of a plate seen from above."""

    ROUND = "round"
    OVAL = "oval"
    SQUARE = "square"
    RECTANGLE = "rectangle"
    BOWL = "bowl"
    BOARD = "board"


@frozen
class Plate(Record):
    """A plate. ``length`` and ``width`` are mm across and deep; ``rim`` is mm from edge to inner rim."""

    id: str
    name: str
    shape: PlateShape
    length: Fraction
    width: Fraction
    rim: Fraction = Fraction(0)


class InstrumentKind(Enum):
    """What an instrument measures with."""

    SCALE = "scale"
    JUG = "jug"
    SPOON = "spoon"


@frozen
class Instrument(Record):
    """A scale, jug or spoon. ``up_to`` is the most it takes, ``reads`` its smallest readable step."""

    name: str
    kind: InstrumentKind
    up_to: Amount
    reads: Amount


@frozen
class Service(Record):
    """The service week. Days are ``mon`` … ``sun``; ``prep`` are the hours of days on which food is only prepared."""

    days: tuple[str, ...]
    doors: time | None = None
    last_seating: time | None = None
    staffed_from: time | None = None
    staffed_to: time | None = None
    closed: tuple[date, ...] = ()
    prep: Mapping[str, tuple[time, time]] = MappingProxyType({})


@frozen
class AllergenPolicy(Record):
    """Which lists the matrix shows: jurisdictions (us, eu, uk, ca, anz, codex) and the house's own avoidances.

    ``avoid`` maps an avoidance's id to its printed name; pantry items declare these ids like substances. ``also`` are
    the diets that are columns too, and ``raw`` for all animal food that is served raw or undercooked.
    """

    lists: tuple[str, ...]
    avoid: Mapping[str, str]
    older_than: Duration | None = None
    also: tuple[str, ...] = ()


@frozen
class LabelSheet(Record):
    """A sheet of labels, in mm: the size of one, how many across and down, the margins and the gaps between.

    ``paper`` is the id of its paper.
    """

    length: Fraction
    width: Fraction
    columns: int
    rows: int
    left: Fraction
    top: Fraction
    gap_beside: Fraction = Fraction(0)
    gap_below: Fraction = Fraction(0)
    paper: str = "a4"


@frozen
class HouseFile(Record):
    """All that house.yaml says. ``measures`` are its cup, spoon and pint, and what its vessels hold.

    ``units`` says in which system amounts are printed. ``ceilings`` are the most of an active substance in what is
    cured, in parts by weight. ``theme`` is empty for the usual one; ``languages`` are one or two, the first being the
    main one.
    """

    name: str
    rules: str
    currency: str = ""
    fahrenheit: bool = False
    measures: Measures = METRIC_ONLY
    nights: tuple[int, ...] = ()
    tolerance: Fraction = Fraction(1, 100)
    line_up_portions: int = 0
    paper: str = "a4"
    duplex: bool = False
    ink: Ink = "colour"
    theme: str = ""
    languages: tuple[str, ...] = ("en",)
    lines: tuple[Line, ...]
    service: Service | None = None
    allergens: AllergenPolicy
    vessels: tuple[Vessel, ...] = ()
    places: tuple[Workplace, ...] = ()
    media: tuple[Medium, ...] = ()
    plates: tuple[Plate, ...] = ()
    instruments: tuple[Instrument, ...] = ()
    suppliers: tuple[Supplier, ...] = ()
    units: Systems = "as written"
    ceilings: Mapping[str, Fraction] = MappingProxyType({})
    labels: LabelSheet | None = None


@frozen
class ParsedHouse:
    """Every record that could be read, before references are checked. ``folder`` is for people, not for opening.

    ``broken`` holds the ids that some file defines but whose record could not be read: items, lines, vessels,
    places, media, plates, courses, dishes, menus. What names one of them is not at fault. ``incomplete`` holds the
    ids of kept records of which a part could not be read (``house`` for house.yaml): nothing is reported as
    missing there. Both keep one slip to one report.

    ``translations`` and ``words`` are what was read in other languages, of all that it is ``translated`` into;
    ``at_fault`` are the paths of the files in which reading has found a fault before.
    """

    folder: str
    file: HouseFile | None
    pantry: tuple[PantryItem, ...]
    components: tuple[Component, ...]
    dishes: tuple[Dish, ...]
    menus: tuple[Menu, ...]
    broken: frozenset[str] = frozenset()
    incomplete: frozenset[str] = frozenset()
    translations: tuple[CardWords, ...] = ()
    words: tuple[HouseWords, ...] = ()
    translated: frozenset[str] = frozenset()
    at_fault: frozenset[str] = frozenset()


@frozen
class House:
    """A house without errors: every id resolves, nothing is cyclic, all needed units meet.

    ``by_products`` maps the id of a by-product to every component that makes it and its entry there. ``second`` is what
    it says in other languages, None where no file of it does. ``tonight`` is what is so tonight and not in its specs.
    """

    file: HouseFile
    pantry: Mapping[str, PantryItem]
    components: Mapping[str, Component]
    dishes: Mapping[str, Dish]
    menus: Mapping[str, Menu]
    by_products: Mapping[str, tuple[tuple[Component, ByProduct], ...]]
    second: Translations | None = None
    tonight: Tonight | None = None

    @property
    def prints_translations(self) -> bool:
        """Return whether it prints a language that its specs are not written in."""
        written = self.second.written if self.second else self.file.languages[0]
        return any(language != written for language in self.file.languages)

    def name_of(self, item: str) -> str:
        """Return the printed name of a pantry item, component, by-product or dish, of what is missing tonight too."""
        if item in self.components:
            return self.components[item].name
        if item in self.pantry:
            return self.pantry[item].name
        if item in self.by_products:
            return self.by_products[item][0][1].name
        if self.tonight is not None and item not in self.dishes:
            return self.tonight.before.name_of(item)
        return self.dishes[item].name
