"""The cutting plan of a component: its block from above with every cut, the cuts in words, and how many blocks to cut.

Works from a computed plan and sized batches alone. In a binder it has a column for each standard night.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from math import ceil, floor
from typing import Final

from linebook.compute.numerals import decimal_text
from linebook.compute.portioning import portion_parts, portions_of_blocks
from linebook.compute.results import Batch, Night
from linebook.documents.naming import kicker
from linebook.documents.parts import Labelled, Member, PlateFigure
from linebook.documents.second import dish_name, item_name, size_name
from linebook.documents.text import EMPTY, NO_BREAK, Text, joined, strong, words
from linebook.documents.wording import Wording
from linebook.model.component import Component
from linebook.model.cutting import BlocksCut, CutPlan, Cuts, Stroke, blocks_for, cut_plan, cuts_of, pieces_made
from linebook.model.dish import Dish, Size
from linebook.model.house import House
from linebook.model.units import ratio
from linebook.source.exact import Fraction
from linebook.source.frozen import frozen

DOCUMENT: Final = "cutting-plan"
FIGURE: Final = "cutting"


@frozen
class CutRow:
    """One count of blocks or pieces, with a figure for each night."""

    key: str
    """For data-key."""
    name: Text
    """What is counted."""
    figures: tuple[Text, ...]
    """The counts."""


@frozen
class CuttingPlan:
    """All a cutting plan shows. ``night`` is true for a sheet of one batch."""

    id: str
    """The sheet's own id."""
    line: str
    """The id of its line."""
    night: bool
    """Whether it is for one batch, and not for a binder."""
    kicker: Text
    """Over the name: the line and what sheet this is."""
    title: Text
    """The name of the component."""
    aside: Text
    """For which night, or that it is a draft; may be empty."""
    lead: Text
    """How many pieces of what size a block gives."""
    block: Text
    """The size of a block."""
    figure: PlateFigure
    """The drawing of a block from above."""
    steps: tuple[Member, ...]
    """The cuts in words, in order."""
    heads: tuple[Text, ...]
    """The heads of the counts: the base batch and the standard nights, or one batch."""
    rows: tuple[CutRow, ...]
    """Blocks, pieces needed and pieces over."""
    facts: tuple[Labelled, ...]
    """What a portion is, what the cuts take and what is left over."""


def binder_cutting_plan(house: House, base: Batch, nights: Sequence[Night], menu: str, wording: Wording) -> CuttingPlan:
    """Return the plan that lives in a binder, of a component that is cut.

    It tells the base batch and each standard night that needs the component.
    """
    batches = [(wording.say("cutting.base"), base)]
    for night in nights:
        if base.component.id in night.batches:
            covers = wording.say_count("covers", night.occasion.covers)
            batches.append((covers, night.batches[base.component.id]))
    writer = _writer(house, base.component, wording)
    return writer.plan_for(batches, menu, night=False, key="", only=EMPTY)


def night_cutting_plan(house: House, night: Night, component: str, wording: Wording) -> CuttingPlan:
    """Return the plan of one batch, of a component that is cut, for one night."""
    batch, occasion = night.batches[component], night.occasion
    only, key = wording.say("only-for.once"), "once"
    if occasion.covers:
        only, key = wording.say("only-for.covers", covers=occasion.covers), f"{occasion.covers}-covers"
    if occasion.date is not None:
        only, key = wording.say("only-for.day", day=wording.day(occasion.date)), occasion.date.isoformat()
    batches = [(wording.say("cutting.tonight"), batch)]
    writer = _writer(house, batch.component, wording)
    return writer.plan_for(batches, occasion.menu, night=True, key=f":{key}", only=only)


def _writer(house: House, component: Component, wording: Wording) -> _PlanWriter:
    assert component.cut is not None
    return _PlanWriter(house=house, component=component, plan=cut_plan(component.cut), wording=wording)


