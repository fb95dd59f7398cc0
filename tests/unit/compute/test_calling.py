"""Calls against an independent search: every portion at every half minute, and laws that every call must keep."""

from __future__ import annotations

from collections import Counter
from dataclasses import replace
from fractions import Fraction
from itertools import product
from random import Random

import pytest
from kitchen_factory import AT, dish, house, listed, menu
from plan_factory import kitchen_line, place

from linebook.compute.calling import compute_call
from linebook.model.amounts import Duration
from linebook.model.dish import PickUp
from linebook.model.house import Climate

HALF = Fraction(1, 2)


def time(minutes):
    return Duration(least=Fraction(minutes), most=Fraction(minutes))


def strand(do, takes, rests=None, *, where=None, at_once=None, line=None):
    rest = None if rests is None else time(rests)
    return PickUp(do=do, takes=time(takes), rests=rest, line=line, where=where, at_once=at_once, **AT)


def kitchen(counts=None, cooks=2, calls=None, **dishes):
    """A house whose dishes have these strands; ``counts`` gives how many of a place there are."""
    plain = {id_: replace(dish(id_), pick_up=tuple(strands)) for id_, strands in dishes.items()}
    plain |= {id_: replace(dish(id_), call=time(minutes)) for id_, minutes in (calls or {}).items()}
    made = house((), (), tuple(plain.values()), [menu("m", [listed(id_) for id_ in plain])])
    wheres = {one.where for found in plain.values() for one in found.pick_up if one.where}
    places = tuple(place(where, Climate.HOT, (counts or {}).get(where)) for where in sorted(wheres))
    lines = tuple(kitchen_line(line, cooks) for line in ("stove", "larder"))
    return replace(made, file=replace(made.file, lines=lines, places=places))


def starts(call):
    return [(go.strand.do, go.portions, go.start, go.waits) for go in call.goes]


# -- by hand


def test_without_a_limit_every_strand_starts_its_own_time_before():
    one = kitchen(hake=[strand("fry", 8, 2), strand("potatoes", Fraction(3, 2))])
    assert starts(compute_call(one, {"hake": 4})) == [("fry", 4, 10, 0), ("potatoes", 4, Fraction(3, 2), 0)]


def test_more_portions_than_fit_go_in_turns_the_fewest_the_earliest():
    one = kitchen(cod=[strand("fry", 4, 1, where="fryer", at_once=3)])
    call = compute_call(one, {"cod": 8})
    assert starts(call) == [("fry", 2, 13, 8), ("fry", 3, 9, 4), ("fry", 3, 5, 0)]
    assert [(go.turn, go.turns, go.off) for go in call.goes] == [(1, 3, 9), (2, 3, 5), (3, 3, 1)]
    assert call.minutes == 13


def test_two_of_a_place_take_twice_as_much():
    one = kitchen({"fryer": 2}, cod=[strand("fry", 4, 1, where="fryer", at_once=3)])
    assert starts(compute_call(one, {"cod": 8})) == [("fry", 2, 9, 4), ("fry", 6, 5, 0)]


def test_dishes_share_a_place():
    one = kitchen(
        dumpling=[strand("boil", 6, 2, where="stove", at_once=8)],
        hake=[strand("fry", 9, 1, where="stove", at_once=8)],
    )
    # 3 of 8 and 5 of 8 fill the stove from -10; two portions of dumplings go in and come out before
    assert starts(compute_call(one, {"dumpling": 7, "hake": 3})) == [
        ("boil", 2, 14, 6),
        ("fry", 3, 10, 0),
        ("boil", 5, 8, 0),
    ]


def test_a_longer_call_elsewhere_lets_portions_wait_less():
    fire = {"where": "fire", "at_once": 1}
    one = kitchen(a=[strand("a", 2, **fire)], b=[strand("b", 3, 4, **fire)], c=[strand("c", 20)])
    alone, beside = compute_call(one, {"a": 1, "b": 1}), compute_call(one, {"a": 1, "b": 1, "c": 1})
    assert alone.minutes == 7
    assert {go.strand.do: go.waits for go in beside.goes} == {"a": 0, "b": 0, "c": 0}


def test_without_a_pick_up_a_dish_has_its_call_and_without_that_nothing():
    one = kitchen(calls={"soup": 5}, bread=[])
    call = compute_call(one, {"soup": 2, "bread": 1})
    assert starts(call) == [(None, 2, 5, 0)]
    assert call.untimed == ("bread",)


def test_more_strands_at_one_moment_than_cooks_is_told():
    one = kitchen(cooks=1, a=[strand("x", 4), strand("y", 3, 1), strand("z", 4, line="larder")])
    (crowd,) = compute_call(one, {"a": 1}).crowds
    assert (crowd.line, crowd.start, crowd.strands, crowd.cooks) == ("stove", 4, 2, 1)


