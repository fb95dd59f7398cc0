"""Where a page ends: what is not parted, what is said on the last page, and what stands at the top of one."""

from dataclasses import replace
from itertools import pairwise

import pytest
from pdf_reading import read_pages
from pdf_samples import FACES, THEME, cell, inline, row, set_out, sheet, steps

from linebook.markup.blocks import Cell, Fact, Facts, Mark, Paragraph, Points, Row, Rule, Run, Table
from linebook.pdf.binder import draw_binder
from linebook.pdf.columns import place_columns, style_of, to_write_in
from linebook.pdf.layout import Layout
from linebook.pdf.pages import paginate
from linebook.pdf.pieces import Context, Setting, Strip, Stroke, Words
from linebook.pdf.printing import Printing

LAYOUT = Layout(THEME, FACES, THEME.densities[0])
LATE = 10000.0
ROOM = 100.0
MEASURE = 476.0


def strip(name, height=10.0, *, before=0.0, keep=False, context=None):
    words = Words(0, 0, ((Setting("regular", 12, "ink"), str(name)),))
    return Strip(height, (words,), before, keep, context)


def names(page):
    return [op.pieces[0][1] for one in page.placed for op in set_out(one.strip) if isinstance(op, Words)]


# -- the last page


def test_a_last_page_of_next_to_nothing_takes_from_the_one_before():
    items = [strip(at) for at in range(11)]
    first, last = paginate(items, ROOM, ROOM, LATE)
    assert names(first) == [str(at) for at in range(9)]
    assert names(last) == ["9", "10"]


def test_a_last_page_with_enough_on_it_is_left_alone():
    items = [strip(at) for at in range(12)]
    assert [len(names(page)) for page in paginate(items, ROOM, ROOM, LATE)] == [10, 2]


def test_what_is_kept_together_goes_over_whole():
    items = [*(strip(at) for at in range(7)), strip("head", keep=True), strip("text", 20), strip("end", 6)]
    first, last = paginate(items, ROOM, ROOM, LATE)
    assert names(first) == [str(at) for at in range(7)]
    assert names(last) == ["head", "text", "end"]


def test_it_is_never_paid_for_with_a_page_more():
    items = [strip("a", 95), strip("b", 95), strip("c", 5)]
    assert [names(page) for page in paginate(items, ROOM, ROOM, LATE)] == [["a"], ["b", "c"]]
    whole = [strip("a", 95, keep=True), strip("b", 5), strip("c", 5)]
    assert [names(page) for page in paginate(whole, ROOM, ROOM, LATE)] == [["a", "b"], ["c"]]


# -- what is taller than a page


def test_a_chain_taller_than_a_page_is_not_parted_after_a_head():
    head = Context(())
    group = Context((strip("group"),))
    chain = [
        strip("first", 60, keep=True, context=head),
        strip("group", 10, keep=True, context=head),
        strip("second", 60, keep=True, context=group),
        strip("third", 30, context=group),
    ]
    pages = paginate(chain, ROOM, ROOM, LATE)
    assert [names(page) for page in pages] == [["first"], ["group", "second", "third"]]
    assert not any(page.overflows for page in pages)


def test_a_heading_before_something_taller_than_a_page_stays_with_its_start():
    lines = [strip(at, 9.0) for at in range(20)]
    chain = [strip("before", 50), strip("heading", keep=True), strip("whole", 45, keep=True), strip("more", 50), *lines]
    for page in paginate(chain, ROOM, ROOM, LATE):
        assert names(page)[-1] != "heading"


# -- steps, points and rows


def words(count):
    return " ".join(f"word{at}" for at in range(count))


def lines_of(strips):
    return [len({op.y for op in set_out(one) if isinstance(op, Words)}) for one in strips]


def test_a_step_of_up_to_twelve_lines_is_never_parted():
    twelve = LAYOUT.measure(steps(words(92)), MEASURE, {})
    assert lines_of(twelve) == [12]
    assert len(LAYOUT.measure(steps(words(110)), MEASURE, {})) > 2


def test_a_point_of_up_to_twelve_lines_is_never_parted():
    points = Points(points=(Paragraph(content=(Run(text=words(80)),)),))
    assert len(LAYOUT.measure(points, MEASURE, {})) == 1


