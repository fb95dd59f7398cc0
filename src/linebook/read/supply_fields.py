"""The fields of substitutes, yield tests, suppliers and stock on hand, which several kinds of file share."""

from __future__ import annotations

from typing import Final

from linebook.model.amounts import Kind
from linebook.model.supply import PartWeighed, StockEntry, Substitute, Supplier, YieldTest
from linebook.read import values as v
from linebook.read.fields import Choice, Field
from linebook.read.groups import Group
from linebook.read.ids import ID
from linebook.read.lists import ListOf
from linebook.source.exact import Fraction

_WEEKDAYS: Final = ("mon", "tue", "wed", "thu", "fri", "sat", "sun")

SUBSTITUTE: Final = Group(
    name="a substitute",
    names="substitutes",
    head="item",
    record=Substitute,
    fields=(
        Field(
            name="item",
            type=ID,
            required=True,
            doc="Id of the pantry item or component that can stand in",
            example="smoked-eel",
        ),
        Field(
            name="ratio",
            type=v.number(zero=False, most=Fraction(100)),
            default="1",
            doc="How much of it replaces one of the missing item, by weight",
            example="0.8",
        ),
        Field(
            name="prep",
            type=v.TEXT,
            doc="How it is cut or prepared first; without it the card marks the prep as that of the missing item",
            example="skinned, in flakes",
        ),
        Field(name="note", type=v.TEXT, doc="What the cook must know of it", example="saltier, so season last"),
    ),
)
SUBSTITUTES: Final = Field(
    name="substitutes",
    type=ListOf(item=SUBSTITUTE, single=True, words="a list of substitutes"),
    doc="What can stand in for it when it cannot be had, best first",
    example="{item: smoked-eel, ratio: 0.8}",
)

TEST_PART: Final = Group(
    name="a part of a yield test",
    names="parts",
    head="part",
    record=PartWeighed,
    fields=(
        Field(name="part", type=v.SHORT_TEXT, required=True, doc="What it is", example="bones"),
        Field(name="weighs", type=v.amount(Kind.MASS), required=True, doc="What it weighed", example="2.1 kg"),
        Field(name="item", type=ID, doc="Id that cards use it by, where it is used", example="beef-trim"),
        Field(name="value", type=v.PRICE, doc="What it is worth", example="1.20 per kg"),
    ),
)

YIELD_TEST: Final = Group(
    name="a yield test",
    names="yield tests",
    head="tested",
    record=YieldTest,
    fields=(
        Field(name="tested", type=v.DATE, required=True, doc="The day of the test", example="2027-01-14"),
        Field(
            name="bought", type=v.amount(Kind.MASS), required=True, doc="What was bought, as weighed", example="12.5 kg"
        ),
        Field(name="usable", type=v.amount(Kind.MASS), required=True, doc="The part used", example="9.1 kg"),
        Field(
            name="parts",
            type=ListOf(item=TEST_PART, words="a list of parts"),
            doc="What else was weighed: usable trim, bone, fat",
            example="{part: bones, weighs: 2.1 kg}",
        ),
        Field(name="cooked", type=v.amount(Kind.MASS), doc="What the used part weighs after cooking", example="6.4 kg"),
        Field(name="price", type=v.PRICE, doc="What it cost that day", example="14.20 per kg"),
        Field(name="by", type=v.SHORT_TEXT, doc="Who tested", example="MH"),
        Field(name="note", type=v.TEXT, doc="Anything odd about that delivery", example="thin end"),
    ),
)
YIELD_TESTS: Final = Field(
    name="yield_tests",
    type=ListOf(item=YIELD_TEST, words="a list of yield tests"),
    doc="Tests of what was bought; their average stands in place of `usable`",
    example="{tested: 2027-01-14, bought: 12.5 kg, usable: 9.1 kg}",
)

SUPPLIER: Final = Group(
    name="a supplier",
    names="suppliers",
    head="supplier",
    record=Supplier,
    fields=(
        Field(
            name="supplier",
            type=v.SHORT_TEXT,
            attribute="name",
            required=True,
            doc="Its name, as pantry items give it",
            example="Fell and Tarn Meats",
        ),
        Field(
            name="delivers",
            type=ListOf(
                item=Choice(words="a day such as `tue`", values={day: day for day in _WEEKDAYS}),
                single=True,
                least=1,
                words="a list of days",
            ),
            default="every day",
            doc="The days it delivers",
            example="[tue, thu]",
        ),
        Field(name="order_by", type=v.TIME, doc="Until when on a day it takes an order", example="14:00"),
        Field(name="note", type=v.TEXT, doc="How to order", example="by telephone only"),
    ),
)

STOCK_ENTRY: Final = Group(
    name="an entry of stock",
    names="entries of stock",
    head="item",
    record=StockEntry,
    fields=(
        Field(
            name="item",
            type=ID,
            required=True,
            doc="Id of a component, a by-product or a pantry item",
            example="celeriac-puree",
        ),
        Field(name="amount", type=v.AMOUNT, required=True, doc="What is left", example="1.8 kg"),
        Field(
            name="made",
            type=v.DATE,
            doc="The day its life counts from, as on its label; a component without it does not count",
            example="2027-03-04",
        ),
        Field(name="use_by", type=v.DATE, doc="The last day it may be served, as on its label", example="2027-03-07"),
        Field(
            name="card",
            type=v.SHORT_TEXT,
            doc="The fingerprint of the batch card it was made from",
            example="7F3A-92KD",
        ),
        Field(
            name="contains",
            type=ListOf(item=ID, single=True, none="none", words="`none`, one substance or a list of substances"),
            doc="What its label says it contains, where it is not of the card as it is now",
            example="[cows-milk]",
        ),
        Field(
            name="may_contain",
            type=ListOf(item=ID, single=True, none="none", words="`none`, one substance or a list of substances"),
            doc="What its label says it may contain",
            example="[almond]",
        ),
    ),
)
ON_HAND: Final = Field(
    name="on_hand",
    type=ListOf(item=STOCK_ENTRY, words="a list of what is left"),
    doc="Stock that is taken off before anything is made or bought",
    example="{item: celeriac-puree, amount: 1.8 kg, made: 2027-03-04}",
)
