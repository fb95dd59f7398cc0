"""Builds small houses as records, without the reader: what a test does not say has the plainest value."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from datetime import date
from fractions import Fraction

from linebook.model.amounts import Amount, Duration, IngredientAmount, Percent, ToTaste
from linebook.model.body import Body
from linebook.model.component import ByProduct, Component, Ingredient, Scale, Stage
from linebook.model.dish import Alternative, Dish, Element, Size
from linebook.model.house import AllergenPolicy, House, HouseFile, Instrument, InstrumentKind, Medium
from linebook.model.menu import Course, Menu, MenuDish
from linebook.model.pantry import Declaration, PantryItem
from linebook.model.quantities import parse_amount
from linebook.model.units import Measures
from linebook.source.spans import SourceFile

AT = {"span": SourceFile(path="test", text="").whole(), "spans": {}}
MEASURES = Measures(cup="us", spoon="us", pint="us")
NOTHING = Body(sections=())


def amount(text: str) -> Amount:
    return parse_amount(text, MEASURES)


def percent(number: str, *of: str) -> Percent:
    return Percent(number=Fraction(number), of=of)


def minutes(least: int, most: int | None = None) -> Duration:
    return Duration(least=Fraction(least), most=Fraction(most or least))


def bought(
    id_: str,
    contains: Sequence[str] | None = (),
    may: Sequence[str] = (),
    *,
    density: str | None = None,
    weighs: Mapping[str, str] | None = None,
    origin: Sequence[str] | None = None,
    unpasteurised: bool | None = None,
    one_food: bool = False,
    since: date = date(2027, 1, 1),
) -> PantryItem:
    """A pantry item; ``contains=None`` leaves it undeclared."""
    declared = None
    if contains is not None:
        declared = Declaration(contains=tuple(contains), may_contain=tuple(may), says="label", since=since, **AT)
    return PantryItem(
        id=id_,
        name=id_,
        allergens=declared,
        density=None if density is None else Fraction(density),
        weighs={word: Fraction(grams) for word, grams in (weighs or {}).items()},
        origin=None if origin is None else tuple(origin),
        unpasteurised=unpasteurised,
        one_food=one_food,
        **AT,
    )


def line(
    item: str,
    how_much: str | IngredientAmount = "to taste",
    *,
    stage: str | None = None,
    medium: bool = False,
    scale: Scale = Scale.LINEAR,
) -> Ingredient:
    if isinstance(how_much, str):
        how_much = ToTaste() if how_much == "to taste" else amount(how_much)
    return Ingredient(item=item, amount=how_much, stage=stage, medium=medium, scale=scale, **AT)


def stage(name: str, *through: str, **times: Duration) -> Stage:
    return Stage(name=name, through=through, **times, **AT)


def by_product(item: str, source: str | None = None, after: str | None = None) -> ByProduct:
    return ByProduct(item=item, name=item, amount=amount("1 kg"), source=source, after=after, **AT)


def component(id_: str, makes: str = "1 kg", ingredients: Sequence[Ingredient] = (), **fields: object) -> Component:
    for name in ("largest_batch", "piece_weighs"):
        if isinstance(fields.get(name), str):
            fields[name] = amount(str(fields[name]))
    for name in ("pieces", "loss", "density"):
        if name in fields:
            fields[name] = Fraction(str(fields[name]))
    return Component(
        id=id_,
        name=id_,
        line="stove",
        makes=amount(makes),
        ingredients=tuple(ingredients),
        body=NOTHING,
        **AT,
        **fields,
    )


def element(
    item: str,
    how_much: str = "10 g",
    *through: str,
    leave_off: bool = False,
    instead: Sequence[Alternative] = (),
    raw: bool = False,
) -> Element:
    return Element(
        item=item,
        amount=amount(how_much),
        through=through,
        leave_off=leave_off,
        alternatives=tuple(instead),
        raw=raw,
        **AT,
    )


def alternative(item: str, *through: str) -> Alternative:
    return Alternative(item=item, amount=amount("10 g"), through=through, **AT)


def size(id_: str, factor: str = "1", **amounts: str) -> Size:
    """A size; an item's own amount is given by its id with _ for -."""
    own = {item.replace("_", "-"): amount(text) for item, text in amounts.items()}
    return Size(id=id_, name=id_, factor=Fraction(factor), amounts=own, **AT)


def dish(id_: str, elements: Sequence[Element] = (), touches: Sequence[str] = (), sizes: Sequence[Size] = ()) -> Dish:
    return Dish(
        id=id_,
        name=id_,
        line="stove",
        course="mains",
        elements=tuple(elements),
        also_touches=tuple(touches),
        sizes=tuple(sizes),
        body=NOTHING,
        **AT,
    )


def listed(
    dish_id: str, share: str = "1", spare: str | None = None, at_least: str | None = None, **mix: str
) -> MenuDish:
    return MenuDish(
        dish=dish_id,
        share=Fraction(share),
        mix={size_id: Fraction(part) for size_id, part in mix.items()},
        spare=None if spare is None else Fraction(spare),
        at_least=None if at_least is None else Fraction(at_least),
        **AT,
    )


def menu(id_: str, dishes: Sequence[MenuDish], first: date = date(2027, 3, 2), *, oil_changed: bool = True) -> Menu:
    course = Course(id="mains", name="Mains", **AT)
    return Menu(
        id=id_,
        name=id_,
        first=first,
        covers={},
        courses=(course,),
        dishes=tuple(dishes),
        oil_changed=oil_changed,
        **AT,
    )


def medium(id_: str, *carries: str, changed: bool = False) -> Medium:
    return Medium(id=id_, name=id_, carries=carries, changed_between=changed, **AT)


def instrument(kind: InstrumentKind, up_to: str, reads: str) -> Instrument:
    return Instrument(name=kind.value, kind=kind, up_to=amount(up_to), reads=amount(reads), **AT)


def house(
    pantry: Sequence[PantryItem] = (),
    components: Sequence[Component] = (),
    dishes: Sequence[Dish] = (),
    menus: Sequence[Menu] = (),
    media: Sequence[Medium] = (),
    *,
    lists: Sequence[str] = ("uk",),
    avoid: Mapping[str, str] | None = None,
    line_up: int = 0,
) -> House:
    made: dict[str, tuple[tuple[Component, ByProduct], ...]] = {}
    for part in components:
        for entry in part.also_makes:
            made[entry.item] = (*made.get(entry.item, ()), (part, entry))
    return House(
        file=HouseFile(
            name="Test House",
            rules="UK",
            lines=(),
            allergens=AllergenPolicy(lists=tuple(lists), avoid=dict(avoid or {}), **AT),
            media=tuple(media),
            line_up_portions=line_up,
            **AT,
        ),
        pantry={item.id: item for item in pantry},
        components={part.id: part for part in components},
        dishes={plate.id: plate for plate in dishes},
        menus={served.id: served for served in menus},
        by_products=made,
    )
