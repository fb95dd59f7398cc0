"""Where the process begins and ends. It imports nothing first, so that Ctrl-C is answered from then on."""

from __future__ import annotations

import os
import sys

ENDED_BY_HAND = 130
"""With what a command ends that Ctrl-C ends, as shells have it."""


def main() -> None:
    """Run the command line and end the process."""
    _end(run())


def run() -> int:
    """Run the command line; return with what the process ends."""
    try:
        from linebook.cli.beginning import begin  # here, because Ctrl-C may come while it is imported

        begin()
    except KeyboardInterrupt:  # before any command could answer it
        return ENDED_BY_HAND
    except SystemExit as ending:
        if isinstance(ending.code, int):
            return ending.code
        raise
    return 0


def _end(code: int) -> None:
    """End the process at once: to take all that it holds apart, value by value, takes longer than a small command."""
    try:
        for stream in (sys.stdout, sys.stderr):
            if stream is not None:  # as one is that was closed before we began
                stream.flush()
    except (OSError, ValueError):  # a full disk, or nobody who reads on: Python tells of it
        sys.exit(code)
    os._exit(code)
