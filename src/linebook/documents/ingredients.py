"""The ingredient table of a batch card: rows by stage, one figure a column, and what a cook must know of each line."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import field
from math import floor
from typing import TypeAlias

from linebook.compute.ladders import fit
from linebook.compute.numerals import decimal_text
from linebook.compute.results import Batch, BatchIngredient
from linebook.compute.stage_times import loads_at
from linebook.documents.batch_loads import loads_differ, stage_loads_text, stage_title
from linebook.documents.braces import weighed_exactly
from linebook.documents.measures import Measures, typed_text
from linebook.documents.naming import before_comma, made_by, names_of
from linebook.documents.second import by_product_name, ingredient_note, item_name
from linebook.documents.stand_in_text import prep_said
from linebook.documents.text import EMPTY, NO_BREAK, Text, each_language, joined, strong, words
from linebook.documents.uses import by_product_users
from linebook.documents.wording import Wording
from linebook.model.amounts import BATCH, Amount, Kind, Percent
from linebook.model.component import ByProduct, Scale
from linebook.model.house import House
from linebook.model.units import OUNCE, times, to_base
from linebook.read.ids import kebab
from linebook.source.exact import Fraction
from linebook.source.frozen import frozen

KEEP = "keep"
_ANY = "any"
_MOST_BEFORE = 6
"""Boxes. More would take the room of the names."""


@frozen
class Figures:
    """The figures of one row: before the name either an amount or one figure a night, after it the quiet ones."""

    number: Text
    unit: Text
    nights: tuple[Text, ...] = ()
    after: tuple[Text, ...] = ()
    note: Text = EMPTY


@frozen
class IngredientRow:
    """One line of the table. Before the name stand ``ticks`` boxes and number and unit, or the ``nights``' figures."""

    key: str
    """For data-key."""
    ticks: int
    """How many boxes to tick: one a load of its own stage."""
    ticks_under: int
    """How many stand under the name instead, where they are too many to stand before it; else 0."""
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
    loads: Text
    """In how many loads, where that differs from stage to stage; else empty."""
    rows: tuple[IngredientRow, ...]
    """Its lines."""


LineFigures: TypeAlias = Callable[[int], Figures]
ByProductFigures: TypeAlias = Callable[[ByProduct], Figures]


@frozen
class IngredientWriter:
    """Writes the table of one card. On a ``night`` sheet each line has a box to tick for every load of its stage."""

    house: House
    batch: Batch
    measures: Measures
    night: bool = False
    _keys: dict[str, int] = field(default_factory=dict)

    def groups(self, line_figures: LineFigures, by_product_figures: ByProductFigures) -> tuple[IngredientGroup, ...]:
        """Return the lines by stage in the order of the stages, then what to keep."""
        component = self.batch.component
        found: list[IngredientGroup] = []
        lines: dict[str | None, list[int]] = {}
        for at, line in enumerate(self.batch.ingredients):
            lines.setdefault(line.ingredient.stage, []).append(at)
        for stage in (None, *(stage.name for stage in component.stages)):
            if stage in lines:
                rows = tuple([self._row(at, line_figures(at)) for at in lines[stage]])
                loads = self._loads(stage)
                key = f"weigh.{_key(stage)}"
                found.append(IngredientGroup(key=key, title=self._title(stage), loads=loads, rows=rows))
        if component.also_makes:
            rows = tuple(self._keep_row(entry, by_product_figures(entry)) for entry in component.also_makes)
            title = self.measures.wording.say("group.keep")
            found.append(IngredientGroup(key=KEEP, title=title, loads=EMPTY, rows=rows))
        return tuple(found)

    def _loads(self, stage: str | None) -> Text:
        """Return in how many loads a stage is made; nothing in a binder, or where all stages are alike."""
        if not self.night or not loads_differ(self.batch):
            return EMPTY
        return stage_loads_text(self.house, self.batch, stage, self.measures)

    def _title(self, stage: str | None) -> Text:
        if stage is None:
            return self.measures.wording.say("group.any")
        return stage_title(self.house, self.batch.component, stage)

    def _row(self, at: int, figures: Figures) -> IngredientRow:
        line = self.batch.ingredients[at]
        item = line.ingredient
        name = item_name(self.house, item.item)
        prep = prep_said(self.house, self.batch.component, item, self.measures.wording, italic=True)
        notes = (*self._notes(line), figures.note)
        before, under = self._ticks(line.loads)
        return IngredientRow(
            key=self._unique(f"ingredient.{_key(item.stage)}.{item.item}"),
            ticks=before,
            ticks_under=under,
            number=figures.number,
            unit=figures.unit,
            nights=figures.nights,
            name=joined((name, prep), self.measures.wording.say("name.prep")) if prep else name,
            note=joined(notes, self.measures.wording.say("note.between")),
            after=figures.after,
        )

    def _ticks(self, loads: int) -> tuple[int, int]:
        """Return how many boxes stand before the name, and how many under it."""
        shown = loads if self.night else 0
        return (shown, 0) if shown <= _MOST_BEFORE else (0, shown)

    def _unique(self, key: str) -> str:
        count = self._keys[key] = self._keys.get(key, 0) + 1
        return key if count == 1 else f"{key}.{count}"

    def _notes(self, line: BatchIngredient) -> list[Text]:
        """Return what stands under an ingredient's name, what is dangerous first."""
        say = self.measures.wording.say
        item = line.ingredient
        notes: list[Text] = []
        if weighed_exactly(self.house, item.item):
            notes.append(strong(say("note.exactly")))
        if line.rate is not None:
            notes.append(self._rate(line))
        if item.weigh_before:
            notes.append(say("note.weigh-before" if item.prep else "note.weigh-as-bought"))
        if item.medium:
            notes.append(say("note.medium"))
        if item.scale is Scale.WHOLE or item.scale is Scale.PER_LOAD:
            notes.append(say(f"note.scale.{item.scale.value.replace(' ', '-')}"))
        notes.append(made_by(self.house, item.item, self.batch.component.line, self.measures.wording))
        notes.append(ingredient_note(self.house, self.batch.component, item))
        return notes

    def _rate(self, line: BatchIngredient) -> Text:
        """Return a percentage as a baker or a curer says it: *68 % of the two flours*, then what to weigh by."""
        say = self.measures.wording.say
        percent = line.ingredient.amount
        of = percent.of if isinstance(percent, Percent) else ()
        number = decimal_text((line.rate or Fraction(0)) / 10, 4)
        rate = {"percent": words(f"{number}{NO_BREAK}%"), "rate": _rate_text(line, self.measures.wording)}
        names = [each_language(item_name(self.house, item), before_comma) for item in of if item != BATCH]
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
        before, under = self._ticks(loads_at(self.batch, entry.after))
        return IngredientRow(
            key=f"keep.{entry.item}",
            ticks=before,
            ticks_under=under,
            number=figures.number,
            unit=figures.unit,
            nights=figures.nights,
            name=by_product_name(self.house, self.batch.component, entry.item, entry.name),
            note=joined(notes, self.measures.wording.say("note.between")),
            after=figures.after,
        )


