"""Every figure and every brace of the demo's Spanish methods, changed one at a time, is one fault at its place."""

from __future__ import annotations

import re
from dataclasses import replace
from pathlib import Path

import pytest

from linebook.check.translated_methods import method_faults
from linebook.pipeline import load_house
from linebook.read.body import read_body
from linebook.read.reading import Reading
from linebook.source.spans import SourceFile

SPECS = Path(__file__).parents[3] / "specs"
NUMBER = re.compile(r"(?<![\w{])[0-9]+(?=[ .,:½*]|$)")
BRACE = re.compile(r"\{[^}]*\}")


@pytest.fixture(scope="module")
def house():
    loaded = load_house(SPECS, "specs")
    assert loaded.faults == ()
    return loaded.value


def method_of(path):
    """Return the whole text of a file and where its method begins."""
    text = path.read_text(encoding="utf-8")
    return text, text.index("\n---\n", 4) + 5


def faults_of(house, path, text, start):
    """Return the faults of a translated method that was changed, read on its own."""
    source, reading = SourceFile(path=path.name, text=text), Reading()
    body = read_body(source, start, len(text), reading)
    id_ = path.name.split(".")[0]
    card = house.dishes.get(id_) or house.components[id_]
    words = house.second.by_language["es"].cards[id_]
    return [*reading.faults, *method_faults(card, replace(words, body=body))]


def places(text, start, pattern):
    """Return where a pattern stands in the steps, their own numbers left out."""
    numbered = re.compile(r"[0-9]+\. ")
    return [
        found
        for found in pattern.finditer(text, start)
        if not (text[found.start() - 1] == "\n" and numbered.match(text, found.start()))
    ]


def translated():
    return sorted(SPECS.glob("*/*.es.md"))


def test_there_is_enough_to_change():
    counts = [(len(places(*method_of(path), NUMBER)), len(places(*method_of(path), BRACE))) for path in translated()]
    assert sum(numbers for numbers, _ in counts) > 150
    assert sum(braces for _, braces in counts) > 100


@pytest.mark.parametrize("path", translated(), ids=lambda path: path.name)
def test_as_it_is_there_is_no_fault(house, path):
    assert faults_of(house, path, *method_of(path)) == []


@pytest.mark.parametrize("path", translated(), ids=lambda path: path.name)
def test_every_figure_changed_is_told_at_its_line(house, path):
    text, start = method_of(path)
    for found in places(text, start, NUMBER):
        changed = f"{text[: found.start()]}{int(found[0]) + 1}{text[found.end() :]}"
        faults = faults_of(house, path, changed, start)
        line = text.count("\n", 0, found.start()) + 1
        assert [(fault.code, fault.span.line) for fault in faults] == [("LB320", line)], (found, faults)


@pytest.mark.parametrize("path", translated(), ids=lambda path: path.name)
def test_every_brace_left_out_is_told_at_its_line(house, path):
    text, start = method_of(path)
    for found in places(text, start, BRACE):
        faults = faults_of(house, path, text[: found.start()] + text[found.end() :], start)
        line = text.count("\n", 0, found.start()) + 1
        assert [(fault.code, fault.span.line) for fault in faults] == [("LB320", line)], (found, faults)


@pytest.mark.parametrize("path", translated(), ids=lambda path: path.name)
def test_every_step_left_out_is_one_fault(house, path):
    text, start = method_of(path)
    for step in re.finditer(r"^(?:[0-9]+\. |- ).*\n", text[start:], re.MULTILINE):
        changed = text[: start + step.start()] + text[start + step.end() :]
        faults = faults_of(house, path, changed, start)
        assert [fault.code for fault in faults] == ["LB510"], (step[0], faults)
