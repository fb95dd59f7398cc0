"""What changed between two issues, in kitchen words."""

from __future__ import annotations

from dataclasses import replace

import pytest

from linebook.documents.wording import english
from linebook.markup.difference import describe_difference, describe_said
from linebook.markup.reader import read_markup
from linebook.markup.said import what_is_said


def sheet(body: str, *, title: str = "Rib", aside: str = ""):
    aside = f'<p class="aside">{aside}</p>' if aside else ""
    text = f'<article id="a" class="batch-card"><header><h1>{title}</h1>{aside}</header>{body}</article>'
    outcome = read_markup(text, "sheet.xml")
    assert outcome.faults == ()
    return outcome.value


def said(before: str, after: str, **heads: str) -> list[str]:
    return [
        text.plain.replace("\u00a0", " ")
        for text in describe_difference(sheet(before), sheet(after, **heads), english())
    ]


def table(*rows: str) -> str:
    columns = '<col class="tick"/><col class="amount"/><col class="unit"/><col class="name"/><col class="figure"/>'
    head = '<tr data-key="heads"><td/><th colspan="2" scope="col">each load</th><th scope="col">what</th><th scope="col">in all</th></tr>'
    return f"<table><colgroup>{columns}</colgroup><thead>{head}</thead><tbody>{''.join(rows)}</tbody></table>"


def row(name: str, number: str, unit: str, total: str, *, ticks: int = 2, note: str = "", key: str = "") -> str:
    note = f'<span class="note">{note}</span>' if note else ""
    return (
        f'<tr data-key="{key or name}"><td><span class="tick" data-count="{ticks}"/></td><td>{number}</td><td>{unit}</td>'
        f'<th scope="row">{name}{note}</th><td>{total}</td></tr>'
    )


def steps(*texts: str) -> str:
    items = "".join(f'<li data-key="pick-up.{at}">{text}</li>' for at, text in enumerate(texts, 1))
    return f'<h3 data-key="pick-up">Pick-up</h3><ol>{items}</ol>'


def allergens(*members: tuple[str, str], line: str = "contains", note: str = "") -> str:
    spans = ", ".join(f'<span data-key="{key}">{text}</span>' for key, text in members)
    return f'<dl class="allergens"><dt data-key="allergens.{line}">Contains</dt><dd>{spans}{note}</dd></dl>'


SALT = row("Fine salt", "180", "g", "360 g")


def test_an_amount():
    assert said(table(SALT), table(row("Fine salt", "165", "g", "360 g"))) == ["Fine salt 180 g → 165 g"]


def test_a_unit_alone():
    assert said(table(SALT), table(row("Fine salt", "180", "kg", "360 g"))) == ["Fine salt 180 g → 180 kg"]


def test_another_column_is_named():
    assert said(table(SALT), table(row("Fine salt", "180", "g", "400 g"))) == ["Fine salt · in all: 360 g → 400 g"]


def test_a_row_that_is_new_gone_renamed_noted_or_ticked_otherwise():
    pepper = row("Pepper", "9", "g", "18 g")
    assert said(table(SALT), table(SALT, pepper)) == ["new: Pepper 9 g"]
    assert said(table(SALT, pepper), table(SALT)) == ["out: Pepper 9 g"]
    renamed = row("Sea salt", "180", "g", "360 g", key="Fine salt")
    assert said(table(SALT), table(renamed)) == ["Fine salt is now called Sea salt"]
    noted = row("Fine salt", "180", "g", "360 g", note="warm")
    assert said(table(SALT), table(noted)) == ["Fine salt: now warm"]
    assert said(table(noted), table(SALT)) == ["Fine salt: no longer warm"]
    other = row("Fine salt", "180", "g", "360 g", note="cold")
    assert said(table(noted), table(other)) == ["Fine salt, note: warm → cold"]
    assert said(table(SALT), table(row("Fine salt", "180", "g", "360 g", ticks=3))) == [
        "Fine salt: another number of loads"
    ]


def test_rows_in_another_order():
    pepper = row("Pepper", "9", "g", "18 g")
    assert said(table(SALT, pepper), table(pepper, SALT)) == ["the order of what stands on the sheet changed"]


