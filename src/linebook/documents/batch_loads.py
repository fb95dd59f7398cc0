"""In how many loads each stage of a batch is made, in words. The loads themselves are computed elsewhere."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from linebook.compute.results import Batch
from linebook.compute.stage_contents import load_of_stage
from linebook.compute.stage_times import loads_at, loads_of_stages
from linebook.documents.braces import weighed_exactly
from linebook.documents.measures import Measures
from linebook.documents.naming import before_comma
from linebook.documents.second import find_said, item_name, stage_name
from linebook.documents.text import Text, each_language
from linebook.model.amounts import Amount
from linebook.model.component import Component, Stage
from linebook.model.house import House
from linebook.read.ids import kebab


def loads_differ(*batches: Batch) -> bool:
    """Return whether any of the batches is made in other loads at one stage than as a whole."""
    return any(set(loads_of_stages(batch)) - {batch.loads} for batch in batches)


def stage_title(house: House, component: Component, stage: str) -> Text:
    """Return a stage's name as its heading in the method has it."""
    return stage_name(house, component, stage, find_said(house, component, kebab(stage)))


def stage_names(house: House, component: Component, stages: Sequence[Stage], measures: Measures) -> Text:
    """Return stages by their names: *Cure and Rinse*."""
    return measures.wording.listed_with_and(stage_title(house, component, stage.name) for stage in stages)


def by_stage_text(house: House, batch: Batch, measures: Measures, *, night: bool) -> Text:
    """Return the loads of every stage in one line: *Brine one load; Smoke 3 loads*."""
    say = measures.wording.say
    parts = [
        say(
            "stage-loads.stage",
            stage=stage_names(house, batch.component, stages, measures),
            loads=measures.wording.say_count("stage-loads.count", loads),
        )
        for stages, (loads,) in alike_stages(batch.component, [batch])
    ]
    return say("stage-loads" if night else "stage-loads.base", stages=measures.wording.separated(parts))


def alike_stages(component: Component, batches: Sequence[Batch]) -> Iterator[tuple[tuple[Stage, ...], tuple[int, ...]]]:
    """Yield the stages that have the same loads in each of the batches together, with those loads; the first first."""
    alike: dict[tuple[int, ...], list[Stage]] = {}
    columns = zip(*(loads_of_stages(batch) for batch in batches), strict=True)
    for stage, loads in zip(component.stages, columns, strict=True):
        alike.setdefault(loads, []).append(stage)
    for loads, stages in alike.items():
        yield tuple(stages), loads


def stage_loads_text(house: House, batch: Batch, stage: str | None, measures: Measures) -> Text:
    """Return the loads of one stage: *one load*, *3 loads of 4.2 kg*, with what is counted where the card names it."""
    say = measures.wording.say
    said = measures.wording.say_count("stage-loads.count", loads_at(batch, stage))
    at = next((at for at, one in enumerate(batch.component.stages) if one.name == stage), None)
    load = load_of_stage(house, batch, at, _printed_totals(house, batch, measures)) if at is not None else None
    if at is None or load is None:
        return said
    items = measures.wording.listed_with_and(
        each_language(item_name(house, item), before_comma) for item in batch.component.stages[at].of
    )
    if items:
        return say("stage-loads.of-items", loads=said, load=measures.short(load), items=items)
    return say("stage-loads.of", loads=said, load=measures.short(load))


def _printed_totals(house: House, batch: Batch, measures: Measures) -> tuple[Amount | None, ...]:
    lines = (
        measures.line(line, line.loads, exact=weighed_exactly(house, line.ingredient.item))
        for line in batch.ingredients
    )
    return tuple(None if line.total is None else line.total.amount for line in lines)
