"""An amount no scale reads is weighed as a part of a solution. Hand-worked, and as a law."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction

from hypothesis import given
from hypothesis import strategies as st
from kitchen_factory import amount, bought, component, house, instrument, line

from linebook.compute.batches import compute_batch
from linebook.compute.dilution import dilution, dilutions
from linebook.model.house import InstrumentKind
from linebook.model.units import to_base

FINE = instrument(InstrumentKind.SCALE, "500 g", "0.1 g")
BENCH = instrument(InstrumentKind.SCALE, "15 kg", "5 g")


def kitchen(powder: str = "0.06 g", water: str = "1 L", scales=(BENCH, FINE), **fields):
    item = replace(bought("powder", weighs={"each": "0.06"}), dilute_in="water", **fields)
    lines = [line("milk", "10 kg"), line("powder", powder)] + ([line("water", water)] if water else [])
    made = house([item, bought("milk"), bought("water", density="1")], [component("it", "11 kg", lines)])
    return replace(made, file=replace(made.file, instruments=tuple(scales)))


def of(made, **size):
    return dilution(made, compute_batch(made, "it", **size), 1)


def test_a_powder_too_light_for_the_finest_scale():
    # 1 in 100 brings 0.06 g to 6 g; half a step of the fine scale is 1 % of 5 g
    found = of(kitchen(water="300 ml"))
    assert (found.weighed, found.solvent_weight, found.taken) == (amount("5 g"), amount("495 g"), amount("6 g"))
    assert (to_base(found.brings), found.from_line, found.matters) == (Fraction("5.94"), 2, True)


def test_what_little_it_brings_of_much_water_does_not_matter():
    found = of(kitchen(water="1 L"))
    assert (found.from_line, found.matters) == (2, False)


def test_without_its_solvent_on_the_card_it_is_extra():
    assert of(kitchen(water="")).from_line is None
    assert of(kitchen(water="5 ml")).from_line is None  # too little to take it off


def test_what_is_lighter_still_is_weighed_in_ten_steps_at_least():
    assert of(kitchen("0.001 g")).taken == amount("1 g")
    assert of(kitchen("0.0001 g")) is None  # weaker than 1 in 1000


def test_what_a_scale_reads_or_what_must_be_exact_is_not_diluted():
    assert of(kitchen("60 g")) is None
    assert of(kitchen("0.06 g", weigh_exactly=True)) is None
    assert of(kitchen("1 each")) is None
    assert of(kitchen(scales=())) is None


def test_one_solution_for_all_the_nights():
    made = kitchen("0.043 g")  # 1 in 200 alone, 1 in 100 for twice as much
    small, large = (compute_batch(made, "it", times=Fraction(times)) for times in (1, 2))
    alone = [dilution(made, batch, 1) for batch in (small, large)]
    alike = dilutions(made, (small, large), 1)
    assert alone[0].solvent_weight != alone[1].solvent_weight
    assert len({(one.weighed, one.solvent_weight) for one in alike}) == 1
    assert [one.taken for one in alike] == [amount("8.6 g"), amount("17.2 g")]
    assert dilutions(made, (small, compute_batch(made, "it", times=Fraction(1000))), 1)[1] is None


@given(
    st.fractions(min_value=Fraction(1, 1000), max_value=5, max_denominator=5000),
    st.sampled_from([Fraction(1, 200), Fraction(1, 100), Fraction(1, 20)]),
)
def test_what_it_brings_is_near_and_all_of_it_can_be_read(grams, tolerance):
    made = kitchen(f"{grams} g")
    made = replace(made, file=replace(made.file, tolerance=tolerance))
    found = of(made)
    if found is None:
        return
    weighed, solvent, taken = (to_base(one) for one in (found.weighed, found.solvent_weight, found.taken))
    brought = taken * weighed / (weighed + solvent)
    assert abs(brought - grams) <= tolerance * grams
    assert found.brings.number == taken - brought
    assert taken <= weighed + solvent
    for one in (weighed, taken):
        assert any(
            one <= to_base(tool.up_to) and (one / to_base(tool.reads)).denominator == 1 for tool in (FINE, BENCH)
        )


def test_a_house_that_weighs_in_ounces_dissolves_ounces():
    pounds = instrument(InstrumentKind.SCALE, "10 lb", "1/8 oz")
    found = of(kitchen("0.02 oz", scales=(pounds,)))
    # within half an eighth of an ounce in a hundred it would take 10 oz in 31 lb: so ten steps at least
    assert (found.weighed, found.solvent_weight, found.taken) == (amount("2 oz"), amount("198 oz"), amount("2 oz"))
