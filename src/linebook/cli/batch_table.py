"""The table of one batch in the terminal: what it makes, in which loads, from what, and what of it is kept or over."""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING

import click

from linebook.source.exact import Fraction

if TYPE_CHECKING:
    from collections.abc import Callable
    from datetime import date

    from linebook.compute.mass import MassBalance
    from linebook.compute.results import Balance, Batch, Night, Sized, StockUse
    from linebook.documents.measures import Measures
    from linebook.model.amounts import Amount, Unit
    from linebook.model.house import House


def print_batch(house: House, sized: Sized, night: Night | None, day: date) -> None:
    """Print what the sheet prints, in columns; ``≈`` stands where rounding moved an amount."""
    measures = _measures(house)
    batch = sized.batch
    _say(_makes(batch, measures))
    for lines in (
        _loads(batch, measures),
        _notes(batch),
        _need(house, batch, night, day, measures),
        _had(house, sized, measures),
        _trim(house, batch, night, measures),
        _lost(house, batch, measures),
    ):
        for line in lines:
            _say(line)
    _print_rows(_rows(house, batch, measures))


def say_covered(house: House, night: Night, component: str) -> None:
    """Say that enough is on hand, so that there is nothing to make and no sheet."""
    measures = _measures(house)
    needed = measures.short(night.covered[component]).plain
    _say(f"{house.components[component].name}: nothing to make. {needed} is needed, and there is enough on hand.")
    for line in _stock(night, component, measures):
        _say(line)


def _measures(house: House) -> Measures:
    from linebook.documents.measures import Measures
    from linebook.documents.wording import english

    return Measures(house=house.file, wording=english())


def _say(line: str) -> None:
    from linebook.documents.text import NO_BREAK

    click.echo(line.replace(NO_BREAK, " "))


def _makes(batch: Batch, measures: Measures) -> str:
    from linebook.documents.ingredients import pieces_text, total_text

    made = [total_text(batch, measures).plain]
    if batch.pieces is not None:
        made.append(pieces_text(batch, measures.wording).plain)
    return f"{batch.component.name}: makes {', '.join(made)}"


def _loads(batch: Batch, measures: Measures) -> Iterator[str]:
    if all(loads == batch.loads for loads in batch.stage_loads):
        if batch.loads > 1:
            yield f"{batch.loads} even loads of {measures.short(batch.load).plain}"
        return
    stages = zip(batch.component.stages, batch.stage_loads, strict=True)
    yield f"even loads by stage: {', '.join(f'{stage.name} {loads}' for stage, loads in stages)}"


def _notes(batch: Batch) -> Iterator[str]:
    """Yield what a size asked for by hand breaks."""
    from linebook.compute.steps import is_in_whole_steps, is_under_smallest
    from linebook.model.quantities import write_amount

    if batch.needed is not None:
        return
    component = batch.component
    if component.smallest_batch is not None and is_under_smallest(component, batch.total):
        yield f"note: that is under the smallest batch, {write_amount(component.smallest_batch)}"
    if component.batch_step is not None and not is_in_whole_steps(component, batch.load):
        odd = "a load" if is_in_whole_steps(component, batch.total) else "that"
        yield f"note: {odd} is not in whole ones of {write_amount(component.batch_step)}, as it is made"


def _need(house: House, batch: Batch, night: Night | None, day: date, measures: Measures) -> Iterator[str]:
    if batch.needed is None or batch.surplus is None or night is None:
        return
    from linebook.documents.differences import size_figures

    figures = size_figures(batch, measures, over=bool(batch.surplus.number))
    if batch.on_hand is not None or batch.surplus.number:
        held = f", {measures.short(batch.on_hand).plain} of it on hand" if batch.on_hand is not None else ""
        yield f"needed: {figures.needed.plain}{held}"
    yield from _stock(night, batch.component.id, measures)
    if batch.surplus.number:
        yield f"over: {figures.over.plain}; {_keeps(house, batch, day, measures)}"


