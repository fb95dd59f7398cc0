"""The batch card of a component: in a binder with the base batch and the house's standard nights, or for one night.

Chooses and words what a cook on prep reads; computes nothing but how an amount is said.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import replace
from datetime import date
from functools import lru_cache

from linebook.check.cold_keeping import is_from_room
from linebook.compute.results import AllergenTable, Batch, Night
from linebook.compute.stage_times import StageTimes, loads_of_stages, stage_times, total_time
from linebook.documents.allergen_lines import component_allergens
from linebook.documents.batch_amounts import SizeWriter
from linebook.documents.batch_loads import by_stage_text, loads_differ
from linebook.documents.braces import BinderBraces, NightBraces
from linebook.documents.ingredient_figures import BinderFigures, NightFigures
from linebook.documents.ingredients import IngredientGroup, IngredientWriter, names_head, pieces_text, total_text
from linebook.documents.keeping import equipment_text, keeps_text, making_text, store_text, use_by_text
from linebook.documents.limit_boxes import limit_box
from linebook.documents.measures import Measures, duration_text, per_cent
from linebook.documents.method import MethodWriter, SayAmount
from linebook.documents.naming import kicker, names_of
from linebook.documents.parts import AllergenLine, Labelled, LimitBox, LogRow, Section
from linebook.documents.portion_words import PortionWriter
from linebook.documents.second import item_name, said_sections, section_title, sort_text
from linebook.documents.stages import StageWriter
from linebook.documents.text import EMPTY, Text
from linebook.documents.uses import portion_uses
from linebook.documents.weighing import cure_facts
from linebook.documents.wording import Wording
from linebook.documents.write_in import write_in_rows
from linebook.model.component import Component
from linebook.model.cutting import cut_plan
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
    """In how many loads, stage by stage where they differ; empty where all is one."""
    sizing: tuple[Labelled, ...]
    """Why it is as large as it is: what is needed, on hand, over, had; on a night's sheet, where there is any."""
    keeping: tuple[Labelled, ...]
    """Use-by and store."""
    made: Labelled
    """When it is made: ahead or every day."""
    got: tuple[LogRow, ...]
    """Where the cook writes what the batch gave, what was bought and what of it was usable."""
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
    """What is cured, against the house's ceiling; what it is adjusted with, and what else it touches."""
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
    writer = _card_writer(house, base, table, wording)
    component = base.component.id
    columns = [
        (_covers(night.occasion.covers, wording), night.batches[component])
        for night in nights
        if component in night.batches
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
        log_rows=_most_loads([base, *(batch for _, batch in columns)]),
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
    writer = _card_writer(house, base, table, wording)
    figures = NightFigures(batch=batch, house=house, measures=writer.measures, balances=night.balances)
    table_writer = IngredientWriter(house=house, batch=batch, measures=writer.measures, night=True)
    braces = NightBraces(house=house, batch=batch, measures=writer.measures, wording=wording)
    several = figures.several
    plated = bool(portion_uses(house, batch.component, table.menu))
    use_by = use_by_text(batch.component, night.occasion.date if plated else None, made, writer.stages)
    covers = _covers(night.occasion.covers, wording) if night.occasion.covers else EMPTY
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
        log_rows=loads_of_stages(batch),
    )
    said = writer.portions.of_batch(batch) is not None
    sizing = SizeWriter(house=house, night=night, batch=batch, measures=writer.measures, portions_said=said)
    return replace(card, id=f"{card.id}:{_occasion_key(night.occasion)}", sizing=tuple(sizing.facts()))


def _card_writer(house: House, base: Batch, table: AllergenTable, wording: Wording) -> _CardWriter:
    measures = Measures(house=house.file, wording=wording)
    return _CardWriter(
        house=house,
        base=base,
        table=table,
        wording=wording,
        measures=measures,
        portions=PortionWriter(house=house, component=base.component, table=table, measures=measures),
        stages=StageWriter(house=house, measures=measures),
    )


