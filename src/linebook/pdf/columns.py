"""Gives the columns of a table their widths: figures what they need, words the rest.

Owns widths and the words of a cell. It must not know how a row is drawn. Points.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Sequence
from dataclasses import replace
from itertools import pairwise
from typing import TYPE_CHECKING, Final, NamedTuple

from linebook.markup.blocks import Cell, Inline, Mark, Row, Run, Table
from linebook.pdf.theme import Style
from linebook.pdf.words import Word, run_on
from linebook.source.frozen import frozen

if TYPE_CHECKING:
    from linebook.pdf.layout import Layout

NOTES_UNDER: Final = frozenset({"matrix"})
"""Table roles whose notes stand under the name; elsewhere they follow it."""

CALLS: Final = "calls"
"""The role whose every word is read across the pass."""

_ON_THE_BENCH: Final = frozenset({"ingredients", "elements", "contents"})
"""Roles whose names are as large as their amounts."""

_EVEN: Final = frozenset({"log"})
"""Roles whose columns share what is left over; elsewhere the names take it."""

_FLEXIBLE: Final = frozenset({"name", "text"})
_NAMES_FIRST: Final = 0.34
"""Of what columns of words share: what a name gets before the others are asked."""

_MODEST: Final = 0.8
"""Of an even share: a column of words that asks for no more has it, since to break its few words saves little."""

_MOST_GAPS: Final = 0.4
"""Of the measure: what the gaps between columns may take."""

_LEAST_GAP: Final = 0.4
"""Of a gap: what is left of it where the columns share what is left over, so that words to write after stay whole."""

_LEAST_BLANK: Final = 3
"""Em. A hand needs no less to write a time or a temperature."""

_LEAST_FLEXIBLE: Final = 0.18
"""Of the measure: what the columns of words keep however wide the others are."""


@frozen
class Column:
    """A column's kind, left edge and width."""

    kind: str
    left: float
    width: float

    @property
    def right(self) -> float:
        return self.left + self.width


class Needs(NamedTuple):
    """For each column: its longest cell on one line, its widest word, its head on one line."""

    natural: list[float]
    least: list[float]
    head: list[float]


def spread(row: Row) -> Iterable[tuple[int, Cell]]:
    """Return a row's cells with the number of the column each starts in."""
    for cell in row.cells:
        if cell.span != 1:
            break
    else:
        return enumerate(row.cells)
    placed: list[tuple[int, Cell]] = []
    at = 0
    for cell in row.cells:
        placed.append((at, cell))
        at += max(1, cell.span)
    return placed


def style_of(layout: Layout, kind: str, role: str) -> Style:
    """Return the style of a column's words: large where a cook reads them on the bench."""
    styles = layout.theme.styles
    if role == CALLS:
        return styles.call
    if kind in ("amount", "unit"):
        return styles.amount
    if kind == "figure":
        return styles.figure
    return styles.name if kind in ("name", "number") and role in _ON_THE_BENCH else styles.cell


def head_style(layout: Layout, role: str) -> Style:
    """Return the style of a table's heads: quiet, but where a head says which guest a column is for."""
    return layout.theme.styles.group if role == "seats" else layout.theme.styles.column


def group_style(layout: Layout, role: str) -> Style:
    """Return the style of the heads of a table's groups."""
    return layout.theme.styles.call if role == CALLS else layout.theme.styles.group


def cell_words(layout: Layout, cell: Cell, style: Style, role: str) -> list[Word]:
    """Return a cell's words in a style, with its note after them where the role sets notes so."""
    words: list[Word] = layout.lines.words(cell.content, style)
    if cell.note and role not in NOTES_UNDER:
        words = after(layout, words, layout.lines.words(cell.note, layout.theme.styles.note))
    return words


def after(layout: Layout, words: list[Word], more: list[Word]) -> list[Word]:
    """Return ``more`` set on after ``words``, with a space between."""
    if not words or not more:
        return words or more
    apart = layout.lines.apart(more, layout.theme.spaces.term_gap)
    return run_on(words, apart) if layout.lines.seconds else [*words, *apart]