def test_a_banquet_is_answered_at_once():
    fire = {"where": "fire", "at_once": 1}
    one = kitchen(a=[strand("a", 2, **fire)], b=[strand("b", 3, 1, **fire)])
    call = compute_call(one, {"a": 500, "b": 500})
    assert call.minutes in (500 * 2 + 500 * 3, 500 * 2 + 500 * 3 + 1)
    check_laws(one, call, {"a": 500, "b": 500})


# -- laws


def check_laws(house, call, portions):
    """Whatever is asked: all of it is done, all lands at 0, and no place ever holds more than it can."""
    done = Counter()
    for go in call.goes:
        assert go.start - go.strand.takes - go.strand.rests - go.waits == 0
        assert go.waits >= 0
        assert go.off == go.start - go.strand.takes
        done[go.strand.dish, go.strand.number] += go.portions
    assert done == {(id_, n): count for id_, count in portions.items() for n, _ in enumerate(house.dishes[id_].pick_up)}
    for go in call.goes:
        if go.strand.at_once:
            assert filled(call.goes, go.strand.where, go.start) <= 1


def filled(goes, where, moment):
    """Return the part of a place that is full just after a moment."""
    on = (go for go in goes if go.strand.where == where and go.strand.at_once and go.off < moment <= go.start)
    return sum(Fraction(go.portions, go.strand.at_once) for go in on)


def later_by(call, moved, wait):
    """Return whether one portion of a go could wait only so long, all others left where they are."""
    goes = [*call.goes]
    goes.remove(moved)
    if moved.portions > 1:
        goes.append(replace(moved, portions=moved.portions - 1))
    start = moved.strand.takes + moved.strand.rests + wait
    goes.append(replace(moved, portions=1, start=start, waits=wait))
    moments = [go.start for go in goes if go.strand.where == moved.strand.where]
    return all(filled(goes, moved.strand.where, moment) <= 1 for moment in moments)


def random_kitchen(random, most_strands=4):
    def drawn():
        where = random.choice(("fire", "fire", "fryer"))
        return strand(
            "do", Fraction(random.randint(1, 8), 2), random.choice((None, HALF, 1, 2)), where=where,
            at_once=random.randint(1, 4),
        )  # fmt: skip

    names = "abc"[: random.randint(1, 3)]
    strands = {name: [drawn() for _ in range(random.randint(1, max(1, most_strands // len(names))))] for name in names}
    counts = {"fryer": random.choice((None, 2))}
    return kitchen(counts, **strands), names


@pytest.mark.parametrize("seed", range(120))
def test_no_portion_can_land_later_while_the_others_stay(seed):
    random = Random(seed)
    one, names = random_kitchen(random)
    portions = {name: random.randint(1, 9) for name in names}
    call = compute_call(one, portions)
    check_laws(one, call, portions)
    for go in call.goes:
        waits = [HALF * step for step in range(int(go.waits / HALF))]
        assert not any(later_by(call, go, wait) for wait in waits), go


# -- against a search on a grid of half minutes


def best_by_search(one, portions):
    """Return the shortest call, then the least waiting, by trying every half minute for every portion."""
    tasks = [
        (n, s.where, Fraction(1, s.at_once * count(one, s.where)), s.takes.most, s.rests.most if s.rests else 0)
        for id_, many in portions.items()
        for n, s in enumerate(one.dishes[id_].pick_up)
        for _ in range(many)
    ]
    horizon = sum(takes for _, _, _, takes, _ in tasks)
    steps = [HALF * at for at in range(int(horizon / HALF) + 1)]
    best = None
    for waits in product(steps, repeat=len(tasks)):
        length = max(w + task[3] + task[4] for w, task in zip(waits, tasks, strict=True))
        found = (length, sum(waits))
        if (best is None or found < best) and room_for(tasks, waits):
            best = found
    return best


def count(one, place):
    return next(known.count or 1 for known in one.file.places if known.id == place)


def room_for(tasks, waits):
    spans = [
        (w + rests, w + rests + takes, place, load)
        for w, (_, place, load, takes, rests) in zip(waits, tasks, strict=True)
    ]
    return all(
        sum(load for first, last, other, load in spans if other == place and first <= moment < last) <= 1
        for moment, _, place, _ in spans
    )


@pytest.mark.parametrize("seed", range(60))
def test_small_calls_are_as_short_and_wait_as_little_as_any(seed):
    random = Random(seed)
    names = "ab"[: random.randint(1, 2)]
    strands = {
        name: [
            strand(
                "do",
                Fraction(random.randint(1, 3), 2),
                random.choice((None, HALF, 1)),
                where=random.choice(("fire", "fire", "fryer")),
                at_once=random.randint(1, 3),
            )
        ]
        for name in names
    }
    one = kitchen(**strands)
    portions = {name: random.randint(1, 4 if len(names) == 1 else 2) for name in names}
    call = compute_call(one, portions)
    check_laws(one, call, portions)
    assert (call.minutes, sum(go.waits * go.portions for go in call.goes)) == best_by_search(one, portions)
