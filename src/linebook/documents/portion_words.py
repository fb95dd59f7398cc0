"""What a portion of each dish carries of a component, in words, and how many portions a batch is enough for."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import field

from linebook.compute.results import AllergenTable, Batch
from linebook.documents.measures import Measures
from linebook.documents.second import dish_name, size_name, tool_text
from linebook.documents.text import Text, joined, strong
from linebook.documents.uses import PortionUse, component_users, portion_uses, portions_from
from linebook.documents.wording import Wording
from linebook.model.component import Component
from linebook.model.house import House
from linebook.source.frozen import frozen


@frozen
class PortionWriter:
    """Words the portions of one component on the menu of an allergen table."""

    house: House
    component: Component
    table: AllergenTable
    measures: Measures
    users: tuple[Component, ...] = field(init=False, compare=False)
    """The components that have it in them."""
    uses: tuple[PortionUse, ...] = field(init=False, compare=False)
    """Every dish and size that carries it."""

    def __post_init__(self) -> None:
        users = component_users(self.house, self.component, self.table.menu)
        object.__setattr__(self, "users", users)
        object.__setattr__(self, "uses", portion_uses(self.house, self.component, self.table.menu))

    @property
    def wording(self) -> Wording:
        """Return the words of the sheet."""
        return self.measures.wording

    def of_batch(self, batch: Batch) -> tuple[int, Text] | None:
        """Return how many portions of what size a batch is enough for, where it is for one thing alone."""
        if batch.pieces is not None or self.users:
            return None
        uses = self.uses
        if len(uses) != 1 or len(uses[0].amounts) != 1:
            return None
        (portion,) = uses[0].amounts
        portions = portions_from(self.component, batch.total, portion)
        return (portions, self.measures.typed(portion)) if portions else None

    def text(self) -> Text:
        """Return what a portion of each dish carries, in each of its sizes, and with which tool."""
        by_dish: dict[str, list[PortionUse]] = {}
        for use in self.uses:
            by_dish.setdefault(use.dish.id, []).append(use)
        return joined(map(self._of_dish, by_dish.values()), self.wording.say("list.semicolon"))

    def _of_dish(self, uses: Sequence[PortionUse]) -> Text:
        dish = uses[0].dish
        elements = [element for element in dish.elements if element.item == self.component.id]
        tools = {element.tool: tool_text(self.house, dish, element) for element in elements if element.tool}
        carried = self.wording.listed((*map(self._of_size, uses), *tools.values()))
        return self.wording.say("portion", dish=dish_name(self.house, dish.id), carried=carried)

    def _of_size(self, use: PortionUse) -> Text:
        size = use.size
        if size is None or size.factor == 1 or self.component.id in size.amounts:
            amounts = [self.measures.typed(amount) for amount in use.amounts]
        else:
            amounts = [self.measures.short(amount) for amount in use.amounts]
        said = strong(self.wording.listed_with_and(amounts))
        return (
            self.wording.say("portion.size", amount=said, size=size_name(self.house, use.dish, size)) if size else said
        )
