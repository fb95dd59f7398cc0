"""The finished PDF, read back by two other programs: all it says in order, inside its margins, the same each time."""

import itertools
import re
from dataclasses import replace
from io import BytesIO

import pytest
from pdf_reading import collisions, letters, read_pages
from pdf_samples import (
    FACES,
    HEARTH,
    THEME,
    batch_card,
    cell,
    cover,
    facts,
    heading,
    matrix,
    plating_guide,
    row,
    sheet,
    station_card,
    steps,
    text,
)
from pypdf import PdfReader

from linebook.markup.blocks import (
    Box,
    Facts,
    FigureRef,
    Heading,
    Mark,
    Paragraph,
    Points,
    Row,
    Rule,
    Run,
    Split,
    Steps,
    Table,
)
from linebook.pdf.binder import draw_binder
from linebook.pdf.furniture import Band

POINTS_PER_MM = 72 / 25.4
SAMPLES = {
    "batch card": batch_card, "station card": station_card, "plating guide": plating_guide, "matrix": matrix, "cover": cover,
}  # fmt: skip
LETTERS = {"contains": "C", "may": "M", "undeclared": "?", "free": "no"}


def bound(*sheets, paper="a4", **options):
    outcome = draw_binder(sheets, THEME, paper, title="Hearth", faces=FACES, **options)
    assert outcome.faults == ()
    return outcome.value.content


def said(value):
    """Every text a sheet's blocks must show, in order, told from the tree alone."""
    match value:
        case tuple():
            return "".join(said(one) for one in value)
        case Run():
            return value.text
        case Mark():
            return value.word if value.kind == "number" else LETTERS.get(value.kind.removesuffix("-leave"), "")
        case Heading():
            return said(value.content) + said(value.aside)
        case Paragraph():
            return said(value.content)
        case Facts():
            return "".join(said(one.term) + said(one.value) for one in value.facts)
        case Table():
            return said(value.head) + said(value.rows)
        case Row():
            return "".join(said(one.content) + said(one.note) for one in value.cells)
        case Steps():
            return "".join(f"{one.number}{said(one.content)}" for one in value.steps)
        case Points():
            return said(value.points)
        case Box():
            return said(value.blocks)
        case Split():
            return said(value.left) + said(value.right)
        case FigureRef():
            return said(value.caption)
        case Rule():
            return ""
    raise AssertionError(value)


def tight(string):
    return "".join(string.replace("\xa0", " ").split())


@pytest.mark.parametrize("paper", ["a4", "letter"])
@pytest.mark.parametrize("name", ["batch card", "station card", "cover"])
def test_a_page_says_all_its_sheet_says_in_order(name, paper):
    made = SAMPLES[name]()
    (page,) = letters(bound(made, paper=paper))
    own = made.text
    expected = tight("Hearth" + said(own.kicker) + said(own.aside) + said(own.title) + said(own.blocks))
    expected += tight(made.fingerprint + "".join(made.foot.lines) + "1 of 1")
    assert page == expected


@pytest.mark.parametrize("paper", ["a4", "letter"])
@pytest.mark.parametrize("name", sorted(SAMPLES))
def test_text_keeps_inside_the_margins_and_over_nine_points(name, paper):
    made = SAMPLES[name]()
    for page in read_pages(bound(made, paper=paper)):
        assert len(page.glyphs) > 50
        binding, clear = 22 * POINTS_PER_MM, 10 * POINTS_PER_MM
        for glyph in page.glyphs:
            assert glyph.size >= 9
            assert glyph.right <= page.width - clear
            assert glyph.bottom >= clear
            assert glyph.left >= (clear if made.text.landscape else binding) - 1.5
            assert glyph.top <= page.height - (binding if made.text.landscape else clear) + 1.5


@pytest.mark.parametrize("paper", ["a4", "letter"])
@pytest.mark.parametrize("name", sorted(SAMPLES))
def test_no_two_letters_stand_on_one_another(name, paper):
    for page in read_pages(bound(SAMPLES[name](), paper=paper)):
        assert collisions(page) == []


def test_the_page_has_the_size_of_its_paper():
    for paper, size in (("a4", (595.28, 841.89)), ("letter", (612, 792))):
        for made, turned in ((batch_card(), False), (matrix(), True)):
            for page in PdfReader(BytesIO(bound(made, paper=paper))).pages:
                width, height = float(page.mediabox.width), float(page.mediabox.height)
                assert (width, height) == pytest.approx(size[::-1] if turned else size, abs=0.01)


HOSTILE = '<b>&amp;</b> <img src="/etc/passwd"/> \\( ) (( \\n %PDF { } {{ x }} [ ] / ~tick~'


def test_hostile_text_is_text():
    run = (Run(text=HOSTILE),)
    blocks = [Paragraph(content=run), Steps(steps=()), Heading(level=2, content=run, aside=run)]
    (page,) = letters(bound(sheet(blocks, title=HOSTILE)))
    assert page.count(tight(HOSTILE)) == 5


