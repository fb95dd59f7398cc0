"""The cutting plan of a component: what it says against sums done by hand, and that all of it is on the sheet."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction

import pytest
from sample_house import (
    SPAN,
    amount,
    dated_night,
    sample_components,
    sample_house,
    sheet,
    short_rib_dish,
    simple,
    standard_night,
)
from test_view_mutations import DRESS, mutations

from linebook.compute.base import base_batch
from linebook.compute.batches import compute_batch
from linebook.compute.demand import compute_night
from linebook.documents.binder_order import BinderEntry, binder_order
from linebook.documents.cutting_plan import binder_cutting_plan, night_cutting_plan
from linebook.documents.wording import english, wording_in
from linebook.markup.difference import describe_difference
from linebook.markup.fingerprint import fingerprint_of
from linebook.model.component import Cut
from linebook.model.supply import StockEntry

RIB = "short-rib-glazed"
NB = "\u00a0"


def cut(block, piece, *, kerf=0, edges=0, blocks=1, turned=False):
    sides = [tuple(Fraction(side) for side in pair) for pair in (block, piece)]
    return Cut(
        block=sides[0],
        piece=sides[1],
        kerf=Fraction(kerf),
        edges=Fraction(edges),
        blocks=blocks,
        turned=turned,
        span=SPAN,
        spans={},
    )


SIXTY = cut((490, 250), (48, 40), edges=5)
"""Ten by six: the sample's rib makes 60 pieces."""


def house(block=SIXTY, **changes):
    components = sample_components()
    return sample_house(components={**components, RIB: replace(components[RIB], cut=block, **changes)})


def in_a_binder(kitchen, nights=(80, 140), wording=None):
    computed = [compute_night(kitchen, standard_night(covers)) for covers in nights]
    return binder_cutting_plan(kitchen, base_batch(kitchen, RIB), computed, "early-spring", wording or english())


def figures(view, key):
    return [figure.plain for row in view.rows if row.key == f"count.{key}" for figure in row.figures]


def plain(texts):
    return [text.plain.replace(NB, " ") for text in texts]


def test_the_cuts_in_words():
    view = in_a_binder(house())
    assert plain([view.lead, view.block]) == [
        "60 pieces of 48 × 40 mm from each block",
        "The block measures 490 × 250 mm.",
    ]
    assert plain(step.text for step in view.steps) == [
        "Square off 5 mm on every side (cuts 1 to 4).",
        "Cut 6 strips of 40 mm, 480 mm long (cuts 5 to 9).",
        "Cut across into 10 pieces of 48 mm a strip (cuts 10 to 18).",
    ]
    alternative = view.figure.alternative.plain.replace(NB, " ")
    assert alternative.startswith("A block of 490 × 250 mm from above. Square off 5 mm")
    assert alternative.endswith("That gives 60 pieces of 48 × 40 mm from each block.")


def test_the_cuts_of_two_parts_in_words():
    view = in_a_binder(house(cut((530, 325), (90, 60), edges=5, kerf=2, turned=True), pieces=Fraction(28)))
    assert plain(step.text for step in view.steps)[1:] == [
        "Cut 5 strips of 90 mm and 1 strip of 60 mm, 315 mm long (cuts 5 to 9).",
        "Cut each 90 mm strip across into 5 pieces of 60 mm (cuts 10 to 14).",
        "Cut each 60 mm strip across into 3 pieces of 90 mm (cuts 15 to 17).",
    ]
    facts = {fact.key: fact.value.plain.replace(NB, " ") for fact in view.facts}
    assert facts["fact.left-over"] == "5 of 90 × 5 mm, 1 of 60 × 39 mm"
    assert facts["fact.kerf"].startswith("2 mm a cut")
    # 28 x 90 x 60 of 530 x 325 is 87.78 %
    assert facts["fact.lost"].startswith("87.8 % is in the pieces, 4.9 % is squared off")


def test_one_piece_needs_no_cut():
    view = in_a_binder(house(cut((60, 40), (60, 40), blocks=60)))
    assert plain(step.text for step in view.steps) == [
        "Cut 1 strip of 40 mm, 60 mm long.",
        "Each strip is 1 piece, 60 mm long.",
    ]
    assert view.lead.plain.startswith("1 piece of")


