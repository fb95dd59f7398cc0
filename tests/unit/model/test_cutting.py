"""Blocks cut into pieces: against a cutter that walks along millimetre by millimetre, and against sums done by hand."""

from __future__ import annotations

from fractions import Fraction
from itertools import product

import pytest
from hypothesis import given
from hypothesis import strategies as st

from linebook.model.component import Cut
from linebook.model.cutting import Stroke, blocks_for, cut_plan, cuts_of, too_many_pieces
from linebook.source.spans import SourceFile

AT = {"span": SourceFile(path="block", text="").whole(), "spans": {}}


def cut(block, piece, *, kerf="0", edges="0", turned=False, blocks=1):
    lengths = [tuple(Fraction(str(side)) for side in sides) for sides in (block, piece)]
    return Cut(
        block=lengths[0],
        piece=lengths[1],
        kerf=Fraction(kerf),
        edges=Fraction(edges),
        turned=turned,
        blocks=blocks,
        **AT,
    )


# -- an independent cutter, in whole millimetres


def walk(room, piece, kerf):
    """Cut pieces off a length one by one, as with a knife, until no whole one is left."""
    count, at = 0, 0
    while at + piece <= room:
        count += 1
        at += piece + kerf
    return count


def grid(width, height, piece, kerf):
    return walk(width, piece[0], kerf) * walk(height, piece[1], kerf)


def best_of_two_parts(width, height, piece, kerf):
    """Try each millimetre for one first cut right through, and both ways of laying the pieces on either side of it."""
    ways = (piece, piece[::-1])
    best = max(grid(width, height, way, kerf) for way in ways)
    for at in range(width):
        rest = max(0, width - at - kerf)
        best = max(best, *(grid(at, height, a, kerf) + grid(rest, height, b, kerf) for a, b in product(ways, ways)))
    for at in range(height):
        rest = max(0, height - at - kerf)
        best = max(best, *(grid(width, at, a, kerf) + grid(width, rest, b, kerf) for a, b in product(ways, ways)))
    return best


SIDES = st.integers(min_value=1, max_value=48)
PIECES = st.integers(min_value=1, max_value=20)


@given(SIDES, SIDES, PIECES, PIECES, st.integers(0, 3), st.integers(0, 3))
def test_as_written_the_pieces_lie_one_way(length, width, a, b, kerf, edges):
    plan = cut_plan(cut((length, width), (a, b), kerf=str(kerf), edges=str(edges)))
    inside = (max(0, length - 2 * edges), max(0, width - 2 * edges))
    assert plan.pieces == grid(*inside, (a, b), kerf)


@given(SIDES, SIDES, PIECES, PIECES, st.integers(0, 3), st.integers(0, 3))
def test_turned_none_that_is_parted_in_two_gives_more(length, width, a, b, kerf, edges):
    plan = cut_plan(cut((length, width), (a, b), kerf=str(kerf), edges=str(edges), turned=True))
    inside = (max(0, length - 2 * edges), max(0, width - 2 * edges))
    assert plan.pieces == best_of_two_parts(*inside, (a, b), kerf)
    if len(plan.groups) > 1:  # two parts only where they give more
        assert plan.pieces > max(grid(*inside, (a, b), kerf), grid(*inside, (b, a), kerf))


@given(SIDES, SIDES, PIECES, PIECES, st.integers(0, 3), st.integers(0, 3), st.booleans())
def test_every_square_millimetre_is_accounted_for(length, width, a, b, kerf, edges, turned):
    """The kerf is what is left over by the sums; here it is added up cut by cut."""
    plan = cut_plan(cut((length, width), (a, b), kerf=str(kerf), edges=str(edges), turned=turned))
    whole = length * width
    assert plan.in_pieces + plan.in_edges + plan.in_kerf + plan.in_offcuts == 1
    lost = Fraction(0)
    for run in cuts_of(plan):
        if run.stroke is Stroke.STRIPS:
            lost += sum(min(kerf, plan.width - at) * plan.length for at in run.places)
        elif run.stroke is Stroke.ACROSS:
            group = plan.groups[run.group]
            lost += sum(min(kerf, plan.length - at) * group.width * group.count for at in run.places)
    assert plan.in_kerf * whole == lost
    assert plan.in_pieces * whole == plan.pieces * a * b
    assert min(plan.in_edges, plan.in_offcuts, plan.in_kerf) >= 0
    assert plan.lost == 1 - plan.in_pieces


@given(SIDES, SIDES, PIECES, PIECES, st.integers(0, 3), st.booleans())
def test_nothing_left_over_is_as_large_as_a_piece(length, width, a, b, kerf, turned):
    plan = cut_plan(cut((length, width), (a, b), kerf=str(kerf), turned=turned))
    for one in plan.offcuts:
        along = (a, b) if plan.along == 0 else (b, a)
        assert one.length < along[0] or one.width < along[1] or (turned and len(plan.groups) > 1)


