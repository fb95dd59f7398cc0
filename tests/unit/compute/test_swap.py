"""What is pulled, put in, left and moved turns any row of sheets into any other; what says the same is never printed."""

from __future__ import annotations

from hypothesis import given
from hypothesis import strategies as st

from linebook.compute.swap import Act, SwapStep, swap_steps
from linebook.model.issue import IssuedSheet, folded

SHEETS = st.lists(
    st.tuples(st.sampled_from("abcdefgh"), st.sampled_from("01"), st.sampled_from((1, 2))), unique_by=lambda x: x[0]
)


def row(drawn: list[tuple[str, str, int]]) -> tuple[IssuedSheet, ...]:
    return tuple(
        IssuedSheet(id=f"batch-card:{name}", line="hearth", fingerprint=f"{name}{mark}", pages=pages, title=name)
        for name, mark, pages in drawn
    )


def done(old: tuple[IssuedSheet, ...], steps: tuple[SwapStep, ...]) -> tuple[list[IssuedSheet], list[IssuedSheet]]:
    """Return the row that results, and what had to be printed for it."""
    left, made, printed, aside = list(old), [], [], []
    for step in steps:
        if step.act in (Act.PULL, Act.EXCHANGE, Act.TAKE_OUT, Act.LEAVE):
            out = left.pop(0)
            assert out == step.old
            made += [out] if step.act is Act.LEAVE else []
            aside += [out] if step.act is Act.TAKE_OUT else []
        if step.act in (Act.INSERT, Act.EXCHANGE) and step.new:
            printed.append(step.new)
            made.append(step.new)
        if step.act is Act.PUT_BACK and step.new:
            aside = _without(aside, step.new)
            made.append(step.new)
        if step.act is Act.BRING_FORWARD and step.new:
            left = _without(left, step.new)
            made.append(step.new)
    assert not left
    assert not aside
    return made, printed


def _without(row: list[IssuedSheet], sheet: IssuedSheet) -> list[IssuedSheet]:
    """Return a row without a sheet that must be in it: what is put back is in the hand, what comes forward is behind."""
    assert sheet.fingerprint in [one.fingerprint for one in row]
    return [one for one in row if one.fingerprint != sheet.fingerprint]


@given(SHEETS, SHEETS)
def test_any_row_becomes_any_other_and_nothing_that_is_there_is_printed(
    before: list[tuple[str, str, int]], after: list[tuple[str, str, int]]
) -> None:
    old, new = row(before), row(after)
    made, printed = done(old, swap_steps(old, new))
    assert tuple(made) == new
    assert not set(before) & {(one.title, one.fingerprint[1], one.pages) for one in printed}


@given(SHEETS)
def test_printed_anew_nothing_stays(drawn: list[tuple[str, str, int]]) -> None:
    sheets = row(drawn)
    made, printed = done(sheets, swap_steps(sheets, sheets, again=True))
    assert tuple(made) == tuple(printed) == sheets


def test_a_fingerprint_is_folded_as_crockford_has_it() -> None:
    """https://www.crockford.com/base32.html: O is 0, I and L are 1, hyphens are passed over, U is none."""
    assert folded("o1iL-7f3a") == "01117F3A"
    assert folded(" 7F3A 91C2 ") == "7F3A91C2"
    assert [folded(word) for word in ("U", "", "7F3A91C22", "7F*A")] == ["", "", "", ""]
