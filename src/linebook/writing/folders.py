"""A folder that is wholly old or wholly new: written beside, then put in the place of the old one in one move.

Owns the list by which a run knows the files of an earlier one. It must not know what is in any file.
"""

from __future__ import annotations

import contextlib
import errno
import os
import re
import sys
from collections.abc import Collection, Mapping, Sequence
from hashlib import sha256
from pathlib import Path
from typing import Final

from linebook.writing.atomic import flush_folder, may_be_running, write_through

_LEFT_BY_THE_SYSTEM: Final = (".DS_Store", "Thumbs.db", "desktop.ini")
"""What a system puts into a folder that is looked at; nobody misses it."""

_LISTED: Final = re.compile(r"([0-9a-f]{64})  ([^/\\\x00\r\n]+)")
_BESIDE: Final = ("part", "old")
_AT_FOLDER, _SWAP = -100, 2


def find_others(folder: Path, list_name: str) -> tuple[str, ...]:
    """Return the names of what is in a folder and was not written by ``replace_folder``, or was changed since.

    Nothing where there is no folder. Raises OSError.
    """
    if not os.path.lexists(folder):
        return ()
    listed = _read_list(folder / list_name)
    names = sorted(set(os.listdir(folder)) - {list_name, *_LEFT_BY_THE_SYSTEM})
    return tuple(name for name in names if not _is_ours(folder / name, listed))


def replace_folder(folder: Path, files: Sequence[tuple[str, bytes]], list_name: str) -> None:
    """Make ``folder`` hold these files, a list of them, and nothing else.

    Raises OSError, FileExistsError where others' files are in the folder; then it is as it was.
    """
    folder = folder.resolve()
    folder.parent.mkdir(parents=True, exist_ok=True)
    _clear_up(folder, list_name)
    new = _beside(folder, "part")
    try:
        _write_all(new, files, list_name)
        if find_others(folder, list_name):
            raise FileExistsError(errno.ENOTEMPTY, os.strerror(errno.ENOTEMPTY), str(folder))
        _swap_in(new, folder, list_name)
    except BaseException:
        with contextlib.suppress(OSError):
            _remove(new, list_name, _read_list(new / list_name))
        raise
    flush_folder(folder.parent)


def _write_all(new: Path, files: Sequence[tuple[str, bytes]], list_name: str) -> None:
    """Write the list first, so that at any moment it names all there is to take away again."""
    new.mkdir()
    # The form that checksum programs read and write, so that a copy of the folder can be checked without us.
    lines = sorted(f"{sha256(content).hexdigest()}  {name}\n" for name, content in files)
    write_through(new / list_name, "".join(lines).encode())
    for name, content in files:
        write_through(new / name, content)
    flush_folder(new)


def _swap_in(new: Path, folder: Path, list_name: str) -> None:
    """Put the new folder in its place; the old one is gone after that, or is back."""
    if not folder.exists():
        new.rename(folder)
        return
    old = _beside(folder, "old")
    if _exchange(new, folder):
        new.rename(old)
    else:
        folder.rename(old)
        try:
            new.rename(folder)
        except BaseException:
            old.rename(folder)
            raise
    _remove_old(old, list_name)


def _exchange(one: Path, other: Path) -> bool:
    """Let two folders change places at once, where the system can (Linux, renameat2); return whether they have."""
    if sys.platform != "linux":
        return False
    import ctypes

    call = getattr(ctypes.CDLL(None, use_errno=True), "renameat2", None)
    return call is not None and call(_AT_FOLDER, os.fsencode(one), _AT_FOLDER, os.fsencode(other), _SWAP) == 0


def _beside(folder: Path, kind: str) -> Path:
    return folder.with_name(f".{folder.name}.{os.getpid()}.{kind}")


def _clear_up(folder: Path, list_name: str) -> None:
    """Take away what killed runs left beside a folder; one that ended between two moves has its old folder put back."""
    begun = re.compile(rf"\.{re.escape(folder.name)}\.([0-9]{{1,19}})\.({'|'.join(_BESIDE)})")
    for name in sorted(os.listdir(folder.parent)):
        match = begun.fullmatch(name)
        if match is None or may_be_running(int(match[1])):
            continue
        left = folder.parent / name
        if match[2] == "old" and not folder.exists():
            left.rename(folder)
        elif match[2] == "old":
            _remove_old(left, list_name)
        else:
            _remove(left, list_name, _read_list(left / list_name))


def _remove_old(folder: Path, list_name: str) -> None:
    """Remove what was written here and is as it was then."""
    listed = _read_list(folder / list_name)
    _remove(folder, list_name, [name for name in listed if _is_ours(folder / name, listed)])


def _remove(folder: Path, list_name: str, names: Collection[str]) -> None:
    """Remove files, the list when they are gone, and the folder; what someone has put beside them meanwhile stays."""
    wanted = set(names).union(_LEFT_BY_THE_SYSTEM) - {list_name}
    for name in sorted(wanted.intersection(os.listdir(folder))):
        with contextlib.suppress(OSError):
            (folder / name).unlink()
    if wanted.isdisjoint(os.listdir(folder)):
        with contextlib.suppress(OSError):
            (folder / list_name).unlink(missing_ok=True)
            folder.rmdir()


def _is_ours(path: Path, listed: Mapping[str, str]) -> bool:
    digest = listed.get(path.name)
    return digest is not None and path.is_file() and not path.is_symlink() and _digest(path) == digest


def _digest(path: Path) -> str:
    return sha256(path.read_bytes()).hexdigest()


def _read_list(path: Path) -> dict[str, str]:
    """Return the digest of each listed file by name; nothing where there is no such list."""
    if not path.is_file() or path.is_symlink():
        return {}
    text = path.read_bytes().decode("utf-8", "replace")
    matches = [_LISTED.fullmatch(line) for line in text.splitlines()]
    return {match[2]: match[1] for match in matches if match}
