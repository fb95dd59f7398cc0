"""The fields of house.yaml: what it is called, its rules and measures, lines and hours; equipment is beside it."""

from __future__ import annotations

from dataclasses import replace
from types import MappingProxyType
from typing import Final

from linebook.model.house import AllergenPolicy, HouseFile, Line, Service
from linebook.model.limits import RULE_SETS
from linebook.model.units import CUPS, METRIC_ONLY, PINTS, SPOONS, Measures
from linebook.read import values as v
from linebook.read.dish_fields import name_from_id
from linebook.read.equipment_fields import INSTRUMENT, LABELS, MEDIUM, PLACE, PLATE, VESSELS
from linebook.read.fields import Choice, Field, Spans
from linebook.read.groups import Group, Values
from linebook.read.ids import ID
from linebook.read.lists import ById, ListOf, MapOf
from linebook.read.menu_fields import WEEKDAY
from linebook.read.reading import Reading
from linebook.read.supply_fields import SUPPLIER
from linebook.source.exact import Fraction
from linebook.source.spans import Span

# The ids of model.taxonomy.LISTS, written here so that reading a house need not load the taxonomy.
LISTS: Final = ("us", "eu", "uk", "ca", "anz", "codex")

LANGUAGES: Final = ("en", "es")
ALSO_COLUMNS: Final = (
    *("raw", "alcohol", "vegetarian", "vegan", "pescatarian", "meat", "poultry", "beef", "lamb", "pork", "game"),
    *("gelatine", "animal-rennet", "insect", "unpasteurised", "raw-egg", "raw-fish", "raw-shellfish", "raw-meat"),
)
"""Those of ``model.diets``, and raw for all that may be raw. A test holds them against it: it is not imported here."""
MOST_LANGUAGES: Final = 2


def _words(*words: str) -> dict[str, object]:
    return {word: word for word in words}


def _measures(*, span: Span, spans: Spans, cup: str = "", spoon: str = "", pint: str = "") -> Measures:
    del span, spans
    return Measures(cup=cup or None, spoon=spoon or None, pint=pint or None)


MEASURES: Final = Group(
    name="the measures",
    record=_measures,
    fields=(
        Field(
            name="cup",
            type=Choice(words="a cup", values=_words(*CUPS)),
            doc="Which cup: us 236.6 ml, metric 250 ml, label 240 ml",
            example="us",
        ),
        Field(
            name="spoon",
            type=Choice(words="a spoon", values=_words(*SPOONS)),
            doc="Which tablespoon: us 14.8 ml, metric 15 ml, australian 20 ml",
            example="metric",
        ),
        Field(
            name="pint",
            type=Choice(words="a pint", values=_words(*PINTS)),
            doc="Which pint, quart, gallon and fluid ounce: us 473 ml, imperial 568 ml a pint",
            example="imperial",
        ),
    ),
)

LINE: Final = Group(
    name="a line",
    names="lines",
    record=Line,
    settle=name_from_id,
    fields=(
        Field(
            name="name", type=v.SHORT_TEXT, default="the id, with spaces", doc="Its name as printed", example="Larder"
        ),
        Field(name="cooks", type=v.whole(0, 1000), default="1", doc="How many cooks work on it", example="2"),
        Field(name="set_up", type=v.TIME, doc="When it must be set up", example="16:30"),
    ),
)


def _settle_service(values: Values, reading: Reading, spans: Spans, span: Span) -> bool:
    del reading, span
    if "staffed" in values:
        values["staffed_from"], values["staffed_to"] = values.pop("staffed")
        spans["staffed_from"] = spans["staffed_to"] = spans["staffed"]
    return True


SERVICE: Final = Group(
    name="the service",
    record=Service,
    settle=_settle_service,
    fields=(
        Field(
            name="days",
            type=ListOf(item=WEEKDAY, single=True, least=1, words="a list of days"),
            required=True,
            doc="The days of service",
            example="[tue, wed, thu, fri, sat]",
        ),
        Field(name="doors", type=v.TIME, doc="When the first guests sit down", example="17:30"),
        Field(name="last_seating", type=v.TIME, doc="When the last guests sit down", example="21:00"),
        Field(
            name="staffed",
            type=v.CLOCK_RANGE,
            doc="From when to when someone is in the building; what goes over midnight to doors in the morning begins "
            "the evening before",
            example="10:00 to 23:30",
        ),
        Field(
            name="closed",
            type=ListOf(item=v.DATE, single=True, words="a list of dates"),
            doc="Single days without service",
            example="[2027-03-16]",
        ),
        Field(
            name="prep",
            type=MapOf(key=WEEKDAY, value=v.CLOCK_RANGE, words="days and the hours of each"),
            doc="Days without service on which somebody prepares, and from when to when",
            example="{mon: 10:00 to 16:00}",
        ),
    ),
)