@given(SIDES, SIDES, PIECES, PIECES, st.integers(0, 3), st.integers(0, 3), st.booleans(), st.integers(2, 9))
def test_another_measure_gives_the_same(length, width, a, b, kerf, edges, turned, times):
    one = cut_plan(cut((length, width), (a, b), kerf=str(kerf), edges=str(edges), turned=turned))
    other = cut_plan(
        cut(
            (length * times, width * times),
            (a * times, b * times),
            kerf=str(kerf * times),
            edges=str(edges * times),
            turned=turned,
        )
    )
    assert (other.pieces, other.in_pieces, other.in_kerf) == (one.pieces, one.in_pieces, one.in_kerf)


# -- by hand


def test_a_block_whose_edges_are_squared():
    """390 x 290 less 5 mm all round is 380 x 280: seven strips of 40, each six of 60 with 20 over."""
    plan = cut_plan(cut((390, 290), (60, 40), edges="5"))
    assert (plan.length, plan.width, plan.along) == (380, 280, 0)
    assert [(group.count, group.width, group.pieces, group.length) for group in plan.groups] == [(7, 40, 6, 60)]
    assert (plan.pieces, plan.strips) == (42, 7)
    assert [(one.length, one.width, one.count) for one in plan.offcuts] == [(20, 40, 7)]
    assert plan.in_edges == Fraction(390 * 290 - 380 * 280, 390 * 290)
    assert plan.in_kerf == 0


def test_a_kerf_costs_a_strip():
    """280 mm take six strips of 40 with 2 mm between (250) and one more behind (252), so 28 are left; a seventh is 12 short."""
    plan = cut_plan(cut((390, 290), (60, 40), edges="5", kerf="2"))
    assert plan.pieces == 36
    assert [(one.length, one.width, one.count) for one in plan.offcuts] == [(380, 28, 1), (8, 40, 6)]


def test_a_last_piece_that_ends_with_the_block_needs_no_cut():
    """Three pieces of 30 with 5 between take 100 exactly: two cuts; of 102, a third, and it takes all that is left."""
    exact = cut_plan(cut((100, 30), (30, 30), kerf="5"))
    longer = cut_plan(cut((102, 30), (30, 30), kerf="5"))
    assert [run.places for run in cuts_of(exact)] == [(30, 65)]
    assert [run.places for run in cuts_of(longer)] == [(30, 65, 100)]
    assert exact.pieces == longer.pieces == 3
    assert longer.offcuts == ()


def test_pieces_of_a_part_of_a_millimetre():
    plan = cut_plan(cut((400, 300), ("47.5", "46.5"), edges="10"))
    assert plan.pieces == 48
    assert [(one.length, one.width) for one in plan.offcuts] == [(380, 1)]


def test_the_block_is_parted_in_two_where_that_gives_more():
    """600 x 400 in 70 x 40: 8 by 10 as written, 15 by 5 turned; eight columns and one of turned pieces give 85."""
    assert cut_plan(cut((600, 400), (70, 40))).pieces == 80
    plan = cut_plan(cut((600, 400), (70, 40), turned=True))
    assert plan.pieces == 85
    assert [(group.count, group.pieces, group.turned) for group in plan.groups] == [(8, 10, False), (1, 5, True)]


def test_cuts_are_numbered_edges_first_then_strips_then_across():
    plan = cut_plan(cut((530, 325), (90, 60), edges="5", kerf="2", turned=True))
    runs = [(run.stroke, run.first, run.last) for run in cuts_of(plan)]
    assert runs == [
        (Stroke.EDGES, 1, 4),
        (Stroke.STRIPS, 5, 9),
        (Stroke.ACROSS, 10, 14),
        (Stroke.ACROSS, 15, 17),
    ]


def test_a_long_block_is_cut_along_whichever_way_it_is_typed():
    assert cut_plan(cut((200, 600), (50, 50))).along == 1
    assert cut_plan(cut((600, 200), (50, 50))).along == 0


@pytest.mark.parametrize(("pieces", "blocks", "over"), [(1, 1, 41), (42, 1, 0), (43, 2, 41), (240, 6, 12)])
def test_blocks_for_so_many_pieces(pieces, blocks, over):
    found = blocks_for(cut_plan(cut((390, 290), (60, 40), edges="5")), Fraction(pieces))
    assert found is not None
    assert (found.blocks, found.over, found.pieces) == (blocks, over, blocks * 42)


def test_what_is_made_beyond_need_is_over():
    found = blocks_for(cut_plan(cut((390, 290), (60, 40), edges="5")), Fraction(84), needed=Fraction(50))
    assert found is not None
    assert (found.blocks, found.over) == (2, 34)


def test_a_piece_larger_than_the_block():
    plan = cut_plan(cut((50, 50), (60, 10)))
    assert (plan.pieces, plan.groups, cuts_of(plan)) == (0, (), ())
    assert plan.in_offcuts == 1
    assert blocks_for(plan, Fraction(1)) is None


def test_edges_that_leave_nothing():
    plan = cut_plan(cut((50, 50), (10, 10), edges="30"))
    assert (plan.pieces, plan.in_edges, plan.offcuts) == (0, 1, ())


def test_crumbs_are_refused_before_they_are_counted():
    assert too_many_pieces(cut((3000, 3000), ("0.001", "0.001")))
    assert not too_many_pieces(cut((600, 400), (20, 20)))