def _stock(night: Night, component: str, measures: Measures) -> Iterator[str]:
    for use in night.stock:
        if use.entry.item == component:
            yield f"on hand: {_entry(use, measures)}"


def _entry(use: StockUse, measures: Measures) -> str:
    from linebook.documents.measures import typed_text

    amount = typed_text(use.entry.amount, measures.wording).plain
    made = f", made {use.entry.made}" if use.entry.made is not None else ""
    if use.reason is not None:
        return f"{amount}{made}, does not count: {use.reason.value}"
    return f"{amount}{made}, use by {use.last}" if use.last is not None else f"{amount}{made}"


def _keeps(house: House, batch: Batch, day: date, measures: Measures) -> str:
    from linebook.compute.leftovers import keeps_until_next

    kept = keeps_until_next(house, batch.component, day)
    if kept is None:
        return "no service follows"
    following = measures.wording.day(kept.next_service).plain
    if not kept.known:
        return "its card does not say how long it keeps: ask the chef before you store it"
    if kept.made_from is None:
        return f"it does not keep until the next service, {following}: use it or log it"
    if kept.made_from >= day:
        return f"it keeps until the next service, {following}"
    earliest = measures.wording.day(kept.made_from).plain
    return f"it keeps until the next service, {following}, if made on {earliest} or later"


def _had(house: House, sized: Sized, measures: Measures) -> Iterator[str]:
    if sized.limiting:
        yield f"limited by: {' and '.join(house.name_of(item) for item in sized.limiting)}"
    from linebook.documents.differences import left_text
    from linebook.documents.had_words import had_text

    for left in sized.left:
        yield f"there is: {had_text(house, sized.batch, left, measures).plain}"
    for left in sized.left:
        if left.left.number:
            of = f" of {_typed(left.had, measures)}"
            yield f"left: {left_text(house, sized.batch, left, measures).plain}{of} {house.name_of(left.item)}"
    if sized.batch.needed is not None:
        return
    for given in sized.portions:
        each = measures.typed(given.amount).plain
        dish = f" of {house.name_of(given.dish)}" if given.dish is not None else ""
        size = f" ({given.size})" if given.dish is not None and house.dishes[given.dish].sizes else ""
        yield f"gives: {given.count:,} {'portion' if given.count == 1 else 'portions'}{dish}{size}, {each} each"


def _typed(amount: Amount, measures: Measures) -> str:
    return measures.typed(amount).plain


def _rows(house: House, batch: Batch, measures: Measures) -> Iterator[tuple[str, ...]]:
    several = any(line.loads > 1 for line in batch.ingredients)
    differ = len({line.loads for line in batch.ingredients}) > 1
    if several:
        yield (
            ("each load", "in all", "base batch", "loads", "") if differ else ("each load", "in all", "base batch", "")
        )
    else:
        yield ("weigh", "base batch", "")
    for at in range(len(batch.ingredients)):
        yield _row(house, batch, at, measures, several=several, differ=differ)


def _row(house: House, batch: Batch, at: int, measures: Measures, *, several: bool, differ: bool) -> tuple[str, ...]:
    from linebook.documents.braces import weighed_exactly
    from linebook.documents.stand_in_text import prep_said
    from linebook.documents.weighing import weighing

    line = batch.ingredients[at]
    item = line.ingredient.item
    printed = measures.line(line, line.loads, exact=weighed_exactly(house, item))
    figures = (printed.load, printed.total, printed.base) if several else (printed.load, printed.base)
    shown = [f"{'≈ ' if figure and figure.moved else ''}{measures.measured(figure).exact_words}" for figure in figures]
    if differ:
        shown.append(f"× {line.loads}")
    known = weighing(house, batch, at, measures)
    if known.main is not None:
        shown[0] = known.main.exact_words
    said_prep = prep_said(house, batch.component, line.ingredient, measures.wording).plain
    prep = f", {said_prep}" if said_prep else ""
    said = [measures.besides([measures.measured(printed.load)]), known.note]
    note = "".join(f" ({one.plain})" for one in said if one)
    return (*shown, f"{house.name_of(item)}{prep}{note}")


