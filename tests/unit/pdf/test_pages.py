"""Filling pages: nothing lost, nothing past the foot, no head or row left alone, heads said again."""

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from linebook.pdf.pages import fill, height_of, paginate
from linebook.pdf.pieces import Columns, Context, Frame, Setting, Strip, Words

ROOM = 100.0
LATE = 10000.0


def strip(name, height=10.0, before=0.0, keep=False, context=None):
    words = Words(0, 0, ((Setting("regular", 12, "ink"), str(name)),))
    return Strip(height, (words,), before, keep, context)


def names(page):
    return [
        one.strip.ops[0].pieces[0][1] for one in page.placed if one.strip.ops and isinstance(one.strip.ops[0], Words)
    ]


def all_names(pages):
    return [name for page in pages for name in names(page)]


strips = st.lists(
    st.tuples(st.floats(1, 60), st.floats(0, 12), st.booleans()).map(lambda one: strip("x", *one)),
    min_size=0,
    max_size=40,
)


@settings(max_examples=300, deadline=None)
@given(items=strips, first=st.floats(60, 100))
def test_everything_is_placed_once_in_order_and_inside(items, first):
    items = [one._replace(ops=strip(number).ops) for number, one in enumerate(items)]
    pages = paginate(items, first, ROOM, LATE)
    assert all_names(pages) == [str(number) for number in range(len(items))]
    for number, page in enumerate(pages):
        assert not page.overflows
        assert page.used <= (first if number == 0 else ROOM) + 0.011
        tops = [one.y for one in page.placed]
        assert tops == sorted(tops)
        for one, following in zip(page.placed, page.placed[1:], strict=False):
            assert following.y >= one.y + one.strip.height - 1e-9


@settings(max_examples=200, deadline=None)
@given(items=strips)
def test_what_fits_one_page_takes_one_page(items):
    pages = paginate(items, ROOM, ROOM, LATE)
    assert (len(pages) == 1) == (height_of(items) <= ROOM + 0.01)


@settings(max_examples=200, deadline=None)
@given(items=strips)
def test_what_is_kept_together_is_parted_only_when_taller_than_a_page(items):
    items = [one._replace(ops=strip(number).ops) for number, one in enumerate(items)]
    pages = [names(page) for page in paginate(items, ROOM, ROOM, LATE)]
    where = {name: number for number, page in enumerate(pages) for name in page}
    chain = []
    for number, item in enumerate(items):
        chain.append(number)
        if not item.keep or number == len(items) - 1:
            if height_of([items[one] for one in chain]) <= ROOM:
                assert len({where[str(one)] for one in chain}) == 1
            chain = []


def test_a_page_starts_without_the_space_above():
    pages = paginate([strip(1, 95), strip(2, 10, before=30)], ROOM, ROOM, LATE)
    assert [one.y for one in pages[1].placed] == [0]


def table(rows, height=10.0):
    head = (strip("head", 12, keep=True),)
    context = Context(head)
    return [*head, *[strip(number, height, context=context, keep=number == rows - 2) for number in range(rows)]]


def test_a_head_is_said_again_on_each_page():
    pages = [names(page) for page in paginate(table(30), ROOM, ROOM, LATE)]
    assert len(pages) > 3
    assert all(page[0] == "head" for page in pages)
    assert [name for page in pages for name in page if name != "head"] == [str(number) for number in range(30)]


def test_no_last_row_stands_alone():
    for rows in range(3, 40):
        last = names(paginate(table(rows), ROOM, ROOM, LATE)[-1])
        assert len([one for one in last if one != "head"]) >= 2


def test_heads_are_said_again_below_many_rows_only():
    below = (strip("below", 12),)
    context = Context((strip("head", 12, keep=True),), below)
    for rows, expected in ((3, 0), (7, 1), (20, 3)):
        items = [*context.head, *[strip(number, context=context) for number in range(rows)], strip("after")]
        pages = paginate(items, ROOM, ROOM, 50.0)
        found = [names(page).count("below") for page in pages]
        assert sum(found) == expected, (rows, found)
        for page in pages:
            assert page.used <= ROOM + 0.01
            if "below" in names(page):
                at = names(page).index("below")
                assert names(page)[at - 1].isdigit()
        assert all_names(pages)[-1] == "after"


