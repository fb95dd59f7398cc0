"""What goes wrong between `{` and `}` or `[` and `]` on a line: a comma, a brace or quotes left out, in kitchen words.

Looks at the text alone: it knows no field, only which words the file uses as a field's name elsewhere.
"""

from __future__ import annotations

import re
from typing import Final

from linebook.source.codes import fault
from linebook.source.faults import Fault
from linebook.source.spans import SourceFile

CLOSERS: Final = {"{": "}", "[": "]"}
_PART: Final = re.compile(r"\s*(?P<key>[A-Za-z0-9_-]+): (?P<value>.+)")
_LATER_FIELD: Final = re.compile(r"(?P<joint>[,;]?) +(?P<word>[a-z][a-z0-9_-]*)$")
_WHOLE_VALUE: Final = re.compile(r"[0-9./]+(?: ?[A-Za-z%]{1,3})?")
_LISTED: Final = re.compile(r"[^{}\[\]\"']*, +[a-z][a-z_]*: ")
_LONGEST_SHOWN: Final = 60
_LONGEST_WORD: Final = 100


def explain_braces(source: SourceFile, opened: int, at: int) -> Fault:
    """Return the fault of a `{` or `[` whose parser stopped at an offset before its end."""
    mark = source.text[opened]
    closer = CLOSERS[mark]
    if source.position(opened)[0] == source.position(at)[0] and at < len(source.text):
        found = _explain_colon(source, opened, at) if source.text[at] == ":" else _explain_text(source, at)
        if found:
            return found
    return fault(
        "LB101",
        f"what `{mark}` opens is not written to its end",
        source.span(opened, opened + 1),
        hints=(f"type `{closer}` at its end, and a comma between its parts",),
    )


def explain_no_opener(source: SourceFile, at: int, field: str, value: str) -> Fault | None:
    """Return the fault of fields listed with commas on one line without braces, or with `}` alone; else None.

    ``at`` is where the name ``field`` stands, and ``value`` all that follows its colon on the line.
    """
    if not _LISTED.match(value):
        return None
    whole = f"{field}: {value}"
    span = source.span(at, at + len(field))
    if value.endswith("}") and "{" not in value:
        return fault("LB101", "`}` closes these fields and no `{` opens them", span, hints=(f"type `{{{field}: `",))
    shown = f"`{{{whole}}}`" if len(whole) <= _LONGEST_SHOWN else f"`{{{field}: ...}}`"
    hints = (f"put braces around them: {shown}", "or quotes around a text that holds a colon")
    return fault("LB101", "several fields stand on one line without braces", span, hints=hints)


def _explain_colon(source: SourceFile, opened: int, at: int) -> Fault | None:
    """A second colon in one part: a comma was left out before a field, or a text has a colon in it."""
    text = source.text
    begins = max(text.rfind(sign, opened, at) for sign in ",{[") + 1
    ends = re.compile(r"[,{}\[\]\n]|\Z").search(text, at)
    part = _PART.fullmatch(text[begins : ends.start() if ends else at].rstrip())
    if part is None:
        return None
    start = begins + part.start("value")
    tail = max(start, at - _LONGEST_WORD)
    later = _LATER_FIELD.search(text[tail:at])
    if later and (later["joint"] or _is_field(source, later["word"], text[start : tail + later.start()])):
        word = tail + later.start("word")
        if later["joint"]:
            return fault(
                "LB101",
                "a `;` does not part two fields",
                source.span(tail + later.start("joint"), word),
                hints=(f"type a comma before `{later['word']}`",),
            )
        message = f"no comma stands before `{later['word']}`"
        span = source.span(word, word + len(later["word"]))
        return fault("LB101", message, span, hints=(f"type a comma before `{later['word']}`",))
    value = part["value"]
    shown = f'`{part["key"]}: "{value}"`' if len(value) <= _LONGEST_SHOWN and '"' not in value else "it"
    hints = (f"quote this text: {shown}" if shown != "it" else "quote this text",)
    message = "this text has a colon, so it reads as another field"
    return fault("LB101", message, source.span(start, start + len(value)), hints=hints)


def _explain_text(source: SourceFile, at: int) -> Fault | None:
    """Words after a quoted text, where a comma or the end should be."""
    before = source.text[:at].rstrip(" ")
    if before[-1:] not in ('"', "'") or source.text[at] in "{[-":
        return None
    return fault(
        "LB101",
        "words stand after the closing quote",
        source.span(at, at + 1),
        hints=("quote the whole value, and use the other kind of quote inside it", "or type a comma before a field"),
    )


def _is_field(source: SourceFile, word: str, before: str) -> bool:
    """True for a word that names a field elsewhere in the file, or that follows a whole value such as ``70``."""
    if _WHOLE_VALUE.fullmatch(before):
        return True
    used = re.compile(rf"(?:^[ -]*|[{{,] *){re.escape(word)}:(?: |$)", re.MULTILINE)
    return used.search(source.text) is not None
