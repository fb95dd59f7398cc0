"""The registry of codes: complete, well named, and with the severity the faults get."""

from __future__ import annotations

import re

import pytest

from linebook.source.codes import CODES, fault
from linebook.source.faults import Severity
from linebook.source.spans import SourceFile


def test_every_code_is_registered_under_its_own_number_in_order() -> None:
    assert list(CODES) == sorted(CODES)
    assert all(number == code.number for number, code in CODES.items())
    assert all(re.fullmatch(r"LB[1-9][0-9]{2}", number) for number in CODES)


def test_names_are_kebab_case_and_used_once() -> None:
    names = [code.name for code in CODES.values()]
    assert len(set(names)) == len(names)
    assert all(re.fullmatch(r"[a-z0-9]+(-[a-z0-9]+)*", name) for name in names)


def test_titles_have_no_full_stop_and_no_program_words() -> None:
    for code in CODES.values():
        assert code.title
        assert not code.title.endswith(".")
        assert not re.search(r"\b(string|integer|boolean|dict|null|None|exception|parse[rd]?|token)\b", code.title)


def test_a_fault_takes_its_severity_from_the_registry() -> None:
    source = SourceFile(path="a.md", text="abc")
    assert fault("LB112", "x", source.whole()).severity is Severity.WARNING
    made = fault("LB301", "x", source.span(1, 2), hints=["one"])
    assert (made.severity, made.hints, made.span.text) == (Severity.ERROR, ("one",), "b")


def test_a_code_that_is_not_registered_is_our_own_mistake() -> None:
    with pytest.raises(KeyError):
        fault("LB999", "x", None)
