"""Container labels as a PDF: what is ready on a day of a plan, on the house's own sheets of labels."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import date
from pathlib import Path
from typing import TYPE_CHECKING

from linebook.source.faults import Outcome
from linebook.source.frozen import frozen

if TYPE_CHECKING:
    from linebook.compute.plan_results import PrepPlan
    from linebook.model.house import House
    from linebook.workshop import PdfFile


@frozen
class LabelPrint:
    """The labels of a day as a PDF: how many there are, and the measurements of their sheet in words."""

    file: PdfFile
    labels: int
    measures: str


def build_labels(
    house: House,
    plan: PrepPlan,
    day: date,
    *,
    lines: Sequence[str],
    start: int,
    folder: Path,
    name: str,
    theme: str = "",
) -> Outcome[LabelPrint]:
    """Draw a label for each container of what lines have ready on a day; None without faults where there is nothing.

    ``start`` is the place of the first label on its sheet, counted from 1 and starting over after the last.
    """
    from linebook.compute.allergens import compute_allergens
    from linebook.compute.containers import containers_of
    from linebook.documents.container_labels import label_run
    from linebook.model.label_sheets import labels_of
    from linebook.model.letters import find_letter
    from linebook.pdf.label_pages import draw_labels
    from linebook.pdf.printing import Printing
    from linebook.workshop import PdfFile, open_workshop

    made = containers_of(house, plan, day, lines)
    if not made:
        return Outcome(value=None)
    opened = open_workshop(house, made[0].menu, day, folder, theme)
    if opened.value is None:
        return Outcome(value=None, faults=opened.faults)
    sheet = labels_of(house.file)
    also = tuple({one.item for one in made if one.left is not None})
    tables = {menu: compute_allergens(house, menu, on=day, also=also) for menu in {one.menu for one in made}}
    run = label_run(house, day, made, tables, opened.value.wording)
    shop = opened.value
    drawn = draw_labels(
        run,
        sheet,
        shop.theme,
        start=start,
        title=house.file.name,
        language=house.file.languages[0],
        folder=shop.theme_folder,
        places=lambda letter: find_letter(house, letter),
    )
    if drawn.value is None:
        return Outcome(value=None, faults=drawn.faults)
    content, pages = drawn.value.content, drawn.value.pages
    file = PdfFile(name=name, content=content, sheets=pages, pages=pages, printing=Printing(paper=sheet.paper))
    size = f"{sheet.columns} x {sheet.rows} of {float(sheet.length):g} x {float(sheet.width):g} mm"
    return Outcome(value=LabelPrint(file=file, labels=len(run.labels), measures=size), faults=drawn.faults)
