"""Fills pages with strips: what fits, what is kept together, what is said again on the next page.

Owns where a page ends. It must not know what a strip shows, nor how a page is furnished. Points.
"""

from __future__ import annotations

from collections.abc import Sequence
from math import inf
from typing import Final, NamedTuple

from linebook.pdf.pieces import Columns, Context, Frame, Item, Op, Placed, Strip, Stroke, made

_SLACK: Final = 0.01
_NEVER: Final = inf
"""Points. Heads are not said again below the rows of a table that stands in a frame or beside something."""

_LEAST_LAST: Final = 0.12
_TRIES: Final = 6
"""Of a page: how much of the last one is used, if need be by what fitted the one before; and the tries."""

_WORTH_STARTING: Final = 0.3
"""Of a page. What can be cut starts on the current one only if this much of it is left."""


class Filled(NamedTuple):
    """What one page took, how far down it reaches, what is left, and whether something was too tall for any page."""

    placed: list[Placed]
    used: float
    rest: Sequence[Item]
    overflows: bool


def height_of(items: Sequence[Item]) -> float:
    """Return the height of items stacked at the top of a page, with the heads said again there."""
    return _head_height(items[0]) + _stacked(items) if items else 0.0


def _stacked(items: Sequence[Item]) -> float:
    """Return the height of items one under the other, with nothing above the first."""
    each = [(item.height if type(item) is Strip else item_height(item)) + item.before for item in items]
    return sum(each) - items[0].before


def _head_height(item: Item) -> float:
    """Return the height of what is said again above an item at the top of a page."""
    context = item.context if isinstance(item, Strip) else None
    return sum(strip.height for strip in context.head) if context else 0.0


def item_height(item: Item) -> float:
    """Return an item's height without the space above it."""
    if isinstance(item, Strip):
        return item.height
    if isinstance(item, Frame):
        return height_of(item.items) + 2 * item.padding
    return max(height_of(item.left), height_of(item.right))


def paginate(items: Sequence[Item], first: float, later: float, repeat_below: float) -> list[Filled]:
    """Fill pages: the first has ``first`` points of room, the others ``later``; the last is not left almost empty.

    Rows that reach ``repeat_below`` points or more have their heads said again below.
    """
    starts: list[Sequence[Item]] = [items]
    pages: list[Filled] = []
    while starts[-1] or not pages:
        page = fill(starts[-1], later if pages else first, later, repeat_below)
        if page.overflows and not pages and 0 <= first < later:
            page = Filled([], 0.0, items, overflows=False)  # what stands over the first takes too much of it
        pages.append(page)
        starts.append(page.rest)
    if len(pages) > 1 and pages[-1].used < later * _LEAST_LAST:
        pages[-2:] = _balanced(pages[-2:], starts[-3], later, repeat_below)
    return pages


def _balanced(pages: list[Filled], items: Sequence[Item], later: float, repeat_below: float) -> list[Filled]:
    """Return the last two pages, filled from ``items``, with more on the last one, where that is possible."""
    least = later * _LEAST_LAST
    for taken in range(1, _TRIES + 1):
        shorter = fill(items, pages[0].used - taken * least / 2, later, repeat_below, force=False)
        if shorter.overflows or not shorter.placed:
            break
        last = fill(shorter.rest, later, later, repeat_below)
        if last.rest or last.overflows:
            break
        if last.used >= least:
            return [shorter, last]
    return pages


def fill(items: Sequence[Item], room: float, full: float, repeat_below: float, *, force: bool = True) -> Filled:
    """Place as many items as a page of ``room`` takes; ``full`` is the room of a page that starts empty.

    Without ``force`` what is too tall at the top of the page is not cut: nothing is placed.
    """
    filling = _Filling(room, full, repeat_below)
    at, count = 0, len(items)
    while at < count:
        if filling.puts(items[at]):
            at += 1
            continue
        end = at + 1
        while end < count and items[end - 1].keep:
            end += 1
        chain = items[at:end]
        if filling.takes(chain):
            filling.place_all(chain)
            at = end
            continue
        if not filling.placed and force:
            at, over = filling.force(items, at, end)
            rest: list[Item] = [*over, *items[at:]]
            break
        left = filling.start(items[at]) if end == at + 1 else None
        rest = list(items[at:]) if left is None else [*left, *items[at + 1 :]]
        break
    else:
        rest = []
    filling.leave_table()
    return Filled(filling.placed, filling.y, rest, filling.overflows)


