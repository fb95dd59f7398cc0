"""Specs at the figure of a published rule, and just beyond it: the first is let through, the second is told.

Basis beside each: *read* is a text that was read (state or city adoptions of the numbered section for the Food Code),
*memory* is not. The Food Code is a model: the adopted local edition binds.
"""

from __future__ import annotations

import shutil
from pathlib import Path

import pytest

from linebook.check.house import check_house
from linebook.read.house_folder import read_house

SMALL_HOUSE = Path(__file__).parents[1] / "cases" / "small-house"
FDA = "FDA Food Code 2022"

SPEC = """---
name: Shin sauce
line: stove
makes: 2 L
density: 1.02 kg/L
keeps: {keeps}
store: {{{store}}}
ingredients:
  - {{item: shin-trim, amount: 800 g}}
  - {{item: water, amount: 4 L}}
stages:
{stages}
tested: 2027-01-20
---

{headings}
"""
COOLED = ("simmer, hands_on: 15 min, unattended: 1 h, until: 95 °C", "cool, unattended: 2 h, limit: cool")


def codes(tmp_path, rules, stages, keeps="3 d", store="at: 3 °C, where: walk-in"):
    """Return the codes of what is told about a card with these stages."""
    house = tmp_path / "specs"
    shutil.copytree(SMALL_HOUSE, house)
    file = house / "house.yaml"
    file.write_text(file.read_text(encoding="utf-8").replace(f"rules: {FDA}", f"rules: {rules}"), encoding="utf-8")
    listed = "\n".join(f"  - {{stage: {stage}}}" for stage in stages)
    headings = "\n".join(f"## {stage.partition(',')[0].capitalize()}\n\n1. Do it.\n" for stage in stages)
    text = SPEC.format(keeps=keeps, store=store, stages=listed, headings=headings)
    (house / "components" / "shin-sauce.md").write_text(text, encoding="utf-8")
    reading = read_house(house, "specs").outcome
    assert not reading.faults
    assert reading.value is not None
    return [fault.code for fault in check_house(reading.value).faults]


COOLING = [
    # 57 to 5 °C (135 to 41 °F) within 6 h in all: FDA Food Code 3-501.14(A)(2), read (Delaware, Oklahoma)
    (FDA, "cool, unattended: 6 h, limit: cool", []),
    (FDA, "cool, unattended: 6 h 5 min, limit: cool", ["LB508"]),
    # 57 to 21 °C (135 to 70 °F) within 2 h: 3-501.14(A)(1), read (Delaware, Oklahoma)
    (FDA, "cool, unattended: 2 h, until: 21 °C, limit: cool", []),
    (FDA, "cool, unattended: 2 h 5 min, until: 21 °C, limit: cool", ["LB508"]),
    # no figure in the law: assimilated Regulation (EC) 852/2004, Annex II (as quickly as possible), memory
    ("UK", "cool, unattended: 9 h, limit: cool", []),
    ("EU", "cool, unattended: 9 h, limit: cool", []),
]


@pytest.mark.parametrize(("rules", "stage", "told"), COOLING)
def test_cooling(tmp_path, rules, stage, told):
    assert codes(tmp_path, rules, (COOLED[0], stage)) == told


FROM_ROOM = [
    # made of food at room temperature: 5 °C (41 °F) within 4 h, FDA Food Code 3-501.14(B), read (Delaware, Oklahoma)
    (FDA, "mix, hands_on: 10 min, until: 20 °C", "cool, unattended: 4 h, limit: cool", []),
    (FDA, "mix, hands_on: 10 min, until: 20 °C", "cool, unattended: 4 h 5 min, limit: cool", ["LB508"]),
    # who does not say where may be at the stove: both clocks from 57 °C
    (FDA, "mix, hands_on: 10 min", "cool, unattended: 6 h, limit: cool", []),
    ("UK", "mix, hands_on: 10 min, until: 20 °C", "cool, unattended: 9 h, limit: cool", []),
]


@pytest.mark.parametrize(("rules", "first", "stage", "told"), FROM_ROOM)
def test_cooling_from_room_temperature(tmp_path, rules, first, stage, told):
    assert codes(tmp_path, rules, (first, stage)) == told


REHEATING = [
    # 74 °C (165 °F) within 2 h: FDA Food Code 3-403.11(A) and (D), read (Delaware)
    ("heat, unattended: 2 h, until: 74 °C, limit: reheat", []),
    ("heat, unattended: 2 h 5 min, until: 74 °C, limit: reheat", ["LB508"]),
    ("heat, unattended: 1 h, until: 73 °C, limit: reheat", ["LB508"]),
]


@pytest.mark.parametrize(("stage", "told"), REHEATING)
def test_reheating(tmp_path, stage, told):
    assert codes(tmp_path, FDA, (stage, COOLED[1])) == told


DATE_MARKS = [
    # 7 days at 5 °C (41 °F), the day of preparation being day 1: FDA Food Code 3-501.17(A), read (Southern Nevada)
    (FDA, "7 d", "at: 3 °C, where: walk-in", []),
    (FDA, "8 d", "at: 3 °C, where: walk-in", ["LB526"]),
    (FDA, "8 d", "at: 6 °C, where: walk-in", ["LB526", "LB508"]),
    # freezing stops the count: 3-501.17, read (a summary)
    (FDA, "60 d", "at: -20 °C, where: freezer", []),
    # no figure: the food business decides (UK, EU), memory
    ("UK", "14 d", "at: 3 °C, where: walk-in", []),
    ("EU", "14 d", "at: 3 °C, where: walk-in", []),
]


