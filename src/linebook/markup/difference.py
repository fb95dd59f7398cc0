"""What changed between two issues of a sheet, in kitchen words. Compares by key; the words are the catalogue's."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from difflib import SequenceMatcher
from typing import Final

from linebook.documents.text import Text, words
from linebook.documents.wording import Wording
from linebook.markup.blocks import SheetText
from linebook.markup.said import Said, SaidCell, SaidList, SaidRow, SaidText, plain, what_is_said
from linebook.markup.seconds import changed_alone, in_second_language, languages_of, reworded_alone

_SHORT: Final = 60
_ABOUT_ALLERGENS: Final = "allergens."


def describe_difference(before: SheetText, after: SheetText, wording: Wording) -> tuple[Text, ...]:
    """Return a sentence for each thing that differs, in the order of the new sheet, what is gone last; () for none.

    Where all words are the same and the trees are not, one sentence says that only the dress changed.
    """
    if before == after:
        return ()
    writer = _DifferenceWriter(wording=wording)
    old, new = what_is_said(before), what_is_said(after)
    told = (*writer.heads(before, after), *writer.blocks(old, new), *_in_second_language(before, after, writer))
    said = tuple(dict.fromkeys(told))
    return said or (wording.say("change.dress"),)


def describe_said(old: Mapping[str, Said], new: Mapping[str, Said], wording: Wording) -> tuple[Text, ...]:
    """Return a sentence for each thing that differs between parts of two issues, without the order they stand in."""
    order = wording.say("change.order")
    return tuple(one for one in dict.fromkeys(_DifferenceWriter(wording=wording).blocks(old, new)) if one != order)


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
    wording: Wording

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
                yield self._turned(self.wording.say(f"change.{part}"), old, new)

    def blocks(self, old: Mapping[str, Said], new: Mapping[str, Said]) -> Iterator[Text]:
        """Yield what differs in the blocks; an item under another key alone is the same one."""
        old = _known_as(old, new)
        for key, said in new.items():
            if key not in old:
                yield from self._added(said)
            elif old[key] != said:
                yield from self._changed(old[key], said)
        for key, said in old.items():
            if key not in new:
                yield from self._gone(said)
        kept_old = [key for key in old if key in new]
        kept_new = [key for key in new if key in old]
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

    def _added(self, said: Said) -> Iterator[Text]:
        yield self.wording.say("change.added", what=self._whole(said))

    def _gone(self, said: Said) -> Iterator[Text]:
        yield self.wording.say("change.gone", what=self._whole(said))

    def _whole(self, said: Said) -> str:
        """Return an item in one line, shortened where it is long."""
        if isinstance(said, SaidRow):
            amounts = [cell.text for cell in said.cells if cell.kind in ("amount", "figure") and cell.text][:1]
            text = " ".join(filter(None, (said.name, *amounts)))
        elif isinstance(said, SaidList):
            text = said.label or " ".join(said.texts)
        elif said.kind == "heading":
            text = said.label
        elif said.kind == "figure":
            is_photo = said.label.startswith("photo")
            text = self.wording.say("change.photo" if is_photo else "change.drawing").plain
        else:
            text = ": ".join(filter(None, (said.label, said.text)))
            if said.kind == "fact" and said.members:
                return text  # a list of allergens, of which none may be cut off
        if len(text) <= _SHORT:
            return text
        cut = text[: _SHORT - 1] if text[_SHORT - 1] == " " else text[: _SHORT - 1].rpartition(" ")[0]
        return (cut or text[: _SHORT - 1]).rstrip(" ,;:") + "…"

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
            yield self.wording.say("change.drawing-changed")
            return
        if old.label != new.label:
            yield self.wording.say("change.renamed", old=old.label, new=new.label)
        if old.members != new.members:
            yield from self._members(old, new)
        elif old.text != new.text and new.kind == "paragraph":
            yield self._paragraph(old, new)
        elif old.text != new.text:
            yield self._turned(self.wording.say("change.of", what=new.label), old.text, new.text)

    def _paragraph(self, old: SaidText, new: SaidText) -> Text:
        key = f"change.of.{new.key}"
        if key in self.wording:
            return self._turned(self.wording.say(key), old.text, new.text)
        if len(old.text) + len(new.text) <= 2 * _SHORT:
            return self.wording.say("change.turned-alone", old=old.text, new=new.text)
        return self.wording.say("change.reworded", what=self._whole(old))

    def _members(self, old: SaidText, new: SaidText) -> Iterator[Text]:
        line = new.key if new.key.startswith(_ABOUT_ALLERGENS) else "list"
        for key, text in new.members.items():
            if key in old.members and old.members[key] != text:
                yield self._turned(self.wording.say("change.of", what=new.label), old.members[key], text)
        for word, here, there in (("added", new.members, old.members), ("gone", old.members, new.members)):
            texts = [words(text) for key, text in here.items() if key not in there and not key.endswith(".nothing")]
            each = [self.wording.listed(texts)] if line == "list" and texts else texts
            for what in each:
                yield self.wording.say(f"change.{line}.{word}", label=new.label, what=what)
        if list(old.members) != list(new.members) and set(old.members) == set(new.members):
            yield self.wording.say("change.order-of", what=new.label)

    def _row(self, old: SaidRow, new: SaidRow) -> Iterator[Text]:
        if old.name != new.name:
            yield self._renamed(old.name, new.name)
        if [cell.column for cell in old.cells] != [cell.column for cell in new.cells]:
            yield self.wording.say("change.columns", what=new.name) if new.name else self.wording.say("change.heads")
        else:
            for old_cell, new_cell in zip(old.cells, new.cells, strict=True):
                if old_cell != new_cell:
                    yield self._cell(new.name, old_cell, new_cell)
        if old.note != new.note:
            yield self._note(new.name, old.note, new.note)

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
            return self._turned(self.wording.say("change.of", what=place), *marks)
        return self._turned(self.wording.say("change.of", what=place), old.text, new.text)

    def _note(self, name: str, old: str, new: str) -> Text:
        if not old:
            return self.wording.say("change.note-added", what=name, note=new)
        if not new:
            return self.wording.say("change.note-gone", what=name, note=old)
        return self._turned(self.wording.say("change.note", what=name), old, new)

    def _list(self, old: SaidList, new: SaidList) -> Iterator[Text]:
        """Yield the steps or points that are new, gone or reworded, by their number under the heading."""
        matcher = SequenceMatcher(a=old.texts, b=new.texts, autojunk=False)
        for how, old_start, old_end, new_start, new_end in matcher.get_opcodes():
            both = min(old_end - old_start, new_end - new_start) if how == "replace" else 0
            for at in range(both):
                yield self._item("reworded", new, new_start + at)
            if how in ("replace", "insert"):
                for at in range(new_start + both, new_end):
                    yield self._item("added", new, at)
            if how in ("replace", "delete"):
                for at in range(old_start + both, old_end):
                    yield self._item("gone", old, at)
        if old.label != new.label:
            yield self.wording.say("change.renamed", old=old.label, new=new.label)

    def _item(self, how: str, where: SaidList, at: int) -> Text:
        return self.wording.say(f"change.{where.kind}.{how}", label=where.label, number=at + 1)

    def _turned(self, what: Text, old: str, new: str) -> Text:
        """Return what something was and is, or that it is reworded where that would be long."""
        if not old:
            return self.wording.say("change.now", what=what, new=new)
        if not new:
            return self.wording.say("change.no-longer", what=what, old=old)
        if len(old) > _SHORT or len(new) > _SHORT:
            return self._listed(what, old, new) or self.wording.say("change.reworded", what=what)
        return self.wording.say("change.turned", what=what, old=old, new=new)

    def _listed(self, what: Text, old: str, new: str) -> Text | None:
        """Return what came to a long list and what went from it; None for no list, or one with nothing in common."""
        said = []
        for between in ("; ", ", "):
            before, after = old.rstrip(".").split(between), new.rstrip(".").split(between)
            if one := _only_one(before, after):
                return self.wording.say("change.turned", what=what, old=one[0], new=one[1])
            came = between.join(one for one in after if not _is_among(one, before))
            went = between.join(one for one in before if not _is_among(one, after))
            kept = any(_is_among(one, before) for one in after)
            if kept and len(before) == len(after) > 1 and not came and not went:
                return self.wording.say("change.order-of", what=what)
            if kept and len(came) <= _SHORT and len(went) <= _SHORT and (came or went):
                said += [self.wording.say("change.list.added", label=what, what=came)] if came else []
                said += [self.wording.say("change.list.gone", label=what, what=went)] if went else []
                return self.wording.separated(said)
        return None


def _only_one(before: Sequence[str], after: Sequence[str]) -> tuple[str, str] | None:
    """Return the part that is another one in the same place of a list, where it is the only one and short."""
    pairs = [pair for pair in zip(before, after, strict=False) if pair[0] != pair[1]]
    if len(before) != len(after) or len(before) < 2 or len(pairs) != 1:
        return None
    return pairs[0] if all(0 < len(text) <= _SHORT for text in pairs[0]) else None


def _known_as(old: Mapping[str, Said], new: Mapping[str, Said]) -> Mapping[str, Said]:
    """Return the items of the old sheet, each that stands under another key in the new one under that."""
    came = {_keyless(said): key for key, said in new.items() if key not in old}
    now = {key: came[_keyless(said)] for key, said in old.items() if key not in new and _keyless(said) in came}
    if not now or len(set(now.values())) < len(now):
        return old
    return {now.get(key, key): new[now[key]] if key in now else said for key, said in old.items()}


def _keyless(said: Said) -> str:
    return repr(replace(said, key=""))


def _is_among(name: str, others: Sequence[str]) -> bool:
    """Return whether a name is in a list, also as its first with a word before it: *for Short rib jus*."""
    return any(one == name or one.endswith(f" {name}") or name.endswith(f" {one}") for one in others)
