"""The fields of a dish: sizes, and the elements of its plate."""

from __future__ import annotations

import re
from types import MappingProxyType
from typing import Final

from linebook.model.dish import Alternative, Dish, Element, Hold, PickUp, Shape, Size
from linebook.model.lengths import parse_length
from linebook.model.units import Measures
from linebook.read import values as v
from linebook.read.component_fields import IDS, MEDIA
from linebook.read.fields import Choice, Field, Plain, Spans
from linebook.read.groups import Group, Values
from linebook.read.ids import ID, SPACED_ID, kebab
from linebook.read.lists import ById, ListOf, MapOf
from linebook.read.reading import Reading
from linebook.read.tasting_fields import TASTINGS
from linebook.source.exact import Fraction
from linebook.source.faults import ValueMistake
from linebook.source.spans import Span


def name_from_id(values: Values, reading: Reading, spans: Spans, span: Span) -> bool:
    """Let a record without a name be called by its id, with spaces."""
    del reading, spans, span
    values.setdefault("name", values["id"].replace("-", " "))
    return True


_TALLEST: Final = Fraction(400)
_PHOTO: Final = r"photos/[a-z0-9]+(?:-[a-z0-9]+)*\.(?:jpg|jpeg|png)"


def _plated_height(text: str, measures: Measures | None) -> Fraction:
    del measures
    height = parse_length(text)
    if height > _TALLEST:
        raise ValueMistake("LB316", f"`{text}` is too tall for a plate", ("type a height of at most 40 cm",))
    return height


def _photo(text: str, measures: Measures | None) -> str:
    del measures
    if re.fullmatch(_PHOTO, text) is None:
        stem, _, ending = text.replace("\\", "/").rpartition("/")[2].rpartition(".")
        near = kebab(stem or ending)
        ending = ending.lower() if ending.lower() in ("jpeg", "png") else "jpg"
        hint = f"put the file in the folder photos and type `photos/{near or 'name-of-the-dish'}.{ending}`"
        raise ValueMistake("LB607", f"`{text[:80]}` is not the name of a photograph in the folder photos", (hint,))
    return text


PLATED_HEIGHT: Final = Plain(words="a height", parse=_plated_height, pattern="^[0-9].*(mm|cm)$")
PHOTO: Final = Plain(words="the path of a photograph", parse=_photo, pattern=f"^{_PHOTO}$", most=200)

SIZE: Final = Group(
    name="a size",
    names="sizes",
    record=Size,
    settle=name_from_id,
    fields=(
        Field(
            name="name", type=v.SHORT_TEXT, default="the id, with spaces", doc="Its name as printed", example="to share"
        ),
        Field(
            name="factor", type=v.number(zero=False), default="1", doc="How many times the amounts below", example="1.8"
        ),
        Field(
            name="amounts",
            type=MapOf(key=ID, value=v.AMOUNT, words="items and an amount for each"),
            absent=MappingProxyType({}),
            doc="Amounts of single items in this size, where the factor does not fit",
            example="{short-rib-glazed: 4 pieces}",
        ),
    ),
)

HOLD: Final = Group(
    name="a hold",
    record=Hold,
    fields=(
        Field(name="at", type=v.TEMPERATURE, attribute="temperature", doc="Holding temperature", example="65 °C"),
        Field(name="most", type=v.DURATION, doc="The longest it may be held", example="2 h"),
        Field(
            name="after",
            type=Choice(words="what happens after", values={"bin": "bin", "chill once": "chill once"}),
            doc="What happens to it after service",
            example="bin",
        ),
        Field(
            name="in", type=SPACED_ID, attribute="vessel", doc="Id of the vessel it is held in", example="third-pan-100"
        ),
    ),
)

ALTERNATIVE: Final = Group(
    name="an alternative",
    names="alternatives",
    head="item",
    record=Alternative,
    fields=(
        Field(
            name="item",
            type=ID,
            required=True,
            doc="Id of the component, pantry item or by-product that is served instead",
            example="oat-crumble",
        ),
        Field(
            name="amount",
            type=v.AMOUNT,
            required=True,
            doc="How much one portion carries, in a size of factor 1",
            example="10 g",
        ),
        Field(name="through", type=MEDIA, absent=(), doc="Shared media it goes through at pick-up", example="fryer"),
        Field(name="note", type=v.TEXT, doc="A line for the pass", example="from its own tub"),
    ),
)

