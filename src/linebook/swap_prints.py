"""An issue: binders drawn, what they hold told sheet by sheet, and the swap sheet against what was issued before.

Prints nothing, writes nothing, reads no clock. Of earlier issues it reads what their sheets said from the house folder.
"""

from __future__ import annotations

from collections.abc import Callable, Collection, Mapping, Sequence
from dataclasses import replace
from datetime import date, timedelta
from pathlib import Path
from typing import TYPE_CHECKING, Final

from linebook.source.faults import Outcome
from linebook.source.frozen import frozen

if TYPE_CHECKING:
    from linebook.compute.swap import LineSwap
    from linebook.documents.swap_sheet import Change
    from linebook.documents.text import Text
    from linebook.documents.wording import Wording
    from linebook.markup.blocks import SheetText
    from linebook.model.house import House
    from linebook.model.issue import Issue, IssuedSheet, Register
    from linebook.model.supply import StockEntry
    from linebook.pdf.printing import Printing
    from linebook.pipeline import Answers
    from linebook.swap_changes import OldTexts
    from linebook.templating.templates import Templates
    from linebook.workshop import PdfFile

SWAP_FILE: Final = "swap-sheet"


@frozen
class IssuePrints:
    """What an issue is: its binders, what is in them, and the swap sheet, None where nothing was issued before.

    ``texts`` is what each sheet says by its fingerprint. ``is_new`` is whether anything differs from what stands,
    or whether two issues made apart leave that open.
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
    on_hand: Sequence[StockEntry] | None = None,
    swap_printing: Printing | None = None,
    ready: Templates | None = None,
    go: Callable[[], Answers] | None = None,
) -> Outcome[IssuePrints]:
    """Draw an issue, and the swap sheet against what stood in the binders on the day ``since``.

    ``on_hand`` is what was counted, by which the swap sheet says what to finish; None where nothing was. The swap sheet
    is printed as ``swap_printing`` says, where it is to hang on the wall: what it tells is of binders in ``printing``.

    Faults: those of drawing; LB906 where what an old sheet said is not kept.
    """
    from linebook.compute.apart import open_on
    from linebook.compute.issued import binders_on, first_days
    from linebook.compute.swap import line_swap, new_lines, on_line
    from linebook.known_again import known_on_lines
    from linebook.pipeline import build_binders
    from linebook.swap_changes import OldTexts

    stood = binders_on(register, since)
    now = new_lines(stood, {line.id: line.name for line in house.file.lines})
    several = open_on(register, since)
    unread = OldTexts(folder=folder, shown=shown, faults=[])  # what is not kept is told where it is compared
    standing = _Standing(
        issues={
            now.get(line, line): tuple(on_line(one, line, now.get(line, line)) for one in several.get(line, (last,)))
            for line, last in stood.items()
        },
        old=unread,
    )
    covered = _lines(house, lines, stood, now)
    blank = _blank_issue(house, menu, nights, printing, issued, theme, register, covered)
    blank = replace(blank, options={**blank.options, **_looks(house, blank.lines, folder, theme)})

    def apart(line: str, file: PdfFile) -> Collection[str]:
        if not (only_changed and standing.issues):
            return ()
        drawn = replace(blank, sheets=_sheets(line, file))
        swap = line_swap(line, standing.before(line, drawn, _texts(file)), drawn)
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
        go=go,
        first_issued=first_days(register),
        apart=apart,
    )
    if built.value is None:
        return Outcome(value=None, faults=built.faults)
    issue = replace(blank, sheets=tuple(sheet for file in built.value for sheet in _sheets(_line_of(file), file)))
    texts = {held.fingerprint: held.text for file in built.value for held in file.held}
    is_new = _is_new(issue, binders_on(register, issued)) or bool(open_on(register, issued).keys() & {*covered})
    prints = IssuePrints(files=built.value, issue=issue, texts=texts, is_new=is_new)
    texts_of = {_line_of(file): _texts(file) for file in built.value}
    before = {
        line: one
        for line in standing.issues
        if (one := standing.before(line, issue, texts_of.get(line, {}))) is not None
    }
    if not before:
        return Outcome(value=prints, faults=built.faults)
    before = {**known_on_lines(before, issue, texts, unread)}
    swapped = _with_swap(house, prints, before, standing.open, swap_printing or printing, folder, shown, theme, on_hand)
    return Outcome(value=swapped.value, faults=(*built.faults, *swapped.faults))


@frozen
class _Standing:
    """What the binders are of before an issue, by the ids that lines have now: of one issue each where it is known."""

    issues: Mapping[str, tuple[Issue, ...]]
    old: OldTexts

    @property
    def open(self) -> frozenset[str]:
        """Return the lines of which nobody can tell which of some issues is in the binder."""
        return frozenset(line for line, issues in self.issues.items() if len(issues) > 1)

    def before(self, line: str, after: Issue, texts: Mapping[str, SheetText]) -> Issue | None:
        """Return what of a line's binder is turned into ``after``, whose sheets say ``texts``; None for no binder."""
        from linebook.compute.apart import either
        from linebook.known_again import known_again

        issues = self.issues.get(line, ())
        if not issues:
            return None
        return known_again(line, issues[0] if len(issues) == 1 else either(line, issues, after), texts, self.old)


