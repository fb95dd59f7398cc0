"""``linebook bind --issue`` and ``--only-changed``: what is drawn is compared with what stands, and recorded."""

from __future__ import annotations

import contextlib
import sys
from collections.abc import Sequence
from datetime import date
from functools import partial
from pathlib import Path
from typing import TYPE_CHECKING

import click

from linebook.cli.faults import print_faults
from linebook.cli.options import stop_on_faults
from linebook.cli.progress import show_progress

if TYPE_CHECKING:
    from linebook.cli.asked import Asked
    from linebook.cli.supply_options import SupplyAsked
    from linebook.copies import Ahead
    from linebook.model.house import House
    from linebook.model.issue import Issue, Register
    from linebook.source.faults import Fault, Outcome
    from linebook.swap_prints import IssuePrints
    from linebook.templating.templates import Templates
    from linebook.workshop import PdfFile


def refuse_at_odds(asked: Asked, covers: Sequence[int], supply: SupplyAsked) -> None:
    """Stop with 2 where an issue is asked for with what is not for weeks: one night, the wall, the rail."""
    told = {
        "--covers": bool(covers),
        "--without": bool(supply.without),
        "--on-hand": supply.on_hand is not None,
        "--large": asked.large,
        "--half-sheet": asked.half_sheet,
    }
    for option, given in told.items():
        if given:
            raise click.UsageError(
                f"An issue is of the binders as they stand for weeks: {option} is not for --issue and --only-changed."
            )


def run_issue(
    kitchen: House,
    asked: Asked,
    ahead: Ahead[Templates],
    warnings: Sequence[Fault],
    *,
    menu: str,
    lines: Sequence[str],
    issued: date,
    folder: Path,
    shown: str,
    output: Path,
    theme: str,
    records: bool,
    only_changed: bool,
) -> None:
    """Draw the binders against what stands, write them, and record the issue where it ``records``."""
    from linebook.cli.register import open_register
    from linebook.compute.issued import binders_on
    from linebook.pipeline import find_answers
    from linebook.swap_prints import build_issue

    if records:
        _stop_unless_clean(warnings)
    register = open_register(folder, shown, issued)
    before = binders_on(register, issued)
    if only_changed and not records and not before:
        from linebook.cli.swap import refuse_nothing_issued

        refuse_nothing_issued(register.issues[0].day if register.issues else None, issued)
    built: Outcome[IssuePrints] = ahead.run(
        build_issue,
        kitchen,
        answer=partial(find_answers, kitchen, menu, issued),
        menu=menu,
        nights=tuple(kitchen.file.nights),
        lines=tuple(lines),
        printing=asked.printing(kitchen),
        issued=issued,
        folder=folder,
        shown=shown,
        register=register,
        since=issued,
        only_changed=only_changed,
        progress=show_progress,
        theme=theme,
    )
    show_progress("")
    stop_on_faults(built.faults if records else (*warnings, *built.faults))
    if built.value is None:
        sys.exit(1)
    _write(built.value, folder, output, records=records, only_changed=only_changed)
    _say(kitchen, built.value, output, records=records, only_changed=only_changed, opens=asked.opens)
    if records and built.value.is_new:
        _say_ahead(built.value.issue, register)


def _stop_unless_clean(warnings: Sequence[Fault]) -> None:
    """Stop with 1 where there is any warning: what is issued stands for weeks."""
    if warnings:
        print_faults(warnings, "human")
        click.echo("Nothing is issued while there are warnings: what is issued stands for weeks.", err=True)
        sys.exit(1)


def _printed(prints: IssuePrints, *, records: bool, only_changed: bool) -> list[PdfFile]:
    """Return the PDFs to write: whole binders where they are issued, those of sheets to put in, the swap sheet."""
    swap = [prints.swap] if prints.swap and (prints.is_new or not records) else []
    whole = prints.files if records or not only_changed else ()
    return [*whole, *prints.changed, *swap]


def _write(prints: IssuePrints, folder: Path, output: Path, *, records: bool, only_changed: bool) -> None:
    """Write what sheets say, then the PDFs, then the issue: it is on record once all of it is in place."""
    from linebook.cli.night import write_prints
    from linebook.cli.register import issue_files

    files = _printed(prints, records=records, only_changed=only_changed)
    first, last = issue_files(prints, folder) if records else ([], [])
    if records and prints.is_new:
        _remove_stale(prints, output, {file.name for file in files})
    write_prints(files, output, first=first, last=last)
    if records:
        _remove_gone(prints, output)


def _remove_gone(prints: IssuePrints, output: Path) -> None:
    """Take away the binder of a line that has nothing on the menu any more, once that is on record."""
    from linebook.swap_prints import binder_file

    drawn = {file.name for file in prints.files}
    for line in prints.issue.lines:
        if not prints.issue.of_line(line) and binder_file(line) not in drawn:
            _remove(output / binder_file(line))


def _remove_stale(prints: IssuePrints, output: Path, written: set[str]) -> None:
    """Take away what an earlier issue told to put in, before this one is on record: nobody may swap by it any more."""
    from linebook.swap_prints import SWAP_FILE, binder_file

    changed = [binder_file(line).replace(".pdf", "-changed.pdf") for line in prints.issue.lines]
    for name in (*changed, f"{SWAP_FILE}.pdf"):
        if name not in written:
            _remove(output / name)


def _remove(path: Path) -> None:
    """Take away a PDF of an earlier issue, by which nobody may swap any more."""
    with contextlib.suppress(OSError):
        path.unlink()


def _say_ahead(issue: Issue, register: Register) -> None:
    """Say which issue that was made ahead does not know of this one: its swap sheet begins with what stood before."""
    from linebook.compute.apart import next_ahead

    ahead = next_ahead(register, issue.day, issue.lines)
    if ahead is not None:
        click.echo(
            f"Ahead    {ahead.menu_name} was issued for {ahead.day} without this: issue it again with:\n"
            f"  linebook bind --issue --only-changed --menu {ahead.menu} --date {ahead.day}"
        )


def _say(kitchen: House, prints: IssuePrints, output: Path, *, records: bool, only_changed: bool, opens: bool) -> None:
    from linebook.cli.bundle import say_bundle
    from linebook.cli.night import show_prints
    from linebook.cli.register import say_swaps

    issue = prints.issue
    swap = [prints.swap] if prints.swap and (prints.is_new or not records) else []
    files = [*(prints.changed if only_changed and prints.swap else prints.files), *swap]
    if not files:
        click.echo("Nothing changed since the last issue: there is nothing to print.")
        return
    say_bundle(files, output)
    if records and not prints.is_new:
        click.echo("Nothing changed since the last issue, so nothing new is on record.")
    elif records:
        click.echo(f"Issued   {issue.menu_name}, {issue.day}: {len(issue.sheets)} sheets on record in issued/")
    if prints.swaps and (prints.is_new or not records):
        click.echo("Leaves   as the swap sheet tells, binder by binder:")
        say_swaps(kitchen, prints.swaps)
    if opens:
        show_prints(output)
