"""Dishes, components and names in another language, read from their files. Imported only where a house has such files.

It makes no fault of what is not translated.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from pathlib import PurePosixPath
from typing import TypeAlias

from linebook.model.body import Body
from linebook.model.translations import CardWords, HouseWords
from linebook.read.component_fields import COMPONENT
from linebook.read.dish_fields import DISH
from linebook.read.fields import either
from linebook.read.groups import Group
from linebook.read.reading import Reading
from linebook.read.translation_fields import COMPONENT_WORDS, DISH_WORDS, HOUSE_WORDS
from linebook.source.files import split_translation
from linebook.source.frozen import frozen
from linebook.source.nodes import Entry, MappingNode, SequenceNode
from linebook.source.spans import SourceFile

Open: TypeAlias = Callable[[PurePosixPath], SourceFile | None]
Parts: TypeAlias = Callable[[SourceFile], tuple[MappingNode, Body] | None]
ReadYaml: TypeAlias = Callable[[SourceFile, int, int], MappingNode | None]


@frozen
class TranslationReader:
    """Reads the files of one house; ``open``, ``parts`` and ``read_yaml`` report what they cannot.

    ``parts`` gives the fields and the method of a card, and ``specs`` are the house's cards.
    """

    reading: Reading
    open: Open
    parts: Parts
    read_yaml: ReadYaml
    specs: frozenset[PurePosixPath] = frozenset()

    def cards(self, paths: tuple[PurePosixPath, ...]) -> tuple[CardWords, ...]:
        """Return what ``stem.es.md`` files say."""
        found = (self._card(path) for path in paths)
        return tuple(card for card in found if card is not None)

    def words(self, paths: tuple[PurePosixPath, ...]) -> tuple[HouseWords, ...]:
        """Return what ``words.es.yaml`` files say."""
        found = (self._words(path) for path in paths)
        return tuple(words for words in found if words is not None)

    def _card(self, path: PurePosixPath) -> CardWords | None:
        before = self.reading.losses
        split = split_translation(path.name)
        source = self.open(path)
        if split is None or source is None:
            return None
        parts = self.parts(source)
        if parts is None:
            return None
        fields, body = parts
        is_dish = path.parts[0] == "dishes"
        both = (DISH_WORDS, DISH), (COMPONENT_WORDS, COMPONENT)
        (group, spec), other = both if is_dish else both[::-1]
        is_other = any(entry.key.text not in group.by_name for entry in fields.entries)
        if is_other and self._stands_elsewhere(path, is_dish):
            group, spec = other
        fields = self._words_alone(fields, group, spec)
        given = {"id": split[0], "language": split[1], "is_dish": is_dish, "body": body}
        card = group.read_record(fields, self.reading, span=source.whole(), **given)
        if not isinstance(card, CardWords):
            return None
        return card if self.reading.losses == before else replace(card, is_whole=False)

    def _stands_elsewhere(self, path: PurePosixPath, is_dish: bool) -> bool:
        """Return whether what a file translates stands in the other folder, which check tells."""
        card = path.with_name(f"{path.name.split('.')[0]}.md")
        return card not in self.specs and PurePosixPath("components" if is_dish else "dishes") / card.name in self.specs

    def _words_alone(self, fields: MappingNode, group: Group, spec: Group) -> MappingNode:
        """Report the fields of a spec that was copied whole, once for the file, and leave them out."""
        own = spec.by_name.keys() - group.by_name.keys()
        if not any(entry.key.text in own for entry in fields.entries):
            return fields
        copied = [entry for entry in fields.entries if entry.key.text in own or _is_of_the_spec(entry)]
        names = either([entry.key.text for entry in copied], "and")
        rest = f" and {len(copied) - 1} more are" if len(copied) > 1 else " is"
        message = f"`{copied[0].key.text}`{rest} the spec's to say, and what translates it has words alone"
        hint = f"delete {names}; {group.name} has {either(tuple(group.by_name), 'and')}"
        self.reading.report("LB106", message, copied[0].key.span, hint)
        return MappingNode(tuple(entry for entry in fields.entries if entry not in copied), fields.span)

    def _words(self, path: PurePosixPath) -> HouseWords | None:
        source = self.open(path)
        fields = self.read_yaml(source, 0, len(source.text)) if source else None
        if source is None or fields is None:
            return None
        language = path.name.split(".")[1]
        words = HOUSE_WORDS.read_record(fields, self.reading, span=source.whole(), language=language)
        return words if isinstance(words, HouseWords) else None


def _is_of_the_spec(entry: Entry) -> bool:
    """Return whether a field holds what a spec has under this name: records, where a translation has texts."""
    value = entry.value
    if type(value) is MappingNode:
        return any(type(inner.value) is MappingNode for inner in value.entries)
    return type(value) is SequenceNode
