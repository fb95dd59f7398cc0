"""``bind --issue``, ``swap`` and ``current``: what is recorded, what the swap sheet leads to, what is still in force."""

from __future__ import annotations

import re
import shutil
from pathlib import Path

import pytest
from running import Run
from swapped_binders import follow, printed_sheets, swap_rows

LINES = {"larder": "Larder", "hearth": "Hearth", "stove": "Stove", "pastry": "Pastry"}
WINTER, SPRING = "2027-01-12", "2027-03-02"


def edit(path: Path, *pairs: tuple[str, str]) -> None:
    text = path.read_text(encoding="utf-8")
    for old, new in pairs:
        assert old in text, old
        text = text.replace(old, new, 1)
    path.write_text(text, encoding="utf-8")


def issue(run: Run, menu: str, day: str, folder: str, *more: str) -> str:
    done = run("bind", "specs", "--menu", menu, "--date", day, "--issue", "-o", folder, *more)
    assert done.exit_code == 0, done.output
    return done.output


def text_of(path: Path) -> str:
    import pypdfium2

    document = pypdfium2.PdfDocument(path)
    pages = [document[at].get_textpage().get_text_range() for at in range(len(document))]
    return re.sub(r"\s+", " ", " ".join(pages))


@pytest.mark.parametrize("sides", [(), ("--duplex",)], ids=["one side", "both sides"])
def test_the_swap_sheet_alone_turns_the_old_binders_into_the_new_ones(
    run: Run, demo: Path, tmp_path: Path, sides: tuple[str, ...]
) -> None:
    issue(run, "late-winter", WINTER, "old", *sides)
    issue(run, "early-spring", SPRING, "new", "--only-changed", *sides)
    fresh = run("bind", "specs", "--menu", "early-spring", "--date", "2027-03-09", "-o", "fresh", *sides)
    assert fresh.exit_code == 0, fresh.output
    rows = swap_rows(tmp_path / "new/swap-sheet.pdf")
    for line, name in LINES.items():
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


def lines_of(path: Path) -> list[str]:
    return path.read_text(encoding="utf-8").splitlines()


def the_issue(demo: Path, day: str) -> Path:
    (found,) = (demo / "issued").glob(f"{day}-*.txt")
    return found


@pytest.fixture
def issued(run: Run, demo: Path) -> Path:
    """The demo after the issue of its second menu."""
    issue(run, "early-spring", SPRING, "output")
    return demo


def fingerprint_of(house: Path, day: str, sheet: str) -> str:
    (line,) = (one for one in lines_of(the_issue(house, day)) if f" {sheet} " in one)
    return line[:8]


def test_an_issue_is_a_line_a_sheet_and_keeps_each_text_once(run: Run, issued: Path) -> None:
    first = lines_of(the_issue(issued, SPRING))
    assert first[1:4] == ["menu early-spring", "name early spring", f"date {SPRING}"]
    sheets = [one.split()[0] for one in first if re.match(r"[0-9A-HJKMNP-TV-Z]{8} ", one)]
    assert len(sheets) == len(set(sheets)) > 60
    kept = {path.stem for path in (issued / "issued/texts").rglob("*.jsonl")}
    assert kept == set(sheets)
    again = run("bind", "specs", "--date", "2027-03-20", "--issue")
    assert again.exit_code == 0
    assert "nothing new is on record" in again.output
    assert lines_of(the_issue(issued, SPRING)) == first
    assert len(list((issued / "issued").glob("*.txt"))) == 1


def test_a_sheet_bears_the_day_it_was_first_issued(run: Run, issued: Path, tmp_path: Path) -> None:
    edit(issued / "dishes/peas-fresh-cheese.md", ("Spread the peas", "Push the peas"))
    issue(run, "early-spring", "2027-03-09", "output")
    assert run("bind", "specs", "--date", "2027-03-23").exit_code == 0
    days = re.findall(r"issued (\d+).March.2027", text_of(tmp_path / "output/larder-binder.pdf"))
    assert {"2", "9"} == set(days), (
        "the changed sheets the second day, the others the first, and none the day of printing"
    )
    assert set(re.findall(r"issued (\d+).March", text_of(tmp_path / "output/stove-binder.pdf"))) == {"2"}


