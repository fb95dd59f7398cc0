"""What ``bind`` writes down of a print so that the same words, said again, need do nothing."""

from __future__ import annotations

from collections.abc import Sequence
from hashlib import sha256
from pathlib import Path
from typing import TYPE_CHECKING

import click

from linebook.cli.faults import TOLD
from linebook.kept import RECORD, Asked, Made, state_of, written_record

if TYPE_CHECKING:
    from linebook.workshop import PdfFile


class Keeping:
    """One run on its way to a record of what it makes.

    A run that was not started by typing words, or whose words are not understood here as the command line does, has
    none. ``day`` is the day it runs on, '' where it was told one; ``chosen`` says that the house was named.
    """

    def __init__(self, house: str, output: Path, day: str, *, chosen: bool) -> None:
        words = click.get_current_context().obj
        asked = Asked(words) if isinstance(words, tuple) and words[:1] == ("bind",) else None
        self._asked = asked if asked and Path(asked.output()) == output else None
        self._house, self._output, self._day, self._chosen = house, output, day, chosen
        self._before = ""

    def begin(self, *, wanted: bool) -> None:
        """Look at everything the print depends on, before any of it is read."""
        if self._asked is not None and wanted:
            self._before = state_of(self._asked, self._house, self._day)

    def record(self, files: Sequence[PdfFile], said: Sequence[str]) -> list[tuple[Path, bytes]]:
        """Return the record to write with the PDFs; none where anything was saved since the run began."""
        if self._asked is None or not self._before:
            return []
        if state_of(self._asked, self._house, self._day) != self._before:
            return []
        told = click.get_current_context().meta.get(TOLD, ())
        digests = {file.name: sha256(file.content).hexdigest() for file in files}
        made = Made(self._house, self._day, digests, told, said, chosen=self._chosen)
        content = written_record(self._before, made)
        return [(self._output / RECORD, content)] if content is not None else []