def test_a_frame_is_never_cut_when_a_page_takes_it():
    frame = Frame(tuple(strip(number) for number in range(6)), 200, 5, 1)
    pages = paginate([strip("a", 50), frame, strip("z")], ROOM, ROOM, LATE)
    assert [names(page) for page in pages] == [["a"], ["0", "1", "2", "3", "4", "5", "z"]]


@pytest.mark.parametrize("lead", [0, 30, 60, 90])
def test_a_frame_taller_than_a_page_runs_on_framed(lead):
    frame = Frame(tuple(strip(number) for number in range(40)), 200, 5, 1)
    items = [strip("a", lead), frame] if lead else [frame]
    pages = paginate(items, ROOM, ROOM, LATE)
    assert [name for name in all_names(pages) if name != "a"] == [str(number) for number in range(40)]
    for page in pages:
        assert page.used <= ROOM + 0.01
        assert not page.overflows


def test_columns_run_on_side_by_side():
    columns = Columns(
        tuple(strip(f"l{number}") for number in range(25)), tuple(strip(f"r{number}") for number in range(12)), 100
    )
    pages = paginate([columns, strip("z")], ROOM, ROOM, LATE)
    found = all_names(pages)
    assert [one for one in found if one[0] == "l"] == [f"l{number}" for number in range(25)]
    assert [one for one in found if one[0] == "r"] == [f"r{number}" for number in range(12)]
    assert found[-1] == "z"
    for page in pages:
        for one in page.placed:
            assert one.x == (100 if names_of(one).startswith("r") else 0)


def names_of(placed):
    return placed.strip.ops[0].pieces[0][1]


def test_what_no_page_takes_is_told_and_still_drawn():
    pages = paginate([strip("a"), strip("tall", 150), strip("b")], ROOM, ROOM, LATE)
    assert all_names(pages) == ["a", "tall", "b"]
    assert any(page.overflows for page in pages)


def test_a_kept_head_before_a_frame_taller_than_a_page_goes_along():
    frame = Frame(tuple(strip(number) for number in range(30)), 200, 5, 1)
    pages = paginate([strip("a", 30), strip("head", keep=True), frame], ROOM, ROOM, LATE)
    assert all_names(pages)[:2] == ["a", "head"]
    where = {name: number for number, page in enumerate(pages) for name in names(page)}
    assert where["head"] == where["0"]


@settings(max_examples=150, deadline=None)
@given(data=st.data())
def test_mixed_stacks_lose_nothing(data):
    counter = iter(range(10000))

    def one():
        return strip(next(counter), data.draw(st.floats(2, 40)), data.draw(st.floats(0, 8)), data.draw(st.booleans()))

    items = []
    for _ in range(data.draw(st.integers(1, 8))):
        kind = data.draw(st.sampled_from(["strip", "frame", "columns"]))
        if kind == "strip":
            items.append(one())
        elif kind == "frame":
            items.append(Frame(tuple(one() for _ in range(data.draw(st.integers(1, 12)))), 200, 4, 1, before=6))
        else:
            left = tuple(one() for _ in range(data.draw(st.integers(1, 8))))
            right = tuple(one() for _ in range(data.draw(st.integers(0, 8))))
            items.append(Columns(left, right, 90, before=3))
    pages = paginate(items, 80, ROOM, LATE)
    assert sorted(map(int, all_names(pages))) == list(range(next(counter)))
    for number, page in enumerate(pages):
        assert page.used <= (80 if number == 0 else ROOM) + 0.02 or page.overflows
        assert not page.overflows


def test_a_page_always_takes_something():
    filled = fill([strip(1, 500)], ROOM, ROOM, LATE)
    assert filled.placed
    assert not filled.rest
