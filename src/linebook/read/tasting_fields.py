"""The fields of a tasting log, which dishes and components have alike."""

from __future__ import annotations

from typing import Final

from linebook.model.tasting import Tasting
from linebook.read import values as v
from linebook.read.fields import Field
from linebook.read.groups import Group
from linebook.read.lists import ListOf

TASTING: Final = Group(
    name="a tasting note",
    names="tasting notes",
    head="date",
    record=Tasting,
    fields=(
        Field(
            name="date", type=v.DATE, attribute="day", required=True, doc="The day it was tasted", example="2027-03-12"
        ),
        Field(
            name="tasted",
            type=v.TEXT,
            required=True,
            doc="What was tasted: what it lacks, or has too much of",
            example="flat, more acid",
        ),
        Field(name="changed", type=v.TEXT, doc="What was changed on the card for it", example="verjuice 20 g to 28 g"),
        Field(name="by", type=v.SHORT_TEXT, doc="Who tasted", example="MH"),
    ),
)

TASTINGS: Final = Field(
    name="tastings",
    type=ListOf(item=TASTING, words="a list of tasting notes"),
    doc="The tasting log, oldest first; for the chef's copy and the swap sheet, on no sheet of the crew",
    example="{date: 2027-03-12, tasted: more acid, changed: verjuice 20 g to 28 g, by: MH}",
)
