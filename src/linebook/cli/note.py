"""``linebook note``: puts a tasting note into the file of a dish or component, and touches nothing else in it."""

from __future__ import annotations

import contextlib
import os
from datetime import date
from pathlib import Path, PurePosixPath
from typing import TYPE_CHECKING, Any, NoReturn

import click

from linebook.cli.options import DateType, IdType, find_house, refuse_word, stop_on_faults, today

if TYPE_CHECKING:
    from collections.abc import Sequence


class WordsType(click.ParamType[str]):
    """What was said, as one line; nothing is no words."""

    name = "words"

    def convert(self, value: Any, param: click.Parameter | None, ctx: click.Context | None) -> str:
        from linebook.source.characters import has_refused_character

        said = " ".join(str(value).split())
        if not said:
            self.fail("there are no words: type what was tasted, between quotes.", param, ctx)
        if has_refused_character(said):
            self.fail("a character in it cannot be printed: type it again.", param, ctx)
        return said


@click.command(short_help="Put a tasting note into the log of a dish or component.")
@click.argument("card", metavar="ID", type=IdType("dishes", "components"))
@click.argument("words", metavar="WORDS", type=WordsType())
@click.option("--changed", type=WordsType(), default=None, help="What you changed on the card for it.")
@click.option("--by", type=WordsType(), default=None, help="Who tasted.")
@click.option("--date", "day", type=DateType(), help="The day it was tasted, as 2027-03-06. Default: today.")
@click.option("--house", help="The house folder.")
def command(card: str, words: str, changed: str | None, by: str | None, day: date | None, house: str | None) -> None:
    """Put a tasting note into the log of the dish or component ID: `linebook note leeks-almond "more acid"`.

    Nothing else in its file changes, no remark and no line end. The note prints on the chef's copy (`linebook notes`)
    and beside what changed on the next swap sheet; the crew's sheets stay as they are.
    """
    from linebook.read.tasting_log import Note, find_cards, named_cards, with_note

    folder, shown = find_house(house)
    cards = find_cards(folder, shown)
    stop_on_faults(cards.faults)
    known = cards.value or ()
    named = named_cards(card, known)
    if len(named) != 1:
        _refuse_card(card, named, known)
    path = named[0]
    _refuse_unprintable(folder, shown, (words, changed or "", by or ""))
    tasted = day or today()
    place = folder / path
    content = _content(place)
    note = Note(day=tasted, tasted=words, changed=changed or "", by=by or "")
    added = with_note(content, folder, path, shown, note)
    stop_on_faults(added.faults)
    assert added.value is not None
    _write(place, content, added.value)
    said = " - ".join(filter(None, (words, changed)))
    click.echo(f"{path}: {tasted} {said}" + (f" ({by})" if by else ""))
    if tasted > today():
        click.echo(f"note: {tasted} is still to come.", err=True)


def _refuse_card(word: str, named: Sequence[PurePosixPath], known: Sequence[PurePosixPath]) -> NoReturn:
    """Stop with 2 for a word that names no card, or a dish and a component."""
    from linebook.source.nearest import nearest

    if named:
        both = " or ".join(f"`{path.with_suffix('')}`" for path in named)
        raise click.UsageError(f"`{word}` is a dish and a component: say which, {both}.")
    ids = sorted({path.stem for path in known})
    refuse_word("dish or component", word, nearest(word.rpartition("/")[2], ids), ids)


def _refuse_unprintable(folder: Path, shown: str, texts: Sequence[str]) -> None:
    """Stop with 1 for a character that the house's font lacks: it would stand in the way of the next swap sheet.

    In a house that cannot be read it is told when it is printed.
    """
    if all(text.isascii() for text in texts):
        return
    from linebook.house_theme import open_looks
    from linebook.pdf.characters import missing_characters
    from linebook.pdf.fonts import open_faces
    from linebook.read.house_folder import read_house

    house = read_house(folder, shown).outcome.value
    looks = open_looks(house.file, folder).value if house is not None and house.file is not None else None
    faces = open_faces(looks.theme, looks.theme_folder).value if looks is not None else None
    if faces is not None:
        stop_on_faults(missing_characters(set("".join(texts)), faces, "the note", lambda _: ()))


def _content(place: Path) -> bytes:
    with contextlib.suppress(OSError):
        return place.read_bytes()
    return b""


def _write(place: Path, before: bytes, after: bytes) -> None:
    """Write the file where it is still as it was read; stops with 1 where it is not, or may not be written."""
    from linebook.source.codes import fault
    from linebook.writing.atomic import write_file

    try:
        target = place.resolve()  # a link stays a link
        if not os.access(target, os.W_OK):
            raise PermissionError(13, os.strerror(13), str(place))
        if _content(place) != before:
            raise OSError(11, "it was saved by someone else just now", str(place))
        write_file(target, after)
    except OSError as mistake:
        hint = "see that it may be written and is not open elsewhere, then put the note in again"
        message = f"`{place.name}` cannot be written: {mistake.strerror}"
        stop_on_faults([fault("LB901", message, None, hints=(hint,))])
