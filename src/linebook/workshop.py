"""What turns computed values into sheets, and sheets into PDFs: theme, templates and wording of one house, opened once.

Prints nothing, reads no clock.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from dataclasses import replace
from datetime import date
from functools import partial
from pathlib import Path
from types import MappingProxyType
from typing import TYPE_CHECKING, Final

from linebook.markup.titles import plain_title, title_of_sheet
from linebook.source.faults import Outcome
from linebook.source.frozen import frozen

if TYPE_CHECKING:
    from linebook.compute.results import AllergenTable, Night
    from linebook.documents.binder_order import BinderEntry
    from linebook.documents.tonight_notice import NoticeWriter
    from linebook.documents.wording import Wording
    from linebook.figures.shapes import Drawing, Picture
    from linebook.markup.blocks import SheetText
    from linebook.markup.sheet import Band, Foot, Sheet
    from linebook.model.house import House
    from linebook.pdf.binder import Bound
    from linebook.pdf.page_code import SheetCode
    from linebook.pdf.printing import Printing
    from linebook.pdf.theme import Theme
    from linebook.templating.templates import Templates

FOR_ONE_DAY: Final = frozenset(
    "guest-sheet count-sheet order-sheet prep-day prep-week pull-list tasting-sheet line-up-sheet swap-sheet".split()  # noqa: SIM905
)
"""Documents that are printed for one day; of the others a sheet is, where its id ends in the occasion."""

_OF_ANY_MENU: Final = frozenset(("station-card", "plating-guide", "batch-card", "cutting-plan"))
"""Sheets of a binder that stay in it when the menu changes and they do not, so that their feet name none."""


@frozen
class HeldSheet:
    """One sheet of a PDF: what it says, its fingerprint and how many pages it is printed on."""

    text: SheetText
    fingerprint: str
    pages: int


@frozen
class PdfFile:
    """A finished PDF: its file name, its bytes, and what to say of it.

    ``sheets`` are what it holds and ``pages`` what is printed, which is fewer where two cards share one.
    ``turned`` says that it lies on its side and is bound by its top. ``notes`` are sentences about what it lacks.
    ``held`` is what it holds, sheet by sheet, where that is kept; ``changed`` is a PDF of some of them.
    ``digest`` is that of one which is in its folder already, as it would be made; it has no content here.
    """

    name: str
    content: bytes
    sheets: int
    pages: int
    printing: Printing
    turned: bool = False
    notes: tuple[str, ...] = ()
    held: tuple[HeldSheet, ...] = ()
    changed: PdfFile | None = None
    digest: str = ""


def open_workshop(
    house: House,
    menu: str,
    issued: date,
    folder: Path,
    theme: str = "",
    ready: Templates | None = None,
    first_issued: Mapping[str, date] = MappingProxyType({}),
) -> Outcome[Workshop]:
    """Return the workshop of the house in ``folder``; ``theme`` is the one asked for, '' for the house's.

    ``ready`` are the templates of the same folder where they were opened ahead. ``first_issued`` are the days on which
    fingerprints were first issued; others are issued now.
    """
    from linebook.documents.wording import wording_in
    from linebook.house_theme import open_looks
    from linebook.templating.templates import Templates

    looks = open_looks(house.file, folder, theme)
    if looks.value is None:
        return Outcome(value=None, faults=looks.faults)
    wording = wording_in(house.file.languages)
    workshop = Workshop(
        house=house,
        menu=menu,
        issued=issued,
        folder=folder,
        theme=looks.value.theme,
        theme_folder=looks.value.theme_folder,
        templates=ready or Templates(looks.value.folders),
        wording=wording,
        notices=_notices(house, menu, wording) if house.tonight else None,
        first_issued=first_issued,
    )
    return Outcome(value=workshop)


def _notices(house: House, menu: str, wording: Wording) -> NoticeWriter | None:
    from linebook.documents.tonight_notice import notice_writer  # here, because on most nights nothing is missing

    return notice_writer(house, menu, wording)


def untranslated(house: House) -> tuple[str, ...]:
    """Return a sentence on what is missing in each language printed that is not the specs' own."""
    if not house.prints_translations:
        return ()
    from linebook.documents.untranslated import untranslated_sentences

    return untranslated_sentences(house)


