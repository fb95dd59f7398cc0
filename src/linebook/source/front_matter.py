"""Where the block between the ``---`` lines of a spec begins and ends: owns that split, reads nothing inside it."""

from __future__ import annotations

import re
from typing import Final

from linebook.source.codes import fault
from linebook.source.faults import Fault, Outcome, Related
from linebook.source.frozen import frozen
from linebook.source.spans import SourceFile

_RULE: Final = re.compile(r"---[ \t]*\r?(?:\n|\Z)")
# Compiled when first used, as a sound spec needs none.
_CLOSER: Final = r"(?m)^---[ \t]*\r?(?:\n|\Z)"
_ALMOST: Final = r"(?m)^[ \t]*(?:[-—–_=*]{1,2}|[-—–]{4,}|---(?=\S)\S*|[ \t]+---|\.\.\.)[ \t]*\r?$"
_HEADING: Final = r"(?m)^##? "


@frozen
class FrontMatter:
    """Offsets in the file: the YAML from ``yaml_start`` to ``yaml_end``, the Markdown from ``body_start`` on."""

    yaml_start: int
    yaml_end: int
    body_start: int
    body_end: int


def split_front_matter(source: SourceFile) -> Outcome[FrontMatter]:
    """Return where the front matter and the body stand, or LB105 where it is missing or not closed."""
    opener = _RULE.match(source.text)
    if opener is None:
        return Outcome(value=None, faults=(_missing(source),))
    closer = _find_closer(source.text, opener.end())
    if closer is None:
        return Outcome(value=None, faults=(_not_closed(source, opener.end()),))
    return Outcome(
        value=FrontMatter(
            yaml_start=opener.end(), yaml_end=closer.start(), body_start=closer.end(), body_end=len(source.text)
        )
    )


def _find_closer(text: str, start: int) -> re.Match[str] | None:
    """Return the line that ends the fields; looked for by its signs, a text is searched in a tenth of the time."""
    at = text.find("\n---", start - 1)
    while at >= 0 and not (found := _RULE.match(text, at + 1)):
        at = text.find("\n---", at + 1)
    return found if at >= 0 else None


def _missing(source: SourceFile) -> Fault:
    first = source.line_text(1)
    span = source.span(0, len(first))
    late = re.search(_CLOSER, source.text)
    if late and not source.text[: late.start()].strip():
        return fault("LB105", "blank lines stand before the first `---`", span, hints=("start the file with `---`",))
    if first.strip() and re.match(_ALMOST, first):
        message = f"`{first.strip()}` does not open the fields of this spec"
        return fault("LB105", message, span, hints=("type three hyphens, `---`, and nothing else on line 1",))
    return fault(
        "LB105",
        "this spec does not begin with its fields",
        span,
        hints=("type `---` on line 1, the fields on the lines after it, and `---` on a line of its own after them",),
    )


def _not_closed(source: SourceFile, after: int) -> Fault:
    almost = re.compile(_ALMOST).search(source.text, after)
    heading = re.compile(_HEADING).search(source.text, after)
    related: tuple[Related, ...] = ()
    if almost:
        span = source.span(almost.start(), almost.end())
        related = (Related(span=span, label="three hyphens and nothing else would close them"),)
    elif heading:
        line = source.position(heading.start())[0]
        span = source.span(heading.start(), heading.start() + len(source.line_text(line)))
        related = (Related(span=span, label="the method seems to begin here"),)
    return fault(
        "LB105",
        "the fields that this `---` opens are not closed",
        source.span(0, 3),
        hints=("type `---` on a line of its own after the last field",),
        related=related,
    )
