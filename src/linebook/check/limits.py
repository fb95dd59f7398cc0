"""The figures that a spec can plainly contradict, taken from the house's rule set.

They are floors and ceilings for faults only: what the sheets print, and what the local authority asks, is not
decided here. Where a rule allows two figures the looser one is taken, so that a fault is certain.
"""

from __future__ import annotations

from collections.abc import Mapping
from functools import lru_cache
from types import MappingProxyType
from typing import Final

from linebook.check.words import celsius_text, number_text
from linebook.model.amounts import Temperature
from linebook.model.component import Limit
from linebook.model.limits import NO_FIGURE, RULE_SETS, rule_for
from linebook.source.exact import Fraction
from linebook.source.frozen import frozen

HOT_FROM: Final = Fraction(57)
"""From this temperature a stage counts as hot (FDA Food Code 3-501.14(A): cooling starts at 57 °C)."""

COLD_TO: Final = Fraction(8)
"""Storage up to this temperature counts as cold under every rule set (UK Schedule 4: 8 °C; FDA 5 °C)."""

_ROASTS_HELD: Final[Mapping[str, Fraction]] = MappingProxyType({"FDA Food Code 2022": Fraction(54)})
"""3-501.16(A)(1): a roast may be held at 54 °C, where other food asks for 57 °C."""

_LEAST_COOKED: Final[Mapping[str, Fraction]] = MappingProxyType({"FDA Food Code 2022": Fraction(54)})
"""3-401.11(B): the lowest row of the table for roasts is 54.4 °C, printed as 54 °C (130 °F)."""

_CHILLED_MINUTES: Final[Mapping[str, Fraction]] = MappingProxyType(
    {
        "FDA Food Code 2022": Fraction(360),  # 3-501.19(C): 6 h from 5 °C, never above 21 °C
        "UK": Fraction(240),  # Food Safety and Hygiene (England) Regulations 2013, Schedule 4: one period of 4 h
    }
)
CHILLED_TO: Final = Fraction(21)
"""Up to this temperature chilled food may wait for the longer time (FDA Food Code 3-501.19(C))."""

_WARM_MINUTES: Final[Mapping[str, Fraction]] = MappingProxyType(
    {
        "FDA Food Code 2022": Fraction(240),  # 3-501.19(B): 4 h with time as the control
        "UK": Fraction(120),  # Food Safety and Hygiene (England) Regulations 2013, Schedule 4: one period of 2 h
    }
)


_PRINTED: Final[Mapping[Fraction, int]] = MappingProxyType(
    {
        Fraction(heat.celsius): heat.printed_fahrenheit
        for rules in RULE_SETS
        for limit in Limit
        for heat in rule_for(rules, limit).heats
        if heat.printed_fahrenheit is not None
    }
    | {Fraction(54): 130, Fraction(1): 34}  # FDA Food Code 3-501.16(A)(1) and 3-502.12(D)(2)(e)
)
"""The °F that a rule prints beside its °C, as 74 °C (165 °F): not quite the same, and a kitchen reads one of them."""


def reaches(celsius: Fraction, least: Fraction) -> bool:
    """Return whether food is as hot as a rule's figure in °C asks, or as the °F printed beside it."""
    return celsius >= min(least, _beside(least))


def stays_within(celsius: Fraction, most: Fraction) -> bool:
    """Return whether food is as cold as a rule's figure in °C asks, or as the °F printed beside it."""
    return celsius <= max(most, _beside(most))


@lru_cache(maxsize=64)  # the rules have a few figures, and each card is held against them
def _beside(celsius: Fraction) -> Fraction:
    printed = _PRINTED.get(celsius)
    return celsius if printed is None else Fraction(printed - 32) * 5 / 9


def figure_text(celsius: Fraction | None, typed: Temperature | None) -> str:
    """Return a rule's figure in the scale in which the chef typed what breaks it."""
    if celsius is None or typed is None or not typed.fahrenheit:
        return celsius_text(celsius)
    printed = _PRINTED.get(celsius)
    return f"{number_text(celsius * 9 / 5 + 32) if printed is None else printed} °F"


@frozen
class Figures:
    """What one rule set asks, in °C and minutes; None where it gives no figure.

    ``hot_at_least`` is the figure to print, ``hot_for_some`` the lower one that some food may be held at.
    ``warm_minutes`` is how long food may wait that was hot, ``chilled_minutes`` food that was cold. ``cool_minutes``
    are both clocks of cooling, ``cool_room_minutes`` the one of what never was hot, ``freeze_minutes`` the time at each
    temperature of freezing for raw, warmest first.
    """

    rules: str
    cold_at_most: Fraction | None
    hot_at_least: Fraction | None
    hot_for_some: Fraction | None
    warm_minutes: Fraction | None
    chilled_minutes: Fraction | None
    reheat_to: Fraction | None
    reheat_minutes: Fraction | None
    cook_to: Fraction | None
    cool_first_to: Fraction | None
    cool_last_to: Fraction | None
    cool_minutes: tuple[Fraction, ...]
    cool_room_minutes: tuple[Fraction, ...]
    freeze_raw_to: Fraction | None
    freeze_minutes: tuple[tuple[Fraction, Fraction], ...]


def figures_for(rules: str) -> Figures | None:
    """Return the figures of a rule set, or None for one that is not known."""
    if rules not in RULE_SETS:
        return None
    return Figures(
        rules=rules,
        cold_at_most=_heat(rules, Limit.HOLD, 1),
        hot_at_least=_heat(rules, Limit.HOLD, 0),
        hot_for_some=_ROASTS_HELD.get(rules, _heat(rules, Limit.HOLD, 0)),
        warm_minutes=_WARM_MINUTES.get(rules),
        chilled_minutes=_CHILLED_MINUTES.get(rules),
        reheat_to=_heat(rules, Limit.REHEAT, 0),
        reheat_minutes=next(iter(_minutes(rules, Limit.REHEAT)[1:]), None),
        cook_to=_LEAST_COOKED.get(rules),
        cool_first_to=_heat(rules, Limit.COOL, 1),
        cool_last_to=_heat(rules, Limit.COOL, 2),
        cool_minutes=_minutes(rules, Limit.COOL),
        cool_room_minutes=_minutes(rules, Limit.COOL, from_room=True),
        freeze_raw_to=_heat(rules, Limit.FREEZE, 0),
        freeze_minutes=_freezing(rules),
    )


def _minutes(rules: str, limit: Limit, *, from_room: bool = False) -> tuple[Fraction, ...]:
    return tuple(Fraction(seconds, 60) for seconds in rule_for(rules, limit, from_room=from_room).times)


def _freezing(rules: str) -> tuple[tuple[Fraction, Fraction], ...]:
    heats = rule_for(rules, Limit.FREEZE).heats
    return tuple(zip((Fraction(heat.celsius) for heat in heats), _minutes(rules, Limit.FREEZE), strict=True))


def _heat(rules: str, limit: Limit, number: int) -> Fraction | None:
    rule = rule_for(rules, limit)
    return None if rule.form == NO_FIGURE or len(rule.heats) <= number else Fraction(rule.heats[number].celsius)
