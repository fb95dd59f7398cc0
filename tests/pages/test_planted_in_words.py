"""The measuring script finds what is lost, doubled, out of order, too small or badly broken: one planted defect a check."""

from dataclasses import replace

import pytest
from measure_words import measure_words, take
from printed_houses import Sheets, cards_of, demo_sheets
from sheet_words import Beside, Leaf, Line, Unit, leaves

from linebook.markup.blocks import Cell, Heading, Paragraph, Row, Run, Step, Steps, Table
from linebook.pdf import layout, pages, sheets, tables
from linebook.pdf.pieces import Context
from linebook.pdf.printing import Printing

A4 = Printing(paper="a4")


def card(*blocks, title="Smoked short rib, glazed"):
    """A batch card of the demo with other blocks: its own head, foot and band."""
    (one,) = demo_sheets("early-spring").of_kind("batch-card").sheets[:1]
    return replace(one, figures={}, text=replace(one.text, title=(Run(text=title),), blocks=blocks))


def text(words, role="body"):
    return Paragraph(content=(Run(text=words),), role=role)


def heading(words):
    return Heading(level=2, content=(Run(text=words),))


def steps(*texts):
    return Steps(steps=tuple(Step(number=at, content=(Run(text=one),)) for at, one in enumerate(texts, 1)))


def table(rows, *, groups=True):
    made = []
    for at in range(rows):
        if groups and at % 5 == 0:
            made.append(Row(cells=(Cell(content=(Run(text=f"stage {at}"),), span=3),), heading=True))
        made.append(Row(cells=tuple(Cell(content=(Run(text=one),)) for one in (str(at), "g", f"thing {at}"))))
    head = Row(cells=tuple(Cell(content=(Run(text=one),)) for one in ("how much", "unit", "what")))
    return Table(columns=("amount", "unit", "name"), head=(head,), rows=tuple(made))


def words(count, start=0):
    return " ".join(f"word{start + at}" for at in range(count))


def found(printed, expected=None, theme=None):
    """Print sheets, and hold the PDF against what it should say: themselves, unless told."""
    demo = demo_sheets("early-spring")
    own = Sheets(theme or demo.theme, demo.folder, (printed,) if not isinstance(printed, tuple) else printed)
    must = own.sheets if expected is None else (expected,) if not isinstance(expected, tuple) else expected
    return measure_words(own.pdf(A4), cards_of(demo.theme, A4), must)


def checks(*arguments, **options):
    return {one.check for one in found(*arguments, **options)}


PLAIN = (heading("Trim"), text("Lay it down."), steps("Square the ends.", "Weigh every tenth."), table(7))
LONG = (heading("Trim"), steps(*(words(60, at * 100) for at in range(20))), table(60), text(words(80)))


def test_what_is_printed_as_it_should_be_has_no_defect():
    assert found((card(*PLAIN), card(*LONG))) == []


# -- words


def test_a_lost_paragraph_is_found():
    (one,) = found(card(PLAIN[0], *PLAIN[2:]), card(*PLAIN))
    assert (one.check, one.what) == ("lost", "`Layitdown.` is not printed before `1 `")


def test_a_lost_word_inside_a_step_is_found():
    spoilt = card(*PLAIN[:2], steps("Square ends.", "Weigh every tenth."), PLAIN[3])
    assert "order" in checks(spoilt, card(*PLAIN))


def test_a_lost_cell_is_found():
    less = replace(PLAIN[3], rows=(*PLAIN[3].rows[:-1], replace(PLAIN[3].rows[-1], cells=PLAIN[3].rows[-1].cells[:2])))
    assert [one.what for one in found(card(*PLAIN[:3], less), card(*PLAIN))] == ["`thing6` is not printed"]


def test_a_doubled_paragraph_is_found():
    (one,) = found(card(*PLAIN, PLAIN[1]), card(*PLAIN))
    assert one.check == "order"
    assert "said twice" in one.what


def test_text_of_no_sheet_is_found():
    assert checks(card(*PLAIN, text("Left over from last week.")), card(*PLAIN)) == {"order"}


def test_text_out_of_order_is_found():
    assert "order" in checks(card(PLAIN[0], PLAIN[2], PLAIN[1], PLAIN[3]), card(*PLAIN))


def test_steps_out_of_order_are_found():
    swapped = Steps(steps=PLAIN[2].steps[::-1])
    assert "order" in checks(card(*PLAIN[:2], swapped, PLAIN[3]), card(*PLAIN))


def test_a_lost_name_is_found():
    assert checks(card(*PLAIN, title="Smoked rib"), card(*PLAIN)) == {"lost", "order"}


def test_another_foot_is_found():
    other = replace(card(*PLAIN), fingerprint="XXXXXXXX")
    assert checks(card(*PLAIN), other) == {"foot"}


