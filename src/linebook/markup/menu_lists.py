"""What changed on the sheets that list the menu: the allergen matrix, a line's allergen page, its set-up sheet.

What came and what went is named once; of what stays, each verdict that is another one is told by dish and allergen. How
any other difference is found and worded is not its business.
"""

from __future__ import annotations

import re
from collections.abc import Collection, Iterable, Iterator, Mapping
from dataclasses import replace
from typing import Final

from linebook.documents.text import Text
from linebook.documents.wording import Wording
from linebook.markup.blocks import SheetText
from linebook.markup.difference import describe_said
from linebook.markup.paired import known_as
from linebook.markup.said import Said, SaidRow, SaidText, plain, what_is_said
from linebook.markup.seconds import languages_of
from linebook.markup.turned import Turner
from linebook.source.frozen import frozen

MATRIX: Final = "allergen-matrix"
LINE_PAGE: Final = "line-allergens"
SET_UP: Final = "set-up-sheet"
KINDS: Final = (MATRIX, LINE_PAGE, SET_UP)

_FREE: Final = "free"
_OF_A_DISH: Final = re.compile(r"(?:dish|part|note|changes|heading\.changes)\.([^.]+)(?:\.|$)")
_DRESS: Final = re.compile(
    r"heads|plate-heads|absent|unknown|legend\..*|group\..*|course\..*|heading\.(?:changes|media).*"
)
"""What follows from the rows of a list: its columns, how it is parted, which figures are written in by hand."""
_ROWS: Final = {MATRIX: "dish.", LINE_PAGE: "dish.", SET_UP: "item."}


@frozen
class Verdict:
    """A dish whose verdict for an allergen is another one now, in words."""

    dish: str
    text: Text


@frozen
class ListChanges:
    """What changed on such a sheet: verdicts first, then what else a guest's safety hangs on, then the rest."""

    verdicts: tuple[Verdict, ...]
    grave: tuple[Text, ...]
    other: tuple[Text, ...]


def tell_list(before: SheetText, after: SheetText, wording: Wording) -> ListChanges:
    """Return what changed between two issues of such a sheet, which may be of two menus."""
    new = what_is_said(after)
    teller = _Teller(
        kind=after.kind,
        old=known_as(_under_new_ids(what_is_said(before), new), new, _part_of),
        new=new,
        wording=wording,
        same_language=languages_of(before) == languages_of(after),
    )
    verdicts = tuple(teller.verdicts())
    grave, other = teller.rest({one.dish for one in verdicts})
    head = _under_another_list(before, after, wording)
    return ListChanges(verdicts=verdicts, grave=grave, other=(*teller.came_and_went(), *head, *other))


def _under_another_list(before: SheetText, after: SheetText, wording: Wording) -> Iterator[Text]:
    """Yield that what stands beside the menu's name changed: the allergen lists that are followed."""
    between = wording.say("kicker.between").plain
    old, new = (plain(sheet.aside).partition(between)[2] for sheet in (before, after))
    if old != new:
        yield wording.say("change.turned", what=wording.say("change.aside"), old=old, new=new)


def _under_new_ids(old: Mapping[str, Said], new: Mapping[str, Said]) -> Mapping[str, Said]:
    """Return what the old sheet says with the ids that dishes of the same name have in the new one."""
    dishes = {key: said.name for key, said in old.items() if key.startswith("dish.") and isinstance(said, SaidRow)}
    came = {said.name: key for key, said in new.items() if key.startswith("dish.") and isinstance(said, SaidRow)}
    now = {
        key.removeprefix("dish."): came[name].removeprefix("dish.")
        for key, name in dishes.items()
        if key not in new and name in came and came[name] not in old
    }
    return {".".join(now.get(part, part) for part in key.split(".")): said for key, said in old.items()}


def _part_of(key: str) -> str:
    """Return the dish that a row is a part of, or the kind of the row."""
    found = _OF_A_DISH.match(key)
    return found[0] if found else key.partition(".")[0]


