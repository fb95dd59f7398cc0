"""What a member of an allergen line names, so that what is only called otherwise now is told from what is news.

*Nuts (walnut)* and *tree nuts (US) (walnut)* name walnut, *fish (cod, from the fryer)* names cod. Knows no sheets.
"""

from __future__ import annotations

import re
from collections.abc import Iterable
from functools import lru_cache
from typing import Final

from linebook.documents.allergen_names import list_short
from linebook.documents.wording import Wording
from linebook.model.taxonomy import LISTS

_LAST: Final = re.compile(r"(.*) \(([^()]*)\)")
_BETWEEN: Final = ", "


def named(text: str, wording: Wording) -> frozenset[str]:
    """Return which foods a member names: those in its brackets, without the list it is of and what brings it there.

    Where none is named, the member itself is meant.
    """
    shorts, sources = _of_no_food(wording)
    while found := _LAST.fullmatch(text):
        text, inside = found.groups()
        parts: list[str] = []
        for part in inside.split(_BETWEEN):
            if part.startswith(sources):
                break  # it stands last, and names as many media as there are
            parts.append(part)
        if parts and not shorts.issuperset(parts):
            return frozenset(parts)
    return frozenset([text])


def is_named(text: str, others: Iterable[str], wording: Wording) -> bool:
    """Return whether one of other members names all that a member does."""
    foods = named(text, wording)
    return any(foods <= named(other, wording) for other in others)


@lru_cache(4)
def _of_no_food(wording: Wording) -> tuple[frozenset[str], tuple[str, ...]]:
    """Return the short names of the lists, and how it begins where shared media bring something."""
    shorts = frozenset(list_short(one.short, wording).plain for one in LISTS.values())
    sources = (wording.say(key, medium="").plain for key in ("allergens.from", "allergens.partly-from"))
    return shorts, tuple(sources)
