"""Food-safety limits by rule set: the figures a limit box prints, each with where it stands in its rule.

A rule's °C and °F are kept as the rule prints them; where it prints no °F, the conversion is rounded to the safe side.
The figures are the usual ones. Local code and a kitchen's own approved plan decide, and every box says so.
"""

from __future__ import annotations

from collections.abc import Mapping
from types import MappingProxyType
from typing import Final

from linebook.model.component import Limit
from linebook.source.exact import Fraction
from linebook.source.frozen import frozen

RULE_SETS: Final = ("FDA Food Code 2022", "UK", "EU")
_MINUTE: Final = 60
_HOUR: Final = 60 * _MINUTE
_DAY: Final = 24 * _HOUR


@frozen
class Heat:
    """A temperature of a rule. ``least`` is true where food must be at least this hot, false where at most."""

    celsius: int
    printed_fahrenheit: int | None = None
    least: bool = True

    @property
    def fahrenheit(self) -> int:
        """Return the rule's own °F, or the conversion rounded so that it is never looser."""
        if self.printed_fahrenheit is not None:
            return self.printed_fahrenheit
        exact = self.celsius * Fraction(9, 5) + 32
        return -(-exact // 1) if self.least else exact // 1


@frozen
class LimitRule:
    """What one rule set says of one limit. ``form`` names its sentence and the shape of its log.

    ``times`` are seconds, in the order the sentence uses them. The form ``no-figure`` has neither.
    """

    form: str
    source: str
    heats: tuple[Heat, ...] = ()
    times: tuple[int, ...] = ()
    acidity: Fraction | None = None


@frozen
class KeepingRule:
    """How long a rule lets food be kept: ``days``, the first counted in, at ``celsius`` or below."""

    days: int
    celsius: int
    source: str


NO_FIGURE: Final = "no-figure"
ONE_STEP: Final = "one-step"


def rule_for(rules: str, limit: Limit, *, from_room: bool = False) -> LimitRule:
    """Return what the named rule set says of a limit. ``rules`` is one of ``RULE_SETS``.

    ``from_room`` is true for the cooling of what was made from food at room temperature, and never was hot.
    """
    if limit is Limit.COOL and from_room and rules in _FROM_ROOM:
        return _FROM_ROOM[rules]
    return _TABLE[rules][limit]


def date_mark(rules: str) -> KeepingRule | None:
    """Return how long food that is ready to eat is kept cold under a rule set, None where the house decides.

    The day it is made, or opened, is day 1 of 7; what is mixed takes the date of the part made first; freezing stops
    the count and does not start it anew.
    """
    return _DATE_MARKS.get(rules)


def pack_rules(rules: str) -> tuple[KeepingRule, ...]:
    """Return how long food packed without air is kept by the cold alone, each way the rule set has, warmest first."""
    return _COLD_ALONE.get(rules, ())


def _most(celsius: int, fahrenheit: int | None = None) -> Heat:
    return Heat(celsius=celsius, printed_fahrenheit=fahrenheit, least=False)


def _least(celsius: int, fahrenheit: int | None = None) -> Heat:
    return Heat(celsius=celsius, printed_fahrenheit=fahrenheit)


_FOOD_CODE: Final = "FDA Food Code 2022"
_ENGLAND: Final = "Food Safety and Hygiene (England) Regulations 2013, Schedule 4"
_EU_HYGIENE: Final = "Regulation (EC) 852/2004, Annex II"
_PARASITES: Final = "Regulation (EC) 853/2004, Annex III, Section VIII, Chapter III, Part D"
_OIL: Final = LimitRule(
    form="oil",
    heats=(_most(4, 40),),
    times=(7 * _DAY,),
    source="National Center for Home Food Preservation, garlic in oil (2002)",
)
_FREEZE_EU: Final = LimitRule(
    form="freeze", heats=(_most(-20), _most(-35)), times=(24 * _HOUR, 15 * _HOUR), source=_PARASITES
)

_FDA: Final[Mapping[Limit, LimitRule]] = {
    Limit.COOK: LimitRule(
        form="cook-by-food",
        heats=(_least(63, 145), _least(68, 155), _least(74, 165)),
        times=(15, 17),
        source=f"{_FOOD_CODE}, 3-401.11(A)",
    ),
    Limit.COOL: LimitRule(
        form="two-steps",
        heats=(_least(57, 135), _most(21, 70), _most(5, 41)),
        times=(2 * _HOUR, 6 * _HOUR),
        source=f"{_FOOD_CODE}, 3-501.14(A)",
    ),
    Limit.HOLD: LimitRule(form="hold", heats=(_least(57, 135), _most(5, 41)), source=f"{_FOOD_CODE}, 3-501.16(A)"),
    Limit.REHEAT: LimitRule(
        form="reheat",
        heats=(_least(74, 165),),
        times=(15, 2 * _HOUR),
        source=f"{_FOOD_CODE}, 3-403.11(A) and (D)",
    ),
    Limit.FREEZE: LimitRule(
        form="freeze",
        heats=(_most(-20, -4), _most(-35, -31)),
        times=(7 * _DAY, 15 * _HOUR),
        source=f"{_FOOD_CODE}, 3-402.11(A)",
    ),
    Limit.TIME: LimitRule(
        form="time-or-cold",
        heats=(_most(5, 41), _least(57, 135), _most(21, 70)),
        times=(4 * _HOUR, 6 * _HOUR),
        source=f"{_FOOD_CODE}, 3-501.19",
    ),
    Limit.PACKED: LimitRule(
        form="packed-barrier", heats=(_most(5, 41),), times=(30 * _DAY,), source=f"{_FOOD_CODE}, 3-502.12(B)"
    ),
    Limit.ACIDIFY: LimitRule(
        form="acidity", acidity=Fraction("4.6"), source=f"21 CFR 114.3 and {_FOOD_CODE}, 1-201.10(B)"
    ),
    Limit.OIL: _OIL,
}

_UK: Final[Mapping[Limit, LimitRule]] = {
    Limit.COOK: LimitRule(
        form="cook-equal",
        heats=(_least(60), _least(65), _least(70), _least(75), _least(80)),
        times=(45 * _MINUTE, 10 * _MINUTE, 2 * _MINUTE, 30, 6),
        source="UK Food Standards Agency, cooking guidance",
    ),
    Limit.COOL: LimitRule(form=NO_FIGURE, source=f"assimilated {_EU_HYGIENE}"),
    Limit.HOLD: LimitRule(form="hold", heats=(_least(63), _most(8)), source=_ENGLAND),
    Limit.REHEAT: LimitRule(form=NO_FIGURE, source=f"assimilated {_EU_HYGIENE}"),
    Limit.FREEZE: LimitRule(
        form="freeze",
        heats=_FREEZE_EU.heats,
        times=_FREEZE_EU.times,
        source=f"assimilated {_PARASITES}; UK Food Standards Agency, freezing fish (2024)",
    ),
    Limit.TIME: LimitRule(
        form="time-cold-and-hot", heats=(_most(8), _least(63)), times=(4 * _HOUR, 2 * _HOUR), source=_ENGLAND
    ),
    Limit.PACKED: LimitRule(
        form="packed-days",
        heats=(_most(8),),
        times=(10 * _DAY,),
        source="UK Food Standards Agency, vacuum and modified atmosphere packed chilled foods (2020)",
    ),
    Limit.ACIDIFY: LimitRule(form=NO_FIGURE, source=f"assimilated {_EU_HYGIENE}"),
    Limit.OIL: _OIL,
}

_EU: Final[Mapping[Limit, LimitRule]] = {
    **{limit: LimitRule(form=NO_FIGURE, source=_EU_HYGIENE) for limit in Limit},
    Limit.FREEZE: _FREEZE_EU,
    Limit.OIL: _OIL,
}

_FROM_ROOM: Final[Mapping[str, LimitRule]] = MappingProxyType(
    {
        _FOOD_CODE: LimitRule(
            form=ONE_STEP, heats=(_most(5, 41),), times=(4 * _HOUR,), source=f"{_FOOD_CODE}, 3-501.14(B)"
        )
    }
)

_DATE_MARKS: Final[Mapping[str, KeepingRule]] = MappingProxyType(
    {_FOOD_CODE: KeepingRule(days=7, celsius=5, source=f"{_FOOD_CODE}, 3-501.17")}
)

_COLD_ALONE: Final[Mapping[str, tuple[KeepingRule, ...]]] = MappingProxyType(
    {
        _FOOD_CODE: (
            KeepingRule(days=7, celsius=5, source=f"{_FOOD_CODE}, 3-502.12(D)"),
            KeepingRule(days=30, celsius=1, source=f"{_FOOD_CODE}, 3-502.12(D)"),
        ),
        "UK": (KeepingRule(days=10, celsius=8, source=_UK[Limit.PACKED].source),),
    }
)

_TABLE: Final[Mapping[str, Mapping[Limit, LimitRule]]] = MappingProxyType(
    dict(zip(RULE_SETS, (_FDA, _UK, _EU), strict=True))
)
