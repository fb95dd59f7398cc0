"""A small plan is held against every other: whether there is a better one, and that one on a board.

Knows which plans are small enough, and of which every other can be looked at.
"""

from __future__ import annotations

from dataclasses import replace
from typing import Final

from linebook.compute.plan_clashes import TooManyError
from linebook.compute.plan_group import Groups, Want
from linebook.compute.plan_run import Run
from linebook.compute.plan_whole import Search, Whole
from linebook.model.dating import is_kept_frozen

MOST_BATCHES: Final = 14
"""A plan of more batches is not held against every other."""
MOST_TRIES: Final = 20000
"""So many batches and orders are tried at the most."""


def whole_run(run: Run, empty: Run) -> tuple[Run | None, bool]:
    """Return a better run, on one that is still ``empty``, and whether all plans were looked at. None where none is."""
    if len(run.board.placed) > MOST_BATCHES or not _is_covered(empty):
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
        most = number if clean else MOST_BATCHES
        for batches in range(search.least, most + 1):
            found = search.best(batches, ready if clean and batches == number else -1)
            if found is not None or search.tried_all:
                return found, True
    except TooManyError:
        return (search.known if search is not None else None), False
    return None, clean


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
