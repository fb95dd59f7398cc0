"""The English of the pages on a screen; see ``english.py``."""

from __future__ import annotations

from typing import Final

SCREEN: Final = {
    "document.screen-index": "Find a dish",
    "screen.by-course": "By course",
    "screen.by-line": "By line",
    "screen.alphabetical": "A to Z",
    "screen.line-card": "{line} line",
    "screen.skip": "Skip to the sheet",
    "screen.sheets": "Other sheets",
    "screen.on-page": "On this page",
    "screen.scrolls": "{table}: scrolls sideways and down",
    "screen.table.ingredients": "What to weigh",
    "screen.table.elements": "What a portion carries",
    "screen.table.matrix": "Every dish against every allergen",
    "screen.table.log": "What to write down",
    "screen.table.contents": "Sheets",
    "screen.table.list": "List",
    "screen.figure": "{dish}: the plate",
    "screen.blank": "to fill in on the printed sheet",
    "screen.tick.one": "box to tick",
    "screen.tick.many": "{count} boxes to tick",
    "screen.log": "Write it on the printed card: this screen keeps nothing.",
}
