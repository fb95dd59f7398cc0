"""Whatever is asked and whenever it is killed, with what is kept in use: each file is wholly old or wholly new.

The register agrees with the disk, and the same words again make of it what an undisturbed run makes. A few steps of
each are tried every time, ``LINEBOOK_EVERY_KILL=1`` tries them all, with the copies of the process and without.
"""

from __future__ import annotations

import os
import re
import shutil
from pathlib import Path

import pytest
from house_mutations import REPOSITORY
from killing import run

CARD, CHANGED = "house/components/green-sauce.md", ("capers, amount: 120 g", "capers, amount: 110 g")
FIRST, SECOND, THIRD = "2027-10-08", "2027-10-15", "2027-11-26"
NOTE = ("note", "green-sauce", "flat, more acid", "--by", "MH", "--date", FIRST, "--house", "house")
ASKED = {
    "bind": ("bind", "house", "--date", FIRST, "-o", "plain"),
    "issue": ("bind", "house", "--date", THIRD, "--issue", "--only-changed", "-o", "out"),
    "only changed": ("bind", "house", "--date", THIRD, "--only-changed", "-o", "out"),
    "swap": ("swap", "house", "--date", THIRD, "-o", "out"),
    "note": NOTE,
}
FEW = 2

Files = dict[str, bytes]


def _files(stand: Path) -> Files:
    paths = [path for path in sorted(stand.rglob("*")) if path.is_file()]
    found = {path.relative_to(stand).as_posix(): path.read_bytes() for path in paths}
    return {name: content for name, content in found.items() if not name.startswith("cache/")}


def _edit(stand: Path, path: str, old: str, new: str) -> None:
    text = (stand / path).read_text(encoding="utf-8")
    assert old in text
    (stand / path).write_text(text.replace(old, new, 1), encoding="utf-8")


@pytest.fixture(scope="module")
def start(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """A house that was printed and issued twice, and edited since; what was kept is for the folder ``stand`` beside it."""
    stand = tmp_path_factory.mktemp("kills") / "stand"
    shutil.copytree(REPOSITORY / "tests/houses/kiln-corner", stand / "house")
    for day in (FIRST, SECOND):
        issued = run(stand, 0, ("bind", "house", "--date", day, "--issue", "--only-changed", "-o", "out"))
        assert issued.code == 0, issued.err
        assert run(stand, 0, ASKED["bind"]).code == 0
        _edit(stand, CARD, *(CHANGED if day == FIRST else CHANGED[::-1]))
    _edit(stand, "house/dishes/rice-plum.md", "plums on top", "plums on top, warm")
    return shutil.copytree(stand, stand.with_name("start"))


def _again(start: Path) -> Path:
    stand = start.with_name("stand")
    shutil.rmtree(stand)
    return shutil.copytree(start, stand)


def _is_sound(left: Files, before: Files, after: Files) -> None:
    """Check what a killed run left: nothing half, nothing lost, and no issue on record that is not all in place."""
    whole = {name: content for name, content in left.items() if not name.endswith(".part")}
    for name, content in whole.items():
        assert content in (before.get(name), after.get(name)), name
    assert set(before) & set(after) <= set(whole)
    issues = {name for name in set(after) - set(before) if re.match(r"house/issued/[^/]+\.txt", name)}
    if issues and issues <= set(whole):
        assert {name: whole.get(name) for name in after} == after, "what is on record is all in place"


@pytest.mark.skipif(not hasattr(os, "fork"), reason="a run has no copies of itself here")
@pytest.mark.parametrize("name", ASKED)
def test_a_killed_run_leaves_nothing_half(start: Path, name: str) -> None:
    stand = _again(start)
    before = _files(stand)
    undisturbed = run(stand, 0, ASKED[name])
    assert undisturbed.code == 0, undisturbed.err
    after, steps = _files(stand), undisturbed.count
    assert after != before
    assert steps >= 6
    every = bool(os.environ.get("LINEBOOK_EVERY_KILL"))
    counts = range(1, steps + 1) if every else range(2, steps + 1, -(-steps // FEW))
    for number, count in enumerate(counts):
        for whom in ("one", "all") if every else (("one", "all")[number % 2],):
            stand = _again(start)
            killed = run(stand, count, ASKED[name], whom)
            assert "killed at" in killed.steps
            if killed.code:
                _is_sound(_files(stand), before, after)
            else:  # a copy of the process died, and its work was done without it
                assert _files(stand) == after
            again = run(stand, 0, ASKED[name])
            assert again.code == 0, (killed.steps, again.err)
            if name != "note":  # which is put in once more where it was in already
                assert _files(stand) == after, killed.steps
            assert not [path for path in _files(stand) if path.endswith(".part")]
