"""An issue: binders drawn, what they hold told sheet by sheet, and the swap sheet against what was issued before.

Prints nothing, writes nothing, reads no clock. Of earlier issues it reads what their sheets said from the house folder.
"""

from __future__ import annotations

from collections.abc import Callable, Collection, Iterator, Mapping, Sequence
from dataclasses import replace
from datetime import date
from pathlib import Path
from typing import TYPE_CHECKING, Final

from linebook.source.faults import Fault, Outcome
from linebook.source.frozen import frozen

if TYPE_CHECKING:
    from linebook.compute.swap import LineSwap
    from linebook.documents.swap_sheet import Change
    from linebook.documents.text import Text
    from linebook.documents.wording import Wording
    from linebook.markup.blocks import SheetText
    from linebook.model.house import House
    from linebook.model.issue import Issue, IssuedSheet, Register
    from linebook.pdf.printing import Printing
    from linebook.templating.templates import Templates
    from linebook.workshop import PdfFile

SWAP_FILE: Final = "swap-sheet"
_OF_THE_MENU: Final = frozenset(("line-allergens", "set-up-sheet", "allergen-matrix"))
"""Sheets that list what is on the menu: of another menu they are others throughout."""


@frozen
class IssuePrints:
    """What an issue is: its binders, what is in them, and the swap sheet, None where nothing was issued before.

    ``texts`` is what each sheet says by its fingerprint. ``is_new`` is whether anything differs from what stands.
    """

    files: tuple[PdfFile, ...]
    issue: Issue
    texts: Mapping[str, SheetText]
    is_new: bool
    swap: PdfFile | None = None
    swaps: tuple[LineSwap, ...] = ()

    @property
    def changed(self) -> tuple[PdfFile, ...]:
        """Return the PDFs of the sheets to put in, a line each."""
        return tuple(file.changed for file in self.files if file.changed)


def build_issue(
    house: House,
    *,
    menu: str,
    nights: Sequence[int],
    lines: Sequence[str],
    printing: Printing,
    issued: date,
    folder: Path,
    shown: str,
    register: Register,
    since: date,
    only_changed: bool,
    progress: Callable[[str], None],
    theme: str = "",
    ready: Templates | None = None,
) -> Outcome[IssuePrints]:
    """Draw an issue, and the swap sheet against what stood in the binders on the day ``since``.

    Faults: those of drawing; LB906 where what an old sheet said is not kept.
    """
    from linebook.compute.issued import binders_on, first_days
    from linebook.compute.swap import line_swap
    from linebook.pipeline import build_binders

    before = binders_on(register, since)
    blank = _blank_issue(house, menu, nights, printing, issued, theme, register, _lines(house, lines, before))

    def apart(line: str, file: PdfFile) -> Collection[str]:
        if not (only_changed and line in before):
            return ()
        swap = line_swap(line, before[line], replace(blank, sheets=_sheets(line, file)))
        return {one.new.id for one in swap.steps if one.new and one.act.value in ("insert", "exchange")}

    built = build_binders(
        house,
        menu=menu,
        nights=nights,
        lines=lines,
        printing=printing,
        issued=issued,
        folder=folder,
        progress=progress,
        theme=theme,
        ready=ready,
        first_issued=first_days(register),
        apart=apart,
    )
    if built.value is None:
        return Outcome(value=None, faults=built.faults)
    issue = replace(blank, sheets=tuple(sheet for file in built.value for sheet in _sheets(_line_of(file), file)))
    texts = {held.fingerprint: held.text for file in built.value for held in file.held}
    prints = IssuePrints(
        files=built.value, issue=issue, texts=texts, is_new=_is_new(issue, binders_on(register, issued))
    )
    if not before:
        return Outcome(value=prints, faults=built.faults)
    swapped = _with_swap(house, prints, before, printing, folder, shown, theme)
    return Outcome(value=swapped.value, faults=(*built.faults, *swapped.faults))


