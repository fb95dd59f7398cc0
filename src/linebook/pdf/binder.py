"""Draws sheets into one PDF: fonts embedded once, an outline, page labels, links from a contents sheet.

Owns the order of work over many sheets. It must not know what any sheet says. The same sheets, theme and
paper give the same bytes.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import field, replace
from pathlib import Path
from typing import Final, TypeAlias

from linebook.figures.shapes import Picture
from linebook.markup.blocks import Run
from linebook.markup.sheet import Sheet
from linebook.markup.titles import plain_title
from linebook.pdf.characters import Places, missing_character
from linebook.pdf.document import Document
from linebook.pdf.fonts import Faces, open_faces
from linebook.pdf.furniture import band_ops
from linebook.pdf.geometry import Geometry, geometry
from linebook.pdf.marks import LETTERS
from linebook.pdf.page_code import PageCode, SheetCode
from linebook.pdf.paint import Painter, accent_of
from linebook.pdf.pieces import Link, Op, Strip, joined
from linebook.pdf.printing import Printing, cut_marks, printed_theme
from linebook.pdf.proof import called, proof, spelt_sheet
from linebook.pdf.sheets import LaidSheet, Page, Press
from linebook.pdf.theme import Theme
from linebook.source.codes import fault
from linebook.source.faults import Fault, Outcome
from linebook.source.frozen import frozen
from linebook.source.nearest import nearest

_Entry: TypeAlias = tuple[float, float, tuple[Op, ...]]
_Any: TypeAlias = Sheet | SheetCode
_Box: TypeAlias = tuple[float, float, float, float]

_CARDS: Final = 2
"""On a sheet of paper, where cards are half of it."""


@frozen
class Bound:
    """A finished PDF and how many pages it has; ``each`` are those of each sheet.

    ``codes`` are the sheets as they are written, where that is asked for; None for one that cannot stand elsewhere.
    """

    content: bytes = field(repr=False)
    pages: int
    each: tuple[int, ...] = ()
    codes: tuple[SheetCode | None, ...] = ()


def draw_binder(
    sheets: Sequence[Sheet | SheetCode],
    theme: Theme,
    printing: Printing | str,
    *,
    title: str,
    language: str = "en",
    faces: Faces | None = None,
    folder: Path | None = None,
    places: Places = lambda _: (),
    keep: bool = False,
) -> Outcome[Bound]:
    """Return the PDF of ``sheets`` in their order; a paper's name alone prints one side in colour on it.

    A sheet may be one that was drawn before. Where it does not go with the others there is no value and no fault: it
    must be drawn anew. ``keep`` asks for the codes of all.

    ``faces`` are the theme's fonts where they are open already; ``folder`` is where a theme's own fonts stand.
    ``places`` tells where a character was typed, for the fault of one the font lacks.
    Faults: LB801 for a character the font lacks, LB803 for an unknown paper or role, LB804 for what is taller
    than its page, LB805 for a font, LB704 for a drawing the sheet does not have.
    """
    how = Printing(paper=printing) if isinstance(printing, str) else printing
    if how.paper not in theme.papers:
        close = nearest(how.paper, theme.papers)
        hints = (f"did you mean `{close}`?",) if close else (f"write one of {', '.join(theme.papers)}",)
        return _refused(fault("LB803", f"`{how.paper}` is not a paper that the theme has", None, hints=hints))
    press = _open_press(theme, how, faces, folder)
    if press.value is None:
        return _refused(*press.faults)
    letters: dict[str, set[str]] = {"": set("".join(LETTERS.values()))}
    faults: list[Fault] = []
    ready: list[Sheet | SheetCode] = []
    for sheet in sheets:
        if isinstance(sheet, SheetCode):
            ready.append(sheet)
            letters[sheet.id] = {*sheet.letters, *letters.get(sheet.id, ())}
            continue
        spelt, own = spelt_sheet(sheet)
        ready.append(spelt)
        letters[sheet.text.id] = own | letters.get(sheet.text.id, set())
        faults += proof(spelt, own, theme, press.value.faces, places)
    if faults:
        return _refused(*faults)
    kind = _Cards if how.half_sheet else _Binder
    binder = kind(press.value, how, tuple(ready), letters)
    if not binder.fits():
        return Outcome(value=None, faults=())
    return binder.draw(title=title, language=language, places=places, keep=keep)


def _open_press(theme: Theme, how: Printing, faces: Faces | None, folder: Path | None) -> Outcome[Press]:
    """Return the press of a theme: the last one again, with all it has measured, where nothing is printed otherwise."""
    for own, printing, place, press in _LAST:
        if own is theme and printing == how and place == folder and faces in (None, press.faces):
            return Outcome(value=press)
    opened = Outcome(value=faces) if faces is not None else open_faces(theme, folder)
    if opened.value is None:
        return Outcome(value=None, faults=opened.faults)
    _LAST[:] = [(theme, how, folder, Press(printed_theme(theme, how), opened.value))]
    return Outcome(value=_LAST[0][3])


_LAST: Final[list[tuple[Theme, Printing, Path | None, Press]]] = []


def _refused(*faults: Fault) -> Outcome[Bound]:
    return Outcome(value=None, faults=faults)


class _Binder:
    """One document being drawn, sheet by sheet. ``letters`` are the characters it may print, a sheet's by its id."""

    def __init__(
        self, press: Press, printing: Printing, sheets: Sequence[_Any], letters: Mapping[str, set[str]]
    ) -> None:
        self._press = press
        self._theme = press.theme
        self._printing = printing
        self._paper = press.theme.papers[printing.paper]
        self._sheets = sheets
        self._keys = {_id(sheet): f"sheet-{number}" for number, sheet in enumerate(sheets)}
        self._letters = letters
        ready, every = press.faces.ready, set[str]().union(*letters.values())
        self._extra = sorted(letter for letter in every if ord(letter) > 126 and letter not in ready)
        self._printed = 0
        self._pages: list[PageCode] = []

    def fits(self) -> bool:
        """Return whether the sheets drawn before are written as they would be here."""
        extra = "".join(self._extra)
        return all(sheet.extra == extra for sheet in self._sheets if isinstance(sheet, SheetCode))

    def draw(self, *, title: str, language: str, places: Places, keep: bool) -> Outcome[Bound]:
        """Lay out and paint every sheet, each forgotten before the next."""
        turned = any(_lies(sheet) for sheet in self._sheets)
        sides = self._printing.sides(turned=turned)
        self._document = Document(self._press.faces, title=title, language=language, extra=self._extra, sides=sides)
        self._painter = Painter(self._document, self._theme, grey=self._printing.ink != "colour")
        faults: list[Fault] = []
        section = ""
        before: _Any | None = None
        each: list[int] = []
        codes: list[SheetCode | None] = []
        for number, sheet in enumerate(self._sheets):
            laid = None if isinstance(sheet, SheetCode) else self._press.lay_out(sheet, self._paper)
            faults += _too_tall(laid) if laid else ()
            if before is not None and self._printing.duplex and self._printed % 2:
                self._blank(before)
            self._name(sheet, f"sheet-{number}", new_section=sheet.section != section)
            section, before = sheet.section, sheet
            self._pages = []
            if isinstance(sheet, SheetCode):
                self._again(sheet)
                each.append(len(sheet.pages))
                codes.append(sheet)
            elif laid is not None:
                each.append(len(laid.pages))
                for at, page in enumerate(laid.pages, 1):
                    self._page(laid, page, at)
                codes.append(self._code(sheet) if keep else None)
        self._end()
        where = f"a bold or slanted text of `{title}`"
        for letter in self._press.faces.missing():
            faults += missing_character(letter, where, places)
        if faults:
            return _refused(*faults)
        return Outcome(
            value=Bound(content=self._document.finish(), pages=self._printed, each=tuple(each), codes=tuple(codes))
        )

    def _again(self, sheet: SheetCode) -> None:
        """Add the pages of a sheet as they were written before."""
        for number, page in enumerate(sheet.pages):
            if not number:
                self._document.label(f"{sheet.fingerprint}-")
            for key, box in page.links:
                if key in self._keys:
                    self._document.link(self._keys[key], box)
            self._document.page_again(page.width, page.height, page.stream, page.faces)
            self._printed += 1

    def _code(self, sheet: Sheet) -> SheetCode | None:
        """Return a sheet as it was just written; None where it names what only this document has: a photograph."""
        if any(isinstance(figure, Picture) for figure in sheet.figures.values()):
            return None
        return SheetCode(
            id=sheet.text.id,
            fingerprint=sheet.fingerprint,
            section=sheet.section,
            name=_entry_name(sheet),
            blank=sheet.foot.blank,
            landscape=sheet.text.landscape,
            letters="".join(sorted(self._letters[sheet.text.id])),
            extra="".join(self._extra),
            pages=tuple(self._pages),
        )

    def _name(self, sheet: _Any, key: str, *, new_section: bool) -> None:
        """Give the sheet its place to jump to and its outline entry."""
        document = self._document
        document.place(key)
        if sheet.section and new_section:
            document.place(f"{key}-section")
            document.entry(sheet.section, f"{key}-section", 0)
        document.entry(_entry_name(sheet), key, 1 if sheet.section else 0)

    def _page(self, laid: LaidSheet, page: Page, number: int) -> None:
        """Add a page, the ``number``-th of its sheet; a back is the same page moved to the other margin."""
        frame, band = laid.frame, laid.sheet.band
        if self._printing.duplex and self._printed % 2:
            frame = geometry(self._theme, self._paper, landscape=laid.sheet.text.landscape, back=True)
        if number == 1:
            self._document.label(f"{laid.sheet.fingerprint}-")
        entries = _moved(page, frame.left, frame.top)
        if band is not None:
            ink = self._painter.fill(accent_of(self._theme, band.position)[1])
            entries.insert(0, (0.0, 0.0, tuple(band_ops(self._press.layouts[0], band, frame, ink))))
        self._link(page, frame, frame.left)
        links = tuple((link.key, _box(link, frame, frame.left)) for link in page.links)
        self._add(frame.width, frame.height, entries, links)

    def _link(self, page: Page, frame: Geometry, left: float) -> None:
        """Lay a page's links over it, its text's corner being at ``left``."""
        for link in page.links:
            if link.key in self._keys:
                self._document.link(self._keys[link.key], _box(link, frame, left))

    def _blank(self, sheet: _Any) -> None:
        """Add the empty back of a sheet with an odd number of pages; it says so."""
        frame = geometry(self._theme, self._paper, landscape=False, back=True)
        layout, style = self._press.layouts[0], self._theme.styles.caption
        blank = sheet.blank if isinstance(sheet, SheetCode) else sheet.foot.blank
        words = layout.lines.words((Run(text=blank),), style)
        strips = layout.flow(words, style, frame.measure, before=0, centred=True)
        self._document.label(f"{sheet.fingerprint}-0", numbered=False)
        whole = joined(strips) if strips else Strip(0.0, ())
        self._add(frame.width, frame.height, [(frame.left, frame.height / 2, whole.ops)])

    def _add(
        self, width: float, height: float, entries: Sequence[_Entry], links: tuple[tuple[str, _Box], ...] = ()
    ) -> None:
        stream = self._document.page(width, height, self._painter.page(entries, height))
        self._pages.append(PageCode(width=width, height=height, stream=stream, faces=self._painter.faces, links=links))
        self._printed += 1

    def _end(self) -> None:
        """Add what is still waiting for a page."""