@frozen
class Workshop:
    """What turns computed values into sheets and sheets into PDFs, for one menu of one house.

    ``notices`` writes what is otherwise tonight at the top of each sheet; None where nothing is.
    """

    house: House
    menu: str
    issued: date
    folder: Path
    theme: Theme
    theme_folder: Path
    templates: Templates
    wording: Wording
    notices: NoticeWriter | None = None
    first_issued: Mapping[str, date] = MappingProxyType({})

    def binder_sheets(
        self, line: str, table: AllergenTable, nights: Sequence[Night], also: AllergenTable | None = None
    ) -> Outcome[tuple[Sheet, ...]]:
        """Return the sheets of a line's binder: cover, allergen page, then dishes and components in working order."""
        made = [make() for make in self.binder_makers(line, table, nights, also).values()]
        sheets = [outcome.value for outcome in made if outcome.value]
        fingerprints = {sheet.text.id: sheet.fingerprint for sheet in sheets}
        cover = self.cover_page(line, table, nights, fingerprints)
        faults = tuple(fault for outcome in (*made, cover) for fault in outcome.faults)
        if faults or cover.value is None:
            return Outcome(value=None, faults=faults)
        return Outcome(value=(cover.value, *sheets))

    def binder_makers(
        self, line: str, table: AllergenTable, nights: Sequence[Night], also: AllergenTable | None = None
    ) -> dict[str, Callable[[], Outcome[Sheet]]]:
        """Return what makes each sheet of a line's binder but the cover, by its id and in working order."""
        from linebook.documents.binder_order import binder_order, dishes_of_line

        makers: dict[str, Callable[[], Outcome[Sheet]]] = {
            f"line-allergens:{line}": partial(self.line_page, line, table, also)
        }
        if nights and dishes_of_line(self.house, self.menu, line):
            makers[f"set-up-sheet:{line}"] = partial(self.set_up_page, line, nights)
        for entry in binder_order(self.house, self.menu, line):
            makers[entry.id] = partial(self.entry_sheet, entry, table, nights)
        return makers

    def cover_page(
        self, line: str, table: AllergenTable, nights: Sequence[Night], fingerprints: Mapping[str, str]
    ) -> Outcome[Sheet]:
        """Return the cover of a line's binder; ``fingerprints`` are those of its sheets by their ids."""
        from linebook.documents.line_cover import DOCUMENT, line_cover

        return self.sheet(DOCUMENT, line_cover(self.house, line, table, self.wording, fingerprints, nights))

    def line_page(self, line: str, table: AllergenTable, also: AllergenTable | None = None) -> Outcome[Sheet]:
        """Return the allergen page of a line."""
        from linebook.documents.line_allergens import DOCUMENT, line_allergens

        return self.sheet(DOCUMENT, line_allergens(self.house, line, table, self.wording, also))

    def sheets(self, document: str, views: Sequence[object]) -> Outcome[tuple[Sheet, ...]]:
        """Return a sheet of each view, by their document's template."""
        return together([self.sheet(document, view) for view in views])

    def set_up_page(self, line: str, nights: Sequence[Night]) -> Outcome[Sheet]:
        """Return the set-up sheet of a line for the nights given."""
        from linebook.documents.set_up_sheet import DOCUMENT, set_up_sheet

        return self.sheet(DOCUMENT, set_up_sheet(self.house, line, self.menu, nights, self.wording))

    def matrix_sheet(self, table: AllergenTable, also: AllergenTable | None = None) -> Outcome[tuple[Sheet, ...]]:
        """Return the allergen matrix; ``also`` are its columns that are no allergens."""
        from linebook.documents.allergen_matrix import allergen_matrix

        return alone(self.sheet("allergen-matrix", allergen_matrix(self.house, table, self.wording, also, self.issued)))

    def index_sheet(self) -> Outcome[tuple[Sheet, ...]]:
        """Return the index from every allergen and ingredient to the dishes that carry it."""
        from linebook.compute.allergen_index import allergen_index
        from linebook.documents.allergen_index import DOCUMENT, allergen_index_sheet

        entries = allergen_index(self.house, self.menu)
        return alone(self.sheet(DOCUMENT, allergen_index_sheet(self.house, self.menu, entries, self.wording)))

    def night_sheet(self, component: str, night: Night, table: AllergenTable) -> Outcome[tuple[Sheet, ...]]:
        """Return the batch card of one component for one service, and how it is cut where it is."""
        from linebook.compute.base import base_batch
        from linebook.documents.batch_card import night_batch_card

        base = base_batch(self.house, component)
        made = [self.sheet("batch-card", night_batch_card(self.house, base, night, component, table, self.wording))]
        if base.component.cut is not None:
            made.append(self._cutting_sheet(component, (), night))
        return together(made)

    def entry_sheet(self, entry: BinderEntry, table: AllergenTable, nights: Sequence[Night]) -> Outcome[Sheet]:
        """Return one sheet of a binder; ``nights`` are the columns of a batch card."""
        from linebook.compute.base import base_batch
        from linebook.documents.batch_card import binder_batch_card
        from linebook.documents.station_card import SMALL_PLATE, station_card
        from linebook.plate_figures import small_plate

        view: object
        if entry.document == "station-card":
            view = station_card(self.house, entry.subject, table, self.wording)
            plate = small_plate(self.house, self.house.dishes[entry.subject], self.wording)
            return self.sheet(entry.document, view, {SMALL_PLATE: plate} if plate else {})
        if entry.document == "plating-guide":
            return self._guide_sheet(entry.subject, table)
        if entry.document == "cutting-plan":
            return self._cutting_sheet(entry.subject, nights)
        view = binder_batch_card(self.house, base_batch(self.house, entry.subject), nights, table, self.wording)
        return self.sheet(entry.document, view)

    def bound(self, sheets: Sequence[Sheet | SheetCode], printing: Printing, *, keep: bool = False) -> Outcome[Bound]:
        """Return sheets drawn in one document, those drawn before as they are; ``keep`` as for ``draw_binder``."""
        from linebook.model.letters import find_letter
        from linebook.pdf.binder import draw_binder

        return draw_binder(
            sheets,
            self.theme,
            printing,
            title=self.house.file.name,
            language=self.house.file.languages[0],
            folder=self.theme_folder,
            places=lambda letter: find_letter(self.house, letter),
            keep=keep,
        )

    def draw(
        self, sheets: Outcome[tuple[Sheet, ...]], name: str, printing: Printing, *, keep: bool = False
    ) -> Outcome[PdfFile]:
        """Return the PDF of the sheets, with what it holds where that is to be kept."""
        if sheets.value is None:
            return Outcome(value=None, faults=sheets.faults)
        drawn = self.bound(sheets.value, printing)
        if drawn.value is None:
            return Outcome(value=None, faults=drawn.faults)
        both = zip(sheets.value, drawn.value.each, strict=True)
        held = tuple(HeldSheet(text=one.text, fingerprint=one.fingerprint, pages=pages) for one, pages in both)
        file = PdfFile(
            name=name,
            content=drawn.value.content,
            sheets=len(sheets.value),
            pages=drawn.value.pages,
            printing=printing,
            turned=all(sheet.text.landscape for sheet in sheets.value),
            notes=untranslated(self.house),
            held=held if keep else (),
        )
        return Outcome(value=file, faults=drawn.faults)

    def _guide_sheet(self, dish_id: str, table: AllergenTable) -> Outcome[Sheet]:
        """Return the plating guide of a dish: from above, from the side where it is built up, and its photograph."""
        from linebook.documents.plating_guide import plating_guide
        from linebook.plate_figures import guide_figures

        drawn = guide_figures(self.house, self.house.dishes[dish_id], self.folder, self.wording)
        if drawn.value is None:
            return Outcome(value=None, faults=drawn.faults)
        view = plating_guide(self.house, dish_id, table, self.wording, photo=drawn.value.photo)
        return self.sheet("plating-guide", view, drawn.value.figures)

    def _cutting_sheet(self, component: str, nights: Sequence[Night], night: Night | None = None) -> Outcome[Sheet]:
        """Return the cutting plan of a component that is cut: for the standard nights, or for one ``night``."""
        from linebook.cut_figures import cutting_view
        from linebook.documents.cutting_plan import DOCUMENT

        view, figures = cutting_view(self.house, component, self.menu, nights, night, self.wording)
        return self.sheet(DOCUMENT, view, figures)

    def text_of(self, document: str, view: object) -> Outcome[SheetText]:
        """Return what a view says, by its document's template."""
        from linebook.templating.templates import template_name

        if built := self.templates.sheet(template_name(document), view, self.wording):
            return Outcome(value=built)
        from linebook.markup.reader import read_markup

        rendered = self.templates.render(template_name(document), view, self.wording)
        if rendered.value is None:
            return Outcome(value=None, faults=rendered.faults)
        return read_markup(rendered.value.text, template_name(document), sources=rendered.value.sources)

    def sheet(
        self, document: str, view: object, figures: Mapping[str, Drawing | Picture] = MappingProxyType({})
    ) -> Outcome[Sheet]:
        """Return the sheet of a view, by its document's template, with the drawings it names."""
        from linebook.markup.fingerprint import fingerprint_of
        from linebook.markup.sheet import Sheet

        read = self.text_of(document, view)
        if read.value is None:
            return Outcome(value=None, faults=read.faults)
        noticed = self._noticed(read.value)
        if noticed.value is None:
            return Outcome(value=None, faults=noticed.faults)
        text = noticed.value
        fingerprint = fingerprint_of(text)
        return Outcome(
            value=Sheet(
                text=text,
                foot=self._foot(document, text, fingerprint),
                fingerprint=fingerprint,
                figures=figures,
                band=self._band(text.line),
                section=plain_title(text) if text.kind in ("station-card", "plating-guide") else "",
                bookmark=self._bookmark(document, text),
            )
        )

    def _bookmark(self, document: str, text: SheetText) -> str:
        """Return what an outline calls a sheet, '' for its title alone: a batch card is what it is of."""
        name = self.wording.say(f"document.{document}").plain
        if document == "cutting-plan":
            return self.wording.say("foot.between").plain.join((plain_title(text), name))
        return name if document != "batch-card" else ""

    def _noticed(self, text: SheetText) -> Outcome[SheetText]:
        """Return what a sheet says, with what is otherwise tonight before its own blocks."""
        notice = self.notices.for_sheet(text.id, text.line) if self.notices else None
        if notice is None and text.id.count(":") < 2:
            return Outcome(value=text)
        from linebook.documents.tonight_notice import DOCUMENT, closed_notice

        notice = closed_notice(self.house, text.id, notice, self.wording)
        if notice is None:
            return Outcome(value=text)
        said = self.text_of(DOCUMENT, notice)
        if said.value is None:
            return Outcome(value=None, faults=said.faults)
        return Outcome(value=replace(text, blocks=(*said.value.blocks, *text.blocks)))

    def _foot(self, document: str, text: SheetText, fingerprint: str) -> Foot:
        from linebook.documents.naming import foot_counts
        from linebook.documents.second import menu_name
        from linebook.markup.sheet import Foot

        say, title, house = self.wording.say, title_of_sheet(text), self.house.file.name
        night = document in FOR_ONE_DAY or text.id.count(":") > 1
        day = self.issued if night else self.first_issued.get(fingerprint, self.issued)
        between = say("foot.between").plain
        served = [say("foot.for" if night else "foot.issued", day=self.wording.full_day(day)).both, house]
        if night or document not in _OF_ANY_MENU:
            served.append(menu_name(self.house, self.menu).both)
        served += [self.notices.foot.both] if self.notices else []
        pages, columns = foot_counts(self.wording)
        return Foot(
            lines=(between.join(served), between.join(dict.fromkeys((say(f"document.{document}").both, title.both)))),
            pages=pages,
            continues=say("foot.continues").both,
            blank=say("foot.blank", name=title).both,
            columns=columns,
        )

    def _band(self, line: str) -> Band | None:
        from linebook.documents.second import line_name
        from linebook.markup.sheet import Band

        for position, known in enumerate(self.house.file.lines):
            if known.id == line:
                return Band(name=line_name(self.house, line).both, position=position, count=len(self.house.file.lines))
        return None


def together(made: Sequence[Outcome[Sheet]]) -> Outcome[tuple[Sheet, ...]]:
    """Return all sheets, or all faults."""
    faults = tuple(fault for outcome in made for fault in outcome.faults)
    return Outcome(value=None if faults else tuple(one.value for one in made if one.value), faults=faults)


def alone(outcome: Outcome[Sheet]) -> Outcome[tuple[Sheet, ...]]:
    return Outcome(value=(outcome.value,) if outcome.value else None, faults=outcome.faults)
