"""What turns computed values into sheets, and sheets into PDFs: theme, templates and wording of one house, opened once.

Prints nothing, reads no clock.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from datetime import date
from pathlib import Path, PurePosixPath
from typing import TYPE_CHECKING

from linebook.source.codes import fault
from linebook.source.faults import Outcome
from linebook.source.files import leads_out, read_source
from linebook.source.frozen import frozen
from linebook.source.spans import SourceFile

if TYPE_CHECKING:
    from linebook.compute.results import AllergenTable, Night
    from linebook.documents.binder_order import BinderEntry
    from linebook.documents.wording import Wording
    from linebook.figures.shapes import Drawing
    from linebook.markup.blocks import SheetText
    from linebook.model.house import House
    from linebook.pdf.furniture import Band, Foot
    from linebook.pdf.sheets import Sheet
    from linebook.pdf.theme import Theme
    from linebook.templating.templates import TemplateFolder, Templates


@frozen
class PdfFile:
    """A finished PDF: its file name, its bytes, and what to say of it."""

    name: str
    content: bytes
    sheets: int
    pages: int
    paper: str


def open_workshop(house: House, menu: str, issued: date, folder: Path) -> Outcome[Workshop]:
    from linebook.documents.wording import english
    from linebook.markup.vocabulary import PARAGRAPH_ROLES
    from linebook.pdf.theme_reader import read_theme
    from linebook.templating.templates import Templates

    if leads_out(folder, PurePosixPath("templates")):
        place = SourceFile(path=_shown_templates(folder), text="").whole()
        hints = ("put the folder itself in the house folder",)
        outside = fault("LB113", "this folder leads out of the house folder", place, hints=hints)
        return Outcome(value=None, faults=(outside,))
    folders = _template_folders(folder)
    for candidate in folders:
        if (candidate.path / "theme.yaml").exists():
            source = read_source(candidate.path, PurePosixPath("theme.yaml"), candidate.shown)
            break
    else:
        missing = fault("LB701", "there is no `theme.yaml` in any template folder", None, hints=("install again",))
        return Outcome(value=None, faults=(missing,))
    if source.value is None:
        return Outcome(value=None, faults=source.faults)
    theme = read_theme(source.value, paragraph_roles=PARAGRAPH_ROLES)
    if theme.value is None:
        return Outcome(value=None, faults=theme.faults)
    workshop = Workshop(
        house=house,
        menu=menu,
        issued=issued,
        theme=theme.value,
        theme_folder=candidate.path,
        templates=Templates(folders),
        wording=english(),
    )
    return Outcome(value=workshop)


def _shown_templates(house_folder: Path) -> str:
    return (PurePosixPath(house_folder.as_posix()) / "templates").as_posix()


def _template_folders(house_folder: Path) -> tuple[TemplateFolder, ...]:
    """Return where templates are looked for, first come first: the house's own, the packaged copy, the checkout."""
    from linebook.templating.templates import TemplateFolder

    package = Path(__file__).parent
    places = (
        (house_folder / "templates", _shown_templates(house_folder)),
        (package / "_templates", "linebook/_templates"),
        (package.parent.parent / "templates", "templates"),
    )
    return tuple(TemplateFolder(path=path, shown=shown) for path, shown in places if path.is_dir())


