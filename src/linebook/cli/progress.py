"""Shows how far a command has come. The process that draws does, too, so click is imported only where it is needed."""

from __future__ import annotations

import os
import sys


def show_progress(text: str) -> None:
    """Show one line of progress on a terminal, in place of the last; '' clears it. Silent elsewhere."""
    if not sys.stderr.isatty():
        return
    line = f"\r\033[K{text}"
    if os.name == "nt":
        from click import echo  # knows how to clear a line on any terminal of that system

        echo(line, err=True, nl=False)
    else:
        print(line, end="", file=sys.stderr, flush=True)
