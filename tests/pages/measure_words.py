"""Holds what is printed of a sheet against what it must say: nothing lost, doubled or out of order, none under its floor.

And where its pages end: no widow, no stranded heading, heads said again, a name that continues, no page of two lines.
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, field, replace
from itertools import pairwise

from measure import Card, Cards, Defect
from printed_pages import Box, PrintedPage, Text, read_pages
from sheet_words import Beside, Leaf, Line, Node, Said, Unit, leaves, said, squeezed

_FEW_LINES = 2
_MATRIX_PARTS = (1, 2, 3, 4, 5, 6)
_LONGEST_GAP = 4
"""Leaves that are looked past for the word that comes next."""

_STANDS_ALONE = 4
"""Lines. A row of so many is not lost alone on a page."""

_WHOLE_ROW = 12
"""Lines. A row, or a labelled line, of more may be cut where a page ends."""


@dataclass(frozen=True)
class Side:
    """One printed card, or one whole page: its texts in drawing order."""

    page: PrintedPage
    card: Card
    texts: tuple[Text, ...]

    def all(self) -> str:
        return "".join(squeezed(one.text) for one in self.texts)


def sides_of(content: bytes, cards: Cards) -> list[Side]:
    """Return the sides of a PDF in order, without those nothing is printed on."""
    sides = []
    for page in read_pages(content):
        for card in cards(page):
            texts = tuple(one for one in page.texts if card.paper.holds(one.box, 2) and squeezed(one.text))
            if texts:
                sides.append(Side(page, card, texts))
    return sides


def measure_words(content: bytes, cards: Cards, sheets: Sequence) -> list[Defect]:
    """Return every defect in how ``sheets`` are printed, in their order, by a PDF."""
    sides = sides_of(content, cards)
    defects: list[Defect] = []
    at = 0
    for sheet in sheets:
        own = []
        while at < len(sides) and (foot := _foot(sides[at], sheet, len(own) + 1)):
            own.append((sides[at], foot))
            at += 1
            if foot.last:
                break
        if not own:
            where = sides[min(at, len(sides) - 1)]
            defects.append(
                Defect(where.page.number, where.card.paper, "foot", f"no page of `{sheet.text.id}` with its foot")
            )
            return defects
        defects += _best(own, sheet)
        while at < len(sides) and _left_empty(sides[at]):
            at += 1
    if at < len(sides):
        defects.append(Defect(sides[at].page.number, sides[at].card.paper, "foot", "a page of no sheet"))
    return defects


def _left_empty(side: Side) -> bool:
    """Say whether a side says in words that nothing is on it: few words, and no page number."""
    return len(side.texts) <= 6 and "1of" not in side.all()


@dataclass(frozen=True)
class _Foot:
    starts: int
    last: bool


def _foot(side: Side, sheet, number: int) -> _Foot | None:
    """Return where the foot starts among a side's texts, None where it is not that of page ``number`` of a sheet."""
    words = squeezed(sheet.fingerprint + "".join(sheet.foot.lines))
    for at in range(len(side.texts) - 1, -1, -1):
        if squeezed(side.texts[at].text) == squeezed(sheet.fingerprint):
            rest = "".join(squeezed(one.text) for one in side.texts[at:])
            for count in range(number, number + 60):
                pages = sheet.foot.pages.replace("{page}", str(number)).replace("{pages}", str(count))
                if rest == words + squeezed(pages):
                    return _Foot(at, count == number)
            return None
    return None


def _best(own: list[tuple[Side, _Foot]], sheet) -> list[Defect]:
    """Return the defects of a sheet, its tables of marks set in as many parts as leave the fewest."""
    tries = []
    for parts in _MATRIX_PARTS:
        expected = said(sheet.text, sheet.figures, matrix_parts=parts, columns=sheet.foot.columns)
        found = list(_Reading(own, sheet, expected).defects())
        if not found:
            return []
        tries.append(found)
        if not any(getattr(block, "role", "") == "matrix" for block in sheet.text.blocks):
            break
    return min(tries, key=len)


