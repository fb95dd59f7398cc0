"""Paper, type and distance: our pages against published figures; holes and contrast have tests of their own in unit/pdf.

ISO 216:2007, trimmed sizes of writing paper: A4 is 210 x 297 mm, A5 148 x 210 mm, each half of the one before.
ANSI/ASME Y14.1 and US loose-paper practice: letter is 8.5 x 11 in.
Regulation (EU) No 1169/2011, article 13(2) and Annex IV: the x-height of the words of a food label is 1.2 mm or more.
ISO 9241-3: capitals of 16 minutes of arc at the least, 20 to 22 preferred; in points of Lato, whose capitals are
    0.717 em, that is at 400 mm 7.4 and 9.2, at 600 mm 11.0 and 13.8, at 1 m 18.4 and 23.0, at 1.5 m 27.6 and 34.5.
Clear print: 12 pt or more for what is read.
All through the project's check values for plating, service and print, and its page on paper.
"""

from __future__ import annotations

import struct
from dataclasses import fields
from datetime import date
from importlib import import_module
from math import radians, tan
from pathlib import Path

import pytest

from linebook.pdf.printing import CARD_MARGIN, LARGE, Printing, printed_theme
from linebook.pdf.theme import LEAST_READING_SIZE, LEAST_SIZE
from linebook.pipeline import load_house
from linebook.workshop import open_workshop

MM = 72 / 25.4
HOUSE = Path(__file__).parents[1] / "cases" / "small-house"
THEMES = ["standard", "towpath"]


def theme_of(name):
    house = load_house(HOUSE, "house").value
    return open_workshop(house, "early-spring", date(2027, 3, 2), HOUSE, name).value.theme


def font_heights(theme):
    """Return x-height and height of capitals of a theme's regular face in em, from the font's own OS/2 table."""
    folder = Path(import_module(theme.fonts.package).__file__).parent / theme.fonts.folder
    font = (folder / theme.fonts.files["regular"]).read_bytes()
    (count,) = struct.unpack(">H", font[4:6])
    tables = {font[at : at + 4]: struct.unpack(">II", font[at + 8 : at + 16]) for at in range(12, 12 + 16 * count, 16)}
    (em,) = struct.unpack(">H", font[tables[b"head"][0] + 18 :][:2])
    version, *_ = struct.unpack(">H", font[tables[b"OS/2"][0] :][:2])
    assert version >= 2, "older tables do not tell"
    x_height, capital = struct.unpack(">hh", font[tables[b"OS/2"][0] + 86 :][:4])
    return x_height / em, capital / em


def sizes_of(theme):
    """Return the least size each style of a theme may be set in, by its name."""
    styles = [getattr(theme.styles, one.name) for one in fields(theme.styles)]
    return {style.name: style.least for style in (*styles, *theme.paragraphs.values())}


def minutes(points, capital, distance_mm):
    """Return the angle that a capital of a size fills at a distance, in minutes of arc."""
    return points * capital / MM / (distance_mm * tan(radians(1 / 60)))


# -- paper


@pytest.mark.parametrize(("paper", "wide", "high"), [("a4", 210, 297), ("letter", 8.5 * 25.4, 11 * 25.4)])
@pytest.mark.parametrize("theme", THEMES)
def test_papers_are_of_the_published_sizes(theme, paper, wide, high):
    found = theme_of(theme).papers[paper]
    assert (found.width / MM, found.height / MM) == pytest.approx((wide, high), abs=0.01)


def test_half_a_sheet_of_a4_is_a5():
    """ISO 216 trims A5 to whole millimetres: half of 297 is 148.5, and A5 is 148."""
    half = printed_theme(theme_of("standard"), Printing(paper="a4", half_sheet=True)).papers["a4"]
    assert (half.width / MM, half.height / MM) == pytest.approx((148.5, 210), abs=0.01)
    assert half.width / MM - 148 < 1.5, "the tolerance ISO 216 gives for sides up to 150 mm"


@pytest.mark.parametrize("theme", THEMES)
def test_the_binding_edge_is_as_wide_as_filing_asks(theme):
    """ISO 838: 20 to 25 mm are left free for filing."""
    assert 20 <= theme_of(theme).margins.binding / MM <= 25


def test_a_card_for_the_rail_is_clear_of_the_knife():
    assert CARD_MARGIN / MM >= 10 + 1, "10 mm stay where the cut is 1 mm astray"


# -- the height of an x


def test_the_published_x_height_in_points():
    """1.2 mm are 3.402 pt: 6.8 pt of a face whose x is half its em (the project's check values)."""
    points = 1.2 * MM
    assert points == pytest.approx(3.402, abs=0.001)
    assert points / 0.5 == pytest.approx(6.803, abs=0.001)


@pytest.mark.parametrize("theme", THEMES)
def test_the_smallest_words_are_as_high_as_the_law_asks_of_a_label(theme):
    opened = theme_of(theme)
    x_height, _ = font_heights(opened)
    smallest = min(sizes_of(opened).values())
    assert smallest >= LEAST_SIZE
    assert smallest * x_height / MM >= 1.2


def test_the_measured_heights_of_the_font_are_the_published_ones():
    """Lato: x-height .506, capitals .717 (the project's page on fonts)."""
    assert font_heights(theme_of("standard")) == pytest.approx((0.506, 0.717), abs=0.001)


# -- how far away it can be read


@pytest.mark.parametrize(
    ("distance", "least", "preferred"), [(400, 7.4, 9.2), (600, 11.0, 13.8), (1000, 18.4, 23.0), (1500, 27.6, 34.5)]
)
def test_sizes_at_a_distance_are_the_published_ones(distance, least, preferred):
    capital = 0.717
    assert minutes(least, capital, distance) == pytest.approx(16, abs=0.15)
    assert minutes(preferred, capital, distance) == pytest.approx(20, abs=0.15)


@pytest.mark.parametrize("theme", THEMES)
def test_every_word_can_be_read_where_it_is_read(theme):
    """16 minutes at the least: captions in the hand, what a cook works from on the bench, the name over the pass."""
    opened = theme_of(theme)
    _, capital = font_heights(opened)
    assert all(minutes(size, capital, 400) >= 16 for size in sizes_of(opened).values())
    styles = opened.styles
    for style in (styles.step, styles.amount, styles.name, styles.fact, styles.verdict, styles.cell, styles.mark):
        assert style.least >= LEAST_READING_SIZE
        assert minutes(style.least, capital, 600) >= 16
    assert minutes(styles.title.least, capital, 1000) >= 16
    assert minutes(styles.cover.least, capital, 1500) >= 16


def test_the_standard_theme_prefers_more():
    """20 minutes where there is room: steps and amounts at 600 mm, a dish's name at 1 m, a line's at 1.5 m."""
    styles, (_, capital) = theme_of("standard").styles, font_heights(theme_of("standard"))
    assert minutes(styles.step.size, capital, 600) >= 20
    assert minutes(styles.amount.size, capital, 600) >= 20
    assert minutes(styles.title.size, capital, 1000) >= 20
    assert minutes(styles.cover.size, capital, 1500) >= 20


@pytest.mark.parametrize("theme", THEMES)
def test_large_type_can_be_read_from_a_metre(theme):
    opened = printed_theme(theme_of(theme), Printing(paper="a4", large=True))
    _, capital = font_heights(opened)
    assert opened.styles.step.least == pytest.approx(theme_of(theme).styles.step.least * LARGE)
    assert minutes(opened.styles.step.size, capital, 1000) >= 16
    assert minutes(opened.styles.cell.size, capital, 800) >= 16
