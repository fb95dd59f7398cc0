"""The tasting log of a dish or component as its file: which file it is, and its bytes with one note more.

Changes nothing on disk. A note is written only where the file holds it afterwards, and all else as before.
"""

from __future__ import annotations

from collections.abc import Sequence
from datetime import date
from pathlib import Path, PurePosixPath
from typing import Final

from linebook.model.tasting import Tasting
from linebook.read.added_entry import only_added, place_entry, put_in, written_entry
from linebook.read.fields import is_empty
from linebook.read.reading import UNREAD, Reading
from linebook.read.tasting_fields import TASTINGS
from linebook.source.codes import fault
from linebook.source.faults import Fault, Outcome, Severity
from linebook.source.files import find_spec_files, read_source
from linebook.source.front_matter import FrontMatter, split_front_matter
from linebook.source.frozen import frozen
from linebook.source.nodes import MappingNode
from linebook.source.spans import SourceFile
from linebook.source.yaml_reader import read_yaml

BYTE_ORDER_MARK: Final = b"\xef\xbb\xbf"
_OF_WORDS: Final = ("LB104", "LB110", "LB313", "LB316")
"""Faults of what a note says, not of where it stands."""


@frozen
class Note:
    """What is to be written: texts in one line each. ``changed`` and ``by`` are '' where they are left out."""

    day: date
    tasted: str
    changed: str = ""
    by: str = ""

    @property
    def pairs(self) -> tuple[tuple[str, str], ...]:
        """Return its fields and their texts, without those that are left out."""
        pairs = (("date", self.day.isoformat()), ("tasted", self.tasted), ("changed", self.changed), ("by", self.by))
        return tuple((name, text) for name, text in pairs if text)


@frozen
class _Card:
    source: SourceFile
    front: FrontMatter
    root: MappingNode
    tastings: tuple[Tasting, ...]


def find_cards(root: Path, shown: str) -> Outcome[tuple[PurePosixPath, ...]]:
    """Return the files of all dishes and components of a house. Faults: those of a folder that cannot be read."""
    found = find_spec_files(root, shown)
    if found.value is None:
        return Outcome(value=None, faults=found.faults)
    return Outcome(value=(*found.value.dishes, *found.value.components))


def named_cards(word: str, cards: Sequence[PurePosixPath]) -> tuple[PurePosixPath, ...]:
    """Return the cards that a word names: an id, or the path of a file with or without its ending."""
    named = word.strip().replace("\\", "/").removesuffix(".md")
    return tuple(path for path in cards if named in (path.stem, str(path.with_suffix(""))))


def with_note(content: bytes, root: Path, path: PurePosixPath, shown: str, note: Note) -> Outcome[bytes]:
    """Return a card's file with a note more, in its place by date; ``content`` is what is in the file now.

    Faults: those of the file, and LB908 where the note cannot be put in so that nothing else changes.
    """
    opened = read_source(root, path, shown)
    if opened.value is None:
        return Outcome(value=None, faults=opened.faults)
    card = _read(opened.value)
    if card.value is None:
        return Outcome(value=None, faults=card.faults)
    before = card.value
    after = max((at for at, one in enumerate(before.tastings) if one.day <= note.day), default=-1)
    written = written_entry(note.pairs)
    places = place_entry(before.source, before.front, before.root, TASTINGS.name, written, after)
    text = put_in(before.source.text, places)
    added = _read(SourceFile(path=before.source.path, text=text))
    if added.value is None and all(found.code in _OF_WORDS for found in added.faults):
        return Outcome(value=None, faults=added.faults)
    mark = BYTE_ORDER_MARK if content.startswith(BYTE_ORDER_MARK) else b""
    sound = added.value is not None and places and _is_only_note(before, added.value, note, after + 1)
    if not sound or content != mark + before.source.text.encode():
        return Outcome(value=None, faults=(_refused(before),))
    return Outcome(value=mark + text.encode())


def _read(source: SourceFile) -> Outcome[_Card]:
    """Return the fields of a card and its log; None where there is an error in either."""
    split = split_front_matter(source)
    if split.value is None:
        return Outcome(value=None, faults=split.faults)
    read = read_yaml(source, split.value.yaml_start, split.value.yaml_end)
    faults = [found for found in read.faults if found.severity is Severity.ERROR]
    if faults or type(read.value) is not MappingNode:
        return Outcome(value=None, faults=tuple(faults) or (_no_fields(source),))
    entry = next((one for one in read.value.entries if one.key.text == TASTINGS.name), None)
    reading = Reading()
    tastings: tuple[Tasting, ...] = ()
    if entry is not None and not is_empty(entry.value):
        value = TASTINGS.type.read(entry.value, reading, TASTINGS, {})
        tastings = value if isinstance(value, tuple) else ()
        if reading.faults or value is UNREAD:
            return Outcome(value=None, faults=tuple(reading.faults) or (_no_fields(source),))
    return Outcome(value=_Card(source=source, front=split.value, root=read.value, tastings=tastings))


def _is_only_note(before: _Card, after: _Card, note: Note, at: int) -> bool:
    """Return whether a card has this note more, and all else as it was."""
    same_method = before.source.text[before.front.body_start :] == after.source.text[after.front.body_start :]
    return same_method and only_added(before.root, after.root, TASTINGS.name, note.pairs, at)


def _refused(card: _Card) -> Fault:
    entry = next((one for one in card.root.entries if one.key.text == TASTINGS.name), None)
    return fault(
        "LB908",
        "the note cannot be put into this file so that nothing else in it changes",
        entry.key.span if entry else card.source.span(0, 3),
        hints=(f"type it by hand under `{TASTINGS.name}:`, as in `- {TASTINGS.example}`",),
    )


def _no_fields(source: SourceFile) -> Fault:
    hints = ("write each field as its name, a colon and its value",)
    return fault("LB108", "this file has no fields to put a note beside", source.span(0, 3), hints=hints)