class _Cards(_Binder):
    """Cards of half a sheet: two beside each other on a turned one, to be cut apart."""

    def __init__(
        self, press: Press, printing: Printing, sheets: Sequence[_Any], letters: Mapping[str, set[str]]
    ) -> None:
        upright = tuple(_upright(sheet) for sheet in sheets if isinstance(sheet, Sheet))
        super().__init__(press, printing, upright, letters)
        self._labels: list[str] = []
        self._waiting: list[_Entry] = []

    def _page(self, laid: LaidSheet, page: Page, number: int) -> None:
        frame = laid.frame
        left = frame.left + (frame.width if self._labels else 0.0)
        self._waiting += _moved(page, left, frame.top)
        self._labels.append(f"{laid.sheet.fingerprint}-{number}")
        self._link(page, frame, left)
        if len(self._labels) == _CARDS:
            self._end()

    def _end(self) -> None:
        """Add the sheet of paper that is begun, and where to cut it."""
        if not self._labels:
            return
        width, height = self._paper.width, self._paper.height
        marks = (0.0, 0.0, cut_marks(width, height))
        self._document.label(" ".join(self._labels), numbered=False)
        self._add(width * _CARDS, height, [*self._waiting, marks])
        self._labels, self._waiting = [], []


def _box(link: Link, frame: Geometry, left: float) -> _Box:
    """Return left, bottom, right and top of a link on its page, its text's corner being at ``left``."""
    x, top = left + link.x, frame.height - frame.top - link.y
    return x, top - link.height, x + link.width, top


def _id(sheet: _Any) -> str:
    return sheet.id if isinstance(sheet, SheetCode) else sheet.text.id


def _lies(sheet: _Any) -> bool:
    return sheet.landscape if isinstance(sheet, SheetCode) else sheet.text.landscape


def _entry_name(sheet: _Any) -> str:
    """Return what the outline calls a sheet."""
    return sheet.name if isinstance(sheet, SheetCode) else sheet.bookmark or plain_title(sheet.text)


def _moved(page: Page, left: float, top: float) -> list[_Entry]:
    return [(left + x, top + y, ops) for x, y, ops in page.entries]


def _upright(sheet: Sheet) -> Sheet:
    return replace(sheet, text=replace(sheet.text, landscape=False), band=None)


def _too_tall(laid: LaidSheet) -> list[Fault]:
    if not laid.overflows:
        return []
    message = f"something on {called(laid.sheet)} is taller than its page"
    return [fault("LB804", message, None, hints=("shorten it, or give it smaller type in theme.yaml",))]
