"""The fields of what a house cooks with and on: vessels, places, shared media, plates, instruments."""

from __future__ import annotations

from typing import Final

from linebook.model.amounts import Kind
from linebook.model.house import (
    Climate,
    Instrument,
    InstrumentKind,
    LabelSheet,
    Medium,
    Plate,
    PlateShape,
    Vessel,
    Workplace,
)
from linebook.read import values as v
from linebook.read.component_fields import IDS
from linebook.read.dish_fields import name_from_id
from linebook.read.fields import Choice, Field, Spans
from linebook.read.groups import Group, Values
from linebook.read.lists import ById
from linebook.read.reading import Reading
from linebook.source.exact import Fraction
from linebook.source.spans import Span

VESSEL: Final = Group(
    name="a vessel",
    names="vessels",
    record=Vessel,
    settle=name_from_id,
    fields=(
        Field(
            name="name",
            type=v.SHORT_TEXT,
            default="the id, with spaces",
            doc="Its name as printed",
            example="24 L rondeau",
        ),
        Field(name="holds", type=v.AMOUNT, doc="What it holds to the brim", example="24 L"),
        Field(
            name="fill",
            type=v.part(most=Fraction(1), zero=False),
            default="100 %",
            doc="The part of it that is used",
            example="75 %",
        ),
        Field(
            name="count",
            type=v.whole(1, 10_000),
            default="one is reckoned with",
            doc="How many the house has",
            example="2",
        ),
    ),
)


def _settle_labels(values: Values, reading: Reading, spans: Spans, span: Span) -> bool:
    del reading, spans, span
    values["length"], values["width"] = values.pop("size")
    return True


LABELS: Final = Group(
    name="a sheet of labels",
    record=LabelSheet,
    settle=_settle_labels,
    fields=(
        Field(name="size", type=v.SIZE, required=True, doc="Length and height of one label", example="70 x 37 mm"),
        Field(name="columns", type=v.whole(1, 20), required=True, doc="How many side by side", example="3"),
        Field(name="rows", type=v.whole(1, 60), required=True, doc="How many one under the other", example="8"),
        Field(name="left", type=v.MARGIN, required=True, doc="From the paper's left edge to the first", example="0 mm"),
        Field(name="top", type=v.MARGIN, required=True, doc="From the paper's top edge to the first", example="0.5 mm"),
        Field(name="gap_beside", type=v.MARGIN, default="0 mm", doc="Between two side by side", example="2.5 mm"),
        Field(name="gap_below", type=v.MARGIN, default="0 mm", doc="Between two under each other", example="0 mm"),
        Field(
            name="paper",
            type=Choice(words="`a4` or `letter`", values={"a4": "a4", "letter": "letter"}),
            default="a4",
            doc="The paper of the sheet",
            example="letter",
        ),
    ),
)

VESSELS: Final = ById(group=VESSEL, words="ids of vessels")

PLACE: Final = Group(
    name="a place",
    names="places",
    record=Workplace,
    settle=name_from_id,
    fields=(
        Field(
            name="name", type=v.SHORT_TEXT, default="the id, with spaces", doc="Its name as printed", example="walk-in"
        ),
        Field(
            name="climate",
            type=Choice(words="a climate", values={climate.value: climate for climate in Climate}),
            required=True,
            doc="How warm it is: hot, room, cold or frozen",
            example="cold",
        ),
        Field(name="at", type=v.TEMPERATURE, attribute="temperature", doc="Its temperature", example="3 °C"),
        Field(name="count", type=v.whole(1, 10_000), doc="How many the house has", example="1"),
    ),
)

MEDIUM: Final = Group(
    name="a shared medium",
    names="media",
    record=Medium,
    settle=name_from_id,
    fields=(
        Field(
            name="name",
            type=v.SHORT_TEXT,
            default="the id, with spaces",
            doc="Its name as printed",
            example="shared fryer",
        ),
        Field(name="carries", type=IDS, absent=(), doc="Pantry items that are in it", example="[frying-oil]"),
        Field(
            name="changed_between",
            type=v.YES_NO,
            default="no",
            doc="Whether it is emptied or cleaned between two foods",
            example="no",
        ),
    ),
)


