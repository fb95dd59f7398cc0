"""What was hot is cooled before it is cold, and no stage contradicts the limit it names (LB503, LB508)."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from itertools import takewhile
from typing import Final

from linebook.check.cold_keeping import is_from_room, is_hot, places_of
from linebook.check.index import Index, place
from linebook.check.limits import COLD_TO, HOT_FROM, Figures, figure_text, figures_for, reaches, stays_within
from linebook.check.stages import stages_of
from linebook.check.time_control import check_holds, check_stage_time, check_timed_store
from linebook.check.words import celsius_text, number_text, temperature_text
from linebook.model.amounts import Duration
from linebook.model.component import Component, Limit, Stage
from linebook.model.dating import Places
from linebook.model.house import Climate, Workplace
from linebook.model.times import write_duration
from linebook.source.codes import fault
from linebook.source.exact import Fraction
from linebook.source.faults import Fault, Related
from linebook.source.spans import Span

_COLD: Final = (Climate.COLD, Climate.FROZEN)
_COOLS: Final = (Limit.COOL, Limit.FREEZE)
_A_DAY: Final = Fraction(24 * 60)


def check_cooling(index: Index) -> Iterator[Fault]:
    """Yield a fault for each hot stage that leads to a cold place, or to cold storage, with no cooling between."""
    places = places_of(index)
    for component in index.components.values():
        if not index.is_incomplete(component.id) and not any(stages_of(component)):
            yield from _uncooled(component, places)


def check_limits(index: Index) -> Iterator[Fault]:
    """Yield a fault for each stage, store or hold whose own figures break the limit it names."""
    figures = figures_for(index.file.rules) if index.file is not None else None
    if figures is None:
        return
    places = places_of(index)
    for component in index.components.values():
        for at, stage in enumerate(component.stages):
            yield from _against_limit(stage, places, figures)
            if stage.limit is Limit.TIME:
                yield from check_stage_time(component, at, places, figures)
        yield from _against_clocks(component, places, figures)
        yield from _against_store(component, places, figures)
        yield from check_timed_store(component, figures)
    for dish in index.dishes.values():
        yield from check_holds(index, dish, places, figures)


def _uncooled(component: Component, places: Places) -> Iterator[Fault]:
    hot: Stage | None = None
    for stage in component.stages:
        where = places.get(stage.where or "")
        if stage.limit in _COOLS:
            hot = None
        elif is_hot(stage, places):
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


def _against_limit(stage: Stage, places: Places, figures: Figures) -> Iterator[Fault]:
    where = places.get(stage.where or "")
    if stage.limit in (Limit.REHEAT, Limit.COOK):
        yield from _too_cool(stage, figures)
    elif stage.limit is Limit.COOL:
        yield from _not_cooled(stage, where, figures)
    elif stage.limit is Limit.FREEZE:
        yield from _not_frozen(stage, where, figures)
    elif stage.limit is Limit.HOLD:
        yield from _neither_hot_nor_cold(stage, where, figures)


def _too_cool(stage: Stage, figures: Figures) -> Iterator[Fault]:
    reheats = stage.limit is Limit.REHEAT
    floor = figures.reheat_to if reheats else figures.cook_to
    if stage.until is None or floor is None or reaches(stage.until.celsius, floor):
        return
    what = f"{'reheating' if reheats else 'cooking'} ends at {temperature_text(stage.until)}"
    least = figure_text(floor, stage.until)
    mend = f"{figures.rules} asks for {least} or more"
    if not reheats:
        mend = f"{figures.rules} has nothing below {least}: check the figure, and whether it is °C or °F"
    yield _broken(stage, what, mend, stage.at("until"))


def _not_cooled(stage: Stage, where: Workplace | None, figures: Figures) -> Iterator[Fault]:
    if where is not None and where.climate is Climate.HOT:
        yield _broken(stage, f"cooling happens in {where.name}, a hot place", "name a cold place", stage.at("where"))
    ceiling = HOT_FROM if figures.cool_first_to is None else figures.cool_first_to
    if stage.until is not None and not stays_within(stage.until.celsius, ceiling):
        what = f"cooling ends at {temperature_text(stage.until)}"
        yield _broken(stage, what, f"write {figure_text(ceiling, stage.until)} or less", stage.at("until"))


def _not_frozen(stage: Stage, where: Workplace | None, figures: Figures) -> Iterator[Fault]:
    kept = stage.until or stage.heat or (where.temperature if where is not None else None)
    ceiling = figures.freeze_raw_to
    if kept is not None and ceiling is not None and kept.celsius > ceiling:
        mend = f"{figures.rules} asks for {figure_text(ceiling, kept)} or colder"
        span = place(stage, "until", "heat", "where", "limit")
        yield _broken(stage, f"freezing for raw is at {temperature_text(kept)}", mend, span)


def _neither_hot_nor_cold(stage: Stage, where: Workplace | None, figures: Figures) -> Iterator[Fault]:
    kept = stage.until or stage.heat or (where.temperature if where is not None else None)
    low, high = figures.cold_at_most, figures.hot_for_some
    if kept is not None and low is not None and high is not None and low < kept.celsius < high:
        hot = figure_text(figures.hot_at_least, kept)
        mend = f"{figures.rules} asks for {figure_text(low, kept)} or less, or {hot} or more"
        span = place(stage, "until", "heat", "where", "limit")
        yield _broken(stage, f"holding is at {temperature_text(kept)}", mend, span)


def _against_clocks(component: Component, places: Places, figures: Figures) -> Iterator[Fault]:
    """Yield a fault for each run of cooling, reheating or freezing stages whose own times break the rule's."""
    before: Limit | None = None
    for at, stage in enumerate(component.stages):
        run = list(_run(component.stages[at:], stage.limit)) if stage.limit is not before else []
        if run and stage.limit is Limit.COOL:
            if is_from_room(component, at, places) and len(figures.cool_room_minutes) == 1:
                yield from _too_slow(run, figures.cool_room_minutes[0], "cooling from room temperature", figures)
            else:
                yield from _cooled_too_slowly(run, figures)
            yield from _not_cold_in_the_end(run, figures)
        elif run and stage.limit is Limit.REHEAT and figures.reheat_minutes is not None:
            yield from _too_slow(run, figures.reheat_minutes, "reheating", figures)
        elif run and stage.limit is Limit.FREEZE:
            yield from _frozen_too_shortly(run, component.stages[at + len(run) :], places, figures)
        before = stage.limit


