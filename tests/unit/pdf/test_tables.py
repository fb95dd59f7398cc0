"""Tables on the page: amounts level with their units, names whole, marks told apart, heads upright in their columns."""

import itertools

import pytest
from pdf_reading import collisions, letters, picture, read_pages
from pdf_samples import (
    ALLERGENS,
    DISHES,
    FACES,
    THEME,
    batch_card,
    cell,
    facts,
    inline,
    matrix,
    row,
    sheet,
    text,
)

from linebook.markup.blocks import Cell, Mark, Row, Table
from linebook.pdf.binder import draw_binder
from linebook.pdf.columns import place_columns
from linebook.pdf.layout import Layout

LAYOUT = Layout(THEME, FACES, THEME.densities[0])
MEASURE = 476.0


def drawn(*blocks, **options):
    outcome = draw_binder([sheet(blocks, **options)], THEME, "a4", title="t", faces=FACES)
    assert outcome.faults == ()
    return outcome.value.content


def table(*rows, columns=("amount", "unit", "name"), head=(), role="ingredients"):
    return Table(columns=columns, head=head, rows=rows, role=role)


def runs(data, wanted, page=0):
    """Left and right of each place where ``wanted`` is drawn, letter after letter on one line."""
    glyphs = read_pages(data)[page].glyphs
    found = []
    for at in range(len(glyphs) - len(wanted) + 1):
        piece = glyphs[at : at + len(wanted)]
        if "".join(one.text for one in piece) == wanted:
            found.append((piece[0].left, piece[-1].right, piece[0].bottom))
    return found


def test_amounts_end_at_one_edge_and_units_start_at_one():
    data = drawn(table(row("7", "g", "salt"), row("1234", "kg", "flour"), row("16.5", "L", "stock")))
    rights = [runs(data, one)[0][1] for one in ("7", "1234", "16.5")]
    assert max(rights) - min(rights) < 1.2
    lefts = [runs(data, one)[0][0] for one in ("gsalt", "kgflour", "Lstock")]
    assert max(lefts) - min(lefts) < 1.5
    assert min(lefts) - max(rights) < 8


def test_figures_are_right_aligned():
    made = table(
        row("7", "g", "salt", "9 kg"), row("8", "g", "rye", "1234 kg"), columns=("amount", "unit", "name", "figure")
    )
    data = drawn(made)
    assert abs(runs(data, "9kg")[0][1] - runs(data, "1234kg")[0][1]) < 0.6


@pytest.mark.parametrize("role", ["ingredients", "elements"])
def test_a_note_stands_beside_where_it_fits(role):
    beside = drawn(table(row("7", "g", cell("salt", "coarse")), role=role))
    assert abs(runs(beside, "salt")[0][2] - runs(beside, "coarse")[0][2]) < 1.5


def test_a_note_too_long_for_the_line_runs_on_under_the_name():
    note = "cut across the grain in pieces as thick as a thumb and patted dry on both sides"
    data = drawn(table(row("7", "kg", cell("brisket", note), "12 kg"), columns=("amount", "unit", "name", "figure")))
    assert note.replace(" ", "") in letters(data)[0]
    (page,) = read_pages(data)
    assert collisions(page) == []


def test_columns_fill_the_measure_and_keep_their_order():
    made = table(
        row("[tick 2]", "8.4", "kg", cell("beef short rib, bone in", "silverskin off"), "16.8 kg", "14 kg"),
        columns=("tick", "amount", "unit", "name", "figure", "figure"),
    )
    placed = place_columns(LAYOUT, made, MEASURE)
    assert placed[-1].right == pytest.approx(MEASURE)
    for one, following in itertools.pairwise(placed):
        assert following.left >= one.right


@pytest.mark.parametrize("width", [120.0, 200.0, 300.0, 476.0])
@pytest.mark.parametrize("figures", [0, 3, 6])
def test_columns_never_pass_the_measure(width, figures):
    columns = ("tick", "amount", "unit", "name", *["figure"] * figures, "text")
    cells = [
        "[tick 3]",
        "12345",
        "pieces",
        "a name of several long words, butchered",
        *["1234.5 kg"] * figures,
        "some words of note",
    ]
    placed = place_columns(LAYOUT, table(row(*cells), columns=columns), width)
    assert placed[-1].right <= width + 0.01
    assert all(one.width >= 0 for one in placed)
    assert placed[3].width > 0


def test_a_crowded_table_still_says_everything():
    columns = ("tick", "amount", "unit", "name", *["figure"] * 5)
    made = table(
        *[row("[tick 4]", "12345", "pieces", cell(f"name{number} of long words", "and a note"), *[f"{number}234.5 kg"] * 5) for number in range(6)],
        columns=columns,
        head=(row("", cell("each load", span=2), "ingredient", *[cell("nights", "of 150")] * 5),),
    )  # fmt: skip
    data = drawn(made)
    (page,) = letters(data)
    for number in range(6):
        assert f"name{number}oflongwordsandanote" in page
        assert page.count(f"{number}234.5kg") == 5
    assert page.count("nights") == 5
    assert page.count("of150") == 5
    assert collisions(read_pages(data)[0]) == []


