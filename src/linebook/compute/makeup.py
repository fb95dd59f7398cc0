"""What is in a thing, what may be, and what nobody has declared: rolled up through every depth and every shared medium.

Knows substances only by their ids; columns, answers and print are not its business. It fails closed: where a spec
does not say, everything that could have met the food has met it. What flows may be something else than substances,
as origins or the foods themselves: ``Facts`` says what each bought item is known to bring.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import field
from operator import is_
from typing import Final, NamedTuple

from linebook.model.component import ByProduct, Component
from linebook.model.dish import Alternative, Dish, Element
from linebook.model.house import House
from linebook.model.menu import Menu
from linebook.model.pantry import PantryItem
from linebook.source.frozen import frozen
from linebook.source.remembered import remembered


class Trace(NamedTuple):
    """One substance, the bought item that brings it, and the shared medium it came through ("" for none).

    ``substance`` is "" for an item that nobody has declared. Among what is undeclared a word is what alone is not known
    of the item.
    """

    substance: str
    item: str
    medium: str = ""


@frozen
class Makeup:
    """All that is known of the substances in one thing."""

    contains: frozenset[Trace] = frozenset()
    may: frozenset[Trace] = frozenset()
    undeclared: frozenset[Trace] = frozenset()


NOTHING: Final = Makeup()


def join(makeups: Iterable[Makeup]) -> Makeup:
    """Return what several things hold together."""
    parts = [part for part in makeups if part is not NOTHING]
    if len(parts) < 2:
        return parts[0] if parts else NOTHING
    return Makeup(
        contains=frozenset().union(*[part.contains for part in parts]),
        may=frozenset().union(*[part.may for part in parts]),
        undeclared=frozenset().union(*[part.undeclared for part in parts]),
    )


def declared_makeup(item: PantryItem) -> Makeup:
    """Return what a bought item declares; an item without a declaration is undeclared."""
    if item.allergens is None:
        return Makeup(undeclared=frozenset((Trace("", item.id),)))
    if not item.allergens.contains and not item.allergens.may_contain:
        return NOTHING
    return Makeup(
        contains=frozenset(Trace(substance, item.id) for substance in item.allergens.contains),
        may=frozenset(Trace(substance, item.id) for substance in item.allergens.may_contain),
    )


@frozen
class Facts:
    """What is known of each thing by itself, before it is cooked with others.

    ``bought`` is what each pantry item brings, ``made`` what a component or by-product is itself, besides what goes
    into it. ``cooked`` are the stages (component, number from 0) after which only what is certain stays, without the
    words ``cooked_away``. The words ``served_raw``, not known of an element that is served raw, are certain of it.
    ``settled`` is what no medium and no menu changes, with the house it is of: the kitchens of several menus share it.
    """

    bought: Mapping[str, Makeup]
    made: Mapping[str, Makeup] = field(default_factory=dict)
    cooked: frozenset[tuple[str, int]] = frozenset()
    cooked_away: frozenset[str] = frozenset()
    served_raw: frozenset[str] = frozenset()
    settled: dict[str, tuple[House, tuple[Makeup, ...]]] = field(default_factory=dict, compare=False, repr=False)


@frozen
class _Steps:
    """What goes into a component: all its ``items``, the ``early`` ones first, and for each stage how many of the next.

    Beside it stand the media that the stage goes through; ``meets_media`` is whether any does. With ``only_ends`` only
    what it holds at the end matters: nothing leaves it, and no medium meets it.
    """

    id: str
    items: tuple[str, ...]
    early: int
    added: tuple[tuple[int, tuple[str, ...]], ...]
    meets_media: bool
    only_ends: bool


@remembered
def _steps_of(house: House, id_: str) -> _Steps:
    component = house.components[id_]
    stages = component.stages
    by_stage: dict[str | None, list[str]] = {stage.name: [] for stage in stages}
    early: list[str] = []
    for line in component.ingredients:
        by_stage.get(line.stage, early).append(line.item)
    early += [*component.adjust_with, *component.also_touches]
    added = [by_stage[stage.name] for stage in stages]
    meets_media = any(stage.through for stage in stages)
    return _Steps(
        id=id_,
        items=(*early, *(item for items in added for item in items)),
        early=len(early),
        added=tuple((len(items), stage.through) for items, stage in zip(added, stages, strict=True)),
        meets_media=meets_media,
        only_ends=not meets_media and not component.also_makes,
    )


class Kitchen:
    """Everything a menu cooks, alternatives included, with what each shared medium has met.

    ``pools`` are what the media hold before the first food goes through. Makeups only ever grow, so asking every
    food in turn until none grows gives the least answer that satisfies them all, cycles included. What has not grown
    stays the same value, so that what is made of the very same values is not made again.
    """

    def __init__(
        self,
        house: House,
        components: Sequence[str],
        dishes: Sequence[str],
        pools: Mapping[str, Makeup],
        facts: Facts | None = None,
    ) -> None:
        self._house = house
        self._media = {medium.id: medium for medium in house.file.media}
        self._facts = facts or declared_facts(house)
        self._bought = self._facts.bought
        self._after: dict[str, tuple[Makeup, ...]] = dict.fromkeys(components, (NOTHING,))
        self._trim: dict[str, Makeup] = {}
        self._held: dict[str, Makeup] = {}
        self._left = {item: [_leaving(*one) for one in made] for item, made in house.by_products.items()}
        self._pools = dict(pools)
        self._made_of: dict[str, Sequence[Makeup]] = {}
        self._contact_of: dict[str, tuple[Sequence[Makeup], Makeup]] = {}
        self._cooked = {component for component, _ in self._facts.cooked}
        settled = self._facts.settled
        known = {id_: found[1] for id_ in components if (found := settled.get(id_)) is not None and found[0] is house}
        self._after |= known
        self._unsettled = {*house.components, *house.by_products}.difference(known)
        # Parts before what they go into: fewer rounds until nothing grows.
        self._open = [_steps_of(house, id_) for id_ in reversed(components) if id_ not in known]
        plates = [house.dishes[id_] for id_ in dishes]
        self._dipped = [(dish, element) for dish in plates for element in dish.ever_served if element.through]
        self._grew = True
        while self._grew:
            self._grew = False
            self._cook()

    @property
    def facts(self) -> Facts:
        """What is known of each thing by itself."""
        return self._facts

    @property
    def pools(self) -> Mapping[str, Makeup]:
        """What each shared medium has met, for the next menu."""
        return self._pools

    def of_item(self, item: str) -> Makeup:
        """Return what a bought item, component or by-product holds; an id that is several of these holds all of it.

        What is none of them, or a component this kitchen was not told of, is undeclared: never free.
        """
        held = self._held.get(item)
        if held is None:
            held = self._held[item] = self._of_item(item)
        return held

    def _of_item(self, item: str) -> Makeup:
        bought, after = self._bought.get(item), self._after.get(item)
        found = [] if bought is None else [bought]
        if after is not None:
            found.append(after[-1])
        if item in self._house.by_products:
            found.append(self._trim.get(item, NOTHING))
        elif not found:
            return Makeup(undeclared=frozenset((Trace("", item),)))
        return found[0] if len(found) == 1 else join(found)

    def of_element(self, element: Element | Alternative) -> Makeup:
        """Return what an element or an alternative brings to the plate, contacts at pick-up included."""
        itself = self.of_item(element.item)
        if self._facts.served_raw and isinstance(element, Element) and element.raw:
            itself = _served_raw(itself, self._facts.served_raw)
        return join((itself, *self._contacts(element.through))) if element.through else itself

    def of_touches(self, dish: Dish) -> Makeup:
        """Return what touches a dish and is no element: oil for the pan, bench flour, egg wash."""
        return join(self.of_item(item) for item in dish.also_touches)

    def _cook(self) -> None:
        """Ask every food in turn, and note whether any grew."""
        for item, left in self._left.items():
            found = [self._of_by_product(item, *one) for one in left]
            trim = join((*found, self._facts.made.get(item, NOTHING)))
            if trim != self._trim.get(item):
                self._trim[item], self._grew = trim, True
                self._held.pop(item, None)
        still_open = []
        for steps in self._open:
            id_ = steps.id
            after = self._contents(steps)
            if after != self._after[id_]:
                self._after[id_], self._grew = after, True
                self._held.pop(id_, None)
            # No round and no menu can change what is bought, nor what is made of such alone.
            if steps.meets_media or not self._unsettled.isdisjoint(steps.items):
                still_open.append(steps)
            else:
                self._unsettled.discard(id_)
                self._facts.settled[id_] = (self._house, self._after[id_])
        self._open = still_open
        for dish, element in self._dipped:
            # Bench flour or egg wash may be on it when it goes in.
            self._meet(element.through, join((self.of_element(element), self.of_touches(dish))))

    def _contents(self, steps: _Steps) -> tuple[Makeup, ...]:
        """Return what is in at the start and after each stage. What names no stage is in from the start."""
        id_ = steps.id
        held = self._held
        items = [held.get(item) or self.of_item(item) for item in steps.items]
        if not steps.meets_media:
            known = self._made_of.get(id_)
            if known is not None and _is_same(items, known):
                return self._after[id_]
            self._made_of[id_] = items
        itself = self._facts.made.get(id_, NOTHING)
        if steps.only_ends and id_ not in self._cooked:
            return (join((*items, itself)),)
        content = join((*items[: steps.early], itself))
        after, at = [content], steps.early
        for number, (count, through) in enumerate(steps.added):
            content = join((content, *items[at : at + count], *self._contacts(through)))
            at += count
            self._meet(through, content)
            if (id_, number) in self._facts.cooked:
                away = self._facts.cooked_away
                content = Makeup(contains=frozenset(one for one in content.contains if one.substance not in away))
            after.append(content)
        return tuple(after)

    def _of_by_product(self, item: str, parent: str, source: str | None, leaves: int | None) -> Makeup:
        after = self._after.get(parent)
        if after is None:
            return Makeup(undeclared=frozenset((Trace("", item),)))
        if source is None or leaves is None:
            return after[-1]
        return join((self.of_item(source), after[leaves] if leaves < len(after) else NOTHING))

    def _contacts(self, through: Sequence[str]) -> list[Makeup]:
        return [self._contact(id_) for id_ in through]

    def _contact(self, id_: str) -> Makeup:
        """Return what goes over from a medium: all it carries, and traces of all else that went through."""
        medium = self._media.get(id_)
        carried = [self.of_item(item) for item in (medium.carries if medium else ())]
        pool = NOTHING if medium is not None and medium.changed_between else self._pools.get(id_, NOTHING)
        made_of = [*carried, pool]
        known = self._contact_of.get(id_)
        if known is None or not _is_same(made_of, known[0]):
            known = self._contact_of[id_] = (made_of, _contact(id_, join(carried), pool))
        return known[1]

    def _meet(self, through: Sequence[str], content: Makeup) -> None:
        for id_ in through:
            pool = self._pools.get(id_)
            if pool is None or not _holds(pool, content):
                self._pools[id_], self._grew = join((pool or NOTHING, content)), True


def _leaving(parent: Component, by_product: ByProduct) -> tuple[str, str | None, int | None]:
    """Return who leaves a by-product, what it is cut from, and after how many stages; None where it does not say."""
    stages = [stage.name for stage in parent.stages]
    leaves = stages.index(by_product.after) + 1 if by_product.after in stages else None
    return parent.id, by_product.source, leaves


def _contact(medium: str, carried: Makeup, pool: Makeup) -> Makeup:
    """Return what goes over from a medium that carries something and has met what is in a pool."""
    own = Makeup(
        contains=_through(medium, carried.contains),
        may=_through(medium, carried.may),
        undeclared=_through(medium, carried.undeclared),
    )
    met = Makeup(may=_through(medium, pool.contains | pool.may), undeclared=_through(medium, pool.undeclared))
    return own if pool is NOTHING else join((own, met))


def _holds(whole: Makeup, part: Makeup) -> bool:
    """Return whether all that is in a part is in the whole."""
    return part.contains <= whole.contains and part.may <= whole.may and part.undeclared <= whole.undeclared


def _is_same(some: Sequence[Makeup], others: Sequence[Makeup]) -> bool:
    """Return whether two rows of as many makeups are the very same values."""
    return all(map(is_, some, others))


def declared_facts(house: House) -> Facts:
    """Return what the pantry declares of the substances in it."""
    return Facts(bought={id_: declared_makeup(item) for id_, item in house.pantry.items()})


def _served_raw(makeup: Makeup, words: frozenset[str]) -> Makeup:
    """Return what is in a thing that is served raw: for these words, that it is raw is certain."""
    sure = frozenset(trace for trace in makeup.undeclared if trace.substance in words)
    return Makeup(contains=makeup.contains | sure, may=makeup.may, undeclared=makeup.undeclared - sure)


def _through(medium: str, traces: frozenset[Trace]) -> frozenset[Trace]:
    return frozenset(Trace(trace.substance, trace.item, medium) for trace in traces)


@remembered
def components_of(house: House, menu: Menu) -> tuple[str, ...]:
    """Return every component the menu needs at any depth, with parents of by-products and what its media carry.

    Alternatives are needed too: they are cooked for the guest who asks.
    """
    carries = {medium.id: medium.carries for medium in house.file.media}
    waiting = [item for entry in menu.dishes for item in _named_by_dish(house.dishes[entry.dish], carries)]
    waiting.reverse()
    found: dict[str, None] = {}
    while waiting:
        item = waiting.pop()
        makers = [parent.id for parent, _ in house.by_products.get(item, ())]
        for id_ in (item, *makers):
            if id_ in house.components and id_ not in found:
                found[id_] = None
                waiting.extend(_named_by_component(house.components[id_], carries))
    return tuple(found)


def _named_by_dish(dish: Dish, carries: Mapping[str, Sequence[str]]) -> list[str]:
    through = [medium for element in dish.ever_served for medium in element.through]
    return [
        *(element.item for element in dish.ever_served),
        *dish.also_touches,
        *(item for medium in through for item in carries.get(medium, ())),
    ]


def _named_by_component(component: Component, carries: Mapping[str, Sequence[str]]) -> list[str]:
    through = [medium for stage in component.stages for medium in stage.through]
    return [
        *(line.item for line in component.ingredients),
        *component.adjust_with,
        *component.also_touches,
        *(item for medium in through for item in carries.get(medium, ())),
    ]
