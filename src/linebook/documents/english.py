"""The English words of every sheet, by key. ``{name}`` is a value, ``**…**`` is bold; no markup, no arithmetic.

A value, its unit and words that must not part are joined by a no-break space where they are put in.
"""

from __future__ import annotations

from collections.abc import Mapping
from types import MappingProxyType
from typing import Final

from linebook.documents.english_allergens import ALLERGEN_SHEETS
from linebook.documents.english_call import CALL
from linebook.documents.english_cautions import CAUTIONS
from linebook.documents.english_changes import CHANGES
from linebook.documents.english_guest import GUEST
from linebook.documents.english_labels import LABELS
from linebook.documents.english_notes import NOTES
from linebook.documents.english_order import ORDER
from linebook.documents.english_plan import PLAN
from linebook.documents.english_screen import SCREEN
from linebook.documents.english_set_up import SET_UP
from linebook.documents.english_sizing import SIZING
from linebook.documents.english_stock import STOCK
from linebook.documents.english_swap import SWAP
from linebook.documents.english_weighing import WEIGHING
from linebook.documents.english_yields import YIELDS

_WEEKDAYS: Final = "Mon Tue Wed Thu Fri Sat Sun"
_MONTHS: Final = "January February March April May June July August September October November December"

_COUNTED_IN: Final = (
    "each/each piece/pieces dozen/dozen bunch/bunches sprig/sprigs leaf/leaves head/heads clove/cloves slice/slices "
    "sheet/sheets portion/portions stick/sticks cup/cups tbsp/tbsp tsp/tsp"
)
_UNITS: Final = dict(pair.split("/") for pair in _COUNTED_IN.split())
"""The units that are words, one and many. Those that are symbols are the same in every language."""

_SHAPES: Final = ("mound", "line", "disc", "piece", "dots", "leaves", "swoosh", "powder", "pool")
_LOGGED: Final = ("core", "for", "start", "end", "in", "out", "packed", "made", "initials")

_COMMON: Final = {
    "document.station-card": "Station card",
    "document.batch-card": "Batch card",
    "document.plating-guide": "Plating guide",
    "document.allergen-matrix": "Allergen matrix",
    "document.line-cover": "Line binder",
    "kicker.between": " · ",
    "draft": "draft: not yet tested",
    "foot.issued": "issued {day}",
    "foot.for": "printed for {day}",
    "foot.between": " · ",
    "foot.pages": "{page} of {pages}",
    "foot.continues": "continues",
    "foot.blank": "left blank: the back of {name}",
    "foot.columns": "columns {first} to {last} of {count}",
    "article": "the ",
    "list.comma": ", ",
    "list.and": " and ",
    "list.and.before-i": " and ",
    "list.reason": ": ",
    "list.semicolon": "; ",
    "note.between": "; ",
    "name.prep": " ",
    "name.prep-as-for": "prep as for the {missing} it replaces: {prep}",
    "sentence.between": " ",
    "date.day": "{weekday} {day} {month}",
    "date.full": "{day} {month} {year}",
    **{f"weekday.{at}": word for at, word in enumerate(_WEEKDAYS.split())},
    **{f"month.{at}": word for at, word in enumerate(_MONTHS.split(), start=1)},
    "duration.range": "{least} to {most}",
    **{f"unit.{one}.one": one for one in _UNITS},
    **{f"unit.{one}.many": many for one, many in _UNITS.items()},
    "unit.scoop.one": "no. {number} scoop",
    "unit.scoop.many": "no. {number} scoops",
    "amount.to-taste": "to taste",
    "amount.moved": "rounded from {exact}",
    "amount.moved-in": "{exact} ({column})",
    "covers.one": "1 cover",
    "covers.many": "{count} covers",
    "pieces.one": "1 piece",
    "pieces.many": "{count} pieces",
    "pieces.whole.one": "1 whole piece",
    "pieces.whole.many": "{count} whole pieces",
    "sheets.one": "1 sheet",
    "sheets.many": "{count} sheets",
    "from.line": "from the {line} line",
    "from.own-card": "has its own batch card",
    "from.by-product": "kept from {parent}",
    "from.by-product-of-line": "kept from {parent}, on the {line} line",
}

