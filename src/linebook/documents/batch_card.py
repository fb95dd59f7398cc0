"""The batch card of a component: in a binder with the base batch and the house's standard nights, or for one night.

Chooses and words what a cook on prep reads; computes nothing but how an amount is said.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import replace
from datetime import date

from linebook.compute.results import AllergenTable, Batch, Night
from linebook.compute.totals import hands_on_time, lead_time
from linebook.documents.allergen_lines import component_allergens
from linebook.documents.braces import BinderBraces, NightBraces
from linebook.documents.ingredients import (
    BinderFigures,
    IngredientGroup,
    IngredientWriter,
    NightFigures,
    names_head,
    pieces_text,
    printed_total,
)
from linebook.documents.keeping import equipment_text, keeps_text, making_text, store_text, use_by_text
from linebook.documents.limit_boxes import limit_box
from linebook.documents.measures import Measures, duration_text, per_cent, typed_text
from linebook.documents.method import MethodWriter, SayAmount
from linebook.documents.naming import kicker, names_of
from linebook.documents.parts import AllergenLine, Labelled, Section
from linebook.documents.second import (
    dish_name,
    item_name,
    said_sections,
    section_title,
    size_name,
    sort_text,
    tool_text,
)
from linebook.documents.stages import StageWriter
from linebook.documents.text import EMPTY, Text, joined, strong
from linebook.documents.uses import PortionUse, component_users, portion_uses, portions_from
from linebook.documents.wording import Wording
from linebook.model.component import Component
from linebook.model.house import House
from linebook.model.occasion import Occasion
from linebook.read.ids import kebab
from linebook.source.frozen import frozen

DOCUMENT = "batch-card"
_MOST_USERS = 3


@frozen
class BatchCard:
    """All a batch card shows. ``night`` is true for a sheet of one service.

    Before the names stand an amount under ``main_head``, or one figure under each of ``night_heads``; after them the
    figures under ``after_heads``.
    """

    id: str
    """The sheet's own id."""
    line: str
    """The id of its line."""
    night: bool
    """Whether it is for one night, and not for a binder."""
    kicker: Text
    """Over the name: the line and what sheet this is."""
    title: Text
    """The name of the component."""
    aside: Text
    """For which night, or that it is a draft; may be empty."""
    makes: Text
    """What it makes."""
    loads: Text
    """In how many loads; empty where it is one."""
    keeping: tuple[Labelled, ...]
    """Use-by and store."""
    facts: tuple[Labelled, ...]
    """What to know before starting, as time and equipment."""
    allergens: tuple[AllergenLine, ...]
    """Contains, may contain and undeclared, always all three."""
    main_head: Text
    """The head over the amount."""
    night_heads: tuple[Text, ...]
    """The heads of the standard nights; none on a night's sheet."""
    names_head: Text
    """The head over the names."""
    after_heads: tuple[Text, ...]
    """The heads of the quiet figures after the names."""
    groups: tuple[IngredientGroup, ...]
    """What to weigh, by stage."""
    also: tuple[Labelled, ...]
    """What else it touches, and what it is adjusted with."""
    stages: tuple[Section, ...]
    """The method by stage, with its limits."""
    sections: tuple[Section, ...]
    """The other parts of the method."""
    about: tuple[Labelled, ...]
    """What it is, and what it is for."""

    @property
    def columns(self) -> int:
        """Return how many columns the table of ingredients has."""
        return self.night + (len(self.night_heads) or 2) + 1 + len(self.after_heads)


def binder_batch_card(
    house: House, base: Batch, nights: Sequence[Night], table: AllergenTable, wording: Wording
) -> BatchCard:
    """Return the card that lives in a binder for weeks: the base batch, and one load of each standard night.

    Nights that do not need the component have no column. No date of service is on it.
    """
    writer = _CardWriter(house=house, base=base, table=table, wording=wording)
    columns = [
        (_covers(night.occasion, wording), night.batches[base.component.id])
        for night in nights
        if base.component.id in night.batches
    ]
    figures = BinderFigures(base=base, nights=columns, house=house, measures=writer.measures)
    table_writer = IngredientWriter(house=house, batch=base, measures=writer.measures)
    yields = figures.yields()
    braces = BinderBraces(house=house, batch=base, wording=wording)
    return writer.card(
        night=False,
        aside=writer.draft(),
        batch=base,
        keeping=(
            Labelled(key="keeps", label=wording.say("fact.keeps"), value=keeps_text(base.component, writer.stages)),
        ),
        main_head=wording.say("column.base"),
        night_heads=tuple(title for title, _ in columns),
        after_heads=(wording.say("column.base"),) if columns else (),
        groups=(*([yields] if yields else []), *table_writer.groups(figures.line, figures.by_product)),
        say_amount=braces.say,
        log_rows=max(batch.loads for batch in (base, *(batch for _, batch in columns))),
    )


