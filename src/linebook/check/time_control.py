"""What waits outside the heat and the cold waits no longer than time as a control allows (LB508).

Only where the card itself says that the food needs control: it is kept cold, waits warm, or names the limit. Bread and
crisps at room temperature are nobody's fault.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from typing import Final

from linebook.check.cold_keeping import is_hot, is_kept_cold
from linebook.check.index import Index, place
from linebook.check.limits import CHILLED_TO, Figures, figure_text, stays_within
from linebook.check.words import number_text, temperature_text
from linebook.model.component import Component, Limit, Stage
from linebook.model.dish import Dish, Hold
from linebook.model.house import Climate, Workplace
from linebook.model.times import write_duration
from linebook.source.codes import fault
from linebook.source.exact import Fraction
from linebook.source.faults import Fault

_WARM_FROM: Final = Fraction(40)
_COLD: Final = (Climate.COLD, Climate.FROZEN)

Places = Mapping[str, Workplace]


def check_stage_time(component: Component, number: int, places: Places, figures: Figures) -> Iterator[Fault]:
    """Yield a fault for a stage with time as its control that takes, or may wait, longer than the rule allows."""
    stage = component.stages[number]
    most = longest_wait(figures, _kept(stage, places))
    if was_hot(component, number, places):
        most = figures.warm_minutes
    for name, time in (("unattended", stage.unattended), ("may_hold", stage.may_hold)):
        if most is not None and time is not None and time.most > most:
            yield fault(
                "LB508",
                f"`{stage.name}` has `limit: {Limit.TIME.value}`, and may last {write_duration(time)}",
                stage.at(name),
                hints=(f"{figures.rules} lets it wait {number_text(most / 60)} h, then it is binned",),
            )


def check_timed_store(component: Component, figures: Figures) -> Iterator[Fault]:
    """Yield a fault for what is kept warm, or has time as its control, and is said to keep longer than that."""
    store, keeps = component.store, component.keeps
    if keeps is None or store is None or store.temperature is None:
        return
    at, low, high = store.temperature.celsius, figures.cold_at_most, figures.hot_for_some
    timed = any(stage.limit is Limit.TIME for stage in component.stages)
    most = longest_wait(figures, at)
    if most is None or low is None or high is None or not low < at < high or not (timed or at >= _WARM_FROM):
        return
    if keeps.in_days or keeps.most > most:
        hours = number_text(most / 60)
        yield fault(
            "LB508",
            f"{component.name} keeps {write_duration(keeps)} at {temperature_text(store.temperature)}, "
            "neither hot nor cold",
            component.at("keeps"),
            hints=(
                f"write `keeps: {hours} h`: {figures.rules} lets it wait no longer, then it is binned",
                f"or keep it at {figure_text(figures.hot_at_least, store.temperature)} or more, "
                f"or {figure_text(low, store.temperature)} or less",
            ),
        )


def check_holds(index: Index, dish: Dish, places: Places, figures: Figures) -> Iterator[Fault]:
    """Yield a fault for each element that waits neither hot nor cold for longer than the rule allows."""
    for element in dish.elements:
        hold = element.hold
        if hold is None or hold.temperature is None:
            continue
        at = hold.temperature.celsius
        low, high = figures.cold_at_most, figures.hot_for_some
        if high is not None and figures.warm_minutes is not None and _WARM_FROM <= at < high:
            yield from _waits(element.item, hold, "warm", figures.warm_minutes, figures)
        elif low is not None and low < at < _WARM_FROM and _needs_cold(index, element.item, places):
            yield from _waits(element.item, hold, "out of the cold", longest_wait(figures, at), figures)


def _waits(item: str, hold: Hold, how: str, most: Fraction | None, figures: Figures) -> Iterator[Fault]:
    if most is None or (hold.most is not None and hold.most.most <= most):
        return
    assert hold.temperature is not None
    keep = figures.hot_at_least if how == "warm" else figures.cold_at_most
    than = "more" if how == "warm" else "less"
    yield fault(
        "LB508",
        f"`{item}` waits {how} at {temperature_text(hold.temperature)}",
        place(hold, "at", "temperature"),
        hints=(
            f"{figures.rules} asks for {figure_text(keep, hold.temperature)} or {than}",
            f"or say how long it may wait, up to `most: {number_text(most / 60)} h`",
        ),
    )


def _needs_cold(index: Index, item: str, places: Places) -> bool:
    component = index.components.get(item)
    return component is not None and component.kept_by is None and is_kept_cold(component, places)


def was_hot(component: Component, number: int, places: Places) -> bool | None:
    """Return whether what goes into a stage comes out of the heat; false out of the cold, None where nobody says."""
    for before in reversed(component.stages[:number]):
        where = places.get(before.where or "")
        if before.limit in (Limit.COOL, Limit.FREEZE) or (where is not None and where.climate in _COLD):
            return False
        if before.through or is_hot(before, places):
            return True
    return None


def surest_wait(figures: Figures, component: Component, number: int, places: Places) -> Fraction | None:
    """Return for how many minutes food may wait at a stage: the shortest that the rules know where nobody says.

    Only what is known to come out of the cold, and under FDA rules to stay at 21 °C or below, has the longer time.
    """
    kept = _kept(component.stages[number], places)
    stays = not figures.rules.startswith("FDA") or (kept is not None and stays_within(kept, CHILLED_TO))
    if was_hot(component, number, places) is False and stays:
        return longest_wait(figures, kept)
    known = [one for one in (figures.warm_minutes, figures.chilled_minutes) if one is not None]
    return min(known, default=None)


def _kept(stage: Stage, places: Places) -> Fraction | None:
    where = places.get(stage.where or "")
    kept = stage.until or stage.heat or (where.temperature if where is not None else None)
    return None if kept is None else kept.celsius


def longest_wait(figures: Figures, at: Fraction | None) -> Fraction | None:
    """Return for how many minutes food may wait at a temperature; the longest the rules know where nobody says."""
    if at is not None and at >= _WARM_FROM:
        return figures.warm_minutes
    if at is not None and not stays_within(at, CHILLED_TO) and figures.rules.startswith("FDA"):
        return figures.warm_minutes
    return figures.chilled_minutes
