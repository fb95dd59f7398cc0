"""The English words of the food-safety box on a prep plan: a part of the table in ``english``."""

from __future__ import annotations

from typing import Final

CAUTIONS: Final = {
    "cautions.title": "Log today: clock and reading",
    "cautions.when": "at",
    "cautions.what": "what",
    "cautions.first": "check",
    "cautions.second": "again",
    "cautions.initials": "who",
    "cautions.cool": "cool: **{heat_a}** by **{first}**, **{heat_b}** by **{last}**",
    "cautions.cool-room": "cool: **{heat_a}** by **{last}**",
    "cautions.cool-open": "cool as fast as you can: planned cold by **{until}**",
    "cautions.cook": "cook: core when done",
    "cautions.hold": "hold: check twice at least",
    "cautions.reheat": "reheat: **{heat}** by **{last}**",
    "cautions.reheat-open": "reheat: core when done",
    "cautions.freeze": "freeze for raw: in; out no earlier than **{last}**",
    "cautions.freeze-open": "freeze for raw: in",
    "cautions.freeze-out": "freeze for raw: out, full time kept",
    "cautions.time": "time as control: bin at **{last}**",
    "cautions.time-open": "time as control: write when it is binned",
    "cautions.packed": "packed without air",
    "cautions.packed-until": "packed without air: use by **{day}**",
    "cautions.acidify": "acidify: pH when done",
    "cautions.oil": "under oil, in the cold",
    "cautions.oil-until": "under oil, in the cold: bin after **{day}**",
    "cautions.breaks": "**as planned it is not done by then: smaller loads, shallower pans, or loads apart**",
    "cautions.last-title": "Last day today: use it, or bin it after service",
    "cautions.last": "**{item}** {amount}, made {day}",
    "cautions.last-today": "**{item}** {amount}, made today",
    "cautions.rule": "**{limit}:** {rule}. {missed}",
    "cautions.source": "{sources}. Local code and your food-safety plan decide.",
}
