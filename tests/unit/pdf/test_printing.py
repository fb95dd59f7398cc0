"""Ways of printing: both sides, cards of half a sheet, type for the wall, and inks; on both papers, each time the same."""

import re
from dataclasses import replace
from io import BytesIO

import pytest
from pdf_reading import collisions, letters, picture, read_pages
from pdf_samples import (
    FACES,
    THEME,
    batch_card,
    cell,
    cover,
    matrix,
    plating_guide,
    row,
    sheet,
    station_card,
    steps,
)
from pdf_streams import coloured, fills, operators
from PIL import Image
from pypdf import PdfReader

from linebook.figures.shapes import Picture
from linebook.markup.blocks import Cell, FigureRef, Mark, Split, Table
from linebook.pdf.binder import draw_binder
from linebook.pdf.printing import Printing, printed_theme
from linebook.pdf.square_code import SIDE

MM = 72 / 25.4
SIZES = {"a4": (210 * MM, 297 * MM), "letter": (8.5 * 72, 11 * 72)}
"""ISO 216: A4 is 210 x 297 mm. ANSI/ASME Y14.1: size A is 8.5 x 11 in."""

MODES = {
    "duplex": {"duplex": True},
    "large": {"large": True},
    "half sheet": {"half_sheet": True},
    "grey": {"ink": "grey"},
    "saving": {"ink": "saving"},
}
PAPERS = ["a4", "letter"]


def printed(*sheets, paper="a4", **how):
    outcome = draw_binder(sheets, THEME, Printing(paper=paper, **how), title="Hearth", faces=FACES)
    assert outcome.faults == ()
    return outcome.value.content


def long_card(count=60, identity="long"):
    return sheet([steps(*["Fold and turn, then rest it well covered."] * count)], identity=identity)


def blank_backs(made, text="left blank: the back of it"):
    return replace(made, foot=replace(made.foot, blank=text))


def viewer(data):
    return PdfReader(BytesIO(data)).trailer["/Root"]["/ViewerPreferences"]


# -- both sides


@pytest.mark.parametrize("paper", PAPERS)
def test_with_both_sides_each_sheet_starts_on_the_right_and_a_blank_back_says_so(paper):
    sheets = [cover(), blank_backs(long_card()), batch_card(), blank_backs(matrix()), station_card()]
    sheets[0], sheets[2] = blank_backs(sheets[0]), blank_backs(sheets[2])
    data = printed(*sheets, paper=paper, duplex=True)
    pages = letters(data)
    starts = [at for at, page in enumerate(pages) if re.search(r"1of\d", page)]
    assert len(starts) == len(sheets)
    assert all(at % 2 == 0 for at in starts), "a right-hand page is the first of a leaf"
    blanks = [at for at, page in enumerate(pages) if page == "leftblank:thebackofit"]
    assert blanks
    assert all(at % 2 == 1 for at in blanks)
    assert len(starts) + len(blanks) + sum("continues" in page for page in pages) == len(pages)


def test_the_last_leaf_needs_no_blank_back():
    assert len(letters(printed(blank_backs(batch_card()), duplex=True))) == 1


def test_links_and_labels_lead_past_the_blank_backs():
    sheets = [blank_backs(one) for one in (cover(), batch_card(), station_card(), plating_guide(), matrix())]
    fingerprints = [f"AAAA000{number}" for number in range(len(sheets))]
    sheets = [replace(one, fingerprint=fp) for one, fp in zip(sheets, fingerprints, strict=True)]
    reader = PdfReader(BytesIO(printed(*sheets, duplex=True)))
    labels = reader.page_labels
    assert len(set(labels)) == len(labels) == len(reader.pages)
    for number, label in enumerate(labels):
        text = "".join(reader.pages[number].extract_text().split())
        assert label.split("-")[0] in text or "leftblank" in text
        assert label.endswith("-0") == ("leftblank" in text)
    pages = [one.indirect_reference.idnum for one in reader.pages]
    notes = [one.get_object() for one in reader.pages[0]["/Annots"]]
    assert len(notes) == 4
    for note in notes:
        target = note["/Dest"]
        target = reader.named_destinations[target].dest_array if isinstance(target, str) else target
        page = pages.index(target[0].idnum)
        assert page % 2 == 0
        assert "1of" in "".join(reader.pages[page].extract_text().split())


# -- half a sheet


@pytest.mark.parametrize("paper", PAPERS)
def test_two_cards_stand_on_a_turned_sheet_clear_of_every_edge_they_get(paper):
    across, along = SIZES[paper]
    data = printed(station_card(), batch_card(), long_card(), paper=paper, half_sheet=True)
    clear = 10 * MM
    for page in read_pages(data):
        assert (page.width, page.height) == pytest.approx((along, across), abs=0.1)
        middle = page.width / 2
        for glyph in page.glyphs:
            assert clear <= glyph.bottom <= glyph.top <= page.height - clear
            left = 0.0 if glyph.left < middle else middle
            assert left + clear <= glyph.left
            assert glyph.right <= left + middle - clear
            assert glyph.size >= 9
        assert collisions(page) == []


