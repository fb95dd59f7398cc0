"""Runs independent tasks on two processors where the system can copy this process; in order, one by one, elsewhere.

Owns the copying alone: it must not know what a task does. The results are the same either way.
"""

from __future__ import annotations

import os
import pickle
import sys
from collections.abc import Callable, Sequence
from typing import Final, TypeVar

T = TypeVar("T")
_CHUNK: Final = 1 << 20


def run_tasks(tasks: Sequence[Callable[[], T]], weights: Sequence[int]) -> list[T]:
    """Return each task's result, in order. ``weights`` say how long each takes against the others.

    A copied process that fails gives nothing; its tasks are then run here, so a mistake shows as it always would.
    """
    there = _deal(weights)
    if not there or not _can_copy():
        return [task() for task in tasks]
    reader, writer = os.pipe()
    try:
        child = os.fork()
    except OSError:  # no more processes may be started
        os.close(reader)
        os.close(writer)
        return [task() for task in tasks]
    if child == 0:
        _run_there(reader, writer, [tasks[at] for at in there])
    os.close(writer)
    try:
        here = {at: task() for at, task in enumerate(tasks) if at not in there}
        sent = _read_all(reader)
    finally:
        os.close(reader)
        _, ending = os.waitpid(child, 0)
    if ending == 0:
        here |= dict(zip(there, pickle.loads(sent), strict=True))
    return [here[at] if at in here else task() for at, task in enumerate(tasks)]


def _deal(weights: Sequence[int]) -> list[int]:
    """Return the tasks for the other processor: the heaviest first, each to the side that has less so far."""
    sides: tuple[list[int], list[int]] = ([], [])
    loads = [0, 0]
    for at in sorted(range(len(weights)), key=lambda at: -weights[at]):
        side = 0 if loads[0] <= loads[1] else 1
        sides[side].append(at)
        loads[side] += weights[at]
    return sorted(sides[1])


def _can_copy() -> bool:
    # A copy has only the thread that asked for it: with others about, it could wait for a lock for ever. The frames
    # also count threads that were started without `threading`, which that module does not know of.
    return hasattr(os, "fork") and (os.cpu_count() or 1) > 1 and len(sys._current_frames()) == 1


def _run_there(reader: int, writer: int, tasks: Sequence[Callable[[], T]]) -> None:
    """Run tasks in the copied process, send their results and end it without any of this process's own endings."""
    code = 1
    try:
        os.close(reader)
        content = memoryview(pickle.dumps([task() for task in tasks], protocol=pickle.HIGHEST_PROTOCOL))
        while content:
            content = content[os.write(writer, content) :]
        code = 0
    finally:
        os._exit(code)


def _read_all(reader: int) -> bytes:
    parts = []
    while part := os.read(reader, _CHUNK):
        parts.append(part)
    return b"".join(parts)
