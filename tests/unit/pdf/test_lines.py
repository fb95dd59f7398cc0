"""Line breaking: no character lost or moved, no line too wide, no value parted from its unit."""

import itertools

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from pdf_samples import FACES, THEME, inline

from linebook.markup.blocks import Mark, Run
from linebook.pdf.lines import Kept, LineMaker
from linebook.pdf.theme import Density

OPEN = LineMaker(THEME, FACES, Density(type=1, leading=1, space=1))
STEP = THEME.styles.step


def lines_of(content, width, style=STEP):
    return OPEN.lines(OPEN.words(content, style), width)


def text_of(line):
    """The text of a line from left to right, marks as a star."""
    stretches = [(x, "".join(text for _, text in pieces)) for x, pieces in line.runs] + [
        (x, stars(mark)) for x, _, mark in line.marks
    ]
    return "".join(text for _, text in sorted(stretches))


def stars(mark):
    return "*" * (mark.count if mark.kind == "tick" else 1)


def squeezed(content):
    return "".join(one.text if isinstance(one, Run) else stars(one) for one in content).translate(
        dict.fromkeys(map(ord, " \n\t"))
    )


words = st.text(alphabet="abcdeé0129½-/.,'“”—<>&°C", min_size=0, max_size=12)
runs = st.builds(
    Run, text=st.lists(words, max_size=12).map(" ".join), bold=st.booleans(), italic=st.booleans(),
    quiet=st.booleans(), small=st.booleans(),
)  # fmt: skip
marks = st.builds(Mark, kind=st.sampled_from(["tick", "blank", "contains", "free"]), count=st.integers(1, 3))
contents = st.lists(runs | marks, max_size=6).map(tuple)


@settings(max_examples=300, deadline=None)
@given(content=contents, width=st.sampled_from([40.0, 90.0, 200.0, 480.0]))
def test_every_character_stands_once_and_in_order(content, width):
    drawn = "".join(text_of(line) for line in lines_of(content, width))
    assert drawn.replace(" ", "") == squeezed(content)


@settings(max_examples=200, deadline=None)
@given(
    content=contents.filter(lambda one: not any(isinstance(each, Mark) for each in one)),
    width=st.sampled_from([60.0, 200.0, 480.0]),
)
def test_no_line_is_wider_than_its_measure(content, width):
    for line in lines_of(content, width):
        assert line.width <= width + 0.05
        reach = max(
            (x + sum(FACES[one.face].width(text) * one.size for one, text in pieces) for x, pieces in line.runs),
            default=0,
        )
        assert reach == pytest.approx(line.width, abs=0.6) or reach <= line.width


@settings(max_examples=100, deadline=None)
@given(content=contents)
def test_spaces_stay_single_and_only_where_there_was_one(content):
    joined = "".join(one.text if isinstance(one, Run) else stars(one) for one in content)
    together = " ".join(text_of(line).strip() for line in lines_of(content, 100000.0))
    assert together.split(" ") == joined.split() or together == ""


def test_lines_are_filled_greedily():
    content = inline("one two three four five six seven eight nine ten fourteen")
    width = 120.0
    broken = lines_of(content, width)
    for line, following in itertools.pairwise(broken):
        first = text_of(following).split(" ")[0]
        assert line.width + FACES["regular"].width(" " + first) * 14 > width


@pytest.mark.parametrize("unit", ["kg", "L", "°C", "min", "pieces", "h", "third-pan", "%"])
def test_a_value_never_parts_from_its_unit(unit):
    for lead in range(1, 60):
        content = inline("x" * lead + f" then 12 {unit} of it goes in")
        for line in lines_of(content, 220.0):
            assert not text_of(line).rstrip().endswith("12")


def test_a_no_break_space_does_not_break():
    for lead in range(1, 60):
        for line in lines_of(inline("x" * lead + " **9\xa0minutes** later"), 200.0):
            text = text_of(line)
            assert ("9" in text) == ("minutes" in text)


def test_a_bold_word_keeps_the_stop_after_it():
    for lead in range(1, 60):
        for line in lines_of(inline("x" * lead + " until **done**. Then"), 160.0):
            assert not text_of(line).startswith(".")


def test_a_word_wider_than_the_line_is_cut_not_clipped():
    long = "Rhababermarmelade" * 12
    broken = lines_of(inline(long), 150.0)
    assert len(broken) > 3
    assert "".join(map(text_of, broken)) == long
    assert all(line.width <= 150.01 for line in broken)


def test_a_word_is_broken_at_its_hyphen_before_anywhere_else():
    broken = lines_of(inline("with some well-seasoned-and-rested dough"), 130.0)
    assert any(text_of(line).rstrip().endswith("-") for line in broken)
    assert all(line.width <= 130.01 for line in broken)


def test_numbers_in_a_range_are_not_broken_at_the_dash():
    for lead in range(1, 50):
        for line in lines_of(inline("x" * lead + " 10-12 turns"), 150.0):
            assert not text_of(line).rstrip().endswith("10-")


def test_safety_styles_are_never_grey_nor_small():
    loud = Run(text="nuts", quiet=True, small=True)
    for style in (THEME.styles.strong_fact, THEME.styles.verdict, THEME.paragraphs["safety"], THEME.styles.step):
        setting = OPEN.setting(style, loud)
        assert setting.ink == "ink"
        assert setting.size >= 12
    assert OPEN.setting(THEME.styles.figure, loud).ink == "quiet"


@pytest.mark.parametrize("density", THEME.densities)
def test_no_density_goes_under_a_floor(density):
    maker = LineMaker(THEME, FACES, density)
    for style in (
        THEME.styles.step,
        THEME.styles.amount,
        THEME.styles.name,
        THEME.styles.verdict,
        THEME.paragraphs["safety"],
    ):
        assert maker.size(style) >= 12
        assert maker.leading(style) >= 1.1 * maker.size(style)
    assert maker.size(THEME.styles.foot) >= 9
    assert maker.size(THEME.styles.note) >= 9


def test_a_mark_longer_than_its_line_is_made_to_fit():
    ticks = (Mark(kind="tick", count=9),)
    broken = lines_of(ticks, 60.0)
    assert sum(mark.count for line in broken for _, _, mark in line.marks) == 9
    assert all(line.width <= 60.01 for line in broken)
    (line,) = lines_of((Mark(kind="blank", width=40),), 60.0)
    assert 40 < line.width <= 60


def test_no_very_short_word_stands_alone_on_the_last_line():
    for lead in range(1, 60):
        broken = lines_of(inline("x" * lead + " and the tap as cold as the tap gives it."), 200.0)
        if len(broken) > 1:
            assert text_of(broken[-1]).strip() != "it."
        assert all(line.width <= 200.01 for line in broken)


@settings(max_examples=150, deadline=None)
@given(
    content=contents,
    style=st.sampled_from(["cell", "fact", "step", "note", "name", "column", "title"]),
    order=st.permutations(range(len(THEME.densities))),
    along=st.booleans(),
    width=st.sampled_from([40.0, 90.0, 200.0]),
)
def test_what_densities_lend_each_other_is_what_each_would_make_alone(content, style, order, along, width):
    kept, style = Kept(), getattr(THEME.styles, style)
    for at in order:
        lent = LineMaker(THEME, FACES, THEME.densities[at], kept)
        alone = LineMaker(THEME, FACES, THEME.densities[at])
        one, other = (maker.words(content, style, along=along) for maker in (lent, alone))
        assert one == other
        assert lent.lines(one, width) == alone.lines(other, width)
        assert (one.natural, one.least) == (other.natural, other.least)
