"""Reads what a table asks from the command line: the words, the seats, and what each word means in the house.

``--seat 3`` gives the plain words to a seat; ``--seat "3 preference: egg, milk"`` gives it words of its own.
"""

from __future__ import annotations

import re
from collections.abc import Iterable, Sequence
from typing import TYPE_CHECKING, Final, get_args

import click

from linebook.documents.guest_request import AskedWord, Degree, GuestRequest, GuestSeat

if TYPE_CHECKING:
    from linebook.model.house import House

MOST_SEATS: Final = 12
MOST_WORDS: Final = 12
LONGEST_WORD: Final = 40
LONGEST_PLACE: Final = 12
_PLACE: Final = re.compile(r"[0-9A-Za-zÀ-ÿ](?:[0-9A-Za-zÀ-ÿ .-]*[0-9A-Za-zÀ-ÿ])?")
_WORD: Final = re.compile(r"[^\W_](?:[\w '’&()/.+-]*[\w).])?")


def read_request(
    house: House, words: Sequence[str], seats: Sequence[str], *, table: str | None, degree: Degree
) -> GuestRequest:
    """Return what a table asks, or stop with 2: for a word that is not known, or words that are nobody's.

    Seats that ask the same are one.
    """
    plain = _listed(words)
    named = [_seat(text, degree) for text in seats]
    bare = [seat for seat, _, own in named if own is None]
    if not plain and not any(own for _, _, own in named):
        raise click.UsageError('Say what the guest avoids: linebook guest egg "tree nuts", or --seat "3: egg, milk".')
    if bare and not plain:
        raise click.UsageError(f'Say what seat {bare[0]} avoids: --seat "{bare[0]}: egg, milk".')
    if plain and named and not bare:
        first = named[0][0]
        raise click.UsageError(f'Say whose `{plain[0]}` is: give its seat with --seat "{first}: …" or a --seat alone.')
    asked = [(seat, own_degree, plain if own is None else own) for seat, own_degree, own in named]
    asked = asked or [("", degree, plain)]
    _refuse_twice([seat for seat, _, _ in asked])
    if len(asked) > MOST_SEATS:
        raise click.UsageError(f"{len(asked)} seats are more than one sheet holds: ask for {MOST_SEATS} at most.")
    known = _known(house, [word for _, _, own in asked for word in own])
    alike: dict[tuple[Degree, tuple[str, ...]], list[str]] = {}
    for seat, own_degree, own in asked:
        alike.setdefault((own_degree, tuple(dict.fromkeys(own))), []).extend([seat] if seat else [])
    return GuestRequest(
        table=_place(table, "table") if table is not None else "",
        seats=tuple(
            GuestSeat(places=tuple(places), degree=own_degree, asked=tuple(known[word] for word in own))
            for (own_degree, own), places in alike.items()
        ),
    )


def read_words(house: House, words: Sequence[str]) -> tuple[AskedWord, ...]:
    """Return what some words mean in the house, or stop with 2."""
    listed = _listed(words)
    if not listed:
        raise click.UsageError('Say what to look for: a word like egg, or "tree nuts".')
    known = _known(house, listed)
    return tuple(known[word] for word in dict.fromkeys(listed))


def _seat(text: str, degree: Degree) -> tuple[str, Degree, tuple[str, ...] | None]:
    """Return a seat, how strongly it avoids things, and its own words; None where it takes the plain ones."""
    head, colon, tail = text.partition(":")
    for own in get_args(Degree):
        if own and head.casefold().split()[-1:] == [own]:
            head, degree = head.rstrip()[: -len(own)], own
            break
    seat = _place(head.removeprefix("seat "), "seat")
    if not colon:
        return seat, degree, None
    listed = _listed([tail])
    if not listed:
        raise click.UsageError(f'Say what seat {seat} avoids: --seat "{seat}: egg, milk".')
    return seat, degree, listed


def _place(text: str, kind: str) -> str:
    """Return a table's or a seat's name as it is printed."""
    name = " ".join(text.split())
    if len(name) > LONGEST_PLACE or not _PLACE.fullmatch(name):
        what = f"`{_shown(name)}` is not a {kind}" if name else f"There is no name of the {kind}"
        raise click.UsageError(f"{what}: write letters and numbers, {LONGEST_PLACE} at most, like 14 or 3B.")
    return name


def _listed(texts: Iterable[str]) -> tuple[str, ...]:
    """Return the words in some texts, which commas part."""
    found = tuple(word for text in texts for part in text.split(",") if (word := " ".join(part.split())))
    for word in found:
        if len(word) > LONGEST_WORD or not _WORD.fullmatch(word) or not any(letter.isalpha() for letter in word):
            raise click.UsageError(
                f"`{_shown(word)}` is not what a guest avoids: write a word or a few, {LONGEST_WORD} letters at most."
            )
    if len(found) > MOST_WORDS * MOST_SEATS:
        raise click.UsageError(f"{len(found)} words are more than one sheet holds.")
    return found


def _shown(text: str) -> str:
    """Return text that is safe to show in a message."""
    plain = "".join(letter if letter.isprintable() else "?" for letter in text)
    return plain if len(plain) <= LONGEST_WORD else f"{plain[:LONGEST_WORD]}…"


def _refuse_twice(seats: Sequence[str]) -> None:
    for seat in seats:
        if sum(other.casefold() == seat.casefold() for other in seats) > 1:
            raise click.UsageError(f'Seat {seat} is there twice: write all it avoids in one --seat "{seat}: …".')


def _known(house: House, words: Sequence[str]) -> dict[str, AskedWord]:
    """Return what each word means here; stops at words that mean nothing, with the nearest that do."""
    from linebook.compute.guest_words import find_avoidances

    found = {word: find_avoidances(house, word) for word in dict.fromkeys(words)}
    unknown = [word for word, avoidances in found.items() if not avoidances]
    if unknown:
        raise click.UsageError("\n".join(_unknown(house, word) for word in unknown))
    return {word: AskedWord(word=word, avoidances=avoidances) for word, avoidances in found.items() if avoidances}


def _unknown(house: House, word: str) -> str:
    from linebook.compute.guest_words import nearest_words

    near = nearest_words(house, word)
    hint = f" Nearest: {', '.join(near)}." if near else " Ask for a food, an allergen or a diet by a plain word."
    return f"`{word}` is not a word this house knows, so nothing can be promised.{hint}"