def total_text(batch: Batch, measures: Measures, *, column: bool = False) -> Text:
    """Return what a batch makes, as printed; in a narrow ``column`` in one system alone, *≈* where it is moved."""
    total = printed_total(batch, measures)
    said = typed_text(total, measures.wording) if column else measures.typed(total)
    return measures.about(said) if measures.is_moved(batch.total, total) else said


def printed_total(batch: Batch, measures: Measures) -> Amount:
    """Return what a batch makes as printed: the printed load times the loads, so that a card adds up."""
    load = measures.rounded(batch.load).amount
    total = load if batch.loads == 1 else times(load, Fraction(batch.loads))
    return fit(to_base(total), total.unit) if total.unit.kind is not Kind.COUNT else total


def whole_pieces(batch: Batch) -> int:
    """Return how many whole pieces a batch gives; what is over is no piece."""
    return floor(batch.pieces or 0)


def pieces_text(batch: Batch, wording: Wording, part: Fraction = Fraction(1)) -> Text:
    """Return how many pieces a part of a batch gives, or how many whole ones where a part of one is over."""
    pieces = (batch.pieces or 0) * part
    return wording.say_count("pieces" if pieces == floor(pieces) else "pieces.whole", floor(pieces))


def names_head(batch: Batch, wording: Wording) -> Text:
    """Return the head over the names. Where a line has a prep, it says that a line is weighed after it."""
    prepped = any(line.ingredient.prep and not line.ingredient.weigh_before for line in batch.ingredients)
    return wording.say("column.ingredient-prepped" if prepped else "column.ingredient")


def _rate_text(line: BatchIngredient, wording: Wording) -> Text:
    """Return a percentage as a cook weighs it: grams a kilogram, or ounces a pound where the card is in pounds."""
    if line.base is not None and line.base.unit == OUNCE:
        return wording.say("rate.ounces", ounces=decimal_text((line.rate or Fraction(0)) * 16 / 1000))
    return wording.say("rate.grams", grams=decimal_text(line.rate or Fraction(0)))


def _last_word(names: Sequence[str]) -> str:
    """Return the word that all names end with (*flour*), "" where they share none that takes a plain plural."""
    last = {name.split()[-1].casefold() for name in names if name.split()}
    word = last.pop() if len(last) == 1 else ""
    return "" if word.endswith("s") else word


def _key(stage: str | None) -> str:
    return _ANY if stage is None else kebab(stage)
