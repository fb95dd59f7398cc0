"""``linebook watch``: it prints again after every change of a file that is used, and of no other, for as long as it is left to."""

from __future__ import annotations

import os
import shutil
import signal
import subprocess
import sys
import time
from collections.abc import Callable, Iterator
from contextlib import suppress
from itertools import islice
from pathlib import Path

import click
import pytest
from kept_house import DAY, DISH, FONT, ISSUE, PHOTO, TEMPLATE, THEME, bind, environment, full_house, numbers, prints

from linebook.cli import bind as bind_command
from linebook.cli.watch import Clock, Inputs, Remembered, fires, follow, print_once
from linebook.inputs import HOUSE, digest_of, find_inputs

Looks = Callable[[], Inputs]


class Played:
    """A clock and a house made of what each look finds, in turn; a wait costs nothing."""

    def __init__(self, *looks: dict[str, str]) -> None:
        self.left = list(looks)
        self.time = 0.0
        self.builds: list[dict[str, str]] = []
        self.seen: dict[str, str] = {}
        self.sound = True

    def look(self) -> Inputs:
        self.seen = self.left.pop(0) if self.left else self._end()
        return self.seen

    @staticmethod
    def _end() -> dict[str, str]:
        raise KeyboardInterrupt

    def build(self) -> bool:
        self.builds.append(self.seen)
        self.time += 2
        return self.sound

    def wait(self, seconds: float) -> None:
        self.time += seconds

    def lines(self) -> list[str]:
        said: list[str] = []
        with suppress(KeyboardInterrupt):
            said.extend(follow(self.look, self.build, Clock(now=lambda: self.time, wait=self.wait)))
        assert not self.left
        return said


A, B, C = ({"dishes/a.md": word} for word in "abc")


def test_nothing_is_printed_again_while_nothing_changes() -> None:
    played = Played(*[A] * 50)
    assert played.lines() == ["printed in 2.0 s"]


def test_the_file_that_fired_is_named_with_what_happened_to_it() -> None:
    assert Played(A, B, B).lines()[1] == "dishes/a.md changed: printed in 2.0 s"
    assert Played(A, A | {"photos/b.jpg": "x"}, A | {"photos/b.jpg": "x"}).lines()[1].startswith("photos/b.jpg new:")
    assert Played(A, {}, {}).lines()[1].startswith("dishes/a.md gone:")
    many = {f"dishes/{number}.md": "x" for number in range(6)}
    assert "dishes/2.md new and 3 more: " in Played({}, many, many).lines()[1]


def test_several_saves_close_together_are_one_change() -> None:
    """An editor that moves the file aside, writes half of it, then all, and asks for the date of it."""
    played = Played(
        A, {}, {"dishes/a.md": "half"}, A | {"dishes/4913": "name"}, C | {"dishes/a.md.tmp": "name"}, C, C, C
    )
    assert played.lines()[1:] == ["dishes/a.md changed: printed in 2.0 s"]
    assert played.builds == [A, C]


def test_an_atomic_save_of_the_same_text_is_no_change() -> None:
    assert len(Played(A, {}, A, A, A).lines()) == 1


def test_a_change_during_a_print_is_printed_after_it() -> None:
    assert Played(A, B, B, C, C, C).builds == []
    played = Played(A, B, B, C, C, C)
    assert len(played.lines()) == 3
    assert played.builds == [A, B, C]


def test_a_house_that_never_rests_is_printed_all_the_same() -> None:
    played = Played(*({"dishes/a.md": str(number)} for number in range(60)))
    assert len(played.lines()) == 2


def test_a_fault_leaves_the_last_prints_and_goes_on() -> None:
    played = Played(A, B, B, C, C)
    played.sound = False
    assert played.lines()[1:] == ["dishes/a.md changed: not printed (2.0 s): the last good PDFs stay"] * 2


def test_a_house_that_goes_and_comes_back_is_named_alone() -> None:
    gone = find_inputs("no such folder")
    assert list(gone) == [HOUSE]
    lines = Played(A, gone, gone, A, A).lines()
    assert [line.partition(":")[0] for line in lines[1:]] == ["the house folder is gone", "the house folder is back"]


@pytest.mark.parametrize("name", ["#a.md#", "4913", ".a.md.swp", "a.md.tmp", "a.md~", "a.md.orig", "a.pdf.12.part"])
def test_what_an_editor_makes_for_a_moment_fires_nothing(tmp_path: Path, name: str) -> None:
    house = full_house(tmp_path / "k")
    before = find_inputs(str(house))
    (house / "dishes" / name).write_bytes(b"x")
    assert fires(before, find_inputs(str(house))) == ()


