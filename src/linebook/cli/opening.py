"""Shows a file or a folder in the system's own viewer, where there is one. The only module that starts a program."""

from __future__ import annotations

import os
import sys
from pathlib import Path


def show(path: Path) -> str:
    """Open a path in the system's viewer, without waiting for it, and return what to say of that."""
    shown = f"`{path}`"
    try:
        if sys.platform == "win32":
            os.startfile(path.resolve())
            return f"Opened {shown}."
        program = "open" if sys.platform == "darwin" else "xdg-open"
        why_not = _why_not(program)
        if why_not:
            return f"{shown} is not opened: {why_not}."
        _start(program, path.resolve())
    except OSError as mistake:
        return f"{shown} is not opened: {mistake.strerror or mistake}."
    return f"Opened {shown}."


def _why_not(program: str) -> str:
    """Return why nothing can be shown here, '' where it can."""
    import shutil

    if program == "xdg-open" and not (os.environ.get("DISPLAY") or os.environ.get("WAYLAND_DISPLAY")):
        return "there is no screen here to show it on"
    return "" if shutil.which(program) else f"there is no viewer here, `{program}` is not installed"


def _start(program: str, path: Path) -> None:
    import subprocess

    nowhere = subprocess.DEVNULL
    # The path is absolute, so that no file's name is taken for an option; no shell reads it.
    subprocess.Popen([program, str(path)], stdin=nowhere, stdout=nowhere, stderr=nowhere, start_new_session=True)