def test_what_changed_is_said_as_a_chef_would_and_allergens_come_first(run: Run, issued: Path, tmp_path: Path) -> None:
    edit(issued / "components/short-rib-smoked.md", ("amount: 90 g, stage: smoke", "amount: 75 g, stage: smoke"))
    edit(issued / "dishes/peas-fresh-cheese.md", ("Spread the peas", "Push the peas"), ("62 g", "58 g"))
    mustard = "ingredients:\n  - {item: yellow-mustard-seed, amount: 5 g, stage: crush}\n"
    edit(issued / "components/peas-crushed.md", ("ingredients:\n", mustard))
    out = issue(run, "early-spring", "2027-03-09", "output", "--only-changed")
    assert re.search(r"Stove +nothing to do", out)
    text = text_of(tmp_path / "output/swap-sheet.pdf")
    box = text.index("Allergens that changed: tell everyone before service")
    assert box < text.index("Peas, fresh cheese, mint: now contains mustard") < text.index("Binder Pull Put in Leave")
    assert "no longer may contain mustard" not in text, "no news, and bad advice, where it now contains it"
    assert "black peppercorns cracked coarse 90 g → 75 g" in text
    assert "Pick-up step 3 reworded" in text
    assert "Crushed peas 62 g → 58 g" in text
    changed = {path.name for path in (tmp_path / "output").glob("*-changed.pdf")}
    assert changed == {f"{stem}-changed.pdf" for stem in ("larder-binder", "hearth-binder", "allergen-matrix")}
    assert run("bind", "specs", "--date", "2027-03-16", "--issue").exit_code == 0
    assert len(list((tmp_path / "output").glob("*-changed.pdf"))) == 3, (
        "nothing new was issued: they are still to be put in"
    )
    edit(issued / "components/mussel-sauce.md", ("1. ", "1. At once, "))
    issue(run, "early-spring", "2027-03-16", "output")
    assert not list((tmp_path / "output").glob("*-changed.pdf")), "what was to be put in last time is not lying about"


def test_a_swap_sheet_goes_against_any_earlier_issue_without_the_specs_of_that_day(
    run: Run, demo: Path, tmp_path: Path
) -> None:
    issue(run, "late-winter", WINTER, "output")
    issue(run, "early-spring", SPRING, "output")
    (demo / "menus/late-winter.yaml").unlink()
    for gone in ("salt-cod-fritters", "beet-tartare"):
        (demo / f"dishes/{gone}.md").unlink()
        (demo / f"dishes/{gone}.es.md").unlink(missing_ok=True)
    done = run("swap", "specs", "--since", "2027-02-01", "--date", SPRING, "-o", "since")
    assert done.exit_code == 0, done.output
    assert "late winter of 2027-01-12" in done.output
    text = text_of(tmp_path / "since/swap-sheet.pdf")
    assert "late winter → early spring" in text
    assert re.search(r"Off Beetroot tartare, cured yolk;.*?Salt cod fritters, black garlic", text)
    assert re.search(r"Cured yolk Larder 14 d: day 1 is", text), "no longer made, with how long it keeps"
    last = run("swap", "specs", "--date", SPRING, "-o", "last")
    assert last.exit_code == 0
    assert "Larder          nothing to do" in last.output


def test_oil_that_is_not_changed_is_told_with_what_is_left_in_it(run: Run, demo: Path, tmp_path: Path) -> None:
    issue(run, "late-winter", WINTER, "output")
    kept = run("swap", "specs", "--menu", "early-spring", "--date", SPRING)
    assert kept.exit_code == 0
    said = text_of(tmp_path / "output/swap-sheet.pdf")
    assert re.search(r"Not changed: shared fryer\. What late winter left in it still counts: .*cod", said)
    edit(demo / "menus/early-spring.yaml", ("oil_changed: no", "oil_changed: yes"))
    assert run("swap", "specs", "--menu", "early-spring", "--date", SPRING).exit_code == 0
    said = text_of(tmp_path / "output/swap-sheet.pdf")
    assert "Change before the first service: shared fryer." in said
    assert "Not changed" not in said