# -- which files are followed


@pytest.fixture(scope="module")
def house(tmp_path_factory: pytest.TempPathFactory) -> Path:
    return full_house(tmp_path_factory.mktemp("followed") / "k")


def test_every_file_a_print_opens_is_followed_and_no_other(house: Path, tmp_path: Path) -> None:
    """What Python itself says is opened in the house, against what is followed."""
    driver = Path(__file__).parents[1] / "robust" / "watched_run.py"
    log = tmp_path / "log"
    asked = [sys.executable, str(driver), str(log), "bind", str(house), "--date", DAY, "-o", str(tmp_path / "out")]
    subprocess.run(asked, env=environment(), capture_output=True, check=True)
    import json

    events = [json.loads(line) for line in log.read_text("utf-8").splitlines()]
    opened = {path for event, path, _ in events if event == "read" and Path(path).is_relative_to(house)}
    relative = {str(Path(path).relative_to(house)) for path in opened}
    followed = find_inputs(str(house))
    assert {DISH, PHOTO, THEME, TEMPLATE, FONT, ISSUE, "house.yaml"} <= relative
    assert relative == set(followed)


@pytest.mark.parametrize("path", [DISH, PHOTO, THEME, TEMPLATE, FONT, ISSUE, "house.yaml", "pantry/pantry.yaml"])
def test_a_file_fires_when_it_changes_goes_and_comes_back(tmp_path: Path, path: str) -> None:
    house = full_house(tmp_path / "k")
    file, before = house / path, find_inputs(str(house))
    content, status = file.read_bytes(), file.stat()
    file.write_bytes(content[:-1] + bytes([content[-1] ^ 1]))
    os.utime(file, ns=(status.st_atime_ns, status.st_mtime_ns))
    changed = find_inputs(str(house))
    assert (path, "changed") in fires(before, changed)
    file.unlink()
    gone = find_inputs(str(house))
    assert (path, "gone") in fires(before, gone)
    file.write_bytes(content)
    assert fires(before, find_inputs(str(house))) == ()
    assert (path, "new") in fires(gone, before)


@pytest.mark.parametrize(
    "path", ["photos/other.jpg", "notes.txt", "readme.md", "templates/notes.txt", "templates/Other.ttf", "plans/a.md"]
)
def test_a_file_that_is_not_used_fires_nothing(tmp_path: Path, path: str) -> None:
    house = full_house(tmp_path / "k")
    before = find_inputs(str(house))
    (house / path).parent.mkdir(exist_ok=True)
    (house / path).write_bytes(b"x")
    assert fires(before, find_inputs(str(house))) == ()


def test_a_photograph_that_is_not_there_yet_is_waited_for(tmp_path: Path) -> None:
    house = full_house(tmp_path / "k")
    (house / PHOTO).rename(tmp_path / "photo")
    shutil.rmtree(house / "photos")
    before = find_inputs(str(house))
    assert before[PHOTO] == "not there"
    (house / "photos").mkdir()
    (tmp_path / "photo").rename(house / PHOTO)
    assert fires(before, find_inputs(str(house))) == ((PHOTO, "new"),)


@pytest.mark.parametrize("output", ["output", "dishes", "templates", ".", "photos/deep/er"])
def test_what_is_printed_into_the_house_fires_nothing(tmp_path: Path, output: str) -> None:
    house = full_house(tmp_path / "k")
    place = house / output
    before = find_inputs(str(house), str(place))
    place.mkdir(parents=True, exist_ok=True)
    for name in ("stove-binder.pdf", ".stove-binder.pdf.7.part", ".kept.txt"):
        (place / name).write_bytes(b"x")
    assert fires(before, find_inputs(str(house), str(place))) == ()


def test_a_link_counts_by_where_it_leads_too(tmp_path: Path) -> None:
    house = full_house(tmp_path / "k")
    (house / DISH).rename(house / "there.txt")
    (house / DISH).symlink_to("../there.txt")
    inside = find_inputs(str(house))
    shutil.copy(house / "there.txt", tmp_path / "there.txt")
    (house / DISH).unlink()
    (house / DISH).symlink_to("../../there.txt")
    assert fires(inside, find_inputs(str(house))) == ((DISH, "changed"),)


