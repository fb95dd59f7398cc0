"""What a law exempts is stated and counts as may contain: it is never left out, and never assumed."""

import shutil
from datetime import date
from pathlib import Path

import pytest

from linebook.compute.allergens import compute_allergens
from linebook.compute.results import Answer
from linebook.documents.allergen_matrix import allergen_matrix
from linebook.documents.wording import wording_in
from linebook.model.taxonomy import EXEMPTIONS, SUBSTANCES
from linebook.pipeline import load_house
from linebook.read.pantry_fields import _EXEMPT

SPECS = Path(__file__).resolve().parents[3] / "specs"
OIL = "frying-oil"


@pytest.fixture(scope="module")
def house(tmp_path_factory):
    folder = shutil.copytree(SPECS, tmp_path_factory.mktemp("exempt") / "specs")
    for path in (folder / "pantry").glob("*.yaml"):
        text = path.read_text(encoding="utf-8")
        head, found, rest = text.partition(f"\n{OIL}:\n")
        if found:
            body = rest.replace("contains: none", "contains: none, exempt: {soy: fully refined oil}", 1)
            path.write_text(head + found + body, encoding="utf-8")
    loaded = load_house(folder, "specs")
    assert loaded.value is not None, loaded.faults
    return loaded.value


def test_it_may_be_in_every_dish_that_carries_the_oil(house):
    table = compute_allergens(house, "early-spring")
    assert house.pantry[OIL].allergens.contains == ()
    assert table.dishes["leeks-almond"]["soy"].answer is Answer.MAY
    plain = load_house(SPECS, "specs").value
    assert compute_allergens(plain, "early-spring").dishes["leeks-almond"]["soy"].answer is Answer.FREE


@pytest.mark.parametrize(
    ("languages", "words"), [(("en",), "fully refined oil"), (("es",), "aceite totalmente refinado")]
)
def test_the_matrix_says_what_is_exempt_and_how(house, languages, words):
    table = compute_allergens(house, "early-spring")
    sheet = allergen_matrix(house, table, wording_in(languages), None, date(2027, 3, 2))
    said = [member.text.plain for member in sheet.about if member.key == "exempt"]
    assert len(said) == 1
    assert words in said[0]


def test_the_processes_that_can_be_typed_are_those_of_the_laws():
    assert set(_EXEMPT) == set(EXEMPTIONS)
    for one in EXEMPTIONS.values():
        assert all(set(substances) <= set(SUBSTANCES) and source for substances, source in one.laws.values())


def test_lists_differ():
    """Regulation (EU) No 1169/2011 Annex II exempts refined soybean oil, no peanut oil; US law both (from memory)."""
    oil = EXEMPTIONS["fully refined oil"]
    assert oil.covers("soy", ("eu",))
    assert not oil.covers("peanut", ("eu", "uk"))
    assert oil.covers("peanut", ("us",))
    assert not oil.covers("soy", ("ca", "anz", "codex"))


def test_sulphites_at_the_limit_may_be_in_it_where_the_law_asks_only_above(tmp_path):
    """The United Kingdom asks above 10 mg/kg, the United States from 10 mg/kg on."""
    folder = shutil.copytree(SPECS, tmp_path / "specs")
    for path in (folder / "pantry").glob("*.yaml"):
        head, found, rest = path.read_text(encoding="utf-8").partition(f"\n{OIL}:\n")
        if found:
            rest = rest.replace("contains: none", "contains: [sulphites-at-10]", 1)
            path.write_text(head + found + rest, encoding="utf-8")
    file = folder / "house.yaml"
    file.write_text(file.read_text(encoding="utf-8").replace("lists: [uk]", "lists: [uk, us]"), encoding="utf-8")
    loaded = load_house(folder, "specs")
    assert loaded.value is not None, loaded.faults
    crisp = compute_allergens(loaded.value, "early-spring").components["leek-crisp"]
    assert {column: crisp[column].answer for column in ("sulphites-uk", "sulphites-us")} == {
        "sulphites-uk": Answer.MAY,
        "sulphites-us": Answer.CONTAINS,
    }
