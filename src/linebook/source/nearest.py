"""The nearest valid word to a mistyped one: owns the comparison, knows nothing of faults."""

from __future__ import annotations

from collections.abc import Iterable

_LONGEST_WORD = 80
_MOST_CANDIDATES = 5000


def nearest(word: str, candidates: Iterable[str]) -> str | None:
    """Return the candidate a chef most likely meant by ``word``, or None where nothing is near.

    Capital letters, spaces and underscores do not count as differences, nor does the order of candidates.
    """
    if not word or len(word) > _LONGEST_WORD:
        return None
    by_form: dict[str, str] = {}
    for candidate in sorted(set(candidates))[:_MOST_CANDIDATES]:
        by_form.setdefault(_form(candidate), candidate)
    form = _form(word)
    if form in by_form:
        return by_form[form]
    from difflib import get_close_matches  # here, because only a mistake needs it

    close = get_close_matches(form, by_form, n=1, cutoff=0.6)
    return by_form[close[0]] if close else None


def _form(word: str) -> str:
    return "-".join(word.casefold().replace("_", " ").replace("-", " ").split())
