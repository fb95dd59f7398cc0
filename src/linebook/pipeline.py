"""The stages in order, from a house folder to finished PDFs. Prints nothing, reads no clock."""

from __future__ import annotations

from collections.abc import Callable, Collection, Iterator, Mapping, Sequence
from dataclasses import replace
from datetime import date
from functools import partial
from pathlib import Path
from types import MappingProxyType
from typing import TYPE_CHECKING, Final, TypeAlias

from linebook.source.faults import Fault, Outcome, Severity
from linebook.source.frozen import frozen

if TYPE_CHECKING:
    from linebook.check.house import Checking, Looked
    from linebook.compute.results import AllergenTable, Batch, Night, Sized
    from linebook.documents.guest_request import AnsweredSeat, GuestRequest
    from linebook.markup.sheet import Sheet
    from linebook.model.house import House, ParsedHouse
    from linebook.pdf.printing import Printing
    from linebook.read.shared_cards import Sharing
    from linebook.screen.folder import ScreenFile
    from linebook.source.spans import SourceFile
    from linebook.templating.templates import Templates
    from linebook.workshop import PdfFile, Workshop


Answers: TypeAlias = "tuple[AllergenTable, AllergenTable | None]"
"""The answers of the allergen matrix, and of its columns that are no allergens where the house asks for any."""

MATRIX_WEIGHT: Final = 4
"""What the matrix takes to draw, in sheets of a binder."""


@frozen
class OpenHouse:
    """A house folder that was read; ``faults`` are those of reading. ``checking`` is None where there is no folder.

    ``sources`` is every file that was read, where the whole folder was.
    """

    faults: tuple[Fault, ...]
    checking: Checking | None
    sources: tuple[SourceFile, ...] = ()

    @property
    def unchecked(self) -> House | None:
        """The house before its rules are looked at; None where reading alone has found an error."""
        if self.checking is None or any(one.severity is Severity.ERROR for one in self.faults):
            return None
        return self.checking.house

    @property
    def parsed(self) -> ParsedHouse | None:
        """Return what was read; None where there is no folder."""
        return None if self.checking is None else self.checking.index.parsed

    def check(self, looked: Looked = MappingProxyType({})) -> Outcome[House]:
        """Return the house, and every fault; ``looked`` is what ``checking.look_first`` has found.

        The value is None where there is any error, in reading too: a record read in part must not reach a sheet.
        """
        if self.checking is None:
            return Outcome(value=None, faults=self.faults)
        checked = self.checking.finish(looked)
        return Outcome(value=checked.value and self.unchecked, faults=(*self.faults, *checked.faults))


def open_house(
    folder: Path, shown: str, printed: tuple[str, ...] | None = None, sharing: Sharing | None = None
) -> OpenHouse:
    """Read a house folder; ``shown`` is how its path is told to people.

    ``printed`` are the languages to print in, () being the house's own: others are not read. None reads them all.
    ``sharing`` is with another process that reads it, too.
    """
    from linebook.check.house import begin_check
    from linebook.read.house_folder import read_house

    reading = read_house(folder, shown, printed, sharing)
    parsed, faults = reading.outcome.value, reading.outcome.faults
    checking = begin_check(parsed) if parsed is not None else None
    return OpenHouse(faults=faults, checking=checking, sources=reading.sources)


def load_house(folder: Path, shown: str, printed: tuple[str, ...] | None = None) -> Outcome[House]:
    """Read and check a house folder, as ``open_house`` and ``OpenHouse.check`` do."""
    return open_house(folder, shown, printed).check()


def find_menu(house: House, day: date) -> str | None:
    """Return the id of the menu in force on a day: the latest to have begun that has not ended."""
    from linebook.compute.services import menu_in_force

    return menu_in_force(house, day)


def build_binders(
    house: House,
    *,
    menu: str,
    nights: Sequence[int],
    lines: Sequence[str],
    printing: Printing,
    issued: date,
    folder: Path,
    progress: Callable[[str], None],
    theme: str = "",
    ready: Templates | None = None,
    first_issued: Mapping[str, date] = MappingProxyType({}),
    apart: Callable[[str, PdfFile], Collection[str]] | None = None,
    go: Callable[[], Answers] | None = None,
) -> Outcome[tuple[PdfFile, ...]]:
    """Draw the binder of each line that has something on the menu, then the allergen matrix.

    ``ready`` are the templates of the house's folder where they were opened ahead; ``first_issued`` are the days on
    which fingerprints were first issued. ``go`` gives what ``find_answers`` does, where it is worked out elsewhere.
    Where ``apart`` is given, each PDF knows what it holds, and the sheets it names by id, given a line ('' for front of
    house) and its PDF, are drawn once more in one of their own.
    """
    from linebook.compute.demand import compute_night
    from linebook.documents.binder_order import binder_order
    from linebook.model.occasion import Occasion
    from linebook.workshop import open_workshop

    opened = open_workshop(house, menu, issued, folder, theme, ready, first_issued)
    if opened.value is None:
        return Outcome(value=None, faults=opened.faults)
    workshop = opened.value
    progress("computing amounts and allergens")
    computed = [compute_night(house, Occasion(menu=menu, covers=covers)) for covers in sorted(nights)]
    refused = [fault for night in computed for fault in find_refused_batches(house, night)]
    refused = refused or [*find_refused_bases(house, menu)]
    if refused:
        return Outcome(value=None, faults=tuple(refused))
    counts = {line: count for line in lines if (count := len(binder_order(house, menu, line)))}
    table, also = go() if go is not None else find_answers(house, menu, issued)

    def bind(line: str) -> Outcome[PdfFile]:
        progress(f"drawing the {line} binder")
        sheets = workshop.binder_sheets(line, table, computed, also)
        return _with_apart(workshop, sheets, line, f"{line}-binder", printing, apart)

    def bind_matrix() -> Outcome[PdfFile]:
        return _with_apart(workshop, workshop.matrix_sheet(table, also), "", "allergen-matrix", printing, apart)

    return _drawn([*(partial(bind, line) for line in counts), bind_matrix], [*counts.values(), MATRIX_WEIGHT])


