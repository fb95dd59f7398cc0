"""The second theme that ships is measured as the first is: the demo in it has no defect, on any paper."""

import pytest
from printed_houses import demo_sheets

from linebook.pdf.printing import Printing

THEME = "towpath"


def told(defects):
    return "\n".join(str(one) for one in defects)


@pytest.mark.parametrize(("menu", "printing"), [
    ("early-spring", Printing(paper="a4")),
    ("late-winter", Printing(paper="letter", duplex=True, ink="grey")),
], ids=str)  # fmt: skip
def test_the_demo_in_the_second_theme_has_no_defect(menu, printing):
    assert told(demo_sheets(menu, THEME).defects(printing)) == ""


@pytest.mark.parametrize(
    "printing", [Printing(paper="a4", large=True), Printing(paper="letter", half_sheet=True)], ids=str
)
def test_its_cards_for_the_wall_and_the_rail_have_no_defect(printing):
    cards = demo_sheets("early-spring", THEME).of_kind("station-card")
    assert told(cards.defects(printing)) == ""