def test_a_step_reworded_does_not_reword_those_after_it():
    old = steps("Fire.", "Turn.", "Rest.", "Plate.")
    assert said(old, steps("Fire.", "Turn once.", "Rest.", "Plate.")) == ["Pick-up step 2 reworded"]
    assert said(old, steps("Fire.", "Salt.", "Turn.", "Rest.", "Plate.")) == ["Pick-up: step 2 is new: “Salt.”"]
    assert said(old, steps("Fire.", "Rest.", "Plate.")) == ["Pick-up: step 2 is out: “Turn.”"]


def test_allergens_are_told_member_by_member():
    milk, mustard = ("contains.milk", "milk"), ("contains.mustard", "mustard")
    assert said(allergens(milk), allergens(milk, mustard)) == ["now contains mustard"]
    assert said(allergens(milk, mustard), allergens(milk)) == ["no longer contains mustard"]
    nuts = ("contains.tree-nut", "nuts (walnut)"), ("contains.tree-nut", "nuts (walnut, almond)")
    assert said(allergens(nuts[0]), allergens(nuts[1])) == ["Contains: nuts (walnut) → nuts (walnut, almond)"]
    nothing = ("contains.nothing", "nothing on this house's lists")
    assert said(allergens(nothing), allergens(milk)) == ["now contains milk"]
    paste = ("undeclared.paste", "chipotle paste")
    declared = allergens(("undeclared.nothing", "nothing"), line="undeclared")
    assert said(declared, allergens(paste, line="undeclared")) == ["not declared: chipotle paste"]


def test_a_note_about_allergens_alone_is_told_too():
    milk = ("contains.milk", "milk")
    assert said(allergens(milk), allergens(milk, note=": ask")) == ["Contains: milk → milk: ask"]


def test_a_mark_of_the_matrix_is_told_by_dish_and_column():
    def matrix(mark: str, word: str) -> str:
        head = '<thead><tr data-key="heads"><th scope="col">dish</th><th scope="col">celery</th></tr></thead>'
        body = f'<tbody><tr data-key="rib"><th scope="row">Rib</th><td><span class="{mark}">{word}</span></td></tr></tbody>'
        return f'<table class="matrix"><colgroup><col class="name"/><col class="mark"/></colgroup>{head}{body}</table>'

    assert said(matrix("contains", "c"), matrix("free", "f")) == ["Rib · celery: contains → not in it"]
    words = said(matrix("contains", "contains nuts (walnut)"), matrix("contains", "contains nuts (almond)"))
    assert words == ["Rib · celery: contains nuts (walnut) → contains nuts (almond)"]


@pytest.mark.parametrize(
    ("before", "after", "words"),
    [
        ('<p data-key="makes">Makes 9 kg</p>', '<p data-key="makes">Makes 10 kg</p>', "Yield: Makes 9 kg → Makes 10 kg"),
        ('<p data-key="x">Old.</p>', '<p data-key="x">New.</p>', "Old. → New."),
        ("<p>Old.</p>", "<p>New.</p>", "Old. → New."),
        ("", '<p data-key="x">New.</p>', "new: New."),
        ("<dl><dt data-key='k'>Keeps</dt><dd>4 d</dd></dl>", "<dl><dt data-key='k'>Keeps</dt><dd>3 d</dd></dl>", "Keeps: 4 d → 3 d"),
        ("<h3 data-key='a'>Smoke</h3>", "<h3 data-key='a'>Roast</h3>", "Smoke is now called Roast"),
        (
            '<figure data-figure="p" aria-label="at 5"/>',
            '<figure data-figure="p" aria-label="at 6"/>',
            "the plate is drawn anew: places, sizes or counts changed",
        ),
        (f"<p data-key='x'>{'long ' * 30}</p>", "<p data-key='x'>short</p>", f"{('long ' * 30)[:59].rstrip()}… reworded"),
        ("<p><b>x</b></p>", "<p>x</p>", "same words, set another way"),
        ("<p>x</p><hr/>", "<p>x</p>", "same words, set another way"),
    ],
)  # fmt: skip
def test_other_blocks(before, after, words):
    assert said(before, after) == [words]


