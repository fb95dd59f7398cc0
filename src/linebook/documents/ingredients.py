"""The ingredient table of a batch card: rows by stage, one figure a column, and what a cook must know of each line."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from dataclasses import field, replace
from fractions import Fraction
from math import floor
from typing import TypeAlias

from linebook.compute.ladders import fit
from linebook.compute.numerals import decimal_text
from linebook.compute.results import Batch, BatchIngredient, Printed
from linebook.documents.braces import weighed_exactly
from linebook.documents.measures import Measures, exactly, typed_text
from linebook.documents.naming import made_by, names_of
from linebook.documents.parts import Measured
from linebook.documents.second import by_product_name, find_said, ingredient_note, item_name, prep_text, stage_name
from linebook.documents.text import EMPTY, NO_BREAK, Piece, Text, each_language, joined, strong, words
from linebook.documents.uses import by_product_users
from linebook.documents.wording import Wording
from linebook.model.amounts import BATCH, Amount, Kind, Percent
from linebook.model.component import ByProduct, Component, Scale
from linebook.model.house import House
from linebook.model.units import OUNCE, times, to_base
from linebook.read.ids import kebab
from linebook.source.frozen import frozen

KEEP = "keep"
_ANY = "any"


@frozen
class Figures:
    """The figures of one row: before the name either an amount or one figure a night, after it the quiet ones."""

    main: Measured
    nights: tuple[Text, ...] = ()
    after: tuple[Text, ...] = ()
    note: Text = EMPTY


@frozen
class IngredientRow:
    """One line of the table. Before the name stand ``ticks`` boxes and number and unit, or the ``nights``' figures."""

    key: str
    """For data-key."""
    ticks: int
    """How many boxes to tick: one a load."""
    number: Text
    """The number of the amount."""
    unit: Text
    """The unit; may be empty."""
    nights: tuple[Text, ...]
    """The amount of each standard night, in a binder."""
    name: Text
    """What it is, and how it is prepared."""
    note: Text
    """What must be known of it; may be empty."""
    after: tuple[Text, ...]
    """The quiet figures after the name: all loads, the base batch."""


@frozen
class IngredientGroup:
    """The lines that go in at one stage, or the by-products to keep."""

    key: str
    """For data-key."""
    title: Text
    """The stage, or that these are to keep; may be empty."""
    rows: tuple[IngredientRow, ...]
    """Its lines."""


LineFigures: TypeAlias = Callable[[int], Figures]
ByProductFigures: TypeAlias = Callable[[ByProduct], Figures]


