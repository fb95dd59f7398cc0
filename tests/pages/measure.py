"""Measures the pages of a PDF against what paper, printer, binder and eye ask of them; says where each defect is.

Knows nothing of what a page should say: that is in ``measure_words``. Millimetres where a name says so, else points.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass
from functools import cache

from printed_pages import SCALE, Box, PrintedPage, Text, read_pages

POINTS_PER_MM = 72 / 25.4
EDGE_MM = 10
"""Printers and laminate borders: nothing to be read nearer to the edge of a sheet."""

LEAST_SIZE = 9.0
LEAST_CONTRAST = 4.5  # W3C WCAG 2.x SC 1.4.3, for text of any size

ISO_HOLES_MM = {"spacing": 80.0, "spacing_tol": 0.5, "edge": 12.0, "edge_tol": 1.0, "hole": 6.0, "hole_tol": 0.5}
"""ISO 838:1974."""

US_SPACING_MM = 108.0
US_EDGE_MM = (8.0, 12.7)
US_HOLE_MM = 8.0
"""US loose-paper practice: three holes 4.25 in apart, 1/4 to 5/16 in wide, centres 8 mm to half an inch in."""

_WHITE = ((255, 255),) * 3

_OVERLAP = 1.2
"""Points that the ink of two stretches may share before they stand on one another: italics lean."""

_OVERHANG = 0.12
"""Of its size: how far the ink of a text may reach over a margin, as that of a j or of an italic p does."""


@dataclass(frozen=True)
class Defect:
    """What is wrong, and where: a page from 1, and a box on it."""

    page: int
    box: Box
    check: str
    what: str

    def __str__(self) -> str:
        return f"page {self.page}, {self.box}: {self.check}: {self.what}"


@dataclass(frozen=True)
class Card:
    """One piece of paper as the cook holds it: a page, or half of one that is cut. ``margins`` hold its text.

    ``binding`` is the edge with the holes, ``band`` the edge that may carry one name outside the margins.
    """

    paper: Box
    margins: Box
    binding: str = ""
    band: str = ""


Cards = Callable[[PrintedPage], Sequence[Card]]


def whole_page(
    *, left: float, top: float, right: float, bottom: float, binding: str = "", band: str = "", mirrored: bool = False
) -> Cards:
    """Return how pages are cut into cards: not at all, with margins in mm. ``mirrored`` swaps the sides of backs."""

    def cards(page: PrintedPage) -> Sequence[Card]:
        back = mirrored and page.number % 2 == 0
        sides = (right, left) if back else (left, right)
        swap = {"left": "right", "right": "left"} if back else {}
        paper = Box(0, 0, page.width, page.height)
        margins = Box(
            sides[0] * POINTS_PER_MM,
            top * POINTS_PER_MM,
            page.width - sides[1] * POINTS_PER_MM,
            page.height - bottom * POINTS_PER_MM,
        )
        return (Card(paper, margins, swap.get(binding, binding), swap.get(band, band)),)

    return cards


def measure(content: bytes, cards: Cards) -> list[Defect]:
    """Return every defect of every page of a PDF."""
    return [defect for page in read_pages(content) for defect in measure_page(page, cards(page))]


def measure_page(page: PrintedPage, cards: Sequence[Card]) -> Iterator[Defect]:
    """Yield the defects of one page."""
    shown = [text for text in page.texts if text.text.strip() or text.box.width * text.box.height > 1]
    yield from _outside(page, shown, cards)
    for card in cards:
        yield from _punched(page, card)
    yield from _overlapping(page, shown)
    yield from _crossed(page, shown)
    for text in shown:
        yield from _hidden(page, text)
        yield from _pale(page, text)
        if text.size < LEAST_SIZE - 0.01:
            yield Defect(page.number, text.box, "small", f"`{text.text}` is set in {text.size:.2f} pt")
        if not text.embedded:
            yield Defect(page.number, text.box, "font", f"the font of `{text.text}` is not in the file")


# -- places


def _outside(page: PrintedPage, texts: Sequence[Text], cards: Sequence[Card]) -> Iterator[Defect]:
    for text in texts:
        held = [card for card in cards if card.paper.grown(-EDGE_MM * POINTS_PER_MM).holds(text.box, 0.05)]
        if not held:
            yield Defect(page.number, text.box, "edge", f"`{text.text}` is less than {EDGE_MM} mm from an edge")
            continue
        if not any(card.margins.holds(text.box, _OVERHANG * text.size) or _on_band(card, text.box) for card in held):
            yield Defect(page.number, text.box, "margin", f"`{text.text}` stands in a margin")


def _on_band(card: Card, box: Box) -> bool:
    """Say whether a box lies wholly between the margin and the edge that may carry the band."""
    margins = card.margins
    return {
        "right": box.left >= margins.right,
        "left": box.right <= margins.left,
        "top": box.bottom <= margins.top,
        "bottom": box.top >= margins.bottom,
    }.get(card.band, False)


def hole_zones(card: Card) -> Iterator[tuple[str, Box]]:
    """Yield where holes may come, with the tolerances of their standards, along the card's binding edge."""
    iso = ISO_HOLES_MM
    half = (iso["hole"] + iso["hole_tol"]) / 2
    for at in (-iso["spacing"] / 2, iso["spacing"] / 2):
        reach = half + iso["spacing_tol"] / 2
        edge = (iso["edge"] - iso["edge_tol"] - half, iso["edge"] + iso["edge_tol"] + half)
        yield "an ISO 838 hole", _zone(card, at, reach, edge)
    for at in (-US_SPACING_MM, 0.0, US_SPACING_MM):
        half = US_HOLE_MM / 2
        yield "a US hole", _zone(card, at, half, (US_EDGE_MM[0] - half, US_EDGE_MM[1] + half))


