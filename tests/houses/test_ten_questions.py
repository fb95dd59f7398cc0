"""Ten questions a guest may put to a server on the first evening, answered from the demo's printed matrix alone.

Each answer is worked out from the specs by hand; what is read is what the paper shows: marks, their cut corners, and
the words under the table.
"""

from __future__ import annotations

import shutil
from collections.abc import Callable

import pytest
from house_prints import HOUSES, Prints, plain, print_house, tables

from linebook.markup.blocks import Facts, Paragraph


@pytest.fixture(scope="module")
def matrix(tmp_path_factory: pytest.TempPathFactory) -> Prints:
    folder = tmp_path_factory.mktemp("ten")
    shutil.copytree(HOUSES.parents[1] / "specs", folder / "demo")
    return print_house("demo", folder, "matrix", "--date", "2027-03-06")


@pytest.fixture(scope="module")
def note(matrix: Prints) -> Callable[[str], str]:
    """Return what stands beside a dish under the table, as printed."""
    rows = next(table for table in tables(matrix.matrix().blocks) if table.role == "list").rows
    words = {row.key: plain(row.cells[1].content) for row in rows}
    return lambda dish: words[f"note.{dish}"]


def dishes_with(matrix: Prints, column: str, *marks: str) -> set[str]:
    table = next(table for table in tables(matrix.matrix().blocks) if table.role == "matrix")
    dishes = [row.key.removeprefix("dish.") for row in table.rows if row.key.startswith("dish.")]
    return {dish for dish in dishes if matrix.marks(dish)[column] in marks}


def paragraph(matrix: Prints, key: str) -> str:
    blocks = matrix.matrix().blocks
    return next(plain(block.content) for block in blocks if isinstance(block, Paragraph) and block.key == key)


def test_1_what_can_i_eat_with_a_nut_allergy(matrix: Prints) -> None:
    """Almond is the sauce of the leeks; the short rib's walnut is in the crumb and the discs, both of which can go."""
    assert dishes_with(matrix, "nuts", "contains", "may", "undeclared") == {"leeks-almond"}
    assert dishes_with(matrix, "nuts", "contains-leave", "may-leave") == {"short-rib-celeriac"}
    assert len(dishes_with(matrix, "nuts", "free")) == 8


def test_2_what_goes_off_the_short_rib_then(note: Callable[[str], str]) -> None:
    assert "Without Walnut crumb and Pickled walnut discs: nuts can be left out, ask the pass." in note(
        "short-rib-celeriac"
    )
    assert "With Seed crumb and Pickled cucumber instead of Walnut crumb and Pickled walnut discs: nuts" in note(
        "short-rib-celeriac"
    )


def test_3_and_if_i_cannot_have_sesame_either(matrix: Prints, note: Callable[[str], str]) -> None:
    """The seed crumb helps with nuts and may have sesame in it: the paper says both, and who puts them together."""
    assert "Seed crumb itself: contains cereals containing gluten (rye); may contain" in note("short-rib-celeriac")
    assert "sesame seeds" in note("short-rib-celeriac").partition("Seed crumb itself")[2]
    assert paragraph(matrix, "drinks").startswith("A guest who avoids several things needs a guest sheet")


def test_4_which_nut_is_in_the_leeks(note: Callable[[str], str]) -> None:
    assert "nuts (almond)" in note("leeks-almond")
    assert "nuts (hazelnut, walnut)" in note("leeks-almond").partition("May contain")[2]


def test_5_why_would_there_be_fish_with_leeks(matrix: Prints, note: Callable[[str], str]) -> None:
    """Salt cod fritters went through the fryer on the menu before, and the oil was kept."""
    assert matrix.marks("leeks-almond")["fish"] == "may-leave"
    assert "From the shared fryer it may contain eggs (hen's egg), fish (cod)" in note("leeks-almond")
    assert paragraph(matrix, "oil") == (
        "Not changed since the menu before (late winter): what was on it may still be in the shared fryer."
    )
    assert "Without Leek top crisp:" in note("leeks-almond")


def test_6_is_there_honey_in_anything_else_than_the_cake(matrix: Prints) -> None:
    assert dishes_with(matrix, "honey (house)", "contains") == {"honey-cake"}
    assert len(dishes_with(matrix, "honey (house)", "free")) == 9


def test_7_i_have_coeliac_disease_what_is_left(matrix: Prints) -> None:
    column = "cereals containing gluten"
    assert dishes_with(matrix, column, "free") == {"oyster-cucumber-ice", "hake-mussels"}
    assert dishes_with(matrix, column, "contains") == {"house-bread", "potato-dumplings", "honey-cake"}


def test_8_does_no_mean_that_it_is_safe(matrix: Prints) -> None:
    legend = next(block for block in matrix.matrix().blocks if isinstance(block, Facts) and block.role == "legend")
    words = [plain(fact.value) for fact in legend.facts]
    assert "means not in it, no known contact" in words
    assert paragraph(matrix, "caution").startswith(
        "This kitchen handles everything on this sheet. Ask before you promise."
    )


def test_9_and_the_wine(matrix: Prints) -> None:
    assert paragraph(matrix, "drinks").endswith("Drinks are not on this sheet.")


def test_10_who_says_so_and_how_old_is_that(matrix: Prints) -> None:
    assert "United Kingdom list" in plain(matrix.matrix().aside)
    assert paragraph(matrix, "oldest").startswith("The oldest declaration is that of ")


def test_all_of_it_is_on_the_printed_pages(matrix: Prints, note: Callable[[str], str]) -> None:
    printed = matrix.pages("allergen-matrix.pdf")
    for dish in ("short-rib-celeriac", "leeks-almond", "honey-cake"):
        cut = [sentence for sentence in note(dish).split(". ") if sentence not in printed]
        assert len(cut) <= 1, "the end of a page may stand in one of them"
    for key in ("drinks", "media", "oil", "oldest", "caution"):
        assert paragraph(matrix, key).replace("\u00a0", " ") in printed
