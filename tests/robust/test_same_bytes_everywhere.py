"""The same bytes in any folder, with any hash seed, time zone and locale, on one processor and on two, kept or made anew.

A few settings are tried each time, that together hold each value of each; ``LINEBOOK_PRODUCT=1`` tries them all.
"""

from __future__ import annotations

import hashlib
import itertools
import os
import shutil
import subprocess
import sys
from collections.abc import Callable
from pathlib import Path
from typing import NamedTuple

import pytest
from house_mutations import REPOSITORY

HOUSE = REPOSITORY / "tests/houses/kiln-corner"
ISSUED, DAY, NEXT = "2027-10-08", "2027-10-15", "2027-11-26"
FOLDERS = ("a house", "d/e/é")
SEEDS = ("0", "1", "4242")
ZONES = ("Pacific/Kiritimati", "America/Los_Angeles")
LOCALES = ("C", "tr_TR.UTF-8")
PROCESSORS = (1, 2)
CARD = "components/green-sauce.md"
LABELLED = ("--date", "2027-10-07", "--from", "2027-10-07")
WORDS = {
    "a4": ("bind", "--date", DAY),
    "letter": ("bind", "--date", DAY, "--paper", "letter"),
    "plan": ("plan", "--from", "2027-10-07", "--days", "3"),
    "swap": ("swap", "--date", NEXT),
    "labels": ("labels", *LABELLED),
}
"""What is printed, and the folder it is printed into."""


class Setting(NamedTuple):
    """Where and how a house is printed."""

    folder: str
    seed: str
    zone: str
    locale: str
    processors: int


ALL = tuple(itertools.starmap(Setting, itertools.product(FOLDERS, SEEDS, ZONES, LOCALES, PROCESSORS)))
FEW = (
    Setting(FOLDERS[0], SEEDS[0], ZONES[0], LOCALES[1], 2),
    Setting(FOLDERS[1], SEEDS[1], ZONES[1], LOCALES[0], 1),
)
needs_choice = pytest.mark.skipif(
    not hasattr(os, "sched_setaffinity"), reason="a process cannot be kept on a processor"
)


def _kept_on(processors: int) -> Callable[[], None]:
    """Return what keeps a process on so many of the processors that there are."""
    some = sorted(os.sched_getaffinity(0))[:processors]
    return lambda: os.sched_setaffinity(0, some)


def _run(stand: Path, setting: Setting, *words: str) -> None:
    environment = {**os.environ, "PYTHONHASHSEED": setting.seed, "TZ": setting.zone}
    environment |= {"LC_ALL": setting.locale, "LANG": setting.locale, "XDG_CACHE_HOME": str(stand / "cache")}
    done = subprocess.run(
        [sys.executable, "-m", "linebook", *words],
        cwd=stand,
        env=environment,
        capture_output=True,
        text=True,
        check=False,
        preexec_fn=_kept_on(setting.processors),
    )
    assert done.returncode == 0, done.stderr


def _digests(folder: Path) -> dict[str, str]:
    """Return what was printed, a file or a folder, without the record, which names what it was made from."""
    paths = folder.iterdir() if folder.is_dir() else [folder]
    found = {path.name: hashlib.sha256(path.read_bytes()).hexdigest() for path in paths}
    found.pop(".kept.txt", None)
    assert found
    return found


def _printed(stand: Path, setting: Setting) -> dict[str, dict[str, str]]:
    """Print all of a house that has an issue: binders kept, printed again after an edit and its reversal, and anew."""
    for name, words in WORDS.items():
        _run(stand, setting, *words[:1], "specs", *words[1:], "-o", name)
    found = {name: _digests(stand / name) for name in WORDS}
    path = stand / "specs" / CARD
    text = path.read_text(encoding="utf-8")
    path.write_text(text.replace("capers, amount: 120 g", "capers, amount: 90 g"), encoding="utf-8")
    _run(stand, setting, "bind", "specs", "--date", DAY, "-o", "a4")
    assert _digests(stand / "a4") != found["a4"]
    path.write_text(text, encoding="utf-8")
    _run(stand, setting, "bind", "specs", "--date", DAY, "-o", "a4")
    assert _digests(stand / "a4") == found["a4"], "printed again from what is kept"
    _run(stand, setting, "bind", "specs", "--date", DAY, "-o", "anew", "--no-cache")
    assert _digests(stand / "anew") == found["a4"], "printed anew, and nothing kept"
    return found


@pytest.fixture(scope="module")
def issued(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The house after its first issue."""
    folder = tmp_path_factory.mktemp("issued")
    shutil.copytree(HOUSE, folder / "specs")
    _run(folder, FEW[0], "bind", "specs", "--issue", "--date", ISSUED, "-o", "out")
    return folder / "specs"


@needs_choice
def test_every_print_is_the_same_in_every_setting(issued: Path, tmp_path: Path) -> None:
    files = [path.relative_to(issued) for path in sorted(issued.rglob("*")) if path.is_file()]
    expected: dict[str, dict[str, str]] = {}
    settings = ALL if os.environ.get("LINEBOOK_PRODUCT") else FEW
    for number, setting in enumerate(settings):
        stand = tmp_path / str(number) / setting.folder
        # Written in the other order, so that the disk lists the files otherwise.
        for path in files if number % 2 else reversed(files):
            (stand / "specs" / path).parent.mkdir(parents=True, exist_ok=True)
            shutil.copy(issued / path, stand / "specs" / path)
        found = _printed(stand, setting)
        expected = expected or found
        assert found == expected, setting
        shutil.rmtree(tmp_path / str(number))
    assert {name.rpartition(".")[2] for name in expected["plan"]} == {"pdf", "ics", "json"}
    assert len(expected["a4"]) == len(expected["letter"]) == 3
    assert not set(expected["a4"].values()) & set(expected["letter"].values())
