"""Call sheets and line-up sheets are measured like every page we print, and for what is read across the pass."""

from __future__ import annotations

from functools import cache

import pytest
from measure import measure
from printed_houses import DEMO, ISSUED, Sheets, cards_of
from printed_pages import read_pages

from linebook.cli.asked import Asked
from linebook.compute.allergens import compute_allergens
from linebook.compute.calling import compute_call
from linebook.documents import call_sheet, line_up_sheet
from linebook.pdf.printing import Printing
from linebook.pipeline import load_house
from linebook.workshop import open_workshop

MENU = "early-spring"
CALLED = {"potato-dumplings": 7, "hake-mussels": 3, "short-rib-celeriac": 12, "house-bread": 4}
ACROSS_THE_PASS = 24
IN_THE_HAND = 12
BLACK = (0, 0, 0)


@cache
def sheets(kind: str, menu: str = MENU, *languages: str) -> Sheets:
    """Return the call sheets of the pass, of a line and of a table, or the line-up sheet."""
    house = load_house(DEMO, "house", languages or None).value
    assert house is not None
    house = Asked(languages=languages).house(house)
    shop = open_workshop(house, menu, ISSUED, DEMO).value
    assert shop is not None
    if kind == line_up_sheet.DOCUMENT:
        table = compute_allergens(house, menu, on=ISSUED)
        views = [line_up_sheet.line_up_sheet(house, menu, table, ISSUED, shop.wording)]
    else:
        views = [call_sheet.menu_call_sheet(house, menu, shop.wording, line) for line in ("", "hearth")]
        if menu == MENU:
            views.append(call_sheet.set_call_sheet(house, menu, compute_call(house, CALLED), shop.wording))
    made = shop.sheets(kind, views)
    assert made.faults == ()
    return Sheets(shop.theme, shop.theme_folder, made.value)


KINDS = (call_sheet.DOCUMENT, line_up_sheet.DOCUMENT)


@pytest.mark.parametrize("kind", KINDS)
@pytest.mark.parametrize("printing", [{}, {"large": True}, {"ink": "grey"}, {"duplex": True}], ids=str)
@pytest.mark.parametrize("paper", ["a4", "letter"])
@pytest.mark.parametrize("menu", [MENU, "late-winter"])
def test_a_sheet_has_no_defect(kind, paper, printing, menu):
    assert [str(one) for one in sheets(kind, menu).defects(Printing(paper=paper, **printing))] == []


@pytest.mark.parametrize("kind", KINDS)
@pytest.mark.parametrize("languages", [("en", "es"), ("es", "en"), ("es",)], ids=str)
def test_a_sheet_in_two_languages_has_no_defect(kind, languages):
    found, printing = sheets(kind, MENU, *languages), Printing(paper="a4")
    assert [str(one) for one in measure(found.pdf(printing), cards_of(found.theme, printing))] == []


@pytest.mark.parametrize("printing", [{}, {"ink": "grey"}], ids=str)
@pytest.mark.parametrize("paper", ["a4", "letter"])
def test_dishes_times_and_what_is_done_are_read_across_the_pass(paper, printing):
    content = sheets(call_sheet.DOCUMENT).pdf(Printing(paper=paper, **printing))
    texts = [text for page in read_pages(content) for text in page.texts]
    said = {word for text in texts if text.size >= ACROSS_THE_PASS - 0.01 for word in text.text.split()}
    for sheet in sheets(call_sheet.DOCUMENT).sheets:
        for block in sheet.text.blocks:
            for row in getattr(block, "rows", ()):
                words = {
                    word for cell in row.cells for piece in cell.content for word in piece.text.replace("\xa0", " ").split()
                }  # fmt: skip
                assert words <= said, row
    small = [text for text in texts if text.size < ACROSS_THE_PASS - 0.01]
    assert not any(text.text.strip().startswith("−") for text in small)


@pytest.mark.parametrize("printing", [{}, {"ink": "grey"}], ids=str)
def test_no_allergen_is_small_or_grey(printing):
    found = sheets(line_up_sheet.DOCUMENT)
    named = {
        word.strip("(),:")
        for sheet in found.sheets
        for block in sheet.text.blocks
        for facts in getattr(block, "blocks", ())
        if getattr(facts, "role", "") == "verdicts"
        for fact in facts.facts
        for piece in (*fact.term, *fact.value)
        for word in piece.text.split()
    }
    assert {"Contains", "Undeclared", "celery", "mussel", "sulphites"} <= named
    allergens = {
        "sulphites",
        "celery",
        "crustaceans",
        "mussel",
        "undeclared",
        "almond",
        "hake",
        "Contains",
        "Undeclared",
    }
    seen = set()
    for page in read_pages(found.pdf(Printing(paper="a4", **printing))):
        for text in page.texts:
            words = {word.strip("(),:") for word in text.text.replace("\xa0", " ").split()} & allergens
            if words:
                seen |= words
                assert text.size >= IN_THE_HAND - 0.01, text
                assert text.colour == BLACK, text
    assert {"sulphites", "celery", "mussel", "Contains", "Undeclared"} <= seen
