"""Any sheet at all: whatever the blocks, every letter is on paper, inside the margins and off every other letter."""

from collections import Counter

from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st
from pdf_reading import collisions, read_pages
from pdf_samples import FACES, THEME, sheet
from test_binder import said, tight

from linebook.markup.blocks import (
    Box,
    Cell,
    Fact,
    Facts,
    Heading,
    Mark,
    Paragraph,
    Points,
    Row,
    Rule,
    Run,
    Split,
    Step,
    Steps,
    Table,
)
from linebook.markup.vocabulary import BOX_ROLES, FACT_ROLES, PARAGRAPH_ROLES, TABLE_ROLES
from linebook.pdf.binder import draw_binder
from linebook.pdf.printing import Printing

word = st.text(alphabet="abcdeghkmnopqrsuvxyzé0123456789½-/()&<>°", min_size=1, max_size=14)
sentence = st.lists(word, min_size=1, max_size=25).map(" ".join)
short = st.lists(word, min_size=1, max_size=4).map(" ".join)


def inlines(texts):
    run = st.builds(Run, text=texts, bold=st.booleans(), italic=st.booleans(), quiet=st.booleans(), small=st.booleans())
    mark = st.builds(Mark, kind=st.sampled_from(["tick", "blank", "contains", "may-leave", "undeclared", "free"]), count=st.integers(1, 4), width=st.integers(2, 8))  # fmt: skip
    return st.lists(st.one_of(run, run, mark), min_size=1, max_size=3).map(tuple)


KINDS = st.lists(
    st.sampled_from(["tick", "amount", "unit", "name", "figure", "number", "text"]), min_size=1, max_size=7
)


@st.composite
def tables(draw):
    role = draw(st.sampled_from(TABLE_ROLES))
    kinds = ["name", *["mark"] * draw(st.integers(1, 30))] if role == "matrix" else draw(KINDS)
    cells = st.builds(Cell, content=inlines(short), note=st.one_of(st.just(()), inlines(short)))
    letters = st.builds(Cell, content=st.sampled_from(["contains", "may", "free"]).map(lambda one: (Mark(kind=one),)))

    def row(heading):
        if heading:
            return Row(cells=(draw(cells.map(lambda one: Cell(content=one.content, span=len(kinds)))),), heading=True)
        return Row(cells=tuple(draw(letters if kind == "mark" else cells) for kind in kinds))

    heads = st.builds(Cell, content=short.map(lambda one: (Run(text=one[:20].strip() or "x", bold=True),)))
    head = (Row(cells=tuple(draw(heads) for _ in kinds)),) if draw(st.booleans()) else ()
    rows = tuple(row(draw(st.integers(0, 5)) == 0) for _ in range(draw(st.integers(1, 9))))
    return Table(columns=tuple(kinds), head=head, rows=rows, role=role)


paragraphs = st.builds(Paragraph, content=inlines(sentence), role=st.sampled_from(PARAGRAPH_ROLES))
plain = st.one_of(
    paragraphs,
    st.builds(Heading, level=st.integers(2, 3), content=inlines(short), aside=st.one_of(st.just(()), inlines(short))),
    st.builds(
        Steps,
        steps=st.lists(st.builds(Step, number=st.integers(1, 120), content=inlines(sentence)), max_size=4).map(tuple),
    ),
    st.builds(Points, points=st.lists(paragraphs, max_size=4).map(tuple)),
    st.builds(
        Facts,
        facts=st.lists(st.builds(Fact, term=inlines(short), value=inlines(sentence)), min_size=1, max_size=5).map(
            tuple
        ),
        role=st.sampled_from(FACT_ROLES),
    ),
    st.just(Rule()),
)
flat = st.lists(st.one_of(plain, tables()), min_size=1, max_size=4).map(tuple)
blocks = st.lists(
    st.one_of(
        plain,
        tables(),
        st.builds(Box, blocks=flat, role=st.sampled_from(BOX_ROLES)),
        st.builds(Split, left=flat, right=flat, left_share=st.integers(30, 70)),
    ),
    min_size=1,
    max_size=10,
)


HOW = ({}, {"duplex": True}, {"large": True}, {"half_sheet": True}, {"ink": "saving"})


@settings(max_examples=60, deadline=None, suppress_health_check=list(HealthCheck))
@given(
    blocks=blocks,
    paper=st.sampled_from(["a4", "letter"]),
    how=st.sampled_from(HOW),
    landscape=st.booleans(),
    title=sentence,
)
def test_every_letter_of_any_sheet_is_on_paper_and_off_every_other(blocks, paper, how, landscape, title):
    # a turned sheet in large type has no room for any title over any head; what does not fit is refused, not clipped
    made = sheet(blocks, title=title, landscape=landscape and "large" not in how)
    outcome = draw_binder([made], THEME, Printing(paper=paper, **how), title="t", faces=FACES)
    assert outcome.faults == ()
    pages = read_pages(outcome.value.content)
    assert len(pages) == outcome.value.pages
    drawn = Counter(glyph.text for page in pages for glyph in page.glyphs)
    wanted = Counter(tight(said(tuple(blocks)) + title))
    lost = {letter: count - drawn[letter] for letter, count in wanted.items() if drawn[letter] < count}
    assert lost == {}
    for page in pages:
        assert collisions(page) == []
        for glyph in page.glyphs:
            assert glyph.left > 28
            assert glyph.right < page.width - 28
            assert glyph.bottom > 28
            assert glyph.top < page.height - 28
            assert glyph.size >= 9
