"""Runs the real command in a folder of its own."""

from __future__ import annotations

import shutil
from pathlib import Path

import pytest
from click.testing import CliRunner, Result
from running import Run

from linebook.cli.main import command

REPOSITORY = Path(__file__).parents[2]


@pytest.fixture
def run(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Run:
    """Run ``linebook`` in an empty folder; an exception that is not an exit is passed on, so that it fails the test."""
    monkeypatch.chdir(tmp_path)

    def _run(*arguments: str) -> Result:
        return CliRunner().invoke(command, list(arguments), prog_name="linebook", catch_exceptions=False)

    return _run


@pytest.fixture
def kitchen(run: Run, tmp_path: Path) -> Path:
    """The starter house, in ``kitchen/``."""
    assert run("new", "kitchen").exit_code == 0
    return tmp_path / "kitchen"


@pytest.fixture
def demo(tmp_path: Path) -> Path:
    """A copy of the demo house, in ``specs/``."""
    shutil.copytree(REPOSITORY / "specs", tmp_path / "specs")
    return tmp_path / "specs"
