"""The figures of a batch card's table: a binder's, one column a standard night, and those of one night's sheet."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping, Sequence
from dataclasses import replace
from types import MappingProxyType

from linebook.compute.held_back import HeldBack, held_back
from linebook.compute.results import Balance, Batch, BatchIngredient, Printed
from linebook.compute.stage_times import loads_at
from linebook.documents.balances import balance_text, shortage_text
from linebook.documents.batch_loads import alike_stages, loads_differ, stage_names
from linebook.documents.braces import weighed_exactly
from linebook.documents.ingredients import (
    Figures,
    IngredientGroup,
    IngredientRow,
    total_text,
    whole_pieces,
)
from linebook.documents.measures import Measures
from linebook.documents.parts import Measured
from linebook.documents.text import EMPTY, Text, joined, strong, words
from linebook.documents.weighing import diluted_figure, solutions_of, weighing, weighing_note
from linebook.model.amounts import Amount
from linebook.model.component import ByProduct, Scale
from linebook.model.house import House
from linebook.model.units import times
from linebook.source.exact import Fraction
from linebook.source.frozen import frozen


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
        loads = tuple(self._loads_rows())
        makes = say("yield.makes-in-all" if loads else "yield.makes")
        rows = [self._yield_row("makes", makes, lambda batch: total_text(batch, self.measures, column=True))]
        if self.base.pieces is not None:
            rows.append(self._yield_row("pieces", say("yield.pieces"), lambda batch: words(str(whole_pieces(batch)))))
        return IngredientGroup(key="yield", title=EMPTY, loads=EMPTY, rows=(*rows, *loads))

    def _loads_rows(self) -> Iterator[IngredientRow]:
        """Yield in how many loads each column is made, stage by stage where they differ; nothing where all are one.

        The base batch stands in its column whole, however many loads it takes.
        """
        say = self.measures.wording.say
        batches = [batch for _, batch in self.nights]
        note = say("yield.loads.each")
        if loads_differ(*batches):
            runs = tuple(alike_stages(self.base.component, batches))
            for at, (stages, counts) in enumerate(runs):
                loads = {id(batch): count for batch, count in zip(batches, counts, strict=True)}
                name = say("yield.loads.of", stages=stage_names(self.house, self.base.component, stages, self.measures))
                row = self._loads_row(f"loads.{at + 1}", name, loads)
                yield replace(row, note=note) if at + 1 == len(runs) else row
        elif any(batch.loads > 1 for batch in batches):
            row = self._loads_row("loads", say("yield.loads"), {id(batch): batch.loads for batch in batches})
            yield replace(row, note=note)

    def _loads_row(self, key: str, name: Text, loads: Mapping[int, int]) -> IngredientRow:
        return self._yield_row(key, name, lambda batch: words(str(loads.get(id(batch), 1))))

    def line(self, at: int) -> Figures:
        """Return one ingredient's figures."""
        base = self.base.ingredients[at]
        if base.base is None:
            to_taste = self.measures.measured(None)
            nights = (to_taste.number,) * len(self.nights)
            return Figures(number=to_taste.number, unit=to_taste.unit, nights=nights, after=self._after(EMPTY))
        exact = weighed_exactly(self.house, base.ingredient.item)
        printed_base = self.measures.base(base, exact=exact)
        main = self.measures.measured(printed_base)
        is_held = base.ingredient.scale is Scale.HELD_BACK
        base_parts = _parts(replace(base, load=base.base), printed_base, self.measures) if is_held else None
        if base_parts and not self.nights:
            main = self.measures.measured(Printed(amount=base_parts.first, settled=True))
        moved: list[Text] = []
        held: list[Text] = []
        figures: list[Text] = []
        shown: list[Measured] = []
        solutions = solutions_of(self.house, [batch for _, batch in self.nights], at)
        for (column, batch), solution in zip(self.nights, solutions, strict=True):
            line = batch.ingredients[at]
            printed = self.measures.load(line, exact=exact)
            parts = _parts(line, printed, self.measures) if is_held else None
            diluted = diluted_figure(solution, line, self.measures) if solution else None
            figure = diluted or self.measures.measured(Printed(amount=parts.first, settled=True) if parts else printed)
            shown.append(figure)
            figures.append(strong(figure.whole))
            if parts and parts.rest:
                rest = self.measures.measured(Printed(amount=parts.rest, settled=True)).whole
                held.append(self.measures.wording.say("note.held-back.in", rest=rest, column=column))
            if printed is not None and printed.moved and line.load is not None and not diluted:
                exact_load = self.measures.exactly(line.unrounded or line.load)
                moved.append(self.measures.wording.say("amount.moved-in", column=column, exact=exact_load))
        columns = self.nights or ((EMPTY, self.base),)
        notes = [weighing_note(self.house, columns, at, self.measures, solutions)]
        if is_held:
            notes.append(self._held_note(held, base_parts))
        notes.append(self.measures.besides(shown or (main,)))
        if moved:
            notes.append(self.measures.wording.say("amount.moved", exact=self.measures.wording.listed(moved)))
        return self._figures(main, figures, joined(notes, self.measures.wording.say("note.between")))

    def _held_note(self, held: Sequence[Text], parts: HeldBack | None) -> Text:
        """Return what is held back in each column, or of the base batch where there are none."""
        if held:
            return self.measures.wording.say("note.held-back.columns", rests=self.measures.wording.listed(held))
        return _held_text(parts, self.measures)

    def by_product(self, entry: ByProduct) -> Figures:
        """Return one by-product's figures: what the base batch and one load of each night give."""
        loads = [_load_of(entry, batch) for _, batch in self.nights]
        main = self.measures.measured(Printed(amount=entry.amount))
        beside = self.measures.besides([self.measures.amount(load) for load in loads] or [main])
        return self._figures(main, [strong(self.measures.in_column(load)) for load in loads], beside)

    def _figures(self, main: Measured, figures: Sequence[Text], note: Text) -> Figures:
        number, unit = strong(main.number), strong(main.unit)
        return Figures(number=number, unit=unit, nights=tuple(figures), after=self._after(main.whole), note=note)

    def _after(self, base: Text) -> tuple[Text, ...]:
        return (base,) if self.nights else ()

    def _yield_row(self, key: str, name: Text, figure: Callable[[Batch], Text]) -> IngredientRow:
        return IngredientRow(
            key=f"yield.{key}",
            ticks=0,
            ticks_under=0,
            number=EMPTY,
            unit=EMPTY,
            nights=tuple(strong(figure(batch)) for _, batch in self.nights),
            name=name,
            note=EMPTY,
            after=(figure(self.base),),
        )