def _zone(card: Card, along_mm: float, reach_mm: float, edge_mm: tuple[float, float]) -> Box:
    near, far = (one * POINTS_PER_MM for one in edge_mm)
    paper = card.paper
    upright = card.binding in ("left", "right")
    middle = ((paper.top + paper.bottom) if upright else (paper.left + paper.right)) / 2
    first, last = middle + (along_mm - reach_mm) * POINTS_PER_MM, middle + (along_mm + reach_mm) * POINTS_PER_MM
    return {
        "left": Box(paper.left + near, first, paper.left + far, last),
        "right": Box(paper.right - far, first, paper.right - near, last),
        "top": Box(first, paper.top + near, last, paper.top + far),
        "bottom": Box(first, paper.bottom - far, last, paper.bottom - near),
    }[card.binding]


def _punched(page: PrintedPage, card: Card) -> Iterator[Defect]:
    for name, zone in hole_zones(card) if card.binding else ():
        darkest = page.picture.crop(page.pixels(zone)).getextrema()[0]
        if darkest < 255:
            yield Defect(page.number, zone, "holes", f"something is printed where {name} comes")


# -- texts and lines on one another


def _overlapping(page: PrintedPage, texts: Sequence[Text]) -> Iterator[Defect]:
    ordered = sorted(texts, key=lambda one: one.box.top)
    for at, text in enumerate(ordered):
        for other in ordered[at + 1 :]:
            if other.box.top > text.box.bottom - _OVERLAP:
                break
            wide, high = text.box.shares(other.box)
            if wide > _OVERLAP and high > _OVERLAP:
                both = f"`{text.text}` and `{other.text}` stand on one another"
                yield Defect(page.number, other.box, "overlap", both)


def _crossed(page: PrintedPage, texts: Sequence[Text]) -> Iterator[Defect]:
    for text in texts:
        inner = text.box.grown(-_OVERLAP / 2)
        for line in page.lines:
            wide, high = inner.shares(line)
            if wide >= 0 and high >= 0:
                yield Defect(page.number, text.box, "crossed", f"a line runs through `{text.text}`")
                break


# -- what the eye sees


def _hidden(page: PrintedPage, text: Text) -> Iterator[Defect]:
    """Yield a text that does not show whole: cut by the page or a clip, painted over, or of the paper's own colour."""
    left, top, right, bottom = page.pixels(text.box)
    seen = page.showing.crop((left, top, right, bottom)).getbbox() if right > left and bottom > top else None
    paper = Box(0, 0, page.width, page.height)
    if not paper.holds(text.box):
        yield Defect(page.number, text.box, "cut", f"`{text.text}` is cut by the edge of the page")
    elif seen is None:
        yield Defect(page.number, text.box, "cut", f"`{text.text}` does not show")
    else:
        lost = [seen[0], seen[1], right - left - seen[2], bottom - top - seen[3]]
        space = 0.4 * text.size  # a stretch may start or end with one, and that shows nothing
        along = [0.0, space] * 2 if text.turned else [space, 0.0] * 2
        if any(one > (2 + more) * SCALE for one, more in zip(lost, along, strict=True)):
            yield Defect(page.number, text.box, "cut", f"`{text.text}` shows only in part")


@cache
def luminance(colour: tuple[int, ...]) -> float:
    """Return the relative luminance of an sRGB colour, WCAG 2.x."""
    linear = [c / 12.92 if c <= 0.04045 else ((c + 0.055) / 1.055) ** 2.4 for c in (one / 255 for one in colour)]
    return 0.2126 * linear[0] + 0.7152 * linear[1] + 0.0722 * linear[2]


def contrast(one: tuple[int, ...], other: tuple[int, ...]) -> float:
    """Return the contrast of two colours, 1 to 21, WCAG 2.x."""
    dark, light = sorted((luminance(one), luminance(other)))
    return (light + 0.05) / (dark + 0.05)


def _pale(page: PrintedPage, text: Text) -> Iterator[Defect]:
    """Yield a text too near in brightness to any colour that lies under a tenth of it or more."""
    left, top, right, bottom = page.pixels(text.box)
    if right <= left or bottom <= top:
        return
    behind = page.behind.crop((left, top, right, bottom))
    under = [(1, (255, 255, 255))] if behind.getextrema() == _WHITE else behind.getcolors() or []
    whole = sum(count for count, _ in under)
    ratios = [contrast(text.colour, colour) for count, colour in under if count >= whole / 10]
    worst = min(ratios, default=21.0)
    if worst < LEAST_CONTRAST:
        yield Defect(page.number, text.box, "contrast", f"`{text.text}` has {worst:.1f} to 1")
