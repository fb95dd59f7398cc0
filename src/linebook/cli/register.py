"""What ``bind``, ``swap`` and ``current`` share of the register: reading it, writing an issue, saying what to do."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from datetime import date
from pathlib import Path
from typing import TYPE_CHECKING

import click

from linebook.cli.options import stop_on_faults

if TYPE_CHECKING:
    from linebook.compute.swap import LineSwap
    from linebook.model.house import House
    from linebook.model.issue import Issue, Register
    from linebook.source.faults import Fault
    from linebook.swap_prints import IssuePrints


def open_register(folder: Path, shown: str, day: date) -> Register:
    """Return the register of a house; stops with 1 where an issue in it is damaged.

    Warns of issues of two people that stand side by side on a day.
    """
    from linebook.compute.apart import side_by_side
    from linebook.read.register import read_register

    read = read_register(folder, shown)
    stop_on_faults(read.faults)
    assert read.value is not None
    apart = {tuple(one.check for one in issues): issues for issues in side_by_side(read.value, day).values()}
    stop_on_faults([_beside(issues, shown) for issues in apart.values()])
    return read.value


def _beside(issues: Sequence[Issue], shown: str) -> Fault:
    """Return the warning of issues of which neither knows the other."""
    from linebook.read.register import issue_file
    from linebook.source.codes import fault
    from linebook.source.files import show_path
    from linebook.source.spans import SourceFile

    paths = [issue_file(issue)[0] for issue in issues]
    days = " and ".join(dict.fromkeys(one.day.isoformat() for one in issues))
    message = f"issues of {days} were made apart, and what they put in one binder differs: "
    place = SourceFile(path=show_path(shown, paths[-1]), text="").whole()
    hints = ("issue once more, which settles what stands: linebook bind --issue --only-changed",)
    return fault("LB909", message + ", ".join(f"`{path.name}`" for path in paths), place, hints=hints)


def first_days_or_none(folder: Path, shown: str) -> Mapping[str, date]:
    """Return the day each fingerprint was first issued; none, with a warning, where the register cannot be read.

    A house that never issued anything has none, and nothing is read.
    """
    if not (folder / "issued").is_dir():
        return {}
    from linebook.compute.issued import first_days
    from linebook.read.register import read_register
    from linebook.source.codes import fault

    read = read_register(folder, shown)
    if read.value is not None:
        return dict(first_days(read.value))
    hint = "see what is wrong with it with: linebook swap"
    message = "the register cannot be read, so every sheet bears the day it is printed for"
    stop_on_faults([fault("LB907", message, read.faults[0].span, hints=(hint,))])
    return {}


def issue_files(prints: IssuePrints, folder: Path) -> tuple[list[tuple[Path, bytes]], list[tuple[Path, bytes]]]:
    """Return the files of an issue in the house folder: those to write before its PDFs, and the one after them.

    A text that is kept already is left alone, also where ids in it are others now; one that was damaged is mended.
    """
    from linebook.markup.kept import read_sheet, written_sheet
    from linebook.read.register import issue_file, text_file

    texts = []
    for fingerprint, text in prints.texts.items():
        path, content = folder / text_file(fingerprint), written_sheet(text).encode()
        kept = _content(path)
        if kept != content and read_sheet((kept or b"").decode("utf-8", "replace"), fingerprint) is None:
            texts.append((path, content))
    if not prints.is_new:
        return texts, []
    place, written = issue_file(prints.issue)
    return texts, [(folder / place, written.encode())]


def _content(path: Path) -> bytes | None:
    try:
        return path.read_bytes().replace(b"\r\n", b"\n")
    except OSError:
        return None


def say_swaps(kitchen: House, swaps: Sequence[LineSwap]) -> None:
    """Say in a line a binder how many leaves to pull, to put in and to leave."""
    from linebook.compute.swap import COVER

    names = {line.id: line.name for line in kitchen.file.lines} | {"": "Front of house"}
    gone = {
        swap.line: step.old.title for swap in swaps for step in swap.steps if step.old and step.old.document == COVER
    }
    rows = [((gone | names).get(swap.line, swap.line), swap) for swap in swaps]
    widest = max(len(name) for name, _ in rows)
    for name, swap in rows:
        if swap.is_gone:
            said = f"pull the whole binder, {swap.pulled} {'leaf' if swap.pulled == 1 else 'leaves'}"
        elif swap.changes:
            said = f"pull {swap.pulled:3}, put in {swap.inserted:3}, leave {swap.left:3}"
        else:
            said = "nothing to do"
        click.echo(f"  {name:{widest}}  {said}")


def since_words(before: Mapping[str, Issue]) -> str:
    """Return what is compared with: *late winter of 2027-01-12*."""
    return ", ".join(dict.fromkeys(f"{one.menu_name} of {one.day}" for one in before.values()))
