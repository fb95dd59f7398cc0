"""Draws sheets into one PDF: fonts embedded once, an outline, page labels, links from a contents sheet.

Owns the order of work over many sheets. It must not know what any sheet says. The same sheets, theme and
paper give the same bytes.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import field
from pathlib import Path

from linebook.markup.blocks import Run
from linebook.pdf.characters import Places, missing_character, spelt
from linebook.pdf.fonts import Document, Faces, open_faces
from linebook.pdf.furniture import band_ops
from linebook.pdf.geometry import Geometry, geometry
from linebook.pdf.marks import LETTERS
from linebook.pdf.paint import Painter, accent_of
from linebook.pdf.proof import called, letters_of, proof, spelt_sheet, title_of
from linebook.pdf.sheets import LaidSheet, Page, Press, Sheet
from linebook.pdf.theme import Paper, Theme
from linebook.source.codes import fault
from linebook.source.faults import Fault, Outcome
from linebook.source.frozen import frozen
from linebook.source.nearest import nearest


@frozen
class Bound:
    """A finished PDF and how many pages it has."""

    content: bytes = field(repr=False)
    pages: int


def draw_binder(
    sheets: Sequence[Sheet],
    theme: Theme,
    paper: str,
    *,
    title: str,
    language: str = "en",
    faces: Faces | None = None,
    folder: Path | None = None,
    grey: bool = False,
    duplex: bool = False,
    blank: str = "",
    places: Places = lambda _: (),
) -> Outcome[Bound]:
    """Return the PDF of ``sheets`` in their order on ``paper``, a name of the theme.

    ``faces`` are the theme's fonts where they are open already; ``folder`` is where a theme's own fonts stand.
    ``grey`` prints without colour. ``duplex`` starts each sheet on a right-hand page and mirrors the backs; a back
    left empty says ``blank``. ``places`` tells where a character was typed, for the fault of one the font lacks.
    Faults: LB801 for a character the font lacks, LB803 for an unknown paper or role, LB804 for what is taller
    than its page, LB805 for a font, LB704 for a drawing the sheet does not have.
    """
    if paper not in theme.papers:
        close = nearest(paper, theme.papers)
        hints = (f"did you mean `{close}`?",) if close else (f"write one of {', '.join(theme.papers)}",)
        return _refused(fault("LB803", f"`{paper}` is not a paper that the theme has", None, hints=hints))
    opened = Outcome(value=faces) if faces is not None else open_faces(theme, folder)
    if opened.value is None:
        return _refused(*opened.faults)
    spelt_sheets = tuple(spelt_sheet(sheet) for sheet in sheets)
    letters: set[str] = set("".join(LETTERS.values()) + blank)
    faults: list[Fault] = []
    for sheet in spelt_sheets:
        own = letters_of(sheet)
        letters |= own
        faults += proof(sheet, own, theme, opened.value, places)
    if faults:
        return _refused(*faults)
    binder = _Binder(Press(theme, opened.value), theme.papers[paper], spelt_sheets, letters, grey=grey)
    return binder.draw(title=title, language=language, duplex=duplex, blank=spelt(blank), places=places)


def _refused(*faults: Fault) -> Outcome[Bound]:
    return Outcome(value=None, faults=faults)


class _Binder:
    """One document being drawn, sheet by sheet."""

    def __init__(
        self, press: Press, paper: Paper, sheets: Sequence[Sheet], letters: Iterable[str], *, grey: bool
    ) -> None:
        self._press = press
        self._theme = press.theme
        self._paper = paper
        self._sheets = sheets
        self._keys = {sheet.text.id: f"sheet-{number}" for number, sheet in enumerate(sheets)}
        ready = press.faces.ready
        self._extra = sorted(letter for letter in set(letters) if ord(letter) > 126 and letter not in ready)
        self._grey = grey
        self._printed = 0

    def draw(self, *, title: str, language: str, duplex: bool, blank: str, places: Places) -> Outcome[Bound]:
        """Lay out and paint every sheet, each forgotten before the next."""
        self._document = Document(self._press.faces, title=title, language=language, extra=self._extra)
        self._painter = Painter(self._document, self._theme, grey=self._grey)
        faults: list[Fault] = []
        section = ""
        for number, sheet in enumerate(self._sheets):
            laid = self._press.lay_out(sheet, self._paper)
            faults += _too_tall(laid)
            if duplex and self._printed % 2:
                self._blank(blank)
            self._name(sheet, f"sheet-{number}", new_section=sheet.section != section)
            section = sheet.section
            for page in laid.pages:
                self._page(laid, page, back=duplex and self._printed % 2 == 1)
        where = f"a bold or slanted text of `{title}`"
        for letter in self._press.faces.missing():
            faults += missing_character(letter, where, places)
        if faults:
            return _refused(*faults)
        return Outcome(value=Bound(content=self._document.finish(), pages=self._printed))

    def _name(self, sheet: Sheet, key: str, *, new_section: bool) -> None:
        """Give the sheet its place to jump to, its outline entry and its page labels."""
        document = self._document
        document.place(key)
        if sheet.section and new_section:
            document.place(f"{key}-section")
            document.entry(sheet.section, f"{key}-section", 0)
        document.entry(sheet.bookmark or title_of(sheet), key, 1 if sheet.section else 0)
        document.label(f"{sheet.fingerprint}-")

    def _page(self, laid: LaidSheet, page: Page, *, back: bool) -> None:
        """Add a page; a back is the same page moved to the other margin."""
        frame, band = laid.frame, laid.sheet.band
        if back:
            frame = geometry(self._theme, self._paper, landscape=laid.sheet.text.landscape, back=True)
        entries = [(frame.left + x, frame.top + y, ops) for x, y, ops in page.entries]
        if band is not None:
            ink = self._painter.fill(accent_of(self._theme, band.position)[1])
            entries.insert(0, (0.0, 0.0, tuple(band_ops(self._press.layouts[0], band, frame, ink))))
        for link in page.links:
            if link.key in self._keys:
                left, top = frame.left + link.x, frame.height - frame.top - link.y
                self._document.link(self._keys[link.key], (left, top - link.height, left + link.width, top))
        self._add(frame, self._painter.page(entries, frame.height))

    def _blank(self, text: str) -> None:
        """Add the empty back of a sheet with an odd number of pages; it says so."""
        frame = geometry(self._theme, self._paper, landscape=False, back=True)
        layout, style = self._press.layouts[0], self._theme.styles.caption
        strips = layout.flow(layout.lines.words((Run(text=text),), style), style, frame.measure, before=0, centred=True)
        self._add(frame, self._painter.page([(frame.left, frame.height / 2, one.ops) for one in strips], frame.height))

    def _add(self, frame: Geometry, code: list[str]) -> None:
        self._document.page(frame.width, frame.height, code)
        self._printed += 1


def _too_tall(laid: LaidSheet) -> list[Fault]:
    if not laid.overflows:
        return []
    message = f"something on {called(laid.sheet)} is taller than its page"
    return [fault("LB804", message, None, hints=("shorten it, or give it smaller type in theme.yaml",))]
