"""Prints faults: the human form with the line and carets, one line each, or JSON. Knows nothing of rules."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from typing import Final

import click

from linebook.source.codes import CODES
from linebook.source.faults import Fault, Severity
from linebook.source.spans import Span

FORMS: Final = ("human", "short", "json")
TOLD: Final = "linebook.told"
"""Where a command's context keeps the lines of faults it has told, which are told again with a print that is kept."""

_WIDEST: Final = 110
_MOST_SHOWN: Final = 500


def print_faults(faults: Sequence[Fault], form: str) -> None:
    """Print the faults in file order, then the count; to stderr, JSON to stdout.

    Of more faults than anyone reads, the human form has the first ones; the others have all.
    """
    ordered = sorted(faults, key=_order)
    if form == "json":
        import json  # here, because no other form needs it

        click.echo(json.dumps([_as_json(fault) for fault in ordered], indent=2, ensure_ascii=False))
        return
    shown = ordered if form == "short" else ordered[:_MOST_SHOWN]
    lines = [_short(fault) if form == "short" else _human(fault) for fault in shown]
    if len(shown) < len(ordered):
        more = len(ordered) - len(shown)
        lines.append(f"and {more:,} more: mend these first, or see all with `linebook check --form short`")
    lines += [_summary(ordered)] if ordered else []
    for line in lines:
        click.echo(line, err=True)
    context = click.get_current_context(silent=True)
    if context is not None:
        context.meta.setdefault(TOLD, []).extend(lines)


def count_errors(faults: Iterable[Fault]) -> int:
    """Return how many faults are errors."""
    return sum(fault.severity is Severity.ERROR for fault in faults)


def _order(fault: Fault) -> tuple[str, int, str]:
    if fault.span is None:
        return ("", 0, fault.code)
    return (fault.span.source.path, fault.span.start, fault.code)


def _short(fault: Fault) -> str:
    place = f"{fault.span.place}: " if fault.span else ""
    hint = f" ({fault.hints[0]})" if fault.hints else ""
    return f"{place}{fault.severity.value} {fault.code} {fault.message}{hint}"


def _human(fault: Fault) -> str:
    colour = "red" if fault.severity is Severity.ERROR else "yellow"
    name = CODES[fault.code].name
    head = click.style(f"{fault.severity.value} {fault.code}", fg=colour, bold=True)
    lines = [f"{head} {click.style(fault.message, bold=True)}"]
    if fault.span:
        lines.extend(_excerpt(fault.span, colour))
    for related in fault.related:
        lines.append(f"  {related.label}:")
        lines.extend(_excerpt(related.span, "blue"))
    lines.extend(f"  mend: {hint}" for hint in fault.hints)
    lines.append(click.style(f"  more: linebook explain {fault.code} ({name})", dim=True))
    return "\n".join(lines) + "\n"


def _excerpt(span: Span, colour: str) -> list[str]:
    line, column = span.source.position(span.start)
    place = f"  {span.place}"
    text = span.source.line_text(line)
    if not text.strip():
        return [place]
    length = max(1, min(span.end, span.start + len(text) - column + 1) - span.start)
    shown, column = _window(text, column)
    # A tab or another unprintable character would move the carets away from what they point at.
    shown = "".join(char if char.isprintable() else " " for char in shown)
    carets = "^" * min(length, max(1, len(shown) - column + 1))
    gutter = f"{line:>7} | "
    return [place, gutter + shown, " " * (len(gutter) + column - 1) + click.style(carets, fg=colour, bold=True)]


def _window(text: str, column: int) -> tuple[str, int]:
    """Cut a long line to a window around the column; return it and the column inside it."""
    if len(text) <= _WIDEST:
        return text, column
    start = max(0, min(column - _WIDEST // 3, len(text) - _WIDEST))
    return text[start : start + _WIDEST], column - start


def _summary(faults: Sequence[Fault]) -> str:
    errors = count_errors(faults)
    warnings = len(faults) - errors
    files = len({fault.span.source.path for fault in faults if fault.span})
    parts = [_count(errors, "error"), _count(warnings, "warning")]
    where = f" in {_count(files, 'file')}" if files else ""
    return " and ".join(part for part in parts if part) + where


def _count(number: int, word: str) -> str:
    return f"{number} {word}{'' if number == 1 else 's'}" if number else ""


def _as_json(fault: Fault) -> dict[str, object]:
    place: dict[str, object] = {}
    if fault.span:
        end_line, end_column = fault.span.source.position(fault.span.end)
        place = {
            "file": fault.span.source.path,
            "line": fault.span.line,
            "column": fault.span.column,
            "end_line": end_line,
            "end_column": end_column,
            "text": fault.span.text,
        }
    return {
        "code": fault.code,
        "name": CODES[fault.code].name,
        "severity": fault.severity.value,
        "message": fault.message,
        **place,
        "hints": list(fault.hints),
        "related": [{"place": related.span.place, "label": related.label} for related in fault.related],
    }