def _with_apart(
    workshop: Workshop,
    sheets: Outcome[tuple[Sheet, ...]],
    line: str,
    stem: str,
    printing: Printing,
    apart: Callable[[str, PdfFile], Collection[str]] | None,
) -> Outcome[PdfFile]:
    """Draw the sheets of one file, and once more those that are wanted apart."""
    whole = workshop.draw(sheets, printing.file_name(stem), printing, keep=apart is not None)
    if apart is None or whole.value is None or sheets.value is None:
        return whole
    wanted = apart(line, whole.value)
    chosen = tuple(sheet for sheet in sheets.value if sheet.text.id in wanted)
    if not chosen:
        return whole
    part = workshop.draw(Outcome(value=chosen), printing.file_name(f"{stem}-changed"), printing)
    return Outcome(value=replace(whole.value, changed=part.value), faults=(*whole.faults, *part.faults))


def build_rail_cards(
    house: House,
    *,
    menu: str,
    lines: Sequence[str],
    printing: Printing,
    issued: date,
    folder: Path,
    progress: Callable[[str], None],
    theme: str = "",
) -> Outcome[tuple[PdfFile, ...]]:
    """Draw the station cards of each line that has a dish on the menu, for its ticket rail."""
    from linebook.compute.allergens import compute_allergens
    from linebook.documents.binder_order import dishes_of_line
    from linebook.service_sheets import rail_cards
    from linebook.workshop import open_workshop

    opened = open_workshop(house, menu, issued, folder, theme)
    if opened.value is None:
        return Outcome(value=None, faults=opened.faults)
    workshop = opened.value
    progress("computing allergens")
    table = compute_allergens(house, menu)

    def draw(line: str) -> Outcome[PdfFile]:
        progress(f"drawing the {line} rail cards")
        return workshop.draw(rail_cards(workshop, line, table), f"{line}-rail-cards.pdf", printing)

    counts = {line: count for line in lines if (count := len(dishes_of_line(house, menu, line)))}
    return _drawn([partial(draw, line) for line in counts], [*counts.values()])


def find_answers(house: House, menu: str, issued: date) -> Answers:
    """Return the answers of a menu: those of its allergens, and those of the other columns of its matrix."""
    from linebook.compute.allergens import compute_allergens

    return compute_allergens(house, menu, on=issued), _also(house, menu)


def _also(house: House, menu: str) -> AllergenTable | None:
    """Return the answers of the matrix's columns that are no allergens, None where the house asks for none."""
    if not house.file.allergens.also:
        return None
    from linebook.compute.matrix_columns import compute_also

    return compute_also(house, menu)


def _drawn(tasks: Sequence[Callable[[], Outcome[PdfFile]]], weights: Sequence[int]) -> Outcome[tuple[PdfFile, ...]]:
    """Return all PDFs, or all faults; ``weights`` say how long each takes against the others."""
    from linebook.copies import run_tasks

    drawn = run_tasks(tasks, weights)
    faults = tuple(dict.fromkeys(one for outcome in drawn for one in outcome.faults))
    files = tuple(outcome.value for outcome in drawn if outcome.value)
    return Outcome(value=None if faults else files, faults=faults)


def build_matrix(
    house: House,
    *,
    menu: str,
    printing: Printing,
    issued: date,
    folder: Path,
    names: tuple[str, str],
    theme: str = "",
) -> Outcome[tuple[PdfFile, ...]]:
    """Draw the allergen matrix of a menu, and its index; ``names`` are those of the two files."""

    def make(workshop: Workshop) -> Sequence[tuple[str, Outcome[tuple[Sheet, ...]]]]:
        sheets = (workshop.matrix_sheet(*find_answers(house, menu, issued)), workshop.index_sheet())
        return list(zip(names, sheets, strict=True))

    return build_prints(house, make, menu=menu, issued=issued, printing=printing, folder=folder, theme=theme)


