"""How a text that is another one now is told: as little of it as tells what changed. Knows no sheets and no keys."""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from difflib import SequenceMatcher
from typing import Final

from linebook.documents.text import Text, in_two, words
from linebook.documents.wording import Wording

SHORT: Final = 60
"""The most letters of a text that are shown of it."""
LONG: Final = 2 * SHORT
_BETWEEN: Final = (" \u00b7 ", "; ", ", ")
_SUBJECT: Final = ": "
SENTENCE: Final = re.compile(r"(?<=[.!?]) (?=\W*[^\W\d_a-z])")
_WORDS: Final = re.compile("[ \n]+")
"""Between words; a number and its unit, with a no-break space between them, are one."""
_PARTS: Final = re.compile(r"[ \n,;]+")
_FEW: Final = 0.5
_END: Final = " .,;:"


@dataclass(frozen=True, slots=True)
class Turner:
    """Says that something was one text and is another."""

    wording: Wording

    def whole(self, what: Text, old: str, new: str) -> Text:
        """Return what a name was and is; of a long one that it is another."""
        if not old:
            return self.wording.say("change.now", what=what, new=new)
        if not new:
            return self.wording.say("change.no-longer", what=what, old=old)
        if _fits(old, new):
            return self._was_and_is(what, old, new)
        return self.reworded(what, old, new)

    def turned(self, what: Text, old: str, new: str) -> Text:
        """Return what a value was and is: of a list only what came, went or is another one in its place."""
        if not old or not new:
            return self.whole(what, old, new)
        if sorted(_PARTS.split(old)) == sorted(_PARTS.split(new)):
            return self.wording.say("change.order-of", what=what)
        return self._listed(what, old, new) or self._subject(what, old, new) or self.whole(what, old, new)

    def reworded(self, what: Text, old: str, new: str) -> Text:
        """Return that a text is reworded."""
        return self.few(self.wording.say("change.reworded", what=what), old, new)

    def few(self, said: Text, old: str, new: str) -> Text:
        """Return what is ``said`` of a text that is reworded, and the few words that are others in one place.

        In the second language they are those of its own wording, where all of it is known and is another too; where it
        is the same, that says of which language it tells.
        """
        first, was, now = self._few(said, old, new), self.wording.told(old), self.wording.told(new)
        if was.second is None or now.second is None:
            return first
        if was.second == now.second:
            return in_two(first.first, self._of_first_language(first).in_second)
        before, after = ("".join(piece.words for piece in one.in_second) for one in (was, now))
        return in_two(first.first, self._few(said, before, after).in_second)

    def _of_first_language(self, what: Text) -> Text:
        key = f"language.{self.wording.language}"
        named = self.wording.say(key) if key in self.wording else words(self.wording.language)
        return self.wording.say("change.second", language=named, what=what)

    def _few(self, said: Text, old: str, new: str) -> Text:
        words_then = few_words(old, new)
        if words_then is None:
            return said
        was, now = words_then
        if was and now:
            return self.wording.say("change.turned", what=said, old=was, new=now)
        if now:
            return self.wording.say("change.words-added", what=said, new=now)
        return self.wording.say("change.words-gone", what=said, old=was)

    def sentences(self, what: Text | None, old: str, new: str) -> Iterator[Text]:
        """Yield what differs between two texts of sentences, those of one beginning together.

        ``what`` names the text where it does not begin with what it is about.
        """
        before, after = SENTENCE.split(old), SENTENCE.split(new)
        gone = [one for one in before if one not in after]
        come = [one for one in after if one not in before]
        if not what and len(gone) == len(come) == 1 and len(old) + len(new) <= LONG and not _head(gone[0], come[0]):
            was, now = _others(old, new)
            yield self.wording.say("change.turned-alone", old=was, new=now)
            return
        for one in gone:
            other = next((other for other in come if _head(one, other)), None)
            if other is None and len(gone) == len(come):
                other = come[gone.index(one)]
            if other is None:
                yield self._sentence("change.gone", "change.no-longer", what, one)
            else:
                come = [left for left in come if left != other]
                yield self._paired(what, one, other)
        for one in come:
            yield self._sentence("change.added", "change.now", what, one)

    def _paired(self, what: Text | None, old: str, new: str) -> Text:
        """Return what a sentence was and is."""
        head = _head(old, new)
        if not head and not what:
            return self.reworded(self.wording.told(shortened(old)), old, new)
        tails = (text.removeprefix(head and head + _SUBJECT).rstrip(_END) for text in (old, new))
        return self.turned(what or self.wording.told(head), *tails)

    def _sentence(self, alone: str, named: str, what: Text | None, sentence: str) -> Text:
        said = shortened(sentence, LONG)
        if what is None:
            return self.wording.say(alone, what=said)
        return self.wording.say(named, what=what, **{"old" if named == "change.no-longer" else "new": said})

    def _listed(self, what: Text, old: str, new: str) -> Text | None:
        """Return what differs between two lists; None for no list, or for ones with nothing in common."""
        for between in _BETWEEN:
            before, after = _both_parts(self._unlinked(old), self._unlinked(new), between)
            if len(before) == len(after) and (places := [at for at, one in enumerate(before) if one != after[at]]):
                if sorted(before) == sorted(after):
                    return self.wording.say("change.order-of", what=what)
                gone, come = (between.join(row[at] for at in places) for row in (before, after))
                if len(places) < len(before) and not {*before} & {after[at] for at in places} and _fits(gone, come):
                    return self._subject(what, gone, come) or self._was_and_is(what, gone, come)
            gone, come = (between.join(one) for one in _in_one_place(before, after))
            if gone and come and _fits(gone, come):
                return self._was_and_is(what, gone, come)
            if any(_is_among(one, before) for one in after):
                come = between.join(one for one in after if not _is_among(one, before))
                gone = between.join(one for one in before if not _is_among(one, after))
                if (come or gone) and _fits(gone, come):
                    return self._came_and_went(what, come, gone)
        return None

    def _unlinked(self, text: str) -> str:
        """Return a list without the *and* before its last, which parts as a comma does."""
        links = {self.wording.say(key).plain for key in ("list.and", "list.and.before-i")}
        text = text.rstrip(".")
        for link in links:
            text = text.replace(link, ", ") if ", " in text and "; " not in text else text
        return text

    def _came_and_went(self, what: Text, come: str, gone: str) -> Text:
        said = [self.wording.say("change.list.added", label=what, what=come)] if come else []
        said += [self.wording.say("change.list.gone", label=what, what=gone)] if gone else []
        return self.wording.separated(said)

    def _was_and_is(self, what: Text, old: str, new: str) -> Text:
        return self.wording.say("change.turned", what=what, old=old, new=new)

    def _subject(self, what: Text, old: str, new: str) -> Text | None:
        """Return a value that has a colon with only the side of it that is another one, None where both or none are."""
        head = _head(old, new)
        if head:
            return self._was_and_is(what, old, new[len(head) + len(_SUBJECT) :])
        (was, _, tail), (now, _, other) = old.partition(_SUBJECT), new.partition(_SUBJECT)
        return self._was_and_is(what, was, now) if tail and tail == other else None


