"""What to do with a component that is no longer made, in words: until when what is left is finished, else binned.

Works from what was counted where that is known, else from when it can have been made last.
"""

from __future__ import annotations

from collections.abc import Sequence
from datetime import date

from linebook.compute.stock import last_day
from linebook.documents.measures import Measures, duration_text
from linebook.documents.text import Text
from linebook.documents.wording import Wording
from linebook.model.component import Component
from linebook.model.house import House
from linebook.model.supply import StockEntry
from linebook.source.spans import SourceFile


def use_up_text(
    house: House, component: Component, made: date, day: date, on_hand: Sequence[StockEntry] | None, wording: Wording
) -> Text:
    """Return until when what is left of a component is finished.

    ``made`` is the last day it can have been made, ``day`` the day it is told for. ``on_hand`` is what was counted,
    None where nothing was.
    """
    if on_hand is None:
        return _by_rule(house, component, made, day, wording)
    counted = [entry for entry in on_hand if entry.item == component.id]
    if not counted:
        return wording.say("use-up.none")
    return wording.separated(_counted(house, entry, day, wording) for entry in counted)


def _by_rule(house: House, component: Component, made: date, day: date, wording: Wording) -> Text:
    """Return what its keeping time says of the last of it; it may be older, which its label says."""
    if component.keeps is None:
        return wording.say("use-up.unknown")
    time = duration_text(component.keeps, wording)
    if not component.keeps.in_days:
        return wording.say("use-up.hours", time=time)
    nowhere = SourceFile(path="", text="").whole()
    entry = StockEntry(item=component.id, amount=component.makes, made=made, span=nowhere, spans={})
    last = last_day(house, entry)
    if last is None or last < day:
        return wording.say("use-up.over", time=time, day=wording.day(last or made))
    return wording.say("use-up.by", time=time, day=wording.day(last))


def _counted(house: House, entry: StockEntry, day: date, wording: Wording) -> Text:
    amount = Measures(house=house.file, wording=wording).typed(entry.amount)
    last = last_day(house, entry)
    if last is None:
        return wording.say("use-up.undated", amount=amount)
    key = "use-up.counted-over" if last < day else "use-up.counted"
    return wording.say(key, amount=amount, day=wording.day(last))