def test_a_group_is_headed_again_on_the_next_page():
    rows = [
        row(cell("Brine", "Thu 15:30", span=3), heading=True),
        *[row(str(number), "g", f"salt {number}") for number in range(60)],
    ]
    pages = letters(drawn(table(*rows, head=(row(cell("each load", span=2), "what"),))))
    assert len(pages) == 2
    assert all(page.count("BrineThu15:30") == 1 for page in pages)


def test_an_amount_in_words_takes_both_columns():
    data = drawn(table(row("7", "g", "salt"), row(cell("to taste", span=2), "vinegar")))
    assert len(runs(data, "totaste")) == 1
    assert runs(data, "vinegar")[0][0] > runs(data, "totaste")[0][1]


def test_labels_of_facts_end_at_one_edge():
    data = drawn(facts(("Contains", "milk"), ("May contain", "fish"), ("Undeclared", "soy"), role="allergens"))
    rights = [runs(data, one)[0][1] for one in ("Contains", "Maycontain", "Undeclared")]
    assert max(rights) - min(rights) < 1.2
    lefts = [runs(data, one)[0][0] for one in ("milk", "fish", "soy")]
    assert max(lefts) - min(lefts) < 1.5


# -- the matrix


def test_every_cell_of_a_matrix_says_its_mark_in_letters():
    pages = letters(drawn_matrix(matrix()))
    want = {"n": "no", "C": "C", "M": "M", "?": "?", "c": "C", "m": "M", "u": "?"}
    for name, marks in DISHES:
        if marks:
            assert name.replace(" ", "") + "".join(want[one] for one in marks) in "".join(pages)


def drawn_matrix(made, paper="a4"):
    outcome = draw_binder([made], THEME, paper, title="t", faces=FACES)
    assert outcome.faults == ()
    return outcome.value.content


@pytest.mark.parametrize("paper", ["a4", "letter"])
@pytest.mark.parametrize("landscape", [True, False])
def test_heads_stand_upright_inside_their_columns(paper, landscape):
    data = drawn_matrix(matrix(landscape=landscape), paper)
    for number, page in enumerate(read_pages(data)):
        heads = [runs_turned(page, name.replace(" ", "")) for name in ALLERGENS]
        assert all(len(one) == (1 if landscape or number else len(heads[0])) for one in heads), number
        spans = [one[0] for one in heads]
        for (_, right), (left, _) in itertools.pairwise(spans):
            assert left > right + 2
        assert max(right - left for left, right in spans) < 18


def runs_turned(page, wanted):
    """Left and right of each place where ``wanted`` runs upwards."""
    found = []
    glyphs = page.glyphs
    for at in range(len(glyphs) - len(wanted) + 1):
        piece = glyphs[at : at + len(wanted)]
        if "".join(one.text for one in piece) == wanted and piece[-1].bottom - piece[0].bottom > 8:
            found.append((min(one.left for one in piece), max(one.right for one in piece)))
    return found


def many(count):
    return [(f"Dish {number}", "nCM?cmu"[number % 7 :] + "n" * 15) for number in range(count)]


def test_a_long_matrix_says_its_heads_on_every_page_and_below_many_rows():
    dishes = [(name, marks[: len(ALLERGENS)]) for name, marks in many(60)]
    data = drawn_matrix(matrix(dishes=dishes, landscape=False))
    pages = read_pages(data)
    assert len(pages) >= 3
    for page in pages[:-1]:
        assert len(runs_turned(page, "celery")) == 2
    drawn_text = "".join(letters(data))
    for number in range(60):
        assert drawn_text.count(f"Dish{number}" if number > 9 else f"Dish{number}n") or f"Dish{number}" in drawn_text


def test_a_turned_matrix_of_few_rows_says_its_heads_once():
    for page in read_pages(drawn_matrix(matrix())):
        assert len(runs_turned(page, "celery")) == 1


SERVED = [("Cold", None), ("Oyster", "nCM"), ("Trout", "CCn"), ("From the fire", None), ("Leeks", "n?n")]


def test_courses_stand_beside_the_names_of_their_dishes():
    data = drawn_matrix(matrix(dishes=SERVED, allergens=("fish", "milk", "nuts")))
    (page,) = read_pages(data)
    lefts = [runs(data, name)[0][0] for name in ("Oyster", "Trout", "Leeks")]
    assert max(lefts) - min(lefts) < 1.5
    for course, dish in (("Cold", "Oyster"), ("Fromthefire", "Leeks")):
        ((left, right, bottom),) = runs(data, course)
        assert right < min(lefts)
        assert abs(left - runs(data, "Cold")[0][0]) < 1.5
        assert abs(bottom - runs(data, dish)[0][2]) < 1.5
    assert collisions(page) == []


