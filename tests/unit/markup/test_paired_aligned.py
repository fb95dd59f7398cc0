"""What is the same under another key, and which step is which."""

from __future__ import annotations

from hypothesis import given
from hypothesis import strategies as st
from test_difference import row, said, steps, table

from linebook.markup.aligned import aligned

LETTERS = st.lists(st.sampled_from("abcdefgh"), max_size=8, unique=True)


def test_a_row_under_another_key_is_told_by_its_name() -> None:
    old = table(row("Aioli", "30", "g", "60 g", key="aioli"), row("Salt", "2", "g", "4 g"))
    new = table(row("Aioli", "25", "g", "60 g", key="garlic-mayo"), row("Salt", "2", "g", "4 g"))
    assert said(old, new) == ["Aioli 30 g → 25 g"]


def test_of_two_rows_of_a_name_each_is_its_own() -> None:
    old = table(row("Salt", "2", "g", "4 g", key="a.salt"), row("Salt", "9", "g", "9 g", key="b.salt"))
    new = table(row("Salt", "3", "g", "4 g", key="c.salt"), row("Salt", "9", "g", "9 g", key="d.salt"))
    assert said(old, new) == ["Salt 2 g → 3 g"]


def test_a_heading_that_is_called_otherwise_is_no_new_one() -> None:
    old, new = ('<h3 data-key="{0}">{1}</h3><ol><li data-key="{0}.1">Shallow pans.</li></ol>',) * 2
    assert said(old.format("chill", "Chill"), new.format("cool", "Cool")) == ["Chill is now called Cool"]


def test_how_it_is_cut_is_no_other_name() -> None:
    old = table(row("Leek <i>sliced</i>", "2", "g", "4 g", key="leek"))
    new = table(row("Leek <i>finely sliced</i>", "2", "g", "4 g", key="leek"))
    assert said(old, new) == ["Leek: sliced → finely sliced"]


def test_a_drawing_that_only_names_a_part_otherwise_is_not_drawn_anew() -> None:
    figure = '<figure data-figure="plate" aria-label="{} at 5, 60 mm"/>'
    old = figure.format("Gravy") + table(row("Gravy", "2", "g", "4 g", key="gravy"))
    new = figure.format("Jus") + table(row("Jus", "2", "g", "4 g", key="gravy"))
    assert said(old, new) == ["Gravy is now called Jus"]
    assert said(old, new.replace("60 mm", "70 mm")) == [
        "the plate is drawn anew: places, sizes or counts changed",
        "Gravy is now called Jus",
    ]


def test_a_photograph_is_one_whatever_it_shows() -> None:
    figure = '<figure class="photo" data-figure="photo-{}" aria-label="Hash, on the plate"/>'
    assert said(figure.format("a"), figure.format("b")) == ["the photograph is another one"]
    assert said("", figure.format("b")) == ["new: the photograph"]


def test_steps_that_change_places_are_moved() -> None:
    old = steps("Fire the rib.", "Turn it twice.", "Rest it well.", "Plate it hot.")
    moved = steps("Fire the rib.", "Rest it well.", "Turn it twice.", "Plate it hot.")
    assert said(old, moved) in (["Pick-up: step 3 is now step 2"], ["Pick-up: step 2 is now step 3"])
    joined = steps("Fire the rib.", "Salt.", "Turn it four times.", "Rest it well.", "Plate it hot.")
    assert said(old, joined) == ["Pick-up step 3 reworded: twice → four times", "Pick-up: step 2 is new: “Salt.”"]


@given(LETTERS, LETTERS)
def test_steps_aligned_account_for_every_one(old: list[str], new: list[str]) -> None:
    pairs = list(aligned(old, new))
    gone = [was for was, now in pairs if now is None]
    come = [now for was, now in pairs if was is None]
    both = [(was, now) for was, now in pairs if was is not None and now is not None]
    assert len(set(gone) | {was for was, _ in both}) == len(gone) + len(both)
    assert len(set(come) | {now for _, now in both}) == len(come) + len(both)
    stay_old = [one for at, one in enumerate(old) if at not in gone and at not in {was for was, _ in both}]
    stay_new = [one for at, one in enumerate(new) if at not in come and at not in {now for _, now in both}]
    assert stay_old == stay_new, "what is not told stands in the same turn"
    assert not {old[at] for at in gone if at is not None} & {new[at] for at in come if at is not None}