ALLERGENS: Final = Group(
    name="the allergen policy",
    record=AllergenPolicy,
    fields=(
        Field(
            name="lists",
            type=ListOf(
                item=Choice(words="an allergen list", values=_words(*LISTS), code="LB405"),
                single=True,
                least=1,
                words="a list of allergen lists",
            ),
            required=True,
            doc="Which lists the matrix shows: us, eu, uk, ca, anz, codex",
            example="[uk]",
        ),
        Field(
            name="avoid",
            type=MapOf(key=ID, value=v.SHORT_TEXT, words="ids and a printed name for each"),
            absent=MappingProxyType({}),
            default="none",
            doc="What the house tracks beside the lists: an id, which pantry items declare, and its printed name",
            example="{honey: honey}",
        ),
        Field(
            name="older_than",
            type=v.DURATION,
            doc="How old a declaration may be before it is marked",
            example="365 d",
        ),
        Field(
            name="also",
            type=ListOf(
                item=Choice(words="a column beside the allergens", values=_words(*ALSO_COLUMNS)),
                single=True,
                words="a list of columns beside the allergens",
            ),
            default="none",
            doc="Columns of the matrix beside the allergens: diets, and raw for all animal food that is not cooked",
            example="[vegetarian, pork, alcohol, raw]",
        ),
    ),
)


def _settle_house(values: Values, reading: Reading, spans: Spans, span: Span) -> bool:
    """A vessel is also a measure: ``2 third-pan-100`` is what two of them hold."""
    del span
    measures: Measures = values.get("measures", METRIC_ONLY)
    holding = {vessel.id: vessel.holds for vessel in values.get("vessels", ()) if vessel.holds is not None}
    values["measures"] = replace(measures, vessels=MappingProxyType(holding))
    _settle_languages(values, reading, spans)
    return True


def _settle_languages(values: Values, reading: Reading, spans: Spans) -> None:
    """Report a language named twice and a third one, each at its place."""
    kept: list[str] = []
    for place, language in enumerate(values.get("languages", ())):
        span = spans[f"languages.{place}"]
        if language in kept:
            reading.report("LB102", f"`{language}` is in `languages` already", span, "keep one of the two")
        elif len(kept) == MOST_LANGUAGES:
            message = f"`{language}` is a third language, and a sheet has room for {MOST_LANGUAGES}"
            reading.report("LB110", message, span, f"write `languages: [{', '.join(kept)}]`")
        else:
            kept.append(language)


