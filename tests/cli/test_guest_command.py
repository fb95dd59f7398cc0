"""``linebook guest``: answers in the terminal, the sheet it prints, and what it refuses."""

from __future__ import annotations

import io
from pathlib import Path

import pytest
from guest_questions import questions
from pypdf import PdfReader
from running import Run

from linebook.model.house import House
from linebook.pipeline import load_house

DAY = ("--date", "2027-03-06")
DAYS = {"early-spring": "2027-03-06", "late-winter": "2027-02-06"}
DEMO = Path(__file__).parents[2] / "specs"


@pytest.fixture(scope="module")
def house() -> House:
    loaded = load_house(DEMO, "specs").value
    assert loaded is not None
    return loaded


def flat(text: str) -> str:
    return " ".join(text.split())


def pdf_text(path: Path) -> str:
    return flat(" ".join(page.extract_text() for page in PdfReader(io.BytesIO(path.read_bytes())).pages))


def names(house: House, listed: str) -> str:
    """Return ids with commas as names in a row: *Walnut crumb and Celeriac crisp*."""
    *before, last = [house.name_of(one.strip()) for one in listed.split(",")]
    return f"{', '.join(before)} and {last}" if before else last


def in_words(house: House, answer: str) -> list[str]:
    """Return the words that an answer of the table must be told in, in this order."""
    if answer == "S":
        return ["Serve"]
    if answer == "-":
        return ["Do not serve"]
    changed, _, left = answer.partition("no ")
    pairs = [part.split(" for ") for part in changed.rstrip(", ").split(", ") if part]
    told = [f"instead of {house.name_of(item)}" for _, item in pairs]
    told[:0] = [f"Serve with {house.name_of(pairs[0][0])}"] if pairs else []
    if left:
        told.append(f"{'and without' if pairs else 'Serve without'} {names(house, left)}")
    return told


@pytest.mark.parametrize(("menu", "word", "answers"), questions(), ids=[f"{m}-{w}" for m, w, _ in questions()])
def test_a_question_is_answered_as_by_hand(
    run: Run, demo: Path, house: House, menu: str, word: str, answers: dict[str, str]
) -> None:
    assert set(answers) == {entry.dish for entry in house.menus[menu].dishes}
    result = run("guest", word, "--date", DAYS[menu], "-o", "sheet.pdf")
    assert result.exit_code == 0, result.stderr
    told = flat(result.stdout)
    starts = {
        dish: told.index(f" {house.dishes[dish].name}{' - ' if a != 'S' else ' '}") for dish, a in answers.items()
    }
    for dish, answer in answers.items():
        expected = in_words(house, answer)
        before = told[: starts[dish]]
        assert before.endswith(expected[-1]), (dish, before[-120:])
        at = len(before)
        for part in reversed(expected):
            at = before.rindex(part, 0, at)
        assert "instead of" in before[at:] or " for " not in answer, dish
        assert before[at:].startswith(expected[0])


def test_an_answer_is_short_and_says_its_reasons(run: Run, demo: Path) -> None:
    result = run("guest", "egg", "--table", "14", "--seat", "3", "--as", "allergy", *DAY)
    assert result.exit_code == 0, result.stderr
    assert result.stdout == (
        "Table 14, seat 3. Allergy: egg\n"
        "  egg: taken as eggs\n"
        "Bread\n"
        "  Serve                         House loaf, cultured butter\n"
        "Snacks\n"
        "  Serve                         Oysters, cucumber ice\n"
        "Cold\n"
        "  Serve                         Cured trout, rye, horseradish\n"
        "  Serve                         Peas, fresh cheese, mint\n"
        "From the fire\n"
        "  Serve without Leek top crisp  Leeks in ash, almond - Leek top crisp: may\n"
        "                                contain eggs from the shared fryer\n"
        "  Serve without Celeriac crisp  Short rib, celeriac, pickled walnut - Celeriac\n"
        "                                crisp: may contain eggs from the shared fryer\n"
        "Pots\n"
        "  Do not serve                  Potato dumplings, brown butter - Potato\n"
        "                                dumpling: contains eggs\n"
        "  Serve                         Hake, mussels, cider\n"
        "Sweet\n"
        "  Do not serve                  Rhubarb, buttermilk custard - Buttermilk\n"
        "                                custard: contains eggs\n"
        "  Do not serve                  Honey cake - Honey cake, built: contains eggs\n"
        "10 dishes: 5 to serve, 2 changed, 3 not to be served. Drinks are not covered.\n"
        "\n"
        "output/guest-table-14-seat-3.pdf  1 sheet, 1 page, A4\n"
        "Print on A4, one side, at 100 %; do not fit to page.\n"
    )
    assert max(map(len, result.stdout.splitlines())) <= 80


