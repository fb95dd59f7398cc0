"""A stage's facts in words: how long, where, in what, how hot, and who must be near. Knows no schedule."""

from __future__ import annotations

from collections.abc import Iterator

from linebook.documents.measures import Measures, duration_text, per_cent
from linebook.documents.naming import medium_name
from linebook.documents.second import place_name, vessel_name
from linebook.documents.text import Text
from linebook.model.component import Attended, Limit, Stage
from linebook.model.house import Climate, House, Vessel, Workplace
from linebook.source.frozen import frozen


@frozen
class StageWriter:
    """Words the stages of one house's cards."""

    house: House
    measures: Measures

    def aside(self, stage: Stage) -> Text:
        """Return everything a spec says of a stage in one line, as it stands beside the stage's heading."""
        return self.measures.wording.listed((*self._times(stage), *self._places(stage)))

    def vessel(self, id_: str) -> Vessel:
        """Return a vessel of the house."""
        return next(vessel for vessel in self.house.file.vessels if vessel.id == id_)

    def place(self, id_: str) -> Workplace:
        """Return a place of the house."""
        return next(place for place in self.house.file.places if place.id == id_)

    def _times(self, stage: Stage) -> Iterator[Text]:
        say = self.measures.wording.say
        if stage.hands_on:
            yield say("stage.hands-on", time=duration_text(stage.hands_on, self.measures.wording))
        if stage.unattended:
            yield say("stage.unattended", time=duration_text(stage.unattended, self.measures.wording))
        if stage.finish:
            yield say("stage.finish", time=duration_text(stage.finish, self.measures.wording))
        if stage.may_hold:
            yield say("stage.may-hold", time=duration_text(stage.may_hold, self.measures.wording))

    def _places(self, stage: Stage) -> Iterator[Text]:
        say = self.measures.wording.say
        if stage.where:
            yield place_name(self.house, stage.where)
        if stage.vessel:
            yield self._vessel(stage)
        if stage.heat:
            yield say("stage.heat", heat=self.measures.temperature(stage.heat))
        if stage.until:
            yield say("stage.until", heat=self.measures.temperature(stage.until, at_most=must_fall(stage)))
        for medium in stage.through:
            yield say("stage.through", medium=medium_name(self.house, medium, self.measures.wording))
        attended = self._attended(stage)
        if attended:
            yield say(f"stage.attended.{attended.value.replace(' ', '-')}")

    def _vessel(self, stage: Stage) -> Text:
        name = vessel_name(self.house, stage.vessel or "")
        if stage.fill is None:
            return name
        return self.measures.wording.say("stage.vessel-fill", vessel=name, fill=per_cent(stage.fill))

    def _attended(self, stage: Stage) -> Attended | None:
        """Return who must be near. Something hot that is left to itself wants someone in the building (CP)."""
        if stage.attended is None and stage.unattended and stage.where:
            return Attended.BUILDING if self.place(stage.where).climate is Climate.HOT else None
        return stage.attended


def must_fall(stage: Stage) -> bool | None:
    """Return True where a stage's temperature is one to come down to, None where the temperature itself tells."""
    return True if stage.limit in (Limit.COOL, Limit.FREEZE) else None
