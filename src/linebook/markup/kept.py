"""A block tree as text that can be kept: a line of JSON for the head, one a block, then a check; for git. Both ways.

Owns that form alone. What is read back is believed only where it has the fingerprint it is kept under, and its check:
ids and keys are in no fingerprint.
"""

from __future__ import annotations

import json
from collections.abc import Mapping
from dataclasses import MISSING, fields, replace
from types import MappingProxyType
from typing import Any, Final

from linebook.markup import blocks
from linebook.markup.blocks import SheetText
from linebook.markup.fingerprint import fingerprint_of
from linebook.model.issue import check_of

_IS: Final = "is"
_KINDS: Final[Mapping[str, Any]] = MappingProxyType(
    {
        kind.__name__: kind
        for kind in (
            *(blocks.Run, blocks.Mark, blocks.Second, blocks.Heading, blocks.Paragraph, blocks.Fact, blocks.Facts),
            *(blocks.Cell, blocks.Row, blocks.Table, blocks.Step, blocks.Steps, blocks.Points, blocks.Rule),
            *(blocks.FigureRef, blocks.Box, blocks.Split, blocks.SheetText),
        )
    }
)


def written_sheet(sheet: SheetText) -> str:
    """Return a sheet as text; a field at its default is left out."""
    lines = [_plain(replace(sheet, blocks=())), *map(_plain, sheet.blocks)]
    text = "".join(json.dumps(line, ensure_ascii=False, separators=(",", ":")) + "\n" for line in lines)
    return f'{text}"{check_of(text)}"\n'


def read_sheet(text: str, fingerprint: str) -> SheetText | None:
    """Return the sheet of a text, None where it is not the sheet of this fingerprint."""
    try:
        *lines, check = text.replace("\r\n", "\n").splitlines(keepends=True)
        if json.loads(check) != check_of("".join(lines)):
            return None
        head, *rest = [_tree(json.loads(line)) for line in lines]
        sheet = replace(head, blocks=tuple(rest))
        return sheet if type(head) is SheetText and fingerprint_of(sheet) == fingerprint else None
    except (ValueError, TypeError, KeyError, AttributeError, RecursionError):
        return None


def _plain(value: Any) -> Any:
    if isinstance(value, tuple):
        return [_plain(one) for one in value]
    if type(value).__name__ not in _KINDS:
        return value
    held = ((one, getattr(value, one.name)) for one in fields(value))
    return {_IS: type(value).__name__} | {one.name: _plain(own) for one, own in held if not _is_default(one, own)}


def _is_default(one: Any, own: object) -> bool:
    return one.default is not MISSING and one.default == own


def _tree(value: Any) -> Any:
    if isinstance(value, list):
        return tuple(map(_tree, value))
    if isinstance(value, dict):
        kind = _KINDS[value.pop(_IS)]
        return kind(**{name: _tree(own) for name, own in value.items()})
    return value
