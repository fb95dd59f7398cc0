"""Files that are wholly old or wholly new: written beside, flushed to the disk, then moved into place."""

from __future__ import annotations

import contextlib
import errno
import os
import re
import stat
from collections.abc import Sequence
from pathlib import Path


def write_file(path: Path, content: bytes) -> None:
    """Replace the file at ``path`` by ``content``, making its folder where needed.

    Raises OSError; then the old file is untouched and nothing is left beside it.
    """
    write_files([(path, content)])


def write_files(files: Sequence[tuple[Path, bytes]]) -> None:
    """Write all files beside their places first, then move each into place.

    A full disk, a refused folder or a folder in a file's place shows while nothing has been replaced yet. What a
    killed run left beside these places is taken away. Raises OSError.
    """
    beside: list[tuple[Path, Path]] = []
    try:
        for path, content in files:
            path.parent.mkdir(parents=True, exist_ok=True)
            if path.is_dir():
                raise IsADirectoryError(errno.EISDIR, os.strerror(errno.EISDIR), str(path))
            _take_leftovers_away(path)
            temporary = path.with_name(f".{path.name}.{os.getpid()}.part")
            beside.append((temporary, path))
            write_through(temporary, content)
            _keep_mode(path, temporary)
        for temporary, path in beside:
            os.replace(temporary, path)
        for folder in sorted({path.parent for _, path in beside}):
            flush_folder(folder)
    except BaseException:
        for temporary, _ in beside:
            with contextlib.suppress(OSError):
                temporary.unlink(missing_ok=True)
        raise


def _take_leftovers_away(path: Path) -> None:
    """Remove the files that runs no longer alive had begun to write for this place; what cannot be removed stays."""
    begun = re.compile(rf"\.{re.escape(path.name)}\.([0-9]{{1,19}})\.part")
    for name in os.listdir(path.parent):
        match = begun.fullmatch(name)
        if match and not may_be_running(int(match[1])):
            with contextlib.suppress(OSError):
                (path.parent / name).unlink()


def _keep_mode(path: Path, temporary: Path) -> None:
    """Let the new file be read and written by whom the old one may be; a place that refuses this keeps its own rule."""
    with contextlib.suppress(OSError):
        os.chmod(temporary, stat.S_IMODE(path.stat().st_mode))


def may_be_running(process: int) -> bool:
    """Say whether a process of this number, not our own, may be alive."""
    # Elsewhere than on POSIX asking would end the process, but there a file that is being written cannot be removed.
    if os.name != "posix":
        return False
    try:
        os.kill(process, 0)
    except (ProcessLookupError, OverflowError):
        return False
    except OSError:
        return True  # someone else's
    return process != os.getpid()


def write_through(path: Path, content: bytes) -> None:
    """Write a file and flush it to the disk. Raises OSError."""
    with path.open("wb") as file:
        file.write(content)
        file.flush()
        os.fsync(file.fileno())


def flush_folder(folder: Path) -> None:
    """Flush the names in a folder to the disk. Raises OSError."""
    # Windows cannot open a folder; there the move itself is all that can be done.
    if os.name != "posix":
        return
    handle = os.open(folder, os.O_RDONLY)
    try:
        os.fsync(handle)
    finally:
        os.close(handle)
