"""A prep plan as an iCalendar file (RFC 5545): an event for each time hands are put to a stage, and for each tasting.

Times are those of the house's own clock, without a zone, as a kitchen's are.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from datetime import date, datetime
from typing import Final

from linebook.compute.plan_results import Making, PlannedStage, PrepPlan
from linebook.documents.measures import Measures
from linebook.documents.plan_words import clock, days_of, days_text, load_text, made_text, stage_text
from linebook.documents.second import item_name, line_name
from linebook.documents.tasting_time import BEFORE_DOORS, tasting_on
from linebook.documents.text import NO_BREAK
from linebook.documents.wording import Wording
from linebook.model.house import House

_LONGEST: Final = 75
"""Octets of a line without its end (RFC 5545, 3.1); what is longer goes on in the next, after a blank."""


def plan_calendar(house: House, plan: PrepPlan, lines: Sequence[str], wording: Wording, issued: date) -> str:
    """Return the iCalendar text of the lines of a plan, for the days of its span. ``issued`` stamps the events."""
    stamp = f"{issued:%Y%m%d}T000000Z"
    found = ["BEGIN:VCALENDAR", "VERSION:2.0", "PRODID:-//linebook//prep plan//EN", "CALSCALE:GREGORIAN"]
    for making in plan.makings:
        if making.batch.component.line not in lines:
            continue
        for stage in making.stages:
            for start, end, finish in ((stage.start, stage.alone, False), (stage.done, stage.over, True)):
                if end > start and plan.first <= start.date() <= plan.last:
                    found += _event(house, plan, making, stage, start, end, finish=finish, stamp=stamp, wording=wording)
    for line in lines:
        for day in days_of(plan):
            found += _tasting(house, plan, line, day, stamp=stamp, wording=wording)
    found.append("END:VCALENDAR")
    return "".join(f"{part}\r\n" for line in found for part in _folded(line))


def _event(
    house: House,
    plan: PrepPlan,
    making: Making,
    stage: PlannedStage,
    start: datetime,
    end: datetime,
    *,
    finish: bool,
    stamp: str,
    wording: Wording,
) -> list[str]:
    component = making.batch.component
    name = stage_text(house, component, stage.number)
    what = wording.say("plan.finish", stage=name) if finish and name else name
    measures = Measures(house=house.file, wording=wording)
    title = wording.listed((item_name(house, component.id), what))
    services = wording.say("calendar.for", services=days_text(making.services, plan, wording))
    told = wording.listed((made_text(making, [stage], measures), load_text([stage], wording), services))
    kind = "finish" if finish else "start"
    number = f"{stage.number}.{stage.load}"
    return [
        "BEGIN:VEVENT",
        f"UID:{component.id}.{making.due:%Y%m%dT%H%M}.{number}.{kind}@linebook",
        f"DTSTAMP:{stamp}",
        f"DTSTART:{start:%Y%m%dT%H%M%S}",
        f"DTEND:{end:%Y%m%dT%H%M%S}",
        f"SUMMARY:{_escaped(title.both)}",
        f"DESCRIPTION:{_escaped(told.both)}",
        f"CATEGORIES:{_escaped(line_name(house, component.line).both)}",
        "END:VEVENT",
    ]


def _tasting(house: House, plan: PrepPlan, line: str, day: date, *, stamp: str, wording: Wording) -> list[str]:
    """Return the event of a line's tasting before service, without lines where there is none."""
    at = tasting_on(house, plan, line, day)
    if at is None:
        return []
    doors = at + BEFORE_DOORS
    return [
        "BEGIN:VEVENT",
        f"UID:{line}.{at:%Y%m%dT%H%M}.tasting@linebook",
        f"DTSTAMP:{stamp}",
        f"DTSTART:{at:%Y%m%dT%H%M%S}",
        f"DTEND:{doors:%Y%m%dT%H%M%S}",
        f"SUMMARY:{_escaped(wording.say('plan.tasting').both)}",
        f"DESCRIPTION:{_escaped(wording.say('plan.tasting-note', doors=clock(doors)).both)}",
        f"CATEGORIES:{_escaped(line_name(house, line).both)}",
        "END:VEVENT",
    ]


def _escaped(text: str) -> str:
    """Return text as a value (RFC 5545, 3.3.11)."""
    plain = text.replace(NO_BREAK, " ")
    for letter in ("\\", ";", ","):
        plain = plain.replace(letter, f"\\{letter}")
    return plain.replace("\n", "\\n")


def _folded(line: str) -> Iterator[str]:
    """Yield a line in pieces that are not too long, none of them cut inside a letter."""
    piece, octets = "", 0
    for letter in line:
        size = len(letter.encode())
        if octets + size > _LONGEST:
            yield piece
            piece, octets = " ", 1
        piece += letter
        octets += size
    yield piece
