"""What a menu change means for the oil, in words."""

from __future__ import annotations

from types import SimpleNamespace

import pytest

from linebook.compute.oil import OilState
from linebook.documents import oil_words
from linebook.documents.text import words
from linebook.documents.wording import english


def test_foods_with_commas_of_their_own_are_parted_by_semicolons(monkeypatch: pytest.MonkeyPatch) -> None:
    house = SimpleNamespace(file=SimpleNamespace(allergens=SimpleNamespace(avoid={})))
    state = OilState(medium="fryer", menus=("autumn",), left=("cod", "sulphites-at-10"), undeclared=())
    monkeypatch.setattr(oil_words, "oil_states", lambda *_: (state,))
    monkeypatch.setattr(oil_words, "medium_name", lambda *_: words("fryer"))
    monkeypatch.setattr(oil_words, "menu_name", lambda *_: words("autumn"))
    (text,) = oil_words.oil_texts(house, "winter", english())
    assert text.plain.endswith("cod; sulphites, at 10 mg a kg exactly.")
