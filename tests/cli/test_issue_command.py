"""``bind --issue``, ``swap`` and ``current``: what is recorded, what the swap sheet leads to, what is still in force."""

from __future__ import annotations

import re
import shutil
from pathlib import Path

import pytest
from running import Run
from swap_house import edit, swap_house
from swapped_binders import follow, printed_sheets, swap_rows

DEMO_LINES = {"larder": "Larder", "hearth": "Hearth", "stove": "Stove", "pastry": "Pastry"}
LINES = {"stove": "Stove", "cold": "Cold"}
WINTER, SPRING = "2027-01-12", "2027-03-02"
GLAZE = ("Glaze the shin", "Brush the shin")
DRAIN = ("Fry, drain", "Fry well, drain")


@pytest.fixture
def house(tmp_path: Path) -> Path:
    return swap_house(tmp_path / "specs")


def issue(run: Run, menu: str, day: str, folder: str, *more: str) -> str:
    done = run("bind", "specs", "--menu", menu, "--date", day, "--issue", "-o", folder, *more)
    assert done.exit_code == 0, done.output
    return done.output


def text_of(path: Path) -> str:
    import pypdfium2

    document = pypdfium2.PdfDocument(path)
    pages = [document[at].get_textpage().get_text_range() for at in range(len(document))]
    return re.sub(r"\s+", " ", " ".join(pages))


def is_turned(run: Run, tmp_path: Path, lines: dict[str, str], *sides: str) -> None:
    """Issue a menu and then the next, follow the swap sheet, and compare with binders printed from nothing."""
    issue(run, "late-winter", WINTER, "old", *sides)
    issue(run, "early-spring", SPRING, "new", "--only-changed", *sides)
    fresh = run("bind", "specs", "--menu", "early-spring", "--date", "2027-03-09", "-o", "fresh", *sides)
    assert fresh.exit_code == 0, fresh.output
    rows = swap_rows(tmp_path / "new/swap-sheet.pdf")
    for line, name in lines.items():
        stem = f"{line}-binder"
        made = follow(
            rows[f"{name}: swap"],
            printed_sheets(tmp_path / f"old/{stem}.pdf"),
            printed_sheets(tmp_path / f"new/{stem}-changed.pdf"),
        )
        assert made == printed_sheets(tmp_path / f"fresh/{stem}.pdf"), line
    matrix = [
        printed_sheets(tmp_path / f"{folder}/allergen-matrix{end}.pdf")
        for folder, end in (("old", ""), ("new", "-changed"))
    ]
    assert follow(rows["Swap sheet"], *matrix) == printed_sheets(tmp_path / "fresh/allergen-matrix.pdf")


def test_the_swap_sheet_alone_turns_the_old_binders_into_the_new_ones(run: Run, demo: Path, tmp_path: Path) -> None:
    is_turned(run, tmp_path, DEMO_LINES)


def test_so_it_does_where_both_sides_are_printed(run: Run, house: Path, tmp_path: Path) -> None:
    is_turned(run, tmp_path, LINES, "--duplex")


def lines_of(path: Path) -> list[str]:
    return path.read_text(encoding="utf-8").splitlines()


def the_issue(house: Path, day: str) -> Path:
    (found,) = (house / "issued").glob(f"{day}-*.txt")
    return found


@pytest.fixture
def issued(run: Run, house: Path) -> Path:
    """The house after the issue of its second menu."""
    issue(run, "early-spring", SPRING, "output")
    return house


def fingerprint_of(house: Path, day: str, sheet: str) -> str:
    (line,) = (one for one in lines_of(the_issue(house, day)) if f" {sheet} " in one)
    return line[:8]


def test_an_issue_is_a_line_a_sheet_and_keeps_each_text_once(run: Run, issued: Path) -> None:
    first = lines_of(the_issue(issued, SPRING))
    assert first[1:4] == ["menu early-spring", "name early spring", f"date {SPRING}"]
    sheets = [one.split()[0] for one in first if re.match(r"[0-9A-HJKMNP-TV-Z]{8} ", one)]
    assert len(sheets) == len(set(sheets)) == 16
    kept = {path.stem for path in (issued / "issued/texts").rglob("*.jsonl")}
    assert kept == set(sheets)
    again = run("bind", "specs", "--date", "2027-03-20", "--issue")
    assert again.exit_code == 0
    assert "nothing new is on record" in again.output
    assert lines_of(the_issue(issued, SPRING)) == first
    assert len(list((issued / "issued").glob("*.txt"))) == 1


