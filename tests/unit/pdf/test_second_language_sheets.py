"""Any sheet in two languages: every letter of both is on paper, off every other, inside the margins, never under 9 pt."""

from collections import Counter
from dataclasses import fields, is_dataclass, replace

from hypothesis import HealthCheck, Phase, given, settings
from hypothesis import strategies as st
from pdf_reading import collisions, read_pages
from pdf_samples import FACES, THEME, sheet
from test_any_sheet import blocks
from test_binder import said, tight

from linebook.markup.blocks import Run, Second, Table
from linebook.pdf.binder import draw_binder
from linebook.pdf.printing import Printing

LONG, SHORT = 10_000, 8


def in_two(value, seconds, most=LONG):
    """Return a tree in which lines with words also say them in a second language: the same letters turned round."""
    if isinstance(value, Table):  # a head over a mark is one line, however long
        head, rows = in_two(value.head, seconds, SHORT), in_two(value.rows, seconds, most)
        return replace(value, head=head, rows=rows)
    if isinstance(value, tuple):
        runs = [one for one in value if isinstance(one, Run)]
        if not runs:
            return tuple(in_two(one, seconds, most) for one in value)
        words = "ñu " + "".join(run.text for run in runs)[::-1][:most]
        seconds.append(words)
        bold = replace(runs[0], text=words, quiet=False, small=False)
        return (*value, Second(content=(bold,), lang="es"))
    if is_dataclass(value) and not isinstance(value, (Run, type)):
        return replace(value, **{one.name: in_two(getattr(value, one.name), seconds, most) for one in fields(value)})
    return value


@settings(
    max_examples=40,
    derandomize=True,
    deadline=None,
    suppress_health_check=list(HealthCheck),
    phases=[Phase.explicit, Phase.generate],
)
@given(blocks=blocks, paper=st.sampled_from(["a4", "letter"]), landscape=st.booleans(), large=st.booleans())
def test_every_letter_of_both_languages_is_on_paper(blocks, paper, landscape, large):
    seconds = []
    both = in_two(tuple(blocks), seconds)
    outcome = draw_binder(
        [sheet(both, title="Salt", landscape=landscape)],
        THEME,
        Printing(paper=paper, large=large),
        title="t",
        faces=FACES,
    )
    assert outcome.faults == ()
    pages = read_pages(outcome.value.content)
    drawn = Counter(glyph.text for page in pages for glyph in page.glyphs)
    wanted = Counter(tight(said(tuple(blocks)) + "Salt" + "".join(seconds)))
    assert {letter: count - drawn[letter] for letter, count in wanted.items() if drawn[letter] < count} == {}
    for page in pages:
        assert collisions(page) == []
        for glyph in page.glyphs:
            assert glyph.left > 28
            assert glyph.right < page.width - 28
            assert glyph.bottom > 28
            assert glyph.top < page.height - 28
            assert glyph.size >= 9