def test_a_sheet_that_was_not_printed_is_found():
    one, other = card(*PLAIN), replace(card(*PLAIN), fingerprint="XXXXXXXX")
    assert checks(one, (one, other)) == {"foot"}


def test_a_sheet_too_many_is_found():
    one, other = card(*PLAIN), replace(card(*PLAIN), fingerprint="XXXXXXXX")
    assert checks((one, other), one) == {"foot"}


def test_a_further_page_that_does_not_say_that_it_continues_is_found():
    printed = card(*LONG)
    silent = replace(printed, foot=replace(printed.foot, continues=""))
    assert checks(silent, printed) == {"continues"}


def test_type_under_the_floor_of_its_role_is_found():
    theme = demo_sheets("early-spring").theme
    small = replace(theme.styles.step, size=11.0, least=11.0)
    defects = found(card(*PLAIN), theme=replace(theme, styles=replace(theme.styles, step=small)))
    assert {one.check for one in defects} == {"small"}
    assert all("11.0 pt, and is read at 12 or more" in one.what for one in defects)


# -- where pages end


def spoil_strips(monkeypatch, change):
    """Lay out with every strip of a sheet changed before it is put on pages."""
    fill = sheets.paginate
    monkeypatch.setattr(sheets, "paginate", lambda items, *room: fill(tuple(map(change, items)), *room))


def at_every_height(blocks, theme=None):
    """Print a card under texts of many lengths, so that its page ends everywhere."""
    made = tuple(
        replace(card(*(text(words(9, at)) for at in range(lines)), *blocks), fingerprint=f"AAAAAA{lines:02}")
        for lines in range(12, 36)
    )
    return checks(made, theme=theme)


def test_no_page_ends_badly_at_any_height():
    assert at_every_height((heading("Smoke"), steps(*(words(40, 100 * at) for at in range(5))))) == set()
    assert at_every_height((table(24),)) == set()


def test_a_stranded_heading_is_found(monkeypatch):
    spoil_strips(monkeypatch, lambda strip: strip._replace(keep=False))
    assert "stranded" in at_every_height((heading("Smoke"), steps(*(words(40, 100 * at) for at in range(5)))))


def test_a_row_alone_is_found(monkeypatch):
    spoil_strips(monkeypatch, lambda strip: strip._replace(keep=False))
    assert {"widow", "stranded"} <= at_every_height((table(24),))


def test_a_line_alone_is_found(monkeypatch):
    monkeypatch.setattr(layout, "guarded", lambda strips, before, *_: strips)
    assert "widow" in at_every_height((steps(*(words(120, 100 * at) for at in range(5))),))


def test_a_row_cut_through_is_found(monkeypatch):
    monkeypatch.setattr(tables, "_TALL", 1)
    long_rows = tuple(Row(cells=(Cell(content=(Run(text=words(30, at * 40)),)),)) for at in range(14))
    assert "cut row" in at_every_height((Table(columns=("text",), head=(), rows=long_rows, role="list"),))


def test_a_table_that_runs_on_without_its_heads_is_found(monkeypatch):
    spoil_strips(monkeypatch, lambda strip: strip._replace(context=Context(())) if strip.context else strip)
    assert "heads" in checks(card(table(60)))


def test_a_last_page_of_two_lines_is_found(monkeypatch):
    theme = demo_sheets("early-spring").theme
    one_setting = replace(theme, densities=theme.densities[:1])
    blocks = (steps(*(words(40, 100 * at) for at in range(5))), text("x"), text("y"), text("z"))
    assert at_every_height(blocks, one_setting) == set()
    monkeypatch.setattr(pages, "_LEAST_LAST", 0.0)
    assert at_every_height(blocks, one_setting) == {"nearly empty"}


# -- the reader of words


UNIT = Unit(1, "step")


def leaf(words):
    return Leaf(words, 12.0, UNIT)


def test_words_are_read_in_order_and_beside_one_another():
    node = Line((leaf("ab"), Beside((leaf("cd"), leaf("ef"))), leaf("gh")))
    for word in ("a", "b", "e", "cd", "f", "gh"):
        node, left, read = take(node, word)
        assert left == ""
        assert read
    assert "".join(one.text for one in leaves(node)) == ""


def test_a_word_over_several_leaves_is_read_from_all_of_them():
    node, left, read = take(Line((leaf("ab"), leaf("cd"), leaf("ef"))), "abcde")
    assert (left, [one.text for one in read]) == ("", ["ab", "cd", "ef"])
    assert [one.text for one in leaves(node)] == ["f"]


@pytest.mark.parametrize("word", ["b", "cd", "x"])
def test_what_does_not_come_next_is_not_read(word):
    assert take(Line((leaf("ab"), leaf("cd"))), word) is None


def test_what_is_printed_twice_is_not_read_twice():
    node, _, _ = take(leaf("ab"), "ab")
    assert take(node, "ab") is None
    assert take(Line((leaf("ab"),)), "abab")[1] == "ab"
