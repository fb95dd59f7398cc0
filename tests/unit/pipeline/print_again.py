"""A house bound again and again from what is kept of the print before, each time held against a print made anew."""

from __future__ import annotations

from hashlib import sha256
from pathlib import Path

import pytest
from click.testing import CliRunner

from linebook import again
from linebook.cli.main import command
from linebook.pipeline import load_house

DAY = "2027-03-02"


class Bench:
    """One house in a folder of its own, and how many of its sheets stood in the last print."""

    def __init__(self, house: Path, place: Path, patch: pytest.MonkeyPatch, *words: str) -> None:
        self.house, self.words = house, words
        self._kept, self._anew = place / "kept", place / "anew"
        self.stood = self.made = 0
        self.prints = 0
        self._cache = str(place / "cache")
        patch.setattr("linebook.copies._can_copy", lambda: False)  # so that what is made is counted here

    def bind(self, out: Path, *more: str) -> tuple[int, str, dict[str, str]]:
        """Return how a run ended, what it said on the error stream, and the digest of every PDF there is."""
        words = ("bind", str(self.house), "-o", str(out), *self.words, *more)
        done = CliRunner().invoke(command, words, obj=words, catch_exceptions=False)
        pdfs = {path.name: sha256(path.read_bytes()).hexdigest() for path in sorted(out.glob("*.pdf"))}
        return done.exit_code, done.stderr, pdfs

    def check(self, why: object = "") -> bool:
        """Bind from what is kept and anew, and fail where anything differs; return whether it could be printed."""
        counted = again.SheetMaking.make

        def make(own, id_, maker, given=""):  # type: ignore[no-untyped-def]
            faults = counted(own, id_, maker, given)
            self.stood += own.sheets.get(id_) is None and not faults
            self.made += own.sheets.get(id_) is not None
            return faults

        self.stood = self.made = 0
        with pytest.MonkeyPatch.context() as patch:
            patch.setattr(again.SheetMaking, "make", make)
            patch.setenv("XDG_CACHE_HOME", self._cache)
            kept = self.bind(self._kept)
        for path in self._anew.glob("*.pdf"):
            path.unlink()
        anew = self.bind(self._anew, "--no-cache")
        assert kept[:2] == anew[:2], (why, kept[:2], anew[:2])
        if kept[0] == 0:
            differing = [name for name in anew[2] if kept[2].get(name) != anew[2][name]]
            assert not differing, (why, differing)
        self.prints += 1
        return kept[0] == 0

    def is_sound(self) -> bool:
        """Return whether the rules find no error, which takes less than two prints."""
        return load_house(self.house, str(self.house), ()).value is not None
