"""Characters that no spec may hold, or that may not stand in its structure: owns the lists and the faults for them.

Knows nothing of YAML's grammar beyond where keys, colons and dashes stand on a line.
"""

from __future__ import annotations

import re
import unicodedata
from typing import Final

from linebook.source.codes import fault
from linebook.source.faults import Fault
from linebook.source.spans import SourceFile

_MOST_REPORTED: Final = 5

# Control characters, line ends that only some programs see, lone surrogates, and characters that reorder or hide text.
# These are compiled where a text is not of ordinary characters alone.
_NEVER: Final = (
    "[\x00-\x08\x0b\x0c\x0e-\x1f\x7f-\x9f\u061c\u200b\u200e\u200f\u2028-\u202e\u2060\u2066-\u2069\ufeff\ufff9-\uffff\ud800-\udfff]"
    "|\r(?!\n)"
)
_OTHER_SPACE: Final = "\u00a0\u1680\u2000-\u200a\u202f\u205f\u3000"
_SPACE_IN_STRUCTURE: Final = rf"(?m)^ *(?:- +)*(?:[A-Za-z0-9_-]+ *)?(?:: *(?:- *)?)?([{_OTHER_SPACE}])"
_ASCII_THAT_PRINTS: Final = bytes([10, *range(32, 127)])
_SMART_QUOTES: Final = "“”„‟‘’‚‛«»"
_OPENING_DOUBLE: Final = "“„‟«"

_NAMES: Final = {
    "\t": "a tab",
    "\u00a0": "a no-break space",
    "\u202f": "a no-break space",
    "\u200b": "a space of no width",
    "\ufeff": "a byte order mark",
    "\r": "a line end of an old kind",
    "\u2028": "a line end of a rare kind",
    "\u2029": "a line end of a rare kind",
    "\x85": "a line end of a rare kind",
    "\x00": "a null character",
}


def find_refused_characters(source: SourceFile, start: int, end: int) -> tuple[Fault, ...]:
    """Return LB104 faults for characters that may stand nowhere in a spec, the first few of them."""
    if is_ordinary(source.text[start:end]):
        return ()
    return _report(source, [match.start() for match in _first(_NEVER, source, start, end)])


def find_characters_in_structure(source: SourceFile, start: int, end: int) -> tuple[Fault, ...]:
    """Return LB104 faults for tabs, and for spaces that only look like one where a field's name or value begins."""
    if is_ordinary(source.text[start:end]):
        return ()
    offsets = [match.start() for match in _first("\t", source, start, end)]
    offsets += [match.start(1) for match in _first(_SPACE_IN_STRUCTURE, source, start, end)]
    return _report(source, sorted(offsets))


def has_refused_character(text: str) -> bool:
    """Return whether text holds a character that may stand nowhere in a spec."""
    return re.search(_NEVER, text) is not None


def blank_refused_characters(text: str) -> str:
    """Return text with ``?`` for each character that may stand nowhere in a spec."""
    return re.sub(_NEVER, "?", text)


def has_odd_edge(text: str) -> bool:
    """Return whether text begins or ends with a space that is not a plain one, or holds one after a colon."""
    return re.search(rf"^[{_OTHER_SPACE}]|[{_OTHER_SPACE}]$|:[{_OTHER_SPACE}]", text) is not None


def has_odd_space(text: str) -> bool:
    """Return whether text holds a space that is not a plain one."""
    return re.search(f"[{_OTHER_SPACE}]", text) is not None


def is_smart_quoted(text: str) -> bool:
    """Return whether text is meant to be quoted, but by quotation marks that only print."""
    first, last = text[:1], text[-1:]
    return first != "" and (
        first in _OPENING_DOUBLE or (len(text) > 1 and first in _SMART_QUOTES and last in _SMART_QUOTES)
    )


def is_ordinary(text: str) -> bool:
    """Return whether no character can be at fault: of all that are, only the stand-ins U+FFFC and U+FFFD print."""
    return is_ordinary_utf8(text.encode("utf-8", "surrogatepass"))


def is_ordinary_utf8(content: bytes) -> bool:
    """Return the same of a text that is still as it stands in its file."""
    rest = content.translate(None, _ASCII_THAT_PRINTS).decode("utf-8", "surrogatepass")
    return rest.isprintable() and "\ufffc" not in rest and "\ufffd" not in rest


def name_character(character: str) -> str:
    """Return a character in words a chef can look for: ``a tab``, ``a no-break space``, ``the character U+0007``."""
    known = _NAMES.get(character)
    if known:
        return known
    if unicodedata.category(character) == "Zs":
        return "a space that is not the plain one"
    return f"the character U+{ord(character):04X}"


def _first(pattern: str, source: SourceFile, start: int, end: int) -> list[re.Match[str]]:
    found = []
    for match in re.compile(pattern).finditer(source.text, start, end):
        found.append(match)
        if len(found) == _MOST_REPORTED:
            break
    return found


def _report(source: SourceFile, offsets: list[int]) -> tuple[Fault, ...]:
    faults = []
    for offset in offsets[:_MOST_REPORTED]:
        character = source.text[offset]
        hint = "type spaces instead" if character == "\t" or character.isspace() else "delete it"
        faults.append(
            fault(
                "LB104",
                f"{name_character(character)} stands where it does not belong",
                source.span(offset, offset + 1),
                hints=(hint,),
            )
        )
    return tuple(faults)