def test_a_sheet_bears_the_day_it_was_first_issued(run: Run, issued: Path, tmp_path: Path) -> None:
    edit(issued / "dishes/shin.md", GLAZE)
    issue(run, "early-spring", "2027-03-09", "output")
    assert run("bind", "specs", "--date", "2027-03-23").exit_code == 0
    days = re.findall(r"issued (\d+).March.2027", text_of(tmp_path / "output/stove-binder.pdf"))
    assert {"2", "9"} == set(days), (
        "the changed sheets the second day, the others the first, and none the day of printing"
    )
    assert set(re.findall(r"issued (\d+).March", text_of(tmp_path / "output/cold-binder.pdf"))) == {"2"}


def test_what_changed_is_said_as_a_chef_would_and_allergens_come_first(run: Run, issued: Path, tmp_path: Path) -> None:
    edit(issued / "components/celeriac-puree.md", ("amount: 300 g", "amount: 280 g"))
    edit(issued / "dishes/shin.md", GLAZE, ("amount: 70 g", "amount: 65 g"))
    mustard = "name: cider vinegar\n  allergens: {contains: "
    edit(issued / "pantry/dry.yaml", (f"{mustard}none", f"{mustard}[mustard]"))
    out = issue(run, "early-spring", "2027-03-09", "output", "--only-changed")
    assert re.search(r"Stove +pull +\d+, put in +\d+, leave +[1-9]", out)
    text = text_of(tmp_path / "output/swap-sheet.pdf")
    box = text.index("Allergens that changed: tell everyone before service")
    assert box < text.index("Walnut fritters: now contains mustard") < text.index("Binder Pull Put in Leave")
    assert "Walnut fritters · mustard: not in it → contains" in text, "and so the matrix says"
    assert "butter 300 g → 280 g" in text
    assert "Pick-up step 2 reworded" in text
    assert "Celeriac puree 70 g → 65 g" in text
    stems = ("stove-binder", "cold-binder", "allergen-matrix")
    changed = {path.name for path in (tmp_path / "output").glob("*-changed.pdf")}
    assert changed == {f"{stem}-changed.pdf" for stem in stems}
    assert run("bind", "specs", "--date", "2027-03-16", "--issue").exit_code == 0
    assert len(list((tmp_path / "output").glob("*-changed.pdf"))) == 3, (
        "nothing new was issued: they are still to be put in"
    )
    edit(issued / "components/shin-sauce.md", ("1. Brown", "1. At once, brown"))
    issue(run, "early-spring", "2027-03-16", "output")
    assert not list((tmp_path / "output").glob("*-changed.pdf")), "what was to be put in last time is not lying about"


def test_a_swap_sheet_goes_against_any_earlier_issue_without_the_specs_of_that_day(
    run: Run, house: Path, tmp_path: Path
) -> None:
    issue(run, "late-winter", WINTER, "output")
    issue(run, "early-spring", SPRING, "output")
    for gone in ("menus/late-winter.yaml", "dishes/pot.md", "components/lemon-pot.md"):
        (house / gone).unlink()
    done = run("swap", "specs", "--since", "2027-02-01", "--date", SPRING, "-o", "since")
    assert done.exit_code == 0, done.output
    assert "late winter of 2027-01-12" in done.output
    text = text_of(tmp_path / "since/swap-sheet.pdf")
    assert "late winter → early spring" in text
    assert "Off Lemon pot, walnut" in text
    assert re.search(r"Lemon pot Sweet Keeps 4 d: day 1 is", text), (
        "no longer made, with how long its card said it keeps"
    )
    last = run("swap", "specs", "--date", SPRING, "-o", "last")
    assert last.exit_code == 0
    assert "Stove           nothing to do" in last.output


def test_a_line_without_a_dish_is_pulled_whole_and_its_binder_is_gone(run: Run, house: Path, tmp_path: Path) -> None:
    issue(run, "late-winter", WINTER, "output")
    assert (tmp_path / "output/sweet-binder.pdf").exists()
    out = issue(run, "early-spring", SPRING, "output")
    assert re.search(r"Sweet +pull the whole binder, 6 leaves", out)
    assert not (tmp_path / "output/sweet-binder.pdf").exists()
    text = text_of(tmp_path / "output/swap-sheet.pdf")
    assert "Sweet has nothing on this menu: pull the whole binder." in text
    assert "Pull the whole binder 6 sheets, 6 leaves" in text
    assert "Lemon pot Sweet keeps 4 d: finish by Thu 4 March or bin it" in text.replace("\xa0", " ")
    back = issue(run, "late-winter", "2027-03-09", "output")
    assert re.search(r"Sweet +pull +0, put in +6, leave +0", back)
    assert "Put in the whole binder 6 sheets, 6 leaves" in text_of(tmp_path / "output/swap-sheet.pdf")