@frozen
class Workshop:
    """What turns computed values into sheets and sheets into PDFs, for one menu of one house."""

    house: House
    menu: str
    issued: date
    theme: Theme
    theme_folder: Path
    templates: Templates
    wording: Wording

    def binder_sheets(self, line: str, table: AllergenTable, nights: Sequence[Night]) -> Outcome[tuple[Sheet, ...]]:
        """Return the sheets of a line's binder: its cover, then its dishes and components in working order."""
        from linebook.documents.binder_order import binder_order
        from linebook.documents.line_cover import line_cover

        made = [self._entry_sheet(entry, table, nights) for entry in binder_order(self.house, self.menu, line)]
        faults = [fault for outcome in made for fault in outcome.faults]
        sheets = [outcome.value for outcome in made if outcome.value]
        fingerprints = {sheet.text.id: sheet.fingerprint for sheet in sheets}
        cover_view = line_cover(self.house, line, table, self.wording, fingerprints, nights)
        cover = self._sheet("line-cover", cover_view, {})
        faults.extend(cover.faults)
        if faults or cover.value is None:
            return Outcome(value=None, faults=tuple(faults))
        return Outcome(value=(cover.value, *sheets))

    def matrix_sheet(self, table: AllergenTable) -> Outcome[tuple[Sheet, ...]]:
        """Return the allergen matrix."""
        from linebook.documents.allergen_matrix import allergen_matrix

        return _alone(self._sheet("allergen-matrix", allergen_matrix(self.house, table, self.wording), {}))

    def night_sheet(self, component: str, night: Night, table: AllergenTable) -> Outcome[tuple[Sheet, ...]]:
        """Return the batch card of one component for one service."""
        from linebook.compute.base import base_batch
        from linebook.documents.batch_card import night_batch_card

        base = base_batch(self.house, component)
        return _alone(
            self._sheet("batch-card", night_batch_card(self.house, base, night, component, table, self.wording), {})
        )

    def draw(self, sheets: Outcome[tuple[Sheet, ...]], name: str, paper: str, title: str) -> Outcome[PdfFile]:
        """Return the PDF of the sheets."""
        from linebook.model.letters import find_letter
        from linebook.pdf.binder import draw_binder

        if sheets.value is None:
            return Outcome(value=None, faults=sheets.faults)
        drawn = draw_binder(
            sheets.value,
            self.theme,
            paper,
            title=title,
            folder=self.theme_folder,
            places=lambda letter: find_letter(self.house, letter),
        )
        if drawn.value is None:
            return Outcome(value=None, faults=drawn.faults)
        file = PdfFile(
            name=name,
            content=drawn.value.content,
            sheets=len(sheets.value),
            pages=drawn.value.pages,
            paper="A4" if paper == "a4" else paper.capitalize(),
        )
        return Outcome(value=file, faults=drawn.faults)

    def _entry_sheet(self, entry: BinderEntry, table: AllergenTable, nights: Sequence[Night]) -> Outcome[Sheet]:
        from linebook.compute.base import base_batch
        from linebook.documents.batch_card import binder_batch_card
        from linebook.documents.plating_guide import LARGE_PLATE, plating_guide
        from linebook.documents.station_card import SMALL_PLATE, station_card

        view: object
        if entry.document == "station-card":
            view = station_card(self.house, entry.subject, table, self.wording)
            return self._sheet(entry.document, view, self._plate(entry.subject, SMALL_PLATE, small=True))
        if entry.document == "plating-guide":
            view = plating_guide(self.house, entry.subject, table, self.wording)
            return self._sheet(entry.document, view, self._plate(entry.subject, LARGE_PLATE, small=False))
        view = binder_batch_card(self.house, base_batch(self.house, entry.subject), nights, table, self.wording)
        return self._sheet(entry.document, view, {})

    def _plate(self, dish_id: str, name: str, *, small: bool) -> Mapping[str, Drawing]:
        from linebook.documents.places import alternative_text
        from linebook.documents.station_card import find_plate
        from linebook.figures.plates import draw_plate

        dish = self.house.dishes[dish_id]
        plate = find_plate(self.house, dish)
        if plate is None:
            return {}
        alternative = alternative_text(self.house, dish, plate, self.wording).plain
        return {name: draw_plate(plate, dish.elements, small=small, alternative=alternative)}

    def _sheet(self, document: str, view: object, figures: Mapping[str, Drawing]) -> Outcome[Sheet]:
        from linebook.markup.fingerprint import fingerprint_of
        from linebook.markup.reader import read_markup
        from linebook.pdf.sheets import Sheet
        from linebook.templating.templates import template_name

        rendered = self.templates.render(template_name(document), view, self.wording)
        if rendered.value is None:
            return Outcome(value=None, faults=rendered.faults)
        read = read_markup(rendered.value.text, template_name(document), sources=rendered.value.sources)
        if read.value is None:
            return Outcome(value=None, faults=read.faults)
        text = read.value
        return Outcome(
            value=Sheet(
                text=text,
                foot=self._foot(document, text),
                fingerprint=fingerprint_of(text),
                figures=figures,
                band=self._band(text.line),
                section=_plain(text) if text.kind in ("station-card", "plating-guide") else "",
                bookmark=self.wording.say(f"document.{document}").plain if text.kind != "batch-card" else "",
            )
        )

    def _foot(self, document: str, text: SheetText) -> Foot:
        from linebook.pdf.furniture import Foot

        say = self.wording.say
        night = document == "batch-card" and text.id.count(":") > 1
        when = say("foot.for" if night else "foot.issued", day=self.wording.full_day(self.issued))
        between = say("foot.between").plain
        served = (when.plain, self.house.file.name, self.house.menus[self.menu].name)
        named = (say(f"document.{document}").plain, _plain(text))
        return Foot(
            lines=(between.join(served), between.join(dict.fromkeys(named))),
            pages=say("foot.pages", page="{page}", pages="{pages}").plain,
            continues=say("foot.continues").plain,
        )

    def _band(self, line: str) -> Band | None:
        from linebook.pdf.furniture import Band

        for position, known in enumerate(self.house.file.lines):
            if known.id == line:
                return Band(name=known.name, position=position, count=len(self.house.file.lines))
        return None


def _alone(outcome: Outcome[Sheet]) -> Outcome[tuple[Sheet, ...]]:
    return Outcome(value=(outcome.value,) if outcome.value else None, faults=outcome.faults)


def _plain(text: SheetText) -> str:
    from linebook.markup.blocks import Run

    return "".join(piece.text for piece in text.title if isinstance(piece, Run))