_ALLERGENS: Final = {
    "allergens.contains": "Contains",
    "allergens.may-contain": "May contain",
    "allergens.undeclared": "Undeclared",
    "allergens.contains.nothing": "nothing on this house's lists",
    "allergens.contains.nothing-declared": "cannot say: not all of it is declared",
    "allergens.may-contain.nothing-declared": "cannot say: not all of it is declared",
    "allergens.may-contain.nothing": "nothing known",
    "allergens.undeclared.nothing": "nothing, all items are declared",
    "allergens.undeclared.treat": "treat as containing every allergen",
    "allergens.group": "{group} ({members})",
    "allergens.from": "from the {medium}",
    "allergens.partly-from": "some from the {medium}",
    "asked": "When a guest must avoid one of these",
    "verdict.refuse": "Do not serve",
    "verdict.without": "Serve without {items}",
    "verdict.cannot-say": "Cannot say, ask the chef",
    "verdict.anything-else": "anything else",
}

_STATION: Final = {
    "call": "{time} from call to pass",
    "portion.one": "One portion",
    "portion.one-of": "One portion, {size}",
    "element.leave-off": "can be left off, ask the pass",
    "element.hold-at": "hold at {heat}",
    "element.hold-most": "{time} at most",
    "element.after.bin": "then bin",
    "element.after.chill-once": "then chill, once only",
    "pick-up.read-ticket": "Read the ticket for allergies.",
    "fact.also-touches": "Also used",
}

_PLATE: Final = {
    "plate.warm": "warm",
    "plate.cold": "not warmed",
    "plate.seen": "seen from the guest's side: 6 o'clock is nearest the guest",
    "plate.see-guide": "places and sizes: see its plating guide",
    "plate.count.one": "On the plate: 1 thing",
    "plate.count.many": "On the plate: {count} things",
    "plate.alternative": "{plate}, {shape}, {length} by {width} mm, rim {rim} mm, from the guest's side: {elements}",
    "plate.element": "{number} {name}, {count}: {place}",
    "plate.shape.round": "round",
    "plate.shape.oval": "oval",
    "plate.shape.square": "square",
    "plate.shape.rectangle": "rectangular",
    "plate.shape.bowl": "bowl",
    "plate.shape.board": "board",
    "place.centre": "centre",
    "place.clock": "{hours} o'clock",
    "place.clock.from-one": "{hours} o'clock",
    "place.from-to": "from {start} to {end}",
    "place.reach": "{reach} of the way to the inner rim",
    "place.reach.0": "close to the centre",
    "place.reach.1": "a quarter of the way out",
    "place.reach.2": "half way out",
    "place.reach.3": "three quarters of the way out",
    "place.reach.4": "at the inner rim",
    "place.on": "on {item}",
    "place.turned": "turned {degrees}° clockwise",
    "place.height": "{height} mm high",
    "side.alternative": "{plate} cut through the middle, from the guest's side, plated first to last: {elements}",
    "side.element": "{number} {name}, {height} mm high, {base}",
    "side.element.usual": "{number} {name}, height not given, {base}",
    "side.on-plate": "on the plate",
    "side.caption": "side view, same scale, same numbers",
    "side.caption.usual": "side view, same scale; heights not given below are only indicative",
    "photo.alternative": "photograph of {dish}, plated",
    **{f"shape.{word}": word for word in _SHAPES},
}

