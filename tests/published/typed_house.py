"""A house of one component typed as a published sum gives it; no reader, nothing beyond what the sum needs."""

from __future__ import annotations

from collections.abc import Mapping
from datetime import date
from fractions import Fraction

from linebook.model.amounts import IngredientAmount
from linebook.model.body import Body
from linebook.model.component import Component, Ingredient
from linebook.model.dish import Dish, Element
from linebook.model.house import AllergenPolicy, House, HouseFile
from linebook.model.menu import Menu, MenuDish
from linebook.model.quantities import parse_ingredient_amount
from linebook.model.units import Measures
from linebook.source.spans import SourceFile

AT = {"span": SourceFile(path="published", text="").whole(), "spans": {}}
US = Measures(cup="us", spoon="us", pint="us")


def read(text: str) -> IngredientAmount:
    """An amount; a percentage is typed with what it is of: ``2 % of flour``."""
    number, _, of = text.partition(" of ")
    return parse_ingredient_amount(number, US, tuple(of.split(", ")) if of else ())


def typed_house(
    makes: str,
    ingredients: Mapping[str, str],
    *,
    pieces: int | None = None,
    portion: str | None = None,
    share: str = "1",
) -> House:
    """A component ``it``; with ``portion`` also a dish that carries so much of it, on a menu at ``share``."""
    part = Component(
        id="it",
        name="it",
        line="stove",
        makes=read(makes),
        pieces=None if pieces is None else Fraction(pieces),
        ingredients=tuple(Ingredient(item=item, amount=read(text), **AT) for item, text in ingredients.items()),
        body=Body(sections=()),
        **AT,
    )
    elements = () if portion is None else (Element(item="it", amount=read(portion), **AT),)
    plate = Dish(id="plate", name="plate", line="stove", course="mains", elements=elements, body=part.body, **AT)
    entry = MenuDish(dish="plate", share=Fraction(share), mix={}, **AT)
    served = Menu(id="menu", name="menu", first=date(2027, 3, 2), covers={}, courses=(), dishes=(entry,), **AT)
    policy = AllergenPolicy(lists=("us",), avoid={}, **AT)
    return House(
        file=HouseFile(name="Published", rules="FDA Food Code 2022", lines=(), allergens=policy, **AT),
        pantry={},
        components={"it": part},
        dishes={"plate": plate},
        menus={"menu": served},
        by_products={},
    )