def test_a_longer_step_leaves_two_lines_on_either_page():
    strips = LAYOUT.measure(steps(words(150)), MEASURE, {})
    assert lines_of(strips)[0] == lines_of(strips)[-1] == 2


def ties(table):
    """For each row of a table whether the next one is tied to it; without the head."""
    return [one.keep for one in LAYOUT.measure(table, MEASURE, {})][len(table.head) or 1 :]


def plain(*rows):
    return Table(columns=("amount", "unit", "name"), head=(row("", "", "ingredient"),), rows=rows)


def item(name="salt"):
    return row("2", "g", name)


def group(name="Cure"):
    return Row(cells=(cell(name, span=3),), heading=True)


def test_the_first_two_rows_and_the_last_two_stand_together():
    assert ties(plain(item(), item(), item(), item())) == [True, False, True, False]


def test_a_first_row_alone_before_a_group_is_tied_to_the_group():
    rows = ties(plain(item("makes"), group(), item(), item(), item(), item()))
    assert rows == [True, True, True, False, True, False]


def test_a_last_group_of_one_row_takes_the_row_before_it_along():
    assert ties(plain(item(), item(), item(), item(), group(), item())) == [True, False, False, True, True, False]


def test_a_tall_row_may_stand_alone():
    tall = item(words(40))
    assert ties(plain(tall, item(), item(), tall)) == [False, False, False, False]


# -- rules at the top of a page


def strokes_over(page):
    """Rules at the very top of what is on a page."""
    first = page.placed[0].strip
    return [op for op in first.ops if isinstance(op, Stroke) and op.y1 == op.y2 == 0]


@pytest.mark.parametrize("block", [plain(item(), item()), Rule()], ids=["table", "rule"])
def test_a_rule_above_is_left_out_under_the_rule_of_the_head(block):
    items = LAYOUT.measure(block, MEASURE, {})
    (top,) = paginate(items, 500, 500, LATE)
    assert strokes_over(top) == []
    (lower,) = paginate([strip("text"), *items], 500, 500, LATE)
    placed = lower.placed[1].strip
    assert [op for op in placed.ops if isinstance(op, Stroke) and op.y1 == op.y2 == 0]


def test_heads_said_again_have_no_rule_above():
    table = plain(*(item(str(at)) for at in range(60)))
    first, *further = paginate([strip("text"), *LAYOUT.measure(table, MEASURE, {})], 500, 500, LATE)
    assert further
    for page in further:
        assert names(page)[0] == "ingredient"
        assert strokes_over(page) == []
    assert names(first)[0] == "text"


# -- tables to write in


def log(*widths, name="load 1"):
    cells = [
        Cell(content=(Run(text="reads\xa0"), Mark(kind="blank", width=width), Run(text="\xa0°C"))) for width in widths
    ]
    return Table(
        columns=("name", *["text"] * len(widths)),
        head=(),
        rows=(Row(cells=(Cell(content=inline(name)), *cells)),),
        role="log",
    )


def blanks(table):
    return [piece.width for one in table.rows for c in one.cells for piece in c.content if isinstance(piece, Mark)]


def test_blanks_with_room_keep_their_length():
    table = log(4, 4, 3)
    assert to_write_in(LAYOUT, table, MEASURE) is table


def test_blanks_without_room_get_shorter_before_a_line_breaks():
    shorter = to_write_in(LAYOUT, log(6, 6, 6, 3), 470)
    assert blanks(shorter) == [3, 3, 3, 3]
    assert "\xa0" in shorter.rows[0].cells[1].content[0].text


def test_blanks_without_any_room_go_under_their_words_with_their_unit():
    table = to_write_in(LAYOUT, log(4, 4, 4, 4), 330)
    assert blanks(table) == [3, 3, 3, 3]
    assert table.rows[0].cells[1].content[0].text == "reads "
    (one,) = LAYOUT.measure(table, 330, {})[1:]
    drawn = ["".join(text for _, text in op.pieces) for op in set_out(one) if isinstance(op, Words)]
    assert [text.replace("\xa0", " ").strip() for text in drawn] == ["load 1", *["reads", "°C"] * 4]


