"""Why a batch is as large as it is, in words: what the night needs, what is on hand, what is over, what was had.

All of it is computed elsewhere; nothing is said of what is as on any other night.
"""

from __future__ import annotations

from collections.abc import Iterator

from linebook.compute.leftovers import keeps_until_next
from linebook.compute.results import Batch, Night, PortionsGiven, StockUse
from linebook.compute.steps import is_in_whole_steps, is_under_smallest, pieces_in
from linebook.documents.differences import SizeFigures, left_text, size_figures
from linebook.documents.ingredients import total_text
from linebook.documents.measures import Measures
from linebook.documents.parts import Labelled
from linebook.documents.second import dish_name, item_name, size_name
from linebook.documents.text import EMPTY, Text
from linebook.model.amounts import Amount
from linebook.model.house import House
from linebook.read.ids import kebab
from linebook.source.frozen import frozen


@frozen
class SizeWriter:
    """Words the size of one night's batch. ``portions_said``: the card tells already how many portions it gives."""

    house: House
    night: Night
    batch: Batch
    measures: Measures
    portions_said: bool = False

    def facts(self) -> Iterator[Labelled]:
        """Yield what a cook must know of the size before weighing."""
        yield from self._had()
        if self.batch.needed is None:
            yield from self._asked()
            return
        stock = [use for use in self.night.stock if use.entry.item == self.batch.component.id]
        figures = size_figures(self.batch, self.measures, over=self._matters())
        over = self._over(figures)
        if stock or over:
            yield self._fact("needed", self._needed(figures.needed))
        if stock:
            yield self._fact("on-hand", self.measures.wording.separated(map(self._stock, stock)))
        if over:
            yield self._fact("over", over)

    def _needed(self, amount: Text) -> Text:
        say = self.measures.wording.say
        if self.batch.on_hand is None or not self.batch.on_hand.number:
            return say("sizing.needed", needed=amount)
        make = total_text(self.batch, self.measures)
        return say("sizing.needed-make", needed=amount, make=make)

    def _stock(self, use: StockUse) -> Text:
        wording, entry = self.measures.wording, use.entry
        dates = [wording.say("sizing.made", day=wording.day(entry.made))] if entry.made else []
        if use.last:
            dates.append(wording.say("sizing.use-by", day=wording.day(use.last)))
        if use.reason is not None:
            amount = wording.listed((self.measures.typed(entry.amount), *dates[:1]))
            reason = wording.say(f"sizing.not-counted.{kebab(use.reason.name)}")
            return wording.say("sizing.not-counted", amount=amount, reason=reason)
        amount = self.measures.typed(entry.amount)
        if not dates:
            return wording.say("sizing.on-hand.undated", amount=amount)
        return wording.say("sizing.on-hand", amount=amount, dates=wording.listed(dates))

    def _over(self, figures: SizeFigures) -> Text:
        """Return how much more is made than is needed, why, and whether it keeps; nothing for the rest of a piece."""
        if not self._matters():
            return EMPTY
        return self.measures.wording.separated((self._why(figures), self._kept()))

    def _matters(self) -> bool:
        component, total, surplus = self.batch.component, self.batch.total, self.batch.surplus
        if surplus is None:
            return False
        pieces = pieces_in(component)
        if pieces and surplus.number < component.makes.number / pieces:
            return False
        return surplus.number > self.measures.house.tolerance * total.number

    def _why(self, figures: SizeFigures) -> Text:
        say, component, amount = self.measures.wording.say, self.batch.component, figures.over
        number = self.batch.total.number - (self.batch.surplus.number if self.batch.surplus else 0)
        wanted = Amount(number=number, unit=self.batch.total.unit)
        if component.smallest_batch and is_under_smallest(component, wanted):
            smallest = self.measures.typed(component.smallest_batch)
            return say("sizing.over.smallest", amount=amount, wanted=figures.wanted, smallest=smallest)
        if component.batch_step:
            return say("sizing.over.step", amount=amount, step=self.measures.typed(component.batch_step))
        return say("sizing.over", amount=amount)

    def _kept(self) -> Text:
        wording, day = self.measures.wording, self.night.occasion.date
        kept = keeps_until_next(self.house, self.batch.component, day) if day else None
        if kept is None or day is None:
            return EMPTY
        following = wording.day(kept.next_service)
        if not kept.known:
            return wording.say("sizing.keeps-unknown")
        if kept.made_from is None:
            return wording.say("sizing.keeps-not", day=following)
        key = "sizing.keeps" if kept.made_from < day else "sizing.keeps-if-fresh"
        return wording.say(key, day=following, made=wording.day(kept.made_from))

    def _asked(self) -> Iterator[Labelled]:
        """Yield what is odd about a size that was asked for by hand."""
        say, component = self.measures.wording.say, self.batch.component
        odd = []
        if component.smallest_batch and is_under_smallest(component, self.batch.total):
            smallest = self.measures.typed(component.smallest_batch)
            odd.append(say("sizing.asked.smallest", smallest=smallest))
        if component.batch_step and not is_in_whole_steps(component, self.batch.load):
            odd.append(say("sizing.asked.step", step=self.measures.typed(component.batch_step)))
        if odd:
            yield self._fact("asked", self.measures.wording.separated(odd))

    def _had(self) -> Iterator[Labelled]:
        """Yield which ingredient decides the size, what is left of the others, and how many portions come of it."""
        sized = self.night.sized
        if sized is None:
            return
        wording = self.measures.wording
        if sized.left:
            from linebook.documents.had_words import had_text  # here, because a binder says nothing of what was had

            had = [had_text(self.house, self.batch, one, self.measures) for one in sized.left]
            yield self._fact("had", wording.separated(had))
        if sized.limiting:
            key = "sizing.limit" if len(sized.limiting) == 1 else "sizing.limit.several"
            items = wording.listed_with_and(item_name(self.house, item) for item in sized.limiting)
            yield self._fact("limit", wording.say(key, items=items))
        left = [
            wording.say(
                "sizing.left",
                amount=left_text(self.house, self.batch, one, self.measures),
                item=item_name(self.house, one.item),
            )
            for one in sized.left
            if one.left.number
        ]
        if left:
            yield self._fact("left", wording.listed(left))
        if sized.portions and not self.portions_said:
            yield self._fact("gives", wording.separated(map(self._portions, sized.portions)))

    def _portions(self, given: PortionsGiven) -> Text:
        wording = self.measures.wording
        portions = wording.say_count("portions", given.count)
        portion = self.measures.typed(given.amount)
        if given.dish is None:
            return wording.say("sizing.gives.asked", portions=portions, portion=portion)
        dish = self.house.dishes[given.dish]
        size = next((one for one in dish.sizes[1:] and dish.sizes if one.id == given.size), None)
        values = {"portions": portions, "dish": dish_name(self.house, dish.id), "portion": portion}
        if size is None:
            return wording.say("sizing.gives", **values)
        return wording.say("sizing.gives.size", size=size_name(self.house, dish, size), **values)

    def _fact(self, key: str, value: Text) -> Labelled:
        return Labelled(key=key, label=self.measures.wording.say(f"fact.{key}"), value=value)
