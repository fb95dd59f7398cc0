"""A print that is made again of nothing new costs nothing, says the same, and is never of anything but what is there now."""

from __future__ import annotations

import random
import shutil
import signal
import subprocess
import sys
import time
from collections.abc import Callable, Iterator
from pathlib import Path

import pytest
from kept_house import (
    DAY,
    DISH,
    FONT,
    ISSUE,
    PHOTO,
    REPOSITORY,
    TEMPLATE,
    THEME,
    bind,
    environment,
    fonts,
    full_house,
    prints,
)

RECORD = ".kept.txt"
EAST, WEST = "Etc/GMT-14", "Etc/GMT+12"
"""Clocks 26 hours apart: at no moment do both show the same day."""


@pytest.fixture(scope="module")
def made(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """A folder to stand in, with a house in ``specs`` and its print in ``out``."""
    stand = tmp_path_factory.mktemp("made")
    full_house(stand / "specs")
    done = bind(stand)
    assert (done.code, done.worked) == (0, True), done.err
    return stand


@pytest.fixture
def stand(made: Path, tmp_path: Path) -> Path:
    """The same, to spoil."""
    return Path(shutil.copytree(made, tmp_path / "stand"))


def fresh(stand: Path, tmp_path: Path, *words: str, day: str = DAY) -> dict[str, bytes]:
    """Return what is printed where nothing is kept."""
    other = tmp_path / "other"
    shutil.copytree(stand / "specs", other / "specs")
    assert bind(other, "--no-cache", *words, day=day).code == 0
    assert not (other / "out" / RECORD).exists()
    return prints(other / "out")


def test_a_second_run_does_nothing_and_says_the_same(stand: Path, tmp_path: Path) -> None:
    """The register is damaged, so a warning is told; it is told again, in colour or not as it would be."""
    first = bind(stand, "--no-cache")
    again = bind(stand)
    assert first.worked
    assert "LB907" in again.err
    assert (again.code, again.out, again.err, again.worked) == (0, first.out, first.err, False)
    assert "Paper" in again.out
    assert prints(stand / "out") == fresh(stand, tmp_path)


def replace(stand: Path, path: str, old: str, new: str) -> None:
    file = stand / "specs" / path
    text = file.read_text("utf-8")
    assert old in text
    file.write_text(text.replace(old, new, 1), "utf-8")


def other_photograph(stand: Path) -> None:
    from PIL import Image

    Image.new("RGB", (120, 90), (30, 30, 200)).save(stand / "specs" / PHOTO)


CHANGES: dict[str, Callable[[Path], object]] = {
    "a dish": lambda stand: replace(stand, DISH, "name: ", "name: New "),
    "a component": lambda stand: replace(stand, "components/roast-carrots.md", "name: ", "name: New "),
    "the house": lambda stand: replace(stand, "house.yaml", "name: ", "name: New "),
    "a photograph": other_photograph,
    "a template": lambda stand: replace(stand, TEMPLATE, '<p class="kicker">', '<p class="kicker">New '),
    "a theme": lambda stand: replace(stand, THEME, "fonts:", "margins: {outer: 21 mm}\nfonts:"),
    "a font": lambda stand: shutil.copy(fonts()[-1], stand / "specs" / FONT),
    "a stray file": lambda stand: (stand / "specs/dishes/notes.pdf").write_bytes(b""),
    "an issue gone": lambda stand: (stand / "specs" / ISSUE).unlink(),
    "a template gone": lambda stand: (stand / "specs" / TEMPLATE).unlink(),
}


@pytest.mark.parametrize("change", CHANGES)
def test_a_change_of_any_kind_is_printed(stand: Path, tmp_path: Path, change: str) -> None:
    CHANGES[change](stand)
    done = bind(stand)
    assert (done.code, done.worked) == (0, True), done.err
    assert prints(stand / "out") == fresh(stand, tmp_path)
    again = bind(stand)
    assert (again.out, again.err, again.worked) == (done.out, done.err, False)


def test_a_change_that_is_undone_needs_no_print(stand: Path) -> None:
    file = stand / "specs" / DISH
    content = file.read_bytes()
    file.unlink()
    file.write_bytes(content)
    assert not bind(stand).worked


def test_other_words_are_another_print(stand: Path, tmp_path: Path) -> None:
    done = bind(stand, "--paper", "letter")
    assert done.worked
    assert "Letter" in done.out
    assert prints(stand / "out") == fresh(stand, tmp_path, "--paper", "letter")
    assert bind(stand).worked, "the folder holds the other print now"
    assert not bind(stand).worked


def test_a_fault_is_told_every_time_and_the_print_before_it_stays_good(stand: Path) -> None:
    kept = prints(stand / "out")
    file = stand / "specs" / DISH
    sound = file.read_bytes()
    file.write_bytes(sound + b"\n## Nonsense {\n")
    file.write_bytes(sound.replace(b"name: ", b"nam: ", 1))
    for _ in range(2):
        done = bind(stand)
        assert (done.code, done.worked) == (1, False)
        assert "error LB" in done.err
    file.write_bytes(sound)
    assert not bind(stand).worked
    assert prints(stand / "out") == kept


def test_the_day_it_is_run_on_counts_where_none_is_told(stand: Path) -> None:
    menu = ("--menu", "first-menu")
    east = bind(stand, *menu, day="", TZ=EAST)
    assert (east.code, east.worked) == (0, True), east.err
    assert not bind(stand, *menu, day="", TZ=EAST).worked
    kept = prints(stand / "out")
    assert bind(stand, *menu, day="", TZ=WEST).worked
    assert prints(stand / "out") != kept
    assert bind(stand, *menu, TZ=EAST).worked
    assert not bind(stand, *menu, TZ=WEST).worked, "a day that is told is the same everywhere"


def test_the_folder_one_stands_in_is_not_taken_for_another(stand: Path) -> None:
    """Without a name the house is specs/, and the folder itself where there is none: a record must not hide that."""
    shutil.copytree(stand / "specs", stand, dirs_exist_ok=True)
    shutil.rmtree(stand / "specs")
    assert bind(stand).worked
    assert not bind(stand).worked
    full_house(stand / "specs")
    replace(stand, "house.yaml", "name: ", "name: New ")
    assert bind(stand).worked


def spoilt_records(content: bytes) -> Iterator[bytes]:
    yield from (b"", content[:-1], content[: len(content) // 2], content[content.index(b"\n") + 1 :], content * 2)
    yield from (b"\xff\xfe" + content, b"check \n", b"\n" * 9, content.replace(b"said Paper", b"said Leaves"))
    chance = random.Random(7)
    for _ in range(200):
        at = chance.randrange(len(content))
        yield content[:at] + bytes([content[at] ^ (1 << chance.randrange(8))]) + content[at + 1 :]


def test_a_spoilt_record_is_never_believed(stand: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    from linebook.kept import Asked, find_made

    monkeypatch.chdir(stand)
    monkeypatch.syspath_prepend(str(REPOSITORY / "src"))
    asked = Asked(("bind", "--date", DAY, "-o", "out"))
    record = stand / "out" / RECORD
    content = record.read_bytes()
    for spoilt in spoilt_records(content):
        record.write_bytes(spoilt)
        assert find_made(asked, DAY) is None
    record.unlink()
    assert find_made(asked, DAY) is None
    record.mkdir()
    assert find_made(asked, DAY) is None
    record.rmdir()
    record.write_bytes(content)
    assert bind(stand).worked is False, "so that the above compares something"


@pytest.mark.parametrize("spoil", ["cut", "bit", "gone", "another"])
def test_a_spoilt_print_is_made_again(stand: Path, spoil: str) -> None:
    kept = prints(stand / "out")
    name = sorted(kept)[-1]
    file, content = stand / "out" / name, kept[name]
    if spoil == "gone":
        file.unlink()
    else:
        middle = len(content) // 2
        flipped = content[:middle] + bytes([content[middle] ^ 1]) + content[middle + 1 :]
        file.write_bytes({"cut": content[:-1], "bit": flipped, "another": kept[sorted(kept)[0]]}[spoil])
    assert bind(stand).worked
    assert prints(stand / "out") == kept


def test_deleting_the_record_costs_one_print_and_nothing_else(stand: Path) -> None:
    kept = prints(stand / "out")
    (stand / "out" / RECORD).unlink()
    assert bind(stand).worked
    assert not bind(stand).worked
    assert prints(stand / "out") == kept


def test_no_cache_leaves_a_record_that_is_still_true(stand: Path) -> None:
    assert bind(stand, "--no-cache").worked
    assert not bind(stand).worked


def begun(stand: Path, *words: str) -> subprocess.Popen[bytes]:
    asked = [sys.executable, "-m", "linebook", "bind", "--date", DAY, "-o", "out", *words]
    return subprocess.Popen(asked, cwd=stand, env=environment(), stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL)


def test_runs_at_once_leave_no_record_of_what_is_not_there(stand: Path, tmp_path: Path) -> None:
    """Two prints into one folder: whoever comes last, each word afterwards gives its own print."""
    shutil.rmtree(stand / "out")
    runs = [begun(stand, *words) for words in ((), ("--ink", "grey"), (), ("--ink", "grey"))]
    assert [run.wait() for run in runs] == [0] * 4
    assert bind(stand).code == 0
    assert prints(stand / "out") == fresh(stand, tmp_path)
    assert sorted(path.name for path in (stand / "out").iterdir()) == [RECORD, *sorted(prints(stand / "out"))]


def test_a_run_that_is_killed_leaves_no_record_of_what_is_not_there(stand: Path, tmp_path: Path) -> None:
    expected = fresh(stand, tmp_path)
    chance = random.Random(11)
    start = time.monotonic()
    assert bind(stand, "--no-cache").worked
    whole = time.monotonic() - start
    for _ in range(8):
        (stand / "out" / RECORD).unlink(missing_ok=True)
        run = begun(stand, "--ink", chance.choice(("grey", "saving")))
        time.sleep(whole * chance.uniform(0.5, 1.1))
        run.send_signal(signal.SIGKILL)
        run.wait()
        assert bind(stand).code == 0
        assert prints(stand / "out") == expected


def test_an_edit_during_a_run_is_not_taken_for_printed(stand: Path, tmp_path: Path) -> None:
    """The dish is saved otherwise while it is printed: whatever was read of it, the next run prints what it is now."""
    (stand / "out" / RECORD).unlink()
    run = begun(stand)
    while run.poll() is None:
        replace(stand, DISH, "name: ", "name: x")
        time.sleep(0.05)
    assert bind(stand).code == 0
    assert prints(stand / "out") == fresh(stand, tmp_path)


def test_another_version_of_the_program_prints_again(stand: Path, tmp_path: Path) -> None:
    """A copy of the program, with one more line in one module."""
    ignored = shutil.ignore_patterns("__pycache__", ".*")
    shutil.copytree(REPOSITORY / "src", tmp_path / "v/src", ignore=ignored)
    shutil.copytree(REPOSITORY / "templates", tmp_path / "v/templates")
    source = {"PYTHONPATH": str(tmp_path / "v/src")}
    assert bind(stand, **source).worked
    assert not bind(stand, **source).worked
    with (tmp_path / "v/src/linebook/pdf/pages.py").open("a") as file:
        file.write("# one more line\n")
    assert bind(stand, **source).worked
    assert not bind(stand, **source).worked
    theme = tmp_path / "v/templates/theme.yaml"
    theme.write_text(theme.read_text("utf-8") + "# one more line\n", "utf-8")
    assert bind(stand, **source).worked


def test_settings_of_the_machine_ask_for_no_other_print(stand: Path) -> None:
    for others in ({"PYTHONHASHSEED": "1"}, {"LC_ALL": "C", "LANG": "C"}, {"COLUMNS": "40", "SOURCE_DATE_EPOCH": "1"}):
        assert not bind(stand, **others).worked


def test_output_in_the_house_is_no_part_of_it(stand: Path) -> None:
    shutil.rmtree(stand / "out")
    inside = ("-o", "specs/prints")
    first = bind(stand, *inside)
    assert first.code == 0
    numbers = {path: path.stat().st_ino for path in (stand / "specs/prints").glob("*.pdf")}
    assert bind(stand, *inside).out == first.out
    assert numbers == {path: path.stat().st_ino for path in numbers}


def test_nothing_heavy_is_imported_for_nothing(stand: Path) -> None:
    """What takes time to import is not there when a print is there already."""
    asked = [sys.executable, "-X", "importtime", "-m", "linebook", "bind", "--date", DAY, "-o", "out"]
    done = subprocess.run(asked, cwd=stand, env=environment(), capture_output=True, text=True, check=True)
    names = {line.rpartition("|")[2].strip() for line in done.stderr.splitlines() if line.startswith("import time")}
    assert "linebook.kept" in names
    assert not names & {"click", "json", "pathlib", "datetime", "yaml", "linebook.cli.main", "linebook.source.files"}
