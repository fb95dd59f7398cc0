"""Prints the sheets of whole houses, and says of each way of printing how its pages are cut and bound.

Owns the margins a page must keep in millimetres, told from the theme; sheets and PDFs are made once and kept.
"""

from __future__ import annotations

import shutil
import tempfile
from dataclasses import dataclass
from datetime import date
from functools import cache
from pathlib import Path

import stress_houses
from measure import EDGE_MM, POINTS_PER_MM, Card, Cards, Defect, measure
from measure_words import measure_words
from printed_pages import Box, PrintedPage

from linebook.cli.asked import Asked
from linebook.compute.allergens import compute_allergens
from linebook.compute.demand import compute_night
from linebook.compute.matrix_columns import compute_also
from linebook.model.house import House
from linebook.model.occasion import Occasion
from linebook.pdf.binder import draw_binder
from linebook.pdf.printing import Printing
from linebook.pdf.sheets import Sheet
from linebook.pdf.theme import Theme
from linebook.pipeline import load_house
from linebook.workshop import Workshop, open_workshop

DEMO = Path(__file__).parents[2] / "specs"
ISSUED = date(2027, 3, 2)

CARD_EDGE_MM = EDGE_MM
"""What a card of half a sheet keeps clear of every edge it is cut along."""


@dataclass(frozen=True)
class Sheets:
    """The sheets of a house, those of its own theme."""

    theme: Theme
    folder: Path
    sheets: tuple[Sheet, ...]

    def of_kind(self, *kinds: str) -> Sheets:
        return Sheets(self.theme, self.folder, tuple(one for one in self.sheets if one.text.kind in kinds))

    def of_line(self, line: str) -> Sheets:
        return Sheets(self.theme, self.folder, tuple(one for one in self.sheets if one.text.line == line))

    def joined(self, *others: Sheets) -> Sheets:
        return Sheets(self.theme, self.folder, tuple(sheet for one in others for sheet in one.sheets))

    def pdf(self, printing: Printing) -> bytes:
        drawn = draw_binder(self.sheets, self.theme, printing, title="pages", folder=self.folder)
        assert drawn.faults == ()
        return drawn.value.content

    def defects(self, printing: Printing) -> list[Defect]:
        """Return every defect of these sheets printed so."""
        content, cards = self.pdf(printing), cards_of(self.theme, printing)
        return [*measure(content, cards), *measure_words(content, cards, self.sheets)]


@cache
def demo_sheets(menu: str, theme: str = "") -> Sheets:
    """Return all sheets of the demo house on a menu: every line's binder, then the matrix."""
    house, shop, table, nights = _opened(DEMO, menu, theme)
    sheets = [
        sheet
        for line in house.file.lines
        for sheet in shop.binder_sheets(line.id, table, nights, compute_also(house, menu)).value
    ]
    also = compute_also(house, menu)
    front = (*shop.matrix_sheet(table, also).value, *shop.index_sheet().value)
    return Sheets(shop.theme, shop.theme_folder, (*sheets, *front))


@cache
def bilingual_sheets() -> Sheets:
    """Return some sheets of the demo house, set to print Spanish under English: one line's binder and the matrix."""
    folder = Path(shutil.copytree(DEMO, Path(tempfile.mkdtemp()) / "house"))
    house = folder / "house.yaml"
    lines = [line for line in house.read_text("utf-8").splitlines() if not line.startswith("languages:")]
    house.write_text("\n".join([*lines, "languages: [en, es]", ""]), "utf-8")
    _, shop, table, nights = _opened(folder, "early-spring", "")
    sheets = (*shop.binder_sheets("hearth", table, nights).value, *shop.matrix_sheet(table).value)
    return Sheets(shop.theme, shop.theme_folder, sheets)


@cache
def marked_sheets(folder: Path, menu: str, languages: tuple[str, ...], theme: str) -> Sheets:
    """Return the sheets of a house with a table of marks, in two languages: the matrix, and each line's own page."""
    loaded = load_house(folder, "house", languages).value
    assert loaded is not None
    house, shop, table, nights = _with_workshop(Asked(languages=languages).house(loaded), folder, menu, theme)
    also = compute_also(house, menu)
    sheets = [sheet for line in house.file.lines for sheet in shop.binder_sheets(line.id, table, nights, also).value]
    whole = Sheets(shop.theme, shop.theme_folder, (*shop.matrix_sheet(table, also).value, *sheets))
    return whole.of_kind("allergen-matrix", "line-allergens")


@cache
def strain_sheets() -> Sheets:
    """Return the sheets of the house made to strain a page: a binder, three cards for a large night, and the matrix."""
    folder = stress_houses.write_house(Path(tempfile.mkdtemp()) / "house")
    _, shop, table, nights = _opened(folder, stress_houses.MENU, "")
    sheets = list(shop.binder_sheets(stress_houses.LINE, table, nights).value)
    for component in ("three", "sixty", "limits"):
        sheets += shop.night_sheet(component, nights[-1], table).value
    return Sheets(shop.theme, shop.theme_folder, (*sheets, *shop.matrix_sheet(table).value))


def _opened(folder: Path, menu: str, theme: str) -> tuple:
    house = load_house(folder, "house").value
    assert house is not None
    return _with_workshop(house, folder, menu, theme)


def _with_workshop(house: House, folder: Path, menu: str, theme: str) -> tuple:
    opened = open_workshop(house, menu, ISSUED, folder, **({"theme": theme} if theme else {}))
    assert opened.faults == ()
    shop: Workshop = opened.value
    nights = [compute_night(house, Occasion(menu=menu, covers=covers)) for covers in house.file.nights]
    return house, shop, compute_allergens(house, menu), nights


def cards_of(theme: Theme, printing: Printing) -> Cards:
    """Return how the pages of a printing are cut, bound and kept clear."""
    if printing.half_sheet:
        return _halves
    margins = theme.margins

    def cards(page: PrintedPage) -> tuple[Card, ...]:
        back = printing.duplex and page.number % 2 == 0
        if page.width > page.height:
            sides = (
                margins.side,
                margins.bottom if back else margins.binding,
                margins.side,
                margins.binding if back else margins.outer,
            )
            edges = ("bottom", "top") if back else ("top", "bottom")
        else:
            left, right = (margins.outer, margins.binding) if back else (margins.binding, margins.outer)
            sides = (left, margins.top, right, margins.bottom)
            edges = ("right", "left") if back else ("left", "right")
        return (_card(Box(0, 0, page.width, page.height), sides, *edges),)

    return cards


def _halves(page: PrintedPage) -> tuple[Card, ...]:
    middle = page.width / 2
    side = CARD_EDGE_MM * POINTS_PER_MM
    boxes = (Box(0, 0, middle, page.height), Box(middle, 0, page.width, page.height))
    return tuple(_card(box, (side,) * 4) for box in boxes)


def _card(paper: Box, sides: tuple[float, ...], binding: str = "", band: str = "") -> Card:
    left, top, right, bottom = sides
    inner = Box(paper.left + left, paper.top + top, paper.right - right, paper.bottom - bottom)
    return Card(paper, inner, binding, band)
