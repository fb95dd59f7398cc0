"""The nearest valid word to a mistyped one: owns the comparison, knows nothing of faults."""

from __future__ import annotations

from collections.abc import Iterable

_LONGEST_WORD = 80
_MOST_CANDIDATES = 5000
_LEAST_BEGUN = 4
_SLIP = 0.8
_ALIKE = 0.6


def nearest(word: str, candidates: Iterable[str]) -> str | None:
    """Return the candidate a chef most likely meant by ``word``, or None where nothing is near.

    Capital letters, spaces and underscores do not count as differences, nor does the order of candidates. A slip of the
    pen comes first; then the only candidate that holds all the words typed, or begins with them; then what is alike.
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

    close = get_close_matches(form, by_form, n=1, cutoff=_SLIP) or _holding(form, by_form)
    close = close or get_close_matches(form, by_form, n=1, cutoff=_ALIKE)
    return by_form[close[0]] if close else None


def _holding(form: str, known: Iterable[str]) -> list[str]:
    """Return the one known form with all the words of ``form`` in it, or else the one that begins with it."""
    words = set(form.split("-"))
    with_words = [other for other in known if words <= set(other.split("-"))]
    begun = [other for other in known if len(form) >= _LEAST_BEGUN and other.startswith(form)]
    return next((found for found in (with_words, begun) if len(found) == 1), [])


def _form(word: str) -> str:
    return "-".join(word.casefold().replace("_", " ").replace("-", " ").split())
