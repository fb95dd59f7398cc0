"""The fields of words in another language: those of a dish, of a component, and of the house as a whole.

Every text of a spec that is printed has its place here; what a machine computes with has none.
"""

from __future__ import annotations

from types import MappingProxyType
from typing import Final

from linebook.model.translations import NOTHING_SAID, CardWords, HouseWords, Said
from linebook.read import values as v
from linebook.read.fields import Field, FieldType, Plain, Schema, Spans, first_line, is_empty, report_empty
from linebook.read.groups import Group
from linebook.read.lists import not_a_mapping
from linebook.read.reading import UNREAD, Reading
from linebook.source.frozen import frozen
from linebook.source.nodes import MappingNode, Node

MOST_TEXTS: Final = 5_000


@frozen
class TextsBy(FieldType):
    """A text in the other language for each of many ids, or for each text as the specs have it."""

    words: str
    text: Plain

    def read(self, node: Node, reading: Reading, field: Field, spans: Spans) -> object:
        if type(node) is not MappingNode:
            return not_a_mapping(self, node, reading, field, f"write `{field.name}: {field.example}`")
        if len(node.entries) > MOST_TEXTS:
            message = f"`{field.name}` has {len(node.entries):,} entries and may have {MOST_TEXTS:,}"
            reading.report("LB110", message, first_line(node.span), "take out what no spec needs")
            return UNREAD
        said: dict[str, Said] = {}
        for entry in node.entries:
            if is_empty(entry.value):
                what = f"`{entry.key.text}` in `{field.name}`"
                report_empty(reading, field, entry.key.span, what=what, node=entry.value)
                continue
            value = self.text.read(entry.value, reading, field, spans)
            if isinstance(value, str):
                key = " ".join(entry.key.text.split())
                said[key] = Said(text=value, span=first_line(entry.value.span), key=entry.key.span)
        return MappingProxyType(said)

    def schema(self) -> Schema:
        return {"type": "object", "additionalProperties": self.text.schema(), "maxProperties": MOST_TEXTS}


def _texts(name: str, doc: str, example: str, *, words: str = "ids and a text for each", long: bool = False) -> Field:
    text = v.TEXT if long else v.SHORT_TEXT
    return Field(
        name=name, type=TextsBy(words=words, text=text), absent=NOTHING_SAID, doc=doc, default="none", example=example
    )


_NAME: Final = Field(name="name", type=v.SHORT_TEXT, doc="Its name as printed", example="Costilla ahumada, glaseada")

DISH_WORDS: Final = Group(
    name="a dish in another language",
    record=CardWords,
    fields=(
        _NAME,
        Field(name="menu_text", type=v.TEXT, doc="How the menu words it", example="Costilla, apionabo, nuez encurtida"),
        _texts("notes", "The notes of elements, by item", "{celeriac-puree: de las 9 a las 3}", long=True),
        _texts("tools", "What elements are portioned with, by item", "{celeriac-puree: cuchara de 60 ml}"),
        _texts("sizes", "The names of its sizes, by id", "{to-share: para compartir}"),
    ),
)

COMPONENT_WORDS: Final = Group(
    name="a component in another language",
    record=CardWords,
    fields=(
        _NAME,
        Field(name="sort", type=v.SHORT_TEXT, doc="What kind of thing it is", example="estofado"),
        _texts(
            "preps",
            "How ingredients are cut or prepared first, by item; `onion.2` is the second line of one item",
            "{beef-short-rib: sin telilla}",
        ),
        _texts("notes", "The notes of ingredients, by item", "{beef-short-rib: la más firme que haya}", long=True),
        _texts(
            "stages",
            "The names of its stages, where the method below is not translated",
            "{brine: salmuera}",
            words="stages and a name for each",
        ),
        _texts("also_makes", "The names of its by-products, by item", "{beef-trim: recortes de ternera}"),
    ),
)

HOUSE_WORDS: Final = Group(
    name="the words of a house in another language",
    record=HouseWords,
    fields=(
        _texts(
            "dishes", "Names of dishes that have no file of their own in this language", "{honey-cake: Tarta de miel}"
        ),
        _texts("components", "Names of components that have none", "{basic-brine: Salmuera básica}"),
        _texts("pantry", "Names of pantry items and by-products", "{fine-salt: sal fina}"),
        _texts("lines", "Names of lines", "{hearth: Fuego}"),
        _texts("vessels", "Names of vessels", "{rondeau-24: rondón de 24 L}"),
        _texts("places", "Names of places", "{walk-in: cámara}"),
        _texts("media", "Names of shared media", "{fryer: freidora común}"),
        _texts("plates", "Names of plates", "{oval-30: plato ovalado de 30 cm}"),
        _texts("courses", "Names of courses, the same on every menu", "{mains: Principales}"),
        _texts("menus", "Names of menus", "{early-spring: primavera temprana}"),
        _texts("avoid", "Printed names of the house's own avoidances", "{honey: miel}"),
        _texts(
            "phrases",
            "Any other text of the specs, as it is typed there: preps, notes, tools, kinds, sizes",
            "{trimmed of silverskin: sin telilla}",
            words="texts and a translation of each",
            long=True,
        ),
    ),
)