@pytest.mark.parametrize("paper", PAPERS)
def test_the_marks_to_cut_at_are_in_the_middle_and_out_of_the_text(paper):
    across, along = SIZES[paper]
    data = printed(batch_card(), station_card(), paper=paper, half_sheet=True)
    lines, last = [], None
    for name, operands in operators(data):
        if name == "m":
            last = [float(one) for one in operands]
        elif name == "l" and last:
            lines.append((*last, *(float(one) for one in operands)))
    cuts = [one for one in lines if one[0] == one[2] and abs(one[0] - along / 2) < 0.05]
    pages = len(read_pages(data))
    assert len(cuts) == 2 * pages
    for _, start, _, end in cuts:
        low, high = sorted((start, end))
        assert high - low == pytest.approx(7 * MM, abs=0.05)
        assert high <= 10 * MM + 0.05 or low >= across - 10 * MM - 0.05


def test_a_card_longer_than_a_half_goes_on_in_the_next_half_with_its_running_head():
    data = printed(long_card(40), batch_card(), half_sheet=True)
    text = "".join(letters(data))
    count = int(re.search(r"1of(\d)", text)[1])
    assert count >= 2
    assert text.count("Smokedshortrib,glazedcontinues") >= count - 1
    assert [f"{number}of{count}" in text for number in range(1, count + 1)] == [True] * count
    assert text.count("Foldandturn") == 40


def test_every_card_is_named_though_two_share_a_page():
    made = [replace(batch_card(), fingerprint="AAAA1111", section=""), replace(station_card(), fingerprint="BBBB2222")]
    reader = PdfReader(BytesIO(printed(*made, half_sheet=True)))
    assert reader.page_labels[0].startswith("AAAA1111-1 ")
    assert "BBBB2222-1" in " ".join(reader.page_labels)
    assert reader.outline[0].title == "Smoked short rib, glazed"


@pytest.mark.parametrize("how", [{"half_sheet": True}, {"large": True}])
def test_stacks_too_narrow_to_stand_side_by_side_stand_one_under_the_other(how):
    def lefts(**printing):
        page = read_pages(printed(sheet([split]), **printing))[0]
        return {one.text: one.left for one in page.glyphs if one.text in "ÅØ"}

    split = Split(left=(steps("Å"),), right=(steps("Ø"),), left_share=50)
    side = lefts()
    assert side["Ø"] - side["Å"] > 100
    stacked = lefts(**how)
    assert stacked["Ø"] == pytest.approx(stacked["Å"], abs=1)


# -- the wall


@pytest.mark.parametrize("paper", PAPERS)
@pytest.mark.parametrize("make", [batch_card, station_card, plating_guide, matrix, cover])
def test_type_for_the_wall_is_half_as_large_again_on_the_same_paper(make, paper):
    usual, large = printed(make(), paper=paper), printed(make(), paper=paper, large=True)
    body = "".join(letters(usual))
    pages = read_pages(large)
    for page in pages:
        assert (page.width, page.height) == (read_pages(usual)[0].width, read_pages(usual)[0].height)
        assert collisions(page) == []
        for one in page.glyphs:
            assert 10 * MM <= one.bottom <= one.top <= page.height - 10 * MM
            assert 10 * MM <= one.left <= one.right <= page.width - 10 * MM
    own = make().text
    title = "".join(one.text for one in own.title)
    assert max(one.size for page in pages for one in page.glyphs) == pytest.approx(
        1.5 * max(one.size for page in read_pages(usual) for one in page.glyphs)
    )
    assert title.replace(" ", "") in "".join(letters(large))
    for word in set(re.findall(r"[a-z]{7,}", body)) - {"continues"}:
        assert word in "".join(letters(large))


def test_nothing_but_the_foot_and_the_band_is_small_on_the_wall():
    page = read_pages(printed(station_card(), large=True))[0]
    foot = min(one.bottom for one in page.glyphs) + 40
    band = THEME.styles.band.size
    sizes = {round(one.size, 2) for one in page.glyphs if one.bottom > foot and one.size != band}
    assert min(sizes) >= 12, "the heads of columns, and all else from there up"
    large = printed_theme(THEME, Printing(paper="a4", large=True))
    for name in ("step", "fact", "strong_fact", "amount", "name"):
        assert getattr(large.styles, name).least >= 18


# -- inks


@pytest.mark.parametrize("paper", PAPERS)
@pytest.mark.parametrize("ink", ["grey", "saving"])
def test_without_colour_no_operator_sets_one(ink, paper):
    made = [cover(), station_card(), plating_guide(), batch_card(), matrix()]
    assert coloured(printed(*made, paper=paper)) == ["RG", "rg"] or coloured(printed(*made, paper=paper)) == ["rg"]
    assert coloured(printed(*made, paper=paper, ink=ink)) == []


def photograph():
    """A picture of one strong colour, as a sheet carries it."""
    into = BytesIO()
    Image.new("RGB", (300, 200), (220, 40, 10)).save(into, "JPEG")
    return Picture(content=into.getvalue(), width_px=300, height_px=200, alternative="a red thing")


