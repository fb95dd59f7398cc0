"""Cutting plans as drawn: to scale, all of it on its sheet, every cut in its place, no figure over another."""

from __future__ import annotations

from fractions import Fraction
from itertools import combinations

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from linebook.figures.cutting import draw_cutting
from linebook.figures.shapes import Label, Polygon
from linebook.model.component import Cut
from linebook.model.cutting import cut_plan, cuts_of
from linebook.source.spans import SourceFile

AT = {"span": SourceFile(path="block", text="").whole(), "spans": {}}
CAPITAL = 0.73
"""How high and how wide a figure of the usual font is, in parts of its size (Lato: 0.72 and 0.58, bold)."""
WIDE = 0.6
SIZES = {"number": 12 * 25.4 / 72, "caption": 10 * 25.4 / 72}


def plan_of(block, piece, kerf=0, edges=0, turned=False):
    sides = [tuple(Fraction(side) for side in pair) for pair in (block, piece)]
    return cut_plan(
        Cut(block=sides[0], piece=sides[1], kerf=Fraction(kerf), edges=Fraction(edges), turned=turned, **AT)
    )


def boxes(drawing):
    """Where each figure is printed: left, top, right, bottom."""
    for one in drawing.shapes:
        if isinstance(one, Label):
            size = SIZES[one.role]
            wide, high = WIDE * size * len(one.text), CAPITAL * size
            x, y = one.at
            yield one, (x - wide / 2, y - high / 2, x + wide / 2, y + high / 2)


def ground(drawing):
    """The block as drawn: the first shape."""
    first = drawing.shapes[0]
    xs, ys = zip(*first.points, strict=True)
    return min(xs), min(ys), max(xs), max(ys)


BLOCKS = st.tuples(st.integers(60, 800), st.integers(60, 800))
PIECES = st.tuples(st.integers(15, 200), st.integers(15, 200))


@settings(max_examples=150, deadline=None)
@given(BLOCKS, PIECES, st.integers(0, 4), st.integers(0, 20), st.booleans())
def test_nothing_is_clipped_and_no_figure_lies_on_another(block, piece, kerf, edges, turned):
    plan = plan_of(block, piece, kerf, edges, turned)
    if not plan.pieces:
        return
    drawing = draw_cutting(plan, alternative="a block")
    for one in drawing.shapes:
        for x, y in one.points if isinstance(one, Polygon) else ():
            assert -0.01 <= x <= drawing.width + 0.01
            assert -0.01 <= y <= drawing.height + 0.01
    told = list(boxes(drawing))
    left, top, right, bottom = ground(drawing)
    for label, box in told:
        assert box[0] >= 0
        assert box[1] >= 0
        assert box[2] <= drawing.width
        assert box[3] <= drawing.height
        outside = box[2] <= left or box[0] >= right or box[3] <= top or box[1] >= bottom
        assert outside, f"{label.text} lies on the block"
    for (one, a), (other, b) in combinations(told, 2):
        apart = a[2] <= b[0] or b[2] <= a[0] or a[3] <= b[1] or b[3] <= a[1]
        assert apart, f"{one.text} and {other.text}"


@settings(max_examples=80, deadline=None)
@given(BLOCKS, PIECES, st.integers(0, 4), st.integers(0, 20), st.booleans())
def test_it_is_to_scale_and_lies_along_the_paper(block, piece, kerf, edges, turned):
    plan = plan_of(block, piece, kerf, edges, turned)
    if not plan.pieces:
        return
    left, top, right, bottom = ground(draw_cutting(plan, alternative="a block"))
    across, down = right - left, bottom - top
    assert across / down == pytest.approx(max(block) / min(block), rel=1e-3)
    assert across <= 100.01
    assert down <= 88.01


def lines(drawing):
    return [one for one in drawing.shapes if isinstance(one, Polygon) and len(one.points) == 2]


@pytest.mark.parametrize(
    ("block", "piece", "kerf", "edges", "turned"),
    [
        ((390, 290), (60, 40), 0, 5, False),
        ((290, 390), (60, 40), 0, 5, False),
        ((530, 325), (90, 60), 2, 5, True),
        ((600, 400), (70, 40), 0, 0, True),
    ],
)
def test_every_cut_is_drawn_where_it_is_made(block, piece, kerf, edges, turned):
    """The numbers are those of the plan, and each cut has a line of its own that runs out of the block to its number."""
    plan = plan_of(block, piece, kerf, edges, turned)
    drawing = draw_cutting(plan, alternative="a block")
    numbers = sorted(int(label.text) for label, _ in boxes(drawing) if label.role == "number")
    assert numbers == list(range(1, max(run.last for run in cuts_of(plan)) + 1))
    left, top, right, bottom = ground(drawing)
    scale = (right - left) / max(block)
    drawn = [
        one
        for one in lines(drawing)
        if one.ink.width >= 0.3 and any(left < x < right and top < y < bottom for x, y in [_middle(one)])
    ]
    assert len(drawn) == len(numbers)
    for cut in drawn:  # each begins at the block's or the squared edge, or at the strip before, and leaves the block
        ends = [left <= x <= right and top <= y <= bottom for x, y in cut.points]
        assert sorted(ends) == [False, True]
    upright = plan.cut.block[1 - plan.along] > plan.cut.block[plan.along]
    strips = next(run for run in cuts_of(plan) if run.stroke.value == "strips")
    at = [(float(place) + edges + kerf / 2) * scale for place in strips.places]
    axis = 0 if upright else 1
    found = sorted(cut.points[0][axis] - (left, top)[axis] for cut in drawn if cut.ink.width == 0.6)
    assert found == pytest.approx(at, abs=0.01)


def _middle(line):
    (a, b), (c, d) = line.points
    return (a + c) / 2, (b + d) / 2


def test_lengths_are_those_of_the_block():
    drawing = draw_cutting(plan_of((390, 290), (60, 40), 0, 5), alternative="a block")
    told = sorted(label.text for label, _ in boxes(drawing) if label.role == "caption")
    assert told == sorted(["390", "290", "5", "60", "20", "5", "40"])


def test_a_kerf_that_can_be_seen_is_drawn_as_wide_as_it_is():
    narrow = draw_cutting(plan_of((100, 60), (30, 20), 1), alternative="a block")
    wide = draw_cutting(plan_of((100, 60), (25, 20), 4), alternative="a block")
    bands = [one for one in wide.shapes if isinstance(one, Polygon) and one.ink.fill == 0.55]
    assert {round(min(_size(one)), 2) for one in bands} == {4.0}  # 100 mm are drawn 100 mm long
    assert {
        round(min(_size(one)), 2) for one in narrow.shapes if isinstance(one, Polygon) and one.ink.fill == 0.55
    } == {1.0}


def _size(polygon):
    xs, ys = zip(*polygon.points, strict=True)
    return max(xs) - min(xs), max(ys) - min(ys)