_BATCH: Final = {
    "makes": "Makes {makes}",
    "makes.for": "Makes {makes}, for {users}",
    "base.makes": "Base batch makes {makes}",
    "base.makes.for": "Base batch makes {makes}, for {users}",
    "base.makes.portions": "Base batch makes {makes}, enough for {portions} portions of {portion}",
    "makes.portions": "Makes {makes}, enough for {portions} portions of {portion}",
    "loads": "{loads} even loads of {load}, each as below",
    "base.loads": "in {loads} even loads of {load}; the base batch is all of them",
    "loss": "{part} is lost before the plate: the amounts allow for it",
    "takes": "{lead} in all, {work} of it by hand",
    "only-for.day": "for {day} only, bin this sheet after service",
    "only-for.once": "for one batch only, bin this sheet after use",
    "only-for.covers": "for {covers} covers only, bin this sheet after service",
    "fact.for": "For",
    "fact.keeps": "Keeps",
    "fact.use-by": "Use by",
    "fact.store": "Store",
    "fact.made": "Made",
    "fact.portion": "A portion",
    "portion.size": "{amount} ({size})",
    "fact.goes-into": "Goes into",
    "fact.category": "Category",
    "fact.equipment": "Equipment",
    "fact.largest": "Largest load",
    "fact.loss": "Loss",
    "fact.takes": "Takes",
    "fact.adjust-with": "Adjust with",
    "portion": "{dish}: {carried}",
    "portion.none": "not plated by itself on this menu",
    "made.ahead": "ahead",
    "made.daily": "every service day",
    "made.within": "at most {time} before service",
    "keeps.unknown": "not stated: ask the chef before you store it",
    "keeps.day": "the day it is made",
    "keeps.day-hot": "the day its last hot stage ends",
    "keeps.days": "{time}: day 1 is {day}",
    "keeps.days-frozen": "{time} frozen: day 1 is {day}",
    "keeps.hours": "{time} from when it leaves the cold or the heat",
    "keeps.never-past": "never past the use-by of what is in it",
    "keeps.never-past-but": "never past the use-by of what is in it, {parts} aside",
    "keeps.never-past-later": "never past the use-by of what goes in after that",
    "keeps.anew": "counted anew from {stage}, as your food-safety plan allows",
    "keeps.own-date": "by a date of its own, as your food-safety plan allows",
    "keeps.days-out": "days in the freezer are not counted of what is in {parts}",
    "keeps.stands-still": "meanwhile the use-by of what is in it stands still, and goes on when it is taken out",
    "use-by.date": "**{day}**; keeps {rule}",
    "use-by.not-before": "make it no earlier than **{day}**; keeps {rule}",
    "store.unknown": "not stated: ask the chef",
    "equipment.of": "{vessel} ({count} in the house)",
    "equipment.none": "none named",
    "column.base": "base batch",
    "column.each-load": "each load",
    "column.weigh": "weigh",
    "column.in-all": "in all",
    "column.ingredient": "ingredient",
    "column.ingredient-prepped": "ingredient, weighed after its prep",
    "yield.makes": "makes",
    "yield.makes-in-all": "makes, all loads together",
    "yield.pieces": "pieces",
    "yield.loads": "loads",
    "yield.loads.each": "the figures below are for one load: make it this many times",
    "group.any": "Weigh out",
    "group.keep": "Keep",
    "keep.source": "from {item}",
    "keep.after": "after {stage}",
    "keep.for": "for {users}",
    "note.exactly": "weigh exactly: never more, never less, nothing in its place",
    "note.rate": "{percent} of {of}: {rate} of what you weighed",
    "note.rate-of-all": "{percent} of the {count} {kind}s: {rate}",
    "note.rate-of-first": "{percent} of the first {count} {kind}s: {rate}",
    "note.rate-of-some": "{percent} of {of}: {rate}",
    "note.rate-of-batch": "{percent} of all that is weighed here: {rate}",
    **{f"number.{at}": word for at, word in enumerate(("two", "three", "four", "five", "six"), start=2)},
    "rate.grams": "{grams}\u00a0g a\u00a0kg",
    "rate.ounces": "{ounces}\u00a0oz a\u00a0lb",
    "note.weigh-before": "weigh this before its prep",
    "note.weigh-as-bought": "weigh as it comes",
    "note.medium": "strained out or binned, not in the yield",
    "note.scale.whole": "whole ones only",
    "note.scale.per-load": "the same for every load",
    "brace.the": "the",
    "brace.the-named": "the {name}",
    "brace.all": "all",
    "brace.part": "{part} of the",
    "brace.part-named": "{part} of the {name}",
    "brace.to-taste": "some",
    "stage.hands-on": "hands on {time}",
    "stage.unattended": "by itself {time}",
    "stage.finish": "finish {time}",
    "stage.may-hold": "may wait {time}",
    "stage.heat": "at {heat}",
    "stage.until": "until {heat}",
    "stage.through": "through the {medium}",
    "stage.vessel-fill": "{vessel} filled to {fill}",
    "stage.attended.yes": "stay with it",
    "stage.attended.someone-in-the-building": "someone in the building",
    "stage.attended.may-be-left": "may be left",
}