def test_the_head_of_the_sheet():
    assert said("", "", title="Ribs") == ["Name: Rib → Ribs"]
    assert said("", "", aside="draft") == ["Over the sheet: now draft"]


def test_nothing_changed():
    one = sheet(table(SALT))
    assert describe_difference(one, replace(one), english()) == ()


def limit(rule: str, source: str = "Food code. Your plan decides.") -> str:
    return (
        '<div class="box" data-key="limit.chill"><h3 data-key="limit.chill.title">Cool</h3>'
        f'<p class="safety" data-key="limit.chill.rule">{rule}</p>'
        f'<p class="source" data-key="limit.chill.source">{source}</p></div>'
    )


def test_a_food_safety_limit_is_told_whole_and_by_its_name():
    figures = "57 °C to 21 °C within 2 h, then to 5 °C within 6 h in all, and logged at both of these moments"
    assert said(limit("as fast as you can"), limit(figures)) == [f"Cool: now {figures}"]
    assert f"new: Cool: {figures}" in said("", limit(figures))


def test_nothing_that_a_guest_s_safety_hangs_on_is_cut_short():
    point = "When a ticket says allergy: ask, " + "and ask again " * 6 + "before you fry."
    old, new = (what_is_said(sheet(steps(*texts))) for texts in (("Fire.",), ("Fire.", point)))
    assert [one.plain for one in describe_said(old, new, english())] == [f"Pick-up: step 2 is new: “{point}”"]
    assert said(steps("Fire."), steps("Fire.", point))[0].endswith("…”")


def test_other_columns_are_named_once_and_not_of_each_row():
    def nights(*covers: str) -> str:
        cells = "".join(f'<th scope="col">{one}</th>' for one in covers)
        head = f'<tr data-key="heads">{cells}<th scope="col"/></tr>'
        row = f'<tr data-key="rib">{"<td>20</td>" * len(covers)}<th scope="row">Rib</th></tr>'
        columns = '<col class="figure"/>' * len(covers) + '<col class="name"/>'
        return f"<table><colgroup>{columns}</colgroup><thead>{head}</thead><tbody>{row}</tbody></table>"

    old, new = nights("40 covers", "60 covers"), nights("40 covers", "70 covers")
    assert said(old, new) == ["the columns changed: 60 covers → 70 covers"]


def asked(**verdicts: str) -> str:
    """Return what may be served, by what is done: *without* to a guest who must avoid ``nuts``, say."""
    said_of = {"refuse": "Do not serve:", "without": "Serve without crumb:", "brings": "capers itself:"}
    facts = "".join(
        f'<dt data-key="verdict.{key}"><b>{said_of[key]}</b></dt><dd>'
        + ", ".join(
            f'<span data-key="{"brought" if key == "brings" else "asked"}.{one}">{one}</span>' for one in foods.split()
        )
        + "</dd>"
        for key, foods in verdicts.items()
    )
    return f'<dl class="verdicts">{facts}</dl>'


@pytest.mark.parametrize(
    ("before", "after", "expected"),
    [
        (
            asked(refuse="milk"),
            asked(refuse="milk", without="nuts egg"),
            ["Serve without crumb: now when a guest must avoid nuts, egg"],
        ),
        (
            asked(refuse="milk", without="nuts"),
            asked(refuse="milk nuts"),
            [
                "Do not serve: now also when a guest must avoid nuts",
                "Serve without crumb: no longer when a guest must avoid nuts",
            ],
        ),
        (
            asked(without="nuts egg"),
            asked(without="egg"),
            ["Serve without crumb: no longer when a guest must avoid nuts"],
        ),
        (asked(without="nuts"), asked(without="nuts", brings="sesame"), ["capers itself: now sesame"]),
    ],
)
def test_what_is_served_to_whom_is_never_read_as_what_is_in_it(before: str, after: str, expected: list[str]) -> None:
    assert said(before, after) == expected
