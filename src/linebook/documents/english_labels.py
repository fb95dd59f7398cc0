"""The English words of container labels and of the tasting sheet: a part of the table in ``english``."""

from __future__ import annotations

from typing import Final

LABELS: Final = {
    "document.tasting-sheet": "Tasting",
    "labels.made": "Made {time}",
    "labels.made-since": "Made {day} (day 1), ready {time}",
    "labels.use-by": "**Use by {time}**",
    "labels.use-by-open": "**Use by: write it down**",
    "labels.contains": "**Contains** {members}",
    "labels.may-contain": "**May contain** {members}",
    "labels.undeclared": "**Not declared, treat as containing anything:** {members}",
    "labels.more": "**Allergens on another label: stick on all {count}.**",
    "labels.part": "Label {number} of {count} of this container",
    "labels.of": "{number} of {count}",
    "labels.initials": "by",
    "labels.title": "{house}: labels for {day}",
    "labels.measure": "Measure this line: {length} mm",
    "labels.measure-hint": "If it is not, print again at 100 %.",
    "tasting.only-for": "for {day} only, bin after service",
    "tasting.when": "**Taste at {time}**, a quarter of an hour before the doors open at {doors}.",
    "tasting.when-open": "Taste a quarter of an hour before the doors open.",
    "tasting.dish": "dish",
    "tasting.for": "must taste of",
    "tasting.said": "said of it",
    "tasting.decides": "Who decides:",
    "tasting.open": "not written on its card",
    "tasting.part": "{item}: {taste}",
}