ELEMENT: Final = Group(
    name="an element",
    names="elements",
    head="item",
    record=Element,
    fields=(
        Field(
            name="item",
            type=ID,
            required=True,
            doc="Id of a component, pantry item or by-product",
            example="celeriac-puree",
        ),
        Field(
            name="amount",
            type=v.AMOUNT,
            required=True,
            doc="How much one portion carries, in a size of factor 1",
            example="70 g",
        ),
        Field(
            name="at",
            type=ListOf(item=v.PLACE, single=True, words="a place on the plate or a list of places"),
            attribute="places",
            doc="Where it sits, seen by the guest, 6 o'clock nearest; a line or swoosh takes two: from, to",
            example="5 o'clock",
        ),
        Field(
            name="reach",
            type=v.number(least=Fraction(0), most=Fraction(1)),
            default="0 at the centre, else 0.5",
            doc="How far out along that clock ray, as a part of the way to the inner rim",
            example="0.4",
        ),
        Field(name="on", type=ID, doc="The earlier element it stands on", example="short-rib-glazed"),
        Field(
            name="shape",
            type=Choice(words="a shape", values={shape.value: shape for shape in Shape}),
            doc="How it lies, for the drawing",
            example="swoosh",
        ),
        Field(name="size", type=v.SIZE, doc="Length and width of one as drawn", example="90 x 30 mm"),
        Field(
            name="turned",
            type=v.number(signed=True, least=Fraction(-360), most=Fraction(360)),
            default="0",
            doc="Degrees it is turned clockwise",
            example="20",
        ),
        Field(
            name="height",
            type=PLATED_HEIGHT,
            doc="How high one stands, for the side view; without it a usual height of its shape is drawn",
            example="35 mm",
        ),
        Field(name="tool", type=v.SHORT_TEXT, doc="What it is portioned with", example="no. 16 scoop"),
        Field(name="hold", type=HOLD, doc="How it waits on the line", example="{at: 65 °C, most: 2 h, after: bin}"),
        Field(name="through", type=MEDIA, doc="Shared media it goes through at pick-up", example="fryer"),
        Field(
            name="leave_off", type=v.YES_NO, default="no", doc="Whether it may be left off for a guest", example="yes"
        ),
        Field(
            name="alternative",
            type=ListOf(item=ALTERNATIVE, single=True, least=1, words="an alternative or a list of them"),
            attribute="alternatives",
            doc="What may be served to a guest instead of it; its allergens count, and it is not made for a night",
            example="{item: oat-crumble, amount: 10 g}",
        ),
        Field(
            name="raw",
            type=v.YES_NO,
            default="no",
            doc="Whether what is of animal origin in it is served raw or undercooked",
            example="yes",
        ),
        Field(name="note", type=v.TEXT, doc="A line for the pass", example="thick end left"),
    ),
)

PICK_UP: Final = Group(
    name="a strand of the pick-up",
    names="strands of the pick-up",
    head="do",
    record=PickUp,
    fields=(
        Field(name="do", type=v.SHORT_TEXT, required=True, doc="What is done", example="grill the leeks"),
        Field(name="takes", type=v.DURATION, required=True, doc="How long it takes", example="6 min"),
        Field(name="rests", type=v.DURATION, doc="How long it rests before the pass", example="2 min"),
        Field(
            name="line", type=SPACED_ID, default="the dish's own", doc="Id of the line that does it", example="stove"
        ),
        Field(name="where", type=SPACED_ID, doc="Id of the place it is done at", example="hearth-embers"),
        Field(
            name="at_once",
            type=v.whole(1, 1000),
            doc="How many portions fill that place; more go in turns",
            example="6",
        ),
    ),
)

DISH: Final = Group(
    name="a dish",
    names="dishes",
    record=Dish,
    fields=(
        Field(name="name", type=v.SHORT_TEXT, required=True, doc="Its name as printed", example="Short rib, celeriac"),
        Field(name="line", type=SPACED_ID, required=True, doc="Id of the line that sends it", example="hearth"),
        Field(
            name="course",
            type=SPACED_ID,
            required=True,
            doc="Id of a course of the menus that list it",
            example="mains",
        ),
        Field(name="price", type=v.number(), doc="Price in the house's currency", example="34"),
        Field(
            name="menu_text", type=v.TEXT, doc="How the menu words it", example="Short rib, celeriac, pickled walnut"
        ),
        Field(name="plate", type=SPACED_ID, doc="Id of a plate in house.yaml", example="oval-30"),
        Field(name="warm", type=v.YES_NO, doc="Whether the plate is warmed", example="yes"),
        Field(name="call", type=v.DURATION, doc="Time from call to pass", example="9 min"),
        Field(
            name="pick_up",
            type=ListOf(item=PICK_UP, words="a list of strands"),
            doc="What is done from call to pass, each strand so that it lands with the others",
            example="{do: grill the leeks, takes: 6 min, where: hearth-embers, at_once: 6}",
        ),
        Field(
            name="plain",
            type=v.TEXT,
            doc="What it is in plain words, for the guest who asks",
            example="Beef rib, smoked",
        ),
        Field(
            name="cutlery",
            type=ListOf(item=v.SHORT_TEXT, single=True, words="a list of what is laid"),
            doc="What is laid for it",
            example="[steak knife, fork]",
        ),
        Field(
            name="shared", type=v.YES_NO, default="no", doc="Whether it is set in the middle to share", example="yes"
        ),
        Field(
            name="sizes",
            type=ById(group=SIZE, words="ids of sizes", defines=False),
            default="one size, `full`",
            doc="The sizes it is served in",
            example="{full: {name: full, factor: 1}, to-share: {name: to share, factor: 1.8}}",
        ),
        Field(
            name="elements",
            type=ListOf(item=ELEMENT, words="a list of elements", least=1),
            required=True,
            doc="What is on the plate, bottom to top, in plating order",
            example="{item: celeriac-puree, amount: 70 g, at: centre}",
        ),
        Field(
            name="also_touches",
            type=IDS,
            doc="What else it meets: oil for the pan, finishing oil",
            example="[frying-oil]",
        ),
        Field(
            name="tested",
            type=v.DATE,
            doc="The day it was last tested; without it the card prints *draft*",
            example="2027-02-10",
        ),
        Field(
            name="photo",
            type=PHOTO,
            doc="A photograph of it on its plate, a file in the folder photos of the house",
            example="photos/short-rib.jpg",
        ),
        TASTINGS,
    ),
)
