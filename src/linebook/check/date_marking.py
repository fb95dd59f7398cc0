"""Food that is ready to eat keeps no longer than its date mark, nor than the part of it made first (LB526, LB529).

FDA Food Code 3-501.17: the day of preparation is day 1 of 7 at 5 °C or below; what is mixed takes the date of the part
made first; freezing stops the count. Under rules without a figure the house decides, and nothing is said. Both are
warnings: what keeps a food beside the cold is stated in ``kept_by``, and is the food-safety plan's business.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from typing import Final

from linebook.check.alternatives import inside_of
from linebook.check.cold_keeping import days_kept, is_hot, is_kept_cold, places_of
from linebook.check.index import Index
from linebook.model.component import ByProduct, Component, KeptBy, Limit
from linebook.model.dating import Days, Places, counting, days_of, is_kept_frozen, line_days
from linebook.model.dating import days_kept as own_days_of
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
    places = places_of(index)
    days = days_of(index.components, places)
    for component in index.components.values():
        keeps = component.keeps
        if keeps is not None and not index.is_incomplete(component.id) and not is_kept_frozen(component, places):
            yield from _against_parts(index, component, days, places)


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


def _against_parts(index: Index, component: Component, days: Mapping[str, Days], places: Places) -> Iterator[Fault]:
    assert component.keeps is not None
    told: set[str] = set()
    for at, line in enumerate(component.ingredients):
        part = index.components.get(line.item) or _longest_trim(index, line.item)
        if isinstance(part, ByProduct):
            most = own_days_of(part) if counting(component, at, None, places).counts else None
        else:
            most = line_days(component, at, index.components, days, places)
        if part is None or most is None or days_kept(component.keeps) <= most or line.item in told:
            continue
        told.add(line.item)
        if isinstance(part, ByProduct) or component.id not in inside_of(index, part.id):
            yield _older_than(component, part, most)


def _longest_trim(index: Index, item: str) -> ByProduct | None:
    """Return the entry of a by-product that keeps the longest; None where it may be bought, or nobody says of one."""
    made = [one for _, one in index.by_products.get(item, ())]
    known = [one for one in made if one.keeps is not None]
    if item in index.pantry or not made or len(known) < len(made):
        return None
    return max(known, key=lambda one: own_days_of(one) or 0)


def _older_than(component: Component, part: Component | ByProduct, most: int) -> Fault:
    assert component.keeps is not None
    same = part.keeps is not None and max(1, days_kept(part.keeps)) == most
    says = f"keeps {write_duration(part.keeps)}" if same and part.keeps is not None else f"lets it keep {most} d"
    return fault(
        "LB529",
        f"{component.name} keeps {write_duration(component.keeps)}, and {part.name} in it {says}",
        component.at("keeps"),
        hints=(
            f"write `keeps: {most} d`: the part that is made first sets the date, to any depth",
            "or add `sets_date: yes` to the stage from which it counts anew, as your food-safety plan allows",
        ),
        related=(Related(span=part.at("keeps"), label="this part's own time"),),
    )
