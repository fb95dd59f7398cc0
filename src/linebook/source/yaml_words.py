"""What the YAML parser complains of, in kitchen words: looks at its complaint and at the text it stopped in."""

from __future__ import annotations

import re
from typing import Final

from linebook.source.codes import fault
from linebook.source.faults import Fault, Related
from linebook.source.spans import SourceFile

_COLON: Final = re.compile(r": |:$")
_VALUE: Final = re.compile(r"^(\s*(?:- +)?[A-Za-z0-9_-]+: +)(.*)$")
_NO_SPACE: Final = re.compile(r"^\s*(?:- +)?([a-z][A-Za-z0-9_-]*):(?=[^\s:/])")
_NO_DASH_SPACE: Final = re.compile(r"^\s*-(?=[a-z])")
_STARTERS: Final = "@`%*&!|>"
_BLOCK_HEAD: Final = re.compile(r"[|>][-+0-9]{0,2}")
_FIELD: Final = re.compile(r"( +)([A-Za-z0-9_-]+):(?: |$)")
_QUOTES: Final = {"'": "single", '"': "double"}


def syntax_fault(source: SourceFile, problem: str, at: int, context_at: int | None) -> Fault:
    """Return the LB101 fault for a parser's complaint at an offset; ``context_at`` is where what it read began."""
    at = min(at, len(source.text))
    opened = _unclosed_quote(source, problem, context_at)
    if opened:
        return opened
    line = source.position(at)[0]
    if line > 1 and not source.line_text(line).strip():
        line -= 1  # what is unfinished at the end of the text is on the line before it
    if "could not find expected ':'" in problem and context_at is not None:
        begun = source.position(context_at)[0]
        return _explain_line(source, begun, problem) or _no_colon(source, begun)
    found = _explain_line(source, line, problem)
    if "mapping values" in problem and line > 1:  # a line without its space runs on into this one
        found = _missing_space(source, line - 1) or found
    if found:
        return found
    related: tuple[Related, ...] = ()
    if context_at is not None and source.position(context_at)[0] != line:
        related = (Related(span=source.span(context_at, context_at + 1), label="what is being read began here"),)
    message, hint = _by_problem(problem)
    return fault("LB101", message, source.span(at, min(at + 1, len(source.text))), hints=(hint,), related=related)


def _unclosed_quote(source: SourceFile, problem: str, context_at: int | None) -> Fault | None:
    if context_at is None or context_at >= len(source.text):
        return None
    mark = source.text[context_at]
    if mark in _QUOTES and "unexpected end of stream" in problem:
        return fault(
            "LB101",
            f"a text begins with `{mark}` and never ends",
            source.span(context_at, context_at + 1),
            hints=(f"type `{mark}` where the text ends",),
        )
    if mark in "[{" and ("expected ',' or" in problem or "end of stream" in problem or "document start" in problem):
        closer = "]" if mark == "[" else "}"
        return fault(
            "LB101",
            f"what `{mark}` opens is not written to its end",
            source.span(context_at, context_at + 1),
            hints=(f"type a comma between its parts and `{closer}` at its end", "quote a part that holds a comma"),
        )
    return None


def _explain_line(source: SourceFile, number: int, problem: str) -> Fault | None:
    text = source.line_text(number)
    begins = source.line_starts[number - 1]
    value = _VALUE.match(text)
    if value and value[2]:
        found = _explain_value(source, begins + value.end(1), value[2].partition(" #")[0].rstrip(), problem)
        if found:
            return found
    indented = _FIELD.match(text)
    if indented and "mapping values" in problem:
        at = begins + indented.end(1)
        return fault(
            "LB101",
            f"`{indented[2]}` is indented under a field that already has a value",
            source.span(at, at + len(indented[2])),
            hints=("start it at the same column as the fields of its group",),
        )
    return _missing_space(source, number)


def _missing_space(source: SourceFile, number: int) -> Fault | None:
    text = source.line_text(number)
    begins = source.line_starts[number - 1]
    missing = _NO_SPACE.match(text)
    if missing:
        at = begins + missing.end()
        hint = f"type `{missing[1]}: ` with a space before the value"
        return fault("LB101", f"`{missing[1]}:` has no space after it", source.span(at - 1, at), hints=(hint,))
    dash = _NO_DASH_SPACE.match(text)
    if dash:
        at = begins + dash.end()
        return fault(
            "LB101", "a point of a list has no space after its `-`", source.span(at - 1, at), hints=("type `- ` first",)
        )
    return None


def _explain_value(source: SourceFile, at: int, text: str, problem: str) -> Fault | None:
    first = text[:1]
    if first in _QUOTES:
        return None if "mapping values" in problem else _after_quote(source, at, text)
    if first and first in _STARTERS and not _BLOCK_HEAD.fullmatch(text):
        shown = "a backtick" if first == "`" else f"`{first}`"
        span = source.span(at, at + len(text))
        return fault(
            "LB101", f"a value cannot begin with {shown}", span, hints=("put the value between double quotes",)
        )
    if first not in ("[", "{", "") and _COLON.search(text):
        return _colon_in_text(source, at, text)
    return None


def _no_colon(source: SourceFile, number: int) -> Fault:
    text = source.line_text(number)
    begins = source.line_starts[number - 1] + len(text) - len(text.lstrip())
    return fault(
        "LB101",
        "this line has no `: ` between a field's name and its value",
        source.span(begins, begins + len(text.strip())),
        hints=("type `name: value`, or quote a text that runs over several lines",),
    )


def _after_quote(source: SourceFile, at: int, text: str) -> Fault | None:
    closing = text.find(text[0], 1)
    if closing < 0 or not text[closing + 1 :].strip():
        return None
    return fault(
        "LB101",
        "words stand after the closing quote",
        source.span(at, at + len(text)),
        hints=("quote the whole value, and use the other kind of quote inside it",),
    )


def _colon_in_text(source: SourceFile, at: int, plain: str) -> Fault:
    mark = "'" if '"' in plain else '"'
    shown = f"`{mark}{plain}{mark}`" if len(plain) <= 60 and mark not in plain else "the text between quotes"
    return fault(
        "LB101",
        "this text has a colon, so it reads as another field",
        source.span(at, at + len(plain)),
        hints=(f"quote this text: {shown}",),
    )


def _by_problem(problem: str) -> tuple[str, str]:
    if "mapping values" in problem:
        return (
            "a colon stands where no field can begin",
            "quote the text if the colon belongs to it, or check the indent",
        )
    if "escape" in problem or "hexadecimal" in problem:
        return "a backslash in double quotes changes what follows it", "use single quotes, or write the backslash twice"
    if "cannot start any token" in problem:
        return "a value cannot begin with this character", "put the value between double quotes"
    if "found ':'" in problem:
        return "a colon stands where a field's name is missing", "type a name before the `:`, or quote the text"
    if "sequence entries" in problem or "'-'" in problem:
        return "a list is out of place here", "start each point on its own line with `- `, all at one indent"
    if "end of stream" in problem or "document" in problem:
        return "the text stops in the middle of a value", "close every quote, `[` and `{`"
    return "this line does not fit the ones above it", "check the indent: fields of one group start at the same column"
