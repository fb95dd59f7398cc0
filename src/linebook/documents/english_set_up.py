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
    "set-up.unknown": "Where there is a line to write on, the spec gives no weight of a volume to count pans by.",
    "set-up.plates": "Plates",
    "set-up.count": "how many",
    "set-up.plate": "plate",
    "set-up.plate-for": "for",
    "set-up.warm-plate": "{plate}, warmed",
}