def test_a_title_of_forty_words_is_whole():
    title = " ".join(f"word{number}" for number in range(40))
    (page,) = letters(bound(sheet([text("x")], title=title)))
    assert page.count(tight(title)) == 2
    assert collisions(read_pages(bound(sheet([text("x")], title=title)))[0]) == []


def test_a_card_that_runs_on_repeats_its_name_and_counts_its_pages():
    made = sheet([steps(*[f"Step {number}: fold, turn and rest **{number} min**." for number in range(1, 121)])])
    pages = letters(bound(made))
    assert len(pages) >= 3
    for number, page in enumerate(pages, 1):
        assert tight(f"{number} of {len(pages)}") in page
        assert "Smokedshortrib,glazed" in page
        assert ("Smokedshortrib,glazedcontinues" in page) == (number > 1)
    drawn = "".join(pages)
    for number in range(1, 121):
        assert f"Step{number}:fold,turnandrest{number}min." in drawn


def test_a_step_of_two_hundred_lines_is_broken_not_clipped():
    words = " ".join(f"w{number}" for number in range(2500))
    pages = letters(bound(sheet([steps(words)])))
    assert len(pages) >= 4
    drawn = re.sub(r"7F3A91C2issued.*?of\d+HearthSmokedshortrib,glazedcontinues", "", "".join(pages))
    assert tight(words) in drawn


def long_table(rows):
    return Table(
        columns=("amount", "unit", "name", "figure"),
        head=(row("", "", "ingredient", "in all"),),
        rows=tuple(
            one
            for number in range(rows)
            for one in (
                *([row(cell(f"Stage {number // 8}", span=4), heading=True)] if number % 8 == 0 else []),
                row(str(number), "g", cell(f"item {number}", "chopped fine"), f"{number} kg"),
            )
        ),
    )


@pytest.mark.parametrize("rows", [9, 31, 32, 33, 60, 61])
def test_a_table_of_many_rows_repeats_its_head_and_leaves_no_row_alone(rows):
    pages = letters(bound(sheet([long_table(rows)])))
    seen = [re.findall(r"(\d+)gitem(\d+)", page) for page in pages]
    assert [int(one) for page in seen for _, one in page] == list(range(rows))
    for page, found in zip(pages, seen, strict=True):
        assert page.count("ingredient") == 1
        assert len(found) >= 2
        assert not re.search(r"Stage\d+7F3A", page), "a group's head stands alone at the foot"


def test_a_page_of_few_lines_is_set_roomier_than_a_full_one():
    roomy = read_pages(bound(sheet([steps(*["Quarter and rest."] * 3)])))
    full = read_pages(bound(sheet([steps(*["Quarter and rest."] * 33)])))
    assert len(roomy) == len(full) == 1
    assert max(one.size for one in full[0].glyphs if one.text == "Q") < 14
    assert {one.size for one in roomy[0].glyphs if one.text == "Q"} == {14}
    assert min(one.size for one in full[0].glyphs if one.text == "Q") >= 12


def test_the_same_sheets_give_the_same_bytes():
    first = bound(batch_card(), matrix(), station_card())
    again = bound(batch_card(), matrix(), station_card())
    fresh = draw_binder([batch_card(), matrix(), station_card()], THEME, "a4", title="Hearth").value.content
    assert first == again == fresh


def test_a_sheet_is_drawn_the_same_beside_any_other():
    def code(data, page):
        return PdfReader(BytesIO(data)).pages[page].get_contents().get_data()

    alone = bound(batch_card())
    other = bound(sheet([text("½ ⅓ é ñ — “quoted”, Ω")], identity="other"), batch_card())
    assert code(alone, 0) == code(bound(plating_guide(), batch_card()), 1)
    assert len(code(other, 1)) == len(code(alone, 0))


def test_fonts_are_embedded_once_and_no_other_font_is_named():
    reader = PdfReader(BytesIO(bound(*[replace_id(batch_card(), number) for number in range(5)], matrix())))
    fonts = {}
    for page in reader.pages:
        for name, font in page["/Resources"]["/Font"].items():
            fonts[name] = font
    files = [one["/FontDescriptor"]["/FontFile2"] for one in fonts.values()]
    assert len(files) == len(fonts) <= 4
    assert all("Lato" in one["/BaseFont"] for one in fonts.values())


def replace_id(made, number):
    return replace(made, text=replace(made.text, id=f"{made.text.id}-{number}"))


def test_the_document_says_what_it_is():
    reader = PdfReader(BytesIO(bound(batch_card(), language="en-GB")))
    assert reader.metadata.title == "Hearth"
    assert "/CreationDate" not in reader.metadata
    assert reader.trailer["/Root"]["/Lang"] == "en-GB"
    preferences = reader.trailer["/Root"]["/ViewerPreferences"]
    assert preferences["/PrintScaling"] == "/None"
    assert preferences["/DisplayDocTitle"] is not None