def test_a_course_that_runs_on_is_said_again_above_the_rest_of_its_dishes():
    dishes = [("Cold", None), *((f"Dish {number}", "nCM") for number in range(60))]
    data = drawn_matrix(matrix(dishes=dishes, allergens=("fish", "milk", "nuts")))
    pages = read_pages(data)
    assert len(pages) > 2
    for number in range(len(pages)):
        assert len(runs(data, "Cold", number)) == 1
    text = "".join(letters(data))
    assert all(f"Dish{number}" in text for number in range(60))


def test_long_courses_stand_above_their_dishes():
    course = "From the hearth, the smoker and the embers"
    dishes = [(course, None), ("Oyster", "n" * 20), ("Trout", "C" * 20)]
    data = drawn_matrix(matrix(dishes=dishes, allergens=[f"avoid {number}" for number in range(20)]))
    bottom = runs(data, course.replace(" ", ""))[0][2]
    assert bottom > runs(data, "Oyster")[0][2] + 8


def test_a_matrix_of_too_many_columns_is_cut_into_two_tables():
    names = [f"avoidance {number}" for number in range(40)]
    dishes = [("Cured trout on rye", "nCM?" * 10), ("Oyster", "CCnn" * 10)]
    data = drawn_matrix(matrix(dishes=dishes, allergens=names))
    pages = letters(data)
    joined = "".join(pages)
    assert joined.count("Curedtroutonrye") == 2
    for name in names:
        assert name.replace(" ", "") in joined
    for page in read_pages(data):
        assert max(one.right for one in page.glyphs) <= page.width - 28
        assert collisions(page) == []


KINDS = ["contains", "may", "undeclared", "free", "contains-leave", "may-leave", "undeclared-leave"]


def test_no_two_marks_look_alike_even_in_grey():
    pictures = []
    for kind in KINDS:
        made = Table(
            columns=("mark", "text"),
            head=(),
            rows=(Row(cells=(Cell(content=(Mark(kind=kind, word=kind),)), cell("x"))),),
            role="list",
        )
        image = picture(drawn(made), scale=2.0)
        pictures.append(image.crop((124, 150, 300, 260)))
    for at, one in enumerate(pictures):
        for other in pictures[at + 1 :]:
            first, second = one.tobytes(), other.tobytes()
            differing = sum(abs(a - b) > 96 for a, b in zip(first, second, strict=True))
            assert differing > 40


def test_the_word_of_a_mark_is_not_drawn():
    data = drawn(text("[contains] [tick 3] [blank 4] end"))
    (page,) = letters(data)
    assert "Cend" in page
    assert "totick" not in page
    assert "towrite" not in page


def test_a_mark_is_as_tall_as_its_line():
    data = drawn(text("[contains] " * 40), text("[number 12] " * 40))
    assert collisions(read_pages(data)[0]) == []


def test_nothing_but_the_band_stands_in_the_outer_margin():
    image = picture(drawn(*batch_card().text.blocks), scale=2.0)
    width, height = image.size
    outer = image.crop((width - (28 * 2), 0, width, height))
    assert min(outer.tobytes()) == 255
    inner = image.crop((0, 0, (62 * 2) - 2, height))
    assert min(inner.tobytes()) == 255
    band = image.crop((width - (45 * 2), 0, width - (29 * 2), height))
    assert min(band.tobytes()) < 200


def test_inline_shorthand_of_the_samples_is_what_it_seems():
    assert [one.text for one in inline("a **b** c")] == ["a ", "b", " c"]


def test_a_label_of_many_lines_stays_beside_its_value():
    label = "Serve without Walnut crumb, Pickled walnut discs, Celeriac crisp and Leek top crisp in ash"
    for lead in range(20, 40, 2):
        pages = letters(drawn(*[text("Rest.")] * lead, facts((label, "eggs"), ("x", "y"), role="verdicts")))
        assert sum(label.replace(" ", "") + "eggs" in page for page in pages) == 1
        for page in read_pages(drawn(*[text("Rest.")] * lead, facts((label, "eggs"), ("x", "y"), role="verdicts"))):
            assert collisions(page) == []


def test_one_cell_in_columns_of_two_kinds_is_set_in_the_style_of_each():
    again = Cell(content=inline("salt"), note=inline("fine"))
    own = [Cell(content=inline("salt"), note=inline("fine")) for _ in range(4)]
    columns = ("number", "name", "text", "figure")
    assert drawn(table(Row(cells=(again,) * 4), columns=columns)) == drawn(
        table(Row(cells=tuple(own)), columns=columns)
    )
