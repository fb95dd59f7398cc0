"""``linebook batch`` in every way of saying how much: what the terminal says, what is refused, what is written."""

from __future__ import annotations

from pathlib import Path

import pytest
from pypdf import PdfReader
from running import Run

DAY = ("--date", "2027-03-06")


def _say(run: Run, *arguments: str) -> str:
    result = run("batch", *arguments, *DAY)
    assert result.exit_code == 0, result.output
    return result.output


def _change(demo: Path, file: str, find: str, put: str) -> None:
    path = demo / file
    text = path.read_text(encoding="utf-8")
    assert text.count(find) == 1, f"{find!r} stands {text.count(find)} times in {file}"
    path.write_text(text.replace(find, put), encoding="utf-8")


def test_from_what_there_is(run: Run, demo: Path, tmp_path: Path) -> None:
    said = _say(run, "cured-trout", "--have", "9.3 kg of trout loins, frozen for serving raw", "--have", "200 g dill")
    assert demo.is_dir()
    # 4.9 kg of loins and 60 g of dill make one batch: 9.3 / 4.9 = 1.898, of dill 3.33
    assert "limited by: Trout loins, frozen for serving raw" in said
    assert "left: 86 g of 200 g dill" in said  # 60 g x 1.898 = 113.9 g
    assert "gives: 236 portions of Cured trout" in said
    assert (tmp_path / "output" / "batch-cured-trout.pdf").is_file()


def test_by_an_id_a_name_or_another_name(run: Run, demo: Path) -> None:
    assert demo.is_dir()
    for name in ("trout-loins", "trout loins", "Trout loins, frozen for serving raw", "of trout-loins"):
        assert "9.3 kg" in _say(run, "cured-trout", "--have", f"9.3 kg {name}")


def test_pieces_and_portions(run: Run, demo: Path) -> None:
    assert demo.is_dir()
    assert "makes 4.6 kg, 48 pieces" in _say(run, "short-rib-glazed", "--pieces", "48")
    said = _say(run, "celeriac-puree", "--portions", "50", "--portion", "80 g")
    assert "gives: 50 portions, 80 g each" in said
    # a portion stands as it is written, not as a scale reads it
    assert "portions, 80.4 g each" in _say(run, "celeriac-puree", "--portions", "50", "--portion", "80.4 g")


REFUSED = [
    (("cured-trout", "--have", "9 kg butter"), "`butter` is not on the card of Cured trout"),
    (("cured-trout", "--have", "9 kg trout-loin"), "Did you mean `trout-loins`?"),
    (("cured-trout", "--have", "9 kg dill", "--have", "1 kg dill"), "twice"),
    (("cured-trout", "--have", "0 kg dill"), "`0 kg` is nothing"),
    (("cured-trout", "--have", "-2 kg dill"), "less than nothing"),
    (("cured-trout", "--have", "9 L dill"), "without its density"),
    (("cured-trout", "--have", "dill"), 'write it as "9.3 kg trout"'),
    (("cured-trout", "--have", "9 kg"), 'write it as "9.3 kg trout"'),
    (("cured-trout", "--have", "200000 kg dill"), "more than any kitchen makes"),
    (("cured-trout", "--have", "1000000000000 kg dill"), "more than 12 digits"),
    (("cured-trout", "--covers", "1000000000000"), "not a number of covers"),
    (("cured-trout", "--makes", "900000 kg"), "more than any kitchen makes"),
    (("cured-trout", "--times", "1000000"), "more than any kitchen makes"),
    (("cured-trout", "--pieces", "0"), "more than 0"),
    (("cured-trout", "--portions", "2.5"), "not a whole number"),
    (("cured-trout", "--portions", "20000000"), "more than any kitchen makes"),
    (("cured-trout", "--portion", "60 g", "--covers", "80"), "give both"),
    (("cured-trout", "--times", "2", "--pieces", "8"), "Say how much with one of"),
    (("cured-trout", "--times", "2", "--on-hand", "left.yaml"), "give it with --covers"),
    (("celeriac-puree", "--pieces", "8"), "does not say how many pieces it makes"),
    (("celeriac-puree", "--portions", "8"), "not the same in every dish"),
]


