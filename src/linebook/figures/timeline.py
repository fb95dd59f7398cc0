"""A week of work as bars across days: hands black, what works by itself light, services as upright lines.

Lengths in mm, time in hours from the beginning of the first day. Knows no plan and no kitchen.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from typing import Final

from linebook.figures.shapes import Drawing, Ink, Label, Polygon, Shape
from linebook.source.frozen import frozen

_WIDTH: Final = 250.0
_NAMES: Final = 58.0
_MOST_FOR_NAMES: Final = 105.0
_LETTER: Final = 1.85
"""mm that a letter of a name takes at the most, over a name: a caption is 9 points."""
_HEAD: Final = 9.0
_ROW: Final = 6.4
_BAR: Final = 3.4
_DAY: Final = 24.0
_THINNEST: Final = 0.6
"""mm of a bar for work of a few minutes: thinner could not be seen."""

_HANDS: Final = Ink(stroke=0.0, fill=0.0, width=0.2)
_ALONE: Final = Ink(stroke=0.25, fill=0.85, width=0.25)
_RULE: Final = Ink(stroke=0.75, fill=None, width=0.15)
_MIDNIGHT: Final = Ink(stroke=0.45, fill=None, width=0.2)
_SERVICE: Final = Ink(stroke=0.0, fill=None, width=0.5, dash=(1.2, 1.0))
_SHUT: Final = Ink(stroke=None, fill=0.93, width=0.0)


@frozen
class Bar:
    """Work from one hour to another; by ``hands``, or by itself."""

    start: float
    end: float
    hands: bool


@frozen
class TimelineRow:
    """One thing that is made, with its bars."""

    name: str
    bars: tuple[Bar, ...]


def draw_timeline(
    rows: Sequence[TimelineRow],
    days: Sequence[str],
    services: Sequence[float],
    shut: Sequence[int],
    *,
    alternative: str = "",
) -> Drawing:
    """Return the drawing of some days; ``services`` are the hours of the doors, ``shut`` the days without people."""
    height = _HEAD + len(rows) * _ROW
    left = _names_width(rows)
    scale = (_WIDTH - left) / (len(days) * _DAY)
    shapes = [
        *_days(days, left, scale, height, shut),
        *_rows(rows, left, scale, len(days) * _DAY),
        *_services(services, left, scale, height),
    ]
    return Drawing(width=_WIDTH, height=height, shapes=tuple(shapes), alternative=alternative)


def _names_width(rows: Sequence[TimelineRow]) -> float:
    """Return how much of the width is for the names: more where they are long, which are parted in two lines then."""
    longest = max((len(line) for row in rows for line in _name_lines(row.name)), default=0)
    return min(_MOST_FOR_NAMES, max(_NAMES, longest * _LETTER + 3.0))


def _name_lines(name: str) -> tuple[str, ...]:
    """Return a name in one line, in two where it is too long for one."""
    if len(name) * _LETTER + 3.0 <= _MOST_FOR_NAMES:
        return (name,)
    half = len(name) // 2
    spaces = [at for at, letter in enumerate(name) if letter == " "]
    at = min(spaces, key=lambda one: abs(one - half), default=half)
    return (name[:at].rstrip(), name[at:].lstrip())


def _days(days: Sequence[str], names: float, scale: float, height: float, shut: Sequence[int]) -> Iterator[Shape]:
    for at in shut:
        yield _box(names + at * _DAY * scale, _HEAD, _DAY * scale, height - _HEAD, _SHUT)
    for at, name in enumerate(days):
        left = names + at * _DAY * scale
        yield Label(at=(round(left + _DAY * scale / 2, 3), 3.2), text=name, role="caption")
    for at in range(len(days) + 1):
        left = round(names + at * _DAY * scale, 3)
        yield Polygon(points=((left, _HEAD - 2), (left, round(height, 3))), closed=False, ink=_MIDNIGHT)


def _rows(rows: Sequence[TimelineRow], names: float, scale: float, hours: float) -> Iterator[Shape]:
    for at, row in enumerate(rows):
        top = _HEAD + at * _ROW
        foot = round(top + _ROW, 3)
        yield Polygon(points=((0.0, foot), (_WIDTH, foot)), closed=False, ink=_RULE)
        lines = _name_lines(row.name)
        for number, text in enumerate(lines):
            middle = round(top + _ROW * (number + 0.5) / len(lines), 3)
            yield Label(at=(names - 2.0, middle), text=text, role="caption", align="end")
        for bar in sorted(row.bars, key=lambda one: (one.hands, one.start)):
            start, end = max(0.0, bar.start), min(hours, bar.end)
            if end <= start:
                continue
            wide = max(_THINNEST, (end - start) * scale)
            yield _box(names + start * scale, top + (_ROW - _BAR) / 2, wide, _BAR, _HANDS if bar.hands else _ALONE)


def _services(services: Sequence[float], names: float, scale: float, height: float) -> Iterator[Shape]:
    for hour in services:
        left = round(names + hour * scale, 3)
        yield Polygon(points=((left, _HEAD - 3), (left, round(height, 3))), closed=False, ink=_SERVICE)


def _box(left: float, top: float, wide: float, high: float, ink: Ink) -> Polygon:
    right, bottom = round(left + wide, 3), round(top + high, 3)
    left, top = round(left, 3), round(top, 3)
    return Polygon(points=((left, top), (right, top), (right, bottom), (left, bottom)), ink=ink)
