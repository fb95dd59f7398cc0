"""Several processors give what one gives, in order; a copy that fails leaves nothing undone and hides no mistake."""

from __future__ import annotations

import os
import pickle
import subprocess
import sys
import textwrap
import time
from collections.abc import Callable
from fractions import Fraction
from functools import partial
from pathlib import Path
from types import MappingProxyType

import pytest

from linebook import copies


@pytest.fixture
def copying(monkeypatch: pytest.MonkeyPatch) -> None:
    if not hasattr(os, "fork"):
        pytest.skip("this system cannot copy a process")
    monkeypatch.setattr(copies, "_can_copy", lambda: True)
    monkeypatch.setattr(copies, "processors", lambda: 2)


@pytest.mark.parametrize("processors", [2, 3, 5])
@pytest.mark.usefixtures("copying")
def test_each_processor_is_used(monkeypatch: pytest.MonkeyPatch, processors: int) -> None:
    monkeypatch.setattr(copies, "processors", lambda: processors)

    def drawn(at: int) -> tuple[int, int]:
        time.sleep(0.05)
        return at, os.getpid()

    results = copies.run_tasks([partial(drawn, at) for at in range(7)], [1] * 7)
    assert [at for at, _ in results] == list(range(7))
    assert len({process for _, process in results}) == processors


