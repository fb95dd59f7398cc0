"""Units, solutions, whole counts, cures and refusals, as they reach the sheet and the terminal."""

from __future__ import annotations

import shutil
from pathlib import Path

import pytest
from pypdf import PdfReader
from running import Run

SMALL_HOUSE = Path(__file__).parents[1] / "cases" / "small-house"
DAY = ("--date", "2027-03-05")
SCALES = """instruments:
  - {scale: bench scale, up_to: 30 kg, reads: 5 g}
  - {scale: fine scale, up_to: 500 g, reads: 0.1 g}
  - {jug: jug, up_to: 5 L, reads: 50 ml}
"""
CURE = """curing-salt:
  name: curing salt
  allergens: {contains: none, says: label, since: 2026-11-02}
  weigh_exactly: yes
  strength: {sodium-nitrite: 0.6 %}
rennet-powder:
  name: rennet powder
  allergens: {contains: none, says: label, since: 2026-11-02}
  dilute_in: water
"""


def change(path: Path, find: str, put: str) -> None:
    text = path.read_text(encoding="utf-8")
    assert text.count(find) == 1
    path.write_text(text.replace(find, put), encoding="utf-8")


@pytest.fixture
def steps(tmp_path: Path) -> Path:
    """A house that cures its shin at 60 ppm and sets a purée with a powder no scale of it reads, in ``specs/``."""
    root = shutil.copytree(SMALL_HOUSE, tmp_path / "specs")
    change(root / "house.yaml", "currency: £\n", "currency: £\nceilings: {sodium-nitrite: 150 ppm}\n")
    change(root / "house.yaml", "instruments:\n  - {scale: bench scale, up_to: 30 kg, reads: 5 g}\n", SCALES)
    dry = root / "pantry" / "dry.yaml"
    dry.write_text(dry.read_text(encoding="utf-8") + CURE, encoding="utf-8")
    thyme = "  - {item: thyme, amount: 20 g, stage: braise}\n"
    # 10 kg of shin under 8 L of brine fill the pot to the mark, and the cure comes on top
    change(root / "house.yaml", "holds: 24 L, fill: 75 %", "holds: 24 L, fill: 80 %")
    cure = "  - {item: curing-salt, amount: 1 %, of: beef-shin, stage: brine}\n"
    change(root / "components" / "braised-shin.md", thyme, cure + thyme)
    lemon = "adjust_with: [lemon]\n"
    powder = (
        "  - {item: rennet-powder, amount: 0.06 g, stage: blend}\n  - {item: water, amount: 300 ml, stage: blend}\n"
    )
    change(root / "components" / "celeriac-puree.md", lemon, powder + lemon)
    change(root / "components" / "celeriac-puree.md", "{cream} cream,", "{cream} cream, {rennet-powder} rennet powder,")
    return root


def words(path: Path) -> str:
    return " ".join(" ".join(page.extract_text() for page in PdfReader(path).pages).split())


def test_a_cure_is_told_in_ppm_of_what_it_cures(run: Run, steps: Path, tmp_path: Path) -> None:
    made = run("batch", "braised-shin", "--times", "1", *DAY, "-o", "shin.pdf")
    assert made.exit_code == 0, made.output
    said = words(tmp_path / "shin.pdf")
    assert "60 ppm of the weight of beef shin; the house's ceiling is 150 ppm" in said
    assert "Local rules and the food" in said


def test_a_powder_is_weighed_as_a_solution_in_words_and_figures(run: Run, steps: Path, tmp_path: Path) -> None:
    made = run("batch", "celeriac-puree", "--times", "1", *DAY, "-o", "puree.pdf")
    solution = "dissolve 5 g of it in 495 g of water, then weigh 6 g of that"
    assert solution in made.output
    said = words(tmp_path / "puree.pdf")
    assert f"too little to weigh: {solution}" in said
    assert "take 5.94 g off: it comes with rennet powder" in said
    assert "0.06 g rennet powder, 28 g salt" in said  # in the step too, and never ≈ 0.1 g


def test_what_it_is_dissolved_in_is_among_the_allergens_though_it_is_not_on_the_card(run: Run, steps: Path) -> None:
    change(steps / "pantry" / "dry.yaml", "  dilute_in: water\n", "  dilute_in: cream\n")
    lines = ("components/shin-sauce.md", "  - {item: fine-salt, amount: to taste}\n")
    change(steps / lines[0], lines[1], lines[1] + "  - {item: rennet-powder, amount: 0.05 g, stage: simmer}\n")
    made = run("batch", "shin-sauce", "--times", "1", *DAY, "-o", "sauce.pdf")
    assert "of double cream" in made.output
    said = words(Path("sauce.pdf"))
    assert "Contains milk (animal not named)" in said
    assert "of double cream in it comes on top" in said


def test_whole_leaves_say_what_they_weigh(run: Run, steps: Path, tmp_path: Path) -> None:
    run("batch", "shin-sauce", "--times", "1.1", *DAY, "-o", "sauce.pdf")
    assert "weighing 10 g; 4.4 leaves, 11 g, would be right" in words(tmp_path / "sauce.pdf")


def test_a_cure_no_scale_reads_stops_the_batch_and_the_binder(run: Run, steps: Path) -> None:
    change(steps / "house.yaml", "  - {scale: fine scale, up_to: 500 g, reads: 0.1 g}\n", "")
    change(steps / "components" / "braised-shin.md", "amount: 1 %, of: beef-shin", "amount: 0.07 %, of: beef-shin")
    for asked in (("batch", "braised-shin", "--times", "1", *DAY), ("bind", "--line", "stove", *DAY)):
        made = run(*asked)
        assert made.exit_code == 1, made.output
        assert "LB328" in made.output
        assert "specs/components/braised-shin.md" in made.output
        assert "cannot be weighed exactly" in made.output
        assert not list(Path().glob("output/*.pdf"))


@pytest.mark.parametrize(
    ("units", "shin", "butter", "heat"),
    [
        ("as-written", "10 kg", "150 g", "90 °C"),
        ("metric", "10 kg", "150 g", "90 °C"),
        ("us", "22 lb", "5¼ oz", "194 °F"),
        ("BOTH", "10 kg", "150 g (5¼ oz)", "90 °C (194 °F)"),
    ],
)
def test_units(run: Run, steps: Path, tmp_path: Path, units: str, shin: str, butter: str, heat: str) -> None:
    made = run("batch", "braised-shin", "--times", "1", "--units", units, *DAY, "-o", "shin.pdf")
    assert f"{shin}  beef shin" in made.output
    assert ("= 22 lb" in words(tmp_path / "shin.pdf")) is (units == "BOTH")
    assert "100 g" in made.output  # exactly, or as written
    run("batch", "celeriac-puree", "--times", "1", "--units", units, *DAY, "-o", "puree.pdf")
    said = words(tmp_path / "puree.pdf")
    assert f"{butter} butter" in said
    assert f"until {heat}" in said


def test_units_stand_in_the_house_too_and_only_the_known_ones(run: Run, steps: Path) -> None:
    change(steps / "house.yaml", "currency: £\n", "currency: £\nunits: us\n")
    assert "22 lb  beef shin" in run("batch", "braised-shin", "--times", "1", *DAY).output
    refused = run("batch", "braised-shin", "--times", "1", "--units", "imperial", *DAY)
    assert refused.exit_code == 2
    assert "as-written, metric, us, both" in refused.output
