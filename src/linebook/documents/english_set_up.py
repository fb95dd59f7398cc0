"""The English words of the set-up sheet: a part of the table in ``english``."""

from __future__ import annotations

from typing import Final

SET_UP: Final = {
    "document.set-up-sheet": "Set-up sheet",
    "set-up.title": "Set up {line}",
    "set-up.by": "set up by **{time}**",
    "set-up.doors": "doors **{time}**",
    "set-up.rule": "One of each stands on the line; the rest waits behind, counted in full pans at their usual fill.",
    "set-up.item": "What",
    "set-up.amount": "in all",
    "set-up.on-line": "On the line",
    "set-up.behind": "behind",
    "set-up.behind-for": "behind, {covers}",
    "set-up.waits-in": "The rest waits in",
    "set-up.one": "1 × {vessel}",
    "set-up.hot": "Hot",
    "set-up.cold": "Cold",
    "set-up.at-hand": "At hand",
    "set-up.also": "Also at hand:",
    "set-up.unknown": "**Write in how many where there is a line**: {reasons}. To know it, fill one pan and weigh or "
    "count what went in: what is needed, divided by that, less the one on the line. Tell the chef, who puts it into "
    "the specs.",
    "set-up.unknown.room": "the specs give no density of {items}",
    "set-up.unknown.holds": "the specs do not say how much {vessels} holds",
    "set-up.plates": "Plates",
    "set-up.count": "how many",
    "set-up.plate": "plate",
    "set-up.plate-for": "for",
    "set-up.warm-plate": "{plate}, warmed",
}