@pytest.mark.usefixtures("copying")
def test_no_more_processes_are_started_than_there_are_tasks(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(copies, "processors", lambda: 64)
    assert len(set(copies.run_tasks([os.getpid] * 3, [1] * 3))) == 3


@pytest.mark.usefixtures("copying")
def test_results_come_in_the_order_of_the_tasks() -> None:
    tasks = [lambda at=at: (at, os.getpid()) for at in range(7)]
    results = copies.run_tasks(tasks, [5, 1, 4, 1, 3, 1, 2])
    assert [at for at, _ in results] == list(range(7))
    assert len({process for _, process in results}) == 2


class _Told:
    """A value that tells when it is read again."""

    read = 0

    def __reduce__(self) -> tuple[Callable[[], _Told], tuple[()]]:
        return _Told.again, ()

    @classmethod
    def again(cls) -> _Told:
        cls.read += 1
        return cls()


@pytest.mark.usefixtures("copying")
def test_what_is_sent_unopened_is_read_once_when_it_is_looked_at() -> None:
    _Told.read = 0
    here, there = copies.run_tasks([lambda: copies.Unopened(_Told()), lambda: copies.Unopened(_Told())], [2, 1])
    sent_on = pickle.loads(copies.pickled(there))
    assert _Told.read == 0
    assert isinstance(here.value, _Told)
    assert _Told.read == 0, "it was never sent"
    assert sent_on.value is sent_on.value
    assert isinstance(there.value, _Told)
    assert _Told.read == 2


@pytest.mark.usefixtures("copying")
def test_more_than_a_pipe_holds_comes_through() -> None:
    results = copies.run_tasks([lambda: b"a" * 3_000_000, lambda: b"b" * 3_000_000], [1, 1])
    assert [len(result) for result in results] == [3_000_000, 3_000_000]


@pytest.mark.usefixtures("copying")
def test_tasks_of_a_copy_that_died_are_run_here() -> None:
    here = os.getpid()

    def dies_elsewhere() -> str:
        if os.getpid() != here:
            os._exit(9)
        return "done here"

    assert copies.run_tasks([lambda: "first", dies_elsewhere], [1, 1]) == ["first", "done here"]


@pytest.mark.usefixtures("copying")
def test_where_no_process_may_be_started_all_is_done_here(monkeypatch: pytest.MonkeyPatch) -> None:
    def refused() -> int:
        raise BlockingIOError

    monkeypatch.setattr(os, "fork", refused)
    assert copies.run_tasks([lambda: 1, lambda: 2], [1, 1]) == [1, 2]


@pytest.mark.parametrize("start", ["threading", "_thread"])
def test_a_process_with_another_thread_is_not_copied(start: str) -> None:
    code = f"""
        import threading, _thread
        from linebook import copies
        alone, begun, over = copies._can_copy(), threading.Event(), threading.Event()

        def wait():
            begun.set()
            over.wait()

        if "{start}" == "threading":
            threading.Thread(target=wait).start()
        else:
            _thread.start_new_thread(wait, ())
        begun.wait()
        print(alone, copies._can_copy())
        over.set()
    """
    done = subprocess.run([sys.executable, "-c", textwrap.dedent(code)], capture_output=True, text=True, check=True)
    alone = hasattr(os, "fork") and copies.processors() > 1
    assert done.stdout.split() == [str(alone), "False"]


def test_a_mistake_in_a_copy_shows_as_it_would_here() -> None:
    """In a process of its own, so that the copy's traceback does not stand in this run's output."""
    code = """
        from linebook import copies
        copies._can_copy, copies.processors = lambda: True, lambda: 2
        def wrong():
            raise KeyError("lost")
        try:
            copies.run_tasks([lambda: 1, wrong], [1, 1])
        except KeyError as mistake:
            print("told", mistake)
    """
    done = subprocess.run([sys.executable, "-c", textwrap.dedent(code)], capture_output=True, text=True, check=False)
    assert done.stdout.strip() == "told 'lost'"


@pytest.mark.usefixtures("copying")
def test_the_side_that_is_free_takes_what_is_left() -> None:
    """The heaviest task and the next begin on either side; the light ones fall to the side that is done first."""

    def task(seconds: float) -> Callable[[], int]:
        return lambda: time.sleep(seconds) or os.getpid()

    long, short, *light = copies.run_tasks([task(1.0), task(0.0), task(0.0), task(0.0)], [9, 3, 1, 1])
    assert long == os.getpid() != short
    assert light == [short, short]


@pytest.mark.usefixtures("copying")
def test_each_task_is_run_once(tmp_path: Path) -> None:
    tasks = [lambda at=at: (tmp_path / f"{at}-{os.getpid()}").touch() for at in range(300)]
    copies.run_tasks(tasks, [1] * 300)
    assert sorted(int(path.name.split("-")[0]) for path in tmp_path.iterdir()) == list(range(300))


# -- ahead


def _nothing() -> None:
    """Nothing is worked out for a task."""


def _told(*values: object, ready: object, go: Callable[[], object]) -> tuple[object, ...]:
    """A task: what it was given, what was ready, and where it was run."""
    return (*values, ready, os.getpid())


def _wrong(*, ready: object, go: Callable[[], object]) -> None:
    raise KeyError("lost", ready)


def _dies_elsewhere(here: int, *, ready: object, go: Callable[[], object]) -> str:
    if os.getpid() != here:
        os._exit(9)
    return f"done here, {ready}"


@pytest.mark.usefixtures("copying")
def test_a_task_is_run_where_all_is_ready() -> None:
    read = {"house": MappingProxyType({"cup": Fraction(473, 2)})}
    given, ready, process = copies.Ahead(lambda: "warm").run(_told, read, answer=_nothing)
    assert (given, ready) == (read, "warm")
    assert process != os.getpid()


@pytest.mark.usefixtures("copying")
def test_a_copy_gets_ready_in_steps_that_are_sent_when_they_are_known() -> None:
    ahead = copies.Ahead(lambda: "warm")
    ahead.get_ready(partial(str.upper, "hot"))
    given, ready, process = ahead.run(_told, 1, answer=_nothing)
    ahead.end()
    assert (given, ready, process != os.getpid()) == (1, "HOT", True)


@pytest.mark.usefixtures("copying")
def test_a_step_that_fails_leaves_the_task_here() -> None:
    ahead = copies.Ahead(lambda: "warm")
    ahead.get_ready(partial(int, "hot"))
    assert ahead.run(_told, 1, answer=_nothing) == (1, None, os.getpid())
    ahead.end()


def _in_two(mark: Path, *, ready: object, go: Callable[[], object]) -> copies.InTwo:
    """A task whose rest waits until somebody has looked at the first part."""

    def rest() -> int:
        while not mark.exists():
            time.sleep(0.01)
        return os.getpid()

    return copies.InTwo("first", rest)


@pytest.mark.usefixtures("copying")
def test_the_first_part_is_there_before_the_rest_is_worked_out(tmp_path: Path) -> None:
    ahead = copies.Ahead(lambda: "warm")
    assert ahead.run(_in_two, tmp_path / "mark", answer=_nothing) == "first"
    (tmp_path / "mark").touch()
    assert ahead.later() not in (None, os.getpid())
    assert ahead.later() is None
    ahead.end()


@pytest.mark.usefixtures("copying")
def test_a_rest_that_is_lost_or_not_asked_for_does_no_harm(tmp_path: Path) -> None:
    ahead = copies.Ahead(lambda: "warm")
    child = ahead._child
    assert ahead.run(_in_two, tmp_path / "mark", answer=_nothing) == "first"
    os.kill(child, 9)
    assert ahead.later() is None
    ahead.end()
    ahead = copies.Ahead(lambda: "warm")
    child = ahead._child
    assert ahead.run(_in_two, tmp_path / "mark", answer=_nothing) == "first"
    ahead.end()
    with pytest.raises(ProcessLookupError):
        os.kill(child, 0)


def test_a_task_in_two_parts_is_run_here_where_no_process_can_be_copied(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(copies, "_can_copy", lambda: False)
    ahead = copies.Ahead(lambda: "warm")
    (tmp_path / "mark").touch()
    assert ahead.run(_in_two, tmp_path / "mark", answer=_nothing) == "first"
    assert ahead.later() == os.getpid()


@pytest.mark.usefixtures("copying")
def test_a_copy_whose_task_is_done_is_waited_for() -> None:
    ahead = copies.Ahead(lambda: "warm")
    child = ahead._child
    ahead.run(_told, 1, answer=_nothing)
    ahead.end()
    with pytest.raises(ProcessLookupError):
        os.kill(child, 0)


def test_a_task_is_run_here_where_no_process_can_be_copied(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(copies, "_can_copy", lambda: False)
    ahead = copies.Ahead(lambda: "warm")
    assert ahead.run(_told, 1, answer=_nothing) == (1, None, os.getpid())
    ahead.end()


@pytest.mark.usefixtures("copying")
def test_a_copy_that_dies_leaves_its_task_here() -> None:
    assert copies.Ahead(lambda: "warm").run(_dies_elsewhere, os.getpid(), answer=_nothing) == "done here, None"
    assert copies.Ahead(lambda: os._exit(9)).run(_told, "x" * 300_000, answer=_nothing)[1:] == (None, os.getpid())


@pytest.mark.usefixtures("copying")
def test_a_mistake_of_a_task_shows_as_it_would_here() -> None:
    with pytest.raises(KeyError, match="lost"):
        copies.Ahead(lambda: "warm").run(_wrong, answer=_nothing)


def _waits(path: Path, *, ready: object, go: Callable[[], object]) -> str:
    """A task that leaves a mark, asks whether it is wanted, and leaves another."""
    path.with_suffix(".begun").touch()
    given = go()
    path.with_suffix(".gone").touch()
    return f"{ready} {given}, {os.getpid()}"


@pytest.mark.usefixtures("copying")
def test_a_task_that_is_begun_waits_until_it_is_wanted(tmp_path: Path) -> None:
    ahead = copies.Ahead(lambda: "warm")
    ahead.begin(_waits, tmp_path / "mark")
    while not (tmp_path / "mark.begun").exists():
        time.sleep(0.01)
    time.sleep(0.05)
    assert not (tmp_path / "mark.gone").exists()
    ready, _, process = ahead.finish(lambda: "served").partition(", ")
    assert (ready, process != str(os.getpid()), (tmp_path / "mark.gone").exists()) == ("warm served", True, True)


@pytest.mark.usefixtures("copying")
def test_a_task_goes_on_before_it_is_surely_wanted_where_it_is_told_to(tmp_path: Path) -> None:
    ahead = copies.Ahead(lambda: "warm")
    ahead.begin(_waits, tmp_path / "mark")
    ahead.go(lambda: "served")
    while not (tmp_path / "mark.gone").exists():
        time.sleep(0.01)
    ready, _, process = ahead.finish(lambda: "not asked again").partition(", ")
    ahead.end()
    assert (ready, process != str(os.getpid())) == ("warm served", True)


@pytest.mark.usefixtures("copying")
def test_an_answer_that_fails_too_early_is_worked_out_again(tmp_path: Path) -> None:
    def wrong() -> None:
        raise KeyError("lost")

    ahead = copies.Ahead(lambda: "warm")
    ahead.begin(_waits, tmp_path / "mark")
    ahead.go(wrong)
    assert ahead.finish(lambda: "served").startswith("warm served")
    ahead.end()


@pytest.mark.usefixtures("copying")
def test_a_task_that_is_not_wanted_is_not_gone_on_with(tmp_path: Path) -> None:
    ahead = copies.Ahead(lambda: "warm")
    ahead.begin(_waits, tmp_path / "mark")
    while not (tmp_path / "mark.begun").exists():
        time.sleep(0.01)
    child = ahead._child
    ahead.end()
    with pytest.raises(ProcessLookupError):
        os.kill(child, 0)
    assert not (tmp_path / "mark.gone").exists()


def test_a_task_that_is_begun_where_no_process_can_be_copied_is_run_when_it_is_wanted(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(copies, "_can_copy", lambda: False)
    ahead = copies.Ahead(lambda: "warm")
    ahead.begin(_waits, tmp_path / "mark")
    assert not (tmp_path / "mark.begun").exists()
    assert ahead.finish(lambda: "served") == f"None served, {os.getpid()}"


@pytest.mark.usefixtures("copying")
def test_a_task_larger_than_a_pipe_reaches_a_copy_that_is_not_ready_yet() -> None:
    ahead = copies.Ahead(lambda: time.sleep(0.2))
    much = "x" * 3_000_000
    assert ahead.run(_told, much, answer=_nothing)[0] == much


@pytest.mark.usefixtures("copying")
def test_a_mistake_in_what_is_worked_out_shows(tmp_path: Path) -> None:
    def wrong() -> None:
        raise KeyError("lost")

    with pytest.raises(KeyError, match="lost"):
        copies.Ahead(lambda: "warm").run(_waits, tmp_path / "mark", answer=wrong)
    assert not (tmp_path / "mark.gone").exists()


@pytest.mark.usefixtures("copying")
def test_a_copy_without_a_task_is_ended() -> None:
    ahead = copies.Ahead(lambda: time.sleep(60))
    child = ahead._child
    ahead.end()
    ahead.end()
    with pytest.raises(ProcessLookupError):
        os.kill(child, 0)


def _swaps(sharing: copies.Sharing) -> object:
    return sharing.swap(b"there", b"there" * 100_000)


def _gives_up(sharing: copies.Sharing) -> str:
    return "gave up"


@pytest.mark.parametrize(
    ("step", "own", "here", "there"),
    [
        (_swaps, (b"here" * 100_000,), (b"there", b"there" * 100_000), (b"here" * 100_000,)),
        (_swaps, (), (), ()),
        (_gives_up, (b"here",), (), "gave up"),
        (_gives_up, (), (), "gave up"),
    ],
    ids=["both send", "this one gives up", "the other gives up", "both give up"],
)
@pytest.mark.usefixtures("copying")
def test_two_sides_send_each_other_their_parts_and_go_on(
    step: Callable[[copies.Sharing], object], own: tuple[bytes, ...], here: tuple[bytes, ...], there: object
) -> None:
    ahead = copies.Ahead(lambda: "warm")
    sharing = ahead.get_ready_together(step)
    assert sharing is not None
    if own:
        assert sharing.swap(*own) == here
    sharing.end()
    sharing.end()
    assert ahead.run(_what_is_ready, answer=_nothing) == there
    ahead.end()


def _what_is_ready(*, ready: object, go: Callable[[], object]) -> object:
    return ready