_LIMITS: Final = {
    "rules.fda-food-code-2022": "FDA Food Code 2022",
    **{f"rules.{name.lower()}": name for name in ("UK", "EU")},
    "limit.title.cook": "Cook",
    "limit.title.cool": "Cool",
    "limit.title.hold": "Hold",
    "limit.title.reheat": "Reheat",
    "limit.title.freeze-for-raw": "Freeze for raw",
    "limit.title.time-as-control": "Time as control",
    "limit.title.packed-without-air": "Packed without air",
    "limit.title.acidify": "Acidify",
    "limit.title.kept-under-oil": "Kept under oil",
    "limit.rule.two-steps": "{heat_a} to {heat_b} within {time_a}, then to {heat_c} within {time_b} in all",
    "limit.rule.one-step": "made from food at room temperature, to {heat_a} within {time_a}",
    "limit.rule.cook-by-food": (
        "every part at least {heat_a} for {time_a}: whole meat, fish, eggs to order; {heat_b} for {time_b}: minced, "
        "injected or tenderised, eggs held; {heat_c}: poultry, stuffed food, wild game"
    ),
    "limit.rule.cook-equal": (
        "every part at least {heat_a} for {time_a}, or {heat_b} for {time_b}, {heat_c} for {time_c}, "
        "{heat_d} for {time_d}, {heat_e} for {time_e}"
    ),
    "limit.rule.hold": "hot at {heat_a} or above, cold at {heat_b} or below",
    "limit.rule.reheat": "every part {heat_a} for {time_a}, reached within {time_b}",
    "limit.rule.freeze": "every part at {heat_a} or below for {time_a}, or at {heat_b} or below for {time_b}",
    "limit.rule.time-or-cold": (
        "taken out at {heat_a} or below, or at {heat_b} or above: serve or bin within {time_a}; taken out at {heat_a} "
        "or below and never above {heat_c}: within {time_b}"
    ),
    "limit.rule.time-cold-and-hot": (
        "once only: cold food above {heat_a} for less than {time_a}, or hot food below {heat_b} for less than "
        "{time_b}; then bin it"
    ),
    "limit.rule.packed-barrier": (
        "at {heat_a} or below, at most {time_a}, and only with a second barrier (acid, dry, cure) that your plan names"
    ),
    "limit.rule.packed-days": "at {heat_a} or below, at most {time_a} unless your plan has a further control",
    "limit.rule.acidity": "pH {acidity} or below, all through",
    "limit.rule.oil": "at {heat_a} or below, at most {time_a}, or frozen",
    "limit.rule.no-figure": "the {rules} rules give no figure for this: your food-safety plan says",
    "limit.rule.no-figure.cool": ("as fast as you can; the {rules} rules give no figure: your food-safety plan says"),
    "limit.asked": "This card asks for {until}",
    "limit.missed.cook": "Missed? Keep cooking until it is reached, or discard: your food-safety plan says which.",
    "limit.missed.cool": (
        "Missed? Reheat fully, once, and start cooling again, or discard: your food-safety plan says which."
    ),
    "limit.missed.cool-room": "Missed? Discard, unless your food-safety plan says otherwise.",
    "limit.missed.hold": "Missed? Reheat fully or discard: your food-safety plan says which.",
    "limit.missed.reheat": "Missed? Discard. It is not cooled and reheated again.",
    "limit.missed.freeze-for-raw": "Missed? Not served raw. Cook it fully, or freeze it again for the whole time.",
    "limit.missed.time-as-control": "Missed? Discard. It does not go back into the cold or the heat.",
    "limit.missed.packed-without-air": "Missed? Discard, unopened. Do not taste it.",
    "limit.missed.acidify": "Missed? Do not store it. Acidify again and measure, or discard: your plan says which.",
    "limit.missed.kept-under-oil": "Missed? Discard. Do not taste it.",
    "limit.cited.hygiene": "Regulation (EC) 852/2004, Annex II",
    "limit.cited.hygiene-assimilated": "assimilated Regulation (EC) 852/2004, Annex II",
    "limit.cited.parasites": "Regulation (EC) 853/2004, Annex III, Section VIII, Chapter III, Part D",
    "limit.cited.parasites-assimilated": (
        "assimilated Regulation (EC) 853/2004, Annex III, Section VIII, Chapter III, Part D; "
        "UK Food Standards Agency, freezing fish (2024)"
    ),
    "limit.source": "{source}. Local code and your food-safety plan decide.",
    "log.load": "load {load}",
    "log.only-load": "log",
    "log.at-heat": "at {heat}",
    "log.after-time": "{time}",
    "log.clock": "time",
    "log.reads": "reads",
    **{f"log.{word}": word for word in _LOGGED},
    "log.out-at": "out at",
    "log.bin-at": "bin at",
    "log.use-by": "use by",
    "log.acidity": "pH",
}