def test_the_gaps_of_a_table_to_write_in_give_way_before_its_words():
    table = log(3, 3, 3)
    styles = [style_of(LAYOUT, kind, "log") for kind in table.columns]
    words = [LAYOUT.cell_words(one, style, "log") for style, one in zip(styles, table.rows[0].cells, strict=True)]
    wanted, gap = sum(map(LAYOUT.lines.natural, words)), THEME.spaces.column_gap
    for width, left in ((MEASURE, gap), (wanted + 3 * gap * 0.7, gap * 0.7), (wanted, gap * 0.4)):
        columns = place_columns(LAYOUT, table, width)
        assert [two.left - one.right for one, two in pairwise(columns)] == pytest.approx([left] * 3)


def test_a_few_words_are_not_broken_for_a_long_name():
    long = row(words(30), "Station card", "K7F3A91C")
    table = Table(columns=("name", "text", "text"), head=(), rows=(long,), role="contents")
    columns = place_columns(LAYOUT, table, MEASURE)
    for column, said in zip(columns[1:], ("Station card", "K7F3A91C"), strict=True):
        needed = LAYOUT.lines.natural(LAYOUT.lines.words((Run(text=said),), THEME.styles.cell))
        assert column.width == pytest.approx(needed)
    assert columns[0].width > MEASURE / 2


def test_very_many_marks_narrow_the_names_before_the_table_is_cut_in_two():
    def heads(count, width):
        table = Table(
            columns=("name", *["mark"] * count),
            head=(Row(cells=tuple(Cell(content=inline("x")) for _ in range(count + 1))),),
            rows=tuple(
                Row(cells=(Cell(content=inline("d")), *[Cell(content=(Mark(kind="free"),))] * count)) for _ in "ab"
            ),
            role="matrix",
        )
        strips = LAYOUT.measure(replace(table), width, {})
        return sum(one.keep and one.context is None for one in strips)

    letter = 792 - 2 * THEME.margins.side
    assert heads(30, letter) == 1
    assert heads(31, letter) == 2


def upright_rules(strip):
    return [op.x1 for op in strip.ops if isinstance(op, Stroke) and op.x1 == op.x2]


def test_no_rule_runs_through_the_head_of_a_course():
    def course(name):
        return Row(cells=(Cell(content=(Run(text=name),), span=4),), heading=True)

    dish = Row(cells=(Cell(content=inline("a dish")), *[Cell(content=(Mark(kind="free"),))] * 3))
    rows = (course("Cold"), dish, dish, course(words(9)), dish, dish, dish)
    head = Row(cells=tuple(Cell(content=inline("x")) for _ in range(4)))
    table = Table(columns=("name", *["mark"] * 3), head=(head,), rows=(course("note"), *rows), role="matrix")
    strips = LAYOUT.measure(table, 300, {})[1:]
    short, long = (strip for strip in strips if any("word8" in said or said == "Cold" for said in texts_of(strip)))
    assert upright_rules(short)
    assert not [x for x in upright_rules(long) if x < 290]


def texts_of(strip):
    return ["".join(text for _, text in op.pieces) for op in set_out(strip) if isinstance(op, Words)]


def test_what_a_guest_must_avoid_is_never_parted():
    fact = Fact(term=(Run(text=words(12), bold=True),), value=(Run(text=words(50)),))
    verdicts = Facts(facts=(fact, fact), role="verdicts")
    assert len(LAYOUT.measure(verdicts, MEASURE, {})) == 2
    for role in ("safety", "caution"):
        assert len(LAYOUT.measure(Paragraph(content=(Run(text=words(60)),), role=role), MEASURE, {})) == 1
    assert len(LAYOUT.measure(Paragraph(content=(Run(text=words(60)),)), MEASURE, {})) > 1


@pytest.mark.parametrize("count", [36, 44, 52])
def test_a_row_that_no_page_has_room_for_is_cut_however_few_its_lines(count):
    """What is read across the pass, printed large, fills a turned page with fewer lines than a tall row has."""
    said = [f"word{number:02}" for number in range(count)]
    calls = Table(columns=("text",), head=(), rows=(row(cell(" ".join(said))),), role="calls")
    outcome = draw_binder(
        [sheet([calls], landscape=True)], THEME, Printing(paper="a4", large=True), title="t", faces=FACES
    )
    assert outcome.faults == ()
    pages = read_pages(outcome.value.content)
    printed = "".join(glyph.text for page in pages for glyph in page.glyphs)
    assert all(word in printed for word in said)