@pytest.mark.parametrize(("rules", "keeps", "store", "told"), DATE_MARKS)
def test_date_marking(tmp_path, rules, keeps, store, told):
    assert sorted(codes(tmp_path, rules, COOLED, keeps, store)) == sorted(told)


PACKS = [
    # cooked, packed, at 5 °C (41 °F) or below 7 days: FDA Food Code 3-502.12(D), read (a county table of 2013 values)
    (FDA, "packed without air", "7 d", "at: 5 °C", []),
    (FDA, "packed without air", "8 d", "at: 5 °C", ["LB527"]),
    # at 1 °C (34 °F) 30 days: 3-502.12(D)(2)(e), read (Conference for Food Protection, 2018)
    (FDA, "packed without air", "30 d", "at: 1 °C", []),
    (FDA, "packed without air", "31 d", "at: 1 °C", ["LB527"]),
    # one more barrier, here pH 4.6, 5 °C, 30 days: 3-502.12(B), read (Virginia, Wisconsin)
    (FDA, "packed without air; kept_by: acid", "30 d", "at: 5 °C", []),
    (FDA, "packed without air; kept_by: acid", "31 d", "at: 5 °C", ["LB527"]),
    # no limit while frozen: 3-502.12(D)(2)(e), read (Conference for Food Protection, 2018)
    (FDA, "packed without air", "90 d", "at: -20 °C, where: freezer", []),
    # 10 days from 3 to 8 °C without a further control: UK Food Standards Agency (2020), memory
    ("UK", "packed without air", "10 d", "at: 8 °C", []),
    ("UK", "packed without air", "11 d", "at: 8 °C", ["LB527"]),
    ("UK", "packed without air; kept_by: acid", "30 d", "at: 8 °C", []),
    # garlic in oil: 4 °C (40 °F), 7 days, or frozen: National Center for Home Food Preservation (2002), read
    ("EU", "kept under oil", "7 d", "at: 4 °C", []),
    ("EU", "kept under oil", "8 d", "at: 4 °C", ["LB527"]),
    ("EU", "kept under oil", "7 d", "at: 5 °C", ["LB527"]),
    ("EU", "kept under oil", "90 d", "at: -20 °C, where: freezer", []),
]


@pytest.mark.parametrize(("rules", "limit", "keeps", "store", "told"), PACKS)
def test_packs_and_oil(tmp_path, rules, limit, keeps, store, told):
    limit, _, kept_by = limit.partition("; ")
    stages = (*COOLED, f"pack, hands_on: 10 min, limit: {limit}")
    assert codes(tmp_path, rules, stages, f"{keeps}\n{kept_by}".strip(), store) == told


FREEZING = [
    # -20 °C (-4 °F) 168 h: FDA Food Code 3-402.11(A)(1), read (Washington, Wisconsin, Southern Nevada)
    (FDA, "168 h", "-20 °C", []),
    (FDA, "167 h", "-20 °C", ["LB508"]),
    # -35 °C (-31 °F) 15 h: 3-402.11(A)(2), read (Washington, Wisconsin)
    (FDA, "15 h", "-35 °C", []),
    (FDA, "14 h", "-35 °C", ["LB508"]),
    # -20 °C 24 h: Regulation (EC) 853/2004, Annex III, Section VIII, Chapter III, Part D, read
    ("UK", "24 h", "-20 °C", []),
    ("EU", "24 h", "-20 °C", []),
    ("EU", "23 h", "-20 °C", ["LB508"]),
    # -35 °C 15 h: the same, memory
    ("EU", "15 h", "-35 °C", []),
    ("EU", "14 h", "-35 °C", ["LB508"]),
]


@pytest.mark.parametrize(("rules", "time", "heat", "told"), FREEZING)
def test_freezing_for_raw(tmp_path, rules, time, heat, told):
    stage = f"freeze, unattended: {time}, until: {heat}, limit: freeze for raw, where: freezer"
    assert codes(tmp_path, rules, (stage,)) == told


WAITING = [
    # 4 h: FDA Food Code 3-501.19(B), read (Delaware)
    (FDA, "4 h", "at: 45 °C", []),
    (FDA, "4 h 5 min", "at: 45 °C", ["LB508"]),
    # 6 h from the cold, never above 21 °C (70 °F): 3-501.19(C), read (Delaware)
    (FDA, "6 h", "at: 21 °C", []),
    (FDA, "6 h 5 min", "at: 21 °C", ["LB508"]),
    (FDA, "4 h 5 min", "at: 22 °C", ["LB508"]),
    # hot food 57 °C (135 °F), roasts 54 °C (130 °F): 3-501.16(A)(1), read (Delaware)
    (FDA, "9 h", "at: 57 °C", []),
    # 4 h above 8 °C, 2 h below 63 °C: Food Safety and Hygiene (England) Regulations 2013, Schedule 4, memory
    ("UK", "4 h", "at: 15 °C", []),
    ("UK", "4 h 5 min", "at: 15 °C", ["LB508"]),
    ("UK", "2 h", "at: 60 °C", []),
    ("UK", "2 h 5 min", "at: 60 °C", ["LB508"]),
    ("UK", "9 h", "at: 63 °C", []),
]


@pytest.mark.parametrize(("rules", "keeps", "store", "told"), WAITING)
def test_time_as_control(tmp_path, rules, keeps, store, told):
    stages = ("simmer, hands_on: 15 min, until: 95 °C", "wait, hands_on: 5 min, limit: time as control")
    assert codes(tmp_path, rules, stages, keeps, store) == told