def test_what_was_counted_is_told_by_its_own_days(run: Run, house: Path, tmp_path: Path) -> None:
    issue(run, "late-winter", WINTER, "output")
    left = "on_hand:\n  - {item: lemon-pot, amount: 7 pieces, made: 2027-03-01}\n"
    left += "  - {item: lemon-pot, amount: 2 pieces, made: 2027-02-24}\n"
    (tmp_path / "left.yaml").write_text(left, encoding="utf-8")
    done = run("swap", "specs", "--menu", "early-spring", "--date", SPRING, "--on-hand", "left.yaml")
    assert done.exit_code == 0, done.output
    text = text_of(tmp_path / "output/swap-sheet.pdf").replace("\xa0", " ")
    assert (
        "7 pieces: finish by Thu 4 March, then bin it; 2 pieces: was to be finished by Sat 27 February, bin it" in text
    )
    (tmp_path / "left.yaml").write_text("on_hand: []\n", encoding="utf-8")
    assert run("swap", "specs", "--menu", "early-spring", "--date", SPRING, "--on-hand", "left.yaml").exit_code == 0
    assert "Lemon pot Sweet none was counted" in text_of(tmp_path / "output/swap-sheet.pdf")


def test_a_kept_dish_is_changed_where_the_card_of_its_component_is(run: Run, house: Path, tmp_path: Path) -> None:
    issue(run, "late-winter", WINTER, "output")
    edit(house / "components/celeriac-puree.md", ("amount: 300 g", "amount: 280 g"))
    issue(run, "early-spring", SPRING, "output")
    text = text_of(tmp_path / "output/swap-sheet.pdf")
    assert "Stays, but changed Shin, celeriac, walnut (Celeriac puree) Stays Walnut fritters" in text, (
        "its sheets are the same, and of the other component only the amounts for the nights are others"
    )


def test_oil_that_is_not_changed_is_told_with_what_is_left_in_it(run: Run, house: Path, tmp_path: Path) -> None:
    issue(run, "late-winter", WINTER, "output")
    edit(
        house / "menus/early-spring.yaml",
        ("oil_changed: yes", "oil_changed: no"),
        ("  - {dish: fritters, share: 0.8}\n", ""),
    )
    edit(house / "menus/early-spring.yaml", ("  - {course: snacks, name: Snacks}\n", ""))
    kept = run("swap", "specs", "--menu", "early-spring", "--date", SPRING)
    assert kept.exit_code == 0, kept.output
    said = text_of(tmp_path / "output/swap-sheet.pdf")
    assert "Not changed: shared fryer. What late winter left in it" in said
    edit(house / "menus/early-spring.yaml", ("oil_changed: no", "oil_changed: yes"))
    assert run("swap", "specs", "--menu", "early-spring", "--date", SPRING).exit_code == 0
    said = text_of(tmp_path / "output/swap-sheet.pdf")
    assert "Change before the first service: shared fryer." in said
    assert "Not changed" not in said


@pytest.mark.parametrize("written", ["{0}", "{1}", "{2}", "{3}"], ids=["as printed", "small", "dashes", "read aloud"])
def test_a_fingerprint_is_taken_in_any_form(run: Run, issued: Path, written: str) -> None:
    mark = fingerprint_of(issued, SPRING, "station-card:shin")
    forms = (mark, mark.lower(), f"{mark[:4]}-{mark[4:]}", mark.replace("0", "o").replace("1", "l"))
    done = run("current", written.format(*forms), "--date", SPRING)
    assert done.exit_code == 0
    assert done.output == (
        f"Yes: {mark} Station card: Shin, celeriac, walnut (stove binder), issued {SPRING}, "
        "in force on the menu early spring.\n"
    )


def test_current_tells_what_took_the_place_of_a_sheet(run: Run, house: Path) -> None:
    issue(run, "late-winter", WINTER, "output")
    issue(run, "early-spring", SPRING, "output")
    cover, new = (fingerprint_of(house, day, "line-cover:stove") for day in (WINTER, SPRING))
    gone = fingerprint_of(house, WINTER, "station-card:pot")
    matrix = fingerprint_of(house, WINTER, "allergen-matrix:late-winter")
    asked = {word: run("current", word, "--date", "2027-03-05") for word in (cover, gone, matrix, new)}
    assert [one.exit_code for one in asked.values()] == [1, 1, 1, 0]
    assert asked[cover].output.endswith(f"issued {WINTER}, replaced on {SPRING} by {new}.\n")
    assert asked[gone].output.endswith(f"issued {WINTER}, withdrawn on {SPRING} (menu early spring).\n")
    assert f"replaced on {SPRING} by " in asked[matrix].output
    before = run("current", new, "--date", "2027-02-01")
    assert (before.exit_code, before.output.startswith("No, not yet: ")) == (1, True)
    assert run("current", cover, "--date", "2027-02-01").exit_code == 0