_COVER: Final = {
    "cover.kicker": "{house} · Line binder",
    "cover.portions": "Portions to expect, with spare ones and tasters",
    "cover.dish": "dish",
    "cover.size": "{dish} ({size})",
    "cover.contents": "In this binder, in working order",
    "cover.cautions": "Before you cook from it",
    "cover.dates": "from {first} to {last}",
    "cover.dates-open": "from {first} until the next menu",
    "cover.from": "From the {line} line",
    "cover.menu": "Menu",
    "cover.in-force": "In force",
    "cover.cooks": "Cooks",
    "cover.set-up": "Set up by",
    "cover.doors": "Doors",
    "cover.holds": "Holds",
    "cover.name": "sheet",
    "cover.document": "document",
    "cover.fingerprint": "fingerprint",
    "caution.undeclared": "**Not declared: {what}.** For anything with them in it, ask the chef before you promise.",
    "caution.drafts": "**Drafts, not yet tested: {what}.**",
    "caution.rules": "Limits follow the {what} rules. Local code and your food-safety plan decide.",
    "caution.loose": "A sheet that says it is for one day only is loose: bin the sheet after service.",
    "caution.allergens": "Lists of allergens say what must be declared, not what is safe for a guest.",
}

ENGLISH: Final[Mapping[str, str]] = MappingProxyType(
    {
        **_COMMON,
        **_ALLERGENS,
        **_STATION,
        **_PLATE,
        **_BATCH,
        **_LIMITS,
        **ALLERGEN_SHEETS,
        **_COVER,
        **SCREEN,
        **CAUTIONS,
        **CHANGES,
        **GUEST,
        **LABELS,
        **ORDER,
        **SIZING,
        **STOCK,
        **NOTES,
        **SWAP,
        **SET_UP,
        **PLAN,
        **CALL,
        **YIELDS,
        **WEIGHING,
    }
)