def take(node: Node, text: str) -> tuple[Node, str, tuple[Leaf, ...]] | None:
    """Read ``text`` off the front of a node: what is left of both, and the leaves it was read from."""
    if isinstance(node, Leaf):
        if node.text.startswith(text):
            return node.without(len(text)), "", (node,)
        if node.text and text.startswith(node.text):
            return node.without(len(node.text)), text[len(node.text) :], (node,)
        return None
    if isinstance(node, Line):
        return _take_on(node, text)
    fully, partly = None, None
    for at, part in enumerate(node.parts):
        found = take(part, text) if not _gone(part) else None
        if found is None:
            continue
        if not found[1] and _spent(found[0]):  # all of one part is likelier than a part of one
            fully = at, found
            break
        if not found[1] and fully is None:
            fully = at, found
        elif partly is None and _spent(found[0]):
            partly = at, found
    if fully is not None:
        at, (left, _, read) = fully
        return Beside(_with(node.parts, at, left)), "", read
    if partly is None:
        return None
    at, (left, more, read) = partly
    after = take(Beside(_with(node.parts, at, left)), more)
    return (
        (after[0], after[1], read + after[2])
        if after is not None
        else (Beside(_with(node.parts, at, left)), more, read)
    )


def _take_on(node: Line, text: str) -> tuple[Node, str, tuple[Leaf, ...]] | None:
    parts = [part for part in node.parts if not _gone(part)]
    read: tuple[Leaf, ...] = ()
    while parts and text:
        found = take(parts[0], text)
        if found is None and _spent(parts[0]):
            parts = parts[1:]
            continue
        if found is None:
            break
        left, text, more = found
        read += more
        parts = parts[1:] if _gone(left) else [left, *parts[1:]]
        if text and not _gone(left):
            break
    return (Line(tuple(parts)), text, read) if read else None


def _without_first(node: Node) -> Node:
    """Return a node without its first leaf that is not read yet."""
    if isinstance(node, Leaf):
        return replace(node, text="")
    at = next(at for at, part in enumerate(node.parts) if not _spent(part))
    return replace(node, parts=_with(node.parts, at, _without_first(node.parts[at])))


def _with(parts: tuple[Node, ...], at: int, part: Node) -> tuple[Node, ...]:
    return (*parts[:at], part, *parts[at + 1 :])


def _gone(node: Node) -> bool:
    """Say whether all of a node is read."""
    return not node.text if isinstance(node, Leaf) else all(_gone(part) for part in node.parts)


def _spent(node: Node) -> bool:
    """Say whether all of a node is read that must be."""
    return not node.text or node.optional if isinstance(node, Leaf) else all(_spent(part) for part in node.parts)


@dataclass
class _Seen:
    """Where a unit is printed: by side, the baselines of its lines and the boxes of its texts."""

    lines: dict[int, set[float]] = field(default_factory=lambda: defaultdict(set))
    boxes: dict[int, list[Box]] = field(default_factory=lambda: defaultdict(list))


