"""The fields of a component: ingredients, stages, by-products, storage."""

from __future__ import annotations

from dataclasses import replace
from typing import Final

from linebook.model.amounts import Kind, Percent
from linebook.model.component import (
    Attended,
    ByProduct,
    Component,
    Growth,
    Ingredient,
    KeptBy,
    Limit,
    Scale,
    Stage,
    Store,
)
from linebook.read import values as v
from linebook.read.cut_fields import CUT
from linebook.read.fields import Choice, Field, Spans
from linebook.read.groups import Group, Values
from linebook.read.ids import ID, SPACED_ID
from linebook.read.lists import ListOf
from linebook.read.reading import Reading
from linebook.read.supply_fields import SUBSTITUTES
from linebook.read.tasting_fields import TASTINGS
from linebook.source.exact import Fraction
from linebook.source.spans import Span

IDS: Final = ListOf(item=ID, single=True, words="one id or a list of ids")
MEDIA: Final = ListOf(item=SPACED_ID, single=True, words="one shared medium or a list of them")


def _settle_ingredient(values: Values, reading: Reading, spans: Spans, span: Span) -> bool:
    """Put ``of`` into the percentage it belongs to."""
    del span
    of = values.pop("of", None)
    amount = values["amount"]
    if isinstance(amount, Percent):
        if "of" not in spans:
            message = f"a percentage of `{values['item']}` does not say of what"
            reading.report("LB107", message, spans["amount"], "add `of:` and an item of this card, or `of: batch`")
            return False
        if of is None:
            return False
        values["amount"] = replace(amount, of=of)
    elif of is not None:
        message = f"`of` stands only beside a percentage, and `{spans['amount'].text}` is none"
        reading.report(
            "LB106", message, spans["of"], "delete `of`, or write the amount as a percentage such as `1.8 %`"
        )
    return True


INGREDIENT: Final = Group(
    name="an ingredient",
    names="ingredients",
    head="item",
    record=Ingredient,
    settle=_settle_ingredient,
    fields=(
        Field(
            name="item",
            type=ID,
            required=True,
            doc="Id of a pantry item, a component or a by-product",
            example="beef-short-rib",
        ),
        Field(
            name="amount",
            type=v.INGREDIENT_AMOUNT,
            required=True,
            doc="How much goes in for the amount this card makes: an amount, a percentage or `to taste`",
            example="14 kg",
        ),
        Field(
            name="of",
            type=IDS,
            doc="With a percentage: the item it is of, a list of items, or `batch` for all that is weighed",
            example="beef-short-rib",
        ),
        Field(name="prep", type=v.SHORT_TEXT, doc="How it is cut or prepared first", example="trimmed of silverskin"),
        Field(
            name="weigh",
            type=Choice(words="`before` or `after`", values={"before": True, "after": False}),
            attribute="weigh_before",
            default="after",
            doc="Whether the amount is weighed before or after the prep",
            example="before",
        ),
        Field(name="stage", type=v.SHORT_TEXT, doc="The stage it goes in at", example="brine"),
        Field(
            name="medium",
            type=v.YES_NO,
            default="no",
            doc="Strained out or thrown away, as brine or frying oil are; its allergens stay",
            example="yes",
        ),
        Field(
            name="scale",
            type=Choice(words="a way to scale", values={scale.value: scale for scale in Scale}),
            default="linear",
            doc="How it grows: with the amount, in whole numbers, once a load, or held back to be tasted",
            example="whole",
        ),
        Field(
            name="first",
            type=v.part(below=Fraction(1), zero=False),
            default="75 %",
            doc="With `scale: held back`: the part that goes in before tasting",
            example="80 %",
        ),
        Field(
            name="note", type=v.TEXT, doc="A line for the cook, printed beside it", example="the firmest you can get"
        ),
    ),
)

BY_PRODUCT: Final = Group(
    name="a by-product",
    names="by-products",
    head="item",
    record=ByProduct,
    defines=True,
    fields=(
        Field(name="item", type=ID, required=True, doc="Id that other cards use it by", example="beef-trim"),
        Field(name="name", type=v.SHORT_TEXT, required=True, doc="Its name as printed", example="beef trim"),
        Field(name="amount", type=v.AMOUNT, required=True, doc="How much a batch leaves", example="900 g"),
        Field(
            name="from",
            type=ID,
            attribute="source",
            doc="The ingredient it comes from",
            default="everything on the card",
            example="beef-short-rib",
        ),
        Field(name="after", type=v.SHORT_TEXT, doc="The stage it leaves at", default="the last stage", example="brine"),
        Field(
            name="keeps",
            type=v.DURATION,
            doc="How long it keeps for another card; day 1 is the day it leaves. Its label says so",
            example="2 d",
        ),
    ),
)