@frozen
class NightFigures:
    """Figures of a night's card: one load bold by the name, all loads (where there are several) and the base quiet.

    ``balances`` are those of the night's by-products, by their ids.
    """

    batch: Batch
    house: House
    measures: Measures
    balances: Mapping[str, Balance] = MappingProxyType({})

    @property
    def several(self) -> bool:
        """Return whether anything of it is made in more than one load."""
        return self.batch.loads > 1 or any(line.loads > 1 for line in self.batch.ingredients)

    def line(self, at: int) -> Figures:
        """Return one ingredient's figures."""
        line = self.batch.ingredients[at]
        short = shortage_text(self.balances.get(line.ingredient.item), self.measures)
        if line.load is None:
            to_taste = self.measures.measured(None)
            after = (EMPTY,) * (2 if self.several else 1)
            return Figures(number=to_taste.number, unit=to_taste.unit, after=after, note=short)
        exact = weighed_exactly(self.house, line.ingredient.item)
        printed = self.measures.line(line, line.loads, exact=exact)
        main = self.measures.measured(printed.load, line.unrounded or line.load)
        known = weighing(self.house, self.batch, at, self.measures)
        if line.unrounded is not None and known.note:
            main = self.measures.measured(printed.load)  # what a count weighs says already what would be right
        main = known.main or main
        parts = _parts(line, printed.load, self.measures)
        if parts and parts.rest and printed.load:
            main = self.measures.measured(replace(printed.load, amount=parts.first), line.load)
        notes = (short, known.note, _held_text(parts, self.measures), main.note)
        note = joined(notes, self.measures.wording.say("note.between"))
        quiet = [printed.total, printed.base] if self.several else [printed.base]
        shown = tuple(self.measures.measured(figure).whole for figure in quiet)
        if known.main is not None and self.several and line.total is not None:
            shown = (self.measures.exact_figure(line.total).whole, *shown[1:])
        return Figures(number=strong(main.number), unit=strong(main.unit), after=shown, note=note)

    def by_product(self, entry: ByProduct) -> Figures:
        """Return one by-product's figures, and how it stands against what the night needs of it."""
        load = _load_of(entry, self.batch)
        main = self.measures.amount(load)
        loads = Fraction(loads_at(self.batch, entry.after))
        total = [self.measures.in_column(times(load, loads))] if self.several else []
        balance = balance_text(self.balances.get(entry.item), self.measures)
        note = joined((main.note, balance), self.measures.wording.say("note.between"))
        base = self.measures.measured(Printed(amount=entry.amount)).whole
        return Figures(number=strong(main.number), unit=strong(main.unit), after=(*total, base), note=note)


def _parts(line: BatchIngredient, printed: Printed | None, measures: Measures) -> HeldBack | None:
    if printed is None:
        return None
    return held_back(line, printed, measures.house.instruments, measures.house.tolerance)


def _held_text(parts: HeldBack | None, measures: Measures) -> Text:
    """Return how much is held back, or that most of it goes in where the rest is too small to weigh."""
    if parts is None:
        return EMPTY
    if parts.rest is None:
        return measures.wording.say("note.held-back.small")
    return measures.wording.say(
        "note.held-back", rest=measures.measured(Printed(amount=parts.rest, settled=True)).whole
    )


def _load_of(entry: ByProduct, batch: Batch) -> Amount:
    return times(entry.amount, batch.factor / loads_at(batch, entry.after))
