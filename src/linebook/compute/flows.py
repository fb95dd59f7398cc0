"""The ways by which a thing comes into a dish, one step at a time: what each part of a menu is made of and has met.

A graph walked from the plate to the pantry. It says nothing of substances and must agree with ``makeup``, which adds
up over the same ways: a test holds the two against each other.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from typing import Literal, NamedTuple, TypeAlias

from linebook.compute.makeup import components_of
from linebook.model.component import ByProduct, Component, Ingredient, Stage
from linebook.model.dish import Alternative, Dish, Element
from linebook.model.house import House
from linebook.model.menu import Menu
from linebook.model.record import Record
from linebook.source.spans import Span

StepKind: TypeAlias = Literal[
    "element", "alternative", "touches", "component", "by-product", "item", "medium", "dish", "menu", "ground"
]


class Step(NamedTuple):
    """One step of a way: what comes next, by its id, and where a file says so.

    A ``ground`` is the end: the declaration, the origin or the bought item itself that answers the question.
    """

    kind: StepKind
    id: str
    span: Span


class Node(NamedTuple):
    """A part of a menu as it is at one moment. ``at`` counts menus since the oil was changed; ``number`` counts.

    ``sort`` is ``item`` (all that an id names), ``bought``, ``made`` (the component or by-product itself), ``content``
    (of a component after that many stages), ``before`` (the same before that stage has cooked it), ``served`` (a dish's
    element or alternative of that number), ``touches`` or ``pool`` (what a medium has met).
    """

    sort: str
    at: int
    id: str
    number: int = 0


class Edge(NamedTuple):
    """A way from a part to what it holds or has met: sure, or through a shared medium. Steps may be none or several."""

    to: Node
    steps: tuple[Step, ...] = ()


class Flows:
    """The ways of the menus whose food a medium still holds, each in the house as it was then, the menu served last."""

    def __init__(self, served: Sequence[tuple[House, Menu]]) -> None:
        self.houses = tuple(house for house, _ in served)
        self.house = self.houses[-1]
        self.menus = tuple(menu for _, menu in served)
        self._media = [{medium.id: medium for medium in house.file.media} for house in self.houses]
        self._served = [components_of(house, menu) for house, menu in served]

    @property
    def last(self) -> int:
        """The number of the menu that is served."""
        return len(self.menus) - 1

    def of_dish(self, dish: Dish) -> Iterator[Edge]:
        """Yield the ways into a dish as it is sent: its elements and what touches it."""
        for number in range(len(dish.elements)):
            yield Edge(Node("served", self.last, dish.id, number))
        yield Edge(Node("touches", self.last, dish.id))

    def ways(self, node: Node) -> Iterator[Edge]:
        """Yield every way on from a part, in the order of its card. Pools are asked for by ``met``."""
        if node.sort == "item":
            yield from self._of_item(node)
        elif node.sort in ("content", "before"):
            yield from self._of_content(node, self.houses[node.at].components[node.id])
        elif node.sort == "served":
            dish = self.houses[node.at].dishes[node.id]
            part = dish.ever_served[node.number]
            kind: StepKind = "element" if isinstance(part, Element) else "alternative"
            yield Edge(Node("item", node.at, part.item), (Step(kind, part.item, part.at("item")),))
            yield from self._contacts(node.at, part)
        elif node.sort == "touches":
            dish = self.houses[node.at].dishes[node.id]
            yield from self._listed(node.at, dish, "also_touches", dish.also_touches)

    def met(self, pool: Node) -> Iterator[Edge]:
        """Yield all that a medium has met, in this menu and in those before it."""
        menu, house = self.menus[pool.at], self.houses[pool.at]
        before = () if pool.at == self.last else (Step("menu", menu.id, menu.at("name")),)
        for id_ in self._served[pool.at]:
            component = house.components[id_]
            for number, stage in enumerate(component.stages, start=1):
                if pool.id in stage.through:
                    step = Step("component", id_, _place(stage, f"through.{stage.through.index(pool.id)}", "through"))
                    yield Edge(Node("before", pool.at, id_, number), (*before, step))
        for dish in (house.dishes[entry.dish] for entry in menu.dishes):
            for number, part in enumerate(dish.ever_served):
                if pool.id in part.through:
                    step = Step("dish", dish.id, _place(part, f"through.{part.through.index(pool.id)}", "through"))
                    yield Edge(Node("served", pool.at, dish.id, number), (*before, step))
                    yield Edge(Node("touches", pool.at, dish.id), (*before, step))
        if pool.at > 0:
            yield from self.met(pool._replace(at=pool.at - 1))

    def _of_item(self, node: Node) -> Iterator[Edge]:
        house = self.houses[node.at]
        if node.id in house.pantry:
            yield Edge(node._replace(sort="bought"))
        if node.id in self._served[node.at]:
            yield Edge(Node("content", node.at, node.id, len(house.components[node.id].stages)))
        makers = house.by_products.get(node.id, ())
        if makers:
            yield Edge(node._replace(sort="made"))
        for parent, by_product in makers:
            yield from self._of_by_product(node.at, parent, by_product)

    def _of_by_product(self, at: int, parent: Component, by_product: ByProduct) -> Iterator[Edge]:
        step = Step("by-product", parent.id, by_product.at("item"))
        stages = [stage.name for stage in parent.stages]
        if by_product.source is None or by_product.after not in stages:
            yield Edge(Node("content", at, parent.id, len(stages)), (step,))
            return
        origin = Step(self._kind(at, by_product.source), by_product.source, _place(by_product, "from", "source"))
        yield Edge(Node("item", at, by_product.source), (step, origin))
        yield Edge(Node("content", at, parent.id, stages.index(by_product.after) + 1), (step,))

    def _of_content(self, node: Node, component: Component) -> Iterator[Edge]:
        stages = [stage.name for stage in component.stages]
        if node.number == 0:
            yield Edge(Node("made", node.at, node.id))
            early = [line for line in component.ingredients if line.stage not in stages]
            yield from self._lines(node.at, early)
            yield from self._listed(node.at, component, "adjust_with", component.adjust_with)
            yield from self._listed(node.at, component, "also_touches", component.also_touches)
            return
        yield Edge(Node("content", node.at, node.id, node.number - 1))
        stage = component.stages[node.number - 1]
        yield from self._lines(node.at, [line for line in component.ingredients if line.stage == stage.name])
        yield from self._contacts(node.at, stage)

    def _lines(self, at: int, lines: Sequence[Ingredient]) -> Iterator[Edge]:
        for line in lines:
            yield Edge(Node("item", at, line.item), (Step(self._kind(at, line.item), line.item, line.at("item")),))

    def _listed(self, at: int, card: Record, part: str, items: Sequence[str]) -> Iterator[Edge]:
        for number, item in enumerate(items):
            kind: StepKind = "touches" if part == "also_touches" else self._kind(at, item)
            yield Edge(Node("item", at, item), (Step(kind, item, _place(card, f"{part}.{number}", part)),))

    def _contacts(self, at: int, part: Stage | Element | Alternative) -> Iterator[Edge]:
        for number, id_ in enumerate(part.through):
            step = Step("medium", id_, _place(part, f"through.{number}", "through"))
            medium = self._media[at].get(id_)
            for place, item in enumerate(medium.carries if medium else ()):
                assert medium is not None
                held = Step("item", item, _place(medium, f"carries.{place}", "carries"))
                yield Edge(Node("item", at, item), (step, held))
            if medium is None or not medium.changed_between:
                yield Edge(Node("pool", at, id_), (step,))

    def _kind(self, at: int, item: str) -> StepKind:
        if item in self.houses[at].components:
            return "component"
        return "item" if item in self.houses[at].pantry else "by-product"


def _place(record: Record, *names: str) -> Span:
    return next((record.spans[name] for name in names if name in record.spans), record.span)
