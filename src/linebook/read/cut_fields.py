"""The fields of how a component is cut: the block, the pieces, the knife."""

from __future__ import annotations

from typing import Final

from linebook.model.component import Cut
from linebook.read import values as v
from linebook.read.fields import Field
from linebook.read.groups import Group

CUT: Final = Group(
    name="a cut",
    record=Cut,
    fields=(
        Field(name="block", type=v.SIZE, required=True, doc="One block, slab or tray", example="390 x 290 mm"),
        Field(name="piece", type=v.SIZE, required=True, doc="One piece", example="60 x 40 mm"),
        Field(
            name="kerf",
            type=v.MARGIN,
            default="0 mm",
            doc="What each cut takes away, between two pieces and before what is left over",
            example="2 mm",
        ),
        Field(
            name="edges",
            type=v.MARGIN,
            default="0 mm",
            doc="What is squared off on every side, its own cut included",
            example="5 mm",
        ),
        Field(name="blocks", type=v.whole(1, 1000), default="1", doc="Blocks the batch as written makes", example="2"),
        Field(
            name="turned",
            type=v.YES_NO,
            default="no",
            doc="Whether pieces may lie the other way round, which the grain of meat may forbid",
            example="yes",
        ),
    ),
)
