"""Which issues know of which, and that what turns either of two into a third turns the other into it too."""

from __future__ import annotations

from datetime import date

import pytest
from hypothesis import given
from hypothesis import strategies as st

from linebook.compute.apart import either, known_to, last_made, open_on, side_by_side
from linebook.compute.swap import Act, line_swap
from linebook.model.issue import Issue, IssuedSheet, in_order

SHEETS = st.lists(st.tuples(st.sampled_from("abcdef"), st.sampled_from("012")), unique_by=lambda drawn: drawn[0])


def made(check: str, day: int, *known: str, number: int = 1, says: str = "", tells: bool = True) -> Issue:
    return issue(check, day, known if tells else None, number, [("a", says or check)])


def issue(check: str, day: int, known: tuple[str, ...] | None, number: int, drawn: list[tuple[str, str]]) -> Issue:
    sheets = tuple(
        IssuedSheet(id=f"batch-card:{name}", line="hearth", fingerprint=name + mark, pages=1, title=name)
        for name, mark in drawn
    )
    return Issue(
        menu="m", menu_name="M", day=date(2027, 3, day), number=number, options={}, lines=("hearth",), sheets=sheets,
        known=known, check=check,
    )  # fmt: skip


ROOT = made("R", 1)
HISTORIES = {
    "one after another": ((ROOT, made("A", 2, "R"), made("B", 3, "A")), 9, "", ""),
    "two branches on two days": ((ROOT, made("A", 2, "R"), made("B", 3, "R")), 9, "BA", "AB"),
    "two branches, before the second's day": ((ROOT, made("A", 2, "R"), made("B", 3, "R")), 2, "", ""),
    "a branch of two issues": ((ROOT, made("A", 2, "R"), made("B", 2, "A", number=2), made("C", 3, "R")), 9, "CB", "BC"),
    "of one day, the second as the third": ((ROOT, made("A", 2, "R"), made("B", 2, "A", number=2), made("C", 2, "R")), 9, "BC", "CB"),
    "settled": ((ROOT, made("A", 2, "R"), made("B", 3, "R"), made("C", 4, "A", "B")), 9, "", ""),
    "settled before the later's day": ((ROOT, made("A", 2, "R"), made("B", 5, "R"), made("C", 4, "A", "B")), 9, "BC", ""),
    "the same in both": ((ROOT, made("A", 2, "R", says="x"), made("B", 3, "R", says="x")), 9, "", ""),
    "made while one was ahead": ((ROOT, made("A", 5, "R"), made("B", 3, "A")), 9, "AB", ""),
    "the first of two branches": ((made("A", 2), made("B", 3)), 9, "BA", "AB"),
    "nothing told, on days": ((made("A", 2, tells=False), made("B", 3, tells=False)), 9, "", ""),
    "nothing told, of one day": ((made("A", 2, tells=False), made("B", 2, tells=False)), 9, "BA", "AB"),
    "one after what told nothing": ((made("A", 2, tells=False), made("B", 3, "A")), 9, "", ""),
    "what it followed is taken out": ((ROOT, made("B", 3, "A")), 9, "", ""),
}  # fmt: skip


@pytest.mark.parametrize("name", HISTORIES)
def test_issues_that_know_nothing_of_each_other_leave_open_what_stands(name: str) -> None:
    issues, day, left_open, apart = HISTORIES[name]
    register = in_order(issues)
    found = open_on(register, date(2027, 3, day)).get("hearth", ())
    assert "".join(one.check for one in found) == left_open
    told = side_by_side(register, date(2027, 3, day)).get("hearth", ())
    assert "".join(one.check for one in told) == apart


def test_the_next_issue_names_the_last_and_so_knows_of_all() -> None:
    for issues, _, _, _ in HISTORIES.values():
        register = in_order(issues)
        after = made("Z", 9, *last_made(register))
        assert known_to(register, after) == {one.check for one in issues}, issues
        assert not open_on(in_order((*issues, after)), date(2027, 3, 9))


@given(SHEETS, SHEETS, SHEETS)
def test_a_binder_of_either_becomes_the_next(
    left: list[tuple[str, str]], right: list[tuple[str, str]], new: list[tuple[str, str]]
) -> None:
    """Whoever works by the names: what is to come out may not be there, what is there already makes room."""
    one, other, after = (issue("Z", 3, (), 1, drawn) for drawn in (left, right, new))
    steps = line_swap("hearth", either("hearth", (one, other), after), after).steps
    for drawn in (left, right):
        binder, brought = dict(drawn), set[str]()
        for step in steps:
            if step.act in (Act.PULL, Act.EXCHANGE) and step.old and step.old.title not in brought:
                binder.pop(step.old.title, None)
            if step.act in (Act.INSERT, Act.EXCHANGE) and step.new:
                binder[step.new.title] = step.new.fingerprint[1]
                brought.add(step.new.title)
        assert binder == dict(new)
