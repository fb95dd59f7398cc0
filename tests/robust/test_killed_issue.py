"""An issue that is killed: each PDF is wholly old or wholly new, and it is on record once all of it is in place.

What lies between, the next run mends.
"""

from __future__ import annotations

import os
import random
import re
import shutil
import signal
import subprocess
import time
from pathlib import Path

import pytest
from house_mutations import STARTER
from killing import driven, environment, run

OLD, MIDDLE, NEW = "2026-11-02", "2026-11-16", "2026-12-07"


ASKED = ("bind", "house", "--issue", "--only-changed", "-o", "out", "--date")


def _files(folder: Path) -> dict[str, bytes]:
    return {str(path.relative_to(folder)): path.read_bytes() for path in sorted(folder.rglob("*")) if path.is_file()}


def _edit(folder: Path, old: str, new: str) -> None:
    """Change the first card of a dish, as before another issue."""
    path = next(path for path in sorted((folder / "house/dishes").glob("*.md")) if path.name.count(".") == 1)
    text = path.read_text(encoding="utf-8")
    changed = re.sub(old, new, text, count=1, flags=re.MULTILINE)
    assert changed != text
    path.write_text(changed, encoding="utf-8")


@pytest.fixture(scope="module")
def states(tmp_path_factory: pytest.TempPathFactory) -> tuple[Path, dict[str, bytes], dict[str, bytes], int]:
    """A house after its second issue, ready for a third; its files then, and after that one; the steps it takes.

    The second touched the matrix too, so that the third has a PDF to take away.
    """
    start = tmp_path_factory.mktemp("start")
    shutil.copytree(STARTER, start / "house")
    assert run(start, 0, (*ASKED, OLD)).code == 0
    _edit(start, r"^name: ", "name: Our ")
    assert run(start, 0, (*ASKED, MIDDLE)).code == 0
    assert (start / "out/allergen-matrix-changed.pdf").exists()
    _edit(start, r"^2\. ", "2. Slowly: ")
    done = tmp_path_factory.mktemp("done")
    shutil.copytree(start, done, dirs_exist_ok=True)
    second = run(done, 0, (*ASKED, NEW))
    assert second.code == 0, second.err
    return start, _files(start), _files(done), second.count


def _agrees(left: dict[str, bytes], before: dict[str, bytes], after: dict[str, bytes]) -> None:
    """Check what a killed run left: nothing half, and no issue on record that is not all in place."""
    whole = {name: content for name, content in left.items() if not name.endswith(".part")}
    for name, content in whole.items():
        assert content in (before.get(name), after.get(name)), name
    assert set(before) - {"out/allergen-matrix-changed.pdf"} <= set(whole)
    new_issue = (set(after) - set(before)) & {name for name in after if re.match(r"house/issued/[^/]+\.txt", name)}
    assert len(new_issue) == 1
    if new_issue <= set(whole):
        assert {name: whole.get(name) for name in after} == after, "what is on record is all in place"


def test_killed_at_every_step(states: tuple[Path, dict[str, bytes], dict[str, bytes], int], tmp_path: Path) -> None:
    start, before, after, steps = states
    assert steps > 25
    for count in range(1, steps + 1):
        folder = tmp_path / str(count)
        shutil.copytree(start, folder)
        killed = run(folder, count, (*ASKED, NEW))
        assert "killed at" in killed.steps, killed.err
        _agrees(_files(folder), before, after)
        again = run(folder, 0, (*ASKED, NEW))
        assert again.code == 0, again.err
        assert _files(folder) == after, killed.steps
        shutil.rmtree(folder)


def test_killed_at_seeded_moments(states: tuple[Path, dict[str, bytes], dict[str, bytes], int], tmp_path: Path) -> None:
    start, before, after, _ = states
    chance = random.Random(7)
    asked = driven(0, (*ASKED, NEW))
    timed = shutil.copytree(start, tmp_path / "timed")
    whole = time.perf_counter()
    subprocess.run(asked, cwd=timed, env=environment(timed), capture_output=True, check=True)
    whole = time.perf_counter() - whole
    for number in range(int(os.environ.get("LINEBOOK_KILLS", "12"))):
        folder = tmp_path / str(number)
        shutil.copytree(start, folder)
        quiet = {"stdout": subprocess.DEVNULL, "stderr": subprocess.DEVNULL, "env": environment(folder)}
        with subprocess.Popen(asked, cwd=folder, **quiet) as process:
            time.sleep(chance.random() * whole * 1.1)
            process.send_signal(signal.SIGKILL)
        _agrees(_files(folder), before, after)
        assert run(folder, 0, (*ASKED, NEW)).code == 0
        assert _files(folder) == after
        shutil.rmtree(folder)