def build_screen(
    house: House,
    *,
    menu: str,
    nights: Sequence[int],
    lines: Sequence[str],
    issued: date,
    folder: Path,
    progress: Callable[[str], None],
) -> Outcome[tuple[ScreenFile, ...]]:
    """Draw the pages of a house on a screen: an index, the allergen matrix, and what each line's binder holds."""
    from linebook.compute.demand import compute_night
    from linebook.documents.binder_order import binder_order
    from linebook.model.occasion import Occasion
    from linebook.screen.folder import draw_screen
    from linebook.screen.page import Frame
    from linebook.service_sheets import screen_sheets
    from linebook.workshop import open_workshop

    opened = open_workshop(house, menu, issued, folder)
    if opened.value is None:
        return Outcome(value=None, faults=opened.faults)
    workshop = opened.value
    progress("computing amounts and allergens")
    table, also = find_answers(house, menu, issued)
    computed = [compute_night(house, Occasion(menu=menu, covers=covers)) for covers in sorted(nights)]
    too_many = tuple(fault for night in computed for fault in find_refused_batches(house, night))
    if too_many:
        return Outcome(value=None, faults=too_many)
    progress("drawing the pages")
    cooking = [line for line in lines if binder_order(house, menu, line)]
    if not cooking:
        return Outcome(value=())
    sheets = screen_sheets(workshop, cooking, table, computed, also)
    if sheets.value is None:
        return Outcome(value=None, faults=sheets.faults)
    accents = tuple(accent.ink.colour for accent in workshop.theme.accents)
    frame = Frame(house=house.file.name, language=workshop.wording.language, accents=accents)
    return draw_screen(sheets.value, workshop.wording, frame)


def build_batch(
    house: House,
    batch: Batch,
    *,
    menu: str,
    covers: int,
    day: date,
    printing: Printing,
    folder: Path,
    name: str,
    theme: str = "",
    night: Night | None = None,
    sized: Sized | None = None,
) -> Outcome[PdfFile]:
    """Draw the one-night sheet of a batch; ``covers`` is 0 where it was not sized for a number of covers.

    ``night`` is the night it is made for, with its stock and the balance of its trim; ``sized`` how it was sized
    otherwise.
    """
    from linebook.compute.allergens import compute_allergens
    from linebook.compute.results import Night
    from linebook.model.occasion import Occasion
    from linebook.workshop import open_workshop

    opened = open_workshop(house, menu, day, folder, theme)
    if opened.value is None:
        return Outcome(value=None, faults=opened.faults)
    occasion = Occasion(menu=menu, covers=covers, date=day)
    alone = Night(occasion=occasion, demands=(), batches={batch.component.id: batch}, needs={}, apart={}, sized=sized)
    too_many = tuple(find_refused_batches(house, alone))
    if too_many:
        return Outcome(value=None, faults=too_many)
    sheet = opened.value.night_sheet(
        batch.component.id, night or alone, compute_allergens(house, menu, only=batch.component.id)
    )
    return opened.value.draw(sheet, name, printing)


def build_prints(
    house: House,
    make: Callable[[Workshop], Sequence[tuple[str, Outcome[tuple[Sheet, ...]]]]],
    *,
    menu: str,
    issued: date,
    printing: Printing,
    folder: Path,
    theme: str = "",
) -> Outcome[tuple[PdfFile, ...]]:
    """Draw what ``make`` returns of an open workshop: the name of each file and the sheets in it."""
    from linebook.workshop import open_workshop

    opened = open_workshop(house, menu, issued, folder, theme)
    if opened.value is None:
        return Outcome(value=None, faults=opened.faults)
    made = make(opened.value)
    return _drawn(
        [partial(opened.value.draw, sheets, name, printing) for name, sheets in made],
        [len(sheets.value or ()) for _, sheets in made],
    )


def judge_guests(house: House, menu: str, request: GuestRequest) -> tuple[AnsweredSeat, ...]:
    """Return what to do with every dish of a menu for each seat of a table."""
    from linebook.compute.guest import judge
    from linebook.documents.guest_request import answered

    return answered(request, [judge(house, menu, seat.avoidances) for seat in request.seats])


def find_refused_batches(house: House, night: Night) -> Iterator[Fault]:
    """Yield what a night's batches may not be printed with: too many loads, or what cannot be weighed exactly."""
    from linebook.check.loads import find_too_many_loads
    from linebook.compute.refused import find_refused

    covers = night.occasion.covers
    made = f"a night of {covers:,} covers" if covers else "this much"
    for batch in night.batches.values():
        yield from find_too_many_loads(batch.component, batch.loads, made, batch.stage_loads)
        yield from find_refused(house, batch, made)


def find_refused_bases(house: House, menu: str) -> Iterator[Fault]:
    """Yield what the cards of a menu, as written, cannot be weighed with: a binder shows the spec's own batch."""
    from linebook.compute.base import base_batch
    from linebook.compute.makeup import components_of
    from linebook.compute.refused import find_refused

    if not any(item.weigh_exactly or item.strength for item in house.pantry.values()):
        return
    for component in components_of(house, house.menus[menu]):
        yield from find_refused(house, base_batch(house, component), "the batch as written")
