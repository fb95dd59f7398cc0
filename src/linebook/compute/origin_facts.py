"""What is known of where bought items come from, and of which are raw, as facts for a kitchen.

What nobody has said is undeclared here as among allergens: an item without an origin for every diet, gelatine whose
animal is not named for those diets it matters to, an egg that no stage cooks for the question of raw egg alone.
"""

from __future__ import annotations

from collections.abc import Iterable
from typing import Final

from linebook.compute.makeup import Facts, Makeup, Trace
from linebook.model.component import Limit, Stage
from linebook.model.diets import MAY_BE_RAW, UNPASTEURISED
from linebook.model.house import House
from linebook.model.limits import RULE_SETS, rule_for
from linebook.model.origins import MAY_BE_UNPASTEURISED, ORIGINS, origins_of
from linebook.model.pantry import PantryItem
from linebook.source.exact import Fraction

_AT_ONCE: Final = 30
"""Seconds: food that has reached the temperature a rule holds this long has been held as long."""


def origin_facts(house: House) -> Facts:
    """Return where every bought item comes from."""
    return Facts(bought={id_: _origins(item) for id_, item in house.pantry.items()})


def raw_facts(house: House) -> Facts:
    """Return which bought items are animal foods that are raw, or not pasteurised, until a stage cooks them.

    What a card says is raw stays raw, whatever a later stage does. Pasteurised egg counts as cooked
    (FDA Food Code 2022, 3-801.11).
    """
    bought = {id_: _perhaps_raw(item) for id_, item in house.pantry.items()}
    said = {part.id: part.raw for part in house.components.values() if part.raw}
    figure = cooked_from(house.file.rules)
    return Facts(
        bought=bought,
        made={id_: _said_raw(house, items) for id_, items in said.items()},
        cooked=frozenset(
            (part.id, number)
            for part in house.components.values()
            for number, stage in enumerate(part.stages)
            if cooks(stage, figure)
        ),
        cooked_away=frozenset((UNPASTEURISED,)),
        served_raw=MAY_BE_RAW,
    )


def cooks(stage: Stage, figure: Fraction | None) -> bool:
    """Return whether a stage cooks all that is in it: it is under the limit, or ends at ``figure`` °C or above."""
    if stage.limit is Limit.COOK:
        return True
    return figure is not None and stage.until is not None and stage.until.celsius >= figure


def cooked_from(rules: str) -> Fraction | None:
    """Return the °C inside from which any food is cooked at once under a rule set; None where it gives no figure.

    FDA Food Code 3-401.11(A): 74 °C, the highest of its rows. UK cooking guidance: 75 °C for 30 s.
    """
    if rules not in RULE_SETS:
        return None
    rule = rule_for(rules, Limit.COOK)
    if not rule.heats:
        return None
    if len(rule.heats) != len(rule.times):
        return Fraction(max(heat.celsius for heat in rule.heats))
    at_once = [heat.celsius for heat, time in zip(rule.heats, rule.times, strict=True) if time <= _AT_ONCE]
    return Fraction(min(at_once)) if at_once else None


def _origins(item: PantryItem) -> Makeup:
    sure = _words(item)
    perhaps = origins_of(item.allergens.may_contain if item.allergens else ()) - sure
    unsure = {kind for word in sure for kind in ORIGINS[word].could_be} - sure
    if item.origin is None:
        unsure.add("")
    return Makeup(contains=_traces(sure, item), may=_traces(perhaps, item), undeclared=_traces(unsure, item))


def _perhaps_raw(item: PantryItem) -> Makeup:
    """Return the animal foods in an item, each as not known to be cooked; all of it where its origin is not known."""
    unsure = set(_animal_foods(item))
    if item.origin is None:
        unsure.add("")
    if item.unpasteurised is None and _words(item) & MAY_BE_UNPASTEURISED:
        unsure.add(UNPASTEURISED)
    sure = (UNPASTEURISED,) if item.unpasteurised else ()
    return Makeup(contains=_traces(sure, item), undeclared=_traces(unsure, item))


def _said_raw(house: House, items: Iterable[str]) -> Makeup:
    bought = [house.pantry[item] for item in items if item in house.pantry]
    return Makeup(contains=frozenset().union(*(_traces(_animal_foods(item), item) for item in bought)))


def _animal_foods(item: PantryItem) -> frozenset[str]:
    found = _words(item) & MAY_BE_RAW
    return found - {"egg"} if item.unpasteurised is False else found


def _words(item: PantryItem) -> frozenset[str]:
    return frozenset(item.origin or ()) | origins_of(item.allergens.contains if item.allergens else ())


def _traces(words: Iterable[str], item: PantryItem) -> frozenset[Trace]:
    return frozenset(Trace(word, item.id) for word in words)
