"""Tables of marks in large type and two languages: the least room and the most words, measured as every page is."""

from pathlib import Path

import pytest
from printed_houses import DEMO, marked_sheets

from linebook.pdf.printing import Printing

BAKERY = Path(__file__).parents[1] / "houses" / "tansy-row"


def told(defects):
    return "\n".join(str(one) for one in defects)


@pytest.mark.parametrize("paper", ["a4", "letter"])
@pytest.mark.parametrize("theme", ["standard", "towpath"])
@pytest.mark.parametrize(("folder", "menu", "languages"), [
    (DEMO, "early-spring", ("en", "es")),
    (BAKERY, "spring", ("es", "en")),
], ids=["demo", "bakery"])  # fmt: skip
def test_no_head_is_cut_and_every_row_has_room(folder, menu, languages, theme, paper):
    sheets = marked_sheets(folder, menu, languages, theme)
    assert told(sheets.defects(Printing(paper=paper, large=True))) == ""
