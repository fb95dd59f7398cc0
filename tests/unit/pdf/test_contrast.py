"""Contrast: the values that others have published for WCAG's formula."""

import pytest

from linebook.pdf.contrast import contrast, grey_of
from linebook.pdf.theme import Accent, Ink

# W3C's formula, worked out by hand for each; the figures for #767676, #777777, #595959, #949494, #959595 and red are
# also those commonly published beside WCAG 2.0 to 2.2, success criteria 1.4.3, 1.4.6 and 1.4.11.
ON_WHITE = {
    "#000000": 21.0,
    "#595959": 7.005,
    "#767676": 4.542,
    "#777777": 4.478,
    "#949494": 3.033,
    "#959595": 2.995,
    "#ff0000": 3.998,
    "#ffffff": 1.0,
}


@pytest.mark.parametrize("colour", list(ON_WHITE))
def test_contrast_on_white(colour):
    assert contrast(colour, "#ffffff") == pytest.approx(ON_WHITE[colour], abs=0.001)
    assert contrast("#ffffff", colour) == contrast(colour, "#ffffff")


def test_black_and_white_on_a_colour_are_each_others_rest():
    for colour in ("#123456", "#e5ba62", "#808080"):
        assert contrast(colour, "#ffffff") * contrast(colour, "#000000") == pytest.approx(21)


def test_a_grey_is_a_colour():
    assert [grey_of(level) for level in (0, 0.46, 1)] == ["#000000", "#757575", "#ffffff"]


def test_an_ink_is_as_readable_as_the_worse_of_its_colour_and_its_grey():
    assert Ink(colour="#000000", grey=0.5).contrast("#ffffff") == contrast("#808080", "#ffffff")
    assert Ink(colour="#e5ba62", grey=0.0).contrast("#ffffff") == contrast("#e5ba62", "#ffffff")


def test_only_an_accent_that_can_be_read_on_white_is_used_for_words():
    assert Accent(ink=Ink(colour="#762013", grey=0.22), over="white").can_be_read
    assert not Accent(ink=Ink(colour="#e5ba62", grey=0.22), over="black").can_be_read
    assert not Accent(ink=Ink(colour="#762013", grey=0.7), over="white").can_be_read
