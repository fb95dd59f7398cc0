"""``linebook note`` and ``linebook notes``: a tasting note in a spec, on the chef's copy, and beside what changed."""

from __future__ import annotations

import re
from pathlib import Path

import pypdfium2
import pytest
from running import Run
from swap_house import LATER, SPRING, edit, swap_house


@pytest.fixture
def house(tmp_path: Path) -> Path:
    return swap_house(tmp_path / "specs")


def text_of(path: Path) -> str:
    document = pypdfium2.PdfDocument(path)
    pages = [document[at].get_textpage().get_text_range() for at in range(len(document))]
    return re.sub(r"\s+", " ", " ".join(pages))


def test_a_note_is_one_line_more_and_nothing_else(run: Run, house: Path) -> None:
    path = house / "components/celeriac-puree.md"
    before = path.read_bytes().replace(b"keeps: 3 d\n", b"keeps: 3 d  # a day less in June\n").replace(b"\n", b"\r\n")
    path.write_bytes(b"\xef\xbb\xbf" + before)
    path.chmod(0o640)
    done = run("note", "celeriac-puree", "flat, more  acid", "--changed", "lemon in", "--by", "MH", "--date", SPRING)
    assert (done.exit_code, done.stdout) == (
        0,
        f"components/celeriac-puree.md: {SPRING} flat, more acid - lemon in (MH)\n",
    )
    added = f'tastings:\r\n  - {{date: {SPRING}, tasted: "flat, more acid", changed: lemon in, by: MH}}\r\n'
    tested = b"tested: 2027-01-20\r\n"
    assert path.read_bytes() == b"\xef\xbb\xbf" + before.replace(tested, tested + added.encode())
    assert path.stat().st_mode & 0o777 == 0o640
    assert run("check", "specs").exit_code == 0


def test_a_link_stays_a_link(run: Run, house: Path) -> None:
    target = house / "shin-itself.txt"
    link = house / "dishes/shin.md"
    link.rename(target)
    link.symlink_to("../shin-itself.txt")
    assert run("note", "shin", "good", "--date", SPRING).exit_code == 0
    assert link.is_symlink()
    assert f"- {{date: {SPRING}, tasted: good}}" in target.read_text(encoding="utf-8")


@pytest.mark.parametrize(
    ("asked", "said"),
    [
        (("shinn", "dull"), "There is no dish or component `shinn` in this house. Did you mean `shin`?"),
        (("components/shin", "dull"), "There is no dish or component `components/shin` in this house."),
        (("shin", "  "), "there are no words"),
        (("shin", "du\x07ll"), "cannot be printed"),
        (("shin", "dull", "--date", "12 March"), "`12 March` is not a date"),
    ],
    ids=["a slip", "another folder", "no words", "a bell", "no date"],
)
def test_a_wrong_word_leaves_with_2_and_every_file_alone(
    run: Run, house: Path, asked: tuple[str, ...], said: str
) -> None:
    before = {path: path.read_bytes() for path in house.rglob("*.md")}
    done = run("note", *asked)
    assert (done.exit_code, said in done.output) == (2, True), done.output
    assert {path: path.read_bytes() for path in house.rglob("*.md")} == before


def test_a_name_of_a_dish_and_a_component_is_asked_for(run: Run, house: Path) -> None:
    (house / "components/shin.md").write_bytes((house / "components/brine.md").read_bytes())
    done = run("note", "shin", "dull")
    assert (done.exit_code, "say which, `dishes/shin` or `components/shin`" in done.output) == (2, True)
    assert run("note", "components/shin", "dull").exit_code == 0
    assert "tastings" not in (house / "dishes/shin.md").read_text(encoding="utf-8")


def test_a_file_that_is_not_sound_is_told_and_left_alone(run: Run, house: Path) -> None:
    path = house / "dishes/shin.md"
    edit(path, ("course: mains", "course: mains\ntastings: ~"))
    before = path.read_bytes()
    done = run("note", "shin", "dull")
    assert (done.exit_code, done.stderr.startswith("error LB908 ")) == (1, True), done.output
    assert path.read_bytes() == before