def night_batch_card(
    house: House,
    base: Batch,
    night: Night,
    component: str,
    table: AllergenTable,
    wording: Wording,
    made: date | None = None,
) -> BatchCard:
    """Return the card for one service: each load bold with a box to tick, all loads and the base batch quiet.

    ``made`` is the day from which the component's life counts, where the caller has planned it. An occasion of 0
    covers is a batch that was sized otherwise.
    """
    batch = night.batches[component]
    writer = _CardWriter(house=house, base=base, table=table, wording=wording)
    figures = NightFigures(batch=batch, house=house, measures=writer.measures)
    table_writer = IngredientWriter(house=house, batch=batch, measures=writer.measures, ticks=batch.loads)
    braces = NightBraces(house=house, batch=batch, measures=writer.measures, wording=wording)
    several = batch.loads > 1
    plated = bool(portion_uses(house, batch.component, table.menu))
    use_by = use_by_text(batch.component, night.occasion.date if plated else None, made, writer.stages)
    covers = _covers(night.occasion, wording) if night.occasion.covers else EMPTY
    in_all = [wording.say("column.in-all")] if several else []
    card = writer.card(
        night=True,
        aside=wording.listed((_only_for(night.occasion, wording), writer.draft())),
        batch=batch,
        keeping=(
            *([Labelled(key="for", label=wording.say("fact.for"), value=covers)] if covers else []),
            Labelled(key="use-by", label=wording.say("fact.use-by"), value=use_by),
        ),
        main_head=wording.say("column.each-load" if several else "column.weigh"),
        night_heads=(),
        after_heads=(*in_all, wording.say("column.base")),
        groups=table_writer.groups(figures.line, figures.by_product),
        say_amount=braces.say,
        log_rows=batch.loads,
    )
    return replace(card, id=f"{card.id}:{_occasion_key(night.occasion)}")