def _blank_issue(
    house: House,
    menu: str,
    nights: Sequence[int],
    printing: Printing,
    issued: date,
    theme: str,
    register: Register,
    lines: tuple[str, ...],
) -> Issue:
    """Return an issue without its sheets; its number puts it after all others of its day."""
    from linebook.model.issue import Issue

    options = {
        "paper": printing.paper,
        "sides": "two" if printing.duplex else "one",
        "theme": theme or house.file.theme or "standard",
        "languages": " ".join(house.file.languages),
        "units": house.file.units.replace(" ", "-"),
        "nights": " ".join(map(str, sorted(nights))),
    }
    return Issue(
        menu=menu,
        menu_name=house.menus[menu].name,
        day=issued,
        number=1 + max((one.number for one in register.issues if one.day == issued), default=0),
        options=options,
        lines=lines,
        sheets=(),
    )


def _lines(house: House, lines: Sequence[str], before: Mapping[str, Issue]) -> tuple[str, ...]:
    """Return the lines an issue covers: those asked for and front of house; of all, also those there once were."""
    from linebook.model.issue import FRONT_OF_HOUSE

    known = [line.id for line in house.file.lines]
    gone = [line for line, issue in before.items() if line and line not in known and issue.of_line(line)]
    return (*lines, *(gone if set(lines) == set(known) else ()), FRONT_OF_HOUSE)


def _line_of(file: PdfFile) -> str:
    """Return the line whose binder a PDF is: that of its first sheet, its cover; '' for the matrix."""
    return file.held[0].text.line


def _sheets(line: str, file: PdfFile) -> tuple[IssuedSheet, ...]:
    from linebook.markup.said import plain
    from linebook.model.issue import IssuedSheet

    return tuple(
        IssuedSheet(
            id=held.text.id,
            line=line,
            fingerprint=held.fingerprint,
            pages=held.pages,
            title=plain(held.text.title),
        )
        for held in file.held
    )


def _is_new(issue: Issue, standing: Mapping[str, Issue]) -> bool:
    """Return whether an issue differs from what stands in its binders."""
    from linebook.compute.swap import printed_alike

    old = [standing.get(line) for line in issue.lines]
    return any(
        one is None
        or one.menu != issue.menu
        or not printed_alike(one, issue)
        or one.of_line(line) != issue.of_line(line)
        for line, one in zip(issue.lines, old, strict=True)
    )


def _with_swap(
    house: House,
    prints: IssuePrints,
    before: Mapping[str, Issue],
    printing: Printing,
    folder: Path,
    shown: str,
    theme: str,
) -> Outcome[IssuePrints]:
    """Add the swap sheet to an issue."""
    from linebook.compute.swap import line_swap, menu_swap
    from linebook.documents.swap_sheet import DOCUMENT, Swapping, house_swap, line_swaps
    from linebook.workshop import open_workshop

    after = prints.issue
    opened = open_workshop(house, after.menu, after.day, folder, theme)
    if opened.value is None:
        return Outcome(value=None, faults=opened.faults)
    workshop = opened.value
    menu = menu_swap(before, after)
    swaps = tuple(line_swap(line, before.get(line), after) for line in _front_first(after.lines))
    reader = _OldTexts(folder=folder, shown=shown, faults=[])
    teller = _Teller(
        house=house, wording=workshop.wording, texts=prints.texts, old=reader, new_menu=_is_new_menu(before, after)
    )
    swapping = Swapping(
        before={line: one for line, one in before.items() if line in after.lines},
        after=after,
        swaps=swaps,
        menu=menu,
        changes=tuple(change for swap in swaps for change in teller.changes(swap)),
        keeps={sheet.subject: teller.keeps(sheet) for sheet in menu.unused},
        oil=teller.oil(before, after),
    )
    sheets = workshop.sheets(
        DOCUMENT, [house_swap(house, swapping, workshop.wording), *line_swaps(house, swapping, workshop.wording)]
    )
    drawn = workshop.draw(sheets, printing.file_name(SWAP_FILE), printing)
    if drawn.value is None:
        return Outcome(value=None, faults=(*reader.faults, *drawn.faults))
    return Outcome(value=replace(prints, swap=drawn.value, swaps=swaps), faults=(*reader.faults, *drawn.faults))


def _is_new_menu(before: Mapping[str, Issue], after: Issue) -> bool:
    return any(issue.menu != after.menu for line, issue in before.items() if line in after.lines)


def _front_first(lines: Sequence[str]) -> list[str]:
    return sorted(lines, key=lambda line: line != "")


