"""How a run begins: a print that is there already is told at once, all else goes to the command line."""

from __future__ import annotations

import gc
import os
import sys
import time
from typing import TYPE_CHECKING, Final

if TYPE_CHECKING:
    from collections.abc import Sequence

    from linebook.kept import Made


_OBJECTS_BETWEEN_SWEEPS: Final = 2_000_000
"""Nearly all that a command makes lives to its end, so sweeping every 700 objects, as Python does, finds nothing."""

_HELP: Final = frozenset({"-h", "--help"})


def begin() -> None:
    """Run the command line, unless it is asked for the print that it made last and that is still what it would make."""
    gc.set_threshold(_OBJECTS_BETWEEN_SWEEPS)
    words = sys.argv[1:]
    is_printed = False
    if _may_be_kept(words):
        from linebook.kept import LOOKED, Asked, find_made

        made = find_made(Asked(words), time.strftime("%Y-%m-%d"))
        if made is not None and _say(made):
            return
        is_printed = bool(LOOKED)
    from linebook.ready import begin_ahead, end_ahead

    if words[:1] == ["bind"] and not _HELP.intersection(words):
        begin_ahead(few=is_printed)
    from linebook.cli.main import main as run

    try:
        run()
    finally:
        end_ahead()


def _may_be_kept(words: Sequence[str]) -> bool:
    # Elsewhere words with a star in them are made into names of files before they are understood.
    asks_for_completion = "_LINEBOOK_COMPLETE" in os.environ
    return words[:1] == ["bind"] and "--no-cache" not in words and os.name == "posix" and not asks_for_completion


def _say(made: Made) -> bool:
    """Say again what was said; False where this terminal has not the letters for it."""
    told, said = ("".join(f"{line}\n" for line in lines) for lines in (made.told, made.said))
    if "\033" in told and not sys.stderr.isatty():
        import re

        told = re.sub(r"\033\[[0-9;]*m", "", told)
    try:
        told.encode(sys.stderr.encoding, "strict")
        said.encode(sys.stdout.encoding, "strict")
    except UnicodeEncodeError:
        return False
    try:
        sys.stderr.write(told)
        sys.stdout.write(said)
        sys.stdout.flush()
    except BrokenPipeError:  # nobody reads on, as after `| head -1`
        os.dup2(os.open(os.devnull, os.O_WRONLY), sys.stdout.fileno())
        sys.exit(1)
    return True
