"""The theme: the packaged one is sound, and what is wrong in another is found where it is."""

import re

import pytest
from pdf_samples import THEME, read_text, theme_text

from linebook.pdf.theme import Styles, floor_of, names_of


def faults_of(old, new, count=1):
    text = theme_text()
    assert old in text
    outcome = read_text(text.replace(old, new, count))
    return outcome, [(one.code, one.span.line if one.span else 0, one.message) for one in outcome.faults]


def test_the_packaged_theme_has_no_faults():
    outcome = read_text(theme_text())
    assert outcome.faults == ()
    assert outcome.value == THEME


def test_lengths_are_read_as_points():
    assert THEME.papers["a4"].width == 595.28
    assert THEME.margins.binding == pytest.approx(22 / 25.4 * 72)
    assert THEME.styles.step.size == 14
    assert THEME.styles.title.size == 24
    assert THEME.styles.cover.size == 36


def test_the_packaged_sizes_keep_the_promises_of_the_design():
    assert THEME.styles.step.size == THEME.styles.amount.size == THEME.styles.name.size == 14
    for name in names_of(Styles):
        style = getattr(THEME.styles, name.replace("-", "_"))
        assert style.least >= floor_of(style.name) >= 9
    for role in ("safety", "caution"):
        assert THEME.paragraphs[role].least >= 12
        assert THEME.paragraphs[role].ink == "ink"
        assert THEME.paragraphs[role].never_grey


def test_no_two_styles_have_one_name():
    names = [getattr(THEME.styles, name.replace("-", "_")).name for name in names_of(Styles)]
    names += [style.name for style in THEME.paragraphs.values()]
    assert len(set(names)) == len(names)


@pytest.mark.parametrize(
    ("old", "new", "code", "words"),
    [
        ("step: {size: 14 pt, least: 12 pt", "step: {size: 14 pt, least: 11.5 pt", "LB802", "never under 12 pt"),
        ("step: {size: 14 pt, least: 12 pt", "step: {size: 10 pt", "LB802", "never under 12 pt"),
        ("caption: {size: 10 pt", "caption: {size: 8 pt", "LB802", "never under 9 pt"),
        ("safety: {size: 12 pt", "safety: {size: 11 pt", "LB802", "never under 12 pt"),
        ("under-title: 4 pt", "undertitle: 4 pt", "LB803", "`undertitle` is not a name"),
        ("papers:", "paper:", "LB803", "`paper` is not a name"),
        ("hang-gap: 9 pt", "hang-gap: 9", "LB108", "`9` is not a length"),
        ("hang-gap: 9 pt", "hang-gap: -9 pt", "LB108", "`-9 pt` is not a length"),
        ('quiet: {colour: "#595959"', "quiet: {colour: grey", "LB108", "`grey` is not a colour"),
        ("grey: 0.35", "grey: 35", "LB108", "`35` is not a number"),
        ("kicker: {size: 10 pt, leading: 1.3, face: bold}", "kicker: {size: 10 pt, leading: 1.3, face: bld}", "LB803", "`bld`"),
        ("fact: {size: 12 pt, leading: 1.3,", "fact: {size: 12 pt, leading: 1.3, ink: quiet,", "LB108", "never grey"),
        ("step: {size: 14 pt, least: 12 pt", "step: {size: 14 pt, least: 15 pt", "LB108", "more than its size"),
        ("  - {type: 1, leading: 1, space: 1}", "  - {type: 0.1, leading: 1, space: 1}", "LB108", "`0.1` is not a number"),
        ("over: white", "over: pink", "LB803", "`pink`"),
    ],
)  # fmt: skip
def test_a_fault_is_found_on_its_line(old, new, code, words):
    outcome, found = faults_of(old, new)
    assert outcome.value is None
    line = theme_text()[: theme_text().index(old)].count("\n") + 1
    assert any(one == code and at == line and words in message for one, at, message in found), found


def test_a_missing_name_is_named():
    outcome, found = faults_of("  under-title: 4 pt         # between the name and the strong rule\n", "")
    assert outcome.value is None
    assert any(code == "LB803" and "`under-title` is missing" in message for code, _, message in found)


def test_a_near_miss_is_hinted():
    outcome, _ = faults_of("hang-gap:", "hang-gapp:")
    assert any("did you mean `hang-gap`?" in hint for one in outcome.faults for hint in one.hints)


def test_all_faults_are_found_in_one_reading():
    text = theme_text().replace("hang: 28 pt", "hang: wide").replace("bullet: 15 pt", "bullet: narrow")
    text = re.sub(r"  step: \{size: 14 pt, least: 12 pt", "  step: {size: 8 pt", text)
    outcome = read_text(text)
    assert sorted(one.code for one in outcome.faults) == ["LB108", "LB108", "LB802"]


@pytest.mark.parametrize(
    "text", ["", "papers: 3", "- a\n- b", "papers: {a4: big}", "densities: []", "styles:\n  step: 3"]
)
def test_any_other_yaml_is_a_fault_not_a_crash(text):
    outcome = read_text(text)
    assert outcome.value is None
    assert outcome.faults
