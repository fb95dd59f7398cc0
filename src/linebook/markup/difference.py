"""What changed between two issues of a sheet, in kitchen words. Compares by key; the words are the catalogue's."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass
from typing import Final

from linebook.documents.text import Text, joined, words
from linebook.documents.wording import Wording
from linebook.markup.aligned import aligned
from linebook.markup.blocks import SheetText
from linebook.markup.named import is_named
from linebook.markup.paired import PHOTO, known_as, title_of
from linebook.markup.said import Said, SaidCell, SaidList, SaidRow, SaidText, plain, what_is_said
from linebook.markup.seconds import changed_alone, in_second_language, languages_of, reworded_alone
from linebook.markup.turned import LONG, SHORT, Turner, shortened

_ABOUT_ALLERGENS: Final = "allergens."
_MEDIUM: Final = "medium."
_VERDICT: Final = "verdict."
"""What can be said to a guest stands in the order of what it comes to, which is told with that."""
_ASKED: Final = "asked."
"""How the keys of members begin that a guest avoids: *Serve without crumb: nuts* says for whom, and serves no nuts."""
_OF_FOODS: Final = ("allergens.contains", "allergens.may-contain", _VERDICT)
"""The facts whose members are allergens with the foods they stand for. What is undeclared is named by item."""


def describe_difference(before: SheetText, after: SheetText, wording: Wording) -> tuple[Text, ...]:
    """Return a sentence for each thing that differs, in the order of the new sheet, what is gone last; () for none.

    Where all words are the same and the trees are not, one sentence says that only the dress changed.
    """
    if before == after:
        return ()
    writer = _DifferenceWriter(wording=wording)
    old, new = what_is_said(before), what_is_said(after)
    told = [*writer.heads(before, after), *writer.blocks(old, new), *_in_second_language(before, after, writer)]
    heads = wording.say("change.heads").plain
    if any(one.plain.startswith(heads) for one in told):  # which says it of every row
        told = [one for one in told if one not in {wording.say("change.columns", what=name) for name in _rows(new)}]
    said = tuple(dict.fromkeys(told))
    return said or (wording.say("change.dress"),)


def describe_said(old: Mapping[str, Said], new: Mapping[str, Said], wording: Wording) -> tuple[Text, ...]:
    """Return a sentence for each thing that differs between parts of two issues, without the order they stand in.

    A guest's safety may hang on it, so nothing is cut short.
    """
    order, writer = wording.say("change.order"), _DifferenceWriter(wording=wording, cuts=False)
    return tuple(one for one in dict.fromkeys(writer.blocks(old, new)) if one != order)


def _in_second_language(before: SheetText, after: SheetText, writer: _DifferenceWriter) -> Iterator[Text]:
    """Yield what changed in a sheet's second language and not in its first: *Spanish: Salt step 3 reworded*."""
    languages, known = languages_of(after), languages_of(before)
    for language in languages:
        if language not in known:
            yield writer.wording.say("change.second.added", language=writer.language(language))
    for language in known:
        if language not in languages:
            yield writer.wording.say("change.second.gone", language=writer.language(language))
    if not languages or languages != known:
        return
    second_before, second_after = in_second_language(before), in_second_language(after)
    named = writer.language(languages[0])
    for what in writer.heads(second_before, second_after, unless=(before, after)):
        yield writer.wording.say("change.second", language=named, what=what)
    said = (what_is_said(sheet) for sheet in (before, after, second_before, second_after))
    for what in writer.translated(*said):
        yield writer.wording.say("change.second", language=named, what=what)


