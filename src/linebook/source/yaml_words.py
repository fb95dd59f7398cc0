"""What the YAML parser complains of, in kitchen words: looks at its complaint and at the text it stopped in."""

from __future__ import annotations

import re
from typing import Final

from linebook.source.codes import fault
from linebook.source.faults import Fault, Related
from linebook.source.spans import SourceFile
from linebook.source.yaml_braces import CLOSERS, explain_braces, explain_no_opener

_COLON: Final = re.compile(r": |:$")
_VALUE: Final = re.compile(r"^(?P<lead>\s*(?:- +)?)(?P<field>[A-Za-z0-9_-]+): +(?P<value>.*)$")
_ONE_WORD: Final = re.compile(r"[a-z0-9][a-z0-9_-]{0,40}")
_ONE_FIELD: Final = re.compile(r"[a-z][a-z_]*: [^:]+")
_OTHER_SIGN: Final = re.compile(r"(?P<field>[a-z][a-z_]*) *[=-] +(?P<value>.+)")
_QUOTE_OPENS: Final = re.compile(r"""^(?:\s*(?:- +)?[A-Za-z0-9_-]+: +|.*[{,] *[A-Za-z0-9_-]+: +)(?P<mark>["'])""")
_AFTER_TEXT: Final = re.compile(r" *(?:$|[,}\]]| #)")
_NO_SPACE: Final = re.compile(r"^\s*(?:- +)?([a-z][A-Za-z0-9_-]*):(?=[^\s:/])")
_NO_DASH_SPACE: Final = re.compile(r"""^\s*-(?=[a-z{\["'])""")
_STARTERS: Final = "@`%*&!|>"
_BLOCK_HEAD: Final = re.compile(r"[|>][-+0-9]{0,2}")
_FIELD: Final = re.compile(r"( +)([A-Za-z0-9_-]+):(?: |$)")
_FIELD_OR_TOP: Final = re.compile(r"( *)([A-Za-z0-9_-]+):(?: |$)")
_NO_FIELD: Final = re.compile(r" *[A-Za-z][^:#]*$")
_QUOTES: Final = {"'": "single", '"': "double"}


def syntax_fault(source: SourceFile, problem: str, at: int, context_at: int | None) -> Fault:
    """Return the LB101 fault for a parser's complaint at an offset; ``context_at`` is where what it read began."""
    at = min(at, len(source.text))
    opened = _unclosed_quote(source, problem, at, context_at) or _unclosed_brace(source, problem, at, context_at)
    if opened:
        return opened
    line = source.position(at)[0]
    if line > 1 and not source.line_text(line).strip():
        line -= 1  # what is unfinished at the end of the text is on the line before it
    if "could not find expected ':'" in problem and context_at is not None:
        begun = source.position(context_at)[0]
        return _explain_line(source, begun, problem) or _no_colon(source, begun)
    found = _explain_line(source, line, problem)
    if "mapping values" in problem and line > 1:  # a line without its space or colon runs on into this one
        found = _missing_space(source, line - 1) or _missing_colon(source, line - 1) or found
    if "'-'" in problem or "sequence entries" in problem:  # so does a point of a list without its space
        found = (_missing_space(source, line - 1) if line > 1 else None) or found
    if found:
        return found
    related: tuple[Related, ...] = ()
    if context_at is not None and source.position(context_at)[0] != line:
        related = (Related(span=source.span(context_at, context_at + 1), label="what is being read began here"),)
    message, hint = _by_problem(problem)
    return fault("LB101", message, source.span(at, min(at + 1, len(source.text))), hints=(hint,), related=related)


def _unclosed_quote(source: SourceFile, problem: str, at: int, context_at: int | None) -> Fault | None:
    start: int | None = None
    if context_at is not None and source.text[context_at : context_at + 1] in _QUOTES:
        start = context_at if "unexpected end of stream" in problem else None
    if start is None:
        start = _quote_run_on(source, at)
    if start is None:
        return None
    mark = source.text[start]
    message, hints = f"a text begins with `{mark}` and never ends", (f"type `{mark}` where the text ends",)
    return fault("LB101", message, source.span(start, start + 1), hints=hints)


