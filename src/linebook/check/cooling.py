"""What was hot is cooled before it is cold, and no stage contradicts the limit it names (LB503, LB508)."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from fractions import Fraction
from typing import Final

from linebook.check.index import Index, place
from linebook.check.limits import COLD_TO, HOT_FROM, Figures, figures_for
from linebook.check.stages import stages_of
from linebook.check.words import number_text
from linebook.model.amounts import Temperature
from linebook.model.component import Component, Limit, Stage
from linebook.model.dish import Dish
from linebook.model.house import Climate, Workplace
from linebook.source.codes import fault
from linebook.source.faults import Fault, Related
from linebook.source.spans import Span

_COLD: Final = (Climate.COLD, Climate.FROZEN)
_COOLS: Final = (Limit.COOL, Limit.FREEZE)
_WARM_FROM: Final = Fraction(40)

Places = Mapping[str, Workplace]


def check_cooling(index: Index) -> Iterator[Fault]:
    """Yield a fault for each hot stage that leads to a cold place, or to cold storage, with no cooling between."""
    places = _places(index)
    for component in index.components.values():
        if not index.is_incomplete(component.id) and not any(stages_of(component)):
            yield from _uncooled(component, places)


def check_limits(index: Index) -> Iterator[Fault]:
    """Yield a fault for each stage, store or hold whose own figures break the limit it names."""
    figures = figures_for(index.file.rules) if index.file is not None else None
    if figures is None:
        return
    places = _places(index)
    for component in index.components.values():
        for stage in component.stages:
            yield from _against_limit(stage, places, figures)
        yield from _against_store(component, places, figures)
    for dish in index.dishes.values():
        yield from _against_holds(dish, figures)


def _places(index: Index) -> Places:
    return {where.id: where for where in index.file.places} if index.file is not None else {}


def _uncooled(component: Component, places: Places) -> Iterator[Fault]:
    hot: Stage | None = None
    for stage in component.stages:
        where = places.get(stage.where or "")
        if stage.limit in _COOLS:
            hot = None
        elif _is_hot(stage, where):
            hot = stage
        elif hot is not None and where is not None and where.climate in _COLD:
            yield fault(
                "LB503",
                f"`{stage.name}` is in {where.name}, after `{hot.name}` which is hot, with no stage that cools",
                stage.at("where"),
                hints=("add `limit: cool` to the stage that cools it down, or a stage of its own",),
                related=(Related(span=place(hot, "until", "heat", "where", "limit"), label="hot here"),),
            )
            hot = None
    if hot is not None and component.store is not None:
        store = component.store
        where = places.get(store.place or "")
        cold_at = store.temperature is not None and store.temperature.celsius <= COLD_TO
        if cold_at or (where is not None and where.climate in _COLD):
            yield fault(
                "LB503",
                f"{component.name} is stored cold, and no stage cools it down after `{hot.name}`",
                place(store, "at", "temperature", "where"),
                hints=("add a stage with `limit: cool` after it, and its heading in the method",),
                related=(Related(span=place(hot, "until", "heat", "where", "limit"), label="hot here"),),
            )


def _is_hot(stage: Stage, where: Workplace | None) -> bool:
    if stage.limit in (Limit.COOK, Limit.REHEAT) or (where is not None and where.climate is Climate.HOT):
        return True
    return any(t is not None and t.celsius >= HOT_FROM for t in (stage.heat, stage.until))


def _against_limit(stage: Stage, places: Places, figures: Figures) -> Iterator[Fault]:
    where = places.get(stage.where or "")
    if stage.limit in (Limit.REHEAT, Limit.COOK):
        yield from _too_cool(stage, figures)
    elif stage.limit is Limit.COOL:
        yield from _not_cooled(stage, where, figures)
    elif stage.limit is Limit.FREEZE:
        yield from _not_frozen(stage, where, figures)
    elif stage.limit is Limit.HOLD:
        yield from _neither_hot_nor_cold(stage, figures)


def _too_cool(stage: Stage, figures: Figures) -> Iterator[Fault]:
    reheats = stage.limit is Limit.REHEAT
    floor = figures.reheat_to if reheats else figures.cook_to
    if stage.until is None or floor is None or stage.until.celsius >= floor:
        return
    what = f"{'reheating' if reheats else 'cooking'} ends at {_shown(stage.until)}"
    mend = f"{figures.rules} asks for {_at(floor)} or more"
    if not reheats:
        mend = f"{figures.rules} has nothing below {_at(floor)}: check the figure, and whether it is °C or °F"
    yield _broken(stage, what, mend, stage.at("until"))


def _not_cooled(stage: Stage, where: Workplace | None, figures: Figures) -> Iterator[Fault]:
    if where is not None and where.climate is Climate.HOT:
        yield _broken(stage, f"cooling happens in {where.name}, a hot place", "name a cold place", stage.at("where"))
    ceiling = HOT_FROM if figures.cool_first_to is None else figures.cool_first_to
    if stage.until is not None and stage.until.celsius > ceiling:
        what = f"cooling ends at {_shown(stage.until)}"
        yield _broken(stage, what, f"write {_at(ceiling)} or less", stage.at("until"))


def _not_frozen(stage: Stage, where: Workplace | None, figures: Figures) -> Iterator[Fault]:
    kept = stage.until or stage.heat or (where.temperature if where is not None else None)
    ceiling = figures.freeze_raw_to
    if kept is not None and ceiling is not None and kept.celsius > ceiling:
        mend = f"{figures.rules} asks for {_at(ceiling)} or colder"
        span = place(stage, "until", "heat", "where", "limit")
        yield _broken(stage, f"freezing for raw is at {_shown(kept)}", mend, span)


def _neither_hot_nor_cold(stage: Stage, figures: Figures) -> Iterator[Fault]:
    kept, low, high = stage.until or stage.heat, figures.cold_at_most, figures.hot_for_some
    if kept is not None and low is not None and high is not None and low < kept.celsius < high:
        mend = f"{figures.rules} asks for {_at(low)} or less, or {_at(figures.hot_at_least)} or more"
        yield _broken(stage, f"holding is at {_shown(kept)}", mend, place(stage, "until", "heat"))


def _broken(stage: Stage, what: str, mend: str, span: Span) -> Fault:
    limit = stage.limit.value if stage.limit is not None else ""
    return fault("LB508", f"`{stage.name}` has `limit: {limit}`, but {what}", span, hints=(mend,))


def _against_store(component: Component, places: Places, figures: Figures) -> Iterator[Fault]:
    store = component.store
    if store is None or store.temperature is None:
        return
    at, where = store.temperature, places.get(store.place or "")
    span = place(store, "at", "temperature")
    frozen = where is not None and where.climate is Climate.FROZEN
    if where is not None and frozen and at.celsius > 0:
        yield fault(
            "LB508",
            f"{component.name} is stored at {_shown(at)}, and {where.name} is a frozen place",
            span,
            hints=("write the temperature below zero, or name another place",),
        )
        return
    cools = any(stage.limit is Limit.COOL for stage in component.stages)
    cold = cools or (where is not None and where.climate is Climate.COLD)
    ceiling = figures.cold_at_most
    if cold and ceiling is not None and ceiling < at.celsius < HOT_FROM:
        why = f"in {where.name}" if where is not None and where.climate is Climate.COLD else "after cooling"
        yield fault(
            "LB508",
            f"{component.name} is stored cold {why}, but at {_shown(at)}",
            span,
            hints=(f"{figures.rules} asks for {_at(ceiling)} or less",),
        )


def _against_holds(dish: Dish, figures: Figures) -> Iterator[Fault]:
    for element in dish.elements:
        hold = element.hold
        if hold is None or hold.temperature is None or figures.hot_for_some is None or figures.warm_minutes is None:
            continue
        too_long = hold.most is None or hold.most.most > figures.warm_minutes
        if _WARM_FROM <= hold.temperature.celsius < figures.hot_for_some and too_long:
            hours = number_text(figures.warm_minutes / 60)
            yield fault(
                "LB508",
                f"`{element.item}` waits warm at {_shown(hold.temperature)}",
                place(hold, "at", "temperature"),
                hints=(
                    f"{figures.rules} asks for {_at(figures.hot_at_least)} or more",
                    f"or say how long it may wait, up to `most: {hours} h`",
                ),
            )


def _shown(temperature: Temperature) -> str:
    if temperature.fahrenheit:
        return f"{number_text(temperature.celsius * 9 / 5 + 32)} °F"
    return _at(temperature.celsius)


def _at(celsius: Fraction | None) -> str:
    return "" if celsius is None else f"{number_text(celsius)} °C"