@pytest.mark.parametrize("words", [("vegan", "allium"), ("raw", "pork"), ("nuts", "gluten", "milk")])
def test_no_line_is_wider_than_a_terminal(run: Run, demo: Path, words: tuple[str, ...]) -> None:
    result = run("guest", *words, "--table", "14", *DAY)
    assert result.exit_code == 0
    assert max(map(len, result.stdout.splitlines())) <= 80


def test_a_word_that_is_several_things_says_so(run: Run, demo: Path) -> None:
    result = run("guest", "nuts", "shellfish", *DAY)
    assert "  nuts: taken as nuts and peanuts\n" in result.stdout
    assert "  shellfish: taken as crustaceans and molluscs\n" in result.stdout


def test_the_sheet_says_all_that_the_terminal_says(run: Run, demo: Path, house: House) -> None:
    result = run("guest", "milk", "celery", "--table", "14", "--seat", "3", *DAY)
    printed = pdf_text(Path("output/guest-table-14-seat-3.pdf"))
    for part in (
        "Table 14, seat 3",
        "Avoids: milk, celery",
        "for Sat 6 March only, bin after service",
        "not said: treat it as an allergy",
        "“celery” is celery",
        "Taken by",
        "Read back aloud first: Table 14, seat 3. Avoids: milk, celery",
        "All 10 dishes of the menu are on this sheet. What is not on it must not be served. Drinks are not covered.",
        "For this table, this menu and this service only.",
        "Local law comes first, and whether to eat is the guest's own judgement.",
        "hands washed, fresh gloves",
        "fresh container, fresh oil",
    ):
        assert part in printed, part
    for entry in house.menus["early-spring"].dishes:
        assert house.dishes[entry.dish].name in printed
    reasons = [line.partition(" - ")[2] for line in result.stdout.splitlines() if " - " in line]
    assert len(reasons) >= 6
    for reason in reasons:
        assert flat(reason) in printed


def test_several_seats_have_their_own_answers_and_one_summary(run: Run, demo: Path) -> None:
    result = run(
        "guest", "--table", "14", "--seat", "3: egg", "--seat", "5 preference: sesame", "--seat", "6: egg", *DAY
    )
    assert result.exit_code == 0, result.stderr
    lines = result.stdout.splitlines()
    assert lines[0] == "Table 14, seats 3 and 6. Avoids: egg"
    assert "Table 14, seat 5. Preference: sesame" in lines
    summary = lines[lines.index("The pass changes") :]
    assert summary[:9] == [
        "The pass changes",
        "  Cured trout, rye, horseradish: Seat 5 without Rye crisps (2 pieces (a taste),",
        "    3 pieces (full))",
        "  Peas, fresh cheese, mint: Seat 5 without Rye crumb (8 g)",
        "  Leeks in ash, almond: Seats 3 and 6 without Leek top crisp (4 g)",
        "  Short rib, celeriac, pickled walnut: Seats 3 and 6 without Celeriac crisp (3",
        "    pieces (full), 6 pieces (to share))",
        "",
        "output/guest-table-14-seat-3-6-5.pdf  1 sheet, 2 pages, A4",
    ]
    printed = pdf_text(Path("output/guest-table-14-seat-3-6-5.pdf"))
    assert "Dish Seats 3 and 6 Seat 5" in printed
    assert "no answer is weaker because it is a preference" in printed
    assert "Peas, fresh cheese, mint Serve Serve without Rye crumb" in printed
    assert "Read back aloud first: Table 14. Seats 3 and 6, avoids egg; Seat 5, preference: sesame" in printed


def test_plain_words_go_to_the_seats_that_have_none(run: Run, demo: Path) -> None:
    result = run("guest", "egg", "--seat", "A", "--seat", "B: milk", *DAY)
    assert "Seat A. Avoids: egg\n" in result.stdout
    assert "Seat B. Avoids: milk\n" in result.stdout


def test_no_answer_depends_on_how_strongly_it_is_avoided(run: Run, demo: Path) -> None:
    told = [run("guest", "celery", "--as", degree, *DAY).stdout for degree in ("allergy", "intolerance", "preference")]
    assert len({answer.partition("\n")[2] for answer in told}) == 1
    assert told[2].startswith("Preference: celery\n")
    assert "celery" in told[2]
    assert flat(told[2]).count("may contain celery") == 3


