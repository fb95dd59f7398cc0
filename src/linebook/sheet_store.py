"""A folder of the user's own in which a print keeps its parts for the next: whole or not at all, and safe to delete.

Owns who may write there, how a part is known to be whole, and how much is kept. A part goes by the digest of its bytes,
so two runs at once never have two of one name; the list of parts is replaced in one move, and one that names what is
not there is as good as none. It must not know what any part is. It reads no clock and prints nothing.
"""

from __future__ import annotations

import os
import stat
from collections.abc import Collection
from contextlib import suppress
from hashlib import sha256
from pathlib import Path
from typing import Final

from linebook.writing.atomic import may_be_running

_LIST: Final = "list"
_HEAD: Final = b"linebook 1\n"
_MOST_BYTES: Final = 200_000_000
_MOST_PRINTS: Final = 12
"""So many prints are kept, of different houses or asked in different words: the one not made for longest goes."""

_DIGEST: Final = 64
_FLAGS: Final = os.O_RDONLY | getattr(os, "O_NOFOLLOW", 0) | getattr(os, "O_NONBLOCK", 0) | getattr(os, "O_CLOEXEC", 0)


class SheetStore:
    """The parts that are kept of one print, in a folder that only this user can write to."""

    def __init__(self, folder: Path) -> None:
        self._folder = folder

    def read_list(self, state: str) -> bytes | None:
        """Return the list of parts, where it was written in the same ``state``; None where there is none."""
        content = self._read(_LIST)
        head = _HEAD + state.encode() + b"\n"
        if content is None or not content.startswith(head):
            return None
        digest, body = content[len(head) : len(head) + _DIGEST], content[len(head) + _DIGEST :]
        return body if sha256(body).hexdigest().encode() == digest else None

    def read(self, part: str) -> bytes | None:
        """Return a part; None where it is not there as it was written."""
        content = self._read(part) if len(part) == _DIGEST and part.isalnum() else None
        return content if content is not None and sha256(content).hexdigest() == part else None

    def write(self, content: bytes) -> str:
        """Keep a part and return its name. Raises OSError."""
        name = sha256(content).hexdigest()
        if not (self._folder / name).exists():
            self._write(name, content)
        return name

    def write_list(self, state: str, content: bytes, parts: Collection[str]) -> None:
        """Keep the list of parts, and no others than these. Raises OSError."""
        digest = sha256(content).hexdigest().encode()
        self._write(_LIST, _HEAD + state.encode() + b"\n" + digest + content)
        for name in set(os.listdir(self._folder)) - {_LIST, *parts}:
            if not _is_being_written(name):
                with suppress(OSError):
                    os.unlink(self._folder / name)

    def _write(self, name: str, content: bytes) -> None:
        beside = self._folder / f"{name}.{os.getpid()}.part"
        try:
            descriptor = os.open(beside, os.O_WRONLY | os.O_CREAT | os.O_EXCL, 0o600)
            with open(descriptor, "wb") as file:
                file.write(content)
            os.replace(beside, self._folder / name)
        except BaseException:
            with suppress(OSError):
                os.unlink(beside)
            raise

    def _read(self, name: str) -> bytes | None:
        try:
            descriptor = os.open(self._folder / name, _FLAGS)
        except OSError:
            return None
        with open(descriptor, "rb") as file:
            status = os.fstat(descriptor)
            sound = stat.S_ISREG(status.st_mode) and _is_own(status) and status.st_size <= _MOST_BYTES
            return file.read(_MOST_BYTES) if sound else None


def open_store(place: Path, print_: str) -> SheetStore | None:
    """Return the store of one print in the folder ``place``, made where needed; None where it would not be safe.

    What is kept is believed as this program's own code is: so nobody else may have written it.
    """
    if not hasattr(os, "getuid"):
        return None
    folder = place / print_
    try:
        place.parent.mkdir(mode=0o700, parents=True, exist_ok=True)
        for one in (place, folder):
            with suppress(FileExistsError):
                one.mkdir(mode=0o700)
            status = os.lstat(one)
            if not stat.S_ISDIR(status.st_mode) or not _is_own(status):
                return None
        _drop_old(place, print_)
    except OSError:
        return None
    return SheetStore(folder)


def _is_being_written(name: str) -> bool:
    """Return whether a run that may be alive is writing a file."""
    number = name.split(".")[-2:-1]
    return name.endswith(".part") and bool(number) and number[0].isdecimal() and may_be_running(int(number[0]))


def _is_own(status: os.stat_result) -> bool:
    return status.st_uid == os.getuid() and not status.st_mode & (stat.S_IWGRP | stat.S_IWOTH)


def _drop_old(place: Path, print_: str) -> None:
    """Take away what is kept of the prints that were not made for longest, where there are too many."""
    names = [name for name in os.listdir(place) if name != print_]
    if len(names) < _MOST_PRINTS:
        return
    times = {name: os.lstat(place / name).st_mtime_ns for name in names}
    for name in sorted(names, key=lambda one: times[one])[: len(names) + 1 - _MOST_PRINTS]:
        for part in os.listdir(place / name):
            os.unlink(place / name / part)
        os.rmdir(place / name)
