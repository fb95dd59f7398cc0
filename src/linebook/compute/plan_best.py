"""A small plan is held against every other: whether there is a better one, and that one on a board.

Better is what is aimed at (see ``prep_plan``): where all can be ready and nothing strained, such a plan; of these one
of the fewest batches in all; of these one whose batches are ready as late as can be, the moments added up. What is held
against it are all plans in which each demand is met by one batch: not those where what a batch is made beyond its
demands serves a part of another. Where no plan is so clean, none is better; how little need be strained is not looked
at here. Knows which plans are small enough, and of which every other can be looked at.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from typing import Final

from linebook.compute.plan_clashes import TooManyError
from linebook.compute.plan_group import Groups, Want
from linebook.compute.plan_run import Run
from linebook.compute.plan_whole import Search, Whole
from linebook.model.dating import is_kept_frozen

MOST_BATCHES: Final = 24
"""A plan of more batches is not held against every other."""
MOST_TRIES: Final = 10_000
"""So many batches and orders are tried at the most; what was found by then is taken where it is better."""


def whole_run(run: Run, another: Callable[[], Run]) -> tuple[Run | None, bool]:
    """Return a better run than one, None where there is none, and whether all plans were looked at.

    ``another`` makes a run that is not planned yet.
    """
    if len(run.board.placed) > MOST_BATCHES:
        return None, False
    empty = another()
    if not _is_covered(empty):
        return None, False
    found, is_best = _best(run, empty)
    if found is None:
        return None, is_best
    return (empty, is_best) if empty.put(found) else (None, False)


def is_clean(run: Run) -> bool:
    """Return whether all is ready and nothing strained."""
    kept = any(demand in run.not_kept for place in run.board.placed for demand in place.demands)
    return not run.asks.told and not kept and not any(place.placing.strains for place in run.board.placed)


def _best(run: Run, empty: Run) -> tuple[Whole | None, bool]:
    """Return the best plan where it is better than that of a run, and whether there is no better one."""
    search: Search | None = None
    clean = is_clean(run)
    number, ready = len(run.board.placed), sum(place.placing.ready for place in run.board.placed)
    try:
        search = _search(empty)
        if not clean:
            any_ = search.best(MOST_BATCHES, -1, any_=True)
            if any_ is None:
                return None, search.tried_all
            number, ready = len(any_.groups), -1
        for batches in range(search.least, number + 1):
            found = search.best(batches, ready if batches == number else -1)
            if found is not None:
                return found, True
    except TooManyError:
        return (search.known if search is not None else None), False
    return None, True


def _is_covered(run: Run) -> bool:
    """Return whether every plan there is can be looked at.

    Not where components are on hand, where one takes a by-product that is not bought too, or where one that is kept
    frozen is made from others.
    """
    house = run.house
    places = {place.id: place for place in house.file.places}
    trims = house.by_products.keys() - house.pantry.keys() - house.components.keys()
    for id_ in _made(run):
        component = house.components[id_]
        items = {line.item for line in component.ingredients}
        if id_ in run.board.stock.items or not items.isdisjoint(trims):
            return False
        if is_kept_frozen(component, places) and not items.isdisjoint(house.components):
            return False
    return True


def _made(run: Run) -> set[str]:
    """Return the components that are plated, and all that these are made from."""
    found = {id_ for id_, demands in run.board.demands.items() if demands}
    for id_ in run.order:
        if id_ in found:
            found |= {line.item for line in run.house.components[id_].ingredients} & run.house.components.keys()
    return found


def _search(run: Run) -> Search:
    house, board = run.house, run.board
    arrivals = {id_: board.arrivals(id_) for id_ in run.order}
    groups = Groups(house, board.placer, run.sizes, run.lives, run.parts_keep, arrivals)
    plated: dict[str, tuple[Want, ...]] = {}
    for id_, demands in board.demands.items():
        lost = 1 - house.components[id_].loss
        whole = [replace(one, amount=one.amount / lost) for one in demands if one.amount > 0]
        plated[id_] = tuple(Want(component=id_, amount=one.amount, demand=one) for one in whole)
    return Search(groups, board.placer.taken.most, plated, run.order, MOST_TRIES)