@pytest.mark.parametrize(
    ("word", "said"), [("00000000", "Unknown: no sheet 00000000 "), ("000", "Unknown: `000` is too")]
)
def test_an_unknown_fingerprint_leaves_with_2(run: Run, issued: Path, word: str, said: str) -> None:
    done = run("current", word)
    assert (done.exit_code, done.output.startswith(said)) == (2, True)
    assert run("current", "7F3A91CU").exit_code == 2
    shutil.rmtree(issued / "issued")
    assert "nothing was issued in this house yet" in run("current", "7F3A91C2").output


@pytest.mark.parametrize(
    "spoil",
    [
        lambda path: path.write_text(path.read_text().replace("number 1", "number 2")),
        lambda path: path.write_text(path.read_text()[:-40]),
        lambda path: path.write_text(f"<<<<<<< ours\n{path.read_text()}"),
        lambda path: path.write_bytes(b"\xff\xfe"),
        lambda path: path.write_bytes(b""),
        lambda path: path.rename(path.with_name("2027-03-02-spring.txt")),
        lambda path: (path.unlink(), path.mkdir()),
    ],
    ids=["edited", "cut short", "half merged", "no text", "empty", "renamed", "a folder"],
)
def test_a_damaged_issue_is_told_and_no_binder_is_lost(run: Run, issued: Path, tmp_path: Path, spoil) -> None:  # type: ignore[no-untyped-def]
    before = (tmp_path / "output/stove-binder.pdf").read_bytes()
    spoil(the_issue(issued, SPRING))
    for asked in (["bind", "specs", "--issue"], ["swap", "specs"], ["bind", "specs", "--only-changed"]):
        done = run(*asked, "--date", "2027-03-09")
        assert (done.exit_code, done.stderr.startswith("error LB904 ")) == (1, True), done.output
    assert run("current", "7F3A91C2").exit_code == 1
    assert (tmp_path / "output/stove-binder.pdf").read_bytes() == before
    plain = run("bind", "specs", "--date", "2027-03-09")
    assert plain.exit_code == 0
    assert plain.stderr.startswith("warning LB907 ")


def test_line_ends_that_git_changed_damage_nothing(run: Run, issued: Path) -> None:
    for path in (issued / "issued").rglob("*.*"):
        path.write_bytes(path.read_bytes().replace(b"\n", b"\r\n"))
    done = run("current", fingerprint_of(issued, SPRING, "station-card:fritters"), "--date", SPRING)
    assert done.exit_code == 0
    edit(issued / "dishes/fritters.md", DRAIN)
    done = run("bind", "specs", "--date", "2027-03-09", "--issue")
    assert (done.exit_code, "LB906" in done.stderr) == (0, False), done.output


@pytest.mark.parametrize("how", ["gone", "edited"])
def test_a_lost_text_is_told_and_the_sheet_is_exchanged_all_the_same(
    run: Run, issued: Path, tmp_path: Path, how: str
) -> None:
    mark = fingerprint_of(issued, SPRING, "station-card:fritters")
    kept = issued / f"issued/texts/{mark[:2]}/{mark}.jsonl"
    _ = kept.unlink() if how == "gone" else edit(kept, ("ritters", "ritzers"))
    edit(issued / "dishes/fritters.md", DRAIN)
    done = run("bind", "specs", "--date", "2027-03-09", "--issue")
    assert (done.exit_code, done.stderr.startswith("warning LB906 ")) == (0, True), done.output
    assert "what it said before is not kept: read it as if it were new" in text_of(tmp_path / "output/swap-sheet.pdf")


def test_an_issue_of_the_same_text_mends_a_damaged_one(run: Run, issued: Path) -> None:
    mark = fingerprint_of(issued, SPRING, "station-card:fritters")
    kept = issued / f"issued/texts/{mark[:2]}/{mark}.jsonl"
    sound = kept.read_bytes()
    edit(kept, ("ritters", "ritzers"))
    assert run("bind", "specs", "--date", "2027-03-09", "--issue").exit_code == 0
    assert kept.read_bytes() == sound