def place_columns(layout: Layout, table: Table, width: float) -> tuple[Column, ...]:
    """Return a table's columns across ``width``; without a column of words the last one takes what is left."""
    kinds, even = table.columns, table.role in _EVEN
    needs = _needs(layout, table)
    gaps = [_gap(layout, first, second) for first, second in pairwise(kinds)]
    most = width - sum(needs.natural) if even else width * _MOST_GAPS
    crowded = min(1.0, max(most / max(sum(gaps), 1.0), _LEAST_GAP if even else 0.0))
    gaps = [gap * crowded for gap in gaps]
    wide = _widths(kinds, needs, width - sum(gaps), even=even)
    columns: list[Column] = []
    left = 0.0
    for at, kind in enumerate(kinds):
        columns.append(Column(kind=kind, left=left, width=wide[at]))
        left += wide[at] + (gaps[at] if at < len(gaps) else 0.0)
    return tuple(columns)


def to_write_in(layout: Layout, table: Table, width: float) -> Table:
    """Return a table that a hand writes in with blanks its columns have room for: shorter, or under their words."""
    room = width - sum(_gap(layout, *pair) for pair in pairwise(table.columns)) * _LEAST_GAP
    if sum(_needs(layout, table).natural) <= room:
        return table
    shorter = _with_pieces(table, _shorter)
    return shorter if sum(_needs(layout, shorter).natural) <= room else _with_pieces(shorter, _unbound)


def _with_pieces(table: Table, change: Callable[[Inline], Inline]) -> Table:
    rows = tuple(
        replace(row, cells=tuple(replace(cell, content=change(cell.content)) for cell in row.cells))
        for row in table.rows
    )
    return replace(table, rows=rows)


def _shorter(content: Inline) -> Inline:
    return tuple(
        replace(piece, width=min(piece.width, _LEAST_BLANK)) if isinstance(piece, Mark) else piece for piece in content
    )


def _unbound(content: Inline) -> Inline:
    """Return content whose words may end a line before a blank; what is measured stays beside it."""
    changed = list(content)
    for at, (piece, following) in enumerate(pairwise(content)):
        if isinstance(piece, Run) and isinstance(following, Mark) and piece.text.endswith("\xa0"):
            changed[at] = replace(piece, text=piece.text[:-1] + " ")
    return tuple(changed)


def _widths(kinds: Sequence[str], needs: Needs, room: float, *, even: bool) -> list[float]:
    natural, least, head = needs
    flexible = [at for at, kind in enumerate(kinds) if kind in _FLEXIBLE]
    fixed = [at for at in range(len(kinds)) if at not in flexible]
    wide = list(natural)
    spare = room - sum(wide)
    for at in fixed:
        more = min(max(0.0, spare), max(0.0, head[at] - wide[at]))
        wide[at] += more
        spare -= more
    rest = room - sum(wide[at] for at in fixed)
    wanted = min(sum(least[at] for at in flexible), room * _LEAST_FLEXIBLE)
    if rest < wanted or rest < 0:
        capped = _capped([wide[at] for at in fixed], max(0.0, room - wanted))
        for at, width in zip(fixed, capped, strict=True):
            wide[at] = width
        rest = room - sum(wide[at] for at in fixed)
    if not flexible:
        wide[-1] += rest
    for at, share in zip(flexible, _shares(kinds, needs, flexible, rest, even), strict=True):
        wide[at] = share
    return wide


