"""Food that is ready to eat keeps no longer than its date mark, nor than the part of it made first (LB526, LB529).

FDA Food Code 3-501.17: the day of preparation is day 1 of 7 at 5 °C or below; what is mixed takes the date of the part
made first; freezing stops the count. Under rules without a figure the house decides, and nothing is said. Both are
warnings: what keeps a food beside the cold is stated in ``kept_by``, and is the food-safety plan's business.
"""

from __future__ import annotations

from collections.abc import Iterator
from typing import Final

from linebook.check.alternatives import inside_of
from linebook.check.cold_keeping import Places, days_kept, is_hot, is_kept_cold, is_kept_frozen, places_of
from linebook.check.index import Index
from linebook.check.words import number_text
from linebook.model.component import Component, KeptBy, Limit
from linebook.model.contents import stage_of
from linebook.model.limits import KeepingRule, date_mark
from linebook.model.times import write_duration
from linebook.source.codes import fault
from linebook.source.faults import Fault, Related

KEPT_BY: Final = ", ".join(f"`{way.value}`" for way in KeptBy)
"""What a chef can type, for hints."""


def check_date_marks(index: Index) -> Iterator[Fault]:
    """Yield a warning for each component that is kept for longer than its rule's date mark."""
    rule = date_mark(index.file.rules) if index.file is not None else None
    if rule is None or index.file is None:
        return
    places = places_of(index)
    for component in index.components.values():
        if component.keeps is None or index.is_incomplete(component.id):
            continue
        if days_kept(component.keeps) > rule.days and _is_marked(component, places):
            yield _past_its_mark(component, rule)


def check_older_parts(index: Index) -> Iterator[Fault]:
    """Yield a warning for each component said to keep longer than a part that sets its date."""
    if index.file is None:
        return
    places, marked = places_of(index), date_mark(index.file.rules) is not None
    for component in index.components.values():
        if component.keeps is None or component.kept_by is not None or index.is_incomplete(component.id):
            continue
        if not is_kept_frozen(component, places):
            strict = marked and is_kept_cold(component, places)  # bread on a shelf carries no date mark
            yield from _against_parts(index, component, places, strict=strict)


def _is_marked(component: Component, places: Places) -> bool:
    """Return whether the rule for date marking is meant for it: kept cold, and cooked, cooled or served raw.

    What is acidified to its limit, what sets its own date and what is packed under a rule of its own are not.
    """
    if component.kept_by is not None or not is_kept_cold(component, places):
        return False
    own = (Limit.ACIDIFY, Limit.PACKED, Limit.OIL)
    if any(stage.limit in own or stage.sets_date for stage in component.stages):
        return False
    heated = any(is_hot(stage, places) or stage.limit is Limit.COOL for stage in component.stages)
    return heated or bool(component.raw)


def _past_its_mark(component: Component, rule: KeepingRule) -> Fault:
    assert component.keeps is not None
    return fault(
        "LB526",
        f"{component.name} keeps {write_duration(component.keeps)}, longer than the {rule.days} days of its date mark",
        component.at("keeps"),
        hints=(
            f"write `keeps: {rule.days} d` ({rule.source}: the day it is made is day 1), or store it frozen",
            f"or say what keeps it, where your food-safety plan does: `kept_by`, one of {KEPT_BY}",
        ),
    )


def _against_parts(index: Index, component: Component, places: Places, *, strict: bool) -> Iterator[Fault]:
    assert component.keeps is not None
    told: set[str] = set()
    for at, line in enumerate(component.ingredients):
        part = index.components.get(line.item)
        if part is None or part.keeps is None or part.id in told or line.medium:
            continue
        if is_kept_frozen(part, places) or _dates_anew(component, stage_of(component, at) or 0, places, strict=strict):
            continue
        days = days_kept(part.keeps)
        if days_kept(component.keeps) > days and component.id not in inside_of(index, part.id):
            told.add(part.id)
            yield fault(
                "LB529",
                f"{component.name} keeps {write_duration(component.keeps)}, and {part.name} in it "
                f"keeps {write_duration(part.keeps)}",
                component.at("keeps"),
                hints=(
                    f"write `keeps: {number_text(days)} d`: the part that is made first sets the date",
                    "or add `sets_date: yes` to the stage from which it counts anew, as your food-safety plan allows",
                ),
                related=(Related(span=part.at("keeps"), label="this part's own time"),),
            )


def _dates_anew(component: Component, stage: int, places: Places, *, strict: bool) -> bool:
    """Return whether its life counts from itself, whatever went in at a stage: said so, or cooked from there on."""
    later = component.stages[stage:]
    return any(one.sets_date for one in later) or (not strict and any(is_hot(one, places) for one in later))
