"""The plating guide's side view and photograph: when there are any, and what they say to who cannot see them."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction

import pytest
from sample_house import plating_view, sample_house, sheet, short_rib_dish

from linebook.compute.allergens import compute_allergens
from linebook.documents.plating_guide import PlatingGuide, photo_name, plating_guide
from linebook.documents.wording import english
from linebook.markup.blocks import FigureRef, Split
from linebook.markup.difference import describe_difference
from linebook.markup.fingerprint import fingerprint_of

HOUSE = sample_house()


def house_with(dish):
    return replace(HOUSE, dishes={**HOUSE.dishes, dish.id: dish})


def with_heights(*heights):
    dish = short_rib_dish()
    given = [*heights, *[None] * len(dish.elements)]
    elements = tuple(
        replace(one, height=None if height is None else Fraction(height))
        for one, height in zip(dish.elements, given, strict=False)
    )
    return replace(dish, elements=elements)


def guide(dish, photo: str = "") -> PlatingGuide:
    house = house_with(dish)
    made = plating_guide(house, dish.id, compute_allergens(house, "early-spring"), english(), photo=photo)
    assert made is not None
    return made


def figures_of(view) -> list[FigureRef]:
    split = next(
        one
        for one in sheet(view).blocks
        if isinstance(one, Split) and len(one.left) == 1 and isinstance(one.left[0], FigureRef)
    )
    return [one for one in (*split.left, *split.right) if isinstance(one, FigureRef)]


def test_a_build_has_a_side_view_beside_the_plan_with_words_of_its_own():
    plan, side = figures_of(plating_view(HOUSE))
    assert (plan.name, side.name) == ("plate", "side")
    words = side.alternative.replace("\u00a0", " ")
    assert words.startswith(
        "oval plate 30 cm cut through the middle, from the guest's side, plated first to last: 1 Celeriac purée"
    )
    assert "2 Smoked short rib, glazed, height not given, on Celeriac purée" in words
    assert words != plan.alternative


def test_a_given_height_is_in_the_list_and_in_both_alternatives():
    view = guide(with_heights(6, 38))
    plan, side = figures_of(view)
    assert "1 Celeriac purée, 6 mm high, on the plate; 2 Smoked short rib, glazed, 38 mm high" in side.alternative
    assert "38 mm high" in plan.alternative
    assert "38 mm high" in view.elements[1].note.plain


@pytest.mark.parametrize(("heights", "indicative"), [((6, 38), True), ((6,) * 20, False)])
def test_the_caption_says_where_heights_are_only_indicative(heights, indicative):
    side = guide(with_heights(*heights)).side
    assert side is not None
    assert ("only indicative" in side.caption.plain) is indicative


def test_what_lies_flat_has_no_side_view():
    dish = short_rib_dish()
    flat = replace(dish, elements=tuple(replace(one, on=None, height=None) for one in dish.elements))
    view = guide(flat)
    assert view.side is None
    assert [one.name for one in sheet(view).blocks if isinstance(one, FigureRef)] == ["plate"]


def test_a_photograph_is_a_figure_of_the_sheet_and_another_one_another_sheet():
    before, after = photo_name(b"one"), photo_name(b"two")
    assert before != after
    first, second = (sheet(guide(short_rib_dish(), name)) for name in (before, after))
    photo = next(one for one in figures_of(guide(short_rib_dish(), before)) if one.role == "photo")
    assert photo.name == before
    assert photo.alternative.replace("\u00a0", " ") == f"photograph of {short_rib_dish().name}, plated"
    assert fingerprint_of(first) != fingerprint_of(second)
    assert any("the photograph" in line.plain for line in describe_difference(first, second, english()))
