"""The stages in order, from a house folder to finished PDFs. Prints nothing, reads no clock."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from datetime import date
from functools import partial
from pathlib import Path
from typing import TYPE_CHECKING, Final

from linebook.check.house import check_house
from linebook.check.loads import find_too_many_loads
from linebook.halves import run_tasks
from linebook.read.house_folder import read_house
from linebook.source.faults import Fault, Outcome, Severity

if TYPE_CHECKING:
    from linebook.compute.results import Batch, Night
    from linebook.model.house import House
    from linebook.workshop import PdfFile


_MATRIX_WEIGHT: Final = 4
"""What the matrix takes to draw, in sheets of a binder."""


def load_house(folder: Path, shown: str) -> Outcome[House]:
    """Read and check a house folder; ``shown`` is how its path is told to people.

    The value is None where there is any error, in reading too: a record read in part must not reach a sheet.
    """
    reading = read_house(folder, shown)
    if reading.outcome.value is None:
        return Outcome(value=None, faults=reading.outcome.faults)
    checked = check_house(reading.outcome.value)
    faults = (*reading.outcome.faults, *checked.faults)
    sound = not any(one.severity is Severity.ERROR for one in faults)
    return Outcome(value=checked.value if sound else None, faults=faults)


def find_menu(house: House, day: date) -> str | None:
    """Return the id of the menu in force on a day: the latest to have begun that has not ended."""
    begun = [menu for menu in house.menus.values() if menu.first <= day]
    if not begun:
        return None
    latest = max(begun, key=lambda menu: menu.first)
    return None if latest.last is not None and latest.last < day else latest.id


def build_binders(
    house: House,
    *,
    menu: str,
    nights: Sequence[int],
    lines: Sequence[str],
    paper: str,
    issued: date,
    folder: Path,
    progress: Callable[[str], None],
) -> Outcome[tuple[PdfFile, ...]]:
    """Draw the binder of each line that has something on the menu, then the allergen matrix."""
    from linebook.compute.allergens import compute_allergens
    from linebook.compute.demand import compute_night
    from linebook.documents.binder_order import binder_order
    from linebook.model.occasion import Occasion
    from linebook.workshop import open_workshop

    opened = open_workshop(house, menu, issued, folder)
    if opened.value is None:
        return Outcome(value=None, faults=opened.faults)
    workshop = opened.value
    progress("computing amounts and allergens")
    table = compute_allergens(house, menu)
    computed = [compute_night(house, Occasion(menu=menu, covers=covers)) for covers in sorted(nights)]
    too_many = [fault for night in computed for fault in _too_many_loads(night)]
    if too_many:
        return Outcome(value=None, faults=tuple(too_many))

    def bind(line: str) -> Outcome[PdfFile]:
        progress(f"drawing the {line} binder")
        return workshop.draw(
            workshop.binder_sheets(line, table, computed), f"{line}-binder.pdf", paper, house.file.name
        )

    def bind_matrix() -> Outcome[PdfFile]:
        return workshop.draw(workshop.matrix_sheet(table), "allergen-matrix.pdf", paper, house.file.name)

    counts = {line: count for line in lines if (count := len(binder_order(house, menu, line)))}
    tasks: list[Callable[[], Outcome[PdfFile]]] = [*(partial(bind, line) for line in counts), bind_matrix]
    weights = [*counts.values(), _MATRIX_WEIGHT]
    drawn = run_tasks(tasks, weights)
    faults = tuple(dict.fromkeys(one for outcome in drawn for one in outcome.faults))
    files = tuple(outcome.value for outcome in drawn if outcome.value)
    return Outcome(value=None if faults else files, faults=faults)


def build_matrix(house: House, *, menu: str, paper: str, issued: date, folder: Path, name: str) -> Outcome[PdfFile]:
    """Draw the allergen matrix of a menu."""
    from linebook.compute.allergens import compute_allergens
    from linebook.workshop import open_workshop

    opened = open_workshop(house, menu, issued, folder)
    if opened.value is None:
        return Outcome(value=None, faults=opened.faults)
    sheets = opened.value.matrix_sheet(compute_allergens(house, menu))
    return opened.value.draw(sheets, name, paper, house.file.name)


def build_batch(
    house: House, batch: Batch, *, menu: str, covers: int, day: date, paper: str, folder: Path, name: str
) -> Outcome[PdfFile]:
    """Draw the one-night sheet of a batch; ``covers`` is 0 where it was not sized for a number of covers."""
    from linebook.compute.allergens import compute_allergens
    from linebook.compute.results import Night
    from linebook.model.occasion import Occasion
    from linebook.workshop import open_workshop

    opened = open_workshop(house, menu, day, folder)
    if opened.value is None:
        return Outcome(value=None, faults=opened.faults)
    night = Night(
        occasion=Occasion(menu=menu, covers=covers, date=day),
        demands=(),
        batches={batch.component.id: batch},
        needs={},
        apart={},
    )
    too_many = tuple(_too_many_loads(night))
    if too_many:
        return Outcome(value=None, faults=too_many)
    sheet = opened.value.night_sheet(batch.component.id, night, compute_allergens(house, menu, only=batch.component.id))
    return opened.value.draw(sheet, name, paper, house.file.name)


def _too_many_loads(night: Night) -> Iterator[Fault]:
    covers = night.occasion.covers
    made = f"a night of {covers:,} covers" if covers else "this much"
    for batch in night.batches.values():
        yield from find_too_many_loads(batch.component, batch.loads, made)