def binder_file(line: str) -> str:
    """Return the name of the PDF of a line's binder; that of the matrix for front of house."""
    return f"{line}-binder.pdf" if line else "allergen-matrix.pdf"


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
    from linebook.compute.apart import last_made
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
        known=last_made(register),
    )


def _looks(house: House, lines: Collection[str], folder: Path, theme: str) -> dict[str, str]:
    """Return how the pages look, as options of an issue: all of them in a check, and the band of each of its lines."""
    from linebook.house_theme import open_looks
    from linebook.model.issue import check_of
    from linebook.pdf.paint import accent_of

    looks = open_looks(house.file, folder, theme).value
    if looks is None:  # which drawing tells
        return {}
    own, look = sorted(looks.theme.fonts.own), looks.theme
    look = replace(look, accents=(), fonts=replace(look.fonts, own=frozenset()))
    bands = (
        f"{line.id}={at}:{check_of(repr(accent_of(looks.theme, at)))}"
        for at, line in enumerate(house.file.lines)
        if line.id in lines
    )
    return {"look": check_of(repr((house.file.name, look, own))), "bands": " ".join(bands)}


def _lines(house: House, lines: Sequence[str], before: Mapping[str, Issue], now: Mapping[str, str]) -> tuple[str, ...]:
    """Return the lines an issue covers: those asked for and front of house; of all, also those there once were.

    ``now`` are the new ids of lines: under its old one such a line is covered with the new one.
    """
    from linebook.model.issue import FRONT_OF_HOUSE

    known = [line.id for line in house.file.lines]
    gone = [line for line, issue in before.items() if line and line not in known and issue.of_line(line)]
    ended = [line for line in gone if set(lines) == set(known) or now.get(line) in lines]
    return (*lines, *ended, FRONT_OF_HOUSE)


def _line_of(file: PdfFile) -> str:
    """Return the line whose binder a PDF is: that of its first sheet, its cover; '' for the matrix."""
    return file.held[0].text.line


def _texts(file: PdfFile) -> Mapping[str, SheetText]:
    """Return what the sheets of a PDF say, by id."""
    return {held.text.id: held.text for held in file.held}


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
    """Return whether an issue differs from what stands in its binders, if only in its looks."""
    from linebook.compute.swap import looks_alike, printed_alike

    old = [standing.get(line) for line in issue.lines]
    return any(
        one is None
        or one.menu != issue.menu
        or not printed_alike(one, issue)
        or not looks_alike(one, issue)
        or one.of_line(line) != issue.of_line(line)
        for line, one in zip(issue.lines, old, strict=True)
    )