def test_a_large_photograph_is_read_again_only_where_it_may_have_changed(tmp_path: Path) -> None:
    file = tmp_path / "a.jpg"
    file.write_bytes(b"a" * 1_500_000)
    remembered = Remembered()
    assert remembered(str(file)) == digest_of(str(file))
    file.write_bytes(b"b" * 1_500_000)  # at once, and as long as before
    assert remembered(str(file)) == digest_of(str(file))
    time.sleep(3.1)  # until its times are old enough to be trusted
    assert remembered(str(file)) == digest_of(str(file))
    status = file.stat()
    file.write_bytes(b"c" * 1_500_000)
    os.utime(file, ns=(status.st_atime_ns, status.st_mtime_ns))
    assert remembered(str(file)) == digest_of(str(file))
    file.unlink()
    assert remembered(str(file)) == "not there"


# -- the command


@pytest.fixture
def watching(tmp_path: Path) -> Iterator[Callable[..., subprocess.Popen[str]]]:
    """Start ``linebook watch`` in a folder with a house in ``specs``; it is ended with the test."""
    begun = []

    def start(*words: str) -> subprocess.Popen[str]:
        asked = [sys.executable, "-u", "-m", "linebook", "watch", "--date", DAY, "-o", "out", *words]
        log = (tmp_path / "log").open("w")
        begun.append(subprocess.Popen(asked, cwd=tmp_path, env=environment(), stdout=log, stderr=log, text=True))
        log.close()
        return begun[-1]

    full_house(tmp_path / "specs")
    (tmp_path / "specs" / ISSUE).unlink()
    yield start
    for run in begun:
        run.kill()
        run.wait()


def wait_for(stand: Path, words: str, times: int = 1, seconds: float = 60) -> str:
    end = time.monotonic() + seconds
    while (said := (stand / "log").read_text("utf-8")).count(words) < times:
        assert time.monotonic() < end, said
        time.sleep(0.05)
    return said


def test_it_follows_a_cook_at_work(tmp_path: Path, watching: Callable[..., subprocess.Popen[str]]) -> None:
    """A save by moving a new file into place, a fault, its mending, a house that goes and comes back, and the end."""
    run = watching()
    wait_for(tmp_path, "printed in")
    dish = tmp_path / "specs" / DISH
    text = dish.read_text("utf-8").replace("name: ", "name: New ", 1)
    (tmp_path / "aside").write_text(text, "utf-8")
    (tmp_path / "aside").rename(dish)
    wait_for(tmp_path, f"{DISH} changed: printed in")
    good = prints(tmp_path / "out")
    dish.write_text(text.replace("name: ", "nam: ", 1), "utf-8")
    said = wait_for(tmp_path, "the last good PDFs stay")
    assert "error LB" in said
    assert "specs/dishes/lentil-bowl.md:" in said
    assert prints(tmp_path / "out") == good
    dish.write_text(text, "utf-8")
    wait_for(tmp_path, f"{DISH} changed: printed in", 2)
    (tmp_path / "specs").rename(tmp_path / "moved")
    assert "error LB115" in wait_for(tmp_path, "the house folder is gone: not printed")
    (tmp_path / "moved").rename(tmp_path / "specs")
    wait_for(tmp_path, "the house folder is back: printed in")
    assert prints(tmp_path / "out") == good
    run.send_signal(signal.SIGINT)
    assert run.wait(20) == 130
    assert sorted(path.name for path in (tmp_path / "out").iterdir()) == sorted(good)
    assert bind(tmp_path, "--no-cache").code == 0
    assert prints(tmp_path / "out") == good, "what it prints is what `bind` prints"


def test_it_does_not_fire_at_its_own_prints(tmp_path: Path, watching: Callable[..., subprocess.Popen[str]]) -> None:
    watching("-o", "specs/out")
    wait_for(tmp_path, "printed in")
    time.sleep(3)
    assert wait_for(tmp_path, "printed in").count("printed in") == 1


@pytest.mark.parametrize("moment", [0.0, 0.15, 0.3, 0.5, 0.7])
def test_an_end_at_any_moment_leaves_no_half_file(
    tmp_path: Path, watching: Callable[..., subprocess.Popen[str]], moment: float
) -> None:
    run = watching()
    wait_for(tmp_path, "Watching")
    time.sleep(moment)
    run.send_signal(signal.SIGINT)
    assert run.wait(20) == 130, (tmp_path / "log").read_text("utf-8")
    assert "Traceback" not in (tmp_path / "log").read_text("utf-8")
    out = tmp_path / "out"
    assert not [path.name for path in out.glob(".*")] if out.exists() else True


