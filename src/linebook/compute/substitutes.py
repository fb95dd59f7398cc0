"""The house as it is tonight without some items: what stands in for them is on every card; what cannot be made is not.

A house in, a house out, so that everything computed from it follows: amounts, allergens, orders, cost. What changed is
kept in ``House.tonight``. Chooses nothing: what is gone and what stands in is decided in ``fallen``.
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import replace
from types import MappingProxyType

from linebook.compute import stand_in_words as words
from linebook.compute.base import base_batch
from linebook.compute.fallen import Supply, fallen_dishes, falls, find_supply, leaves_nothing, named_by_component
from linebook.model.amounts import Amount, Kind, Percent
from linebook.model.component import ByProduct, Component, Ingredient, Scale, Stage
from linebook.model.conversion import Facts, facts_of
from linebook.model.dish import Alternative, Dish, Element, Size
from linebook.model.house import House
from linebook.model.pantry import PantryItem
from linebook.model.stand_ins import count_words, in_place_of
from linebook.model.tonight import Change, Fallen, Tonight
from linebook.model.units import plus, same_measure, times
from linebook.source.faults import ValueMistake


def without(house: House, missing: Sequence[str]) -> House:
    """Return the house without these pantry items, components or by-products; ``tonight`` says all that changed.

    Each is replaced by its first substitute that is to be had, in the amounts that its ratio gives by weight. Where
    there is none every component with it falls, and every dish with a fallen thing leaves the menus. The house itself
    where nothing is missing.
    """
    asked = tuple(dict.fromkeys(missing))
    if not asked:
        return house
    given_up: tuple[str, ...] = ()
    while True:
        made = _Change(house, asked, given_up).made()
        failing = tuple(id_ for id_, card in made.components.items() if _cannot_be_made(made, house, card))
        if not failing:
            return made
        given_up += failing


class _Change:
    """One house being changed: collects what it does to each card."""

    def __init__(self, house: House, missing: tuple[str, ...], given_up: tuple[str, ...]) -> None:
        self.house = house
        self.missing = missing
        self.supply: Supply = find_supply(house, (*missing, *given_up))
        self.changes: list[Change] = []
        self.by: dict[str, dict[str, None]] = defaultdict(dict)
        self._counted = count_words(house.pantry, house.components, house.dishes)

    def made(self) -> House:
        """Return the house of tonight."""
        house, supply = self.house, self.supply
        dishes_gone = {fallen.id: fallen for fallen in fallen_dishes(house, supply)}
        components = {
            id_: self._component(component) for id_, component in house.components.items() if id_ not in supply.gone
        }
        dishes: dict[str, Dish] = {}
        for id_, dish in house.dishes.items():
            if id_ in dishes_gone:
                continue
            try:
                dishes[id_] = self._dish(dish)
            except ValueMistake:  # two elements become one item, in units that cannot be added up
                dishes_gone[id_] = Fallen(id=id_, path=(id_, *self._replaced_on(dish)))
        media = tuple(
            replace(one, carries=self._served(f"media.{one.id}", "carries", one.carries)) for one in house.file.media
        )
        by_products: dict[str, list[tuple[Component, ByProduct]]] = defaultdict(list)
        for component in components.values():
            for made in component.also_makes:
                by_products[made.item].append((component, made))
        changed = replace(
            house,
            file=replace(house.file, media=media),
            pantry=MappingProxyType({id_: self._bought(item) for id_, item in house.pantry.items()}),
            components=MappingProxyType(components),
            dishes=MappingProxyType(dishes),
            menus=MappingProxyType({id_: words.menu_without(menu, dishes_gone) for id_, menu in house.menus.items()}),
            by_products=MappingProxyType({item: tuple(made) for item, made in by_products.items()}),
            second=words.in_second(house, components, dishes, supply),
        )
        return replace(changed, tonight=self._tonight(changed, tuple(dishes_gone.values())))

    def _tonight(self, changed: House, dishes: tuple[Fallen, ...]) -> Tonight:
        house, gone = self.house, self.supply.gone
        used = {change.was for change in self.changes} | {item for path in gone.values() for item in path[1:]}
        used |= {item for fallen in dishes for item in fallen.path}
        return Tonight(
            before=house.tonight.before if house.tonight else house,
            missing=self.missing,
            stands_in=tuple(
                replace(stand_in, by=tuple(self.by[item]) or ("weight",))
                for item, stand_in in self.supply.stands_in.items()
                if item in used
            ),
            changes=tuple(self.changes),
            dishes=dishes,
            components=tuple(Fallen(id=id_, path=path) for id_, path in gone.items() if id_ in house.components),
            gone=tuple(
                Fallen(id=id_, path=path)
                for id_, path in gone.items()
                if id_ in house.by_products and id_ not in self.missing
            ),
            touched=touched_by(changed, self.changes),
            unused=tuple(item for item in self.missing if item not in used),
        )

    def _bought(self, item: PantryItem) -> PantryItem:
        """Return a bought item that is dissolved first in what stands in, where it is dissolved in what is missing."""
        if item.dilute_in is None or item.dilute_in not in self.supply.stands_in:
            return item
        return replace(item, dilute_in=self.supply.serves(item.dilute_in)[0])

    def _component(self, component: Component) -> Component:
        """Return a component with what stands in; the same one where nothing does."""
        card = component.id
        kept = tuple(made for made in component.also_makes if not leaves_nothing(made, self.supply))
        if kept == component.also_makes and self.supply.gone.keys().isdisjoint(
            (*named_by_component(self.house, component), *component.raw)
        ):
            return component
        lost = {made.item: made for made in component.also_makes if made not in kept}
        self.changes += [Change(card=card, part="also_makes", was=item, now="") for item in lost]
        return replace(
            component,
            ingredients=tuple(self._line(card, line) for line in component.ingredients),
            adjust_with=self._served(card, "adjust_with", component.adjust_with),
            also_touches=self._served(card, "also_touches", component.also_touches),
            raw=tuple(dict.fromkeys(self.supply.serves(item)[0] for item in component.raw)),
            also_makes=kept,
            stages=tuple(self._stage(stage) for stage in component.stages),
            body=words.body_with(self.house, component.body, self.supply, lost),
        )

    def _line(self, card: str, line: Ingredient) -> Ingredient:
        amount, scale = line.amount, line.scale
        item, ratio = self.supply.serves(line.item)
        if isinstance(amount, Percent):
            of = tuple(dict.fromkeys(self.supply.serves(base)[0] for base in amount.of))
            amount = Percent(number=amount.number * ratio, of=of)
        if item == line.item:
            return replace(line, amount=amount)
        self.changes.append(Change(card=card, part="ingredients", was=line.item, now=item))
        if isinstance(amount, Amount):
            counted = amount.unit.kind is Kind.COUNT
            amount = self._amount(line.item, amount)
            scale = Scale.LINEAR if counted and amount.unit.kind is not Kind.COUNT and scale is Scale.WHOLE else scale
        prep, as_for = self._prep(line)
        return replace(line, item=item, amount=amount, scale=scale, prep=prep, prep_as_for=as_for)

    def _prep(self, line: Ingredient) -> tuple[str | None, str | None]:
        """Return how what stands in is prepared, and whose prep that is where it is not known to be its own."""
        own = self.supply.stands_in[line.item].prep
        if own or line.prep is None:
            return own, None
        return line.prep, line.prep_as_for or line.item

    def _stage(self, stage: Stage) -> Stage:
        return replace(stage, of=tuple(dict.fromkeys(self.supply.serves(item)[0] for item in stage.of)))

    def _dish(self, dish: Dish) -> Dish:
        """Return a dish with what stands in; the same one where nothing does."""
        alternatives = [falls(self.house, other, self.supply) for other in dish.alternatives]
        named = [*(one.item for one in dish.ever_served), *dish.also_touches]
        if self.supply.gone.keys().isdisjoint(named) and not any(alternatives):
            return dish
        elements = tuple(self._element(dish.id, element) for element in dish.elements)
        return replace(
            dish,
            elements=elements,
            also_touches=self._served(dish.id, "also_touches", dish.also_touches),
            sizes=tuple(self._size(dish, size, elements) for size in dish.sizes),
            body=words.body_with(self.house, dish.body, self.supply, {}),
        )

    def _element(self, card: str, element: Element) -> Element:
        item, _ = self.supply.serves(element.item)
        amount = element.amount
        if item != element.item:
            self.changes.append(Change(card=card, part="elements", was=element.item, now=item))
            amount = self._amount(element.item, amount)
        others = []
        for other in element.alternatives:
            if falls(self.house, other, self.supply) or self.supply.serves(other.item)[0] == item:
                self.changes.append(Change(card=card, part="alternative", was=other.item, now=""))
            else:
                others.append(self._alternative(card, other))
        on = None if element.on is None else self.supply.serves(element.on)[0]
        return replace(element, item=item, amount=amount, on=on, alternatives=tuple(others))

    def _alternative(self, card: str, other: Alternative) -> Alternative:
        item, _ = self.supply.serves(other.item)
        if item == other.item:
            return other
        self.changes.append(Change(card=card, part="alternative", was=other.item, now=item))
        return replace(other, item=item, amount=self._amount(other.item, other.amount))

    def _size(self, dish: Dish, size: Size, elements: Sequence[Element]) -> Size:
        """Return a size with its own amounts turned too.

        Where two items of the dish become one, its amount is that of both: a size's own amount is all of an item.
        """
        own: dict[str, Amount] = {}
        joined = [item for item in {one.item for one in elements} if len(self._become(dish, item)) > 1]
        for item, amount in size.amounts.items():
            served = self.supply.serves(item)[0]
            if served not in joined:
                own[served] = self._amount(item, amount) if served != item else amount
        for item in joined:
            named = self._become(dish, item)
            if size.amounts.keys().isdisjoint(named):
                continue
            own[item] = _sum([part for old in named for part in self._portion(dish, size, old)])
        return replace(size, amounts=MappingProxyType(own))

    def _become(self, dish: Dish, item: str) -> tuple[str, ...]:
        """Return the items of a dish's elements that are this item tonight."""
        named = dict.fromkeys(one.item for one in dish.elements)
        return tuple(old for old in named if self.supply.serves(old)[0] == item)

    def _portion(self, dish: Dish, size: Size, old: str) -> list[Amount]:
        """Return what a portion in a size carries of an item, as what stands in for it."""
        amounts = [size.amounts[old]] if old in size.amounts else []
        if not amounts:
            amounts = [times(one.amount, size.factor) for one in dish.elements if one.item == old]
        replaced = self.supply.serves(old)[0] != old
        return [self._amount(old, amount) if replaced else amount for amount in amounts]

    def _replaced_on(self, dish: Dish) -> tuple[str, ...]:
        return next(((one.item,) for one in dish.elements if one.item in self.supply.gone), ())

    def _served(self, card: str, part: str, items: Sequence[str]) -> tuple[str, ...]:
        """Return a list of items with what stands in, each once."""
        served = [self.supply.serves(item)[0] for item in items]
        self.changes += [
            Change(card=card, part=part, was=was, now=now) for was, now in zip(items, served, strict=True) if was != now
        ]
        return tuple(dict.fromkeys(served))

    def _amount(self, missing: str, amount: Amount) -> Amount:
        item, ratio = self.supply.serves(missing)
        found = in_place_of(
            amount, ratio, _facts(self.house, missing), _facts(self.house, item), self._counted.get(item, frozenset())
        )
        self.by[missing][found.by] = None
        return found.amount