def _quote_run_on(source: SourceFile, at: int) -> int | None:
    """Find the quote that was left open above, so that it ends where the quote of a later text begins."""
    for number in range(1, source.position(at)[0]):
        text = source.line_text(number)
        opens = _QUOTE_OPENS.match(text)
        if opens is None or text.find(opens["mark"], opens.end()) >= 0:
            continue
        start = source.line_starts[number - 1] + opens.start("mark")
        closing = source.text.find(opens["mark"], start + 1)
        if closing >= 0:
            line, column = source.position(closing)
            if not _AFTER_TEXT.match(source.line_text(line), column):
                return start
    return None


def _unclosed_brace(source: SourceFile, problem: str, at: int, context_at: int | None) -> Fault | None:
    if context_at is None or source.text[context_at : context_at + 1] not in CLOSERS:
        return None
    if "expected ',' or" in problem or "end of stream" in problem or "document start" in problem:
        return explain_braces(source, context_at, at)
    return None


def _explain_line(source: SourceFile, number: int, problem: str) -> Fault | None:
    text = source.line_text(number)
    begins = source.line_starts[number - 1]
    value = _VALUE.match(text)
    if value and value["value"]:
        typed = value["value"].partition(" #")[0].rstrip()
        found = explain_no_opener(source, begins + value.start("field"), value["field"], typed)
        found = found or _explain_value(source, begins + value.start("value"), typed, problem)
        if found:
            return found
    indented = _FIELD.match(text)
    if indented and "mapping values" in problem:
        return _indented(source, number, begins + indented.end(1), indented[2])
    return _missing_space(source, number)


def _indented(source: SourceFile, number: int, at: int, name: str) -> Fault:
    """A field set in further than the one above it: where the line below stands as far in, the one above is amiss."""
    depth = at - source.line_starts[number - 1]
    above = _FIELD_OR_TOP.match(source.line_text(number - 1)) if number > 1 else None
    below = _FIELD_OR_TOP.match(source.line_text(number + 1)) if number < len(source.line_starts) else None
    if above and below and len(below[1]) == depth and len(above[1]) < depth:
        start = source.line_starts[number - 2] + len(above[1])
        return fault(
            "LB101",
            f"`{above[2]}` is not set in as far as `{name}` below it",
            source.span(start, start + len(above[2])),
            hints=("start it at the same column as the fields of its group",),
            related=(Related(span=source.span(at, at + len(name)), label="the fields below start here"),),
        )
    return fault(
        "LB101",
        f"`{name}` is indented under a field that already has a value",
        source.span(at, at + len(name)),
        hints=("start it at the same column as the fields of its group",),
    )


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


def _missing_colon(source: SourceFile, number: int) -> Fault | None:
    return _no_colon(source, number) if _NO_FIELD.match(source.line_text(number)) else None


def _no_colon(source: SourceFile, number: int) -> Fault:
    line = source.line_text(number)
    text = line.strip()
    begins = source.line_starts[number - 1] + len(line) - len(line.lstrip())
    span = source.span(begins, begins + len(text))
    if text.startswith("{"):
        return fault("LB101", "a point of a list has no `-` before it", span, hints=("type `- ` before its `{`",))
    other = _OTHER_SIGN.fullmatch(text[:1].lower() + text[1:])
    if _ONE_WORD.fullmatch(text):
        mend = f"type `{text}:` with a colon after it"
    elif other and len(text) <= 60:
        mend = f"type `{other['field']}: {other['value']}`"
    else:
        mend = "type `name: value`, or quote a text that runs over several lines"
    return fault("LB101", "this line has no `: ` between a field's name and its value", span, hints=(mend,))


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
    hints: tuple[str, ...] = (f"quote this text: {shown}",)
    if _ONE_FIELD.fullmatch(plain) and len(plain) <= 60:
        hints = (f"put braces around it if it is a field: `{{{plain}}}`", f"or quote it if it is a text: {shown}")
    span = source.span(at, at + len(plain))
    return fault("LB101", "this text has a colon, so it reads as another field", span, hints=hints)


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