class _Filling:
    """One page being filled."""

    def __init__(self, room: float, full: float, repeat_below: float) -> None:
        self.room = room
        self.full = full
        self.repeat_below = repeat_below
        self.placed: list[Placed] = []
        self.y = 0.0
        self.overflows = False
        self._below: tuple[Strip, ...] = ()
        self._rows_from = 0.0

    def puts(self, item: Item) -> bool:
        """Place what most items are, if it fits: a strip tied to none, under others, with nothing said for it."""
        if type(item) is not Strip or not self.placed:
            return False
        height, _, before, keep, context, _ = item
        if keep or not self._says_no_more(context):
            return False
        if self.y + before + (height + before - before) > self.room + _SLACK:
            return False
        self.y += before
        self._put(item)
        return True

    def takes(self, chain: Sequence[Item]) -> bool:
        """Say whether a chain that is kept together fits under what stands here already."""
        first = chain[0]
        if len(chain) == 1 and type(first) is Strip and self._says_no_more(first.context):
            above = first.before if self.placed else _head_height(first)
            return self.y + above + (first.height + first.before - first.before) <= self.room + _SLACK
        above = self._pending(chain[0]) + chain[0].before if self.placed else _head_height(chain[0])
        return self.y + above + _stacked(chain) <= self.room - self._reserved(chain) + _SLACK

    def place_all(self, chain: Sequence[Item]) -> None:
        for item in chain:
            if self.placed and type(item) is Strip and self._says_no_more(item.context):
                self.y += item.before
                self._put(item)
            else:
                self._place(item)

    def force(self, items: Sequence[Item], at: int, end: int) -> tuple[int, Sequence[Item]]:
        """Place a chain too tall for a whole page: what fits of it, and of what can be cut the part that fits."""
        fits = at
        while fits < end and self.takes(items[at : fits + 1]):
            fits += 1
        stop = fits
        while at < stop < end and _heads(items[stop - 1], items[stop]):
            stop -= 1
        if at < stop and (fits == end or isinstance(items[fits], Strip)):
            self.place_all(items[at:stop])
            return stop, ()
        self.place_all(items[at:fits])
        item = items[fits]
        left = self._cut(item)
        if left is not None:
            return fits + 1, left
        if not self.placed:
            self.overflows = True
            self._place(item)
            fits += 1
        return fits, ()

    def start(self, item: Item) -> Sequence[Item] | None:
        """Start an item here that can be cut, where enough of the page is left; return what is left of it.

        A frame is cut only when it is taller than a page; stacks side by side, so that no page stays half empty.
        """
        if isinstance(item, Strip) or (isinstance(item, Frame) and item_height(item) <= self.full):
            return None
        return self._cut(item) if self.room - self.y >= self.full * _WORTH_STARTING else None

    def leave_table(self) -> None:
        """Say the heads again below the rows of a table, where they are many."""
        below, self._below = self._below, ()
        if self.y - self._rows_from >= self.repeat_below:
            for strip in below:
                self._put(strip)

    def _says_no_more(self, context: Context | None) -> bool:
        """Say whether nothing is to be said below what stands here, nor below what comes: so of most strips."""
        return not self._below and (context is None or not context.below)

    # -- placing

    def _place(self, item: Item) -> None:
        context = item.context if isinstance(item, Strip) else None
        if self._leaves(item):
            self.leave_table()
        if self.placed:
            self.y += item.before
        elif context is not None:
            for strip in context.head:
                self._put(strip)
        if context is not None and context.below and not self._below:
            self._below, self._rows_from = context.below, self.y
        if isinstance(item, Strip):
            self._put(item if self.placed or self.repeat_below == _NEVER else _without_rule(item))
        elif isinstance(item, Frame):
            self._frame(item, _whole(item.items))
        else:
            self._columns(item, _whole(item.left), _whole(item.right))

    def _put(self, strip: Strip) -> None:
        self.placed.append(made(Placed, (0.0, self.y, strip)))
        self.y += strip.height

    def _frame(self, frame: Frame, inner: Filled) -> None:
        height = inner.used + 2 * frame.padding
        ops: tuple[Op, ...] = _outline(frame.width, height, frame.stroke)
        self.placed.append(Placed(0.0, self.y, Strip(height, ops)))
        self._nest(inner.placed, frame.padding, frame.padding)
        self.y += height

    def _columns(self, columns: Columns, left: Filled, right: Filled) -> None:
        self._nest(left.placed, 0.0, 0.0)
        self._nest(right.placed, columns.offset, 0.0)
        self.y += max(left.used, right.used)

    def _nest(self, placed: Sequence[Placed], x: float, y: float) -> None:
        self.placed += [made(Placed, (left + x, top + self.y + y, strip)) for left, top, strip in placed]

    def _cut(self, item: Item) -> Sequence[Item] | None:
        """Place the part of a frame or of columns that fits; return the rest, None where nothing does."""
        if self._leaves(item):
            self.leave_table()
        above = item.before if self.placed else 0.0
        room = self.room - self.y - above
        if isinstance(item, Frame):
            inner = fill(item.items, room - 2 * item.padding, self.full - 2 * item.padding, _NEVER)
            if inner.overflows or not inner.placed:
                return None
            self.y += above
            self._frame(item, inner)
            return [item._replace(items=tuple(inner.rest))] if inner.rest else ()
        if isinstance(item, Columns):
            left, right = (fill(one, room, self.full, _NEVER) for one in (item.left, item.right))
            if left.overflows or right.overflows or not (left.placed or right.placed):
                return None
            self.y += above
            self._columns(item, left, right)
            if left.rest or right.rest:
                return [item._replace(left=tuple(left.rest), right=tuple(right.rest))]
            return ()
        return None

    # -- heads

    def _leaves(self, item: Item) -> bool:
        """Say whether an item ends the table whose heads are still to be said below."""
        context = item.context if isinstance(item, Strip) else None
        return bool(self._below) and (context is None or context.below is not self._below)

    def _pending(self, item: Item) -> float:
        """Return the height of the heads that come below the rows before an item can stand."""
        many = self.y - self._rows_from >= self.repeat_below
        return sum(strip.height for strip in self._below) if many and self._leaves(item) else 0.0

    def _reserved(self, chain: Sequence[Item]) -> float:
        """Return the room to leave for heads below: none where the rows would not reach so far that they are said."""
        at, context = _first_context(chain)
        if context is None or not context.below:
            return 0.0
        below = sum(strip.height for strip in context.below)
        rows_from = self._rows_from if self._below is context.below else self.y + (_stacked(chain[:at]) if at else 0.0)
        many = self.y + _stacked(chain) - rows_from >= self.repeat_below
        return below if many and self.room - below >= self.repeat_below else 0.0


