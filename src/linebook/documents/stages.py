"""A stage's facts in words: how long, where, in what, how hot, and who must be near. Knows no schedule."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import field, replace

from linebook.compute.results import Batch
from linebook.compute.stage_contents import vessels_at_least
from linebook.compute.stage_times import StageTimes, loads_of_stages
from linebook.documents.batch_loads import loads_differ, stage_loads_text
from linebook.documents.measures import Measures, duration_text, per_cent
from linebook.documents.naming import medium_name
from linebook.documents.second import place_name, vessel_name
from linebook.documents.text import Text
from linebook.documents.vessel_words import counted_vessels
from linebook.model.component import Attended, Growth, Limit, Stage
from linebook.model.house import Climate, House, Vessel, Workplace
from linebook.source.frozen import frozen


@frozen
class StageWriter:
    """Words the stages of one house's cards."""

    house: House
    measures: Measures
    places: Mapping[str, Workplace] = field(init=False, compare=False)
    """The places of the house by their ids."""

    def __post_init__(self) -> None:
        object.__setattr__(self, "places", {place.id: place for place in self.house.file.places})

    def asides(self, batch: Batch, times: Sequence[StageTimes], *, night: bool) -> tuple[Text, ...]:
        """Return everything that is known of each stage in one line, as it stands beside the stage's heading.

        ``times`` are those of the stages. On a ``night`` sheet with its loads, where they are not one.
        """
        return tuple(self._aside(batch, at, own, night=night) for at, own in enumerate(times))

    def _aside(self, batch: Batch, at: int, times: StageTimes, *, night: bool) -> Text:
        stage = batch.component.stages[at]
        vessels = vessels_at_least(self.house, batch, at) if night else 1
        rest = self.measures.wording.listed((*self._times(stage, times, night=night), *self._places(stage, vessels)))
        if not night or not loads_differ(batch):
            return rest
        loads = loads_of_stages(batch)[at]
        said = stage_loads_text(self.house, batch, stage.name, self.measures)
        return (
            self.measures.wording.say("stage-loads.each", loads=said, rest=rest)
            if loads > 1 and rest
            else (self.measures.wording.listed((said, rest)))
        )

    def vessel(self, id_: str) -> Vessel:
        """Return a vessel of the house."""
        return next(vessel for vessel in self.house.file.vessels if vessel.id == id_)

    def _times(self, stage: Stage, times: StageTimes, *, night: bool) -> Iterator[Text]:
        say, wording = self.measures.wording.say, self.measures.wording
        if times.hands_on:
            yield say("stage.hands-on", time=duration_text(times.hands_on, wording))
        if times.by_itself and stage.time is Growth.JUDGE:
            start = replace(times.by_itself, most=times.by_itself.least)
            yield say("stage.judge", time=duration_text(start, wording))
        elif times.by_itself:
            yield say("stage.unattended", time=duration_text(times.by_itself, wording))
        if times.finish:
            yield say("stage.finish", time=duration_text(times.finish, wording))
        growing = _growing(stage)
        if growing and not night:
            yield say(f"stage.grows.{growing}")
        if stage.may_hold:
            yield say("stage.may-hold", time=duration_text(stage.may_hold, wording))

    def _places(self, stage: Stage, vessels: int) -> Iterator[Text]:
        say = self.measures.wording.say
        if stage.where:
            yield place_name(self.house, stage.where)
        if stage.vessel:
            yield self._vessel(stage, vessels)
        if stage.heat:
            yield say("stage.heat", heat=self.measures.temperature(stage.heat))
        if stage.until:
            yield say("stage.until", heat=self.measures.temperature(stage.until, at_most=must_fall(stage)))
        for medium in stage.through:
            yield say("stage.through", medium=medium_name(self.house, medium, self.measures.wording))
        attended = self._attended(stage)
        if attended:
            yield say(f"stage.attended.{attended.value.replace(' ', '-')}")

    def _vessel(self, stage: Stage, count: int) -> Text:
        name = vessel_name(self.house, stage.vessel or "")
        if count > 1:
            several = counted_vessels(self.house, stage.vessel or "", count, self.measures.wording)
            name = self.measures.wording.say("stage.vessels-at-least", vessels=several)
        if stage.fill is None:
            return name
        return self.measures.wording.say("stage.vessel-fill", vessel=name, fill=per_cent(stage.fill))

    def _attended(self, stage: Stage) -> Attended | None:
        """Return who must be near. Something hot that is left to itself wants someone in the building (CP)."""
        if stage.attended is None and stage.unattended and stage.where:
            return Attended.BUILDING if self.places[stage.where].climate is Climate.HOT else None
        return stage.attended


def _growing(stage: Stage) -> str:
    """Return which of a stage's times grow with the load: ``work``, ``time``, ``both`` or neither."""
    work = stage.work is Growth.GROWS and (stage.hands_on or stage.finish) is not None
    time = stage.time is Growth.GROWS and stage.unattended is not None
    if work and time:
        return "both"
    return "work" if work else "time" if time else ""


def must_fall(stage: Stage) -> bool | None:
    """Return True where a stage's temperature is one to come down to, None where the temperature itself tells."""
    return True if stage.limit in (Limit.COOL, Limit.FREEZE) else None
