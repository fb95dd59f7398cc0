"""Inks: the lines' bands print as distinct greys, colour or not, and the grey of the theme is the one seen."""

import itertools
from dataclasses import replace

import pytest
from pdf_reading import colour_picture, picture
from pdf_samples import FACES, THEME, sheet, text

from linebook.pdf.binder import draw_binder
from linebook.pdf.furniture import Band
from linebook.pdf.printing import Printing


def luminance(colour):
    """What a printer driver makes of a colour: ITU-R BT.601 luma."""
    red, green, blue = (int(colour[at : at + 2], 16) / 255 for at in (1, 3, 5))
    return 0.299 * red + 0.587 * green + 0.114 * blue


def test_each_colour_is_as_dark_as_the_grey_it_names():
    for ink in [*THEME.inks.values(), *[accent.ink for accent in THEME.accents]]:
        assert luminance(ink.colour) == pytest.approx(ink.grey, abs=0.03)


def test_the_first_four_lines_are_far_apart_in_grey():
    greys = sorted(accent.ink.grey for accent in THEME.accents[:4])
    assert all(second - first > 0.12 for first, second in itertools.pairwise(greys))
    everyone = sorted(accent.ink.grey for accent in THEME.accents)
    assert all(second - first > 0.05 for first, second in itertools.pairwise(everyone))


def test_the_name_on_a_band_can_be_read():
    for accent in THEME.accents:
        dark, light = sorted((accent.ink.grey, 1.0 if accent.over == "white" else 0.0))
        assert light - dark > 0.5


@pytest.mark.parametrize("ink", ["grey", "colour"])
def test_the_band_prints_as_the_grey_the_theme_names(ink):
    for position, accent in enumerate(THEME.accents[:4]):
        made = replace(sheet([text("Rest.")]), band=Band(name="Line", position=position, count=4))
        data = draw_binder([made], THEME, Printing(paper="a4", ink=ink), title="x", faces=FACES).value.content
        page = picture(data, scale=1.0)
        seen = [page.getpixel((595 - 32, top)) for top in range(840)]
        band = [one for one in seen if one < 250]
        assert len(band) > 100
        assert sum(band) / len(band) / 255 == pytest.approx(accent.ink.grey, abs=0.04)


def test_grey_printing_has_no_colour_at_all():
    made = replace(sheet([text("Rest.")]), band=Band(name="Line", position=0, count=4))
    in_grey = Printing(paper="a4", ink="grey")
    page = colour_picture(draw_binder([made], THEME, in_grey, title="x", faces=FACES).value.content)
    data = page.tobytes()
    assert all(data[at] == data[at + 1] == data[at + 2] for at in range(0, len(data), 3 * 37))
    coloured = colour_picture(draw_binder([made], THEME, "a4", title="x", faces=FACES).value.content).tobytes()
    assert any(coloured[at] != coloured[at + 2] for at in range(0, len(coloured), 3 * 7))