@frozen
class _CardWriter:
    """What both forms of the card share."""

    house: House
    base: Batch
    table: AllergenTable
    wording: Wording

    @property
    def measures(self) -> Measures:
        return Measures(house=self.house.file, wording=self.wording)

    @property
    def stages(self) -> StageWriter:
        return StageWriter(house=self.house, measures=self.measures)

    def card(
        self,
        *,
        night: bool,
        aside: Text,
        batch: Batch,
        keeping: tuple[Labelled, ...],
        main_head: Text,
        night_heads: tuple[Text, ...],
        after_heads: tuple[Text, ...],
        groups: tuple[IngredientGroup, ...],
        say_amount: SayAmount,
        log_rows: int,
    ) -> BatchCard:
        component = batch.component
        stages, others = self._method(component, say_amount, log_rows)
        return BatchCard(
            id=f"{DOCUMENT}:{component.id}",
            line=component.line,
            night=night,
            kicker=kicker(self.house, component.line, DOCUMENT, self.wording),
            title=item_name(self.house, component.id),
            aside=aside,
            makes=self._makes(batch, night=night),
            loads=self._loads(batch, night=night),
            keeping=(*keeping, self._fact("store", store_text(batch, self.stages))),
            facts=tuple(self._facts(batch)),
            allergens=component_allergens(self.house, self.table, component.id, self.wording).lines(),
            main_head=main_head,
            night_heads=night_heads,
            names_head=names_head(batch, self.wording),
            after_heads=after_heads,
            groups=groups,
            also=tuple(self._also(component)),
            stages=stages,
            sections=others,
            about=tuple(self._about(component)),
        )

    def draft(self) -> Text:
        """Return the word for a card nobody has tested, or nothing."""
        return EMPTY if self.base.component.tested else self.wording.say("draft")

    def _yield(self, batch: Batch) -> Text:
        total = typed_text(printed_total(batch, self.measures), self.wording)
        if batch.pieces is None:
            return total
        return self.wording.listed((total, pieces_text(batch, self.wording)))

    def _makes(self, batch: Batch, *, night: bool) -> Text:
        """Return the yield: counted, or for how many portions or for what, where it is for one thing alone."""
        key = "makes" if night else "base.makes"
        makes = self._yield(batch)
        uses, users = self._uses(), component_users(self.house, batch.component, self.table.served)
        if batch.pieces is None and len(uses) == 1 and not users and len(uses[0].amounts) == 1:
            (portion,) = uses[0].amounts
            portions = portions_from(batch.component, batch.total, portion)
            if portions:
                said = typed_text(portion, self.wording)
                return self.wording.say(f"{key}.portions", makes=makes, portions=portions, portion=said)
        if batch.pieces is None and not uses and 0 < len(users) <= _MOST_USERS:
            names = names_of(self.house, (user.id for user in users), self.wording)
            return self.wording.say(f"{key}.for", makes=makes, users=names)
        return self.wording.say(key, makes=makes)

    def _loads(self, batch: Batch, *, night: bool) -> Text:
        if batch.loads == 1:
            return EMPTY
        key = "loads" if night else "base.loads"
        return self.wording.say(key, loads=batch.loads, load=self.measures.short(batch.load))

    def _facts(self, batch: Batch) -> Iterator[Labelled]:
        """Yield what a cook must know before the first stage."""
        component = batch.component
        yield self._fact("made", making_text(component, self.measures))
        if component.stages:
            times = {
                "lead": duration_text(lead_time(component), self.wording),
                "work": duration_text(hands_on_time(component), self.wording),
            }
            yield self._fact("takes", self.wording.say("takes", **times))
        yield self._fact("equipment", equipment_text(component, self.stages))
        if component.largest_batch:
            yield self._fact("largest", typed_text(component.largest_batch, self.wording))

    def _about(self, component: Component) -> Iterator[Labelled]:
        """Yield what stands at the end of the card: what it is, and what it is for."""
        say = self.wording.say
        yield self._fact("portion", self._portions() or say("portion.none"))
        users = component_users(self.house, component, self.table.served)
        if users:
            yield self._fact("goes-into", names_of(self.house, (user.id for user in users), self.wording))
        if component.sort:
            yield self._fact("category", sort_text(self.house, component))
        if component.loss:
            yield self._fact("loss", say("loss", part=per_cent(component.loss)))

    def _also(self, component: Component) -> Iterator[Labelled]:
        if component.adjust_with:
            yield self._fact("adjust-with", names_of(self.house, component.adjust_with, self.wording))
        if component.also_touches:
            yield self._fact("also-touches", names_of(self.house, component.also_touches, self.wording))

    def _fact(self, key: str, value: Text) -> Labelled:
        return Labelled(key=key, label=self.wording.say(f"fact.{key}"), value=value)

    def _uses(self) -> tuple[PortionUse, ...]:
        return portion_uses(self.house, self.base.component, self.table.menu)

    def _portions(self) -> Text:
        """Return what a portion of each dish carries, in each of its sizes, and with which tool."""
        by_dish: dict[str, list[PortionUse]] = {}
        for use in self._uses():
            by_dish.setdefault(use.dish.id, []).append(use)
        return joined(map(self._of_dish, by_dish.values()), self.wording.say("list.semicolon"))

    def _of_dish(self, uses: Sequence[PortionUse]) -> Text:
        dish = uses[0].dish
        elements = [element for element in dish.elements if element.item == self.base.component.id]
        tools = {element.tool: tool_text(self.house, dish, element) for element in elements if element.tool}
        carried = self.wording.listed((*map(self._of_size, uses), *tools.values()))
        return self.wording.say("portion", dish=dish_name(self.house, dish.id), carried=carried)

    def _of_size(self, use: PortionUse) -> Text:
        size = use.size
        if size is None or size.factor == 1 or self.base.component.id in size.amounts:
            amounts = [typed_text(amount, self.wording) for amount in use.amounts]
        else:
            amounts = [self.measures.short(amount) for amount in use.amounts]
        said = strong(self.wording.listed_with_and(amounts))
        return (
            self.wording.say("portion.size", amount=said, size=size_name(self.house, use.dish, size)) if size else said
        )

    def _method(
        self, component: Component, say_amount: SayAmount, log_rows: int
    ) -> tuple[tuple[Section, ...], tuple[Section, ...]]:
        method = MethodWriter(say_amount=say_amount)
        keys = [kebab(stage.name) for stage in component.stages]
        said = {section.own.key: section for section in said_sections(self.house, component)}
        stages = tuple(
            Section(
                key=section.own.key,
                title=section_title(self.house, section),
                aside=self.stages.aside(stage),
                passages=method.passages(section),
                limit=limit_box(stage, log_rows, self.measures),
            )
            for key, stage in zip(keys, component.stages, strict=True)
            if (section := said.get(key))
        )
        others = [section for key, section in said.items() if key not in keys]
        return stages, tuple(method.section(self.house, section) for section in others)


def _covers(occasion: Occasion, wording: Wording) -> Text:
    return wording.say_count("covers", occasion.covers)


def _only_for(occasion: Occasion, wording: Wording) -> Text:
    if occasion.date is not None:
        return wording.say("only-for.day", day=wording.day(occasion.date))
    return wording.say("only-for.covers", covers=occasion.covers) if occasion.covers else wording.say("only-for.once")


def _occasion_key(occasion: Occasion) -> str:
    return occasion.date.isoformat() if occasion.date else f"{occasion.covers}-covers"
