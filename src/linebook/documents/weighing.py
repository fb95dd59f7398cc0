"""What a cook must know to weigh a line: a dilution, what a count weighs, what of a cure goes into the food.

Words for what ``compute.dilution``, ``compute.ceilings`` and the pantry say; computes nothing itself.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from linebook.check.ceilings import ppm
from linebook.check.curing import Ingoing
from linebook.compute.ceilings import ingoing
from linebook.compute.dilution import Dilution, dilution, dilutions
from linebook.compute.results import Batch, BatchIngredient
from linebook.compute.weights import facts_for
from linebook.documents.measures import Measures, exactly
from linebook.documents.parts import Labelled, Measured
from linebook.documents.second import item_name
from linebook.documents.text import EMPTY, Text, joined, words
from linebook.model.amounts import Amount, Kind
from linebook.model.component import Scale
from linebook.model.conversion import weight_or_volume
from linebook.model.house import House
from linebook.model.units import GRAM
from linebook.source.exact import Fraction
from linebook.source.frozen import frozen
from linebook.source.remembered import remembered

_MOST_NAMED = 3


@frozen
class Weighing:
    """One line of a night's sheet to be weighed: the figure where it is not the rounded one, and the note."""

    main: Measured | None = None
    note: Text = EMPTY


def weighing(house: House, batch: Batch, at: int, measures: Measures) -> Weighing:
    """Return what to know of line ``at`` to weigh one load of it.

    A line that is diluted has its exact figure: no scale reads it, and the note says how it is weighed. A line that a
    dilution takes its solvent from says how much less to weigh.
    """
    line = batch.ingredients[at]
    solution = dilution(house, batch, at)
    if solution is not None:
        note = _dilution_text(house, solution, measures)
        return Weighing(main=diluted_figure(solution, line, measures), note=note)
    notes = [_take_off_text(house, solution, measures) for solution in _taken_from(house, batch, at)]
    return Weighing(note=joined((*notes, count_text(house, line, measures)), measures.wording.say("note.between")))


def diluted_figure(solution: Dilution | None, line: BatchIngredient, measures: Measures) -> Measured | None:
    """Return the exact figure of one load of a line where it is diluted to be weighed, else None."""
    return None if line.load is None or solution is None else measures.exact_figure(line.load)


def solutions_of(house: House, batches: Sequence[Batch], at: int) -> tuple[Dilution | None, ...]:
    """Return the dilutions of one line in several batches, as ``dilutions`` does."""
    bought = house.pantry.get(batches[0].ingredients[at].ingredient.item) if batches else None
    if bought is None or bought.dilute_in is None:  # as of most: no batch need be looked at
        return (None,) * len(batches)
    return dilutions(house, batches, at)


def weighing_note(
    house: House,
    columns: Sequence[tuple[Text, Batch]],
    at: int,
    measures: Measures,
    solutions: Sequence[Dilution | None],
) -> Text:
    """Return the same for a binder's card: of the base batch alone, or of every column with its own figures.

    ``solutions`` are those of the columns.
    """
    if len(columns) == 1:
        return weighing(house, columns[0][1], at, measures).note
    ingredient = columns[0][1].ingredients[at].ingredient
    notes = []
    if any(solutions):
        diluted = [(column, one) for (column, _), one in zip(columns, solutions, strict=True) if one is not None]
        notes.append(_dilutions_text(house, diluted, measures))
    if ingredient.item in _solvents(house):
        notes += _taken_text(house, columns, at, measures)
    if ingredient.scale is Scale.WHOLE:
        weights = [(column, count_weight(house, batch.ingredients[at])) for column, batch in columns]
        weighed = [(column, measures.exact_figure(weight).whole) for column, weight in weights if weight is not None]
        if weighed:
            notes.append(measures.wording.say("amount.count-weighs", weight=_in_columns(weighed, measures)))
    return joined(notes, measures.wording.say("note.between")) if notes else EMPTY


def _taken_text(house: House, columns: Sequence[tuple[Text, Batch]], at: int, measures: Measures) -> Iterator[Text]:
    """Yield how much less of a solvent to weigh in each column, where any of it comes with a solution."""
    taken = [(column, one) for column, batch in columns for one in _taken_from(house, batch, at)]
    if taken:
        brings = _in_columns([(column, exactly(one.brings, measures.wording)) for column, one in taken], measures)
        yield measures.wording.say("note.take-off", brings=brings, item=item_name(house, taken[0][1].item))


def _in_columns(said: Sequence[tuple[Text, Text]], measures: Measures) -> Text:
    say = measures.wording.say
    return measures.wording.listed(say("note.in-column", what=what, column=column) for column, what in said)


