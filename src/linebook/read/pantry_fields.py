"""The fields of a pantry item: what it contains and who says so, what it weighs, how it is bought."""

from __future__ import annotations

from collections.abc import Mapping
from types import MappingProxyType
from typing import Final

from linebook.model.amounts import Amount
from linebook.model.origins import ORIGINS
from linebook.model.pantry import Declaration, PantryItem, ParasiteExempt, Price, Season
from linebook.model.units import to_base
from linebook.read import values as v
from linebook.read.fields import Choice, Field, Spans
from linebook.read.groups import Group, Values
from linebook.read.ids import ID, SPACED_ID
from linebook.read.lists import ById, ListOf, MapOf
from linebook.read.reading import Reading
from linebook.read.supply_fields import SUBSTITUTES, YIELD_TESTS
from linebook.source.exact import Fraction
from linebook.source.spans import Span

# The ids of model.taxonomy.EXEMPTIONS, written here so that reading a pantry need not load the taxonomy.
_EXEMPT: Final = (
    "fully refined oil",
    "glucose syrup",
    "maltodextrin",
    "distillate",
    "lactitol",
    "fining of beer or wine",
    "carrier of vitamins or colour",
    "tocopherols or plant sterols",
)
_STILL_TOLD: Final = {"sulphites": "sulphites-at-10"}
"""What may be in it, where a list asks for it only above what is declared."""

_SAYS: Final = ("label", "supplier sheet", "maker's statement", "own knowledge")


def _settle_item(values: Values, reading: Reading, spans: Spans, span: Span) -> bool:
    """Weights of one become grams; money and what it buys become a price with its place."""
    del reading, span
    weighs: Mapping[str, Amount] = values["weighs"]
    values["weighs"] = MappingProxyType({word: to_base(weight) for word, weight in weighs.items()})
    if "price" in values:
        money, per = values["price"]
        values["price"] = Price(money=money, per=per, span=spans["price"], spans={})
    return True


def _settle_declaration(values: Values, reading: Reading, spans: Spans, span: Span) -> bool:
    """What is exempt may be in it all the same: a guest is told, whatever the law lets go undeclared."""
    del reading, spans, span
    quiet = tuple(told for told, kept in _STILL_TOLD.items() if kept in values["contains"])
    values["may_contain"] = tuple(dict.fromkeys((*values["may_contain"], *values["exempt"], *quiet)))
    return True


DECLARATION: Final = Group(
    name="an allergen declaration",
    record=Declaration,
    settle=_settle_declaration,
    fields=(
        Field(
            name="contains",
            type=ListOf(
                item=ID, single=True, none="none", least=1, words="`none`, one substance or a list of substances"
            ),
            required=True,
            missing_code="LB403",
            doc="What it contains, or `none`",
            example="[wheat, cows-milk]",
        ),
        Field(
            name="may_contain",
            type=ListOf(item=ID, single=True, none="none", words="`none`, one substance or a list of substances"),
            absent=(),
            default="none",
            doc="What it may carry traces of",
            example="[almond]",
        ),
        Field(
            name="exempt",
            type=MapOf(
                key=ID,
                value=Choice(words="a process", values={word: word for word in _EXEMPT}),
                words="substances and the process that makes each exempt",
            ),
            absent=MappingProxyType({}),
            default="none",
            doc="What it is made from that a list lets go undeclared, and by which process; counted as may contain",
            example="{soy: fully refined oil}",
        ),
        Field(
            name="says",
            type=Choice(
                words="who says so",
                values={source: source for source in _SAYS},
                also={"maker’s statement": "maker's statement"},
            ),
            required=True,
            missing_code="LB403",
            doc="Who says so",
            example="supplier sheet",
        ),
        Field(
            name="since",
            type=v.DATE,
            required=True,
            missing_code="LB403",
            doc="The date of that word",
            example="2026-11-02",
        ),
    ),
)

SEASON: Final = Group(
    name="a season",
    record=Season,
    fields=(
        Field(name="first", type=v.DATE, required=True, doc="The first day it can be bought", example="2027-02-01"),
        Field(name="last", type=v.DATE, required=True, doc="The last day it can be bought", example="2027-04-15"),
    ),
)

