"""Works on all processors where the system can copy this process; on one, in order, elsewhere.

Owns the copying and the sharing alone: it must not know what a task does. The results are the same either way.
"""

from __future__ import annotations

import os
import pickle
import sys
from collections.abc import Callable, Iterator, Sequence
from contextlib import suppress
from functools import partial
from itertools import chain
from typing import Any, Final, Generic, TypeVar, cast

from linebook.source.frozen import frozen
from linebook.source.written import pickled

R = TypeVar("R")
T = TypeVar("T")
_CHUNK: Final = 1 << 20
_NUMBER: Final = 2
"""Bytes of a task's number in the queue. A pipe holds thousands of them."""
_MOST: Final = 8
"""So many processes at the most draw at once: a house has few more lines, and each takes its own memory."""
_TURNS: Final = 128
"""In so many turns at the most two processes share what there is to do."""
_LENGTH: Final = 8
"""Bytes of the length that stands before a message."""


def run_tasks(tasks: Sequence[Callable[[], T]], weights: Sequence[int]) -> list[T]:
    """Return each task's result, in order. ``weights`` say how long each takes against the others.

    Each process takes the heaviest task that is left whenever it is free. A copy that fails gives nothing; its tasks
    are then run here, so a mistake shows as it always would.
    """
    if len(tasks) < 2 or not _can_copy():
        return [task() for task in tasks]
    order = sorted(range(len(tasks)), key=lambda at: -weights[at])
    sides = min(processors(), _MOST, len(tasks))
    queue = _queue(order[sides:])
    copies = [copy for first in order[1:sides] if (copy := _copy(tasks, first, queue)) is not None]
    done: dict[int, T] = {}
    try:
        done |= {at: tasks[at]() for at in chain((order[0],), _turns(queue))}
    finally:
        os.close(queue)
        for child, reader in copies:  # one that writes more than a pipe holds waits until it is its turn
            sent = _read_framed(reader)
            os.close(reader)
            if sent is not None:
                done |= pickle.loads(sent)
            os.waitpid(child, 0)  # now: it gives back its memory while what it sent is read
    return [done[at] if at in done else task() for at, task in enumerate(tasks)]


def processors() -> int:
    """Return how many processors this process may use."""
    if hasattr(os, "sched_getaffinity"):
        return len(os.sched_getaffinity(0))
    return os.cpu_count() or 1


def _copy(tasks: Sequence[Callable[[], T]], first: int, queue: int) -> tuple[int, int] | None:
    """Return a copy of this process that begins with a task, and where to read its results; None if it is refused."""
    reader, writer = os.pipe()
    try:
        child = os.fork()
    except OSError:  # no more processes may be started
        os.close(reader)
        os.close(writer)
        return None
    if child == 0:
        os.close(reader)
        _run_there(writer, tasks, chain((first,), _turns(queue)))
    os.close(writer)
    return child, reader


class Unopened(Generic[T]):
    """A value that is read, in a process that it was sent to, only when it is looked at."""

    def __init__(self, value: T | None = None, written: bytes = b"") -> None:
        self._value, self._written = value, written

    @property
    def value(self) -> T:
        """Return the value."""
        if self._written:
            self._value, self._written = pickle.loads(self._written), b""
        return cast("T", self._value)

    def __reduce__(self) -> tuple[Any, ...]:
        return Unopened, (None, self._written or pickled(self._value))


