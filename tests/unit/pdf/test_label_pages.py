"""Labels on paper, read back: each in its place and inside it, no smaller than the law's floor, nothing left off."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction
from io import BytesIO
from itertools import pairwise

import pytest
from pdf_reading import collisions, letters, read_pages
from pdf_samples import THEME
from pypdf import PdfReader

from linebook.documents.container_labels import ContainerLabel, LabelRun
from linebook.documents.text import Piece, Text, strong, words
from linebook.model.house import LabelSheet
from linebook.pdf.fonts import open_faces
from linebook.pdf.label_pages import LEAST_X_HEIGHT, draw_labels
from linebook.pdf.label_places import label_boxes, label_places, rule_box
from linebook.source.spans import SourceFile

MM = 72 / 25.4
SPAN = SourceFile(path="test", text="").whole()


def sheet_of(size, columns, rows, left, top, beside="0", below="0", paper="a4"):
    length, width = size
    return LabelSheet(
        span=SPAN,
        spans={},
        length=Fraction(length),
        width=Fraction(width),
        columns=columns,
        rows=rows,
        left=Fraction(left),
        top=Fraction(top),
        gap_beside=Fraction(beside),
        gap_below=Fraction(below),
        paper=paper,
    )


BARE = sheet_of(("70", "37"), 3, 8, "0", "0.5")
MARGINS = sheet_of(("63.5", "38.1"), 3, 7, "7.2", "15.1", "2.5")
LETTER = sheet_of(("101.6", "50.8"), 2, 5, "4", "12.7", "4.7", paper="letter")
LETTER_SMALL = sheet_of(("66.7", "25.4"), 3, 10, "4.8", "12.7", "3.2", paper="letter")
TINY = sheet_of(("25", "10"), 7, 27, "10", "13")
SHEETS = {"bare": BARE, "margins": MARGINS, "letter": LETTER, "letter-small": LETTER_SMALL}


def label(number=0, allergens=("milk (cow's milk)",), name="Smoked butter", **changes):
    listed = tuple(Text((Piece(words="Contains", bold=True), Piece(words=f" {one}"))) for one in allergens)
    return ContainerLabel(
        **{
            "component": f"c{number}",
            "name": strong(words(name)),
            "use_by": strong(words("Use by Sat 13 March")),
            "use_by_open": False,
            "made": words("Made Tue 9 March 13:10"),
            "which": words(f"Hearth, 2.7 kg, no{number}"),
            "allergens": listed,
            "initials": words("by"),
            **changes,
        }
    )


def run_of(labels):
    return LabelRun(
        labels=tuple(labels),
        title=words("Harrow Weir: labels for Tue 9 March"),
        measure={length: words(f"Measure this line: {length} mm") for length in (50, 40, 30, 20, 10)},
        hint=words("If it is not, print again at 100 %."),
        parts={
            count: (
                strong(words(f"Allergens on another label: stick on all {count}.")),
                *(words(f"Label {number} of {count} of this container") for number in range(2, count + 1)),
            )
            for count in (2, 3, 4)
        },
    )


def drawn(labels, sheet, start=1):
    outcome = draw_labels(run_of(labels), sheet, THEME, start=start, title="x", language="en")
    assert outcome.value is not None, outcome.faults
    return outcome.value.content


def strokes(content):
    """Every straight line of each page: x1, y1, x2, y2 in points from the lower left corner."""
    pages = []
    for page in PdfReader(BytesIO(content)).pages:
        parts = page.get_contents().get_data().decode("latin-1").split()
        pages.append(
            [
                tuple(float(one) for one in (*parts[at - 3 : at - 1], *parts[at : at + 2]))
                for at in range(3, len(parts) - 3)
                if parts[at - 1] == "m" and parts[at + 2] == "l"
            ]
        )
    return pages


def places_used(content, sheet):
    """The place of each glyph, by page; a glyph in no place and not in the margin for the line fails."""
    found = []
    rule = rule_box(sheet)
    for page in read_pages(content):
        used = {}
        for glyph in page.glyphs:
            top, bottom = page.height - glyph.top, page.height - glyph.bottom
            inside = [
                at
                for at, one in enumerate(label_places(sheet))
                if one.left <= glyph.left
                and glyph.right <= one.left + one.wide
                and one.top <= top
                and bottom <= one.top + one.high
            ]
            if not inside:
                assert rule is not None, glyph
                assert rule.top - 3 <= top, glyph
                assert bottom <= rule.top + rule.high + 3, glyph
                continue
            used.setdefault(inside[0], []).append(glyph)
        found.append((page, used))
    return found


@pytest.mark.parametrize("sheet", SHEETS.values(), ids=SHEETS)
@pytest.mark.parametrize("count", [1, 5, 40])
def test_each_label_is_in_a_place_of_its_own(sheet, count):
    content = drawn([label(at) for at in range(count)], sheet)
    pages = places_used(content, sheet)
    first = 0 if rule_box(sheet) is not None else 1
    per_page = sheet.columns * sheet.rows
    used = [number * per_page + place for number, (_, found) in enumerate(pages) for place in sorted(found)]
    assert used == list(range(first + count)) if first else used == list(range(count))
    for number, place in enumerate(used[first:]):
        glyphs = pages[place // per_page][1][place % per_page]
        assert f"no{number}" in "".join(one.text for one in glyphs)


@pytest.mark.parametrize("sheet", SHEETS.values(), ids=SHEETS)
def test_print_is_clear_of_the_edge_and_of_itself(sheet):
    content = drawn([label(at) for at in range(sheet.columns * sheet.rows)], sheet)
    for page in read_pages(content):
        assert min(one.left for one in page.glyphs) >= 5 * MM - 0.5
        assert max(one.right for one in page.glyphs) <= page.width - 5 * MM + 0.5
        assert min(one.bottom for one in page.glyphs) >= 5 * MM - 1
        assert max(one.top for one in page.glyphs) <= page.height - 5 * MM + 0.5
        assert not collisions(page)
    for page, lines in zip(read_pages(content), strokes(content), strict=True):
        for x1, y1, x2, y2 in lines:
            assert min(x1, x2) >= 5 * MM - 0.5
            assert max(x1, x2) <= page.width - 5 * MM + 0.5
            assert min(y1, y2) >= 5 * MM - 1
            assert max(y1, y2) <= page.height - 5 * MM + 1


@pytest.mark.parametrize("sheet", SHEETS.values(), ids=SHEETS)
def test_the_line_to_measure_is_fifty_millimetres(sheet):
    (lines,) = strokes(drawn([label()], sheet))
    longest = max(abs(x2 - x1) for x1, y1, x2, y2 in lines if y1 == y2)
    assert longest / MM == pytest.approx(50, abs=0.01)
    ticks = sorted(x1 for x1, y1, x2, y2 in lines if x1 == x2)
    assert [round((after - before) / MM, 1) for before, after in pairwise(ticks)] == [10.0] * 5


def test_viewers_are_told_not_to_scale():
    reader = PdfReader(BytesIO(drawn([label()], BARE)))
    assert reader.trailer["/Root"]["/ViewerPreferences"]["/PrintScaling"] == "/None"
    width, height = (float(one) / MM for one in reader.pages[0].mediabox[2:])
    assert (round(width, 1), round(height, 1)) == (210.0, 297.0)


@pytest.mark.parametrize("start", [1, 2, 9, 24])
def test_a_used_sheet_is_begun_where_it_is_left(start):
    content = drawn([label(at) for at in range(3)], BARE, start)
    pages = places_used(content, BARE)
    used = [number * 24 + place for number, (_, found) in enumerate(pages) for place in sorted(found)]
    assert used == list(range(start - 1, start + 3))


@pytest.mark.parametrize("many", [1, 3, 6, 8])
def test_type_shrinks_to_fit_and_never_under_the_floor(many):
    names = [f"sulphur dioxide and sulphites number {at}" for at in range(many)]
    content = drawn([label(allergens=(", ".join(names),))], BARE)
    x_height = open_faces(THEME).value["regular"].x_height
    sizes = {glyph.size for glyph in read_pages(content)[0].glyphs}
    assert min(sizes) * x_height / MM >= LEAST_X_HEIGHT - 0.001
    printed = letters(content)[0]
    for name in names:
        assert name.replace(" ", "") in printed


def test_the_floor_is_an_x_height_of_its_own_font():
    # Regulation (EU) No 1169/2011, article 13(2): 1.2 mm; by the outline of the font's x, read off the page.
    most = None
    for many in range(10, 160, 5):
        one = label(allergens=(", ".join(["xxxxx"] * many),))
        outcome = draw_labels(run_of([one]), BARE, THEME, start=1, title="x", language="en")
        most = outcome if outcome.value is not None else most
    assert outcome.value is None
    assert most is not None
    tall = [glyph.top - glyph.bottom for glyph in read_pages(most.value.content)[0].glyphs if glyph.text == "x"]
    assert 1.2 - 0.02 <= min(tall) / MM <= 1.3


@pytest.mark.parametrize(("sheet", "many"), [(TINY, 1), (BARE, 60), (LETTER_SMALL, 30)])
def test_what_does_not_fit_is_refused_and_nothing_is_printed(sheet, many):
    long = ", ".join(f"sulphur dioxide and sulphites {at}" for at in range(many))
    run = run_of([label(0), label(1, allergens=(long,), name="Pickled walnut discs")])
    outcome = draw_labels(run, sheet, THEME, start=1, title="x", language="en")
    assert outcome.value is None
    assert {one.code for one in outcome.faults} == {"LB623"}
    assert any("Pickled walnut discs" in one.message for one in outcome.faults)
    assert any("left off" in hint for one in outcome.faults for hint in one.hints)


def test_allergens_that_need_it_have_a_label_of_their_own_and_both_say_so():
    names = [f"sulphur dioxide and sulphites number {at}" for at in range(9)]
    content = drawn([label(0), label(1, allergens=(", ".join(names),)), label(2)], BARE)
    ((_, used),) = places_used(content, BARE)
    assert sorted(used) == [0, 1, 2, 3, 4]
    first, second = ("".join(one.text for one in used[at]) for at in (2, 3))
    assert "Allergensonanotherlabel:stickonall2." in first
    assert "Contains" not in first
    assert "Useby" in first
    assert second.startswith("SmokedbutterLabel2of2ofthiscontainerContains")
    assert all(name.replace(" ", "") in second for name in names)
    assert "no2" in "".join(one.text for one in used[4])


def test_a_word_wider_than_the_label_is_refused():
    outcome = draw_labels(run_of([label(name="W" * 60)]), BARE, THEME, start=1, title="x", language="en")
    assert [one.code for one in outcome.faults] == ["LB623"]


def test_a_character_the_font_lacks_is_a_fault():
    outcome = draw_labels(run_of([label(name="Walnut \u4e00")]), BARE, THEME, start=1, title="x", language="en")
    assert outcome.value is None
    assert "LB801" in {one.code for one in outcome.faults}


def test_an_open_use_by_has_room_to_be_written():
    shut, open_ = drawn([label()], MARGINS), drawn([label(use_by_open=True)], MARGINS)
    flat = [[one for one in strokes(content)[0] if one[1] == one[3]] for content in (shut, open_)]
    assert len(flat[1]) == len(flat[0]) + 1
    assert abs(flat[1][-1][2] - flat[1][-1][0]) / MM == pytest.approx(15, abs=0.1)


def test_both_languages_are_printed():
    both = replace(label(), name=words("Smoked butter", "Mantequilla ahumada"))
    printed = letters(drawn([both], BARE))[0]
    assert "Smokedbutter/Mantequillaahumada" in printed


@pytest.mark.parametrize("sheet", SHEETS.values(), ids=SHEETS)
def test_boxes_are_inside_their_labels(sheet):
    for box, place in zip(label_boxes(sheet), label_places(sheet), strict=True):
        assert place.left <= box.left
        assert box.left + box.wide <= place.left + place.wide + 0.01
        assert place.top <= box.top
        assert box.top + box.high <= place.top + place.high + 0.01


def test_the_same_labels_are_the_same_bytes():
    assert drawn([label(at) for at in range(9)], MARGINS) == drawn([label(at) for at in range(9)], MARGINS)
