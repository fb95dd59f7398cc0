"""A house with one of each kind of file that a print depends on, and the program run on it in a process of its own."""

from __future__ import annotations

import os
import shutil
import subprocess
import sys
from dataclasses import dataclass
from importlib.util import find_spec
from pathlib import Path

REPOSITORY = Path(__file__).parents[2]
STARTER = REPOSITORY / "src/linebook/starter"
DAY = "2026-12-07"
DISH, THEME, TEMPLATE = "dishes/lentil-bowl.md", "templates/theme.yaml", "templates/station_card.xml.j2"
FONT, PHOTO, ISSUE = "templates/Ours.ttf", "photos/lentil-bowl.png", "issued/2026-11-02-first-menu-00000000.txt"


@dataclass(frozen=True)
class Ran:
    """How a run ended, and whether the PDFs are others than before, by their numbers on the disk."""

    code: int
    out: str
    err: str
    worked: bool


def fonts() -> list[Path]:
    """Return the static fonts of the standard theme's package, two of which differ."""
    spec = find_spec("fontpkg_lato")
    assert spec is not None
    assert spec.submodule_search_locations is not None
    found = sorted(Path(spec.submodule_search_locations[0]).rglob("*Bold.ttf"))
    found += sorted(Path(spec.submodule_search_locations[0]).rglob("*Black.ttf"))
    assert len(found) >= 2
    return found


def full_house(folder: Path) -> Path:
    """Make a house with a photograph, a theme, a template, a font and an issue that is not as it was written."""
    from PIL import Image

    shutil.copytree(STARTER, folder, ignore=shutil.ignore_patterns("__pycache__"))
    for place in ("templates", "photos", "issued"):
        (folder / place).mkdir()
    Image.new("RGB", (120, 90), (200, 30, 30)).save(folder / PHOTO)
    dish = folder / DISH
    dish.write_text(dish.read_text("utf-8").replace("---\n", f"---\nphoto: {PHOTO}\n", 1), "utf-8")
    shutil.copy(fonts()[0], folder / FONT)
    shutil.copy(REPOSITORY / TEMPLATE, folder / TEMPLATE)
    (folder / THEME).write_text("fonts: {bold: Ours.ttf}\n", "utf-8")
    (folder / ISSUE).write_text("an issue\n", "utf-8")
    return folder


def environment(**others: str) -> dict[str, str]:
    return {**os.environ, "PYTHONPATH": str(REPOSITORY / "src"), **others}


def bind(stand: Path, *words: str, day: str = DAY, **others: str) -> Ran:
    """Run ``linebook bind`` in the folder ``stand``; its PDFs are in ``out`` there."""
    before = numbers(stand / "out")
    dated = ["--date", day] if day else []
    asked = [sys.executable, "-m", "linebook", "bind", *dated, "-o", "out", *words]
    done = subprocess.run(asked, cwd=stand, env=environment(**others), capture_output=True, text=True, check=False)
    return Ran(done.returncode, done.stdout, done.stderr, worked=numbers(stand / "out") != before)


def numbers(folder: Path) -> dict[str, tuple[int, int]]:
    return {path.name: (path.stat().st_ino, path.stat().st_mtime_ns) for path in folder.glob("*.pdf")}


def prints(folder: Path) -> dict[str, bytes]:
    found = {path.name: path.read_bytes() for path in sorted(folder.glob("*.pdf"))}
    assert len(found) >= 2
    return found
