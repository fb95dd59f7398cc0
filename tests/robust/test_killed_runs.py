"""A run that is killed, or that finds the disk full, leaves every PDF wholly old or wholly new; the next run needs no cleaning."""

from __future__ import annotations

import os
import resource
import signal
import subprocess
import sys
from pathlib import Path

import pytest
from house_mutations import STARTER
from killing import Ran, run
from printed_text import linebook

from linebook.writing.atomic import write_file, write_files

OLD, NEW = "2026-11-02", "2026-12-07"
STEPS = 10


def _bind(out: Path, day: str, count: int, **options: object) -> Ran:
    words = ("bind", str(STARTER), "--date", day, "-o", str(out), "--no-cache")
    return run(out.parent, count, words, **options)


def _contents(folder: Path) -> dict[str, bytes]:
    return {path.name: path.read_bytes() for path in folder.iterdir()}


@pytest.fixture(scope="module")
def whole(tmp_path_factory: pytest.TempPathFactory) -> dict[str, dict[str, bytes]]:
    """The PDFs of both days as runs that nobody disturbs make them."""
    found = {}
    for day in (OLD, NEW):
        out = tmp_path_factory.mktemp(day)
        assert linebook("bind", STARTER, "--date", day, "-o", out).exit_code == 0
        found[day] = _contents(out)
    assert set(found[OLD]) == {"stove-binder.pdf", "allergen-matrix.pdf"}
    assert all(found[OLD][name] != found[NEW][name] for name in found[OLD])
    return found


def test_the_steps_are_all_there_are(tmp_path: Path) -> None:
    """Two PDFs: the folder asked for twice, two openings, two flushes, two moves, then the folder flushed."""
    done = _bind(tmp_path / "out", NEW, 0)
    assert done.count == STEPS - 1, done.steps


@pytest.mark.parametrize("count", range(1, STEPS))
def test_a_killed_run_leaves_no_half_file(tmp_path: Path, whole: dict[str, dict[str, bytes]], count: int) -> None:
    out = tmp_path / "out"
    write_files([(out / name, content) for name, content in whole[OLD].items()])
    killed = _bind(out, NEW, count)
    assert (killed.code, killed.steps.count("killed at")) == (-signal.SIGKILL, 1), killed.err
    left = _contents(out)
    for name in whole[OLD]:
        assert left[name] in (whole[OLD][name], whole[NEW][name]), name
    assert all(name in whole[OLD] or (name.startswith(".") and name.endswith(".part")) for name in left)
    assert linebook("bind", STARTER, "--date", NEW, "-o", out).exit_code == 0
    assert _contents(out) == whole[NEW], "nothing else lies there and all of it is new"


def test_a_full_disk_leaves_the_old_binder(tmp_path: Path, whole: dict[str, dict[str, bytes]]) -> None:
    out = tmp_path / "out"
    write_files([(out / name, content) for name, content in whole[OLD].items()])

    def small_files() -> None:
        resource.setrlimit(resource.RLIMIT_FSIZE, (50_000, 50_000))

    done = _bind(out, NEW, 0, preexec_fn=small_files)
    assert done.code == 1
    assert done.err.startswith("error LB901 "), done.err
    assert _contents(out) == whole[OLD]


@pytest.mark.skipif(os.name != "posix", reason="asks for a process by its id")
def test_what_a_dead_run_left_goes_and_what_a_living_one_writes_stays(tmp_path: Path) -> None:
    asked = [sys.executable, "-c", "import os; print(os.getpid())"]
    dead = subprocess.run(asked, capture_output=True, text=True, check=True).stdout.strip()
    left = [f".a.pdf.{dead}.part", f".a.pdf.{os.getpid()}.part", ".a.pdf.99999999999999999999.part"]
    kept = [
        f".a.pdf.{os.getppid()}.part",
        ".a.pdf.1.part",
        f".b.pdf.{dead}.part",
        ".a.pdf.part",
        "xa.pdf.7.part",
    ]
    for name in (*left[:2], *kept):
        (tmp_path / name).write_bytes(b"half")
    write_file(tmp_path / "a.pdf", b"whole")
    assert sorted(_contents(tmp_path)) == sorted([*kept, "a.pdf"])


def test_a_folder_in_the_place_of_a_pdf_is_told_and_nothing_is_replaced(
    tmp_path: Path, whole: dict[str, dict[str, bytes]]
) -> None:
    out = tmp_path / "out"
    write_file(out / "stove-binder.pdf", whole[OLD]["stove-binder.pdf"])
    (out / "allergen-matrix.pdf").mkdir()
    result = linebook("bind", STARTER, "--date", NEW, "-o", out)
    assert result.exit_code == 1
    assert result.stderr.startswith("error LB901 "), result.stderr
    assert (out / "stove-binder.pdf").read_bytes() == whole[OLD]["stove-binder.pdf"]
    assert sorted(path.name for path in out.iterdir()) == ["allergen-matrix.pdf", "stove-binder.pdf"]


@pytest.mark.parametrize("umask", [0o000, 0o077])
def test_the_umask_is_kept_and_changes_no_byte(tmp_path: Path, whole: dict[str, dict[str, bytes]], umask: int) -> None:
    before = os.umask(umask)
    try:
        assert linebook("bind", STARTER, "--date", OLD, "-o", tmp_path / "out").exit_code == 0
    finally:
        os.umask(before)
    assert _contents(tmp_path / "out") == whole[OLD]
    assert {path.stat().st_mode & 0o777 for path in (tmp_path / "out").iterdir()} == {0o666 & ~umask}
