"""A dish with a photograph: on its plating guide; a bad one is a located fault of check or of bind."""

from __future__ import annotations

from pathlib import Path

import pytest
from PIL import Image
from pypdf import PdfReader
from running import Run

DAY = ("--date", "2027-03-05")


@pytest.fixture
def house(demo: Path) -> Path:
    """The demo house, whose bread has a photograph."""
    dish = demo / "dishes" / "house-bread.md"
    dish.write_text(dish.read_text().replace("\ntested:", "\nphoto: photos/house-bread.jpg\ntested:", 1))
    (demo / "photos").mkdir()
    Image.linear_gradient("L").resize((900, 600)).convert("RGB").save(demo / "photos" / "house-bread.jpg")
    return demo


def place_of(house: Path) -> str:
    lines = (house / "dishes" / "house-bread.md").read_text().splitlines()
    (number,) = (at for at, line in enumerate(lines, 1) if line.startswith("photo:"))
    return f"specs/dishes/house-bread.md:{number}:8"


def test_the_photograph_is_on_the_plating_guide_alone(run: Run, house: Path, tmp_path: Path) -> None:
    assert run("check", "specs").exit_code == 0
    result = run("bind", "specs", "--line", "pastry", *DAY)
    assert result.exit_code == 0, result.output
    pages = PdfReader(tmp_path / "output" / "pastry-binder.pdf").pages
    pictured = [page for page in pages if "/XObject" in page["/Resources"]]
    assert len(pictured) == 1
    assert "Plating guide" in pictured[0].extract_text()


def test_another_photograph_is_another_sheet(run: Run, house: Path, tmp_path: Path) -> None:
    def fingerprint() -> str:
        assert run("bind", "specs", "--line", "pastry", *DAY).exit_code == 0
        pages = PdfReader(tmp_path / "output" / "pastry-binder.pdf").pages
        (page,) = (page for page in pages if "/XObject" in page["/Resources"])
        return str(page.extract_text().split("issued")[0].split()[-4:])

    before = fingerprint()
    assert fingerprint() == before
    Image.linear_gradient("L").resize((600, 900)).rotate(180).convert("RGB").save(house / "photos" / "house-bread.jpg")
    assert fingerprint() != before


def test_a_missing_one_is_told_by_check(run: Run, house: Path) -> None:
    (house / "photos" / "house-bread.jpg").unlink()
    result = run("check", "specs")
    assert result.exit_code == 1
    assert f"{place_of(house)}" in result.output
    assert "LB608" in result.output


def test_one_cut_short_is_told_by_bind_and_nothing_is_printed(run: Run, house: Path, tmp_path: Path) -> None:
    photo = house / "photos" / "house-bread.jpg"
    photo.write_bytes(photo.read_bytes()[:-400])
    assert run("check", "specs").exit_code == 0
    result = run("bind", "specs", "--line", "pastry", *DAY)
    assert result.exit_code == 1
    assert place_of(house) in result.output
    assert "LB609" in result.output
    assert not (tmp_path / "output").exists()