@frozen
class IngredientWriter:
    """Writes the table of one card. ``ticks`` is the number of loads on a night sheet, 0 in a binder."""

    house: House
    batch: Batch
    measures: Measures
    ticks: int = 0
    _keys: dict[str, int] = field(default_factory=dict)

    def groups(self, line_figures: LineFigures, by_product_figures: ByProductFigures) -> tuple[IngredientGroup, ...]:
        """Return the lines by stage in the order of the stages, then what to keep."""
        component = self.batch.component
        found: list[IngredientGroup] = []
        for stage in (None, *(stage.name for stage in component.stages)):
            lines = [at for at, line in enumerate(self.batch.ingredients) if line.ingredient.stage == stage]
            if lines:
                rows = tuple(self._row(at, line_figures(at)) for at in lines)
                found.append(IngredientGroup(key=f"weigh.{_key(stage)}", title=self._title(stage), rows=rows))
        if component.also_makes:
            rows = tuple(self._keep_row(entry, by_product_figures(entry)) for entry in component.also_makes)
            found.append(IngredientGroup(key=KEEP, title=self.measures.wording.say("group.keep"), rows=rows))
        return tuple(found)

    def _title(self, stage: str | None) -> Text:
        if stage is None:
            return self.measures.wording.say("group.any")
        return stage_title(self.house, self.batch.component, stage)

    def _row(self, at: int, figures: Figures) -> IngredientRow:
        line = self.batch.ingredients[at]
        item = line.ingredient
        name = item_name(self.house, item.item)
        prep = prep_text(self.house, self.batch.component, item, italic=True)
        notes = (*self._notes(line), figures.note)
        return IngredientRow(
            key=self._unique(f"ingredient.{_key(item.stage)}.{item.item}"),
            ticks=self.ticks,
            number=figures.main.number,
            unit=figures.main.unit,
            nights=figures.nights,
            name=joined((name, prep), self.measures.wording.say("name.prep")),
            note=joined(notes, self.measures.wording.say("note.between")),
            after=figures.after,
        )

    def _unique(self, key: str) -> str:
        count = self._keys[key] = self._keys.get(key, 0) + 1
        return key if count == 1 else f"{key}.{count}"

    def _notes(self, line: BatchIngredient) -> Iterator[Text]:
        """Yield what stands under an ingredient's name, what is dangerous first."""
        say = self.measures.wording.say
        item = line.ingredient
        if weighed_exactly(self.house, item.item):
            yield strong(say("note.exactly"))
        if line.rate is not None:
            yield self._rate(line)
        if item.weigh_before:
            yield say("note.weigh-before" if item.prep else "note.weigh-as-bought")
        if item.medium:
            yield say("note.medium")
        if item.scale is not Scale.LINEAR:
            yield say(f"note.scale.{item.scale.value.replace(' ', '-')}")
        yield made_by(self.house, item.item, self.batch.component.line, self.measures.wording)
        yield ingredient_note(self.house, self.batch.component, item)

    def _rate(self, line: BatchIngredient) -> Text:
        """Return a percentage as a baker or a curer says it: *68 % of the two flours*, then what to weigh by."""
        say = self.measures.wording.say
        percent = line.ingredient.amount
        of = percent.of if isinstance(percent, Percent) else ()
        number = decimal_text((line.rate or Fraction(0)) / 10, 4)
        rate = {"percent": words(f"{number}{NO_BREAK}%"), "rate": _rate_text(line, self.measures.wording)}
        names = [each_language(item_name(self.house, item), _before_comma) for item in of if item != BATCH]
        if not names:
            return say("note.rate-of-batch", **rate)
        if len(names) == 1:
            return say("note.rate", of=names[0], **rate)
        some = say("note.rate-of-some", of=self.measures.wording.listed_with_and(names), **rate)
        if self.measures.wording.language != "en":
            return some  # the word that English names share is their last, and takes a plain plural
        kind, count = _last_word([name.plain for name in names]), f"number.{len(names)}"
        alike = [line.ingredient.item for line in self.batch.ingredients if self._is(kind, line.ingredient.item)]
        if kind and count in self.measures.wording and set(of) == set(alike[: len(of)]):
            key = "note.rate-of-all" if len(alike) == len(of) else "note.rate-of-first"
            return Text(say(key, count=say(count), kind=kind, **rate).first, some.second)
        return some

    def _is(self, kind: str, item: str) -> bool:
        return _last_word([self.house.name_of(item).partition(",")[0]]) == kind

    def _keep_row(self, entry: ByProduct, figures: Figures) -> IngredientRow:
        say = self.measures.wording.say
        users = names_of(self.house, by_product_users(self.house, entry.item), self.measures.wording)
        after = (
            say("keep.after", stage=stage_title(self.house, self.batch.component, entry.after))
            if entry.after
            else EMPTY
        )
        source = say("keep.source", item=item_name(self.house, entry.source)) if entry.source else EMPTY
        notes = (source, after, say("keep.for", users=users) if users else EMPTY, figures.note)
        return IngredientRow(
            key=f"keep.{entry.item}",
            ticks=self.ticks,
            number=figures.main.number,
            unit=figures.main.unit,
            nights=figures.nights,
            name=by_product_name(self.house, self.batch.component, entry.item, entry.name),
            note=joined(notes, self.measures.wording.say("note.between")),
            after=figures.after,
        )


@frozen
class BinderFigures:
    """Figures of a binder's card: one load of each standard night bold before the name, the base batch quiet after it.

    Without standard nights the base batch stands before the name, bold.
    """

    base: Batch
    nights: Sequence[tuple[Text, Batch]]
    house: House
    measures: Measures

    def yields(self) -> IngredientGroup | None:
        """Return what each column makes and in how many loads, or None where there are no columns."""
        if not self.nights:
            return None
        say = self.measures.wording.say
        split = any(batch.loads > 1 for _, batch in self.nights)
        makes = say("yield.makes-in-all" if split else "yield.makes")
        rows = [
            self._yield_row(
                "makes", makes, lambda batch: typed_text(printed_total(batch, self.measures), self.measures.wording)
            )
        ]
        if self.base.pieces is not None:
            rows.append(self._yield_row("pieces", say("yield.pieces"), lambda batch: words(str(whole_pieces(batch)))))
        if split:
            loads = self._yield_row("loads", say("yield.loads"), lambda batch: words(str(batch.loads)))
            # The base batch stands in its column whole, however many loads it takes.
            rows.append(replace(loads, note=say("yield.loads.each"), after=(words("1"),)))
        return IngredientGroup(key="yield", title=EMPTY, rows=tuple(rows))

    def line(self, at: int) -> Figures:
        """Return one ingredient's figures."""
        base = self.base.ingredients[at]
        to_taste = self.measures.measured(None)
        if base.base is None:
            return Figures(main=to_taste, nights=(to_taste.number,) * len(self.nights), after=self._after(EMPTY))
        exact = weighed_exactly(self.house, base.ingredient.item)
        main = self.measures.measured(self.measures.line(base, self.base.loads, exact=exact).base)
        notes: list[Text] = []
        figures: list[Text] = []
        for column, batch in self.nights:
            line = batch.ingredients[at]
            printed = self.measures.line(line, batch.loads, exact=exact).load
            figures.append(strong(self.measures.measured(printed).whole))
            if printed is not None and printed.moved and line.load is not None:
                exact_load = exactly(line.unrounded or line.load, self.measures.wording)
                notes.append(self.measures.wording.say("amount.moved-in", column=column, exact=exact_load))
        say = self.measures.wording.say
        note = say("amount.moved", exact=self.measures.wording.listed(notes)) if notes else EMPTY
        return self._figures(main, figures, note)

    def by_product(self, entry: ByProduct) -> Figures:
        """Return one by-product's figures: what the base batch and one load of each night give."""
        figures = [strong(self.measures.short(_load_of(entry, batch))) for _, batch in self.nights]
        return self._figures(self.measures.measured(Printed(amount=entry.amount)), figures, EMPTY)

    def _figures(self, main: Measured, figures: Sequence[Text], note: Text) -> Figures:
        return Figures(main=_bold(main), nights=tuple(figures), after=self._after(main.whole), note=note)

    def _after(self, base: Text) -> tuple[Text, ...]:
        return (base,) if self.nights else ()

    def _yield_row(self, key: str, name: Text, figure: Callable[[Batch], Text]) -> IngredientRow:
        return IngredientRow(
            key=f"yield.{key}",
            ticks=0,
            number=EMPTY,
            unit=EMPTY,
            nights=tuple(strong(figure(batch)) for _, batch in self.nights),
            name=name,
            note=EMPTY,
            after=(figure(self.base),),
        )