@frozen
class _PlanWriter:
    house: House
    component: Component
    plan: CutPlan
    wording: Wording

    def plan_for(
        self, batches: Sequence[tuple[Text, Batch]], menu: str, *, night: bool, key: str, only: Text
    ) -> CuttingPlan:
        """Return the view: one column for each batch."""
        component, say = self.component, self.wording.say
        draft = EMPTY if component.tested else say("draft")
        steps = tuple(self._steps())
        return CuttingPlan(
            id=f"{DOCUMENT}:{component.id}{key}",
            line=component.line,
            night=night,
            kicker=kicker(self.house, component.line, DOCUMENT, self.wording),
            title=item_name(self.house, component.id),
            aside=self.wording.listed((only, draft)),
            lead=self._gives(),
            block=say("cutting.block", size=self._size(*self.plan.cut.block)),
            figure=PlateFigure(name=FIGURE, alternative=self._alternative(steps), caption=say("cutting.caption")),
            steps=steps,
            heads=tuple(head for head, _ in batches),
            rows=tuple(self._rows([self._blocks(batch) for _, batch in batches])),
            facts=tuple(self._facts(menu)),
        )

    def _gives(self) -> Text:
        return self.wording.say_count("cutting.lead", self.plan.pieces, size=self._size(*self.plan.cut.piece))

    def _alternative(self, steps: Sequence[Member]) -> Text:
        said = joined((step.text for step in steps), self.wording.say("sentence.between"))
        block = self._size(*self.plan.cut.block)
        return self.wording.say("cutting.alternative", block=block, steps=said, pieces=self._gives())

    def _steps(self) -> Iterator[Member]:
        """Yield the edges, the strips, then each group of strips across; each with the numbers of its cuts."""
        plan, say = self.plan, self.wording.say
        cuts = {(one.stroke, one.group): one for one in cuts_of(plan)}
        if plan.cut.edges:
            edges = say("cutting.edges", edges=_mm(plan.cut.edges))
            yield self._step("edges", edges, cuts.get((Stroke.EDGES, 0)))
        strips = [self._count("strips-of", group.count, width=_mm(group.width)) for group in plan.groups]
        said = say("cutting.strips", strips=self.wording.listed_with_and(strips), length=_mm(plan.length))
        yield self._step("strips", said, cuts.get((Stroke.STRIPS, 0)))
        which = "across" if len(plan.groups) == 1 else "across-of"
        for at, group in enumerate(plan.groups):
            across = self._count(which, group.pieces, length=_mm(group.length), width=_mm(group.width))
            yield self._step(f"across-{at + 1}", across, cuts.get((Stroke.ACROSS, at)))

    def _step(self, key: str, what: Text, cuts: Cuts | None) -> Member:
        say = self.wording.say
        if cuts is None:
            return Member(key=f"cut.{key}", text=say("cutting.step.uncut", what=what))
        numbers = self.wording.say_unparted("cutting.cuts", cuts.count, first=cuts.first, last=cuts.last)
        return Member(key=f"cut.{key}", text=say("cutting.step", what=what, cuts=numbers))

    def _blocks(self, batch: Batch) -> BlocksCut:
        """Return the blocks that are made and the pieces that are needed of them: of a night what is short on hand.

        Where more is made than is needed, in whole steps or to a smallest batch, that more is over too. Of a size that
        was asked for by hand, the whole pieces it gives are needed.
        """
        whole = pieces_made(self.component, self.plan)
        made = batch.pieces if batch.pieces is not None else batch.factor * whole
        needed = Fraction(floor(made) or 1)
        if batch.needed is not None and batch.surplus is not None:
            needed = Fraction(ceil((batch.factor - ratio(batch.surplus, self.component.makes)) * whole))
        found = blocks_for(self.plan, made, needed=needed)
        assert found is not None  # a cut that gives no piece is a fault of the spec
        return found

    def _rows(self, cut: Sequence[BlocksCut]) -> Iterator[CutRow]:
        counts = {
            "blocks": [Fraction(one.blocks) for one in cut],
            "pieces": [one.needed for one in cut],
            "over": [one.over for one in cut],
        }
        for key, numbers in counts.items():
            figures = tuple(words(decimal_text(number, 1)) for number in numbers)
            bold = key == "blocks"
            yield CutRow(
                key=f"count.{key}",
                name=self.wording.say(f"cutting.{key}"),
                figures=tuple(strong(figure) for figure in figures) if bold else figures,
            )

    def _facts(self, menu: str) -> Iterator[Labelled]:
        plan, say = self.plan, self.wording.say
        portions = tuple(self._portions(menu))
        if portions:
            yield self._fact("portion", joined(portions, say("list.semicolon")))
        if plan.cut.kerf:
            yield self._fact("kerf", say("cutting.kerf", kerf=_mm(plan.cut.kerf)))
        offcuts = [
            say(
                "cutting.offcut",
                count=one.count,
                size=self._size(max(one.length, one.width), min(one.length, one.width)),
            )
            for one in plan.offcuts
        ]
        if offcuts:
            yield self._fact("left-over", self.wording.listed(offcuts))
        yield self._fact("lost", self.wording.listed(self._parts()))

    def _parts(self) -> Iterator[Text]:
        """Yield where a block goes, by area."""
        plan = self.plan
        parts = {
            "in-pieces": plan.in_pieces,
            "in-edges": plan.in_edges,
            "in-kerf": plan.in_kerf,
            "in-offcuts": plan.in_offcuts,
        }
        for key, part in parts.items():
            if part:
                yield self.wording.say(f"cutting.{key}", part=words(f"{decimal_text(part * 100, 1)}{NO_BREAK}%"))

    def _portions(self, menu: str) -> Iterator[Text]:
        """Yield what a portion of each dish is in pieces, in each of its sizes, and how many a block gives."""
        whole = pieces_made(self.component, self.plan)
        for portion in portion_parts(self.house, self.component, menu):
            if pieces := portion.part * whole:
                yield self._portion(portion.dish, portion.size, pieces)

    def _portion(self, dish: Dish, size: Size | None, pieces: Fraction) -> Text:
        name = dish_name(self.house, dish.id)
        if size is not None:
            name = self.wording.say("cover.size", dish=name, size=size_name(self.house, dish, size))
        said = self.wording.say("cutting.part-pieces", count=decimal_text(pieces, 2))
        if pieces.denominator == 1:
            said = self.wording.say_count("pieces", int(pieces))
        count = portions_of_blocks(self.plan, 1, pieces).count
        portions = self.wording.say_count("cutting.portions", count)
        return self.wording.say("cutting.portion", dish=name, pieces=said, portions=portions)

    def _fact(self, key: str, value: Text) -> Labelled:
        return Labelled(key=f"fact.{key}", label=self.wording.say(f"cutting.fact.{key}"), value=value)

    def _count(self, key: str, count: int, **values: Text) -> Text:
        return self.wording.say_count(f"cutting.{key}", count, **values)

    def _size(self, length: Fraction, width: Fraction) -> Text:
        sides = (decimal_text(length, 1), decimal_text(width, 1))
        return words(f"{sides[0]}{NO_BREAK}×{NO_BREAK}{sides[1]}{NO_BREAK}mm")


def _mm(length: Fraction) -> Text:
    return words(f"{decimal_text(length, 1)}{NO_BREAK}mm")