def touched_by(house: House, changes: Iterable[Change]) -> Mapping[str, tuple[str, ...]]:
    """Return, by dish and component, every item whose replacement reaches it, directly or through a component.

    What a replaced by-product or a component that is made otherwise goes into is touched too. What leaves nothing over
    any more is itself made as ever.
    """
    found: dict[str, dict[str, None]] = defaultdict(dict)
    for change in changes:
        if change.part != "also_makes":
            found[change.card][change.was] = None
    grown = True
    while grown:
        before = {id_: len(items) for id_, items in found.items()}
        for component in house.components.values():
            through = [f"media.{id_}" for stage in component.stages for id_ in stage.through]
            _take(house, found, component.id, (*named_by_component(house, component), *through))
        for dish in house.dishes.values():
            through = [f"media.{id_}" for one in dish.ever_served for id_ in one.through]
            _take(house, found, dish.id, (*(one.item for one in dish.ever_served), *dish.also_touches, *through))
        grown = before != {id_: len(items) for id_, items in found.items()}
    return {
        id_: tuple(items) for id_, items in found.items() if items and (id_ in house.components or id_ in house.dishes)
    }


def _take(house: House, found: dict[str, dict[str, None]], card: str, items: Iterable[str]) -> None:
    """Add to a card what reaches the items in it, by-products through the components that leave them."""
    for item in items:
        for id_ in (item, *(parent.id for parent, _ in house.by_products.get(item, ()))):
            if id_ in found and id_ != card:
                found[card] |= found[id_]


def _cannot_be_made(tonight: House, house: House, card: Component) -> bool:
    """Return whether two things that stand in on one card make a percentage of it that cannot be worked out.

    Each of them alone can: that is checked where it is written.
    """
    if card is house.components[card.id]:
        return False
    try:
        base_batch(tonight, card.id)
    except ValueMistake:
        return True
    return False


def _facts(house: House, item: str) -> Facts:
    record = house.components.get(item) or house.pantry.get(item)
    return facts_of(record) if record is not None else Facts(name=house.name_of(item))


def _sum(amounts: Sequence[Amount]) -> Amount:
    """Return amounts of one item added up. Raises ValueMistake LB304 where their units cannot meet."""
    total = amounts[0]
    for amount in amounts[1:]:
        if not same_measure(total.unit, amount.unit):
            raise ValueMistake("LB304", "two amounts of one item cannot be added up")
        total = plus(total, amount)
    return total
