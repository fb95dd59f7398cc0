"""``linebook watch``: prints again whenever a file of the house is saved, until it is ended."""

from __future__ import annotations

import gc
import io
import signal
import sys
import time
from collections.abc import Callable, Iterator, Mapping
from contextlib import contextmanager, redirect_stdout, suppress
from os import chdir
from pathlib import Path
from types import FrameType
from typing import Any, Final

import click

from linebook.cli import bind
from linebook.cli.options import find_house, stop_on_faults, today
from linebook.cli.start import ENDED_BY_HAND
from linebook.inputs import HOUSE, changed_between, digest_of, find_inputs
from linebook.source.frozen import frozen

_NOT_HERE: Final = ("records", "only_changed", "no_cache", "opens", "without")
"""Options of ``bind`` that are for one run."""

_LOOK_EVERY: Final = 0.5
_SETTLES_IN: Final = 0.15
_MOST_LOOKS: Final = 40
"""How often it looks again, at most, before it takes an editor's saves to be over, however busy the editor is."""

_DAY: Final = "the day"
_MOST_NAMED: Final = 3
_HEAVY_BYTES: Final = 1_000_000
_SURE_AFTER: Final = 3_000_000_000
"""A time of change that is this many nanoseconds old is told apart from any later one, on every file system."""

Inputs = Mapping[str, str]


@frozen
class Clock:
    """What the loop knows of time: seconds that only grow, and waiting for some. A test has one of its own."""

    now: Callable[[], float] = time.monotonic
    wait: Callable[[float], None] = time.sleep


@click.command(
    short_help="Print again whenever a file of the house is saved.",
    params=[one for one in bind.command.params if one.name not in _NOT_HERE],
)
def command(house_folder: str | None, house: str | None, output: Path, on_hand: Path | None, **asked: Any) -> None:
    """Print what `bind` prints, and print it again whenever a file that it is made from is saved.

    It follows specs, photographs, the house's own templates, theme and fonts, and the register of issues; files that
    come and go too. On a fault it tells it, leaves the last good PDFs in place and goes on. Ctrl-C ends it.
    """
    folder, shown = find_house(house_folder or house)
    here, place = Path.cwd(), str(folder.absolute())
    context = click.get_current_context()
    context.obj = None  # no record is kept: these are not the words of a `bind`
    heavy = Remembered()

    def look() -> Inputs:
        found = find_inputs(place, str(output), heavy)
        if on_hand is not None:
            found[str(on_hand)] = digest_of(str(on_hand))
        return found if asked["day"] else found | {_DAY: today().isoformat()}

    def build() -> bool:
        given = {"house_folder": shown or ".", "output": output, "on_hand": on_hand, "without": (), **asked}
        with suppress(OSError):
            chdir(here)  # a folder that went and came back under one's feet is another one
        return print_once(context, Path(place), shown, given)

    said = shown or "this folder"
    click.echo(f"Watching {said}, printing into {output}. Ctrl-C ends it.")
    try:
        with remembered_end() as is_ended:
            for line in follow(look, build, Clock()):
                if is_ended():
                    raise KeyboardInterrupt
                click.echo(f"{time.strftime('%H:%M:%S')}  {line}")
    except KeyboardInterrupt:
        click.echo("\nEnded. The last good PDFs stay.")
        sys.exit(ENDED_BY_HAND)


@contextmanager
def remembered_end() -> Iterator[Callable[[], bool]]:
    """Give what says whether Ctrl-C was pressed, which still raises KeyboardInterrupt, too.

    That can be lost: what is raised while a value is taken apart is told and passed over, and the watch would go on.
    """
    pressed: list[int] = []

    def end(number: int, frame: FrameType | None) -> None:
        pressed.append(number)
        signal.default_int_handler(number, frame)

    before = signal.getsignal(signal.SIGINT)
    if before is signal.default_int_handler:  # else whoever began this process has other plans for it
        signal.signal(signal.SIGINT, end)
    try:
        yield lambda: bool(pressed)
    finally:
        signal.signal(signal.SIGINT, before)


