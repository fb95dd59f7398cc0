"""The English words of the tasting notes: a part of the table in ``english``."""

from __future__ import annotations

from typing import Final

NOTES: Final = {
    "document.tasting-notes": "Tasting notes",
    "notes.copy": "chef's copy, in no binder",
    "notes.lead": "Newest first. What is written here goes into the specs with linebook note.",
    "notes.lead-since": "From {day} on, newest first. What is written here goes into the specs with linebook note.",
    "notes.dishes": "Dishes",
    "notes.components": "Components",
    "notes.tested": "last tested {day}",
    "notes.draft": "draft, never tested",
    "notes.head.day": "day",
    "notes.head.tasted": "tasted",
    "notes.head.changed": "changed",
    "notes.head.by": "by",
    "notes.told": "tasted {day}: {tasted}",
    "notes.told-by": "tasted {day} by {by}: {tasted}",
    "notes.told-changed": " – changed: {changed}",
}