@frozen
class NightFigures:
    """Figures of a night's card: one load bold by the name, all loads (where there are several) and the base quiet."""

    batch: Batch
    house: House
    measures: Measures

    def line(self, at: int) -> Figures:
        """Return one ingredient's figures."""
        line = self.batch.ingredients[at]
        if line.load is None:
            return Figures(main=self.measures.measured(None), after=(EMPTY,) * (2 if self.batch.loads > 1 else 1))
        exact = weighed_exactly(self.house, line.ingredient.item)
        printed = self.measures.line(line, self.batch.loads, exact=exact)
        main = self.measures.measured(printed.load, line.unrounded or line.load)
        after = [printed.total, printed.base] if self.batch.loads > 1 else [printed.base]
        shown = tuple(self.measures.measured(figure).whole for figure in after)
        return Figures(main=_bold(main), after=shown, note=main.note)

    def by_product(self, entry: ByProduct) -> Figures:
        """Return one by-product's figures."""
        load = _load_of(entry, self.batch)
        main = self.measures.amount(load)
        total = [self.measures.short(times(load, Fraction(self.batch.loads)))] if self.batch.loads > 1 else []
        return Figures(main=_bold(main), after=(*total, typed_text(entry.amount, self.measures.wording)))


def printed_total(batch: Batch, measures: Measures) -> Amount:
    """Return what a batch makes as printed: the printed load times the loads, so that a card adds up."""
    load = measures.rounded(batch.load).amount
    total = times(load, Fraction(batch.loads))
    return fit(to_base(total), total.unit) if total.unit.kind is not Kind.COUNT else total


def whole_pieces(batch: Batch) -> int:
    """Return how many whole pieces a batch gives; what is over is no piece."""
    return floor(batch.pieces or 0)


def pieces_text(batch: Batch, wording: Wording) -> Text:
    """Return how many pieces a batch gives, or how many whole ones where a part of one is over."""
    count = whole_pieces(batch)
    return wording.say_count("pieces" if count == batch.pieces else "pieces.whole", count)


def names_head(batch: Batch, wording: Wording) -> Text:
    """Return the head over the names. Where a line has a prep, it says that a line is weighed after it."""
    prepped = any(line.ingredient.prep and not line.ingredient.weigh_before for line in batch.ingredients)
    return wording.say("column.ingredient-prepped" if prepped else "column.ingredient")


def stage_title(house: House, component: Component, stage: str) -> Text:
    """Return a stage's name as its heading in the method has it."""
    return stage_name(house, component, stage, find_said(house, component, kebab(stage)))


def _rate_text(line: BatchIngredient, wording: Wording) -> Text:
    """Return a percentage as a cook weighs it: grams a kilogram, or ounces a pound where the card is in pounds."""
    if line.base is not None and line.base.unit is OUNCE:
        return wording.say("rate.ounces", ounces=decimal_text((line.rate or Fraction(0)) * 16 / 1000))
    return wording.say("rate.grams", grams=decimal_text(line.rate or Fraction(0)))


def _before_comma(pieces: tuple[Piece, ...]) -> tuple[Piece, ...]:
    """Return a name without what is told of it after a comma."""
    return tuple(replace(piece, words=piece.words.partition(",")[0]) for piece in pieces[:1])


def _last_word(names: Sequence[str]) -> str:
    """Return the word that all names end with (*flour*), "" where they share none that takes a plain plural."""
    last = {name.split()[-1].casefold() for name in names if name.split()}
    word = last.pop() if len(last) == 1 else ""
    return "" if word.endswith("s") else word


def _load_of(entry: ByProduct, batch: Batch) -> Amount:
    return times(entry.amount, batch.factor / batch.loads)


def _bold(main: Measured) -> Measured:
    return Measured(number=strong(main.number), unit=strong(main.unit), note=main.note)


def _key(stage: str | None) -> str:
    return _ANY if stage is None else kebab(stage)
