"""A print after which is known what was looked at for each sheet, and that uses again those of the one before it.

Owns the order of that work; what it gives is what ``pipeline.build_binders`` gives. Prints nothing, reads no clock.
"""

from __future__ import annotations

import pickle
from collections.abc import Callable, Iterator, Mapping, Sequence
from dataclasses import field, replace
from datetime import date
from functools import partial
from hashlib import sha256
from pathlib import Path
from types import MappingProxyType
from typing import TYPE_CHECKING, Any

from linebook.again import Figured, FileBefore, Judge, Late, LateNights, OldAnswer, Questions, SheetMaking
from linebook.copies import Unopened
from linebook.model.followed import find_changed, followed, numbers_of
from linebook.source.faults import Fault, Outcome
from linebook.source.following import STEP, spelt
from linebook.source.frozen import frozen
from linebook.source.noted import Question, Seen, noting

if TYPE_CHECKING:
    from linebook.compute.results import AllergenTable, Night
    from linebook.markup.sheet import Sheet
    from linebook.model.house import House
    from linebook.pdf.page_code import SheetCode
    from linebook.pdf.printing import Printing
    from linebook.templating.templates import Templates
    from linebook.workshop import PdfFile, Workshop


@frozen
class PrintBefore:
    """An earlier print: the house it was of, and what is known of it. ``codes`` gives those of a PDF, None if lost."""

    house: House
    figured: Figured
    asked: Mapping[Question, OldAnswer]
    files: Mapping[str, FileBefore]
    codes: Callable[[FileBefore], Mapping[str, SheetCode] | None] = field(repr=False)


@frozen
class PrintAgain:
    """A finished print and all that is to be known of it. A PDF that stands has no content here: it is where it was.

    ``asked_for_all`` is what was asked for the nights and the answers, ``kept`` what came of ``before_drawing``.
    """

    drawn: tuple[_Drawn, ...]
    figured: Figured
    asked_for_all: Mapping[Question, OldAnswer] = field(repr=False)
    kept: object = None

    @property
    def files(self) -> tuple[PdfFile, ...]:
        return tuple(one.file for one in self.drawn)

    @property
    def asked(self) -> Mapping[Question, OldAnswer]:
        """Return what was asked, and no more: what nobody asks now is not judged, and would grow old unnoticed."""
        asked = dict(self.asked_for_all)
        for one in self.drawn:
            asked |= one.kept.value.asked
        return asked

    @property
    def known(self) -> Mapping[str, FileBefore]:
        """Return what is to be known of each PDF, by its name."""
        return {one.file.name: one.kept.value.known for one in self.drawn}


@frozen
class FoundAnswers:
    """The answers of the allergen matrix, what was looked at for them, and every question in that."""

    table: AllergenTable
    also: AllergenTable | None
    seen: Seen
    asked: Mapping[Question, OldAnswer]


def answer_again(house: House, menu: str, issued: date) -> FoundAnswers:
    """Return the answers of a menu, with what is looked at for them."""
    from linebook.pipeline import find_answers

    whole = followed(house)
    (table, also), seen = noting(lambda: find_answers(whole, menu, issued))
    return FoundAnswers(table=table, also=also, seen=seen, asked=Questions(whole, {}).within([seen]))


def build_again(
    house: House,
    *,
    menu: str,
    nights: Sequence[int],
    lines: Sequence[str],
    printing: Printing,
    issued: date,
    folder: Path,
    output: Path,
    progress: Callable[[str], None],
    theme: str = "",
    ready: Templates | None = None,
    first_issued: Mapping[str, date] = MappingProxyType({}),
    go: Callable[[], FoundAnswers] | None = None,
    before: PrintBefore | None = None,
    before_drawing: Callable[[], object] | None = None,
) -> Outcome[PrintAgain]:
    """Draw what ``build_binders`` draws into ``output``, as far as it is not there already.

    ``before_drawing`` is done when the answers are there.
    """
    from linebook.copies import run_tasks
    from linebook.documents.binder_order import binder_order
    from linebook.pipeline import MATRIX_WEIGHT
    from linebook.workshop import open_workshop

    whole = followed(house)
    opened = open_workshop(whole, menu, issued, folder, theme, ready, first_issued)
    if opened.value is None:
        return Outcome(value=None, faults=opened.faults)
    covers = tuple(sorted(nights))
    told = spelt((menu, covers, printing, issued, theme, first_issued))
    work = _Work(opened.value, house, menu, issued, covers, before if before and before.figured.told == told else None)
    progress("computing amounts and allergens")
    refused = work.size_nights()
    if refused:
        return Outcome(value=None, faults=refused)
    counts = {line: count for line in lines if (count := len(binder_order(whole, menu, line)))}
    work.find_answers(go)
    kept = before_drawing() if before_drawing else None

    def bind(line: str) -> Outcome[_Drawn]:
        progress(f"drawing the {line} binder")
        return work.draw(printing.file_name(f"{line}-binder"), printing, output, line)

    def bind_matrix() -> Outcome[_Drawn]:
        return work.draw(printing.file_name("allergen-matrix"), printing, output, None)

    tasks: list[Callable[[], Any]] = [*(partial(bind, line) for line in counts), bind_matrix]
    weights = [*counts.values(), MATRIX_WEIGHT]
    drawn: list[Outcome[_Drawn]] = run_tasks(tasks, weights)
    faults = tuple(dict.fromkeys(one for outcome in drawn for one in outcome.faults))
    if faults:
        return Outcome(value=None, faults=faults)
    again = PrintAgain(
        drawn=tuple(outcome.value for outcome in drawn if outcome.value),
        figured=replace(work.figured, told=told),
        asked_for_all=work.asked,
        kept=kept,
    )
    return Outcome(value=again)