def test_blocks_for_the_standard_nights():
    kitchen = house()
    needed = []
    for covers in (80, 140):
        batch = compute_night(kitchen, standard_night(covers)).batches[RIB]
        assert batch.pieces is not None
        needed.append(batch.pieces)
    view = in_a_binder(kitchen)
    assert figures(view, "pieces") == ["60", *(str(pieces) for pieces in needed)]
    assert figures(view, "blocks") == ["1", *(str(-(-pieces // 60)) for pieces in needed)]
    assert figures(view, "over") == ["0", *(str(-pieces % 60) for pieces in needed)]
    assert plain(view.heads) == ["base batch", "80 covers", "140 covers"]


def test_two_pieces_a_portion_for_a_hundred_and_twenty():  # common practice, no source: 240 pieces
    """From blocks of 60 these are four; two pieces a portion are thirty portions a block."""
    kitchen = house(makes=amount("60 pieces"), pieces=None, largest_batch=None)
    batch = compute_batch(kitchen, RIB, makes=amount("240 pieces"))
    night = replace(compute_night(sample_house(), dated_night(120)), batches={RIB: batch})
    view = night_cutting_plan(kitchen, night, RIB, english())
    assert (figures(view, "blocks"), figures(view, "pieces"), figures(view, "over")) == (["4"], ["240"], ["0"])


def test_portions_of_a_block():
    """The sample's dish carries two pieces in its first size and one in the taste."""
    said = {fact.key: fact.value.plain for fact in in_a_binder(house()).facts}["fact.portion"]
    portions = [one.split(": ")[1] for one in said.split("; ")]
    assert portions[0] == "2 pieces a portion, 30 portions from a block"


def test_portions_through_another_component():
    """Thirty pairs are made of sixty pieces, and a plate carries a pair and a half: three pieces."""
    pair = simple("rib-pair", "Rib pair", "hearth", "30 pieces", (RIB, "60 pieces"))
    dish = short_rib_dish()
    at = next(number for number, element in enumerate(dish.elements) if element.item == RIB)
    carried = replace(dish.elements[at], item="rib-pair", amount=amount("1.5 pieces"))
    plate = replace(dish, sizes=(), elements=(*dish.elements[:at], carried, *dish.elements[at + 1 :]))
    kitchen = house()
    kitchen = replace(
        kitchen,
        components={**kitchen.components, "rib-pair": pair},
        dishes={**kitchen.dishes, dish.id: plate},
    )
    said = {fact.key: fact.value.plain for fact in in_a_binder(kitchen, ()).facts}["fact.portion"]
    assert said == f"{dish.name}: 3 pieces a portion, 20 portions from a block"


def test_whole_steps_and_stock_are_told_apart_from_need():
    """A night is short of what is not on hand; of blocks made in whole steps the rest is over."""
    kitchen = house(batch_step=amount("9 kg"), largest_batch=None)
    at_hand = StockEntry(item=RIB, amount=amount("1.5 kg"), use_by=dated_night().date, span=SPAN, spans={})
    occasion = replace(dated_night(80), on_hand=(at_hand,))
    night = compute_night(kitchen, occasion)
    batch = night.batches[RIB]
    assert batch.needed is not None
    short = batch.needed.number - Fraction(3, 2)  # kg, of which 9 are 60 pieces
    view = night_cutting_plan(kitchen, night, RIB, english())
    blocks = -(-short // 9)
    pieces = -(-(short * 60 / 9) // 1)
    assert figures(view, "blocks") == [str(blocks)]
    assert figures(view, "pieces") == [str(pieces)]
    assert figures(view, "over") == [str(blocks * 60 - pieces)]


def test_one_night_says_for_which():
    view = night_cutting_plan(house(), compute_night(house(), dated_night()), RIB, english())
    assert view.id == f"cutting-plan:{RIB}:{dated_night().date}"
    assert "only" in view.aside.plain
    assert view.night
    assert len(view.heads) == 1


def test_it_follows_its_batch_card():
    order = binder_order(house(), "early-spring", "hearth")
    at = order.index(BinderEntry(document="batch-card", subject=RIB))
    assert order[at + 1] == BinderEntry(document="cutting-plan", subject=RIB)
    assert not [entry for entry in binder_order(sample_house(), "early-spring", "hearth") if "cutting" in entry.id]


def test_no_price_is_on_it():
    kitchen = house()
    assert "£" not in repr(in_a_binder(kitchen)) + repr(sheet(in_a_binder(kitchen)))


def test_it_is_said_in_two_languages():
    view = in_a_binder(house(), wording=wording_in(("en", "es")))
    assert view.steps[1].text.both.replace(NB, " ") == (
        "Cut 6 strips of 40 mm, 480 mm long (cuts 5 to 9). / "
        "Cortar 6 tiras de 40 mm, de 480 mm de largo (cortes 5 a 9)."
    )


@pytest.mark.parametrize("form", ["binder", "night", "two parts"])
def test_every_field_is_on_the_sheet_and_its_change_is_said(form):
    kitchen = house()
    view = in_a_binder(kitchen)
    if form == "night":
        view = night_cutting_plan(kitchen, compute_night(kitchen, dated_night()), RIB, english())
    elif form == "two parts":
        view = in_a_binder(house(cut((530, 325), (90, 60), edges=5, kerf=2, turned=True), pieces=Fraction(28)))
    before = sheet(view)
    seen = {fingerprint_of(before)}
    for path, changed in mutations(view):
        after = sheet(changed)
        assert fingerprint_of(after) not in seen, f"{path} is not on the sheet"
        seen.add(fingerprint_of(after))
        said = [text.plain for text in describe_difference(before, after, english())]
        assert said, path
        assert DRESS not in said, path
    assert len(seen) > 12