_WHAT_IT_IS: Final = (
    Field(name="name", type=v.SHORT_TEXT, required=True, doc="Its name as printed", example="beef short rib, bone in"),
    Field(
        name="allergens",
        type=DECLARATION,
        default="undeclared, and so is every dish that carries it",
        doc="What it contains, who says so and since when",
        example="{contains: none, says: supplier sheet, since: 2026-11-02}",
    ),
    Field(
        name="origin",
        type=ListOf(
            item=Choice(words="an origin", values={word: word for word in ORIGINS}, code="LB408"),
            single=True,
            least=1,
            words="an origin or a list of origins",
        ),
        default="not known, and so is every question about diet",
        doc="All it comes from, down to gelatine and rennet",
        example="[milk, rennet-vegetable]",
    ),
    Field(
        name="unpasteurised",
        type=v.YES_NO,
        default="not known, where it is of milk, egg, honey or juice",
        doc="Whether it has not been pasteurised",
        example="no",
    ),
    Field(
        name="one_food",
        type=v.YES_NO,
        default="no",
        doc="Whether nothing else is in it: salt, a leek, milk",
        example="yes",
    ),
    Field(name="density", type=v.DENSITY, doc="Weight of a volume of it", example="1.03 kg/L"),
    Field(
        name="weighs",
        type=MapOf(key=v.COUNT_WORD, value=v.WEIGHT, words="count words and a weight for each"),
        absent=MappingProxyType({}),
        doc="Weight of one, for each word it is counted in",
        example="{leaf: 2.5 g, each: 45 g}",
    ),
    Field(
        name="usable",
        type=v.part(most=Fraction(1), zero=False),
        default="100 %",
        doc="The edible part of the bought weight",
        example="72 %",
    ),
    YIELD_TESTS,
    SUBSTITUTES,
    Field(
        name="also_called",
        type=ListOf(item=v.SHORT_TEXT, single=True, words="a name or a list of names"),
        doc="Other names a method may call it by",
        example="[short ribs]",
    ),
    Field(
        name="weigh_exactly",
        type=v.YES_NO,
        default="no",
        doc="Curing salts and their like: never rounded away, held back or replaced",
        example="yes",
    ),
    Field(
        name="strength",
        type=MapOf(
            key=ID, value=v.part(most=Fraction(1), zero=False), words="active substances and a percentage for each"
        ),
        doc="The part of each active substance in a curing salt or its like",
        example="{sodium-nitrite: 0.6 %}",
    ),
    Field(
        name="dilute_in",
        type=ID,
        doc="The item in which an amount too small to weigh is dissolved first",
        example="water",
    ),
)

_HOW_IT_IS_BOUGHT: Final = (
    Field(name="pack", type=v.AMOUNT, doc="What it is bought in", example="10 kg"),
    Field(name="price", type=v.PRICE, doc="What it costs, in the house's currency", example="14.50 per kg"),
    Field(name="supplier", type=v.SHORT_TEXT, doc="Who it is bought from", example="Fell and Tarn Meats"),
    Field(name="lead", type=v.DURATION, doc="Time from order to delivery", example="2 d"),
    Field(name="season", type=SEASON, doc="When it can be bought", example="{first: 2027-02-01, last: 2027-04-15}"),
    Field(
        name="parasite_exempt",
        type=Choice(words="why", values={reason.value: reason for reason in ParasiteExempt}),
        default="it is frozen here before it is served raw",
        doc="Why this fish needs no freezing before it is served raw, as the supplier states in writing",
        example="farmed",
    ),
    Field(name="kept", type=SPACED_ID, doc="Id of the place it is kept in", example="walk-in"),
    Field(name="note", type=v.TEXT, doc="Anything the purchaser should know", example="ask for the thick end"),
)

PANTRY_ITEM: Final = Group(
    name="a pantry item",
    names="pantry items",
    record=PantryItem,
    settle=_settle_item,
    fields=(*_WHAT_IT_IS, *_HOW_IT_IS_BOUGHT),
)

PANTRY: Final = ById(group=PANTRY_ITEM, words="pantry ids")
PANTRY_FILE: Final = Field(name="pantry", type=PANTRY, doc="Pantry items by id", example="fine-salt: {name: fine salt}")