def test_two_issues_of_one_day_stand_side_by_side(run: Run, issued: Path, tmp_path: Path) -> None:
    """As on two branches: each issues from the same state; both files are kept, and the later number holds."""
    other = tmp_path / "other"
    shutil.copytree(issued, other)
    edit(issued / "dishes/fritters.md", DRAIN)
    edit(other / "dishes/shin.md", GLAZE)
    for house in ("specs", "other"):
        assert run("bind", house, "--date", "2027-03-09", "--issue", "-o", f"{house}-out").exit_code == 0
    shutil.copytree(other / "issued", issued / "issued", dirs_exist_ok=True)
    assert len(list((issued / "issued").glob("2027-03-09-*.txt"))) == 2
    shutil.copy(other / "dishes/shin.md", issued / "dishes")
    merged = run("bind", "specs", "--date", "2027-03-09", "--issue", "--only-changed")
    assert (merged.exit_code, merged.stderr.startswith("warning LB909 ")) == (0, True)
    both = [fingerprint_of_any(issued, f"station-card:{dish}") for dish in ("fritters", "shin")]
    assert all(run("current", mark, "--date", "2027-03-09").exit_code == 0 for mark in both)


def fingerprint_of_any(house: Path, sheet: str) -> str:
    """Return the fingerprint of a sheet in the issue with the highest number."""
    texts = [path.read_text(encoding="utf-8") for path in (house / "issued").glob("*.txt")]
    last = max(texts, key=lambda text: (text.split("date ")[1][:10], int(text.split("number ")[1].split()[0])))
    (line,) = (one for one in last.splitlines() if f" {sheet} " in one)
    return line[:8]


def test_one_line_is_issued_alone_and_the_others_stay_as_they_stand(run: Run, issued: Path) -> None:
    edit(issued / "dishes/shin.md", GLAZE)
    old = fingerprint_of(issued, SPRING, "station-card:fritters")
    done = run("bind", "specs", "--date", "2027-03-09", "--issue", "--line", "stove")
    assert done.exit_code == 0, done.output
    assert "cold" not in the_issue(issued, "2027-03-09").read_text(encoding="utf-8")
    assert run("current", old, "--date", "2027-03-09").exit_code == 0


def test_other_paper_is_a_new_binder(run: Run, issued: Path, tmp_path: Path) -> None:
    edit(issued / "dishes/shin.md", GLAZE)
    out = issue(run, "early-spring", "2027-03-09", "output", "--paper", "letter", "--only-changed")
    assert re.search(r"Cold +pull +\d+, put in +\d+, leave +0", out)
    text = text_of(tmp_path / "output/swap-sheet.pdf")
    assert "every sheet is printed anew. Where nothing is told of one, it says what it said." in text
    assert "Pick-up step 2 reworded" in text
    assert "Fry" not in text, "of what says the same nothing is told"


@pytest.mark.parametrize(
    "more", [("--covers", "90"), ("--without", "thyme"), ("--large",), ("--half-sheet",)], ids=lambda more: more[0]
)
def test_what_is_not_for_weeks_is_not_issued(run: Run, house: Path, more: tuple[str, ...]) -> None:
    done = run("bind", "specs", "--issue", "--date", SPRING, *more)
    assert (done.exit_code, f"{more[0]} is not for --issue" in done.output) == (2, True), done.output
    assert not (house / "issued").exists()


def test_nothing_is_issued_while_there_are_warnings(run: Run, house: Path, tmp_path: Path) -> None:
    declared = "  allergens: {contains: none, says: maker's statement, since: 2026-11-02}\n"
    edit(house / "pantry/dry.yaml", (declared, ""))
    assert run("bind", "specs", "--date", SPRING).exit_code == 0
    done = run("bind", "specs", "--date", SPRING, "--issue", "-o", "never")
    assert done.exit_code == 1
    assert "LB401" in done.stderr
    assert "Nothing is issued while there are warnings" in done.stderr
    assert not (tmp_path / "never").exists()
    assert not (house / "issued").exists()


def test_without_an_earlier_issue_there_is_nothing_to_compare_with(run: Run, house: Path) -> None:
    for asked in (("swap", "specs"), ("bind", "specs", "--only-changed")):
        done = run(*asked, "--date", SPRING)
        assert (done.exit_code, done.stderr.startswith("error LB905 nothing was ever issued")) == (1, True)
    issue(run, "early-spring", SPRING, "output")
    done = run("swap", "specs", "--since", "2027-01-01", "--date", SPRING)
    assert done.stderr.startswith("error LB905 nothing was issued by 2027-01-01")