@dataclass(frozen=True, slots=True)
class _DifferenceWriter:
    """Writes what differs. What is new or gone is shortened where it is long, if it ``cuts``."""

    wording: Wording
    cuts: bool = True

    @property
    def turner(self) -> Turner:
        """Return what says that a text is another one."""
        return Turner(wording=self.wording)

    def language(self, language: str) -> Text:
        """Return what a language is called."""
        key = f"language.{language}"
        return self.wording.say(key) if key in self.wording else words(language)

    def heads(
        self, before: SheetText, after: SheetText, *, unless: tuple[SheetText, SheetText] | None = None
    ) -> Iterator[Text]:
        """Yield what differs at the head of the sheet; what differs there in the sheets ``unless`` too is left out."""
        for part in ("title", "aside", "kicker"):
            old, new = plain(getattr(before, part)), plain(getattr(after, part))
            told = unless and plain(getattr(unless[0], part)) != plain(getattr(unless[1], part))
            if old != new and not told:
                yield self._head(part, old, new)

    def _head(self, part: str, old: str, new: str) -> Text:
        what = self.wording.say(f"change.{part}")
        return self.turner.whole(what, old, new) if part == "title" else self.turner.turned(what, old, new)

    def blocks(self, old: Mapping[str, Said], new: Mapping[str, Said]) -> Iterator[Text]:
        """Yield what differs in the blocks; an item under another key alone is the same one."""
        old = known_as(old, new)
        both = [(old[key], said) for key, said in new.items() if key in old]
        titles, names = {title_of(said) for said, _ in both} - {None}, [*_names(both)]
        for key, said in new.items():
            if key not in old and (isinstance(said, SaidList) or title_of(said) not in titles):
                yield self._added(said)
            elif key in old and old[key] != said and not _is_drawn_alike(old[key], said, names):
                yield from self._changed(old[key], said)
        for key, said in old.items():
            if key not in new and (isinstance(said, SaidList) or title_of(said) not in titles):
                yield self._gone(said)
        kept_old = [key for key in old if key in new and not key.startswith(_VERDICT)]
        kept_new = [key for key in new if key in old and not key.startswith(_VERDICT)]
        if kept_old != kept_new:
            yield self.wording.say("change.order")

    def translated(
        self, old: Mapping[str, Said], new: Mapping[str, Said], before: Mapping[str, Said], after: Mapping[str, Said]
    ) -> Iterator[Text]:
        """Yield what differs between two issues in their second language and is the same in the first."""
        for key in new:
            if key not in old or key not in before or key not in after:
                continue
            lists = [one for one in (old[key], new[key], before[key], after[key]) if isinstance(one, SaidList)]
            if len(lists) == 4:
                for at in reworded_alone(*lists):
                    yield self._item("reworded", lists[1], at)
            elif alone := changed_alone(old[key], new[key], before[key], after[key]):
                yield from self._changed(*alone)

    def _added(self, said: Said) -> Text:
        if isinstance(said, SaidText) and said.kind == "fact" and said.label and said.text:
            if _is_asked(said):
                return self.wording.say("change.asked.now", label=said.label, what=said.text)
            return self.wording.say("change.now", what=said.label, new=self._fact(said))
        return self.wording.say("change.added", what=self._whole(said))

    def _gone(self, said: Said) -> Text:
        if isinstance(said, SaidText) and said.kind == "fact" and said.label and said.text:
            if _is_asked(said):
                return self.wording.say("change.asked.gone", label=said.label, what=said.text)
            return self.wording.say("change.no-longer", what=said.label, old=self._fact(said))
        return self.wording.say("change.gone", what=self._whole(said))

    def _whole(self, said: Said) -> Text:
        """Return an item in one line, shortened where it is long."""
        if isinstance(said, SaidRow):
            amounts = [cell.text for cell in said.cells if cell.kind in ("amount", "figure") and cell.text][:1]
            amounts = [text for text in amounts if not text.isdecimal()]  # which says nothing without its column
            return self._in_a_row(" ", said.name, *amounts)
        if isinstance(said, SaidList):
            return self._in_a_row(" ", *([said.label] if said.label else said.texts))
        if said.kind == "heading":
            return self._in_a_row(" ", said.label)
        if said.kind == "figure":
            return self.wording.say("change.photo" if _is_photo(said) else "change.drawing")
        if _is_limit(said):
            return joined(map(self.wording.told, (said.label, said.text)), ": ")
        return self._in_a_row(": ", said.label, said.text)

    def _in_a_row(self, between: str, *texts: str) -> Text:
        whole = between.join(filter(None, texts))
        short = self._short(whole)
        return joined(map(self.wording.told, texts), between) if short == whole else self.wording.told(short)

    def _short(self, text: str, most: int = SHORT) -> str:
        return shortened(text, most) if self.cuts else text

    def _fact(self, said: SaidText) -> str:
        """Return the words of a fact; of a list of allergens none is cut off."""
        return said.text if said.members else self._short(said.text)

    def _changed(self, old: Said, new: Said) -> Iterator[Text]:
        if isinstance(old, SaidRow) and isinstance(new, SaidRow):
            yield from self._row(old, new)
        elif isinstance(old, SaidList) and isinstance(new, SaidList):
            yield from self._list(old, new)
        elif isinstance(old, SaidText) and isinstance(new, SaidText):
            yield from self._text(old, new)
        else:
            yield self.wording.say("change.reworded", what=self._whole(new))

    def _text(self, old: SaidText, new: SaidText) -> Iterator[Text]:
        if new.kind == "figure":
            yield self.wording.say("change.photo-changed" if _is_photo(new) else "change.drawing-changed")
            return
        if old.label != new.label:
            yield self.wording.say("change.renamed", old=old.label, new=new.label)
        if old.members != new.members:
            yield from self._members(old, new)
        elif old.text != new.text and _is_limit(new):
            yield self.wording.say("change.now", what=new.label, new=new.text)
        elif old.text != new.text and new.kind == "paragraph":
            key = f"change.of.{new.key}"
            what = self.wording.say(key) if key in self.wording else None
            yield from self.turner.sentences(what, old.text, new.text)
        elif old.text != new.text:
            yield self.turner.turned(self.wording.say("change.of", what=new.label), old.text, new.text)

    def _members(self, old: SaidText, new: SaidText) -> Iterator[Text]:
        """Yield what is another in a list, came or went; an allergen that only another list calls otherwise did not."""
        line = new.key if new.key.startswith(_ABOUT_ALLERGENS) else "asked" if _is_asked(new) else "list"
        for key, text in new.members.items():
            if key in old.members and old.members[key] != text:
                yield self._member(new, old.members[key], text)
        for word, here, there in (("added", new.members, old.members), ("gone", old.members, new.members)):
            others = {key: text for key, text in here.items() if key not in there and self._is_news(new, text, there)}
            if new.key.startswith(_MEDIUM):
                for text in others.values():
                    yield self._of_medium(word, new.label, text)
                continue
            texts = [self.wording.told(text) for key, text in others.items() if not key.endswith(".nothing")]
            each = texts if line.startswith(_ABOUT_ALLERGENS) else [self.wording.listed(texts)] if texts else []
            for what in each:
                yield self.wording.say(f"change.{line}.{word}", label=new.label, what=what)
        if list(old.members) != list(new.members) and set(old.members) == set(new.members):
            yield self.wording.say("change.order-of", what=new.label)

    def _of_medium(self, word: str, medium: str, text: str) -> Text:
        """Return that something is said or no longer said of a fryer: it is a phrase, *not changed since autumn*."""
        if word == "added":
            return self.wording.say("change.words-added", what=medium, new=text)
        return self.wording.say("change.words-gone", what=medium, old=text)

    def _is_news(self, fact: SaidText, text: str, there: Mapping[str, str]) -> bool:
        """Return whether a member of one issue of a fact is not in the other one, by whatever name its list has."""
        if fact.key.startswith(_OF_FOODS):
            return not is_named(text, there.values(), self.wording)
        return text not in there.values()

    def _member(self, fact: SaidText, old: str, new: str) -> Text:
        """Return what one of a list was and is; of what is in an allergen nothing is left out, however long it is."""
        what = self.wording.say("change.of", what=fact.label)
        if fact.key.startswith(_MEDIUM):
            return self.turner.turned(what, old, new)
        return self.wording.say("change.turned", what=what, old=old, new=new)

    def _row(self, old: SaidRow, new: SaidRow) -> Iterator[Text]:
        if old.name != new.name:
            yield self._renamed(old.name, new.name)
        if old.prep != new.prep:
            yield self.turner.turned(self.wording.say("change.of", what=new.name), old.prep, new.prep)
        if _columns(old) != _columns(new):
            yield self.wording.say("change.columns", what=new.name) if new.name else self._heads(old, new)
        else:
            for old_cell, new_cell in zip(old.cells, new.cells, strict=True):
                if old_cell != new_cell:
                    yield self._cell(new.name, old_cell, new_cell)
        if old.note != new.note:
            yield self._note(new.name, old.note, new.note)

    def _heads(self, old: SaidRow, new: SaidRow) -> Text:
        """Return that a table has other columns, and which, as where the standard nights are others."""
        said, before, after = self.wording.say("change.heads"), _columns(old), _columns(new)
        gone = ", ".join(one for one in before if one and one not in after)
        come = ", ".join(one for one in after if one and one not in before)
        if not gone or not come or max(len(gone), len(come)) > LONG:
            return said
        return self.wording.say("change.turned", what=said, old=gone, new=come)

    def _renamed(self, old: str, new: str) -> Text:
        """Return that something is called otherwise; of a row that is a list, what it was and is."""
        among = set(old.split(", ")) & set(new.split(", "))
        return self.wording.say("change.turned-alone" if among else "change.renamed", old=old, new=new)

    def _cell(self, name: str, old: SaidCell, new: SaidCell) -> Text:
        if new.kind == "amount":
            return self.wording.say("change.amount", what=name, old=old.text, new=new.text)
        if new.kind == "tick":
            return self.wording.say("change.ticks", what=name)
        if new.kind == "number":
            return self.wording.say("change.number", what=name, number=new.text)
        place = self.wording.say("change.in-column", what=name, column=new.column) if new.column else name
        if new.kind == "mark" and old.mark != new.mark:
            marks = (self.wording.say(f"change.mark.{cell.mark}").plain for cell in (old, new))
            return self.turner.turned(self.wording.say("change.of", what=place), *marks)
        return self.turner.turned(self.wording.say("change.of", what=place), old.text, new.text)

    def _note(self, name: str, old: str, new: str) -> Text:
        if not old:
            return self.wording.say("change.note-added", what=name, note=new)
        if not new:
            return self.wording.say("change.note-gone", what=name, note=old)
        return self.turner.turned(self.wording.say("change.note", what=name), old, new)

    def _list(self, old: SaidList, new: SaidList) -> Iterator[Text]:
        """Yield the steps or points that are new, gone or reworded, by their number under the heading."""
        steps = aligned(old.texts, new.texts)
        for was, now in steps:
            if was is None and now is not None:
                yield self._quoted("added", new, now)
            elif now is None and was is not None:
                yield self._quoted("gone", old, was)
            elif was is not None and now is not None and old.texts[was] == new.texts[now]:
                yield self.wording.say(f"change.{new.kind}.moved", label=new.label, number=was + 1, to=now + 1)
            elif was is not None and now is not None:
                yield self.turner.few(self._item("reworded", new, now), old.texts[was], new.texts[now])
        if old.label != new.label:
            yield self.wording.say("change.renamed", old=old.label, new=new.label)

    def _quoted(self, how: str, where: SaidList, at: int) -> Text:
        """Return that a step or point is new or gone, and what it says."""
        text = self._short(where.texts[at], LONG)
        return self.wording.say("change.quoted", what=self._item(how, where, at), text=text)

    def _item(self, how: str, where: SaidList, at: int) -> Text:
        return self.wording.say(f"change.{where.kind}.{how}", label=where.label, number=at + 1)