@frozen
class _CardWriter:
    """What both forms of the card share."""

    house: House
    base: Batch
    table: AllergenTable
    wording: Wording
    measures: Measures
    portions: PortionWriter
    stages: StageWriter

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
        log_rows: Sequence[int],
    ) -> BatchCard:
        component = batch.component
        times = stage_times(batch if night else self.base, self.base)
        asides = self.stages.asides(batch if night else self.base, times, night=night)
        stages, others = self._method(component, say_amount, log_rows, asides)
        return BatchCard(
            id=f"{DOCUMENT}:{component.id}",
            line=component.line,
            night=night,
            kicker=kicker(self.house, component.line, DOCUMENT, self.wording),
            title=item_name(self.house, component.id),
            aside=aside,
            makes=self._makes(batch, night=night),
            loads=self._loads(batch, night=night),
            sizing=(),
            keeping=(*keeping, self._fact("store", store_text(batch, self.stages))),
            made=self._fact("made", making_text(component, self.measures)),
            got=write_in_rows(self.house, batch, self.measures),
            facts=tuple(self._facts(batch, times, night=night)),
            allergens=component_allergens(self.house, self.table, component.id, self.wording).lines(),
            main_head=main_head,
            night_heads=night_heads,
            names_head=names_head(batch, self.wording),
            after_heads=after_heads,
            groups=groups,
            also=(*cure_facts(self.house, batch, self.measures), *self._also(component)),
            stages=stages,
            sections=others,
            about=tuple(self._about(component)),
        )

    def draft(self) -> Text:
        """Return the word for a card nobody has tested, or nothing."""
        return EMPTY if self.base.component.tested else self.wording.say("draft")

    def _yield(self, batch: Batch) -> Text:
        total = total_text(batch, self.measures)
        if batch.pieces is None:
            return total
        return self.wording.listed((total, pieces_text(batch, self.wording)))

    def _makes(self, batch: Batch, *, night: bool) -> Text:
        """Return the yield: counted, or for how many portions or for what, where it is for one thing alone."""
        key = "makes" if night else "base.makes"
        makes, said = self._yield(batch), self.portions.of_batch(batch)
        if said is not None:
            portions, portion = said
            return self.wording.say(f"{key}.portions", makes=makes, portions=portions, portion=portion)
        users = self.portions.users
        if batch.pieces is None and not self.portions.uses and 0 < len(users) <= _MOST_USERS:
            names = names_of(self.house, (user.id for user in users), self.wording)
            return self.wording.say(f"{key}.for", makes=makes, users=names)
        return self.wording.say(key, makes=makes)

    def _loads(self, batch: Batch, *, night: bool) -> Text:
        if loads_differ(batch):
            return by_stage_text(self.house, batch, self.measures, night=night)
        if batch.loads == 1:
            return EMPTY
        key = "loads" if night else "base.loads"
        return self.wording.say(key, loads=batch.loads, load=self.measures.short(batch.load))

    def _facts(self, batch: Batch, times: Sequence[StageTimes], *, night: bool) -> Iterator[Labelled]:
        """Yield what a cook must know before the first stage."""
        component = batch.component
        if component.stages:
            yield self._fact("takes", self._takes(batch, times, night=night))
        yield self._fact("equipment", equipment_text(component, self.stages))
        if component.cut:
            pieces = self.wording.say_count("pieces", cut_plan(component.cut).pieces)
            yield self._fact("cut", self.wording.say("cut.see", pieces=pieces))
        if component.largest_batch:
            yield self._fact("largest", self.measures.typed(component.largest_batch))

    def _takes(self, batch: Batch, times: Sequence[StageTimes], *, night: bool) -> Text:
        """Return how long it takes, with times that fit the load on a night's sheet."""
        lead, work = total_time(times), total_time(times, by_hand=True)
        several = night and max(loads_of_stages(batch)) > 1
        one = "takes.one-of-each" if loads_differ(batch) else "takes.one-load"
        return self.wording.say(
            one if several else "takes",
            lead=duration_text(lead, self.wording),
            work=duration_text(work, self.wording),
        )

    def _about(self, component: Component) -> Iterator[Labelled]:
        """Yield what stands at the end of the card: what it is, and what it is for."""
        say = self.wording.say
        yield self._fact("portion", self.portions.text() or say("portion.none"))
        users = self.portions.users
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

    def _method(
        self, component: Component, say_amount: SayAmount, log_rows: Sequence[int], asides: Sequence[Text]
    ) -> tuple[tuple[Section, ...], tuple[Section, ...]]:
        method = MethodWriter(say_amount=say_amount, measures=self.measures)
        keys = [kebab(stage.name) for stage in component.stages]
        said = {section.own.key: section for section in said_sections(self.house, component)}
        stages = tuple(
            Section(
                key=section.own.key,
                title=section_title(self.house, section),
                aside=aside,
                passages=method.passages(section),
                limit=self._limit(component, at, rows),
            )
            for at, (key, rows, aside) in enumerate(zip(keys, log_rows, asides, strict=True))
            if (section := said.get(key))
        )
        others = [section for key, section in said.items() if key not in keys]
        return stages, tuple(method.section(self.house, section) for section in others)

    def _limit(self, component: Component, at: int, loads: int) -> LimitBox | None:
        stage = component.stages[at]
        if stage.limit is None:
            return None
        from_room = is_from_room(component, at, self.stages.places)
        return limit_box(stage, loads, self.measures, from_room=from_room)


def _most_loads(batches: Sequence[Batch]) -> tuple[int, ...]:
    """Return the most loads that any of the batches takes at each stage: so many rows its log needs."""
    return tuple(max(column) for column in zip(*map(loads_of_stages, batches), strict=True))


@lru_cache(64)
def _covers(covers: int, wording: Wording) -> Text:
    return wording.say_count("covers", covers)


def _only_for(occasion: Occasion, wording: Wording) -> Text:
    if occasion.date is not None:
        return wording.say("only-for.day", day=wording.day(occasion.date))
    return wording.say("only-for.covers", covers=occasion.covers) if occasion.covers else wording.say("only-for.once")


def _occasion_key(occasion: Occasion) -> str:
    return occasion.date.isoformat() if occasion.date else f"{occasion.covers}-covers"