def test_a_wrong_word_ends_it_at_once(tmp_path: Path, watching: Callable[..., subprocess.Popen[str]]) -> None:
    assert watching("--theme", "nosuch").wait(60) == 2


def test_a_hundred_prints_take_no_more_memory_than_ten(tmp_path: Path) -> None:
    """In a process of its own, which copies none of itself, so that all that is kept would be kept there.

    Some forty kilobytes a print are texts and pieces of markup it remembers, thousands of them at most; what is
    remembered by a print's own wording or house would be three times as much, its sheets megabytes.
    """
    full_house(tmp_path / "specs")
    (tmp_path / "specs" / ISSUE).unlink()
    source = Path(__file__).with_name("many_prints.py")
    done = subprocess.run(
        [sys.executable, str(source), "110"],
        cwd=tmp_path,
        env=environment(),
        capture_output=True,
        text=True,
        check=False,
    )
    assert done.returncode == 0, done.stderr
    at_ten, at_end = map(int, done.stdout.split())
    assert at_end - at_ten < 0.1 * at_ten, (at_ten, at_end)


def test_our_own_mistake_is_told_and_does_not_end_it(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    monkeypatch.chdir(tmp_path)

    def fails(**_: object) -> None:
        raise ZeroDivisionError("a slip")

    monkeypatch.setattr(bind_command.command, "callback", fails)
    with click.Context(bind_command.command) as context:
        assert print_once(context, tmp_path, "specs", {}) is False
    assert "ZeroDivisionError: a slip" in capsys.readouterr().err


def test_the_lines_are_told_in_turn() -> None:
    assert list(islice(follow(lambda: A, lambda: True, Clock(now=lambda: 0.0)), 1)) == ["printed in 0.0 s"]


def test_numbers_tell_a_new_file(tmp_path: Path) -> None:
    (tmp_path / "a.pdf").write_bytes(b"a")
    before = numbers(tmp_path)
    (tmp_path / "b").write_bytes(b"a")
    (tmp_path / "b").rename(tmp_path / "a.pdf")
    assert numbers(tmp_path) != before


@pytest.mark.parametrize(
    "module", ["linebook.cli.beginning", "typing", "linebook.ready", "linebook.cli.main", "click", "linebook.cli.watch"]
)
def test_ended_by_hand_while_it_begins_it_shows_nothing_of_python(module: str, tmp_path: Path) -> None:
    """Ctrl-C in the first tenth of a second comes while modules are loaded."""
    begin = f"""
import sys
from linebook.cli.start import main
class Ctrl_C:
    def find_spec(name, *more):
        if name == {module!r}:
            raise KeyboardInterrupt
sys.meta_path.insert(0, Ctrl_C)
sys.argv = ["linebook", "watch", "."]
main()
"""
    done = subprocess.run(
        [sys.executable, "-c", begin], cwd=tmp_path, env=environment(), capture_output=True, text=True, check=False
    )
    assert done.returncode == 130 or done.stderr.strip() == "Aborted!", done
    assert "Traceback" not in done.stderr


@pytest.mark.parametrize(
    ("word", "then"),
    [
        ("bind", 'raise RuntimeError("Error calling __set_name__") from end'),
        ("watch", 'raise RuntimeError("Error calling __set_name__") from end'),
        ("watch", "pass"),
    ],
)
def test_ctrl_c_ends_it_where_python_loses_it(word: str, then: str, tmp_path: Path) -> None:
    """While a class is made it makes another error of it, and while a value is taken apart it passes it over."""
    begin = f"""
import signal, sys
from linebook.cli import bind
from linebook.cli.start import main
def lose_it(**_):
    try:
        signal.raise_signal(signal.SIGINT)
    except KeyboardInterrupt as end:
        {then}
bind.command.callback = lose_it
sys.argv = ["linebook", {word!r}, "."]
main()
"""
    done = subprocess.run(
        [sys.executable, "-c", begin], cwd=tmp_path, env=environment(), capture_output=True, text=True, check=False
    )
    assert (done.returncode, done.stderr) == (130, ""), done


def test_nothing_is_imported_before_ctrl_c_is_answered(tmp_path: Path) -> None:
    look = "import sys; before = {*sys.modules}; import linebook.cli.start; print(*sorted({*sys.modules} - before))"
    done = subprocess.run(
        [sys.executable, "-c", look], cwd=tmp_path, env=environment(), capture_output=True, text=True, check=True
    )
    assert done.stdout.split() == ["__future__", "linebook", "linebook.cli", "linebook.cli.start"]
