"""A house that is followed notes all that is looked at of it: no way leads to a record that notes nothing.

What a sheet is made from is held against what it was noted for when nothing else had been made in that process before,
so that no memory of ours keeps a second one who asks from noting what the first one looked at.
"""

from __future__ import annotations

import gc
from pathlib import Path

import pytest
from sheets_said import DAY, DEMO, MENU

from linebook.again import Questions
from linebook.compute.demand import compute_night
from linebook.compute.followed_results import find_changed_results, followed_result
from linebook.documents.binder_order import binder_order
from linebook.model.component import Component
from linebook.model.dish import Dish
from linebook.model.followed import find_changed, followed, numbers_of, record_of
from linebook.model.house import House
from linebook.model.menu import Menu
from linebook.model.occasion import Occasion
from linebook.model.pantry import PantryItem
from linebook.pipeline import find_answers, load_house
from linebook.source.following import STEP
from linebook.source.noted import Seen, noting
from linebook.source.remembered import REMEMBERING
from linebook.workshop import Workshop, open_workshop

HOUSES = Path(__file__).parents[2] / "houses"
KINDS = (Dish, Component, PantryItem, Menu)


@pytest.fixture(scope="module")
def demo() -> House:
    house = load_house(DEMO, "specs", ()).value
    assert house is not None
    return house


def records_in(value: object) -> list[object]:
    """Return every dish, component, pantry item and menu that can be reached from a value, by any way at all."""
    found, waiting, met = [], [value], set()
    while waiting:
        one = waiting.pop()
        if id(one) in met or isinstance(one, type | str | int):
            continue
        met.add(id(one))
        if isinstance(one, KINDS):
            found.append(one)
        waiting += [other for other in gc.get_referents(one) if not callable(other) or hasattr(other, "__dict__")]
    return found


def test_no_way_leads_from_a_followed_house_to_a_record_that_notes_nothing(demo: House) -> None:
    whole = followed(demo)
    reached = records_in(
        [whole.dishes, whole.components, whole.pantry, whole.menus, whole.by_products, whole.second, whole.file]
    )
    assert len(reached) >= len(demo.dishes) + len(demo.components) + len(demo.pantry) + len(demo.menus)
    assert all(hasattr(one, "__number__") for one in reached)
    assert {type(one).__mro__[1] for one in reached} == set(KINDS)
    assert House.__dataclass_fields__.keys() == {
        *("dishes", "components", "pantry", "menus", "by_products", "file", "second", "tonight")
    }, "a new field of a house needs a way to be noted or compared"


def test_every_field_of_every_record_is_noted_by_its_own_number(demo: House) -> None:
    whole = followed(demo)
    numbers = set()
    for kind in ("dishes", "components", "pantry", "menus"):
        for id_, record in getattr(whole, kind).items():
            for name in type(record).__dataclass_fields__:
                value, seen = noting(lambda: getattr(record, name))  # noqa: B023 - called at once
                assert value is getattr(getattr(demo, kind)[id_], name)
                (number,) = all_in(seen)
                assert record_of(whole, number) is record
                assert number not in numbers
                numbers.add(number)
            with pytest.raises(TypeError, match="copied"):
                type(record)()
    assert max(numbers) < numbers_of(demo)


def pieces(demo: House) -> tuple[House, Workshop, dict[str, object]]:
    """Return a followed house of its own, and what makes each of its sheets."""
    whole = followed(demo)
    work = open_workshop(whole, MENU, DAY, DEMO).value
    assert work is not None
    number = numbers_of(demo)
    nights = [compute_night(whole, Occasion(menu=MENU, covers=covers)) for covers in demo.file.nights]
    table, also = find_answers(whole, MENU, DAY)
    nights = [followed_result(night, number + at * STEP) for at, night in enumerate(nights)]
    number += STEP * len(nights)
    table = followed_result(table, number)
    also = followed_result(also, number + STEP) if also else None
    makers: dict[str, object] = {"allergen-matrix": lambda: work.matrix_sheet(table, also)}
    for line in (one.id for one in demo.file.lines):
        if binder_order(whole, MENU, line):
            makers |= work.binder_makers(line, table, nights, also)
            makers[f"line-cover:{line}"] = lambda line=line: work.cover_page(line, table, nights, {})
    return whole, work, makers


def all_in(seen: Seen) -> frozenset[object]:
    return seen.looked_up.union(seen.fields, seen.asked)


