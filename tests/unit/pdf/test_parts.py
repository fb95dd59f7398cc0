"""A heading that starts a page: only where the sheet is longer than one, and never at the price of another page."""

from pdf_reading import letters
from pdf_samples import FACES, THEME, sheet, text

from linebook.markup.blocks import Fact, Facts, Heading, Run
from linebook.pdf.binder import draw_binder

SENTENCE = "Rinse, dry and salt it as the card says, then lay it away cold until it is wanted. "


def pages_of(first: int, second: int) -> list[str]:
    """Draw so many paragraphs, a heading that starts a page, and so many more."""
    before, after = (
        [text(f"{name} {number} " + SENTENCE * 3) for number in range(count)]
        for name, count in (("Before", first), ("After", second))
    )
    heading = Heading(level=2, content=(Run(text="The second part"),), starts_page=True)
    outcome = draw_binder([sheet([*before, heading, *after])], THEME, "a4", title="t", faces=FACES)
    assert outcome.faults == ()
    assert outcome.value is not None
    return letters(outcome.value.content)


def test_what_fits_one_page_stays_on_it():
    (page,) = pages_of(3, 3)
    assert "Before2" in page
    assert "Thesecondpart" in page


def test_a_longer_sheet_starts_a_page_with_it():
    first, second = pages_of(9, 9)
    assert "Before8" in first
    assert "Thesecondpart" not in first
    assert second.index("continues") < second.index("Thesecondpart") < second.index("After0")
    assert "1of2" in first
    assert "2of2" in second


def test_no_page_is_spent_on_it():
    """A part a little longer than a page, and a short one: together two pages, apart three."""
    pages = pages_of(17, 2)
    assert len(pages) == 2
    assert "Before16" in pages[1]
    assert "Thesecondpart" in pages[1]


def test_what_to_do_is_at_the_head_of_its_own_line():
    """However long it is, it does not squeeze what follows it."""
    long = "Serve without the walnut crumb, the pickled walnut and the celeriac crisp"
    verdicts = Facts(
        facts=(
            Fact(term=(Run(text="Do not serve", bold=True),), value=(Run(text="milk, celery"),)),
            Fact(term=(Run(text=long, bold=True),), value=(Run(text="wheat"),)),
        ),
        role="verdicts",
    )
    outcome = draw_binder([sheet([verdicts])], THEME, "a4", title="t", faces=FACES)
    assert outcome.value is not None
    (page,) = letters(outcome.value.content)
    assert f"Donotservemilk,celery{long.replace(' ', '')}wheat" in page