def _shares(kinds: Sequence[str], needs: Needs, flexible: Sequence[int], rest: float, even: bool) -> list[float]:
    """Share ``rest`` among columns of words: all they want, or their widest word and a part of what is left."""
    natural, least = [needs.natural[at] for at in flexible], [needs.least[at] for at in flexible]
    spare = rest - sum(natural)
    if spare >= 0:
        takers = [kinds[at] == "name" and not even for at in flexible]
        if not any(takers):
            takers = [True] * len(flexible)
        return [one + (spare / sum(takers) if takes else 0.0) for one, takes in zip(natural, takers, strict=True)]
    modest = [not even and one <= rest * _MODEST / len(flexible) for one in natural]
    if any(modest):
        others = [at for at, small in zip(flexible, modest, strict=True) if not small]
        left = rest - sum(one for one, small in zip(natural, modest, strict=True) if small)
        shared = iter(_shares(kinds, needs, others, left, even))
        return [one if small else next(shared) for one, small in zip(natural, modest, strict=True)]
    names = [kinds[at] == "name" for at in flexible]
    asked = [min(one, rest * _NAMES_FIRST) if name else 0.0 for one, name in zip(natural, names, strict=True)]
    floors = [max(one, word) for one, word in zip(asked, least, strict=True)]
    floor = sum(floors)
    if floor >= rest:
        return _capped(floors, rest)
    over = [max(0.0, wants - has) for wants, has in zip(natural, floors, strict=True)]
    return [has + (rest - floor) * extra / sum(over) for has, extra in zip(floors, over, strict=True)]


def _capped(widths: Sequence[float], total: float) -> list[float]:
    """Cut the widest columns down to one width, so that all together take ``total``; the narrow ones keep theirs."""
    left, cap = total, 0.0
    for at, width in enumerate(sorted(widths)):
        cap = left / (len(widths) - at)
        if width > cap:
            break
        left -= width
    return [min(width, cap) for width in widths]


def _gap(layout: Layout, first: str, second: str) -> float:
    spaces = layout.theme.spaces
    return spaces.unit_gap if (first, second) == ("amount", "unit") else spaces.column_gap


def _needs(layout: Layout, table: Table) -> Needs:
    """Return what a table's columns need, found once: it is asked for at every width that the table is tried at."""
    known = layout.needs.get(id(table))
    if known is None:  # kept with its table, so that an address is never reused
        known = layout.needs[id(table)] = (table, _found_needs(layout, table))
    return known[1]


def _found_needs(layout: Layout, table: Table) -> Needs:
    count, role, lines = len(table.columns), table.role, layout.lines
    natural, least, head = [0.0] * count, [0.0] * count, [0.0] * count
    wide: list[tuple[int, int, float]] = []
    styles = [style_of(layout, kind, role) for kind in table.columns]
    split = [lines.known(style) for style in styles]
    for row in table.rows:
        for at, cell in () if row.heading else spread(row):
            if at >= count:
                continue
            if cell.note:
                whole, word = _with_note(layout, cell, styles[at], role)
            else:
                known = split[at].get(id(cell.content))
                words = known[1] if known else lines.words(cell.content, styles[at])
                whole, word = words.natural, words.least
            if cell.span > 1:
                wide.append((at, min(at + cell.span, count) - 1, whole))
                continue
            natural[at] = whole if whole > natural[at] else natural[at]
            least[at] = word if word > least[at] else least[at]
    for row in table.head:
        for at, cell in spread(row):
            words, notes = (lines.words(content, head_style(layout, role)) for content in (cell.content, cell.note))
            wide.append((at, min(at + cell.span, count) - 1, max(words.least, notes.least)))
            if cell.span == 1:
                head[at] = max(head[at], words.natural, notes.natural)
                least[at] = max(least[at], words.least, notes.least)
    for at, end, needed in wide:
        if _FLEXIBLE.isdisjoint(table.columns[at : end + 1]):
            gaps = sum(_gap(layout, *pair) for pair in pairwise(table.columns[at : end + 1]))
            natural[end] += max(0.0, needed - gaps - sum(natural[at : end + 1]))
    for at, kind in enumerate(table.columns):
        if kind in _FLEXIBLE:  # also where nothing stands under a head, none of its words is cut
            natural[at] = max(natural[at], least[at])
    return Needs(natural, least, head)


def _with_note(layout: Layout, cell: Cell, style: Style, role: str) -> tuple[float, float]:
    """Return the width of a cell with its note on one line, and of its widest word."""
    words = layout.cell_words(cell, style, role)
    whole, word = words.natural, words.least
    if role in NOTES_UNDER:
        notes = layout.lines.words(cell.note, layout.theme.styles.note)
        whole, word = max(whole, notes.natural), max(word, notes.least)
    return whole, word
