"""The ways by which ``bind`` comes to its PDFs: another process makes them while the rules of the house are looked at.

What it may use of the print before is read from what is kept of that; where only cards have changed, only those are
read. Prints nothing but what ``progress`` shows.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from datetime import date
from functools import partial
from pathlib import Path
from typing import TYPE_CHECKING, Any

import click

from linebook.cli.options import wanted_lines
from linebook.cli.progress import show_progress
from linebook.source.faults import Severity

if TYPE_CHECKING:
    from linebook.check.house import Looked
    from linebook.cli.asked import Asked
    from linebook.copies import Ahead, Sharing
    from linebook.kept_print import KeptPrint, Printed, Read
    from linebook.model.house import House
    from linebook.pipeline import OpenHouse
    from linebook.source.faults import Outcome


class Binding:
    """One print being made, as the words of the command have it; ``shown`` is how the house's path is told to people.

    ``reads_there`` says that the other process may read the house, too, which is quicker than to be sent it.
    """

    def __init__(
        self,
        asked: Asked,
        *,
        menu: str | None,
        covers: tuple[int, ...],
        lines: Sequence[str],
        issued: date,
        folder: Path,
        theme: str,
        shown: str,
        output: Path,
        reads_there: bool,
    ) -> None:
        self._asked, self._menu, self._covers, self._lines, self._issued = asked, menu, covers, lines, issued
        self._folder, self._theme, self._shown = folder, theme, shown
        self._reads_there = reads_there
        self._named: dict[str, Any] = {"issued": issued, "folder": folder, "theme": theme, "progress": show_progress}
        self._keeping: dict[str, Any] = {"output": output, "printed": asked.house}
        self._kept: KeptPrint | None = None
        self._read: Read | None = None
        self._ahead: Ahead[Any] | None = None
        self._sharing: Sharing | None = None
        self._begun = self._reopened = False

    def get_ready(self) -> Ahead[Any]:
        """Return the process that gets ready while the house is read; it is told once how."""
        if self._ahead is None:
            from linebook.ready import take_ahead

            self._ahead = take_ahead()
            click.get_current_context().call_on_close(self._ahead.end)
            self._get_ready(self._ahead)
        return self._ahead

    def _get_ready(self, ahead: Ahead[Any]) -> None:
        """Tell the other process how to get ready, which depends on where it is to start from."""
        if self._kept is not None and self._kept.is_there:
            from linebook.kept_print import get_ready_again

            self._reads_there = False
            ahead.get_ready(partial(get_ready_again, self._folder, self._theme, self._kept, self._asked.house))
        elif self._reads_there:
            from linebook.kept_print import get_ready_and_read

            step = partial(get_ready_and_read, self._folder, self._theme, self._shown, self._asked.languages)
            self._sharing = ahead.get_ready_together(step)
        else:
            from linebook.ready import get_ready

            ahead.get_ready(partial(get_ready, self._folder, self._theme))

    def end(self) -> None:
        """End the other process, which makes what is not wanted."""
        if self._ahead is not None:
            self._ahead.end()

    def open(self, kept: KeptPrint | None) -> OpenHouse:
        """Return the house, read as far as it has changed since the print that is kept."""
        self._kept = kept
        self.get_ready()
        if kept is not None and kept.is_there:
            self._end_sharing()  # so little may be left to read that the other process is not waited for
        opened = self._reopen(kept) if kept is not None else None
        if opened is not None:
            return opened
        from linebook.pipeline import open_house  # here, where the other process gets ready at the same time

        try:
            return open_house(self._folder, self._shown, self._asked.languages, self._sharing)
        finally:
            self._end_sharing()

    def _end_sharing(self) -> None:
        if self._sharing is not None:
            self._sharing.end()
            self._sharing = None

    def _reopen(self, kept: KeptPrint) -> OpenHouse | None:
        """Return the house of the print before with the few cards that have changed since, and begin its print.

        None where more has changed.
        """
        paths = kept.changed_cards()
        parsed = kept.parsed() if paths is not None else None
        if paths is None or parsed is None:
            return None
        from linebook.check.house import begin_check
        from linebook.cli.register import first_days_or_none
        from linebook.kept_print import build_reopened
        from linebook.pipeline import OpenHouse
        from linebook.read.house_folder import read_cards_again

        read = read_cards_again(self._folder, self._shown, parsed, paths)
        opened = OpenHouse(faults=(), checking=begin_check(read)) if read is not None else None
        kitchen = self._asked.house(opened.unchecked) if opened is not None and opened.unchecked else None
        sure = self._sure(kitchen)
        if read is None or sure is None:
            return None
        first = first_days_or_none(self._folder, self._shown)
        named = {**self._named, **self._keeping, **sure, "kept": kept, "first_issued": first}
        self.get_ready().begin(build_reopened, kept.cards_in(read), **named)
        self._begun = self._reopened = True
        return opened

    def begin(self, opened: OpenHouse) -> Looked:
        """Send the other process a house whose rules are still to be looked at, where they alone can refuse it.

        Return what was found by those that were looked at: where no error was, the answers are worked out and sent, so
        that it draws while the longer ones are looked at.
        """
        if self._begun or opened.checking is None or opened.unchecked is None:
            return {}
        kitchen = self._asked.house(opened.unchecked)
        sure = self._sure(kitchen)
        if sure is None:
            return {}
        self._send(kitchen, opened, **sure)
        looked = opened.checking.look_first()
        if not any(one.severity is Severity.ERROR for found in looked.values() for one in found):
            self.get_ready().go(self._answering(kitchen, sure["menu"]))
        return looked

    def _answering(self, kitchen: House, menu: str) -> Callable[[], object]:
        return partial(_answers, kitchen, menu, self._issued, kept=self._kept is not None)

    def _sure(self, kitchen: House | None) -> dict[str, Any] | None:
        """Return what a print of a house is told; None where more than the rules can refuse it."""
        from linebook.pipeline import find_menu

        if kitchen is None:
            return None
        known = {line.id for line in kitchen.file.lines}
        menu = find_menu(kitchen, self._issued) if self._menu is None else self._menu
        if (
            menu is None
            or menu not in kitchen.menus
            or kitchen.menus[menu].on_hand
            or not known.issuperset(self._lines)
        ):
            return None
        return self._told(kitchen, menu, wanted_lines(kitchen, self._lines))

    def _told(self, kitchen: House, menu: str, lines: Sequence[str]) -> dict[str, Any]:
        nights = tuple(dict.fromkeys(self._covers or kitchen.file.nights))
        return {"menu": menu, "lines": lines, "nights": nights, "printing": self._asked.printing(kitchen)}

    def _send(self, kitchen: House, opened: OpenHouse, *, as_read: bool = True, **named: Any) -> None:
        """Send the other process a house to print: whole, or as what was read of it where it is printed ``as_read``."""
        from linebook.kept_print import Read, build_read, build_unkept, digest_of_texts

        if not as_read or opened.parsed is None:
            self.get_ready().begin(build_unkept, kitchen, **self._named, **named)
        else:
            texts = digest_of_texts(opened.sources)
            self._read = Read(opened.parsed, texts, there=self._reads_there)
            self.get_ready().begin(build_read, self._read, kept=self._kept, **self._named, **self._keeping, **named)
        self._begun = True

    def keep(self, opened: OpenHouse) -> None:
        """Keep what the next print can use of this one, of a house that was read without any fault."""
        if self._kept is not None and opened.parsed is not None and not opened.faults:
            from linebook.kept_print import Read

            rest = self.get_ready().later()
            if rest is not None:
                self._kept.keep(self._read or Read(opened.parsed), rest)

    def finish(
        self, kitchen: House, opened: OpenHouse, menu: str, lines: Sequence[str], *, as_read: bool
    ) -> Outcome[Printed]:
        """Return the print of a house that may be printed; only one that is ``as_read`` is kept."""
        if not as_read:
            self._kept = None
        if self._reopened:
            again: Outcome[Printed] = self.get_ready().finish(lambda: None)
            return again
        if self._asked.half_sheet:
            return self._rail_cards(kitchen, menu, lines)
        answer = self._answering(kitchen, menu)
        if not self._begun:
            from linebook.cli.register import first_days_or_none

            first = first_days_or_none(self._folder, self._shown)
            told = self._told(kitchen, menu, lines)
            self._send(kitchen, opened, as_read=as_read, first_issued=first, **told)
        found: Outcome[Printed] = self.get_ready().finish(answer)
        return found

    def _rail_cards(self, kitchen: House, menu: str, lines: Sequence[str]) -> Outcome[Printed]:
        if self._covers:
            raise click.UsageError("--covers sizes batch cards, and --half-sheet prints none: leave one of them out.")
        from linebook.kept_print import Printed
        from linebook.pipeline import build_rail_cards
        from linebook.source.faults import Outcome

        printing = self._asked.printing(kitchen)
        cards = build_rail_cards(kitchen, menu=menu, lines=lines, printing=printing, **self._named)
        return Outcome(value=Printed(files=cards.value) if cards.value is not None else None, faults=cards.faults)


def _answers(kitchen: House, menu: str, issued: date, *, kept: bool) -> object:
    """Return the answers of a menu, as the print is told them that is kept, or as the other is."""
    if kept:
        from linebook.binders_again import answer_again

        return answer_again(kitchen, menu, issued)
    from linebook.pipeline import find_answers

    return find_answers(kitchen, menu, issued)