def all_of(house: House, seen: Seen) -> frozenset[object]:
    """Return what was noted, and what was noted for every question in it."""
    every = [seen, *(one.seen for one in Questions(house, {}).within([seen]).values())]
    return frozenset().union(*(one.looked_up.union(one.fields) for one in every))


def test_what_a_sheet_is_noted_for_does_not_depend_on_what_was_made_before_it(demo: House) -> None:
    whole, _, makers = pieces(demo)
    forth = {id_: all_of(whole, noting(make)[1]) for id_, make in makers.items()}
    whole, _, makers = pieces(demo)
    back = {id_: all_of(whole, noting(make)[1]) for id_, make in reversed(makers.items())}
    alone = {}
    for id_ in list(makers)[::9]:
        whole, _, makers = pieces(demo)
        for one in REMEMBERING.values():
            one.forget()
        alone[id_] = all_of(whole, noting(makers[id_])[1])
    assert len(forth) > 80
    assert {id_: seen ^ back[id_] for id_, seen in forth.items() if seen != back[id_]} == {}
    assert {id_: seen ^ forth[id_] for id_, seen in alone.items() if seen != forth[id_]} == {}


def test_two_houses_differ_in_the_fields_that_differ(tmp_path: Path) -> None:
    import shutil

    shutil.copytree(HOUSES / "gannet-steps", tmp_path / "house")
    before = load_house(tmp_path / "house", "house", ()).value
    again = load_house(tmp_path / "house", "house", ()).value
    assert before is not None
    assert again is not None
    assert find_changed(before, again) == frozenset()
    dish = sorted((tmp_path / "house" / "dishes").glob("*.md"))[0]
    dish.write_text("\n".join(dish.read_text("utf-8").splitlines()) + " aloud\n", encoding="utf-8")
    after = load_house(tmp_path / "house", "house", ()).value
    assert after is not None
    changed = find_changed(before, after)
    assert changed is not None
    whole = followed(after)
    assert {record_of(whole, number).id for number in changed} == {dish.stem}
    fields = list(type(before.dishes[dish.stem]).__dataclass_fields__)
    assert {fields[number % STEP] for number in changed} == {"body"}


def test_two_nights_differ_in_the_batches_that_differ(demo: House) -> None:
    few, many = (compute_night(demo, Occasion(menu=MENU, covers=covers)) for covers in (80, 81))
    same = compute_night(demo, Occasion(menu=MENU, covers=80))
    number = numbers_of(demo)
    assert list(find_changed_results([few], [same], number)) == []
    changed = set(find_changed_results([few], [many], number))
    night = followed_result(few, number)
    component = next(id_ for id_ in few.batches if few.batches[id_].total != many.batches[id_].total)
    _, seen = noting(lambda: night.batches[component])
    assert seen.looked_up
    assert all_in(seen) <= changed
    _, seen = noting(lambda: [*night.batches])
    assert seen.fields
    assert all_in(seen) <= changed


def test_what_is_noted_is_the_innermost_makings(demo: House) -> None:
    dish = next(iter(followed(demo).dishes.values()))

    def inner() -> Seen:
        _ = dish.line
        seen = noting(lambda: (dish.name, dish.course, dish.name))[1]
        _ = dish.price
        return seen

    _ = dish.plate  # where nothing is made it is noted for nobody
    seen, outer = noting(inner)
    names = list(type(dish).__dataclass_fields__)
    assert {names[number % STEP] for number in seen.fields} == {"name", "course"}
    assert {names[number % STEP] for number in outer.fields} == {"line", "price"}
    assert sorted(len(one.fields) for one in (seen, outer)) == [2, 2]


def test_what_a_failed_making_looked_at_is_noted_for_nothing(demo: House) -> None:
    dish = next(iter(followed(demo).dishes.values()))

    def outer() -> None:
        with pytest.raises(ZeroDivisionError):
            noting(lambda: (dish.name, 1 / 0))

    assert all_in(noting(outer)[1]) == frozenset()


def test_a_question_is_written_down_as_it_was_answered_for_this_house_alone(demo: House) -> None:
    """To size the nights of the print before asks the same of the house as it was then."""
    now, before = followed(demo), followed(demo)
    seen = noting(lambda: find_answers(now, MENU, DAY))[1]
    asked = Questions(now, {}).within([seen])
    find_answers(before, MENU, DAY)
    assert seen.asked
    assert Questions(before, {}).within([seen]).keys() == asked.keys()
    assert Questions(now, {}).within([seen]) == {}
