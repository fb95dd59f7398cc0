"""The English words of the sheets that are about allergens alone: the matrix, a line's own page, the index, a notice
that something has turned out wrong. As in ``english``: ``{name}`` is a value, ``**…**`` is bold.
"""

from __future__ import annotations

from collections.abc import Mapping
from types import MappingProxyType
from typing import Final

from linebook.model.origins import ORIGINS

_MATRIX: Final = {
    "matrix.kicker": "Front of house",
    "matrix.menu": "{menu}, from {first}",
    "matrix.lists-and-own": "{lists}, and the house's own: {own}",
    "matrix.own": "{name} (house)",
    "matrix.dish": "dish",
    "matrix.other-course": "Other",
    "matrix.notes": "What the marks stand for",
    "matrix.drinks": "Drinks are not on this sheet.",
    "matrix.of-lists": "{name} ({lists})",
    "matrix.medium": "The {medium} is used for other food too. What it touches: {dishes}.",
    "matrix.caution": (
        "This kitchen handles everything on this sheet. Ask before you promise. The lists say what must be declared, "
        "not what is safe for a guest; local law and the chef decide."
    ),
    "matrix.several": "A guest who avoids several things needs a guest sheet: what helps with one may bring another.",
    "matrix.oil": ("**Not changed since the menu before ({menus}): what was on it may still be in the {media}.**"),
    "matrix.also": (
        "No allergen list has these columns: {columns}. Their answers are from what specs say of origin and cooking."
    ),
    "matrix.exempt": "**Exempt from declaring, and shown as may contain:** {items}.",
    "matrix.exempt.item": "{item} ({substance}, {process})",
    "exempt.fully-refined-oil": "fully refined oil",
    "exempt.glucose-syrup": "glucose syrup",
    "exempt.maltodextrin": "maltodextrin",
    "exempt.distillate": "distillate",
    "exempt.lactitol": "lactitol",
    "exempt.fining-of-beer-or-wine": "fining of beer or wine",
    "exempt.carrier-of-vitamins-or-colour": "carrier of vitamins or colour",
    "exempt.tocopherols-or-plant-sterols": "tocopherols or plant sterols",
    "matrix.oldest": "The oldest declaration is that of {item}, {day}.",
    "matrix.aged": "**On {day} these are older than {limit}, ask for new labels: {items}.**",
    "matrix.note.undeclared": "**Not declared:** {items}; **ask the chef before you promise anything.**",
    "matrix.note.not-told": "**Origin or cooking not known:** {items}; ask the chef.",
    "matrix.note.not-told-of": "**Origin or cooking not known** of {count} items in it; ask the chef.",
    "matrix.note.contains": "**Contains** {what}.",
    "matrix.note.contains-from": "**From the {media} it contains** {what}.",
    "matrix.note.may": "**May contain** {what}.",
    "matrix.note.may-from": "**From the {media} it may contain** {what}.",
    "matrix.note.without": "**Without {items}:** {columns} can be left out, ask the pass.",
    "matrix.note.with": "**With {others} instead of {items}:** {columns} can be left out, ask the pass.",
    "matrix.note.with-left": (
        "**With {others} instead of {items}, and without {left}:** {columns} can be left out, ask the pass."
    ),
    "matrix.note.brings": "**{item} itself:** {what}.",
    "matrix.note.old": "Old declaration: {items}.",
    "mark.contains": "contains {what}",
    "mark.undeclared": "not declared, treat as containing {what}",
    "mark.may": "may contain {what}",
    "mark.free": "not in it, no known contact: {what}",
    "mark.without": "can be served without {items}",
    "mark.with": "can be served with {others} instead of {items}",
    "mark.with-left": "can be served with {others} instead of {items}, and without {left}",
    "legend.contains": "contains",
    "legend.contains-leave": "contains; can be left off, ask the pass",
    "legend.undeclared": "not declared: treat as containing it",
    "legend.undeclared-leave": "not declared; can be left off, ask the pass",
    "legend.may": "may contain",
    "legend.may-leave": "may contain; can be left off, ask the pass",
    "legend.leave": "corner cut: it can be left out or exchanged, ask the pass",
    "legend.free": "means not in it, no known contact",
}

