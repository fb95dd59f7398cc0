"""Guest sheets are measured like every page we print: for one seat and for several, small and large, in two languages."""

from __future__ import annotations

from functools import cache

import pytest
from measure import measure
from printed_houses import DEMO, ISSUED, Sheets, cards_of
from printed_pages import read_pages

from linebook.cli.asked import Asked
from linebook.compute.guest_words import find_avoidances
from linebook.documents.guest_request import AskedWord, GuestRequest, GuestSeat
from linebook.pdf.printing import Printing
from linebook.pipeline import judge_guests, load_house
from linebook.service_sheets import guest_sheet
from linebook.workshop import open_workshop

TABLES = {
    "one": (("14", "3", "", ("egg", "milk")),),
    "nobody's": (("", "", "preference", ("gluten",)),),
    "nothing to serve": (("7", "1", "allergy", ("vegan", "allium")),),
    "three": (
        ("14", "3", "", ("egg", "milk")),
        ("14", "5", "preference", ("garlic",)),
        ("14", "6", "allergy", ("walnut", "celery")),
    ),
    "seven": tuple(
        ("terrace 2", f"{seat}B", "intolerance", (word,))
        for seat, word in enumerate(("gluten", "nuts", "garlic", "egg", "honey", "sesame", "mustard"))
    ),
}


@cache
def guest_sheets(*languages: str) -> Sheets:
    """Return a guest sheet for each of the tables."""
    house = load_house(DEMO, "house", languages).value
    assert house is not None
    house = Asked(languages=languages).house(house)
    shop = open_workshop(house, "early-spring", ISSUED, DEMO).value
    assert shop is not None
    sheets = []
    for seats in TABLES.values():
        request = GuestRequest(
            table=seats[0][0],
            seats=tuple(
                GuestSeat(
                    places=(seat,) if seat else (),
                    degree=degree,
                    asked=tuple(AskedWord(word=word, avoidances=find_avoidances(house, word)) for word in asked),
                )
                for _, seat, degree, asked in seats
            ),
        )
        sheets += guest_sheet(shop, request, judge_guests(house, "early-spring", request)).value
    return Sheets(shop.theme, shop.theme_folder, tuple(sheets))


def defects_of(sheets: Sheets, printing: Printing) -> list[str]:
    """Return the defects of every sheet, and of the words of those whose columns are wide enough to tell them apart.

    In narrow columns the first line of *Serve without …* cannot be told from the whole of *Serve* beside it.
    """
    narrow = printing.large or len(sheets.sheets[0].text.title) > 1
    told = Sheets(sheets.theme, sheets.folder, sheets.sheets[: len(TABLES) - narrow])
    pages = measure(sheets.pdf(printing), cards_of(sheets.theme, printing))
    return [str(one) for one in (*pages, *told.defects(printing))]


@pytest.mark.parametrize("printing", [{}, {"large": True}, {"ink": "grey"}], ids=str)
@pytest.mark.parametrize("paper", ["a4", "letter"])
def test_a_guest_sheet_has_no_defect(paper, printing):
    assert defects_of(guest_sheets(), Printing(paper=paper, **printing)) == []


@pytest.mark.parametrize("languages", [("en", "es"), ("es", "en")], ids=str)
@pytest.mark.parametrize("large", [False, True])
def test_a_guest_sheet_in_two_languages_has_no_defect(languages, large):
    assert defects_of(guest_sheets(*languages), Printing(paper="a4", large=large)) == []


@pytest.mark.parametrize("paper", ["a4", "letter"])
def test_a_guest_sheet_for_one_seat_is_one_page(paper):
    sheets = guest_sheets()
    alone = Sheets(sheets.theme, sheets.folder, sheets.sheets[:1])
    assert len(read_pages(alone.pdf(Printing(paper=paper)))) == 1


def test_nothing_of_a_guest_sheet_is_quiet_or_small():
    """Every word a guest's safety hangs on is read at arm's length, and is black."""
    sheets = guest_sheets()
    feet = {sheet.fingerprint for sheet in sheets.sheets}
    for page in read_pages(sheets.pdf(Printing(paper="a4"))):
        foot = next(text.box.top for text in page.texts if text.text.strip() in feet)
        name = next(text for text in page.texts if text.size >= 14)
        body = [text for text in page.texts if text.text.strip() and name.baseline + 6 < text.box.top < foot - 3]
        assert body
        for text in body:
            assert text.size >= 12, text
            assert text.colour == (0, 0, 0), text