def _is_asked(said: SaidText) -> bool:
    """Return whether a fact says for which guests something is done."""
    return bool(said.members) and all(key.startswith(_ASKED) for key in said.members)


def _is_limit(said: SaidText) -> bool:
    """Return whether a paragraph is of a food-safety limit, of whose figures none is left out."""
    return said.kind == "paragraph" and bool(said.label)


def _is_photo(said: SaidText) -> bool:
    return said.label.startswith(PHOTO)


def _columns(row: SaidRow) -> list[str]:
    return [cell.column for cell in row.cells]


def _rows(said: Mapping[str, Said]) -> set[str]:
    """Return the names of all rows."""
    return {one.name for one in said.values() if isinstance(one, SaidRow)}


def _names(both: Iterable[tuple[Said, Said]]) -> Iterator[tuple[str, str]]:
    """Yield what rows were called and are called now, where that is another name."""
    for old, new in both:
        if isinstance(old, SaidRow) and isinstance(new, SaidRow) and old.name and old.name != new.name:
            yield old.name, new.name


def _is_drawn_alike(old: Said, new: Said, names: Iterable[tuple[str, str]]) -> bool:
    """Return whether a drawing differs by nothing but what it calls its parts, which the rows of the list tell."""
    if not isinstance(old, SaidText) or not isinstance(new, SaidText) or new.kind != "figure" or _is_photo(new):
        return False
    text = old.text
    for was, now in names:
        text = text.replace(was, now)
    return text == new.text