@pytest.mark.parametrize("written", ["{0}", "{1}", "{2}", "{3}"], ids=["as printed", "small", "dashes", "read aloud"])
def test_a_fingerprint_is_taken_in_any_form(run: Run, issued: Path, written: str) -> None:
    mark = fingerprint_of(issued, SPRING, "station-card:cured-trout-rye")
    forms = (mark, mark.lower(), f"{mark[:4]}-{mark[4:]}", mark.replace("0", "o").replace("1", "l"))
    done = run("current", written.format(*forms), "--date", SPRING)
    assert done.exit_code == 0
    assert done.output == (
        f"Yes: {mark} Station card: Cured trout, rye, horseradish (larder binder), issued {SPRING}, "
        "in force on the menu early spring.\n"
    )


def test_current_tells_what_took_the_place_of_a_sheet(run: Run, demo: Path) -> None:
    issue(run, "late-winter", WINTER, "output")
    issue(run, "early-spring", SPRING, "output")
    cover, new = (fingerprint_of(demo, day, "line-cover:larder") for day in (WINTER, SPRING))
    gone = fingerprint_of(demo, WINTER, "station-card:beet-tartare")
    matrix = fingerprint_of(demo, WINTER, "allergen-matrix:late-winter")
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
    before = (tmp_path / "output/larder-binder.pdf").read_bytes()
    spoil(the_issue(issued, SPRING))
    for asked in (["bind", "specs", "--issue"], ["swap", "specs"], ["bind", "specs", "--only-changed"]):
        done = run(*asked, "--date", "2027-03-09")
        assert (done.exit_code, done.stderr.startswith("error LB904 ")) == (1, True), done.output
    assert run("current", "7F3A91C2").exit_code == 1
    assert (tmp_path / "output/larder-binder.pdf").read_bytes() == before
    plain = run("bind", "specs", "--date", "2027-03-09")
    assert plain.exit_code == 0
    assert plain.stderr.startswith("warning LB907 ")


def test_line_ends_that_git_changed_damage_nothing(run: Run, issued: Path) -> None:
    for path in (issued / "issued").rglob("*.*"):
        path.write_bytes(path.read_bytes().replace(b"\n", b"\r\n"))
    done = run("current", fingerprint_of(issued, SPRING, "station-card:honey-cake"), "--date", SPRING)
    assert done.exit_code == 0
    edit(issued / "dishes/honey-cake.md", ("Read the ticket", "Read all of the ticket"))
    done = run("bind", "specs", "--date", "2027-03-09", "--issue")
    assert (done.exit_code, "LB906" in done.stderr) == (0, False), done.output


@pytest.mark.parametrize("how", ["gone", "edited"])
def test_a_lost_text_is_told_and_the_sheet_is_exchanged_all_the_same(
    run: Run, issued: Path, tmp_path: Path, how: str
) -> None:
    mark = fingerprint_of(issued, SPRING, "station-card:honey-cake")
    kept = issued / f"issued/texts/{mark[:2]}/{mark}.jsonl"
    _ = kept.unlink() if how == "gone" else edit(kept, ("oney", "onny"))
    edit(issued / "dishes/honey-cake.md", ("Read the ticket", "Read all of the ticket"))
    done = run("bind", "specs", "--date", "2027-03-09", "--issue")
    assert (done.exit_code, done.stderr.startswith("warning LB906 ")) == (0, True), done.output
    assert "what it said before is not kept: read it as if it were new" in text_of(tmp_path / "output/swap-sheet.pdf")


def test_an_issue_of_the_same_text_mends_a_damaged_one(run: Run, issued: Path) -> None:
    mark = fingerprint_of(issued, SPRING, "station-card:honey-cake")
    kept = issued / f"issued/texts/{mark[:2]}/{mark}.jsonl"
    sound = kept.read_bytes()
    edit(kept, ("oney", "onny"))
    assert run("bind", "specs", "--date", "2027-03-09", "--issue").exit_code == 0
    assert kept.read_bytes() == sound