def test_the_outline_groups_the_sheets_of_a_dish():
    made = [
        cover(),
        station_card(),
        replace(plating_guide(), bookmark="plating guide"),
        replace(batch_card(), section=""),
    ]
    reader = PdfReader(BytesIO(bound(*made)))

    def titles(entries):
        return [
            titles(one) if isinstance(one, list) else (one.title, reader.get_destination_page_number(one))
            for one in entries
        ]

    dish = "Short rib, celeriac, pickled walnut"
    assert titles(reader.outline) == [
        ("Hearth", 0), (dish, 1), [(dish, 1), ("plating guide", 2)], ("Smoked short rib, glazed", 3),
    ]  # fmt: skip


def test_page_labels_start_anew_with_each_sheet():
    long = sheet([steps(*["Fold and turn, then rest it well covered."] * 90)], identity="long")
    reader = PdfReader(BytesIO(bound(cover(), replace(long, fingerprint="AAAA1111"), batch_card())))
    labels = reader.page_labels
    pages = len(labels) - 2
    assert pages > 1
    assert labels[0] == "7F3A91C2-1"
    assert labels[1 : 1 + pages] == [f"AAAA1111-{number}" for number in range(1, pages + 1)]
    assert labels[-1] == "7F3A91C2-1"


def test_the_contents_lead_to_their_sheets():
    reader = PdfReader(BytesIO(bound(cover(), batch_card(), station_card(), matrix(), plating_guide())))
    page = reader.pages[0]
    notes = [one.get_object() for one in page["/Annots"]]
    assert len(notes) == 4
    named = reader.named_destinations
    places = []
    for one in notes:
        target = one.get("/Dest") or one["/A"]["/D"]
        places.append(reader.get_destination_page_number(named[target]) if isinstance(target, str) else target)
        left, bottom, right, top = map(float, one["/Rect"])
        assert right - left > 300
        assert 10 < top - bottom < 40
    if all(isinstance(one, int) for one in places):
        assert places == [1, 2, 5, 3] or places == [1, 2, len(reader.pages) - 1, 3]
    tops = [float(one["/Rect"][3]) for one in notes]
    assert tops == sorted(tops, reverse=True)


def test_a_row_that_leads_nowhere_has_no_link():
    reader = PdfReader(BytesIO(bound(cover(links=("no-such-sheet",)))))
    assert "/Annots" not in reader.pages[0] or not reader.pages[0]["/Annots"]


def test_an_unknown_paper_is_a_fault_with_a_hint():
    outcome = draw_binder([batch_card()], THEME, "a5", title="x", faces=FACES)
    assert outcome.value is None
    assert outcome.faults[0].code == "LB803"
    assert "a4" in "".join(outcome.faults[0].hints)


def test_a_missing_drawing_is_a_fault():
    outcome = draw_binder([replace(station_card(), figures={})], THEME, "a4", title="x", faces=FACES)
    assert [one.code for one in outcome.faults] == ["LB704"]


def test_what_no_page_takes_is_a_fault():
    tall = " ".join(["Soused-and-smoked-and-pressed-and-glazed"] * 60)
    table = Table(
        columns=("name", *["mark"] * 3),
        head=(row("", *[cell("x" * 200)] * 3),),
        rows=(row("a", "", "", ""),),
        role="matrix",
    )
    outcome = draw_binder([sheet([table], title=tall, landscape=True)], THEME, "a4", title="x", faces=FACES)
    assert outcome.value is None
    assert {one.code for one in outcome.faults} == {"LB804"}
    assert "Soused" in outcome.faults[0].message


@pytest.mark.parametrize("count", [1, 4, 9])
def test_each_line_has_a_band_of_its_own_height(count):
    tops = []
    for position in range(count):
        made = replace(sheet([text("Rest.")]), band=Band(name=f"Line {position}", position=position, count=count))
        page = read_pages(bound(made))[0]
        name = [one for one in page.glyphs if one.size == THEME.styles.band.size]
        assert all(one.left > page.width - 17.5 * POINTS_PER_MM for one in name)
        tops.append(max(one.top for one in name))
    assert tops == sorted(tops, reverse=True)
    assert all(one - other > 30 for one, other in itertools.pairwise(tops))


def test_the_limit_box_is_whole_on_one_page():
    box = Box(role="limit", blocks=(heading("Cool", 3), facts(("at 57 °C", "[blank 4]"), ("2 h", "[blank 4]"))))
    for lead in range(1, 40, 3):
        pages = letters(bound(sheet([steps(*["Rest."] * lead), box])))
        assert len([page for page in pages if "Cool" in page]) == 1
        (page,) = [page for page in pages if "Cool" in page]
        assert "at57°C" in page
        assert "2h" in page
    assert HEARTH.count == 4
