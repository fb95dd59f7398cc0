"""What a sheet says in its second language, as a sheet of its own, and which of that changed by itself.

Owns the telling apart of a new translation from a new text. Knows no wording.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import fields, is_dataclass, replace
from difflib import SequenceMatcher
from typing import Any, TypeVar, cast

from linebook.markup.blocks import Second, SheetText
from linebook.markup.said import Said, SaidList, SaidRow, SaidText

T = TypeVar("T")


def languages_of(sheet: SheetText) -> tuple[str, ...]:
    """Return the second languages a sheet speaks, in the order it does; () where it has one language."""
    return tuple(dict.fromkeys(_languages(sheet)))


def in_second_language(sheet: SheetText) -> SheetText:
    """Return the sheet as it is in its second language: a line that has no other stands as it is."""
    return _in_second(sheet)


def changed_alone(old: Said, new: Said, old_second: Said, new_second: Said) -> tuple[Said, Said] | None:
    """Return an item before and after in its second language, without what changed in the first too; None for nothing.

    What names it (the label, the name of a row) is said in the first language where it is the same in both.
    """
    if isinstance(old_second, SaidText) and isinstance(new_second, SaidText):
        before, after = _text_alone(cast(SaidText, old), cast(SaidText, new), old_second, new_second)
    elif isinstance(old_second, SaidRow) and isinstance(new_second, SaidRow):
        before, after = _row_alone(cast(SaidRow, old), cast(SaidRow, new), old_second, new_second)
    else:
        return None
    return None if before == after else (before, after)


def reworded_alone(old: SaidList, new: SaidList, old_second: SaidList, new_second: SaidList) -> Iterator[int]:
    """Yield the places of the steps or points that are the same in the first language and not in the second."""
    if len(old.texts) != len(old_second.texts) or len(new.texts) != len(new_second.texts):
        return
    for block in SequenceMatcher(a=old.texts, b=new.texts, autojunk=False).get_matching_blocks():
        for at in range(block.size):
            if old_second.texts[block.a + at] != new_second.texts[block.b + at]:
                yield block.b + at


def _text_alone(old: SaidText, new: SaidText, before: SaidText, after: SaidText) -> tuple[Said, Said]:
    if old.label != new.label:
        before = replace(before, label=after.label)
    if (old.text, old.members) != (new.text, new.members):
        before = replace(before, text=after.text, members=after.members)
    if before.label == after.label:
        before, after = replace(before, label=new.label), replace(after, label=new.label)
    return before, after


def _row_alone(old: SaidRow, new: SaidRow, before: SaidRow, after: SaidRow) -> tuple[Said, Said]:
    if old.name != new.name:
        before = replace(before, name=after.name)
    if old.note != new.note:
        before = replace(before, note=after.note)
    if len(old.cells) != len(new.cells):
        before = replace(before, cells=after.cells)
    elif len(before.cells) == len(after.cells) == len(new.cells):
        kept = tuple(
            now if one != other else was
            for one, other, was, now in zip(old.cells, new.cells, before.cells, after.cells, strict=True)
        )
        before = replace(before, cells=kept)
    if before.name == after.name:
        before, after = replace(before, name=new.name), replace(after, name=new.name)
    return before, after


def _languages(value: Any) -> Iterator[str]:
    if isinstance(value, Second):
        yield value.lang
    elif isinstance(value, tuple):
        for one in value:
            yield from _languages(one)
    elif is_dataclass(value):
        for one in fields(value):
            yield from _languages(getattr(value, one.name))


def _in_second(value: T) -> T:
    if isinstance(value, tuple):
        second = _second_of(value)
        return cast(T, second.content if second else tuple(_in_second(one) for one in value))
    if is_dataclass(value) and not isinstance(value, type):
        whole: Any = value
        return cast(T, replace(whole, **{one.name: _in_second(getattr(whole, one.name)) for one in fields(whole)}))
    return value


def _second_of(line: Sequence[object]) -> Second | None:
    return line[-1] if line and isinstance(line[-1], Second) else None
