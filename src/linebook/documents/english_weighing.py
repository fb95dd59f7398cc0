"""The English words for systems of units, dilutions, counts and cures: a part of the table in ``english``."""

from __future__ import annotations

from typing import Final

WEIGHING: Final = {
    "amount.beside": "= {amount}",
    "amount.with-beside": "{amount} ({beside})",
    "amount.with-beside.unparted": "{amount}\u00a0({beside})",
    "amount.count-weighs": "weighing {weight}",
    "amount.count-should": "weighing {weight}; {exact}, {exact_weight}, would be right",
    "note.dilute": "**too little to weigh**: dissolve {weighed} of it in {solvent} of {of}, then weigh {taken} of that",
    "note.dilute.extra": "{dilution}; the {brings} of {of} in it comes on top",
    "note.in-column": "{what} ({column})",
    "note.take-off": "take {brings} off: it comes with {item}",
    "fact.cure": "Cure",
    "cure.more": "others",
    "cure.in": "**{ppm}\u00a0ppm** of the weight of {of}; {ceiling}",
    "cure.brine": "about **{ppm}\u00a0ppm** in {of} and its brine, as if spread evenly over both; {ceiling}",
    "cure.holds": "**{ppm}\u00a0ppm** of what this makes; it counts on the card of what it goes on",
    "cure.unknown": "**cannot be told**: the weight of what it goes on is not known; {ceiling}",
    "cure.ceiling": "the house's ceiling is {ceiling}\u00a0ppm",
    "cure.no-ceiling": "the house names no ceiling",
    "cure.caution": "By raw weight, nothing taken off for what is lost. Local rules and the food-safety plan decide.",
}