class _Reading:
    """One sheet being read off its sides."""

    def __init__(self, own: list[tuple[Side, _Foot]], sheet, expected: Said) -> None:
        self._own = own
        self._sheet = sheet
        self._expected = expected
        self._left: Node = expected.body
        self._found: list[Defect] = []
        self._seen: dict[Unit, _Seen] = defaultdict(_Seen)
        self._headed: set[tuple[int, int]] = set()
        self._again: Node | None = None
        self._body: dict[int, list[Text]] = defaultdict(list)

    def defects(self) -> Iterator[Defect]:
        for at, (side, foot) in enumerate(self._own):
            texts = self._without_furniture(side, side.texts[: foot.starts], first=at == 0)
            for text in texts[self._heads_again(at, texts) :]:
                self._read(at, side, text)
            self._body[at] = list(texts)
        for leaf in leaves(self._left):
            if leaf.text and not leaf.optional:
                self._say(len(self._own) - 1, None, "lost", f"`{leaf.text}` is not printed")
        yield from self._found
        if not any(one.check in ("lost", "order") for one in self._found):
            yield from self._ends()

    def _say(self, at: int, box: Box | None, check: str, what: str) -> None:
        side = self._own[at][0]
        self._found.append(Defect(side.page.number, box or side.card.paper, check, what))

    def _without_furniture(self, side: Side, texts: Sequence[Text], *, first: bool) -> Sequence[Text]:
        """Return a side's texts without its band and head; a further page's head says that it continues."""
        at = 0
        band = self._sheet.band
        if band is not None and texts and squeezed(texts[0].text) == squeezed(band.name):
            texts = texts[1:]
        title = Line((self._expected.top, self._expected.title)) if first else self._running()
        node: Node = title
        while at < len(texts) and not _spent(node):
            found = take(node, squeezed(texts[at].text))
            if found is None or found[1]:
                break
            node = found[0]
            for leaf in found[2]:
                self._floor(side, texts[at], leaf)
            at += 1
        if not _spent(node):
            missing = "".join(leaf.text for leaf in leaves(node))
            check = "lost" if first else "continues"
            box = texts[min(at, len(texts) - 1)].box if texts else side.card.paper
            self._found.append(Defect(side.page.number, box, check, f"the head does not say `{missing}`"))
        return texts[at:]

    def _running(self) -> Node:
        title = self._expected.title
        unit = Unit(0, "running")
        return Beside((title, Leaf(squeezed(self._sheet.foot.continues), 9.0, unit)))

    def _read(self, at: int, side: Side, text: Text) -> None:
        word = squeezed(text.text)
        found = take(self._left, word)
        if found is not None and not found[1]:
            self._left = found[0]
            self._again = None
            self._note(at, side, text, found[2])
            return
        if self._said_again(at, word) or (found is None and self._after_a_gap(at, side, text, word)):
            return
        if found is None:
            self._say(at, text.box, "order", f"`{text.text}` is not what comes next, or is said twice")
        else:
            self._left = found[0]
            self._say(at, text.box, "order", f"`{found[1]}` of `{text.text}` is not what comes next")

    def _heads_again(self, at: int, texts: Sequence[Text]) -> int:
        """Read the heads of a table that runs on off the top of a side; return how many texts they are."""
        for number in {unit.table for unit in self._seen if unit.kind == "row"} if at else ():
            table = self._expected.tables[number]
            begun = [group for group in table.groups if next(iter(leaves(group))).unit in self._seen]
            for groups in (*((group,) for group in begun), ()):
                node: Node = Line((table.heads, *groups))
                for count, text in enumerate(texts, 1):
                    found = take(node, squeezed(text.text))
                    if found is None or found[1]:
                        break
                    node = found[0]
                    if _spent(node):
                        self._headed.add((at, number))
                        return count
        return 0

    def _after_a_gap(self, at: int, side: Side, text: Text, word: str) -> bool:
        """Read on where up to a few leaves are lost, so that one gap is one defect."""
        left, lost = self._left, []
        for _ in range(_LONGEST_GAP):
            gone = next((leaf for leaf in leaves(left) if leaf.text), None)
            if gone is None:
                return False
            lost.append(gone.text)
            left = _without_first(left)
            found = take(left, word)
            if found is not None and not found[1]:
                self._left = found[0]
                self._say(at, text.box, "lost", f"`{' '.join(lost)}` is not printed before `{text.text}`")
                self._note(at, side, text, found[2])
                return True
        return False

    def _note(self, at: int, side: Side, text: Text, read: Sequence[Leaf]) -> None:
        for leaf in read:
            self._floor(side, text, leaf)
            seen = self._seen[leaf.unit]
            seen.lines[at].add(round(text.baseline))
            seen.boxes[at].append(text.box)
            if leaf.unit.kind == "head":
                self._headed.add((at, leaf.unit.table))

    def _floor(self, side: Side, text: Text, leaf: Leaf) -> None:
        if text.size < leaf.floor - 0.01:
            what = f"`{text.text}` is set in {text.size:.1f} pt, and is read at {leaf.floor:g} or more"
            self._found.append(Defect(side.page.number, text.box, "small", what))

    def _said_again(self, at: int, word: str) -> bool:
        """Read the heads of a table where it runs on, or below its rows."""
        if self._again is not None:
            found = take(self._again, word)
            if found is not None and not found[1]:
                self._again = found[0]
                return True
        for table in self._expected.tables.values():
            for groups in (*((group,) for group in table.groups), ()):
                found = take(Line((table.heads, *groups)), word)
                if found is not None and not found[1]:
                    ordered = Line((table.heads, Beside(table.groups)))
                    again = take(ordered, word)
                    self._again = again[0] if again else found[0]
                    self._headed.add((at, table.number))
                    return True
        return False

    # -- where pages end

    def _ends(self) -> Iterator[Defect]:
        yield from self._stranded()
        yield from self._widows()
        yield from self._tables()
        last = len(self._own) - 1
        lines = {round(one.baseline) for one in self._body[last]}
        if last and len(lines) <= _FEW_LINES:
            side = self._own[last][0]
            yield Defect(
                side.page.number,
                _around(self._body[last], side),
                "nearly empty",
                f"the last page has {len(lines)} line or two",
            )

    def _stranded(self) -> Iterator[Defect]:
        ordered = list(dict.fromkeys(leaf.unit for leaf in leaves(self._expected.body) if leaf.text))
        for unit, after in pairwise(ordered):
            if unit.kind in ("heading", "group", "head") and unit in self._seen and after in self._seen:
                here, there = max(self._seen[unit].lines), min(self._seen[after].lines)
                if here != there:
                    yield self._at(here, unit, "stranded", "a heading stands alone at the foot of the page")

    def _widows(self) -> Iterator[Defect]:
        for unit, seen in self._seen.items():
            if len(seen.lines) < 2:
                continue
            whole = sum(len(lines) for lines in seen.lines.values())
            if unit.kind in ("row", "fact") and whole <= _WHOLE_ROW:
                yield self._at(
                    min(seen.lines), unit, "cut row", f"a {unit.kind} of {whole} lines is cut by the end of the page"
                )
            elif unit.kind in ("heading", "group", "head", "figure"):
                yield self._at(min(seen.lines), unit, "cut row", f"a {unit.kind} is cut by the end of the page")
            elif unit.kind in ("step", "point", "paragraph"):
                for at, lines in seen.lines.items():
                    if len(lines) < 2:
                        yield self._at(at, unit, "widow", f"one line of a {unit.kind} stands alone on its page")

    def _tables(self) -> Iterator[Defect]:
        rows: dict[int, dict[int, list[Unit]]] = defaultdict(lambda: defaultdict(list))
        for unit, seen in self._seen.items():
            if unit.kind == "row":
                for at in seen.lines:
                    rows[unit.table][at].append(unit)
        for number, pages in rows.items():
            table = self._expected.tables[number]
            if len(pages) < 2:
                continue
            for at, units in pages.items():
                lines = len(self._seen[units[0]].lines[at])
                if len(units) == 1 and table.rows > 1 and lines < _STANDS_ALONE:
                    yield self._at(at, units[0], "widow", "one row of a table stands alone on its page")
                headed = (at, number) in self._headed or _spent(table.heads)
                if not headed:
                    yield self._at(at, units[0], "heads", "a table runs on without its heads")

    def _at(self, at: int, unit: Unit, check: str, what: str) -> Defect:
        return Defect(self._own[at][0].page.number, self._seen[unit].boxes[at][0], check, what)


def _around(texts: Sequence[Text], side: Side) -> Box:
    if not texts:
        return side.card.paper
    boxes = [one.box for one in texts]
    return Box(
        min(b.left for b in boxes), min(b.top for b in boxes), max(b.right for b in boxes), max(b.bottom for b in boxes)
    )
