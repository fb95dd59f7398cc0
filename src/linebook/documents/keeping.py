"""How long a component keeps and where, in words; on a night sheet as a date where it is known when it was made."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from datetime import date, timedelta

from linebook.compute.results import Batch
from linebook.documents.batch_loads import stage_title
from linebook.documents.measures import Measures, duration_text
from linebook.documents.second import item_name, place_name, vessel_name
from linebook.documents.stages import StageWriter
from linebook.documents.text import Text, joined, words
from linebook.documents.uses import pans_for
from linebook.documents.vessel_words import counted_vessels
from linebook.model.component import Component
from linebook.model.contents import stages_of
from linebook.model.dating import Counting, counting, is_kept_frozen, own_days
from linebook.model.house import Climate


def keeps_text(component: Component, stages: StageWriter) -> Text:
    """Return how long a component keeps, as a rule that holds for weeks."""
    say = stages.measures.wording.say
    keeps = component.keeps
    if keeps is None:
        return say("keeps.unknown")
    time = duration_text(keeps, stages.measures.wording)
    frozen = is_kept_frozen(component, stages.places)
    if keeps.in_days:
        hot = any(stage.where and stages.places[stage.where].climate is Climate.HOT for stage in component.stages)
        day = say("keeps.day-hot" if hot else "keeps.day")
        said = say("keeps.days-frozen" if frozen else "keeps.days", time=time, day=day)
    else:
        said = say("keeps.hours", time=time)
    clauses = (say("keeps.stands-still"),) if frozen else tuple(_whose_date(component, stages))
    return joined((said, *clauses), say("list.semicolon"))


def _whose_date(component: Component, stages: StageWriter) -> Iterator[Text]:
    """Yield what else sets the date: that of what is in it, or none; ``model.dating`` decides."""
    wording = stages.measures.wording
    if component.kept_by is not None:
        yield wording.say("keeps.own-date")
        return
    parts = _parts(component, stages)
    anew = [at for at, stage in enumerate(component.stages) if stage.sets_date]
    if anew:
        name = component.stages[anew[-1]].name
        yield wording.say("keeps.anew", stage=stage_title(stages.house, component, name))
        lines = zip(component.ingredients, stages_of(component), strict=True)
        if any((at or 0) > anew[-1] for line, at in lines if not line.medium):
            yield wording.say("keeps.never-past-later")
    elif kept := _named(parts, Counting.KEPT, stages):
        yield wording.say("keeps.never-past-but", parts=kept)
    else:
        yield wording.say("keeps.never-past")
    if paused := _named(parts, Counting.PAUSED, stages):
        yield wording.say("keeps.days-out", parts=paused)


def _parts(component: Component, stages: StageWriter) -> list[tuple[str, Counting]]:
    """Return the components in one, and how their date counts."""
    components, places = stages.house.components, stages.places
    return [
        (line.item, counting(component, at, components[line.item], places))
        for at, line in enumerate(component.ingredients)
        if line.item in components
    ]


def _named(parts: Sequence[tuple[str, Counting]], how: Counting, stages: StageWriter) -> Text:
    """Return the names of those whose date counts in this way."""
    found = dict.fromkeys(item for item, counts in parts if counts is how)
    return stages.measures.wording.listed_with_and(item_name(stages.house, item) for item in found)


def use_by_text(component: Component, service: date | None, made: date | None, stages: StageWriter) -> Text:
    """Return the use-by of what is made for one service.

    ``made`` is day 1: the day its last hot stage ends, or the day it is made. Where that is not known and it is plated
    on the day of ``service``, the text says the earliest day on which it may be made. Else it is the rule.
    """
    say = stages.measures.wording.say
    rule = keeps_text(component, stages)
    days = own_days(component.id, {**stages.house.components, component.id: component}, stages.places)
    if component.keeps is None or not component.keeps.in_days or days is None:
        return rule
    extra = timedelta(days=days - 1)
    if made is not None:
        return say("use-by.date", day=stages.measures.wording.day(made + extra), rule=rule)
    if service is None:
        return rule
    return say("use-by.not-before", day=stages.measures.wording.day(service - extra), rule=rule)


def store_text(batch: Batch, stages: StageWriter) -> Text:
    """Return where a batch waits, how cold, and in how many of which pan."""
    measures = stages.measures
    return measures.wording.listed(_store_parts(batch, stages)) or measures.wording.say("store.unknown")


def _store_parts(batch: Batch, stages: StageWriter) -> Iterator[Text]:
    store = batch.component.store
    if store is None:
        return
    if store.temperature:
        yield stages.measures.temperature(store.temperature)
    if store.place:
        yield place_name(stages.house, store.place)
    if store.vessel:
        vessel = stages.vessel(store.vessel)
        pans = pans_for(batch.component, batch.total, vessel)
        name = vessel_name(stages.house, vessel.id)
        yield counted_vessels(stages.house, vessel.id, pans, stages.measures.wording) if pans else name


def equipment_text(component: Component, stages: StageWriter) -> Text:
    """Return every vessel of the stages, in order, with how many the house has."""
    say = stages.measures.wording.say
    vessels = [stages.vessel(id_) for id_ in dict.fromkeys(stage.vessel for stage in component.stages) if id_]
    named = [
        say("equipment.of", vessel=name, count=vessel.count) if vessel.count else name
        for vessel in vessels
        for name in (vessel_name(stages.house, vessel.id),)
    ]
    return stages.measures.wording.listed(named) or say("equipment.none")


def making_text(component: Component, measures: Measures) -> Text:
    """Return when it is made: ahead or every day, and how long before service at most."""
    say = measures.wording.say
    when = say("made.daily" if component.make_daily else "made.ahead")
    fresh = component.fresh_within
    return joined(
        (when, say("made.within", time=duration_text(fresh, measures.wording)) if fresh else words("")),
        measures.wording.say("list.comma"),
    )