def _first_context(chain: Sequence[Item]) -> tuple[int, Context | None]:
    """Return where the rows of a chain start, after the heads of their table, and what is said again over them."""
    for at, item in enumerate(chain):
        if type(item) is Strip and item.context:
            return at, item.context
    return 0, None


def _without_rule(strip: Strip) -> Strip:
    """Return what starts a page without a rule above it: the strong one of the page's head stands there."""
    first = strip.ops[0] if strip.ops else None
    over = isinstance(first, Stroke) and first.x1 == first.y1 == first.y2 == 0.0
    return strip._replace(ops=strip.ops[1:]) if over else strip


def _heads(item: Item, following: Item) -> bool:
    """Say whether an item is the head of what follows: of a text, or of a group of rows."""
    if not isinstance(item, Strip) or not item.keep:
        return False
    if item.context is None:
        return True
    context = following.context if isinstance(following, Strip) else None
    return context is not None and len(context.head) > len(item.context.head)


def _whole(items: Sequence[Item]) -> Filled:
    """Place all items of a frame or a stack that fits as it is."""
    height = height_of(items)
    filled = fill(items, height, height, _NEVER)
    assert not filled.rest, "what was measured to fit has been placed"
    return filled


def _outline(width: float, height: float, stroke: float) -> tuple[Op, ...]:
    half = stroke / 2
    return (
        Stroke(0, half, width, half, stroke),
        Stroke(0, height - half, width, height - half, stroke),
        Stroke(half, 0, half, height, stroke),
        Stroke(width - half, 0, width - half, height, stroke),
    )