def _run(stages: Sequence[Stage], limit: Limit | None) -> Iterator[Stage]:
    return takewhile(lambda stage: stage.limit is limit, stages)


def _cooled_too_slowly(run: Sequence[Stage], figures: Figures) -> Iterator[Fault]:
    """Both clocks start at 57 °C; a stage that ends at 21 °C has the first of its own."""
    if not figures.cool_minutes:
        return
    first, total = figures.cool_minutes
    ends = run[0].until
    halfway = ends is not None and figures.cool_first_to is not None and ends.celsius >= figures.cool_first_to
    if ends is not None and halfway and _counted(run[0]) > first:
        yield from _too_slow(run[:1], first, f"cooling to {temperature_text(ends)}", figures)
    else:
        yield from _too_slow(run, total, "cooling", figures)


def _not_cold_in_the_end(run: Sequence[Stage], figures: Figures) -> Iterator[Fault]:
    """The last cooling stage ends where the rule does, or with its first step, after which the cold place goes on."""
    first, last, until = figures.cool_first_to, figures.cool_last_to, run[-1].until
    if first is None or last is None or until is None or not last < until.celsius < first:
        return
    hours = number_text(figures.cool_minutes[-1] / 60)
    cold = figure_text(last, until)
    mend = f"{figures.rules} asks for {cold} or less within {hours} h: write `until: {cold}`"
    yield _broken(run[-1], f"cooling ends at {temperature_text(until)}", mend, run[-1].at("until"))


def _too_slow(run: Sequence[Stage], most: Fraction, what: str, figures: Figures) -> Iterator[Fault]:
    """What works by itself is counted, and the hands where nothing does: so that what is too long is certain."""
    taken = sum((_counted(stage) for stage in run), Fraction(0))
    if taken > most:
        slowest = max(run, key=_counted)
        said = write_duration(Duration(least=taken, most=taken, in_days=False))
        place_for_it = "hotter" if slowest.limit is Limit.REHEAT else "colder"
        ways = f"smaller loads, shallower pans, or a {place_for_it} place"
        mend = f"{figures.rules} allows {number_text(most / 60)} h: {ways}"
        yield _broken(slowest, f"{what} may take {said}", mend, place(slowest, "unattended", "hands_on", "limit"))


def _counted(stage: Stage) -> Fraction:
    time = stage.unattended or stage.hands_on
    return time.most if time is not None else Fraction(0)


def _frozen_too_shortly(
    run: Sequence[Stage], later: Sequence[Stage], places: Places, figures: Figures
) -> Iterator[Fault]:
    """Frozen solid at the lower temperature, it may stay at the higher one for a day (FDA Food Code 3-402.11(A)(3))."""
    kept = [kept_at(stage, places) for stage in run]
    known = [one for one in kept if one is not None]
    if len(known) < len(kept) or all(stage.unattended is None for stage in run):
        return
    asked = [minutes for heat, minutes in figures.freeze_minutes if max(known) <= heat]
    taken = sum((stage.unattended.least for stage in run if stage.unattended), Fraction(0))
    if not asked or taken >= asked[-1] or (len(asked) > 1 and _stays_frozen(later, places, figures)):
        return
    hours = number_text(asked[-1] / 60)
    mend = f"{figures.rules} asks for {hours} h at {celsius_text(max(known))}: write `unattended: {hours} h`"
    said = write_duration(Duration(least=taken, most=taken, in_days=False))
    span = place(run[-1], "unattended", "limit")
    yield _broken(run[-1], f"it may be over after {said} at {celsius_text(max(known))}", mend, span)


def kept_at(stage: Stage, places: Places) -> Fraction | None:
    """Return the temperature of a stage in °C: what it ends at, else what it is given, else that of its place."""
    where = places.get(stage.where or "")
    kept = stage.until or stage.heat or (where.temperature if where is not None else None)
    return kept.celsius if kept is not None else None


def _stays_frozen(later: Sequence[Stage], places: Places, figures: Figures) -> bool:
    if not later or later[0].unattended is None or figures.freeze_raw_to is None:
        return False
    kept = kept_at(later[0], places)
    return kept is not None and kept <= figures.freeze_raw_to and later[0].unattended.least >= _A_DAY


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
            f"{component.name} is stored at {temperature_text(at)}, and {where.name} is a frozen place",
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
            f"{component.name} is stored cold {why}, but at {temperature_text(at)}",
            span,
            hints=(f"{figures.rules} asks for {figure_text(ceiling, at)} or less",),
        )
