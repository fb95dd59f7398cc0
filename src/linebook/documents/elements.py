"""The rows of what a portion carries, for the cook at pick-up and for the pass. Knows no sheet."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from linebook.compute.portions import element_amount
from linebook.compute.results import Printed
from linebook.documents.measures import Measures, duration_text
from linebook.documents.naming import made_by, medium_name
from linebook.documents.parts import Measured
from linebook.documents.second import element_note, item_name, tool_text, vessel_name
from linebook.documents.text import EMPTY, Text, joined, strong
from linebook.model.dish import Alternative, Dish, Element, Hold, Size
from linebook.model.house import House
from linebook.source.frozen import frozen


@frozen
class ElementRow:
    """One thing on the plate: its number in plating order, what one portion carries, and what stands under its name."""

    key: str
    """For data-key."""
    plating: int
    """Its number in plating order."""
    number: Text
    """The number of the amount."""
    unit: Text
    """The unit; may be empty."""
    name: Text
    """What it is."""
    note: Text
    """What must be known of it; may be empty."""
    figures: tuple[Text, ...] = ()
    """The amount in each further size."""


@frozen
class ElementWriter:
    """Writes the elements of one dish. Sizes after the first shown have a column of figures each."""

    house: House
    dish: Dish
    measures: Measures

    @property
    def sizes(self) -> tuple[Size | None, ...]:
        """Return the sizes in print order: the one served as written first; None for a dish that lists none."""
        if not self.dish.sizes:
            return (None,)
        plain = [size for size in self.dish.sizes if size.factor == 1 and not size.amounts]
        first = plain[0] if plain else self.dish.sizes[0]
        return (first, *(size for size in self.dish.sizes if size is not first))

    def rows_with(self, notes: Sequence[Text]) -> tuple[ElementRow, ...]:
        """Return a row for each element, with these notes under the names; all sizes have their figures."""
        seen: dict[str, int] = {}
        rows = []
        for index, element in enumerate(self.dish.elements):
            count = seen[element.item] = seen.get(element.item, 0) + 1
            key = f"element.{element.item}" if count == 1 else f"element.{element.item}.{count}"
            rows.append(self._row(key, index + 1, element, notes[index]))
        return tuple(rows)

    def pick_up_note(self, element: Element, *, with_place: bool) -> Text:
        """Return what a cook must know at pick-up: tool, hold, medium, and where it comes from.

        The spec's own note says how it is set on the plate: it is in here where no plating guide says it.
        """
        say = self.measures.wording.say
        parts = [tool_text(self.house, self.dish, element)]
        if element.hold:
            parts.append(self.measures.wording.listed(self._hold(element.hold)))
        media = (medium_name(self.house, medium, self.measures.wording) for medium in element.through)
        parts += [say("stage.through", medium=medium) for medium in media]
        if element.leave_off:
            parts.append(say("element.leave-off"))
        parts += [self._instead(other) for other in element.alternatives]
        parts.append(
            made_by(self.house, element.item, self.dish.line, self.measures.wording)
            if self._elsewhere(element)
            else EMPTY
        )
        parts.append(element_note(self.house, self.dish, element) if with_place else EMPTY)
        return joined(parts, say("note.between"))

    def _instead(self, other: Alternative) -> Text:
        """Return what may be served instead, how much of it, through what, and what its own note says."""
        media = (medium_name(self.house, medium, self.measures.wording) for medium in other.through)
        said = self.measures.wording.say(
            "element.instead",
            amount=self.measures.typed(other.amount),
            item=item_name(self.house, other.item),
        )
        through = (self.measures.wording.say("stage.through", medium=medium) for medium in media)
        return self.measures.wording.listed((said, *through, element_note(self.house, self.dish, other)))

    def _elsewhere(self, element: Element) -> bool:
        component = self.house.components.get(element.item)
        return component is None or component.line != self.dish.line

    def _row(self, key: str, number: int, element: Element, note: Text) -> ElementRow:
        main, *others = [self._portion(element, size) for size in self.sizes]
        return ElementRow(
            key=key,
            plating=number,
            number=strong(main.number),
            unit=strong(main.unit),
            name=strong(item_name(self.house, element.item)),
            note=joined((note, self._under(main, others)), self.measures.wording.say("note.between")),
            figures=tuple(strong(other.whole) for other in others),
        )

    def _under(self, main: Measured, others: Sequence[Measured]) -> Text:
        """Return what is to be said under the figures: of several sizes the other system's figures in their order."""
        return (self.measures.besides((main, *others)) if others else EMPTY) or main.note

    def _portion(self, element: Element, size: Size | None) -> Measured:
        """Return what a portion in a size carries: as the chef wrote it, rounded only where the size multiplies it."""
        amount = element_amount(element, size)
        if size is None or size.factor == 1 or element.item in size.amounts:
            return self.measures.measured(Printed(amount=amount))
        return self.measures.amount(amount)

    def _hold(self, hold: Hold) -> Iterator[Text]:
        say = self.measures.wording.say
        if hold.vessel:
            yield vessel_name(self.house, hold.vessel)
        if hold.temperature:
            yield say("element.hold-at", heat=self.measures.temperature(hold.temperature))
        if hold.most:
            yield say("element.hold-most", time=duration_text(hold.most, self.measures.wording))
        if hold.after:
            yield say(f"element.after.{hold.after.replace(' ', '-')}")