def test_two_issues_of_one_day_stand_side_by_side(run: Run, issued: Path, tmp_path: Path) -> None:
    """As on two branches: each issues from the same state; both files are kept, and the later number holds."""
    other = tmp_path / "other"
    shutil.copytree(issued, other)
    edit(issued / "dishes/honey-cake.md", ("Read the ticket", "Read all of the ticket"))
    edit(other / "dishes/peas-fresh-cheese.md", ("Spread the peas", "Push the peas"))
    for house in ("specs", "other"):
        assert run("bind", house, "--date", "2027-03-09", "--issue", "-o", f"{house}-out").exit_code == 0
    shutil.copytree(other / "issued", issued / "issued", dirs_exist_ok=True)
    assert len(list((issued / "issued").glob("2027-03-09-*.txt"))) == 2
    shutil.copy(other / "dishes/peas-fresh-cheese.md", issued / "dishes")
    merged = run("bind", "specs", "--date", "2027-03-09", "--issue", "--only-changed")
    assert (merged.exit_code, merged.stderr) == (0, "")
    both = [fingerprint_of_any(issued, f"station-card:{dish}") for dish in ("honey-cake", "peas-fresh-cheese")]
    assert all(run("current", mark, "--date", "2027-03-09").exit_code == 0 for mark in both)


def fingerprint_of_any(house: Path, sheet: str) -> str:
    """Return the fingerprint of a sheet in the issue with the highest number."""
    texts = [path.read_text(encoding="utf-8") for path in (house / "issued").glob("*.txt")]
    last = max(texts, key=lambda text: (text.split("date ")[1][:10], int(text.split("number ")[1].split()[0])))
    (line,) = (one for one in last.splitlines() if f" {sheet} " in one)
    return line[:8]


def test_one_line_is_issued_alone_and_the_others_stay_as_they_stand(run: Run, issued: Path) -> None:
    edit(issued / "dishes/peas-fresh-cheese.md", ("Spread the peas", "Push the peas"))
    old = fingerprint_of(issued, SPRING, "station-card:honey-cake")
    done = run("bind", "specs", "--date", "2027-03-09", "--issue", "--line", "larder")
    assert done.exit_code == 0, done.output
    assert "pastry" not in the_issue(issued, "2027-03-09").read_text(encoding="utf-8")
    assert run("current", old, "--date", "2027-03-09").exit_code == 0


def test_other_paper_is_a_new_binder(run: Run, issued: Path, tmp_path: Path) -> None:
    out = issue(run, "early-spring", "2027-03-09", "output", "--paper", "letter", "--only-changed")
    assert re.search(r"Pastry +pull +\d+, put in +\d+, leave +0", out)
    text = text_of(tmp_path / "output/swap-sheet.pdf")
    assert "every sheet is printed anew" in text
    assert "says the same, printed anew" in text


@pytest.mark.parametrize(
    "more", [("--covers", "90"), ("--without", "dill"), ("--large",), ("--half-sheet",)], ids=lambda more: more[0]
)
def test_what_is_not_for_weeks_is_not_issued(run: Run, demo: Path, more: tuple[str, ...]) -> None:
    done = run("bind", "specs", "--issue", "--date", SPRING, *more)
    assert (done.exit_code, f"{more[0]} is not for --issue" in done.output) == (2, True), done.output
    assert not (demo / "issued").exists()


def test_nothing_is_issued_while_there_are_warnings(run: Run, demo: Path, tmp_path: Path) -> None:
    path = demo / "pantry/seasonings-oils-vinegars.yaml"
    text = path.read_text(encoding="utf-8")
    head, _, tail = text.partition("yellow-mustard-seed:\n")
    path.write_text(head + "yellow-mustard-seed:\n" + re.sub(r"  allergens: .*\n", "", tail, count=1), encoding="utf-8")
    assert run("bind", "specs", "--date", SPRING).exit_code == 0
    done = run("bind", "specs", "--date", SPRING, "--issue", "-o", "never")
    assert done.exit_code == 1
    assert "LB401" in done.stderr
    assert "Nothing is issued while there are warnings" in done.stderr
    assert not (tmp_path / "never").exists()
    assert not (demo / "issued").exists()


def test_without_an_earlier_issue_there_is_nothing_to_compare_with(run: Run, demo: Path) -> None:
    for asked in (("swap", "specs"), ("bind", "specs", "--only-changed")):
        done = run(*asked, "--date", SPRING)
        assert (done.exit_code, done.stderr.startswith("error LB905 nothing was ever issued")) == (1, True)
    issue(run, "early-spring", SPRING, "output")
    done = run("swap", "specs", "--since", "2027-01-01", "--date", SPRING)
    assert done.stderr.startswith("error LB905 nothing was issued by 2027-01-01")