def _settle_plate(values: Values, reading: Reading, spans: Spans, span: Span) -> bool:
    """One length is a plate as wide as it is deep, which an oval or a rectangle is not."""
    lengths: tuple[Fraction, ...] = values.pop("size")
    shape: PlateShape = values["shape"]
    if len(lengths) == 1 and shape in (PlateShape.OVAL, PlateShape.RECTANGLE):
        text = spans["size"].text
        message = f"`{text}` is one length, and an {shape.value} has two" if shape is PlateShape.OVAL else ""
        message = message or f"`{text}` is one length, and a {shape.value} has two"
        reading.report("LB318", message, spans["size"], "write how far across and how far deep: `30 x 22 cm`")
        return False
    values["length"], values["width"] = lengths[0], lengths[-1]
    spans["length"] = spans["width"] = spans["size"]
    return name_from_id(values, reading, spans, span)


PLATE: Final = Group(
    name="a plate",
    names="plates",
    record=Plate,
    settle=_settle_plate,
    fields=(
        Field(
            name="name",
            type=v.SHORT_TEXT,
            default="the id, with spaces",
            doc="Its name as printed",
            example="oval plate 30 cm",
        ),
        Field(
            name="shape",
            type=Choice(words="a shape", values={shape.value: shape for shape in PlateShape}),
            required=True,
            doc="Its outline from above",
            example="oval",
        ),
        Field(
            name="size",
            type=v.PLATE_SIZE,
            required=True,
            doc="How far across and how far deep; one length for a round or square one",
            example="30 x 22 cm",
        ),
        Field(name="rim", type=v.MARGIN, default="0", doc="From the edge to the inner rim", example="3 cm"),
    ),
)


def _settle_instrument(values: Values, reading: Reading, spans: Spans, span: Span) -> bool:
    """The one of ``scale``, ``jug`` and ``spoon`` that is there says what kind it is; a scale takes weights alone."""
    named = [kind for kind in InstrumentKind if kind.value in spans]
    if not named:
        message = "the instrument is neither a `scale`, a `jug` nor a `spoon`"
        reading.report("LB107", message, span, "begin with what it is and its name: `scale: bench scale`")
        return False
    if len(named) > 1:
        message = f"the instrument is a `{named[0].value}` and a `{named[1].value}` at once"
        reading.report("LB106", message, spans[named[1].value], "write each as an instrument of its own")
        return False
    kind = named[0]
    name = values.pop(kind.value, None)
    needed = Kind.MASS if kind is InstrumentKind.SCALE else Kind.VOLUME
    for field in ("up_to", "reads"):
        found = values[field].unit.kind
        if found is not needed:
            message = f"a {kind.value} reads a {needed.value}, and `{spans[field].text}` is a {found.value}"
            hint = "type grams or kilograms" if needed is Kind.MASS else "type millilitres, litres or spoons"
            reading.report("LB304", message, spans[field], hint)
            return False
    values.update(name=name, kind=kind)
    return name is not None


INSTRUMENT: Final = Group(
    name="an instrument",
    names="instruments",
    record=Instrument,
    settle=_settle_instrument,
    fields=(
        Field(name="scale", type=v.SHORT_TEXT, doc="The name of a scale", example="bench scale"),
        Field(name="jug", type=v.SHORT_TEXT, doc="The name of a measuring jug, instead", example="2 L jug"),
        Field(name="spoon", type=v.SHORT_TEXT, doc="The name of a set of spoons, instead", example="measuring spoons"),
        Field(name="up_to", type=v.AMOUNT, required=True, doc="The most it takes", example="30 kg"),
        Field(name="reads", type=v.AMOUNT, required=True, doc="Its smallest readable step", example="5 g"),
    ),
)
