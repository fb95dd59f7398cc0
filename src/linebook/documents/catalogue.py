"""The sentences of one language, by key. Owns which languages there are, and what only a language's grammar knows:

which sentence goes with a number, and how *and* is said before a word. English is a table of this package; any other
is read from its gettext catalogue in ``catalogues``, and only when it is asked for.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Mapping
from functools import cache
from pathlib import Path
from typing import TYPE_CHECKING, Final

from linebook.documents.english import ENGLISH
from linebook.source.frozen import frozen

if TYPE_CHECKING:
    from gettext import GNUTranslations

LANGUAGES: Final[Mapping[str, str]] = {"en": "English", "es": "Spanish"}
"""The languages that labels can be printed in, with their English names."""

AND: Final = "list.and"
AND_BEFORE_I: Final = "list.and.before-i"
_FORMS: Final[Mapping[str, tuple[str, ...]]] = {"en": ("one", "many"), "es": ("one", "million", "many")}
"""The sentences that go with a number, in the order of the catalogue's plural forms. ``many`` is for all others."""

_BEGINS_WITH_I: Final[Mapping[str, str]] = {"es": r"(?i)[ií]|h[ií](?![ae])"}
"""Before such a word *y* is *e*: *hinojo*, not *hielo*. The rule of the Unicode list patterns as ICU applies it."""


def _one_or_many(count: int) -> int:
    return 0 if count == 1 else 1


@frozen
class Catalogue:
    """Sentences by key. ``form_of`` takes a number to its place in ``forms``, which a counted key ends with."""

    sentences: Mapping[str, str]
    language: str = "en"
    form_of: Callable[[int], int] = _one_or_many

    def counted(self, key: str, count: int) -> str:
        """Return the sentence of a key that goes with a number."""
        return self.sentences[f"{key}.{_FORMS[self.language][self.form_of(count)]}"]

    def and_before(self, word: str) -> str:
        """Return the key of *and* as it is said before a word."""
        begins_with_i = _BEGINS_WITH_I.get(self.language)
        return AND_BEFORE_I if begins_with_i and re.match(begins_with_i, word) else AND


ENGLISH_CATALOGUE: Final = Catalogue(sentences=ENGLISH)


def counted_keys() -> tuple[str, ...]:
    """Return the keys that have a sentence for one and another for many."""
    return tuple(key.removesuffix(".many") for key in ENGLISH if key.endswith(".many"))


@cache
def catalogue_of(language: str) -> Catalogue:
    """Return the sentences of a language; what its catalogue lacks is said in English."""
    if language == "en":
        return ENGLISH_CATALOGUE
    from gettext import GNUTranslations

    with (Path(__file__).parent / "catalogues" / f"{language}.mo").open("rb") as file:
        translations = GNUTranslations(file)
    sentences = {key: translations.pgettext(key, sentence) for key, sentence in ENGLISH.items()}
    for key in counted_keys():
        sentences |= _counted(translations, key, _FORMS[language])
    form_of: Callable[[int], int] = vars(translations)["plural"]
    return Catalogue(sentences=sentences, language=language, form_of=form_of)


def _counted(translations: GNUTranslations, key: str, forms: tuple[str, ...]) -> dict[str, str]:
    """Return the sentences of a counted key, one for each plural form."""
    one, many = ENGLISH[f"{key}.one"], ENGLISH[f"{key}.many"]
    plural: Callable[[int], int] = vars(translations)["plural"]
    found: dict[str, str] = {}
    for count in (1, 2, 1_000_000):
        found.setdefault(f"{key}.{forms[plural(count)]}", translations.npgettext(key, one, many, count))
    return found
