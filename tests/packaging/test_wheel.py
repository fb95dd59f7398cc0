"""The wheel, installed apart and run from an empty folder, carries all it needs."""

from __future__ import annotations

import os
import subprocess
import sys
import zipfile
from pathlib import Path

import pytest

REPOSITORY = Path(__file__).parents[2]


@pytest.fixture(scope="module")
def wheel(tmp_path_factory: pytest.TempPathFactory) -> Path:
    folder = tmp_path_factory.mktemp("wheel")
    built = subprocess.run(
        [
            sys.executable,
            "-m",
            "pip",
            "wheel",
            "--no-deps",
            "--no-build-isolation",
            "-q",
            "-w",
            str(folder),
            str(REPOSITORY),
        ],
        capture_output=True,
        text=True,
        check=False,
    )
    assert built.returncode == 0, built.stderr
    return next(folder.glob("*.whl"))


def test_it_holds_the_package_data_and_nothing_stray(wheel: Path) -> None:
    names = zipfile.ZipFile(wheel).namelist()
    for needed in (
        "linebook/_templates/theme.yaml",
        "linebook/_templates/themes/towpath.yaml",
        "linebook/explain/LB101.md",
        "linebook/starter/house.yaml",
        "linebook/screen/screen.css",
        "linebook/py.typed",
    ):
        assert needed in names
    assert not [name for name in names if name.endswith((".pyc", ".part")) or name.startswith(("tests", "specs"))]


def test_it_makes_a_house_and_binds_it_from_an_empty_folder(wheel: Path, tmp_path: Path) -> None:
    site, empty = tmp_path / "site", tmp_path / "empty"
    empty.mkdir()
    zipfile.ZipFile(wheel).extractall(site)
    environment = {**os.environ, "PYTHONPATH": str(site)}

    def run(*arguments: str) -> str:
        done = subprocess.run(
            [sys.executable, "-m", "linebook", *arguments],
            cwd=empty,
            env=environment,
            capture_output=True,
            text=True,
            check=False,
        )
        assert done.returncode == 0, done.stderr
        return done.stdout

    where = subprocess.run(
        [sys.executable, "-c", "import linebook; print(linebook.__file__)"],
        cwd=empty,
        env=environment,
        capture_output=True,
        text=True,
        check=False,
    )
    assert str(site) in where.stdout
    run("new", "kitchen")
    run("check", "kitchen", "--strict")
    run("bind", "kitchen", "--date", "2027-03-02")
    assert (empty / "output" / "stove-binder.pdf").read_bytes().startswith(b"%PDF")
    run("bind", "kitchen", "--date", "2027-03-02", "--theme", "towpath", "-o", "other")
    other = (empty / "other" / "stove-binder.pdf").read_bytes()
    assert b"Plex" in other
    assert b"Lato" not in other
    assert "  towpath " in run("templates")
