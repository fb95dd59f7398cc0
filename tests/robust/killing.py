"""Runs linebook as typed in a process of its own, and kills it at a step of writing, for the tests of what is left then."""

from __future__ import annotations

import os
import subprocess
import sys
import tempfile
from pathlib import Path
from typing import NamedTuple

DRIVER = Path(__file__).with_name("killed_words.py")


class Ran(NamedTuple):
    """How a run ended, what it said of its steps, and what went wrong."""

    code: int
    steps: str
    err: str

    @property
    def count(self) -> int:
        """Return how many steps there were, of a run that was not killed."""
        return int(self.steps.split()[-2])


def driven(count: int, words: tuple[str, ...], whom: str = "one") -> list[str]:
    """Return the command that types ``words`` and is killed at its ``count``-th step, 0 for none."""
    return [sys.executable, str(DRIVER), str(count), whom, *words]


def environment(stand: Path, told: str = os.devnull) -> dict[str, str]:
    """Return where what is kept for the next run goes, and what is said of the steps."""
    return {**os.environ, "XDG_CACHE_HOME": str(stand / "cache"), "LINEBOOK_STEPS": told}


def run(stand: Path, count: int, words: tuple[str, ...], whom: str = "one", **options: object) -> Ran:
    """Type words in the folder ``stand``; ``options`` are those of ``subprocess.run``."""
    with tempfile.NamedTemporaryFile() as told:
        done = subprocess.run(  # type: ignore[call-overload]
            driven(count, words, whom),
            cwd=stand,
            env=environment(stand, told.name),
            capture_output=True,
            text=True,
            check=False,
            start_new_session=True,
            **options,
        )
        return Ran(done.returncode, told.read().decode("utf-8"), done.stderr)
