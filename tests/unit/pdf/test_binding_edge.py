"""The binding edge: nothing is printed where either hole standard punches, on either side, upright or turned.

Sources, through the project's check values for paper:
ISO 838:1974, holes for general filing: 2 holes of 6 mm (tolerance 0.5) in diameter, 80 mm (0.5) apart, centred on the
    sheet's axis, their centres 12 mm (1) from the edge. Its margin for filing is 20 to 25 mm. The extension to four
    holes, 80 mm apart each, is common practice.
US three-hole punching: 108 mm (4.25 in) apart, the middle one on the axis, centres 8 to 10 mm from the edge; the holes
    are 9/32 in (7.2 mm) wide, common practice; 8 mm is taken here.
"""

from dataclasses import replace

import pytest
from pdf_reading import picture
from pdf_samples import FACES, THEME, batch_card, matrix, plating_guide, sheet, station_card, steps

from linebook.pdf.binder import draw_binder
from linebook.pdf.printing import Printing

MM = 72 / 25.4
EDGE = 22
HOLES = {
    "ISO 838, two": (12 + 1, (6 + 0.5) / 2, (-40, 40)),
    "ISO 838, extended to four": (12 + 1, (6 + 0.5) / 2, (-120, -40, 40, 120)),
    "US, three": (10, 8 / 2, (-108, 0, 108)),
}
"""How far in the centres are at most, the radius at most, and where along the edge from the axis; millimetres."""


def pages_of(made, paper):
    long = replace(made, foot=replace(made.foot, blank="left blank"))
    data = draw_binder([long], THEME, Printing(paper=paper, duplex=True), title="x", faces=FACES).value
    return data.content, data.pages


def darkest(image, box):
    return min(image.crop(tuple(round(one) for one in box)).tobytes())


def strip(image, *, turned, back, depth):
    """The strip along the binding edge as the page is read: left, or right on a back; top, or bottom on a back."""
    width, height = image.size
    if turned:
        return (0, height - depth, width, height) if back else (0, 0, width, depth)
    return (width - depth, 0, width, height) if back else (0, 0, depth, height)


@pytest.mark.parametrize("standard", HOLES)
def test_a_hole_reaches_less_far_than_the_binding_edge(standard):
    centre, radius, _ = HOLES[standard]
    assert centre + radius < EDGE
    assert THEME.margins.binding == pytest.approx(EDGE * MM, abs=0.01)


@pytest.mark.parametrize("paper", ["a4", "letter"])
@pytest.mark.parametrize("turned", [False, True])
def test_no_ink_where_the_holes_are_on_either_side(paper, turned):
    step = "Fold and turn, then rest it well covered by the fire."
    made = sheet([steps(*[step] * 90)], landscape=turned)
    content, count = pages_of(made, paper)
    assert count >= 3
    for number in range(count):
        image = picture(content, number, scale=2.0)
        depth = EDGE * MM * 2
        where = strip(image, turned=turned, back=number % 2 == 1, depth=depth - 3)
        assert darkest(image, where) > 250
        other = strip(image, turned=turned, back=number % 2 == 0, depth=depth - 3)
        assert darkest(image, other) < 128, "the margin changes sides: the other edge has print nearer to it"


@pytest.mark.parametrize("standard", HOLES)
@pytest.mark.parametrize(
    ("make", "paper"), [(batch_card, "a4"), (station_card, "letter"), (plating_guide, "a4"), (matrix, "a4")]
)
def test_the_punched_pages_lose_nothing(make, paper, standard):
    content, count = pages_of(make(), paper)
    centre, radius, places = HOLES[standard]
    for number in range(count):
        image = picture(content, number, scale=2.0)
        width, height = image.size
        turned, back = width > height, number % 2 == 1
        for place in places:
            along = (width if turned else height) / 2 + place * MM * 2
            across = centre * MM * 2
            if back:
                across = (height if turned else width) - across
            x, y = (along, across) if turned else (across, along)
            reach = radius * MM * 2
            assert darkest(image, (x - reach, y - reach, x + reach, y + reach)) == 255
