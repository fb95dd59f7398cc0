"""``linebook why``: every way from a dish to a declaration, with file and line; and what it refuses."""

from __future__ import annotations

import re
from pathlib import Path

import pytest
from running import Run

from linebook.cli.why import command

DAY = ("--date", "2027-03-06")
PLACE = re.compile(r"(specs/[\w./-]+):(\d+)$")


def test_last_menus_oil_is_followed_to_the_label(run: Run, demo: Path) -> None:
    result = run("why", "leeks-almond", "egg", *DAY)
    assert result.exit_code == 0
    shown = [re.sub(r" +specs/", " specs/", line) for line in result.stdout.splitlines()]
    assert [re.sub(r":\d+$", ":0", line) for line in shown] == [
        "egg: taken as eggs",
        "",
        "Leeks in ash, almond, on the menu early spring",
        "May contain: eggs",
        "",
        "May be in it: 1 way",
        "  1. Leek top crisp specs/dishes/leeks-almond.md:0",
        "     through the shared fryer specs/components/leek-crisp.md:0",
        "     still in it from the menu late winter specs/menus/late-winter.yaml:0",
        "     which the dish Salt cod fritters, black garlic goes through",
        " specs/dishes/salt-cod-fritters.md:0",
        "     Salt cod fritter, shaped specs/dishes/salt-cod-fritters.md:0",
        "     hen's egg, medium specs/components/salt-cod-fritter.md:0",
        "     contains hen's egg: label, 2026-11-02 specs/pantry/dairy-and-eggs.yaml:0",
    ]


def places(text: str) -> list[tuple[str, int]]:
    return [(found[1], int(found[2])) for line in text.splitlines() if (found := PLACE.search(line))]


@pytest.mark.parametrize(
    ("dish", "word"),
    [
        ("short-rib-celeriac", "milk"),
        ("potato-dumplings", "garlic"),
        ("house-bread", "vegan"),
        ("walnut-crumb", "nuts"),
    ],
)
def test_every_step_is_where_the_file_says_so(run: Run, demo: Path, dish: str, word: str) -> None:
    result = run("why", dish, word, *DAY)
    assert result.exit_code == 0
    lines = result.stdout.splitlines()
    assert max(map(len, lines)) <= 80
    found = places(result.stdout)
    assert len(found) >= 2
    for path, line in found:
        text = Path(path).read_text("utf-8").splitlines()[line - 1]
        assert text.strip() not in ("", "---")
    first = next(line for line in lines if line.startswith("  1. "))
    assert first


def test_a_declaration_is_quoted_with_its_word_source_and_date(run: Run, demo: Path) -> None:
    result = run("why", "short-rib-celeriac", "milk", *DAY)
    told = result.stdout
    assert "\nContains: milk\n\nIn it: 4 ways\n" in told
    grounds = [line for line in told.splitlines() if "contains cow's milk: label, 2026-11-02" in line]
    assert len(grounds) >= 4
    (path, line) = next(place for place in places(told) if "pantry" in place[0])
    assert "cows-milk" in Path(path).read_text("utf-8").splitlines()[line - 1]
    assert "\nMay be in it: " in told


def test_what_was_looked_at_is_said_where_nothing_speaks_against_it(run: Run, demo: Path) -> None:
    result = run("why", "honey-cake", "celery", *DAY)
    told = result.stdout
    assert told.startswith("Honey cake, on the menu early spring\nNot in it, no known contact: celery\n\nLooked at\n")
    assert "  no shared medium\n" in told
    assert "  oldest declaration: " in told
    assert not re.search(r"celery[ -]free|free (of|from)", told)


def test_an_item_without_a_declaration_is_told(run: Run, demo: Path) -> None:
    pantry = demo / "pantry" / "herbs-and-leaves.yaml"
    text = pantry.read_text("utf-8")
    assert re.search(r"^chervil:.*?allergens:", text, re.DOTALL | re.MULTILINE)
    lines = text.splitlines()
    start = next(at for at, line in enumerate(lines) if line.startswith("chervil:"))
    at = next(at for at in range(start, len(lines)) if "allergens:" in lines[at])
    without = re.sub(r",? *allergens: \{[^}]*\}", "", lines[at])
    lines[at] = without if without.strip() else ""
    pantry.write_text("\n".join(lines) + "\n", "utf-8")
    result = run("why", "leeks-almond", "peanut", *DAY)
    assert "Not declared: peanuts" in result.stdout
    assert "Nobody has said, so it counts as being in it: 1 way" in result.stdout
    assert "no declaration" in result.stdout


def test_an_origin_that_is_given_but_open_is_told(run: Run, demo: Path) -> None:
    result = run("why", "hake-mussels", "pork", *DAY)
    assert "\nNot declared: pork\n" in result.stdout
    assert "origin plant, alcohol, fining: not close enough to say" in result.stdout


def test_a_component_is_asked_about_like_a_dish(run: Run, demo: Path) -> None:
    result = run("why", "walnut-crumb", "nuts", *DAY)
    told = result.stdout
    assert "Walnut crumb, on the menu early spring\nContains: nuts\n" in told
    assert "Walnut crumb, on the menu early spring\nNot in it, no known contact: peanuts\n" in told
    other = run("why", "salt-cod-fritter", "egg", *DAY).stdout
    assert "not on, but as if it were cooked for, the menu early" in other


@pytest.mark.parametrize(
    ("arguments", "said"),
    [
        (
            ("house-bred", "egg"),
            "There is no dish or component `house-bred` in this house. Did you mean `house-bread`?",
        ),
        (
            ("salt-cod-fritters", "egg"),
            "`salt-cod-fritters` is not on the menu `early spring`. Ask with --menu late-winter.",
        ),
        (("honey-cake", "eggg"), "`eggg` is not a word this house knows, so nothing can be promised. Nearest: egg"),
        (("honey-cake", " , "), 'Say what to look for: a word like egg, or "tree nuts".'),
        (("honey-cake", "<i>"), "`<i>` is not what a guest avoids"),
    ],
)
def test_what_cannot_be_proved_is_refused(run: Run, demo: Path, arguments: tuple[str, ...], said: str) -> None:
    result = run("why", *arguments, *DAY)
    assert result.exit_code == 2
    assert said in result.stderr
    assert result.stdout == ""


def test_dishes_and_components_are_completed(demo: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.chdir(demo.parent)
    context = command.make_context("why", [], resilient_parsing=True)
    dish = command.params[0]
    offered = [one.value for one in dish.type.shell_complete(context, dish, "leek")]
    assert offered == ["leek-crisp", "leek-oil", "leeks-almond", "leeks-in-ash"]
