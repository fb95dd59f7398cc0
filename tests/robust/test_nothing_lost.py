"""Every text a chef types in a field that belongs on a sheet is on that sheet, on both papers, to the last letter."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path

import pytest
from house_mutations import HOUSES, REPOSITORY
from printed_text import PrintedSheet, linebook, pages_of, sheets_of, squeezed

from linebook.documents.binder_order import binder_order
from linebook.model.body import Body, Words
from linebook.model.component import Component
from linebook.model.dish import Dish
from linebook.model.house import House
from linebook.pipeline import load_house

DAY = "2027-03-02"
MENU = "early-spring"
OF_THE_MENU = 3
"""Sheets at the head of a binder that are made for one menu: cover, allergen page, set-up sheet."""
Prints = dict[str, tuple[PrintedSheet, ...]]


@pytest.fixture(scope="module")
def house() -> House:
    loaded = load_house(HOUSES["demo"], "specs")
    assert loaded.value is not None
    return loaded.value


@pytest.mark.parametrize("paper", ["a4", "letter"])
def test_every_text_of_the_demo_is_on_its_sheets(house: House, tmp_path: Path, paper: str) -> None:
    """One test a paper, for the binders are drawn and read once."""
    result = linebook("bind", REPOSITORY / "specs", "--date", DAY, "--paper", paper, "-o", tmp_path)
    assert result.exit_code == 0, result.stderr
    prints = {path.stem.removesuffix("-binder"): sheets_of(path) for path in tmp_path.glob("*-binder.pdf")}
    _every_dish_text_is_on_its_sheets(house, prints)
    _every_component_text_is_on_its_card(house, prints)
    _every_page_says_whose_it_is(house, prints)
    _the_matrix_names_every_dish_course_and_column(house, tmp_path)


def test_the_search_for_a_text_can_fail() -> None:
    sheet = PrintedSheet(
        ("x",), (squeezed("Fold in the cream and chill until it holds"), squeezed("a trace of the whisk"))
    )
    assert sheet.says("cream and chill")
    assert sheet.says("chill until it holds a trace of the whisk")
    assert not sheet.says("cream and chilled")
    assert not sheet.says("a trace of the whisk chill until it holds")


def _every_dish_text_is_on_its_sheets(house: House, prints: Prints) -> None:
    lost = []
    for line, dish_id in _subjects(house, "station-card"):
        dish = house.dishes[dish_id]
        sheets = [sheet for sheet in prints[line] if squeezed(sheet.titles[0]) == squeezed(dish.name)]
        assert len(sheets) == 2, f"{dish_id} has {len(sheets)} sheets"
        lost += [(dish_id, text) for text in _dish_texts(house, dish) if not any(one.says(text) for one in sheets)]
    assert not lost


def _every_component_text_is_on_its_card(house: House, prints: Prints) -> None:
    lost = []
    for line, component_id in _subjects(house, "batch-card"):
        component = house.components[component_id]
        sheets = [sheet for sheet in prints[line] if squeezed(sheet.titles[-1]) == squeezed(component.name)]
        assert len(sheets) == 1, f"{component_id} has {len(sheets)} cards"
        lost += [(component_id, text) for text in _component_texts(house, component) if not sheets[0].says(text)]
    assert not lost


def test_the_subjects_are_all_that_the_menu_needs(house: House) -> None:
    """What the two tests above walk is every dish of the menu and every component any of them is made from."""
    dishes = {entry.dish for entry in house.menus[MENU].dishes}
    needed: set[str] = set()
    waiting = [element.item for dish in dishes for element in house.dishes[dish].elements]
    while waiting:
        item = waiting.pop()
        if item in house.components and item not in needed:
            needed.add(item)
            waiting += [line.item for line in house.components[item].ingredients]
        waiting += [parent.id for parent, _ in house.by_products.get(item, ()) if parent.id not in needed]
    assert {dish for _, dish in _subjects(house, "station-card")} == dishes
    assert {component for _, component in _subjects(house, "batch-card")} >= needed


def _every_page_says_whose_it_is(house: House, prints: Prints) -> None:
    """The cover and the line's own sheets name the menu too; cards of a dish or component stay when it changes."""
    for line in house.file.lines:
        for at, sheet in enumerate(prints.get(line.id, ())):
            of_the_menu = (house.menus[MENU].name,) if at < OF_THE_MENU else ()
            for page in sheet.pages:
                for text in (house.file.name, *of_the_menu, line.name):
                    assert squeezed(text) in page, (line.id, sheet.titles, text)


def _the_matrix_names_every_dish_course_and_column(house: House, folder: Path) -> None:
    said = "".join(pages_of(folder / "allergen-matrix.pdf"))
    menu = house.menus[MENU]
    names = [house.dishes[entry.dish].name for entry in menu.dishes]
    courses = [
        course.name
        for course in menu.courses
        if any(house.dishes[entry.dish].course == course.id for entry in menu.dishes)
    ]
    for text in (*names, *courses, *house.file.allergens.avoid.values(), menu.name, house.file.name):
        assert squeezed(text) in said, text


def _subjects(house: House, document: str) -> Iterator[tuple[str, str]]:
    for line in house.file.lines:
        for entry in binder_order(house, MENU, line.id):
            if entry.document == document:
                yield line.id, entry.subject


def _dish_texts(house: House, dish: Dish) -> Iterator[str]:
    vessels = {vessel.id: vessel.name for vessel in house.file.vessels}
    media = {medium.id: medium.name for medium in house.file.media}
    yield dish.name
    yield next(plate.name for plate in house.file.plates if plate.id == dish.plate)
    yield dish.menu_text or ""
    for size in dish.sizes:
        yield size.name
    for item in (*(element.item for element in dish.elements), *dish.also_touches):
        yield house.name_of(item)
    for element in dish.elements:
        yield element.note or ""
        yield element.tool or ""
        yield from (media[id_] for id_ in element.through)
        if element.hold:
            yield vessels[element.hold.vessel] if element.hold.vessel else ""
    yield from _body_texts(dish.body)


def _component_texts(house: House, component: Component) -> Iterator[str]:
    vessels = {vessel.id: vessel.name for vessel in house.file.vessels}
    places = {place.id: place.name for place in house.file.places}
    media = {medium.id: medium.name for medium in house.file.media}
    yield component.name
    yield component.sort or ""
    for item in (*(line.item for line in component.ingredients), *component.adjust_with, *component.also_touches):
        yield house.name_of(item)
    for line in component.ingredients:
        yield line.prep or ""
        yield line.note or ""
    for made in component.also_makes:
        yield made.name
    if component.store:
        yield from _apart(vessels.get(component.store.vessel or "", ""))
        yield places.get(component.store.place or "", "")
    for stage in component.stages:
        yield from _apart(vessels.get(stage.vessel or "", ""))
        yield places.get(stage.where or "", "")
        yield from (media[id_] for id_ in stage.through)
    yield from _body_texts(component.body)


def _body_texts(body: Body) -> Iterator[str]:
    for section in body.sections:
        yield section.title
        for block in section.blocks:
            plain = all(isinstance(piece, Words) for piece in block.pieces)
            words = [piece.text for piece in block.pieces if isinstance(piece, Words)]
            yield from ["".join(words)] if plain else words


def _apart(vessel: str) -> tuple[str, ...]:
    """Return a vessel's name in the two pieces that stay where there are several: *third pan*, *100 deep*."""
    kind, pan, rest = vessel.partition(" pan ")
    return (f"{kind} pan", rest) if pan else (vessel,)