def _in_one_place(before: Sequence[str], after: Sequence[str]) -> tuple[Sequence[str], Sequence[str]]:
    """Return what of a list is another in one place, with the same before or after it; nothing where it is in more."""
    least = min(len(before), len(after))
    start = next((at for at in range(least) if before[at] != after[at]), least)
    end = next((at for at in range(least - start) if before[-1 - at] != after[-1 - at]), least - start)
    gone, come = before[start : len(before) - end], after[start : len(after) - end]
    here_and_there = any(_is_among(one, after) for one in gone) or any(_is_among(one, before) for one in come)
    return ((), ()) if here_and_there or not (start or end) else (gone, come)


def shortened(text: str, most: int = SHORT) -> str:
    """Return a text of at most so many letters: a longer one ends with a word of it and three dots."""
    if len(text) <= most:
        return text
    cut = text[: most - 1] if text[most - 1] == " " else text[: most - 1].rpartition(" ")[0]
    return (cut or text[: most - 1]).rstrip(" ,;:") + "…"


def _others(old: str, new: str) -> tuple[str, str]:
    """Return the parts of two lists that are others in the same places; all of them where there are not as many."""
    for between in _BETWEEN:
        before, after = _both_parts(old, new, between)
        places = [at for at, one in enumerate(before) if one != after[at]] if len(before) == len(after) else []
        if 0 < len(places) < len(before) and not {*before} & {after[at] for at in places}:
            return between.join(before[at] for at in places), between.join(after[at] for at in places)
    return old, new


def few_words(old: str, new: str) -> tuple[str, str] | None:
    """Return the words of two texts that are others where they stand in one place and are few; else None.

    Of words that only came, or only went, the other side is ''.
    """
    before, after = _WORDS.split(old), _WORDS.split(new)
    matcher = SequenceMatcher(a=before, b=after, autojunk=False)
    others = [one for one in matcher.get_opcodes() if one[0] != "equal"]
    if not others or matcher.ratio() < _FEW:
        return None
    old_start, old_end, new_start, new_end = others[0][1], others[-1][2], others[0][3], others[-1][4]
    was, now = " ".join(before[old_start:old_end]), " ".join(after[new_start:new_end])
    if max(len(was), len(now)) > SHORT:
        return None
    same = was.strip(_END) == now.strip(_END)
    return (was, now) if same else (was.strip(_END), now.strip(_END))


def _head(one: str, other: str) -> str:
    """Return what two texts are both about: what stands before their first colon."""
    head, colon, _ = one.partition(_SUBJECT)
    return head if colon and len(head) <= SHORT and other.startswith(head + _SUBJECT) else ""


def parts_of(text: str, between: str) -> list[str]:
    """Return the parts of a list, of which what stands in brackets is none."""
    parts, depth, start = [], 0, 0
    for at, letter in enumerate(text):
        depth += (letter == "(") - (letter == ")")
        if depth <= 0 and text.startswith(between, at) and at >= start:
            parts.append(text[start:at])
            start = at + len(between)
    return [*parts, text[start:]]


def _both_parts(old: str, new: str, between: str) -> tuple[list[str], list[str]]:
    """Return the parts of both lists; one that has commas between them is a list too beside one with semicolons."""
    if between == "; " and (between in old) != (between in new):
        return _beside(old, new), _beside(new, old)
    if between == ", " and not (_is_listed(old) and _is_listed(new)):
        return [old], [new]
    return parts_of(old, between), parts_of(new, between)


def _beside(text: str, other: str) -> list[str]:
    """Return the parts of a text beside one with semicolons, or of that one."""
    if "; " in text or text in parts_of(other, "; ") or not _is_listed(text):
        return parts_of(text, "; ")
    return parts_of(text, ", ")


def _is_listed(text: str) -> bool:
    """Return whether the commas of a text part what is in a list: in *Beetroot, curd: 40 g* it is within a name."""
    with_colon = [_SUBJECT in part for part in parts_of(text, ", ")]
    return all(with_colon) or not any(with_colon[1:])


def _fits(*texts: str) -> bool:
    return all(len(text) <= LONG for text in texts)


def _is_among(name: str, others: Sequence[str]) -> bool:
    """Return whether a name is in a list, also as its first with a word before it: *for Short rib jus*."""
    return any(one == name or one.endswith(f" {name}") or name.endswith(f" {one}") for one in others)
