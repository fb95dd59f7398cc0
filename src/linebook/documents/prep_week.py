"""A line's week at a glance: what is made when, drawn as bars across the days, and the services as lines.

Works from a computed plan alone; the drawing itself is ``figures.timeline``'s. A longer plan has a sheet for each week,
and a line that makes more than a page holds has a drawing for each page.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from datetime import date, datetime, timedelta
from typing import Final

from linebook.compute.plan_results import Making, PrepPlan
from linebook.compute.services import is_service_day, weekday_of
from linebook.documents.naming import kicker
from linebook.documents.plan_words import days_of, days_text
from linebook.documents.second import item_name
from linebook.documents.text import Text, strong, words
from linebook.documents.wording import Wording
from linebook.figures.shapes import Drawing
from linebook.figures.timeline import Bar, TimelineRow, draw_timeline
from linebook.model.house import House
from linebook.source.frozen import frozen

DOCUMENT: Final = "prep-week"
FIGURE: Final = "week"
_HOUR: Final = timedelta(hours=1)
_WEEK: Final = 7
_LONGEST: Final = 10
"""Days that one sheet shows at the most: where a plan is no longer, it is not parted."""
_MOST_ROWS: Final = 16
"""Rows of one drawing, which is as high as a page then."""


@frozen
class WeekFigure:
    """One drawing, kept beside the sheet under ``name``."""

    name: str
    """The name of the drawing, for data-figure."""
    alternative: Text
    """What the drawing shows, in words."""


@frozen
class PrepWeek:
    """All a week at a glance shows beside its drawings."""

    id: str
    """The sheet's own id."""
    line: str
    """The id of its line."""
    kicker: Text
    """Over the name: the line and what sheet this is."""
    title: Text
    """From which day to which."""
    aside: Text
    """That it is for these days alone."""
    figures: tuple[WeekFigure, ...]
    """The drawings, one for each page."""
    caption: Text
    """How they are read."""


def weeks_of(plan: PrepPlan) -> tuple[tuple[date, ...], ...]:
    """Return the days of a plan as one sheet each shows them: all of a short plan, else week by week."""
    days = tuple(days_of(plan))
    if len(days) <= _LONGEST:
        return (days,)
    return tuple(days[at : at + _WEEK] for at in range(0, len(days), _WEEK))


def prep_week(
    house: House, plan: PrepPlan, line: str, days: Sequence[date], wording: Wording
) -> tuple[PrepWeek, Mapping[str, Drawing]] | None:
    """Return some days of a line and their drawings by name; None where nothing is made in them."""
    start, end = _midnight(days[0]), _midnight(days[-1]) + timedelta(days=1)
    makings: dict[str, list[Making]] = {}
    for making in plan.makings:
        shown = making.start < end and max(stage.over for stage in making.stages) > start
        if making.batch.component.line == line and shown:
            makings.setdefault(making.component, []).append(making)
    if not makings:
        return None
    writer = _WeekWriter(house=house, plan=plan, days=tuple(days), wording=wording)
    figures, drawings = [], {}
    for number, items in enumerate(_parts(list(makings))):
        name = f"{FIGURE}-{number + 1}"
        shown_here = {item: makings[item] for item in items}
        alternative = wording.separated(writer.told(shown_here))
        figures.append(WeekFigure(name=name, alternative=words(alternative.both)))
        drawings[name] = writer.drawing(shown_here, alternative.both)
    view = PrepWeek(
        id=f"{DOCUMENT}:{line}:{days[0].isoformat()}",
        line=line,
        kicker=kicker(house, line, DOCUMENT, wording),
        title=wording.say("duration.range", least=wording.day(days[0]), most=wording.day(days[-1])),
        aside=strong(wording.say("week.aside")),
        figures=tuple(figures),
        caption=wording.say("week.caption"),
    )
    return view, drawings


@frozen
class _WeekWriter:
    house: House
    plan: PrepPlan
    days: tuple[date, ...]
    wording: Wording

    def told(self, makings: Mapping[str, Sequence[Making]]) -> Iterator[Text]:
        """Yield what each row shows, in words."""
        for item, found in makings.items():
            days = sorted({day for making in found for day in making.services})
            services = days_text(days, self.plan, self.wording)
            yield self.wording.say("week.row", item=item_name(self.house, item), services=services)

    def drawing(self, makings: Mapping[str, Sequence[Making]], alternative: str) -> Drawing:
        """Return the drawing of some components."""
        rows = [
            TimelineRow(name=item_name(self.house, item).plain, bars=tuple(self._bars(found)))
            for item, found in makings.items()
        ]
        heads = [f"{self.wording.say(f'weekday.{day.weekday()}').plain} {day.day}" for day in self.days]
        return draw_timeline(rows, heads, self._doors(), self._shut(), alternative=alternative)

    def _bars(self, makings: Sequence[Making]) -> Iterator[Bar]:
        start, hours = _midnight(self.days[0]), 24.0 * len(self.days)
        for making in makings:
            for stage in making.stages:
                spans = (
                    (stage.start, stage.alone, True),
                    (stage.alone, stage.done, False),
                    (stage.done, stage.over, True),
                )
                for first, last, hands in spans:
                    begins, ends = (first - start) / _HOUR, (last - start) / _HOUR
                    if ends > max(begins, 0.0) and begins < hours:
                        yield Bar(start=begins, end=ends, hands=hands)

    def _doors(self) -> list[float]:
        """Return the hours of the doors of the services, from the first midnight."""
        doors = self.house.file.service.doors if self.house.file.service else None
        served = {one.day for one in (*self.plan.services, *self.plan.later)}
        start = _midnight(self.days[0])
        if doors is None:
            return []
        return [(datetime.combine(day, doors) - start) / _HOUR for day in self.days if day in served]

    def _shut(self) -> list[int]:
        """Return the places of the days on which the house is closed, and nobody prepares."""
        service = self.house.file.service
        prep = service.prep if service else {}
        closed = service.closed if service else ()
        return [
            at
            for at, day in enumerate(self.days)
            if not is_service_day(self.house, day) and (weekday_of(day) not in prep or day in closed)
        ]


def _parts(items: Sequence[str]) -> Iterator[Sequence[str]]:
    """Yield items in parts of about the same size, none of them more than a page holds."""
    parts = -(-len(items) // _MOST_ROWS)
    size = -(-len(items) // parts)
    return (items[at : at + size] for at in range(0, len(items), size))


def _midnight(day: date) -> datetime:
    return datetime.combine(day, datetime.min.time())