def test_nothing_that_can_be_served_is_said_first(run: Run, demo: Path) -> None:
    run("guest", "vegan", "allium", *DAY)
    assert "No dish on this menu can be served to this guest." in pdf_text(Path("output/guest-sheet.pdf"))


def test_the_same_question_prints_the_same_bytes(run: Run, demo: Path) -> None:
    for name in ("one.pdf", "other.pdf"):
        assert run("guest", "egg", "--seat", "3", "-o", name, *DAY).exit_code == 0
    assert Path("one.pdf").read_bytes() == Path("other.pdf").read_bytes()


def test_a_sheet_in_two_languages_has_both(run: Run, demo: Path) -> None:
    run("guest", "egg", "--languages", "en,es", "--paper", "letter", "-o", "sheet.pdf", *DAY)
    printed = pdf_text(Path("sheet.pdf"))
    assert "Do not serve" in printed
    assert "No servir" in printed
    assert "Evita: huevos" in printed
    assert "puede contener huevos" in printed


def test_it_is_printed_large_for_the_wall(run: Run, demo: Path) -> None:
    assert run("guest", "egg", "--large", *DAY).exit_code == 0
    assert Path("output/guest-sheet-large.pdf").is_file()


# -- what it refuses


@pytest.mark.parametrize(
    ("arguments", "said"),
    [
        ((), 'Say what the guest avoids: linebook guest egg "tree nuts", or --seat "3: egg, milk".'),
        (("--seat", "3"), 'Say what the guest avoids: linebook guest egg "tree nuts", or --seat "3: egg, milk".'),
        (("--seat", "3:"), 'Say what seat 3 avoids: --seat "3: egg, milk".'),
        (("--seat", "3", "--seat", "4: egg"), 'Say what seat 3 avoids: --seat "3: egg, milk".'),
        (
            ("egg", "--seat", "3: milk"),
            'Say whose `egg` is: give its seat with --seat "3: …" or a --seat alone.',
        ),
        (
            ("--seat", "3: egg", "--seat", "3: milk"),
            'Seat 3 is there twice: write all it avoids in one --seat "3: …".',
        ),
        (("egg", "--table", "<b>"), "`<b>` is not a table: write letters and numbers, 12 at most, like 14 or 3B."),
        (
            ("egg", "--table", " "),
            "There is no name of the table: write letters and numbers, 12 at most, like 14 or 3B.",
        ),
        (
            ("egg", "--seat", "\u202e3"),
            "`?3` is not a seat: write letters and numbers, 12 at most, like 14 or 3B.",
        ),
        (
            ("walnutt",),
            "`walnutt` is not a word this house knows, so nothing can be promised. Nearest: walnut, walnuts",
        ),
        (("卵",), "`卵` is not a word this house knows, so nothing can be promised. Ask for a food, an allergen"),
        (("<b>egg</b>",), "`<b>egg</b>` is not what a guest avoids: write a word or a few, 40 letters at most."),
        (("egg\x1b[31m",), "`egg?[31m` is not what a guest avoids: write a word or a few, 40 letters at most."),
        (("{{egg}}",), "`{{egg}}` is not what a guest avoids"),
        (("e" * 5000,), f"`{'e' * 40}…` is not what a guest avoids"),
        (
            ("egg", "--menu", "early-sping"),
            "There is no menu `early-sping` in this house. Did you mean `early-spring`?",
        ),
        (("egg", "--as", "whim"), "'whim' is not one of 'allergy', 'intolerance', 'preference'"),
        (tuple(f"--seat={seat}: egg{' milk' * 0}" for seat in range(13)), "13 seats are more than one sheet holds"),
    ],
    ids=str,
)
def test_what_cannot_be_answered_is_refused(run: Run, demo: Path, arguments: tuple[str, ...], said: str) -> None:
    result = run("guest", *arguments, *DAY)
    assert result.exit_code == 2
    assert said in result.stderr
    assert result.stdout == ""
    assert not Path("output").exists()


def test_every_unknown_word_is_told(run: Run, demo: Path) -> None:
    result = run("guest", "eggg", "egg", "zzzz", *DAY)
    assert result.exit_code == 2
    assert "`eggg` is not a word" in result.stderr
    assert "`zzzz` is not a word" in result.stderr
    assert "`egg` is not" not in result.stderr


def test_a_day_without_a_menu_is_told(run: Run, demo: Path) -> None:
    result = run("guest", "egg", "--date", "2026-01-01")
    assert result.exit_code == 1
    assert "no menu is in force on 2026-01-01" in result.stderr