def test_letters_that_the_font_lacks_are_told_at_once_and_not_on_the_day_of_the_swap(run: Run, house: Path) -> None:
    path = house / "dishes/shin.md"
    before = path.read_bytes()
    done = run("note", "shin", "sour: \u9178")
    assert (done.exit_code, done.stderr.startswith("error LB801 the font has no `\u9178`")) == (1, True), done.output
    assert path.read_bytes() == before
    assert run("note", "shin", "кисло, ≥ 3 °C", "--by", "Ñ").exit_code == 0
    house.joinpath("house.yaml").write_text("name: [\n", encoding="utf-8")
    assert run("note", "shin", "\u9178").exit_code == 0, "in a house that cannot be read nobody knows its font"


def test_a_day_to_come_is_put_in_and_said(run: Run, house: Path) -> None:
    done = run("note", "shin", "dull", "--date", "2072-01-01")
    assert (done.exit_code, done.stderr) == (0, "note: 2072-01-01 is still to come.\n")
    never = run("note", "shin", "dull", "--date", "2999-01-01")
    assert (never.exit_code, never.stderr.startswith("error LB316 ")) == (1, True), never.output


def test_the_chefs_copy_has_the_newest_first(run: Run, house: Path, tmp_path: Path) -> None:
    for day, words in (("2027-02-01", "dull"), ("2027-02-20", "better"), ("2027-02-10", "more acid")):
        assert run("note", "shin", words, "--changed", f"after {words}", "--date", day).exit_code == 0
    assert run("note", "celeriac-puree", "grainy", "--by", "MH", "--date", "2027-02-02").exit_code == 0
    done = run("notes", "specs", "--menu", "late-winter", "--date", SPRING)
    assert (done.exit_code, done.stderr) == (0, ""), done.output
    text = text_of(tmp_path / "output/tasting-notes.pdf")
    assert "chef's copy, in no binder" in text
    order = [
        "20 February 2027 better after better",
        "10 February 2027 more acid after more acid",
        "1 February 2027 dull after dull",
        "Celeriac puree",
        "2 February 2027 grainy MH",
        "Walnut fritters",
        "Lemon pot, walnut draft, never tested",
    ]
    assert sorted(order, key=text.index) == order
    since = run("notes", "specs", "--line", "stove", "--since", "2027-02-15", "--date", SPRING, "-o", "since.pdf")
    assert since.exit_code == 0
    text = text_of(tmp_path / "since.pdf")
    assert "better" in text
    assert "dull" not in text
    assert "Walnut fritters" not in text
    assert run("notes", "specs", "--line", "stov").exit_code == 2


def test_a_note_of_a_day_to_come_is_warned_of(run: Run, house: Path) -> None:
    run("note", "shin", "dull", "--date", "2072-02-20")
    done = run("notes", "specs", "--menu", "late-winter", "--date", SPRING)
    assert (done.exit_code, done.stderr.startswith("warning LB531 ")) == (0, True)


def test_a_note_alone_prints_nothing_anew_and_is_told_with_its_change(run: Run, house: Path, tmp_path: Path) -> None:
    def issue(day: str) -> str:
        done = run("bind", "specs", "--menu", "late-winter", "--date", day, "--issue")
        assert done.exit_code == 0, done.output
        return done.output

    issue(SPRING)
    run("note", "celeriac-puree", "older", "--date", "2027-03-01")
    run("note", "celeriac-puree", "too rich", "--changed", "butter 300 g to 280 g", "--by", "MH", "--date", SPRING)
    run("note", "shin", "good as it is", "--date", LATER)
    assert "nothing new is on record" in issue(LATER)
    edit(house / "components/celeriac-puree.md", ("amount: 300 g", "amount: 280 g"))
    issue(LATER)
    text = text_of(tmp_path / "output/swap-sheet.pdf").replace("\xa0", " ")
    change = "butter 300 g → 280 g"
    note = "tasted 2 March 2027 by MH: too rich – changed: butter 300 g to 280 g"
    assert text.index(change) < text.index(note)
    assert "older" not in text, "the note is of before what it is compared with"
    assert "good as it is" not in text, "its sheets stay in the binder"
