"""Every page we print is measured: the demo's on both menus, and those of a house made to strain them."""

import pytest
from printed_houses import bilingual_sheets, demo_sheets, strain_sheets

from linebook.pdf.printing import Printing


def told(defects):
    return "\n".join(str(one) for one in defects)


@pytest.mark.parametrize(("menu", "paper"), [("early-spring", "a4"), ("late-winter", "letter")])
def test_the_demo_has_no_defect(menu, paper):
    assert told(demo_sheets(menu).defects(Printing(paper=paper))) == ""


@pytest.mark.parametrize(("menu", "paper"), [("early-spring", "letter"), ("late-winter", "a4")])
def test_the_demo_on_the_other_paper_has_no_defect(menu, paper):
    """All but the batch cards, most of which the two menus share."""
    some = demo_sheets(menu).of_kind("line-cover", "station-card", "plating-guide", "allergen-matrix")
    assert told(some.defects(Printing(paper=paper))) == ""


@pytest.mark.parametrize("paper", ["a4", "letter"])
def test_the_demo_in_two_languages_has_no_defect(paper):
    assert told(bilingual_sheets().defects(Printing(paper=paper))) == ""


# A way of printing moves and colours what is laid out already, so one line's binder and the matrix stand for all.


def some_of_the_demo():
    demo = demo_sheets("early-spring")
    return demo.joined(demo.of_line("hearth"), demo.of_kind("allergen-matrix"))


@pytest.mark.parametrize("paper", ["a4", "letter"])
def test_the_demo_printed_on_both_sides_has_no_defect(paper):
    assert told(some_of_the_demo().defects(Printing(paper=paper, duplex=True))) == ""


@pytest.mark.parametrize("ink", ["grey", "saving"])
def test_the_demo_in_little_ink_has_no_defect(ink):
    assert told(some_of_the_demo().defects(Printing(paper="a4", ink=ink))) == ""


@pytest.mark.parametrize("paper", ["a4", "letter"])
def test_the_demo_in_large_type_has_no_defect(paper):
    assert told(some_of_the_demo().defects(Printing(paper=paper, large=True))) == ""


@pytest.mark.parametrize("paper", ["a4", "letter"])
@pytest.mark.parametrize("menu", ["early-spring", "late-winter"])
def test_the_demos_cards_for_the_rail_have_no_defect(menu, paper):
    cards = demo_sheets(menu).of_kind("station-card")
    assert told(cards.defects(Printing(paper=paper, half_sheet=True))) == ""


@pytest.mark.parametrize("paper", ["a4", "letter"])
def test_the_straining_house_has_no_defect(paper):
    assert told(strain_sheets().defects(Printing(paper=paper))) == ""


def test_the_straining_house_on_both_sides_in_little_ink_has_no_defect():
    assert (
        told(
            strain_sheets()
            .of_kind("station-card", "plating-guide")
            .defects(Printing(paper="letter", duplex=True, ink="saving"))
        )
        == ""
    )


@pytest.mark.parametrize("paper", ["a4", "letter"])
def test_the_straining_house_in_large_type_has_no_defect(paper):
    assert told(strain_sheets().of_kind("station-card", "batch-card").defects(Printing(paper=paper, large=True))) == ""


@pytest.mark.parametrize("paper", ["a4", "letter"])
def test_the_straining_cards_for_the_rail_have_no_defect(paper):
    assert told(strain_sheets().of_kind("station-card").defects(Printing(paper=paper, half_sheet=True))) == ""