def _print_rows(rows: Iterator[tuple[str, ...]]) -> None:
    from linebook.documents.text import NO_BREAK

    table = list(rows)
    widths = [max(len(row[column]) for row in table) for column in range(len(table[0]) - 1)]
    for number, row in enumerate(table):
        cells = "  ".join(cell.rjust(width) for cell, width in zip(row, widths, strict=False))
        text = f"{cells}  {row[-1]}".rstrip().replace(NO_BREAK, " ")
        click.echo(click.style(text, bold=number == 0))


def _trim(house: House, batch: Batch, night: Night | None, measures: Measures) -> Iterator[str]:
    """Yield what a batch leaves over and takes of by-products, and on a night how that stands."""
    from linebook.model.units import times

    balances = night.balances if night is not None else {}
    for made in batch.component.also_makes:
        amount = measures.short(times(made.amount, batch.factor)).plain
        standing = f"; {_standing(balances[made.item], measures)}" if made.item in balances else ""
        yield f"leaves: {amount} {made.name}{standing}"
    for item in dict.fromkeys(line.ingredient.item for line in batch.ingredients):
        if item in balances and item not in {made.item for made in batch.component.also_makes}:
            yield f"takes: {house.name_of(item)}; {_standing(balances[item], measures)}"


def _standing(balance: Balance, measures: Measures) -> str:
    from linebook.compute.results import Standing
    from linebook.documents.differences import balance_difference

    needed = f"{measures.short(balance.needed).plain} needed tonight"
    difference = balance_difference(balance, measures).plain
    held = f", {measures.short(balance.on_hand).plain} on hand" if balance.on_hand.number else ""
    if balance.standing is Standing.APART:
        return f"{needed}{held}, in measures that cannot be compared"
    if balance.standing is Standing.COVERED:
        return f"{needed}{held}: covered"
    if balance.standing is Standing.SHORT:
        return f"{needed}{held}: short by {difference}, make or buy this"
    return f"{needed}{held}: {difference} spare, use it or log it"


def _lost(house: House, batch: Batch, measures: Measures) -> Iterator[str]:
    from linebook.compute.ladders import fit
    from linebook.compute.mass import fine_enough, weigh_batch

    mass = weigh_batch(house, batch)
    if mass is None or not mass.went_in:
        return
    unit = _weight_unit(batch)
    figures = fine_enough(mass, unit, measures.house.tolerance)

    def said(grams: Fraction) -> str:
        return measures.typed(fit(grams, unit)).plain

    kept = f" and {said(figures.by_products)} is kept" if figures.by_products else ""
    yield f"weight: {said(figures.went_in)} goes in, {said(figures.makes)} is made{kept}, {_loss(batch, figures, said)}"


def _loss(batch: Batch, figures: MassBalance, said: Callable[[Fraction], str]) -> str:
    if figures.lost:
        return f"{said(figures.lost)} ({round(float(figures.lost / figures.went_in * 100))} %) is lost on the way"
    more = figures.makes + figures.by_products - figures.went_in
    if more > 0 and not any(line.ingredient.medium for line in batch.ingredients):
        return f"{said(more)} more than goes in: weigh what comes out"
    return "nothing is lost on the way"


def _weight_unit(batch: Batch) -> Unit:
    """Return the unit that the first weight on a card is in, so that a card in pounds is summed up in pounds."""
    from linebook.model.amounts import Kind
    from linebook.model.units import GRAM

    amounts = (batch.total, *(line.base for line in batch.ingredients if line.base is not None))
    return next((amount.unit for amount in amounts if amount.unit.kind is Kind.MASS), GRAM)