@frozen(kw_only=True)
class _OldTexts:
    """What sheets said when they were issued, from the house folder; what is not kept is a fault each."""

    folder: Path
    shown: str
    faults: list[Fault]

    def read(self, sheet: IssuedSheet) -> SheetText | None:
        from linebook.markup.kept import read_sheet
        from linebook.read.register import text_file
        from linebook.source.codes import fault
        from linebook.source.files import read_source, show_path
        from linebook.source.spans import SourceFile

        path = text_file(sheet.fingerprint)
        opened = read_source(self.folder, path, self.shown)
        text = read_sheet(opened.value.text, sheet.fingerprint) if opened.value else None
        if text is None:
            is_there = opened.value is not None or (self.folder / path).exists()
            state = "is not as it was written" if is_there else "is not there"
            lost = fault(
                "LB906",
                f"what `{sheet.title}` said when it was issued {state}, so what changed cannot be told",
                SourceFile(path=show_path(self.shown, path), text="").whole(),
                hints=(f"put it back, as with: git checkout -- {path}",),
            )
            self.faults.append(lost)
        return text


@frozen
class _Teller:
    """Says what changed, sheet by sheet, gathered by what the sheets are about."""

    house: House
    wording: Wording
    texts: Mapping[str, SheetText]
    old: _OldTexts
    new_menu: bool

    def changes(self, swap: LineSwap) -> Iterator[Change]:
        """Yield what changed of each dish, component or sheet whose sheets are exchanged on a line."""
        from linebook.documents.swap_sheet import Change

        exchanged: dict[str, list[tuple[IssuedSheet, IssuedSheet]]] = {}
        for step in swap.steps:
            if step.old and step.new and step.act.value == "exchange":
                exchanged.setdefault(self._about(step.new), []).append((step.old, step.new))
        for about, pairs in exchanged.items():
            told = [self._told(one, other) for one, other in pairs]
            documents = dict.fromkeys(other.document for _, other in pairs)
            yield Change(
                key=about,
                line=swap.line,
                name=self._name(pairs[0][1]),
                documents=self.wording.listed(self.wording.say(f"document.{one}") for one in documents),
                allergens=tuple(dict.fromkeys(one for grave, _ in told for one in grave)),
                other=tuple(dict.fromkeys(one for _, rest in told for one in rest)),
                stays=pairs[0][1].document in ("station-card", "batch-card"),
            )

    def _about(self, sheet: IssuedSheet) -> str:
        known = sheet.subject in self.house.dishes or sheet.subject in self.house.components
        return sheet.subject if known else sheet.id

    def _name(self, sheet: IssuedSheet) -> Text:
        from linebook.documents.second import item_name
        from linebook.documents.text import words

        known = sheet.subject in self.house.dishes or sheet.subject in self.house.components
        return item_name(self.house, sheet.subject) if known else words(sheet.title)

    def _told(self, old: IssuedSheet, new: IssuedSheet) -> tuple[tuple[Text, ...], tuple[Text, ...]]:
        from linebook.markup.compared import tell_changes

        if old.fingerprint == new.fingerprint:
            return (), (self.wording.say("swap.same-words"),)
        before = self.old.read(old)
        if before is None:
            return (), (self.wording.say("swap.unknown"),)
        if self.new_menu and new.document in _OF_THE_MENU:
            return (), (self.wording.say("swap.for-menu"),)
        changes = tell_changes(before, self.texts[new.fingerprint], self.wording)
        return changes.allergens, changes.other

    def keeps(self, sheet: IssuedSheet) -> Text:
        """Return how long a component keeps that is no longer made, as its card had it; as its spec has it else."""
        from linebook.documents.text import EMPTY, words
        from linebook.markup.said import SaidText, what_is_said

        text = self.old.read(sheet)
        said = what_is_said(text).get("fact.keeps") if text else None
        return words(said.text) if isinstance(said, SaidText) else EMPTY

    def oil(self, before: Mapping[str, Issue], after: Issue) -> tuple[Text, ...]:
        """Return what is to be said of the shared media where the menu changes."""
        from linebook.documents.oil_words import oil_texts

        if not _is_new_menu(before, after):
            return ()
        return oil_texts(self.house, after.menu, self.wording)