@pytest.mark.parametrize(("arguments", "says"), REFUSED, ids=[" ".join(arguments) for arguments, _ in REFUSED])
def test_what_is_refused_is_said_and_writes_nothing(
    run: Run, demo: Path, tmp_path: Path, arguments: tuple[str, ...], says: str
) -> None:
    assert demo.is_dir()
    result = run("batch", *arguments, *DAY)
    assert result.exit_code == 2, result.output
    assert says in result.output
    assert not (tmp_path / "output").exists()


def test_what_is_on_hand_is_taken_off(run: Run, demo: Path, tmp_path: Path) -> None:
    assert demo.is_dir()
    before = _say(run, "celeriac-puree", "--covers", "110")
    left = tmp_path / "left.yaml"
    left.write_text(
        "on_hand:\n"
        "  - {item: celeriac-puree, amount: 1 kg, made: 2027-03-05}\n"
        "  - {item: celeriac-puree, amount: 2 kg, made: 2027-02-20}\n",
        encoding="utf-8",
    )
    said = _say(run, "celeriac-puree", "--covers", "110", "--on-hand", "left.yaml")
    assert "1 kg of it on hand" in said
    assert "2 kg, made 2027-02-20, does not count: past its life" in said
    assert said.splitlines()[0] != before.splitlines()[0]


def test_with_enough_on_hand_there_is_nothing_to_make(run: Run, demo: Path, tmp_path: Path) -> None:
    assert demo.is_dir()
    (tmp_path / "left.yaml").write_text(
        "on_hand:\n  - {item: celeriac-puree, amount: 40 kg, made: 2027-03-05}\n", encoding="utf-8"
    )
    said = _say(run, "celeriac-puree", "--covers", "110", "--on-hand", "left.yaml")
    assert "nothing to make" in said
    assert not (tmp_path / "output").exists()


def test_loads_that_differ_by_stage_stand_in_the_table(run: Run, demo: Path, tmp_path: Path) -> None:
    _change(demo, "components/celeriac-puree.md", "stage: blend,", "stage: blend, at_most: 1.5 kg,")
    said = _say(run, "celeriac-puree", "--makes", "4.5 kg")
    assert "even loads by stage: " in said
    assert "× " in said
    assert any(line.split()[-1:] == ["loads"] for line in said.splitlines())
    pdf = PdfReader(tmp_path / "output" / "batch-celeriac-puree.pdf")
    assert "loads" in "\n".join(page.extract_text() for page in pdf.pages)


def test_a_step_a_smallest_batch_and_what_is_over(run: Run, demo: Path) -> None:
    _change(
        demo,
        "components/celeriac-puree.md",
        "makes: 4.5 kg",
        "makes: 4.5 kg\nbatch_step: 4.5 kg\nsmallest_batch: 4.5 kg",
    )
    said = _say(run, "celeriac-puree", "--covers", "40")
    assert "makes 4.5 kg" in said
    assert "needed: " in said
    assert "over: " in said
    assert "the next service, Tue 9 March" in said
    small = _say(run, "celeriac-puree", "--makes", "2 kg")
    assert "note: that is under the smallest batch, 4.5 kg" in small
    assert "note: that is not in whole ones of 4.5 kg" in small


def test_trim_is_balanced(run: Run, demo: Path) -> None:
    assert demo.is_dir()
    said = _say(run, "short-rib-smoked", "--covers", "160")
    assert "needed tonight: short by" in said
    assert "spare, use it or log it" in said
    assert "is lost on the way" in said


def test_a_stage_in_too_many_loads_is_a_fault(run: Run, demo: Path, tmp_path: Path) -> None:
    _change(demo, "components/celeriac-puree.md", "stage: blend,", "stage: blend, at_most: 100 g,")
    result = run("batch", "celeriac-puree", "--makes", "13 kg", *DAY)
    assert result.exit_code == 1
    assert "LB316" in result.output
    assert "at `blend`" in result.output
    assert not (tmp_path / "output").exists()