STAGE: Final = Group(
    name="a stage",
    names="stages",
    head="stage",
    record=Stage,
    fields=(
        Field(
            name="stage",
            type=v.SHORT_TEXT,
            attribute="name",
            required=True,
            doc="Its name, the same as its `##` heading in the method",
            example="smoke",
        ),
        Field(name="hands_on", type=v.DURATION_RANGE, doc="Work with the hands", example="20 min"),
        Field(name="unattended", type=v.DURATION_RANGE, doc="Time it works by itself", example="7 h to 9 h"),
        Field(
            name="finish",
            type=v.DURATION_RANGE,
            doc="Work at the end: lift out, probe, start cooling",
            example="15 min",
        ),
        Field(
            name="may_hold",
            type=v.DURATION,
            default="as long as it must in the cold, 2 h at room temperature, 30 min out of the heat",
            doc="How long it may wait before the next stage",
            example="2 h",
        ),
        Field(name="where", type=SPACED_ID, doc="Id of a place in house.yaml", example="smoker"),
        Field(name="vessel", type=SPACED_ID, doc="Id of a vessel in house.yaml", example="gn-rack"),
        Field(
            name="fill",
            type=v.part(most=Fraction(1), zero=False),
            default="the fill of the vessel",
            doc="The part of the vessel that is used at this stage",
            example="60 %",
        ),
        Field(name="heat", type=v.TEMPERATURE, doc="Temperature of the oven, oil or water", example="105 °C"),
        Field(name="until", type=v.TEMPERATURE, doc="Temperature inside that ends the stage", example="93 °C"),
        Field(
            name="limit",
            type=Choice(words="a limit", values={limit.value: limit for limit in Limit}),
            doc="The food-safety limit the stage must meet; its figures come from the house's rules",
            example="cool",
        ),
        Field(
            name="attended",
            type=Choice(
                words="a way to attend", values={way.value: way for way in Attended}, also={"true": Attended.YES}
            ),
            doc="Who must be near while it works by itself",
            example="someone in the building",
        ),
        Field(name="through", type=MEDIA, absent=(), doc="Shared media it goes through", example="fryer"),
        Field(name="at_most", type=v.AMOUNT, doc="The most that this stage takes in one load", example="28 kg"),
        Field(
            name="of",
            type=IDS,
            absent=(),
            default="all that is in it then",
            doc="The ingredients that `at_most` counts",
            example="beef-short-rib",
        ),
        Field(
            name="work",
            type=Choice(words="a way to grow", values={"same": Growth.SAME, "grows": Growth.GROWS}),
            default="same",
            doc="Whether the work with the hands grows with the load, or is the same for every load",
            example="grows",
        ),
        Field(
            name="time",
            type=Choice(words="a way to grow", values={growth.value: growth for growth in Growth}),
            default="same",
            doc="What a larger load does to the time it works by itself; `judge` leaves it to the cook",
            example="judge",
        ),
        Field(
            name="sets_date",
            type=v.YES_NO,
            default="no",
            doc="Whether `keeps` counts anew from here, as your food-safety plan allows: a cure, a ferment",
            example="yes",
        ),
    ),
)

STORE: Final = Group(
    name="a store",
    record=Store,
    fields=(
        Field(name="at", type=v.TEMPERATURE, attribute="temperature", doc="Storage temperature", example="3 °C"),
        Field(
            name="in", type=SPACED_ID, attribute="vessel", doc="Id of the vessel it waits in", example="third-pan-100"
        ),
        Field(name="where", type=SPACED_ID, attribute="place", doc="Id of the place it waits in", example="walk-in"),
    ),
)