def _with_swap(
    house: House,
    prints: IssuePrints,
    before: Mapping[str, Issue],
    left_open: Collection[str],
    printing: Printing,
    folder: Path,
    shown: str,
    theme: str,
    on_hand: Sequence[StockEntry] | None,
) -> Outcome[IssuePrints]:
    """Add the swap sheet to an issue."""
    from linebook.compute.makeup import components_of
    from linebook.compute.swap import line_swap, menu_swap
    from linebook.documents.oil_words import oil_texts
    from linebook.documents.second_names import names_in_second
    from linebook.documents.swap_sheet import DOCUMENT, Swapping, house_swap, line_swaps
    from linebook.markup.titles import title_of_sheet
    from linebook.swap_changes import OldTexts, Teller, renamed_cards
    from linebook.workshop import open_workshop

    after = prints.issue
    opened = open_workshop(house, after.menu, after.day, folder, theme)
    if opened.value is None:
        return Outcome(value=None, faults=opened.faults)
    workshop = opened.value
    menu = menu_swap(before, after, components_of(house, house.menus[after.menu]))
    known = {*before, *(line.id for line in house.file.lines)}
    lines = [line for line in _front_first(after.lines) if line in known]  # and none that is called otherwise now
    swaps = tuple(line_swap(line, before.get(line), after) for line in lines)
    reader = OldTexts(folder=folder, shown=shown, faults=[])
    wording = workshop.wording
    renames = renamed_cards(before, after, prints.texts, replace(reader, faults=[]))
    teller = Teller(
        house=house,
        wording=wording,
        texts=prints.texts,
        old=reader,
        before=before,
        after=after,
        renames=renames,
        names=names_in_second(house),
    )
    changes = tuple(change for swap in swaps for change in teller.changes(swap))
    swapping = Swapping(
        before={line: one for line, one in before.items() if line in after.lines},
        after=after,
        swaps=swaps,
        menu=menu,
        changes=changes,
        changed=_changed_dishes(house, menu.kept, changes),
        use_by={sheet.subject: _use_up(house, sheet, after, on_hand, reader, wording) for sheet in menu.unused},
        oil=oil_texts(house, after.menu, wording) if _is_new_menu(before, after) else (),
        left_open=frozenset(left_open),
        titles={fingerprint: title_of_sheet(text) for fingerprint, text in prints.texts.items()},
    )
    sheets = workshop.sheets(DOCUMENT, [house_swap(house, swapping, wording), *line_swaps(house, swapping, wording)])
    drawn = workshop.draw(sheets, printing.file_name(SWAP_FILE), printing)
    if drawn.value is None:
        return Outcome(value=None, faults=(*reader.faults, *drawn.faults))
    return Outcome(value=replace(prints, swap=drawn.value, swaps=swaps), faults=(*reader.faults, *drawn.faults))


def _changed_dishes(house: House, kept: Sequence[str], changes: Sequence[Change]) -> dict[str, tuple[str, ...]]:
    """Return the kept dishes of which anything changed, each with the ids of the cards that did, its own first."""
    from linebook.compute.inside import all_inside

    touched = dict.fromkeys(change.key for change in changes if change.itself)
    found = {}
    for dish in kept:
        served = house.dishes[dish].ever_served if dish in house.dishes else ()
        inside = all_inside(house, (one.item for one in served))
        cards = tuple(one for one in (dish, *touched) if one in touched and (one == dish or one in inside))
        if cards:
            found[dish] = tuple(dict.fromkeys(cards))
    return found


def _use_up(
    house: House,
    sheet: IssuedSheet,
    after: Issue,
    on_hand: Sequence[StockEntry] | None,
    old: OldTexts,
    wording: Wording,
) -> Text:
    """Return until when a component is used up that is no longer made; of one without a spec what its card said."""
    from linebook.documents.text import EMPTY
    from linebook.documents.use_up import use_up_text
    from linebook.markup.titles import fact_of_sheet

    component = house.components.get(sheet.subject)
    if component is not None:
        begins = max(after.day, house.menus[after.menu].first)
        return use_up_text(house, component, begins - timedelta(days=1), after.day, on_hand, wording)
    text = old.read(sheet)
    return fact_of_sheet(text, "fact.keeps") if text else EMPTY


def _is_new_menu(before: Mapping[str, Issue], after: Issue) -> bool:
    return any(issue.menu != after.menu for line, issue in before.items() if line in after.lines)


def _front_first(lines: Sequence[str]) -> list[str]:
    return sorted(lines, key=lambda line: line != "")
