"""Files that are wholly old or wholly new: written beside, flushed to the disk, then moved into place."""

from __future__ import annotations

import contextlib
import os
from collections.abc import Sequence
from pathlib import Path


def write_file(path: Path, content: bytes) -> None:
    """Replace the file at ``path`` by ``content``, making its folder where needed.

    Raises OSError; then the old file is untouched and nothing is left beside it.
    """
    write_files([(path, content)])


def write_files(files: Sequence[tuple[Path, bytes]]) -> None:
    """Write all files beside their places first, then move each into place.

    A full disk or a refused folder shows while nothing has been replaced yet. Raises OSError.
    """
    beside: list[tuple[Path, Path]] = []
    try:
        for path, content in files:
            path.parent.mkdir(parents=True, exist_ok=True)
            temporary = path.with_name(f".{path.name}.{os.getpid()}.part")
            beside.append((temporary, path))
            _write_through(temporary, content)
        for temporary, path in beside:
            os.replace(temporary, path)
        for folder in sorted({path.parent for _, path in beside}):
            _flush_folder(folder)
    except BaseException:
        for temporary, _ in beside:
            with contextlib.suppress(OSError):
                temporary.unlink(missing_ok=True)
        raise


def _write_through(path: Path, content: bytes) -> None:
    with path.open("wb") as file:
        file.write(content)
        file.flush()
        os.fsync(file.fileno())


def _flush_folder(folder: Path) -> None:
    # Windows cannot open a folder; there the move itself is all that can be done.
    if os.name != "posix":
        return
    handle = os.open(folder, os.O_RDONLY)
    try:
        os.fsync(handle)
    finally:
        os.close(handle)