@pytest.mark.parametrize(
    ("ink", "space"), [("colour", "/DeviceRGB"), ("grey", "/DeviceGray"), ("saving", "/DeviceGray")]
)
def test_a_photograph_is_grey_where_all_else_is(ink, space):
    shown = FigureRef(name="photo", alternative="a red thing")
    made = replace(sheet([shown], figures={"photo": photograph()}), band=None)
    data = printed(made, ink=ink)
    (page,) = PdfReader(BytesIO(data)).pages
    (image,) = page["/Resources"]["/XObject"].values()
    assert image["/ColorSpace"] == space
    assert image["/Subtype"] == "/Image"
    assert coloured(data) == []


def test_saving_ink_fills_nothing_larger_than_a_bullet():
    made = [cover(), station_card(), plating_guide(), batch_card(), matrix()]
    dark = [one for one in fills(printed(*made, ink="grey")) if one.grey < 1 and one.width * one.height > 20]
    assert dark, "the same pages in grey have filled bands, marks and things on plates"
    saved = [one for one in fills(printed(*made, ink="saving")) if one.grey < 1 and one.width * one.height > 20]
    code = (pytest.approx(SIDE, abs=0.1), pytest.approx(SIDE, abs=0.1))
    assert [one for one in saved if (one.width, one.height) != code] == [], "but for the square code of many modules"


def test_saving_ink_is_saved():
    for made in (station_card(), matrix(), plating_guide()):
        usual, saving = (picture(printed(made, ink=ink), scale=1.0) for ink in ("grey", "saving"))
        ink_of = {name: sum(255 - one for one in page.tobytes()) for name, page in (("u", usual), ("s", saving))}
        assert ink_of["s"] < 0.97 * ink_of["u"]


def test_saving_ink_leaves_text_and_bands_where_they_are():
    grey, saving = (read_pages(printed(station_card(), ink=ink))[0] for ink in ("grey", "saving"))
    assert [one.text for one in grey.glyphs] == [one.text for one in saving.glyphs]
    for one, other in zip(grey.glyphs, saving.glyphs, strict=True):
        assert (one.left, one.bottom) == pytest.approx((other.left, other.bottom), abs=1.5)


def test_allergen_marks_stay_apart_when_ink_is_saved():
    kinds = ("contains", "may", "undeclared", "contains-leave", "may-leave", "undeclared-leave", "free")
    seen = {}
    for kind in kinds:
        mark = Cell(content=(Mark(kind=kind, word=kind),))
        table = Table(
            columns=("name", "mark"),
            head=(row("", cell("x")),),
            rows=(row("dish", mark), row("end", "")),
            role="matrix",
        )
        made = replace(sheet([table], landscape=True), band=None)
        seen[kind] = picture(printed(made, ink="saving")).tobytes()
    assert len(set(seen.values())) == len(kinds)
    dark = {kind: sum(255 - one for one in seen[kind]) for kind in kinds}
    assert dark["contains"] > dark["may"] > dark["undeclared"]


# -- all of them


@pytest.mark.parametrize("paper", PAPERS)
@pytest.mark.parametrize("mode", MODES)
def test_each_way_of_printing_gives_the_same_bytes_again(mode, paper):
    def once():
        made = [blank_backs(one) for one in (cover(), station_card(), plating_guide(), batch_card(), matrix())]
        return printed(*made, paper=paper, **MODES[mode])

    assert once() == once()


@pytest.mark.parametrize(
    ("how", "sides"),
    [
        ({}, None),
        ({"duplex": True}, "/DuplexFlipLongEdge"),
        ({"large": True}, "/Simplex"),
        ({"half_sheet": True}, "/Simplex"),
        ({"ink": "saving"}, None),
    ],
)
def test_viewers_are_told_not_to_scale_and_how_many_sides(how, sides):
    preferences = viewer(printed(batch_card(), **how))
    assert preferences["/PrintScaling"] == "/None"
    assert preferences.get("/Duplex") == sides


def test_no_hint_is_given_for_the_backs_of_a_turned_sheet():
    assert "/Duplex" not in viewer(printed(matrix(), duplex=True))
    assert viewer(printed(matrix(), large=True))["/Duplex"] == "/Simplex"


def test_a_paper_alone_is_ordinary_printing():
    alone = draw_binder([batch_card()], THEME, "letter", title="Hearth", faces=FACES).value.content
    assert alone == printed(batch_card(), paper="letter")
    assert printed_theme(THEME, Printing(paper="a4")) is THEME
    assert printed_theme(THEME, Printing(paper="a4", ink="grey", duplex=True)) is THEME


def test_another_size_has_another_name():
    names = [
        Printing(paper="a4", **MODES[mode]).file_name("hearth-binder") for mode in ("duplex", "large", "half sheet")
    ]
    assert names == ["hearth-binder.pdf", "hearth-binder-large.pdf", "hearth-binder-half-sheet.pdf"]
