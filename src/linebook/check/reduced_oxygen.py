"""What is packed without air, or lies under oil, is kept as cold and as short as its rule says (LB527).

FDA Food Code 3-502.12: one more barrier 30 days at 5 °C; cooked and packed with none 7 days at 5 °C, 30 days at 1 °C,
without end while frozen. UK Food Standards Agency: 10 days from 3 to 8 °C without a further control. Under oil: 4 °C,
7 days, or frozen. Where a rule has two figures the looser one is taken, so that a fault is certain.
"""

from __future__ import annotations

from collections.abc import Iterator
from typing import Final

from linebook.check.cold_keeping import days_kept, is_hot, places_of
from linebook.check.date_marking import KEPT_BY
from linebook.check.index import Index, place
from linebook.check.limits import figure_text, stays_within
from linebook.check.words import celsius_text, temperature_text
from linebook.model.component import Component, KeptBy, Limit, Stage
from linebook.model.dating import Places, is_kept_frozen, store_celsius
from linebook.model.limits import NO_FIGURE, RULE_SETS, LimitRule, pack_rules, rule_for
from linebook.model.times import write_duration
from linebook.source.codes import fault
from linebook.source.exact import Fraction
from linebook.source.faults import Fault, Related

_DAY: Final = 24 * 60 * 60
_TOO_COLD_TO_GROW: Final = Fraction(3)
"""Below this Clostridium botulinum does not grow (UK Food Standards Agency, from memory): its rule starts at 3 °C."""


def check_reduced_oxygen(index: Index) -> Iterator[Fault]:
    """Yield a fault for each component whose store or keeping time breaks the rule for packs, or for food under oil."""
    if index.file is None:
        return
    rules = index.file.rules
    if rules not in RULE_SETS:
        return
    places = places_of(index)
    for component in index.components.values():
        if is_kept_frozen(component, places):
            continue
        for at, stage in enumerate(component.stages):
            if stage.limit is Limit.PACKED:
                yield from _against_pack(component, at, rules, places)
            elif stage.limit is Limit.OIL:
                yield from _against_oil(component, stage, rules, places)


def _against_pack(component: Component, at: int, rules: str, places: Places) -> Iterator[Fault]:
    rule = rule_for(rules, Limit.PACKED)
    if rule.form == NO_FIGURE or component.kept_by is KeptBy.PLAN:
        return
    stage, celsius = component.stages[at], store_celsius(component, places)
    yield from _too_warm(component, stage, rule, celsius)
    barrier = component.kept_by is not None or any(one.limit is Limit.ACIDIFY for one in component.stages)
    cooked = any(is_hot(one, places) for one in component.stages)
    days, source = rule.times[0] // _DAY, rule.source
    if rules == "UK":
        if barrier or (celsius is not None and celsius < _TOO_COLD_TO_GROW):
            return
    elif cooked and not barrier:
        alone = [one for one in pack_rules(rules) if celsius is None or stays_within(celsius, Fraction(one.celsius))]
        if not alone:
            return  # too warm already
        longest = max(alone, key=lambda one: one.days) if celsius is not None else alone[0]
        days, source = longest.days, longest.source
    if component.keeps is not None and days_kept(component.keeps) > days:
        hints = [f"write `keeps: {days} d` ({source}), or store it frozen"]
        if not barrier:
            hints.append(f"or say what keeps it beside the cold, as your plan does: `kept_by`, one of {KEPT_BY}")
        yield _too_long(component, stage, days, tuple(hints))


def _against_oil(component: Component, stage: Stage, rules: str, places: Places) -> Iterator[Fault]:
    acid = any(one.limit is Limit.ACIDIFY for one in component.stages)
    if acid or component.kept_by in (KeptBy.ACID, KeptBy.PLAN):
        return
    rule = rule_for(rules, Limit.OIL)
    days = rule.times[0] // _DAY
    yield from _too_warm(component, stage, rule, store_celsius(component, places))
    if component.keeps is not None and days_kept(component.keeps) > days:
        yield _too_long(component, stage, days, (f"write `keeps: {days} d` ({rule.source}), or store it frozen",))


def _too_warm(component: Component, stage: Stage, rule: LimitRule, celsius: Fraction | None) -> Iterator[Fault]:
    most = Fraction(rule.heats[0].celsius)
    if celsius is None or stays_within(celsius, most):
        return
    assert component.store is not None
    typed = component.store.temperature
    at = temperature_text(typed) if typed is not None else celsius_text(celsius)
    yield fault(
        "LB527",
        f"{component.name} is stored at {at}, with `limit: {_said(stage)}`",
        place(component.store, "at", "temperature", "where", "place"),
        hints=(f"store it at {figure_text(most, typed)} or less ({rule.source}), or frozen",),
        related=(Related(span=stage.at("limit"), label="the limit"),),
    )


def _too_long(component: Component, stage: Stage, days: int, hints: tuple[str, ...]) -> Fault:
    assert component.keeps is not None
    return fault(
        "LB527",
        f"{component.name} keeps {write_duration(component.keeps)}, and `limit: {_said(stage)}` allows {days} days",
        component.at("keeps"),
        hints=hints,
        related=(Related(span=stage.at("limit"), label="the limit"),),
    )


def _said(stage: Stage) -> str:
    return stage.limit.value if stage.limit is not None else ""