@frozen
class _Teller:
    kind: str
    old: Mapping[str, Said]
    new: Mapping[str, Said]
    wording: Wording
    same_language: bool

    def came_and_went(self) -> Iterator[Text]:
        """Yield a sentence of what is new in the list, one of what is out, and on a set-up sheet the same of plates."""
        for start, word in ((_ROWS[self.kind], "list"), ("plate.", "plates"), ("made.", "made")):
            came, went = self._names(self.new, self.old, start), self._names(self.old, self.new, start)
            if came:
                yield self.wording.say(f"swap.{word}.came", what=self.wording.named(map(self.wording.told, came)))
            if went:
                yield self.wording.say(f"swap.{word}.went", what=self.wording.named(map(self.wording.told, went)))

    def verdicts(self) -> Iterator[Verdict]:
        """Yield each verdict that changed of a dish that is on both."""
        for key, row in self.new.items():
            before = self.old.get(key)
            if key.startswith("dish.") and isinstance(row, SaidRow) and isinstance(before, SaidRow):
                for text in self._cells(before, row):
                    yield Verdict(dish=key.removeprefix("dish."), text=text)

    def rest(self, told: Collection[str]) -> tuple[tuple[Text, ...], tuple[Text, ...]]:
        """Return what else changed, what hangs on allergens apart; ``told`` are dishes whose verdicts are told."""
        both = {key for key in (*self.old, *self.new) if self._stays(key)}
        notes = [key for key in self.new if key.startswith("note.") and key in both]
        both -= {*notes}
        grave = [*self._notes(notes, told)] if self.same_language else []
        for key in [key for key in {**self.new, **self.old} if key.startswith("part.") and key in both]:
            old, new = (self._part(key, said, told) for said in (self.old, self.new))
            if old and new:
                grave += self._cells(old, new, self._dish_of(key))
                both.discard(key)
        both -= {key for key in both if key.startswith("medium.") and self._is_alike(key)}
        rows = {key for key in both if key.startswith(("dish.", "made.", _ROWS[self.kind], "plate."))}
        apart = both - rows
        old_rest, new_rest = ({key: one[key] for key in one if key in apart} for one in (self.old, self.new))
        others = describe_said(old_rest, new_rest, self.wording)
        kept = [key for key in self.new if key in rows and key in self.old]
        pans = [*self._columns(), *(text for key in kept for text in self._row(key))]
        if self.kind == SET_UP:
            return (), (*pans, *others)
        return (*grave, *others), tuple(pans)

    def _part(self, key: str, said: Mapping[str, Said], told: Collection[str]) -> SaidRow | None:
        """Return the row of a part of a dish. A part without any allergen has none.

        Where a verdict of the dish is another one, ``told``, that is a row with all free: the part may well have been
        on the plate before, and is not new.
        """
        row = said.get(key)
        dish = _OF_A_DISH.match(key)
        if row is None and dish and dish[1] in told:
            there = {cell.column for one in said.values() if isinstance(one, SaidRow) for cell in one.cells}
            other = self.new.get(key) or self.old.get(key)
            if isinstance(other, SaidRow):
                known = [cell for cell in other.cells if cell.column in there]
                free = (one if one.mark in ("", _FREE) else replace(one, mark=_FREE, text="") for one in known)
                row = replace(other, cells=tuple(free))
        return row if isinstance(row, SaidRow) else None

    def _stays(self, key: str) -> bool:
        """Return whether something is of what is on both sheets, and no dress."""
        if _DRESS.fullmatch(key):
            return False
        dish = _OF_A_DISH.match(key)
        if dish is not None:
            return all(f"dish.{dish[1]}" in said for said in (self.old, self.new))
        return True

    def _notes(self, keys: Iterable[str], told: Collection[str]) -> Iterator[Text]:
        """Yield that what the marks of a dish stand for is worded otherwise, where none of its verdicts is told."""
        for key in keys:
            old, new = self.old.get(key), self.new[key]
            if not isinstance(old, SaidRow) or not isinstance(new, SaidRow) or key.removeprefix("note.") in told:
                continue
            if [cell.text for cell in old.cells] != [cell.text for cell in new.cells]:
                yield self.wording.say("swap.note", what=new.name)

    def _cells(self, old: SaidRow, new: SaidRow, dish: str = "") -> Iterator[Text]:
        """Yield the marks of a row that changed, those that changed alike in one sentence.

        A column that a line's page does not have, and that is named under it, is free on it.
        """
        before, after = ({cell.column: cell for cell in row.cells} for row in (old, new))
        told = self.wording.told
        part = {"what": told(dish), "column": told(new.name)}
        name = self.wording.say("change.in-column", **part) if dish else told(new.name)
        turned: dict[tuple[str, str], list[str]] = {}
        for column in {**after, **before}:
            one, other = before.get(column), after.get(column)
            if (one is None and not self._is_free(self.old, column)) or (
                other is None and not self._is_free(self.new, column)
            ):
                continue  # the house follows another list now, which is told once
            marks = (one.mark if one else "") or _FREE, (other.mark if other else "") or _FREE
            if marks[0] != marks[1]:
                turned.setdefault(marks, []).append(column)
            elif one and other and one.text != other.text and self.same_language:
                yield self.wording.say("change.turned", what=name, old=one.text, new=other.text)
        for (was, now), columns in turned.items():
            what = self.wording.say("change.in-column", what=name, column=self.wording.listed(map(told, columns)))
            old_word, new_word = (self.wording.say(f"change.mark.{mark}") for mark in (was, now))
            yield self.wording.say("change.turned", what=what, old=old_word, new=new_word)

    def _is_free(self, said: Mapping[str, Said], column: str) -> bool:
        """Return whether a line's page names a column under it as one that nothing on the line has."""
        absent = said.get("absent")
        if self.kind != LINE_PAGE or not isinstance(absent, SaidText):
            return False
        named = absent.text.rstrip(".").partition(": ")[2].split(", ")
        return column in named or column.partition(" (")[0] in named

    def _row(self, key: str) -> Iterator[Text]:
        """Yield another name of a row; on a set-up sheet also how it stands, and its figures in one sentence."""
        old, new = self.old[key], self.new[key]
        if not isinstance(old, SaidRow) or not isinstance(new, SaidRow):
            return
        if old.name != new.name and not key.startswith("made."):
            yield self.wording.say("change.renamed", old=old.name, new=new.name)
        if self.kind != SET_UP:
            return
        turner = Turner(wording=self.wording)
        texts = [
            (one.text, other.text) for one, other in zip(old.cells, new.cells, strict=False) if other.kind == "text"
        ]
        for was, now in texts[:1] if key.startswith("item.") else ():
            if was != now:
                yield turner.turned(self.wording.told(new.name), was, now)
        for was, now in texts[1:]:
            if was != now:
                yield turner.turned(self.wording.say("swap.waits", what=new.name), was, now)
        counts = [
            self.wording.listed(self.wording.told(cell.text) for cell in row.cells if cell.kind == "figure")
            for row in (old, new)
        ]
        if counts[0] != counts[1]:
            word = "swap.behind" if key.startswith("item.") else "swap.plates"
            yield self.wording.say(word, what=new.name, old=counts[0], new=counts[1])

    def _columns(self) -> Iterator[Text]:
        """Yield which columns are new, and which are no longer there because the house follows another list.

        A column that a line's page has not, because nothing on the line has anything of it, is there.
        """
        heads = [one.get("heads") for one in (self.old, self.new)] if self.kind != SET_UP else []
        old, new = (
            [cell.column for cell in row.cells] if isinstance(row, SaidRow) else [] for row in heads or (None, None)
        )
        for word, here, there, said in (("came", new, old, self.old), ("went", old, new, self.new)):
            columns = [self.wording.told(one) for one in here if one not in there and not self._is_free(said, one)]
            if columns:
                yield self.wording.say(f"swap.columns.{word}", what=self.wording.named(columns))

    def _is_alike(self, key: str) -> bool:
        """Return whether the same food goes through a medium, in whatever order it is named."""
        texts = [said.text for one in (self.old, self.new) if isinstance(said := one.get(key), SaidText)]
        return len(texts) == 2 and sorted(re.split(r"[;, ]+", texts[0])) == sorted(re.split(r"[;, ]+", texts[1]))

    def _dish_of(self, key: str) -> str:
        """Return the name of the dish that a row is a part of."""
        found = _OF_A_DISH.match(key)
        row = self.new.get(f"dish.{found[1]}") if found else None
        return row.name if isinstance(row, SaidRow) else ""

    def _names(self, here: Mapping[str, Said], there: Mapping[str, Said], start: str) -> list[str]:
        """Return what is in one and not in the other; what is made here and is on a plate now is still made here."""
        rows = (said for key, said in here.items() if key.startswith(start) and key not in there)
        plated = {said.name for said in there.values() if start == "made." and isinstance(said, SaidRow)}
        return [said.name for said in rows if isinstance(said, SaidRow) and said.name not in plated]