class Sharing:
    """One side of two processes that each do a part of something, and send each other once what came of it."""

    def __init__(self, queue: int, reader: int, writer: int, *, is_first: bool) -> None:
        self._queue, self._reader, self._writer, self._is_first = queue, reader, writer, is_first
        self._is_over = False

    def turns(self, count: int) -> Iterator[int]:
        """Yield which of ``count`` things are this side's to do, as long as there are any that no side has begun."""
        size = -(-count // _TURNS)
        for number in _turns(self._queue):
            yield from range(number * size, min(number * size + size, count))

    def swap(self, *own: bytes) -> tuple[bytes, ...]:
        """Return what came of the other side's part, () where it gave up, and send it what came of this one's.

        It is done once, and either side waits for the other; nothing gives up, and then the first side does not wait.
        """
        self._is_over = True
        with suppress(OSError):  # a side that died is found out when it is waited for
            if self._is_first:  # one speaks while the other listens: a pipe holds less than is sent
                self._send(own)
                return self._receive() if own else ()
            sent = self._receive()
            if sent:
                self._send(own)
            return sent
        return ()

    def _send(self, parts: Sequence[bytes]) -> None:
        _write_all(self._writer, len(parts).to_bytes(_NUMBER, "big"))
        for part in parts:  # each by itself: put together they would take as much memory again
            _write_framed(self._writer, part)

    def _receive(self) -> tuple[bytes, ...]:
        count = int.from_bytes(_read_exactly(self._reader, _NUMBER), "big")
        parts = [_read_framed(self._reader) for _ in range(count)]
        return tuple(part for part in parts if part is not None) if None not in parts else ()

    def end(self) -> None:
        """Give up where nothing was sent, so that the other side does not wait for it."""
        if not self._is_over:
            self.swap()


@frozen(kw_only=False)
class InTwo:
    """What a task gives at once, and how the rest of it is worked out while that is looked at."""

    value: object
    later: Callable[[], object]


class Ahead(Generic[R]):
    """A copy of this process that gets ready for a task while this one still finds out what there is to do.

    It gets ready in steps, of which each takes the place of what the one before gave.
    """

    def __init__(self, get_ready: Callable[[], R]) -> None:
        self._child = self._done = 0
        self._is_going = self._is_unfinished = False
        self._later: Callable[[], object] = lambda: None
        if not _can_copy():
            return
        tasks, self._tasks = os.pipe()
        self._results, results = os.pipe()
        self._turns = _queue(range(_TURNS))
        try:
            self._child = os.fork()
        except OSError:  # no more processes may be started
            for end in (tasks, self._tasks, self._results, results, self._turns):
                os.close(end)
            return
        if self._child == 0:
            os.close(self._tasks)
            os.close(self._results)
            _serve(tasks, results, self._turns, get_ready)
        os.close(tasks)
        os.close(results)

    def get_ready(self, step: Callable[[], R]) -> None:
        """Send the copy one more step in which to get ready, which could not be known when it was made."""
        self._send(True, step, False)

    def get_ready_together(self, step: Callable[[Sharing], R]) -> Sharing | None:
        """Send the copy one more step, of which it does a part alone, and return this side of that, to be ended here.

        None where there is no copy.
        """
        self._send(True, step, True)
        return Sharing(self._turns, self._results, self._tasks, is_first=True) if self._child else None

    def begin(self, task: Callable[..., Any], *values: Any, **named: Any) -> None:
        """Send the copy a task. It is told by ``ready`` what was got ready, and calls ``go`` before its larger part.

        There ``go`` waits until this process says by ``go`` or ``finish`` that the task is wanted, and returns what was
        worked out for it here meanwhile.
        """
        self._task = partial(task, *values, **named)
        self._send(False, task, values, named)

    def _send(self, *message: object) -> None:
        if self._child:
            # A copy that died is found out when it is waited for.
            with suppress(OSError):
                _make_room(self._tasks)
                _write_framed(self._tasks, pickled(message))

    def go(self, answer: Callable[[], object]) -> None:
        """Let the copy go on with its larger part before it is sure that the task is wanted.

        Where ``answer`` fails it waits for ``finish``.
        """
        if self._child:
            with suppress(Exception):  # that shows when it is worked out again
                sent = pickled(answer())
                self._is_going = True
                self._send_answer(sent)

    def _send_answer(self, sent: bytes) -> None:
        try:
            _write_all(self._tasks, sent)
        finally:
            os.close(self._tasks)

    def finish(self, answer: Callable[[], object]) -> Any:
        """Return what the task gives: there; here, where that fails. Here nothing is ready, and ``ready`` is None.

        ``answer`` works out what the task is given by ``go``.
        """
        child, self._child = self._child, 0
        if child:
            self._done, self._is_unfinished = child, True
            if not self._is_going:
                try:
                    found = pickled(answer())
                except Exception:
                    found = b""  # the copy dies for want of an answer: a mistake shows below, where it is made again
                with suppress(OSError):  # it died
                    self._send_answer(found)
            sent = _read_framed(self._results)
            if sent is not None:
                made, self._is_unfinished = pickle.loads(sent)
                self._later = self._sent_later
                return made
        result = self._task(ready=None, go=answer)
        if isinstance(result, InTwo):
            self._later = result.later
            return result.value
        return result

    def later(self) -> Any:
        """Return the rest of what the task gives, which is asked for once; None where there is none, or it is lost."""
        later, self._later = self._later, lambda: None
        return later()

    def _sent_later(self) -> object:
        sent = _read_framed(self._results) if self._is_unfinished else None
        self._is_unfinished = False
        return pickle.loads(sent) if sent is not None else None

    def run(self, task: Callable[..., T], *values: Any, answer: Callable[[], object], **named: Any) -> T:
        """Return what a task gives that is wanted for sure."""
        self.begin(task, *values, **named)
        result: T = self.finish(answer)
        return result

    def end(self) -> None:
        """End the copy: its task is done, or is not wanted, or none came for it."""
        if self._child:
            if not self._is_going:
                os.close(self._tasks)
            self._child, self._done, self._is_unfinished = 0, self._child, True
        if self._done:  # only now: it gives back its memory while what it sent is looked at
            if self._is_unfinished:
                from signal import SIGKILL  # here, because most copies end by themselves

                os.kill(self._done, SIGKILL)
            os.close(self._results)
            os.close(self._turns)
            os.waitpid(self._done, 0)
            self._done = 0


def _serve(tasks: int, results: int, turns: int, get_ready: Callable[[], object]) -> None:
    """Get ready in the copied process, run the one task it is sent, and end without any of this process's endings."""
    code = 1

    def go() -> object:
        return pickle.loads(_read_all(tasks))  # fails, and so ends this process, where nothing was sent

    try:
        ready = get_ready()
        while (message := pickle.loads(_read_framed(tasks) or b""))[0]:
            _, step, is_shared = message
            ready = _shared(step, Sharing(turns, tasks, results, is_first=False)) if is_shared else step()
        _, task, values, named = message
        result = task(*values, **named, ready=ready, go=go)
        value, later = (result.value, result.later) if isinstance(result, InTwo) else (result, None)
        _write_framed(results, pickled((value, later is not None)))
        if later is not None:
            _write_framed(results, pickled(later()))
        code = 0
    finally:
        os._exit(code)


def _shared(step: Callable[[Sharing], R], sharing: Sharing) -> R:
    try:
        return step(sharing)
    finally:
        sharing.end()


def _make_room(writer: int) -> None:
    """Let a pipe hold a whole task where the system can, so that it can be sent before the copy is ready to read it."""
    try:
        from fcntl import F_SETPIPE_SZ, fcntl
    except ImportError:
        return
    with suppress(OSError):  # no more room may be taken: it is sent as the copy reads it
        fcntl(writer, F_SETPIPE_SZ, _CHUNK)


def _queue(numbers: Sequence[int]) -> int:
    """Return the reading end of a pipe with the numbers of tasks: each of them is read by one process alone."""
    reader, writer = os.pipe()
    os.write(writer, b"".join(at.to_bytes(_NUMBER, "big") for at in numbers))
    os.close(writer)
    return reader


def _turns(queue: int) -> Iterator[int]:
    """Yield the numbers that are this process's turn, until none is left."""
    while number := os.read(queue, _NUMBER):
        yield int.from_bytes(number, "big")


def _can_copy() -> bool:
    # A copy has only the thread that asked for it: with others about, it could wait for a lock for ever. The frames
    # also count threads that were started without `threading`, which that module does not know of.
    return hasattr(os, "fork") and processors() > 1 and len(sys._current_frames()) == 1


def _run_there(writer: int, tasks: Sequence[Callable[[], T]], turns: Iterator[int]) -> None:
    """Run tasks in the copied process, send their results and end it without any of this process's own endings."""
    code = 1
    try:
        _write_framed(writer, pickled({at: tasks[at]() for at in turns}))
        code = 0
    finally:
        os._exit(code)


def _write_framed(writer: int, content: bytes) -> None:
    """Write a message by which its reader knows when it is whole."""
    _write_all(writer, len(content).to_bytes(_LENGTH, "big"))
    _write_all(writer, content)


def _read_framed(reader: int) -> bytes | None:
    """Return a message; None where the other end was closed before it was whole."""
    head = _read_exactly(reader, _LENGTH)
    length = int.from_bytes(head, "big")
    sent = _read_exactly(reader, length)
    return sent if len(head) == _LENGTH and len(sent) == length else None


def _read_exactly(reader: int, length: int) -> bytes:
    """Return so many bytes, or those there are where the other end was closed before."""
    parts = []
    while length and (part := os.read(reader, min(length, _CHUNK))):
        parts.append(part)
        length -= len(part)
    return b"".join(parts)


def _write_all(writer: int, content: bytes) -> None:
    left = memoryview(content)
    while left:
        left = left[os.write(writer, left) :]


def _read_all(reader: int) -> bytes:
    parts = []
    while part := os.read(reader, _CHUNK):
        parts.append(part)
    return b"".join(parts)