_LINE_PAGE: Final = {
    "document.line-allergens": "Allergen page",
    "line-allergens.title": "Allergens, {line}",
    "line-allergens.ticket": "When a ticket says allergy",
    "line-allergens.ticket.read": "Read all of it and say it back. Do what the guest sheet says, no more.",
    "line-allergens.ticket.find": (
        "Find the dish below. **C**, **M** or **?** under what the guest avoids: do not plate it, call the pass."
    ),
    "line-allergens.ticket.change": "Corner cut: leave off or exchange all that the list below says.",
    "line-allergens.ticket.clean": (
        "Wash hands. Clean board, knife, tongs, pan. A fresh container, not the one on the station."
    ),
    "line-allergens.ticket.media": (
        "Shared on this line: {media}. The marks count what is left in there; put nothing else through."
    ),
    "line-allergens.ticket.hand-over": (
        "Carry it to the pass apart and say whose it is. In doubt, stop and call the chef."
    ),
    "line-allergens.plate": "plate or part",
    "line-allergens.touches": "also touches it: {items}",
    "line-allergens.instead": "instead: {item}",
    "line-allergens.kinds": "{name} ({kinds})",
    "line-allergens.absent": "Not in anything on this line, no known contact: {columns}.",
    "line-allergens.made": "Also made on this line",
    "line-allergens.changes": "What can be done",
    "line-allergens.media": "What goes through what",
    "line-allergens.own": "from this line {items}",
    "line-allergens.others": "from other lines {items}",
    "line-allergens.carries": "it holds {items}",
    "line-allergens.before": "not changed since {menus}",
    "line-allergens.changed-between": "changed or cleaned between foods",
}

_INDEX: Final = {
    "document.allergen-index": "Allergen index",
    "index.how": (
        "Look a thing up: the dishes it is in follow. **Ask before you promise:** the matrix says what can be left "
        "off. **May** is may contain, **not declared** is treated as containing it."
    ),
    "index.lists": "By allergen",
    "index.substances": "By what labels declare",
    "index.foods": "By ingredient, A to Z",
    "index.foods.note": "Each under its own name only: what is inside a bought sauce stands under the labels.",
    "index.contain": "{dishes}",
    "index.may": "**may:** {dishes}",
    "index.undeclared": "**not declared:** {dishes}",
    "index.none": "no dish, no known contact",
    "index.every": "every dish",
}

_VOID: Final = {
    "void.replaces": "Replaces {fingerprint}: take that sheet down",
    "void.foot": "replaces {fingerprint}",
    "void.reason": "Why: {what} ({says}).",
    "void.at": "Since (time)",
    "void.by": "put up by",
    "void.contains": "there is {what} in {items}",
    "void.may": "there may be {what} in {items}",
    "void.undeclared": "nobody knows what is in this: {items}",
    "void.extra": "what got into it",
    "void.from-now": "**From now:** {what}.",
    "void.off": "**Off for {columns}:** {dishes}.",
    "void.change": "**{dish}:** for {columns}: {action}.",
    "void.unknown": "**Off for any allergy until the chef knows more:** {dishes}.",
    "void.no-dish": "No dish of this menu changes for anybody.",
    "says.label": "new label",
    "says.supplier": "the supplier says so",
    "says.spill": "spill",
    "says.mistake": "a mistake was found",
}

_CHANGES: Final = {
    "serve.with": "Serve with {others} instead of {items}",
    "serve.with-left": "Serve with {others} instead of {items}, and without {left}",
    "serve.or-without": "{change}, or without {items}",
    "serve.brings": "{item} itself",
    "brings.contains": "contains {what}",
    "brings.may": "may contain {what}",
    "brings.undeclared": "not declared: {items}",
    "brings.no-answer": "origin or cooking not known: {items}",
    "brings.nothing": "none of these, no known contact",
    "element.instead": "for a guest, {amount} {item} instead, ask the pass",
}

_ALSO: Final = {
    "also.raw": "animal food raw or undercooked",
    "also.alcohol": "alcohol",
    "also.vegetarian": "meat or fish (vegetarian)",
    "also.vegan": "animal food (vegan)",
    "also.pescatarian": "meat (pescatarian)",
    "also.meat": "meat",
    "also.poultry": "poultry",
    "also.beef": "beef and veal",
    "also.lamb": "lamb",
    "also.pork": "pork",
    "also.game": "game",
    "also.gelatine": "gelatine",
    "also.animal-rennet": "animal rennet",
    "also.insect": "insects",
    "also.unpasteurised": "not pasteurised",
    "also.raw-egg": "raw egg",
    "also.raw-fish": "raw fish",
    "also.raw-shellfish": "raw shellfish",
    "also.raw-meat": "raw meat",
}

_ORIGINS: Final = {
    **{f"origin.{word}": word.replace("-", " ") for word in (*ORIGINS, "unpasteurised")},
    "origin.animal-fat-poultry": "poultry fat",
    "origin.animal-fat-beef": "beef fat",
    "origin.animal-fat-pork": "pork fat",
    "origin.animal-fat": "animal fat",
    "origin.gelatine-pork": "pork gelatine",
    "origin.gelatine-beef": "beef gelatine",
    "origin.gelatine-fish": "fish gelatine",
    "origin.rennet-animal": "animal rennet",
    "origin.rennet-vegetable": "vegetable rennet",
    "origin.rennet-microbial": "microbial rennet",
}

ALLERGEN_SHEETS: Final[Mapping[str, str]] = MappingProxyType(
    {**_MATRIX, **_LINE_PAGE, **_INDEX, **_VOID, **_CHANGES, **_ALSO, **_ORIGINS}
)