def count_weight(house: House, line: BatchIngredient) -> Amount | None:
    """Return what one load of a line of whole ones weighs, where that is known."""
    if line.ingredient.scale is not Scale.WHOLE or line.load is None or line.load.unit.kind is not Kind.COUNT:
        return None
    return _weight(house, line.ingredient.item, line.load)


def count_text(house: House, line: BatchIngredient, measures: Measures) -> Text:
    """Return what a whole count weighs, and what would be right where making it whole moved it; where it is known."""
    weight = count_weight(house, line)
    if weight is None or line.load is None:
        return EMPTY
    should = line.unrounded
    right = None if should is None else _weight(house, line.ingredient.item, should)
    if should is None or right is None or not measures.is_moved(should, line.load):
        return measures.wording.say("amount.count-weighs", weight=measures.exact_figure(weight).whole)
    return measures.wording.say(
        "amount.count-should",
        weight=measures.exact_figure(weight).whole,
        exact=measures.exactly(should),
        exact_weight=measures.exact_figure(right).whole,
    )


def cure_facts(house: House, batch: Batch, measures: Measures) -> Iterator[Labelled]:
    """Yield what of each active substance goes into what a card cures, against the house's ceiling; with a caution."""
    found = [one for one in ingoing(house, batch) if not one.carried or one.is_over]
    for one in found:
        label = words(one.substance.replace("-", " ").capitalize())
        yield Labelled(key=f"cure.{one.substance}", label=label, value=_cure_text(house, one, measures))
    if found:
        label = measures.wording.say("fact.cure")
        yield Labelled(key="cure", label=label, value=measures.wording.say("cure.caution"))


def _cure_text(house: House, one: Ingoing, measures: Measures) -> Text:
    say = measures.wording.say
    ceiling = say("cure.no-ceiling") if one.ceiling is None else say("cure.ceiling", ceiling=words(ppm(one.ceiling)))
    if one.part is None:
        return say("cure.unknown", ceiling=ceiling)
    number = words(ppm(one.part, one.ceiling))
    if one.cure:
        return say("cure.holds", ppm=number)
    names = [item_name(house, item) for item in one.of[:_MOST_NAMED]]
    if len(one.of) > _MOST_NAMED:
        names.append(say("cure.more"))
    of = measures.wording.listed_with_and(names)
    return say("cure.brine" if one.estimated else "cure.in", ppm=number, of=of, ceiling=ceiling)


def _dilution_text(house: House, solution: Dilution, measures: Measures, taken: Text | None = None) -> Text:
    say = measures.wording.say
    of = item_name(house, solution.solvent)
    said = say(
        "note.dilute",
        weighed=exactly(solution.weighed, measures.wording),
        solvent=exactly(solution.solvent_weight, measures.wording),
        of=of,
        taken=taken or exactly(solution.taken, measures.wording),
    )
    if solution.from_line is not None or taken is not None:
        return said
    return say("note.dilute.extra", dilution=said, brings=exactly(solution.brings, measures.wording), of=of)


def _dilutions_text(house: House, found: Sequence[tuple[Text, Dilution]], measures: Measures) -> Text:
    """Return the dilutions of several columns: one where they are dissolved alike, else one after the other."""
    alike: dict[tuple[Amount, Amount], list[tuple[Text, Dilution]]] = {}
    for column, one in found:
        alike.setdefault((one.weighed, one.solvent_weight), []).append((column, one))
    said = []
    for group in alike.values():
        taken = _in_columns([(column, exactly(one.taken, measures.wording)) for column, one in group], measures)
        said.append(_dilution_text(house, group[0][1], measures, taken))
    return joined(said, measures.wording.say("note.between"))


def _take_off_text(house: House, solution: Dilution, measures: Measures) -> Text:
    brings, item = exactly(solution.brings, measures.wording), item_name(house, solution.item)
    return measures.wording.say("note.take-off", brings=brings, item=item)


def _taken_from(house: House, batch: Batch, at: int) -> list[Dilution]:
    """Return the dilutions whose solvent is taken off line ``at``."""
    item = batch.ingredients[at].ingredient.item
    if item not in _solvents(house):
        return []
    found = (
        dilution(house, batch, other)
        for other, line in enumerate(batch.ingredients)
        if (bought := house.pantry.get(line.ingredient.item)) is not None and bought.dilute_in == item
    )
    return [one for one in found if one is not None and one.from_line == at and one.matters]


@remembered
def _solvents(house: House) -> frozenset[str]:
    """Return every item that something of the pantry may be diluted in."""
    return frozenset(bought.dilute_in for bought in house.pantry.values() if bought.dilute_in is not None)


def _weight(house: House, item: str, amount: Amount) -> Amount | None:
    grams: Fraction | None = weight_or_volume(amount, Kind.MASS, facts_for(house, item))
    return None if grams is None else Amount(number=grams, unit=GRAM)
