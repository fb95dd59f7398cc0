"""Houses as pages, each made once by the real command: the demo in one language and in two, and one made to strain."""

from __future__ import annotations

import sys
from pathlib import Path

import pytest
from click.testing import CliRunner

from linebook.cli.main import command

REPOSITORY = Path(__file__).parents[2]
SPECS = REPOSITORY / "specs"
STRESS = REPOSITORY / "tests" / "pages"


def _made(folder: Path, *arguments: str) -> Path:
    given = ["screen", *arguments, "--date", "2027-03-02", "-o", str(folder)]
    done = CliRunner().invoke(command, given, prog_name="linebook", catch_exceptions=False)
    assert done.exit_code == 0, done.stderr
    return folder


@pytest.fixture(scope="session")
def demo_folder(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The folder that ``linebook screen`` makes of the demo house."""
    return _made(tmp_path_factory.mktemp("demo") / "screen", str(SPECS))


@pytest.fixture(scope="session")
def folders(demo_folder: Path, tmp_path_factory: pytest.TempPathFactory) -> dict[str, Path]:
    """That folder, the same house in two languages, the second first, and a house with far too much of everything."""
    sys.path.append(str(STRESS))
    try:
        import stress_houses
    finally:
        sys.path.remove(str(STRESS))
    strained = stress_houses.write_house(tmp_path_factory.mktemp("strain") / "house")
    return {
        "demo": demo_folder,
        "in two languages": _made(tmp_path_factory.mktemp("two") / "screen", str(SPECS), "--languages", "es,en"),
        "strained": _made(tmp_path_factory.mktemp("strained") / "screen", str(strained)),
    }


@pytest.fixture(scope="session")
def demo_pages(demo_folder: Path) -> dict[str, str]:
    """The pages of the demo by file name."""
    return {path.name: path.read_text(encoding="utf-8") for path in sorted(demo_folder.glob("*.html"))}
