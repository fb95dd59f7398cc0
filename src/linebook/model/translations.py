"""What a house says in another language: names, notes and methods, by language; and how a method's sections pair up.

Knows no paper. A translation holds words alone: every amount, time and temperature of a card is the spec's own.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import field
from types import MappingProxyType
from typing import Final

from linebook.model.body import Body, Section
from linebook.model.record import Record
from linebook.source.frozen import frozen
from linebook.source.spans import Span

LANGUAGE_NAMES: Final[Mapping[str, str]] = MappingProxyType({"en": "English", "es": "Spanish"})
"""The languages that sheets are printed in, as people call them."""

NOTHING_SAID: Final[Mapping[str, Said]] = MappingProxyType({})


@frozen
class Said:
    """A text in the other language; ``key`` is the place of the id or words it stands for, ``span`` its own."""

    text: str
    span: Span = field(compare=False, repr=False)
    key: Span = field(compare=False, repr=False)


@frozen
class CardWords(Record):
    """A dish or a component in another language, from ``stem.es.md``.

    ``notes``, ``preps`` and ``tools`` are by item: ``walnut-crumb.2`` is the second line of one item. ``stages`` are by
    the stage's name in kebab-case. ``is_whole`` is false where a part of the file could not be read.
    """

    id: str
    language: str
    is_dish: bool
    name: str | None = None
    menu_text: str | None = None
    sort: str | None = None
    notes: Mapping[str, Said] = NOTHING_SAID
    preps: Mapping[str, Said] = NOTHING_SAID
    tools: Mapping[str, Said] = NOTHING_SAID
    sizes: Mapping[str, Said] = NOTHING_SAID
    stages: Mapping[str, Said] = NOTHING_SAID
    also_makes: Mapping[str, Said] = NOTHING_SAID
    body: Body
    is_whole: bool = True


@frozen
class HouseWords(Record):
    """The names of a house in another language by id, and phrases by their exact text, from ``words.es.yaml``.

    A name of a dish or component stands here where its card has no translation of its own.
    """

    language: str
    dishes: Mapping[str, Said] = NOTHING_SAID
    components: Mapping[str, Said] = NOTHING_SAID
    pantry: Mapping[str, Said] = NOTHING_SAID
    lines: Mapping[str, Said] = NOTHING_SAID
    vessels: Mapping[str, Said] = NOTHING_SAID
    places: Mapping[str, Said] = NOTHING_SAID
    media: Mapping[str, Said] = NOTHING_SAID
    plates: Mapping[str, Said] = NOTHING_SAID
    courses: Mapping[str, Said] = NOTHING_SAID
    menus: Mapping[str, Said] = NOTHING_SAID
    avoid: Mapping[str, Said] = NOTHING_SAID
    phrases: Mapping[str, Said] = NOTHING_SAID


@frozen
class Translation:
    """All that a house says in one other language. ``cards`` are by id."""

    language: str
    cards: Mapping[str, CardWords]
    words: HouseWords | None = None


@frozen
class Translations:
    """Everything a house says in other languages. ``written`` is what its specs are written in, "" if not known."""

    written: str
    by_language: Mapping[str, Translation]

    def find(self, language: str) -> Translation | None:
        """Return the translation into a language; None where it is the specs' own, or there is none."""
        return self.by_language.get(language)


def written_language(languages: tuple[str, ...], translated: frozenset[str]) -> str:
    """Return which language specs are written in, "" where it is not known.

    It is the first that the house prints, unless that is the only one it prints and the only one it is translated into.
    """
    first = languages[0]
    return "" if translated == {first} and len(languages) == 1 else first


def paired_sections(own: Body, other: Body) -> tuple[tuple[Section, Section], ...]:
    """Return each section of a method with the one that translates it, in the order of ``own``.

    Sections belong together by their headings where the translation has kept them all, else by their order.
    """
    keys = {section.key for section in own.sections}
    if all(section.key in keys for section in other.sections):
        kept = {section.key: section for section in other.sections}
        return tuple((section, kept[section.key]) for section in own.sections if section.key in kept)
    return tuple(zip(own.sections, other.sections, strict=False))
