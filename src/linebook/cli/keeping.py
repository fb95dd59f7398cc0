"""What ``bind`` writes down of a print so that the same words, said again, need do nothing, or little."""

from __future__ import annotations

import os
from collections.abc import Sequence
from hashlib import sha256
from pathlib import Path
from typing import TYPE_CHECKING

import click

from linebook.cli.faults import TOLD
from linebook.inputs import digest_of_all
from linebook.kept import LOOKED, RECORD, Asked, Look, Made, written_record

if TYPE_CHECKING:
    from linebook.kept_print import KeptPrint
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
        self._before: Look | None = None

    @property
    def has_record(self) -> bool:
        """Return whether something was printed into the folder before."""
        return (self._output / RECORD).exists()

    def begin(self, *, wanted: bool) -> None:
        """Look at everything the print depends on, before any of it is read."""
        if self._asked is None or not wanted:
            return
        about = (self._asked.words, self._house, self._day)
        known = LOOKED.pop() if LOOKED and LOOKED[0].about == about else None
        self._before = known or Look(self._asked, self._house, self._day)

    def open_store(self) -> KeptPrint | None:
        """Return what is kept of the last print in the same words; None where nothing may be kept."""
        place = _store_place()
        if self._asked is None or self._before is None or place is None:
            return None
        from linebook.kept_print import KeptPrint
        from linebook.sheet_store import open_store

        words = "\0".join(self._asked.words)
        where = [str(Path(one).resolve()) for one in (self._house or ".", self._output)]
        store = open_store(place, digest_of_all({}, words, *where)[:32])
        if store is None:
            return None
        inputs, code = self._before.inputs, self._before.code
        read = {path: digest for path, digest in inputs.items() if _is_record(path)}
        others = {path: digest for path, digest in inputs.items() if path not in read}
        return KeptPrint(store, digest_of_all(others, code, self._day, self._house, words), read)

    def record(self, files: Sequence[PdfFile], said: Sequence[str]) -> list[tuple[Path, bytes]]:
        """Return the record to write with the PDFs; none where anything was saved since the run began."""
        if self._asked is None or self._before is None:
            return []
        if Look(self._asked, self._house, self._day).state != self._before.state:
            return []
        told = click.get_current_context().meta.get(TOLD, ())
        digests = {file.name: file.digest or sha256(file.content).hexdigest() for file in files}
        made = Made(self._house, self._day, digests, told, said, chosen=self._chosen)
        content = written_record(self._before.state, made)
        return [(self._output / RECORD, content)] if content is not None else []


def _store_place() -> Path | None:
    """Return where what programs of this user keep is safe to delete; None where the system does not say."""
    told, home = os.environ.get("XDG_CACHE_HOME", ""), os.environ.get("HOME", "")
    if os.path.isabs(told):
        return Path(told) / "linebook"
    return Path(home) / ".cache" / "linebook" if os.path.isabs(home) else None


def _is_record(path: str) -> bool:
    """Say whether a file is one of those that a record of the house is read from, and nothing else is."""
    folder, _, name = path.partition("/")
    stem, _, ending = name.partition(".")
    return bool(stem) and ending == {"dishes": "md", "components": "md", "pantry": "yaml", "menus": "yaml"}.get(folder)