_WHO_AND_HOW: Final = (
    Field(name="name", type=v.SHORT_TEXT, required=True, doc="The name of the house", example="Harrow Weir"),
    Field(
        name="rules",
        type=Choice(words="a set of rules", values=_words(*RULE_SETS)),
        required=True,
        doc="Which food-safety rules the limits on the cards come from",
        example="FDA Food Code 2022",
    ),
    Field(name="currency", type=v.SHORT_TEXT, default="none printed", doc="The sign of the currency", example="£"),
    Field(
        name="temperatures",
        type=Choice(
            words="`°C` or `°F`", values={"°C": False, "°F": True}, also={"C": False, "F": True, "℃": False, "℉": True}
        ),
        attribute="fahrenheit",
        default="°C",
        doc="How limits are printed",
        example="°F",
    ),
    Field(
        name="measures",
        type=MEASURES,
        doc="Which cup, spoon and pint the specs mean",
        example="{cup: us, spoon: metric, pint: imperial}",
    ),
    Field(
        name="nights",
        type=ListOf(item=v.whole(1), single=True, words="a list of covers"),
        default="none",
        doc="The house's standard nights, in covers; each is a column of the batch cards",
        example="[80, 110, 150]",
    ),
    Field(
        name="tolerance",
        type=v.part(most=Fraction(1, 4)),
        default="1 %",
        doc="How far rounding for print may move an amount before the card says so",
        example="1 %",
    ),
    Field(
        name="line_up_portions",
        type=v.whole(0, 100),
        default="0",
        doc="Portions of each dish plated for the tasting before service, added to what is made",
        example="1",
    ),
    Field(
        name="paper",
        type=Choice(words="`a4` or `letter`", values=_words("a4", "letter"), also={"A4": "a4", "Letter": "letter"}),
        default="a4",
        doc="The paper it prints on",
        example="letter",
    ),
    Field(
        name="duplex",
        type=v.YES_NO,
        default="no",
        doc="Whether it prints on both sides; then every sheet starts on a right-hand page",
        example="yes",
    ),
    Field(
        name="ink",
        type=Choice(
            words="an ink", values=_words("colour", "grey", "saving"), also={"color": "colour", "gray": "grey"}
        ),
        default="colour",
        doc="How it prints: colour; grey, without any colour; saving, with outlines in place of filled areas",
        example="grey",
    ),
    Field(
        name="units",
        type=Choice(words="a system", values=_words("as written", "metric", "us", "both")),
        default="as written",
        doc="The system amounts are printed in; `both` prints the other one beside what is written",
        example="metric",
    ),
    Field(name="theme", type=ID, default="the usual one", doc="The theme its pages are set in", example="towpath"),
    Field(
        name="languages",
        type=ListOf(
            item=Choice(words="a language", values=_words(*LANGUAGES)),
            single=True,
            least=1,
            words="one or two languages",
        ),
        default="en",
        doc="The language it prints in: en or es; of two, the first is the main one",
        example="[en, es]",
    ),
    Field(
        name="allergens",
        type=ALLERGENS,
        required=True,
        doc="Which allergens are shown",
        example="{lists: [uk]}",
    ),
)

_WHERE_AND_WITH_WHAT: Final = (
    Field(
        name="lines",
        type=ById(group=LINE, words="ids of lines", least=1),
        required=True,
        doc="The lines of the kitchen, in the order of the binders",
        example="{larder: {name: Larder, cooks: 2, set_up: 16:30}}",
    ),
    Field(
        name="service", type=SERVICE, doc="The service week and its hours", example="{days: [fri, sat], doors: 17:30}"
    ),
    Field(
        name="vessels",
        type=VESSELS,
        doc="Pots, trays and pans",
        example="{third-pan-100: {name: third pan 100 deep, holds: 3.5 L}}",
    ),
    Field(
        name="places",
        type=ById(group=PLACE, words="ids of places"),
        doc="Where stages happen",
        example="{walk-in: {name: walk-in, climate: cold, at: 3 °C}}",
    ),
    Field(
        name="media",
        type=ById(group=MEDIUM, words="ids of shared media"),
        doc="Fryers, boilers, grills and slicers that several foods go through",
        example="{fryer: {name: shared fryer, carries: [frying-oil], changed_between: no}}",
    ),
    Field(
        name="plates",
        type=ById(group=PLATE, words="ids of plates"),
        doc="Plates, for the plating guide",
        example="{oval-30: {name: oval plate 30 cm, shape: oval, size: 30 x 22 cm, rim: 3 cm}}",
    ),
    Field(
        name="instruments",
        type=ListOf(item=INSTRUMENT, words="a list of instruments"),
        doc="Scales, jugs and spoons: amounts are rounded to what they can read",
        example="{scale: bench scale, up_to: 30 kg, reads: 5 g}",
    ),
    Field(
        name="labels",
        type=LABELS,
        doc="The label sheets it prints container labels on, by their measurements",
        example="{size: 70 x 37 mm, columns: 3, rows: 8, left: 0 mm, top: 0.5 mm}",
    ),
    Field(
        name="ceilings",
        type=MapOf(key=ID, value=v.PPM, words="active substances and the most of each"),
        doc="The most of an active substance that may go into what is cured, by the rule the house follows",
        example="{sodium-nitrite: 150 ppm}",
    ),
    Field(
        name="suppliers",
        type=ListOf(item=SUPPLIER, words="a list of suppliers"),
        doc="Who is bought from, on which days they deliver and until when they take an order",
        example="{supplier: Fell and Tarn Meats, delivers: [tue, thu], order_by: 14:00}",
    ),
)

HOUSE: Final = Group(
    name="the house", record=HouseFile, settle=_settle_house, fields=(*_WHO_AND_HOW, *_WHERE_AND_WITH_WHAT)
)
