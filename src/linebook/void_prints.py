"""What is printed when something turns out wrong in the middle of service: only the sheets that say something else now,
each with the fingerprint of the one it takes the place of.

Prints nothing, reads no clock. Sheets are made twice, from the house as its specs have it and from the house as it is
now; those that say the same are left where they hang.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import replace
from datetime import date
from pathlib import Path
from typing import TYPE_CHECKING

from linebook.source.faults import Fault, Outcome
from linebook.source.frozen import frozen

if TYPE_CHECKING:
    from linebook.compute.results import AllergenTable, Night
    from linebook.compute.voiding import Turned
    from linebook.documents.text import Text
    from linebook.documents.wording import Wording
    from linebook.markup.sheet import Sheet
    from linebook.model.house import House
    from linebook.pdf.printing import Printing
    from linebook.workshop import PdfFile, Workshop


@frozen
class Swap:
    """One sheet to pull and the one to put up: ``line`` is its binder's, '' for front of house."""

    line: str
    document: str
    name: str
    old: str
    new: str


@frozen
class VoidPrint:
    """The sheets to put up, None where no sheet says anything else; what to pull; what to read aloud."""

    file: PdfFile | None
    swaps: tuple[Swap, ...]
    aloud: str


def build_void(
    house: House,
    things: Sequence[str],
    turned: Turned,
    says: str,
    *,
    menu: str,
    printing: Printing,
    issued: date,
    folder: Path,
    name: str,
    theme: str = "",
) -> Outcome[VoidPrint]:
    """Draw what says something else once these things have turned out so; ``says`` is how that is known, by its key."""
    from linebook.compute.voiding import voided
    from linebook.documents.void_notice import read_aloud, reason_said, what_is_wrong
    from linebook.documents.wording import wording_in
    from linebook.workshop import open_workshop

    called = wording_in(house.file.languages).say("void.extra").plain
    now = voided(house, things, replace(turned, called=called))
    before, after = (open_workshop(one, menu, issued, folder, theme) for one in (house, now))
    if before.value is None or after.value is None:
        return Outcome(value=None, faults=before.faults)
    old, new = (_State.of(workshop) for workshop in (before.value, after.value))
    wording = after.value.wording
    what = what_is_wrong(house, things, turned, wording)
    aloud = read_aloud(now, old.table, new.table, what, wording, unknown=turned.undeclared)
    reason = reason_said(house, things, turned, says, wording)
    pairs, faults = _pairs(old, new)
    if faults:
        return Outcome(value=None, faults=faults)
    noticed = [_noticed(after.value, one, other, reason, aloud) for one, other in pairs]
    faults = tuple(dict.fromkeys(one for outcome in noticed for one in outcome.faults))
    sheets = tuple(outcome.value for outcome in noticed if outcome.value)
    if faults or not sheets:
        return Outcome(value=None if faults else VoidPrint(file=None, swaps=(), aloud=aloud.both), faults=faults)
    drawn = after.value.draw(Outcome(value=sheets), name, printing)
    if drawn.value is None:
        return Outcome(value=None, faults=drawn.faults)
    swaps = tuple(_swap(one, sheet, wording) for (one, _), sheet in zip(pairs, sheets, strict=True))
    return Outcome(value=VoidPrint(file=drawn.value, swaps=swaps, aloud=aloud.both), faults=drawn.faults)


@frozen
class _State:
    """A house as it was or is, computed."""

    workshop: Workshop
    table: AllergenTable
    also: AllergenTable | None

    @staticmethod
    def of(workshop: Workshop) -> _State:
        from linebook.compute.allergens import compute_allergens

        table = compute_allergens(workshop.house, workshop.menu, on=workshop.issued)
        also = None
        if workshop.house.file.allergens.also:
            from linebook.compute.matrix_columns import compute_also

            also = compute_also(workshop.house, workshop.menu)
        return _State(workshop=workshop, table=table, also=also)

    def nights(self) -> tuple[Night, ...]:
        """Return the house's standard nights, which its batch cards have as columns."""
        from linebook.compute.demand import compute_night
        from linebook.model.occasion import Occasion

        house = self.workshop.house
        return tuple(
            compute_night(house, Occasion(menu=self.workshop.menu, covers=covers))
            for covers in sorted(house.file.nights)
        )


def _pairs(old: _State, new: _State) -> tuple[list[tuple[Sheet, Sheet]], tuple[Fault, ...]]:
    """Return each sheet that says something else now, as it was and as it is, in the order of the binders."""
    from linebook.documents.void_notice import changed_subjects

    changed = frozenset(changed_subjects(old.table, new.table))
    if old.also and new.also:
        changed |= frozenset(changed_subjects(old.also, new.also))
    if not changed:
        return [], ()
    made = list(zip(_sheets(old, changed), _sheets(new, changed), strict=True))
    faults = tuple(dict.fromkeys(fault for pair in made for outcome in pair for fault in outcome.faults))
    found = [(one.value, other.value) for one, other in made if one.value and other.value]
    return [(one, other) for one, other in found if one.fingerprint != other.fingerprint], faults


def _sheets(state: _State, changed: frozenset[str]) -> Iterator[Outcome[Sheet]]:
    """Yield every sheet that may say something else: the matrix, then line by line its own page and its cards."""
    from linebook.documents.batch_card import DOCUMENT as BATCH_CARD
    from linebook.documents.binder_order import binder_order

    workshop = state.workshop
    yield _single(workshop.matrix_sheet(state.table, state.also))
    orders = {line.id: binder_order(workshop.house, workshop.menu, line.id) for line in workshop.house.file.lines}
    touched = [entry for order in orders.values() for entry in order if entry.subject in changed]
    nights = state.nights() if any(entry.document == BATCH_CARD for entry in touched) else ()
    for line, order in orders.items():
        if order:
            yield workshop.line_page(line, state.table, state.also)
        for entry in order:
            if entry.subject in changed:
                yield workshop.entry_sheet(entry, state.table, nights)


def _single(outcome: Outcome[tuple[Sheet, ...]]) -> Outcome[Sheet]:
    return Outcome(value=outcome.value[0] if outcome.value else None, faults=outcome.faults)


def _noticed(workshop: Workshop, old: Sheet, new: Sheet, reason: Text, aloud: Text) -> Outcome[Sheet]:
    """Return the new sheet with the notice before its own blocks, and the old fingerprint in its foot."""
    from linebook.documents.text import EMPTY
    from linebook.documents.void_notice import DOCUMENT, void_notice
    from linebook.markup.fingerprint import fingerprint_of

    said = aloud if new.text.kind == "allergen-matrix" else EMPTY
    made = workshop.text_of(DOCUMENT, void_notice(old.fingerprint, reason, workshop.wording, said))
    if made.value is None:
        return Outcome(value=None, faults=made.faults)
    text = replace(new.text, blocks=(*made.value.blocks, *new.text.blocks))
    between, replaces = (
        workshop.wording.say("foot.between").plain,
        workshop.wording.say("void.foot", fingerprint=old.fingerprint).both,
    )
    *lines, last = new.foot.lines
    foot = replace(new.foot, lines=(*lines, f"{last}{between}{replaces}"))
    return Outcome(value=replace(new, text=text, foot=foot, fingerprint=fingerprint_of(text)))


def _swap(old: Sheet, new: Sheet, wording: Wording) -> Swap:
    from linebook.markup.blocks import Run

    name = "".join(piece.text for piece in new.text.title if isinstance(piece, Run))
    document = wording.say(f"document.{new.text.kind}").plain
    return Swap(line=new.text.line, document=document, name=name, old=old.fingerprint, new=new.fingerprint)
