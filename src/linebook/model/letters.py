"""Where a character stands in the specs of a house: tells a fault found on paper by the place it was typed.

Walks any record; knows no field by name.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import fields, is_dataclass

from linebook.model.house import House
from linebook.model.record import Record
from linebook.source.spans import Span


def find_letter(house: House, letter: str) -> tuple[Span, ...]:
    """Return every place where a character stands in a field or a method of the house's specs, in file order.

    Comments do not count, nor a character that is typed as an escape.
    """
    places = {
        span.source.span(span.start + at, span.start + at + 1)
        for span in _spans(house)
        for at, typed in enumerate(span.text)
        if typed == letter
    }
    return tuple(sorted(places, key=lambda span: (span.source.path, span.start)))


def _spans(value: object) -> Iterator[Span]:
    """Yield the span of every field's value and of every piece of a method, at any depth."""
    if isinstance(value, Span):
        return
    if isinstance(value, Record):
        yield from value.spans.values()
    elif isinstance(span := getattr(value, "span", None), Span):
        yield span
    if isinstance(value, Mapping):
        yield from _each(value.values())
    elif isinstance(value, tuple):
        yield from _each(value)
    elif is_dataclass(value):
        yield from _each(getattr(value, field.name) for field in fields(value))


def _each(values: Iterable[object]) -> Iterator[Span]:
    for value in values:
        yield from _spans(value)