_WHAT_IT_IS: Final = (
    Field(name="name", type=v.SHORT_TEXT, required=True, doc="Its name as printed", example="Smoked short rib, glazed"),
    Field(name="line", type=SPACED_ID, required=True, doc="Id of the line that makes it", example="hearth"),
    Field(
        name="sort",
        type=v.SHORT_TEXT,
        doc="What sort of preparation it is: sauce, dough, cure, pickle",
        example="braise",
    ),
    Field(
        name="makes",
        type=v.AMOUNT,
        required=True,
        doc="Usable yield of the batch as written, as it leaves the last stage",
        example="9 kg",
    ),
    Field(name="pieces", type=v.number(zero=False), doc="The same yield, counted", example="60"),
    Field(
        name="piece_weighs",
        type=v.amount(Kind.MASS, Kind.VOLUME),
        doc="What one piece weighs; checked against `makes` and `pieces`",
        example="150 g",
    ),
    Field(
        name="largest_batch",
        type=v.AMOUNT,
        doc="The most that can be made at once; more is split into even loads",
        example="18 kg",
    ),
    Field(
        name="smallest_batch",
        type=v.AMOUNT,
        doc="The least that can be made well; what is over is kept or thrown away",
        example="1.5 kg",
    ),
    Field(
        name="batch_step",
        type=v.AMOUNT,
        doc="What it is made in whole ones of: a tray, a mould, a loaf",
        example="2.4 kg",
    ),
    Field(
        name="cut",
        type=CUT,
        doc="How a block or tray is cut into the pieces",
        example="{block: 390 x 290 mm, piece: 60 x 40 mm, edges: 5 mm}",
    ),
    Field(name="density", type=v.DENSITY, doc="Weight of a volume of it", example="1.05 kg/L"),
    Field(
        name="loss",
        type=v.part(below=Fraction(1)),
        default="0 %",
        doc="The part of what is made that never reaches a plate",
        example="4 %",
    ),
)

_HOW_IT_KEEPS: Final = (
    Field(
        name="keeps",
        type=v.DURATION,
        doc="How long it keeps; days count dates, day 1 being the day it is made",
        example="4 d",
    ),
    Field(
        name="kept_by",
        type=Choice(words="what keeps it", values={way.value: way for way in KeptBy}),
        default="the cold alone",
        doc=(
            "What keeps it beside the cold, where the food-safety plan says so: its date is its own, and it gives none "
            "to what it goes into"
        ),
        example="acid",
    ),
    Field(name="store", type=STORE, doc="How it is stored", example="{at: 3 °C, in: third-pan-100, where: walk-in}"),
    Field(
        name="make",
        type=Choice(words="`ahead` or `daily`", values={"ahead": False, "daily": True}),
        attribute="make_daily",
        default="ahead",
        doc="Made ahead in the fewest batches, or made new each day",
        example="daily",
    ),
    Field(name="fresh_within", type=v.DURATION, doc="Made at most this long before service", example="4 h"),
)

_WHAT_GOES_IN: Final = (
    Field(
        name="ingredients",
        type=ListOf(item=INGREDIENT, words="a list of ingredients", least=1),
        required=True,
        doc="What goes in, in order",
        example="{item: beef-short-rib, amount: 14 kg}",
    ),
    Field(name="adjust_with", type=IDS, doc="What the cook may correct the taste with", example="[cider-vinegar]"),
    Field(
        name="also_touches",
        type=IDS,
        doc="What else it meets: oil for the pan, bench flour, egg wash; inside the allergens",
        example="[frying-oil]",
    ),
    Field(
        name="raw",
        type=IDS,
        doc="Pantry items of animal origin, at any depth, that are raw or undercooked in it",
        example="[whole-egg]",
    ),
    Field(
        name="also_makes",
        type=ListOf(item=BY_PRODUCT, words="a list of by-products"),
        doc="Trim or liquor that another card uses",
        example="{item: beef-trim, name: beef trim, amount: 900 g, from: beef-short-rib}",
    ),
    Field(
        name="stages",
        type=ListOf(item=STAGE, words="a list of stages"),
        doc="The stages in order; each has a `##` heading of the same name in the method",
        example="{stage: smoke, hands_on: 20 min, unattended: 7 h to 9 h, until: 93 °C}",
    ),
    SUBSTITUTES,
    Field(
        name="tested",
        type=v.DATE,
        doc="The day it was last tested; without it the card prints *draft*",
        example="2027-01-20",
    ),
    TASTINGS,
)

COMPONENT: Final = Group(
    name="a component", names="components", record=Component, fields=(*_WHAT_IT_IS, *_HOW_IT_KEEPS, *_WHAT_GOES_IN)
)