def print_once(context: click.Context, folder: Path, shown: str, given: Mapping[str, Any]) -> bool:
    """Print as ``bind`` does, without its closing lines; return whether all of it could be printed.

    Faults and wrong words are told as ``bind`` tells them, and so is a mistake of ours; none of them ends the watch.
    """
    try:
        if not folder.is_dir():
            from linebook.pipeline import load_house

            stop_on_faults(load_house(folder, shown).faults)
            return False
        with redirect_stdout(io.StringIO()):
            context.invoke(bind.command, **_defaults(), **given)
    except SystemExit as end:
        return end.code in (None, 0)
    except click.ClickException as mistake:
        mistake.show()
        return False
    except Exception as mistake:  # half a file can be what nobody thought of
        if isinstance(mistake.__cause__, KeyboardInterrupt):  # Python makes another error of it while a class is made
            raise mistake.__cause__ from None
        click.echo(f"This is a mistake in linebook: {type(mistake).__name__}: {str(mistake)[:300]}", err=True)
        return False
    finally:
        gc.collect()  # a command is not swept while it runs, and this one runs for hours
    return True


def _defaults() -> dict[str, Any]:
    return {"records": False, "only_changed": False, "no_cache": True, "opens": False}


def follow(look: Callable[[], Inputs], build: Callable[[], bool], clock: Clock) -> Iterator[str]:
    """Build, then build again after every change of what ``look`` finds; yield a line about each build.

    Several saves close together are one change. A change during a build is seen after it, and what is as it was for the
    last build is none: so what is printed never fires, and neither does a file that is saved without a change.
    """
    built = look()
    yield _line("", build, clock)
    while True:
        clock.wait(_LOOK_EVERY)
        seen = look()
        if not fires(built, seen):
            continue
        seen = _settled(look, seen, clock)
        fired = fires(built, seen)
        built = seen
        if fired:
            yield _line(_named(fired), build, clock)


def fires(before: Inputs, after: Inputs) -> tuple[tuple[str, str], ...]:
    """Return the files that ask for a new print, with what happened to each."""
    return tuple((path, event) for path, event in changed_between(before, after) if not _is_passing(path))


def _is_passing(path: str) -> bool:
    """Say whether a file is one that editors make for a moment, or for as long as another is open."""
    name = path.rpartition("/")[2]
    return name.startswith("#") or name.isdigit() or name.endswith((".tmp", ".swp", ".swx", ".part", ".bak", ".orig"))


def _settled(look: Callable[[], Inputs], seen: Inputs, clock: Clock) -> Inputs:
    """Return what is found when two looks in a row find the same, as they do when an editor is done."""
    for _ in range(_MOST_LOOKS):
        clock.wait(_SETTLES_IN)
        before, seen = seen, look()
        if before == seen:
            break
    return seen


def _line(fired: str, build: Callable[[], bool], clock: Clock) -> str:
    start = clock.now()
    sound = build()
    took = f"{clock.now() - start:.1f} s"
    done = f"printed in {took}" if sound else f"not printed ({took}): the last good PDFs stay"
    return f"{fired}: {done}" if fired else done


def _named(fired: tuple[tuple[str, str], ...]) -> str:
    """Return in words what fired: *dishes/short-rib.md changed*."""
    if fired[0][0] == HOUSE:  # it comes first, and says all
        return f"the house folder is {'gone' if fired[0][1] == 'new' else 'back'}"
    words = [f"{path} {event}" for path, event in fired]
    more = len(words) - _MOST_NAMED
    return ", ".join(words[:_MOST_NAMED]) + (f" and {more} more" if more > 0 else "")


class Remembered:
    """Digests of photographs and fonts, which are too large to read twice a second.

    One is read again unless its size, its number on the disk and both of its times are as they were, and were not fresh
    when it was read: a change just after that could bear the same time.
    """

    def __init__(self) -> None:
        self._known: dict[str, tuple[tuple[int, ...], str]] = {}

    def __call__(self, path: str) -> str:
        stamp = _stamp(path)
        known = self._known.get(path)
        if stamp and known and known[0] == stamp:
            return known[1]
        digest = digest_of(path)
        self._known.pop(path, None)
        if stamp and stamp == _stamp(path) and max(stamp[2:]) + _SURE_AFTER < time.time_ns():
            self._known[path] = (stamp, digest)
        return digest


def _stamp(path: str) -> tuple[int, ...] | None:
    """Return what the system notes of a large file; None for a small one, which is read every time."""
    try:
        status = Path(path).stat()
    except OSError:
        return None
    if status.st_size < _HEAVY_BYTES:
        return None
    return status.st_size, status.st_ino, status.st_mtime_ns, status.st_ctime_ns
