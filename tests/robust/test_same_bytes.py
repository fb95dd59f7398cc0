"""The same specs on the same day give the same bytes: in any folder, with any hash seed, time zone, locale or order of files."""

from __future__ import annotations

import hashlib
import itertools
import os
import shutil
import subprocess
import sys
from concurrent.futures import ThreadPoolExecutor
from pathlib import Path

import pytest
from house_mutations import HOUSES, texts_of, write_house
from printed_text import linebook

DAY = "2027-02-05"
HOUSE = "gannet-steps"
SEEDS = ("0", "1", "2")
ZONES = ("Pacific/Kiritimati", "America/Los_Angeles")
LOCALES = ("C", "tr_TR.UTF-8")
ODD_SETTINGS = {
    "SOURCE_DATE_EPOCH": "1",
    "RL_invariant": "0",
    "RL_pageCompression": "0",
    "COLUMNS": "40",
    "NO_COLOR": "1",
}


@pytest.fixture(scope="module")
def expected(tmp_path_factory: pytest.TempPathFactory) -> dict[str, str]:
    out = tmp_path_factory.mktemp("expected")
    assert linebook("bind", HOUSES[HOUSE], "--date", DAY, "-o", out).exit_code == 0
    return _hashes(out)


def _hashes(out: Path) -> dict[str, str]:
    found = {path.name: hashlib.sha256(path.read_bytes()).hexdigest() for path in sorted(out.glob("*.pdf"))}
    assert len(found) >= 2
    return found


def test_bytes_do_not_depend_on_folder_seed_zone_or_locale(tmp_path: Path, expected: dict[str, str]) -> None:
    """Two folders, one deep and one reached from inside itself; written in opposite orders, so that the disk lists them otherwise.

    Each print is asked for twice: the second one is the one that is kept.
    """
    texts = texts_of(HOUSES[HOUSE])
    first = write_house(texts, tmp_path / "a house" / "with spaces é" / "specs")
    second = write_house(dict(reversed(texts.items())), tmp_path / "b")
    runs = list(itertools.product((first, second), SEEDS, zip(ZONES, LOCALES, strict=True)))
    runs += [(first, "0", (ZONES[0], LOCALES[1])), (second, "1", (ZONES[1], LOCALES[0]))]

    def run(number: int) -> dict[str, str]:
        house, seed, (zone, locale) = runs[number]
        out = tmp_path / f"out-{number}"
        environment = {**os.environ, "PYTHONHASHSEED": seed, "TZ": zone, "LC_ALL": locale, "LANG": locale}
        environment |= ODD_SETTINGS if number % 2 else {}
        inside = house == second
        place = [] if inside else [str(house)]
        asked = [sys.executable, "-m", "linebook", "bind", *place, "--date", DAY, "-o", str(out)]
        stand = house if inside else tmp_path
        made = subprocess.run(asked, env=environment, cwd=stand, capture_output=True, text=True, check=False)
        assert made.returncode == 0, made.stderr
        hashes, numbers = _hashes(out), [path.stat().st_ino for path in sorted(out.glob("*.pdf"))]
        # Once more from what is kept, by a run with the settings of the next one.
        _, seed, (zone, locale) = runs[(number + 1) % len(runs)]
        environment |= {"PYTHONHASHSEED": seed, "TZ": zone, "LC_ALL": locale, "LANG": locale}
        kept = subprocess.run(asked, env=environment, cwd=stand, capture_output=True, text=True, check=False)
        assert (kept.returncode, kept.stdout, kept.stderr) == (0, made.stdout, made.stderr)
        assert numbers == [path.stat().st_ino for path in sorted(out.glob("*.pdf"))]
        return hashes if _hashes(out) == hashes else {}

    with ThreadPoolExecutor(2) as pool:
        found = list(pool.map(run, range(len(runs))))
    different = [runs[number] for number, hashes in enumerate(found) if hashes != expected]
    assert not different


def test_line_ends_a_byte_order_mark_and_comments_change_no_byte(tmp_path: Path, expected: dict[str, str]) -> None:
    """What an editor on another system does to a file is not what the file says."""
    house = tmp_path / "k"
    shutil.copytree(HOUSES[HOUSE], house)
    for path in house.rglob("*.*"):
        if path.suffix in (".yaml", ".md"):
            text = path.read_text("utf-8").replace("\nname:", "\n# a note to ourselves\nname:")
            path.write_bytes(b"\xef\xbb\xbf" + text.replace("\n", "\r\n").encode())
    result = linebook("bind", house, "--date", DAY, "-o", tmp_path / "out")
    assert result.exit_code == 0, result.stderr
    assert _hashes(tmp_path / "out") == expected


def test_one_changed_letter_changes_the_bytes(tmp_path: Path, expected: dict[str, str]) -> None:
    """So that the tests above compare something."""
    texts = texts_of(HOUSES[HOUSE])
    texts["components/aioli.md"] = texts["components/aioli.md"].replace("name: ", "name: x", 1)
    result = linebook("bind", write_house(texts, tmp_path / "k"), "--date", DAY, "-o", tmp_path / "out")
    assert result.exit_code == 0, result.stderr
    changed = _hashes(tmp_path / "out")
    assert changed.keys() == expected.keys()
    assert changed != expected