@frozen
class _Kept:
    """What is to be known of a PDF, and what was asked for it beside what was for the nights and the answers."""

    known: FileBefore
    asked: Mapping[Question, OldAnswer]


@frozen
class _Drawn:
    """A PDF, and what is kept of it, which nobody needs to have it printed."""

    file: PdfFile
    kept: Unopened[_Kept]


class _Work:
    """One print on its way."""

    def __init__(
        self,
        workshop: Workshop,
        house: House,
        menu: str,
        issued: date,
        covers: tuple[int, ...],
        before: PrintBefore | None,
    ) -> None:
        changed = find_changed(before.house, house) if before else None
        self._before = before if changed is not None else None
        self._workshop, self._house, self._menu = workshop, house, menu
        self._issued, self._covers = issued, covers
        self._first = numbers_of(house)
        asked = self._before.asked if self._before else {}
        self._questions = Questions(workshop.house, asked)
        self._judge = Judge(workshop.house, asked, changed or ())
        self._judge.recall()
        self._nights: Sequence[Night] = LateNights(len(covers), self._followed_nights)
        self._plain: list[Night] | None = None
        self._seen_of_nights: Seen
        self.figured: Figured
        self.asked: Mapping[Question, OldAnswer]

    def size_nights(self) -> tuple[Fault, ...]:
        """Size the nights where they are not as they were; return what they may not be printed with."""
        if self._before and self._judge.stands(self._before.figured.nights):
            self._seen_of_nights = self._before.figured.nights
            return ()
        refused, self._seen_of_nights = noting(self._refused)
        self._questions.within([self._seen_of_nights])  # before the same are asked of the house as it was
        if self._before:
            from linebook.compute.followed_results import find_changed_results

            was = self._sized(followed(self._before.house))
            self._judge.learn([*find_changed_results(was, self._sized_now(), self._first)])
        return refused

    def _refused(self) -> tuple[Fault, ...]:
        from linebook.pipeline import find_refused_bases, find_refused_batches

        house = self._workshop.house
        found = tuple(fault for night in self._sized_now() for fault in find_refused_batches(house, night))
        return found or tuple(find_refused_bases(house, self._menu))

    def _sized_now(self) -> list[Night]:
        if self._plain is None:
            self._plain = self._sized(self._workshop.house)
        return self._plain

    def _sized(self, house: House) -> list[Night]:
        from linebook.compute.demand import compute_night
        from linebook.model.occasion import Occasion

        return [compute_night(house, Occasion(menu=self._menu, covers=covers)) for covers in self._covers]

    def _followed_nights(self) -> Sequence[Night]:
        from linebook.compute.followed_results import followed_result

        return [followed_result(night, self._first + at * STEP) for at, night in enumerate(self._known_nights())]

    def _known_nights(self) -> Sequence[Night]:
        """Return the nights; where they are as they were, as they are known, and sized when more of them is asked."""
        if self._plain is not None or self._before is None:
            return self._sized_now()
        from linebook.compute.results import Night
        from linebook.model.occasion import Occasion

        figured = self._before.figured
        return [
            Night(
                occasion=Occasion(menu=self._menu, covers=covers),
                demands=figured.portions[at],
                balances=figured.balances[at],
                batches=self._late(at, "batches"),
                needs=self._late(at, "needs"),
                apart=self._late(at, "apart"),
                covered=self._late(at, "covered"),
            )
            for at, covers in enumerate(self._covers)
        ]

    def _late(self, at: int, name: str) -> Late:
        def find() -> Mapping[str, Any]:
            nights, _ = noting(self._sized_now)  # their own notes are kept apart, and judged as a whole
            part: Mapping[str, Any] = getattr(nights[at], name)
            return part

        return Late(find)

    def find_answers(self, go: Callable[[], FoundAnswers] | None) -> None:
        """Work out the answers where they are not as they were."""
        from linebook.compute.followed_results import find_changed_results, followed_result

        number = self._first + STEP * len(self._covers)
        before = self._before.figured if self._before else None
        if before and self._judge.stands(before.answers):
            seen, table, also = before.answers, before.table, before.also
        else:
            answered = go() if go else self._answered()
            seen, table, also = answered.seen, answered.table, answered.also
            self._questions.learn(answered.asked)
            if before:
                was, now = [before.table], [table]
                if before.also and also:
                    was, now = [*was, before.also], [*now, also]
                elif before.also or also:
                    self._before = None
                self._judge.learn([*find_changed_results(was, now, number)])
        self.figured = Figured(
            told="",
            nights=self._seen_of_nights,
            portions=tuple(night.demands for night in self._known_nights()),
            balances=tuple(night.balances for night in self._known_nights()),
            answers=seen,
            table=table,
            also=also,
        )
        self.asked = self._questions.within([self._seen_of_nights, seen])
        self._table = followed_result(table, number)
        self._also = followed_result(also, number + STEP) if also else None

    def _answered(self) -> FoundAnswers:
        from linebook.pipeline import find_answers

        (table, also), seen = noting(lambda: find_answers(self._workshop.house, self._menu, self._issued))
        return FoundAnswers(table=table, also=also, seen=seen, asked={})

    def draw(self, name: str, printing: Printing, output: Path, line: str | None) -> Outcome[_Drawn]:
        """Draw a PDF: the binder of a line, or the matrix."""
        known = self._before.files.get(name) if self._before else None
        making = SheetMaking(self._judge, known)
        faults = tuple(self._make(making, line))
        if faults:
            return Outcome(value=None, faults=faults)
        if known and making.all_stand and _digest(output / name) == known.digest:
            file = self._file(name, printing, b"", len(known.sheets), known.pages, turned=known.turned)
            return self._found(replace(file, digest=known.digest), known)
        codes = (self._before.codes(known) if self._before and known else None) or {}
        faults = making.make_others(codes)
        drawn = self._workshop.bound([sheet or codes[id_] for id_, sheet in making.sheets.items()], printing, keep=True)
        if drawn.value is None and not (faults or drawn.faults):  # they do not go with what was drawn before
            faults = making.make_others({})
            drawn = self._workshop.bound([sheet for sheet in making.sheets.values() if sheet], printing, keep=True)
        if faults or drawn.value is None:
            return Outcome(value=None, faults=(*faults, *drawn.faults))
        turned = all(sheet.text.landscape if sheet else codes[id_].landscape for id_, sheet in making.sheets.items())
        bound = drawn.value
        file = self._file(name, printing, bound.content, len(making.sheets), bound.pages, turned=turned)
        kept = {one.id: one for one in bound.codes if one is not None}
        now = FileBefore(
            sheets={id_: making.made[id_] for id_ in making.sheets},
            digest=sha256(bound.content).hexdigest(),
            pages=bound.pages,
            turned=turned,
            packed=pickle.dumps(kept, protocol=pickle.HIGHEST_PROTOCOL),
        )
        return self._found(file, now)

    def _file(self, name: str, printing: Printing, content: bytes, sheets: int, pages: int, *, turned: bool) -> PdfFile:
        from linebook.workshop import PdfFile, untranslated

        notes = untranslated(self._workshop.house)
        return PdfFile(
            name=name, content=content, sheets=sheets, pages=pages, printing=printing, turned=turned, notes=notes
        )

    def _found(self, file: PdfFile, known: FileBefore) -> Outcome[_Drawn]:
        asked = self._questions.within([sheet.seen for sheet in known.sheets.values()])
        more = {question: answer for question, answer in asked.items() if self.asked.get(question) is not answer}
        return Outcome(value=_Drawn(file=file, kept=Unopened(_Kept(known=known, asked=more))))

    def _make(self, making: SheetMaking, line: str | None) -> Iterator[Fault]:
        """Make the sheets of a PDF, and yield their faults."""
        if line is None:
            yield from making.make("allergen-matrix", self._matrix)
            return
        makers = self._workshop.binder_makers(line, self._table, self._nights, self._also)
        cover = f"line-cover:{line}"
        making.sheets[cover] = None  # it comes first, and is made last: it tells the fingerprints of the others
        for id_, make in makers.items():
            yield from making.make(id_, make)
        prints = {id_: sheet.fingerprint for id_, sheet in making.made.items()}
        make_cover = partial(self._workshop.cover_page, line, self._table, self._nights, prints)
        yield from making.make(cover, make_cover, spelt(prints))

    def _matrix(self) -> Outcome[Sheet]:
        made = self._workshop.matrix_sheet(self._table, self._also)
        return Outcome(value=made.value[0] if made.value else None, faults=made.faults)


def _digest(path: Path) -> str:
    try:
        return sha256(path.read_bytes()).hexdigest()
    except OSError:
        return ""
