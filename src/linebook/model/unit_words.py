"""The words cooks write for units: the closed list that is read, and words that are refused with their reason.

Knows unit keys alone; what a unit is, and its factor, are in ``units``.
"""

from __future__ import annotations

import re
from collections.abc import Mapping
from types import MappingProxyType
from typing import Final

_SPELLINGS: Final = {
    "milligram": "mg milligram milligrams",
    "gram": "g gm gms gram grams gramme grammes",
    "kilogram": "kg kgs kilo kilos kilogram kilograms",
    "millilitre": "ml mls millilitre millilitres milliliter milliliters",
    "centilitre": "cl centilitre centilitres centiliter centiliters",
    "decilitre": "dl decilitre decilitres deciliter deciliters",
    "litre": "l ltr litre litres liter liters",
    "ounce": "oz ozs ounce ounces",
    "pound": "lb lbs pound pounds",
    "each": "each ea",
    "piece": "piece pieces pc pcs",
    "dozen": "dozen dozens doz",
    "bunch": "bunch bunches",
    "sprig": "sprig sprigs",
    "leaf": "leaf leaves",
    "head": "head heads",
    "clove": "clove cloves",
    "slice": "slice slices",
    "sheet": "sheet sheets",
    "portion": "portion portions",
    "stick": "stick sticks",
}

UNIT_WORDS: Final[Mapping[str, str]] = MappingProxyType(
    {word: key for key, words in _SPELLINGS.items() for word in words.split()}
)
"""Folded word → unit key."""

_SYSTEM_SPELLINGS: Final = {
    ("cup", "cup"): "cup cups",
    ("spoon", "tablespoon"): "tbsp tbsps tbs tblsp tablespoon tablespoons",
    ("spoon", "teaspoon"): "tsp tsps teaspoon teaspoons",
    ("pint", "pint"): "pt pts pint pints",
    ("pint", "quart"): "qt qts quart quarts",
    ("pint", "gallon"): "gal gals gallon gallons",
    ("pint", "fluid-ounce"): "fl_oz floz fl_ozs fluid_ounce fluid_ounces fl_ounce fl_ounces",
}

SYSTEM_WORDS: Final[Mapping[str, tuple[str, str]]] = MappingProxyType(
    {
        word.replace("_", " "): (measure, name)
        for (measure, name), words in _SYSTEM_SPELLINGS.items()
        for word in words.split()
    }
)
"""Folded word → which measure of the house settles its size, and the unit's name in that system."""

_SPOON: Final = ("`{word}` can be a tablespoon or a teaspoon", "type `tbsp` or `tsp`")
_NO_SIZE: Final = (
    "`{word}` has no set size",
    "type a weight such as `0.5 g`, a spoon such as `1/8 tsp`, or `to taste`",
)
_PACKED: Final = ("`{word}` does not say how much is in it", "type the weight or volume of what is in it")
_ONE: Final = ("`{word}` is not a unit here", "type `each` for things that are counted")
_TIME: Final = ("`{word}` is a length of time and an amount is needed here", "type a weight, a volume or a count")
_HEAT: Final = ("`{word}` is a temperature and an amount is needed here", "type a weight, a volume or a count")
_LENGTH: Final = ("`{word}` is a length and an amount is needed here", "type a weight, a volume or a count")

REFUSED_WORDS: Final[Mapping[str, tuple[str, str]]] = MappingProxyType(
    {
        **dict.fromkeys(("T", "t", "Ts", "ts", "TB", "Tb", "tb"), _SPOON),
        **dict.fromkeys(("c", "C"), ("`{word}` is too short to be sure of", "type `cup` for a cup, `cl` or `°C`")),
        **dict.fromkeys(("gr", "grs", "grain", "grains"), ("`{word}` can be a gram or a grain", "type `g` for grams")),
        **dict.fromkeys(
            ("m", "M"), ("`{word}` is too short to be sure of", "type `ml` for millilitres, `min` for minutes")
        ),
        **dict.fromkeys(("cc", "ccm"), ("`{word}` is not a unit here", "type `ml`, which is the same")),
        **dict.fromkeys(("#",), ("`{word}` can be a pound or the number of a can", "type `lb` for pounds")),
        **dict.fromkeys(("st", "stone", "stones"), ("`{word}` is not a unit here", "type `lb` or `kg`")),
        **dict.fromkeys(("dram", "drams", "gill", "gills"), ("`{word}` has more than one size", "type `g` or `ml`")),
        **dict.fromkeys(("x", "×", "X", "by"), ("an amount is not multiplied here", "type the amount all together")),
        **dict.fromkeys(
            ("pinch", "pinches", "dash", "dashes", "drop", "drops", "handful", "handfuls", "knob"), _NO_SIZE
        ),
        **dict.fromkeys(("splash", "drizzle", "glug", "pat", "sprinkle", "hint", "touch"), _NO_SIZE),
        **dict.fromkeys(("can", "cans", "tin", "tins", "jar", "jars", "bag", "bags", "box", "boxes", "case"), _PACKED),
        **dict.fromkeys(("cases", "packet", "packets", "pack", "packs", "pkt", "bottle", "bottles", "tub"), _PACKED),
        **dict.fromkeys(("tubs", "carton", "cartons", "pan", "pans", "tray", "trays"), _PACKED),
        **dict.fromkeys(("unit", "units", "ct", "count", "item", "items", "nr", "no", "whole"), _ONE),
        **dict.fromkeys(("scoop", "scoops"), ("`{word}` does not say which scoop", "type its number: `no. 16 scoop`")),
        **dict.fromkeys(("h", "hr", "hrs", "hour", "hours", "min", "mins", "minutes", "s", "sec", "d", "days"), _TIME),
        **dict.fromkeys(("°c", "°f", "f", "º", "°"), _HEAT),
        **dict.fromkeys(("cm", "mm", "inch", "inches", "in"), _LENGTH),
        "%": ("a percentage does not go here", "type a weight, a volume or a count"),
    }
)
"""Words, as typed or folded, whose meaning would have to be guessed: what is wrong and what to type instead."""

_SCOOP: Final = re.compile(r"(?:no\.? ?|#|number )([0-9]{1,3}) scoops?|scoops? (?:no\.? ?|#|number )?([0-9]{1,3})")


def fold_word(word: str) -> str:
    """Return a unit word without capital letters, doubled spaces and the full stops of abbreviations."""
    folded = " ".join(word.casefold().split())
    if folded.startswith(("no.", "scoop")):
        return folded
    return " ".join(part.rstrip(".") for part in folded.split())


def read_scoop(folded: str) -> int | None:
    """Return the number of a scoop written ``no. 16 scoop`` or ``scoop 16``, or None where it is no scoop."""
    match = _SCOOP.fullmatch(folded)
    return int(match[1] or match[2]) if match else None
