"""The kinds of spec file and the declaration of each: what the reader, schema and reference start from."""

from __future__ import annotations

from collections.abc import Mapping
from types import MappingProxyType
from typing import Final

from linebook.read.component_fields import COMPONENT
from linebook.read.dish_fields import DISH
from linebook.read.groups import Group
from linebook.read.house_fields import HOUSE
from linebook.read.lists import ById
from linebook.read.menu_fields import MENU
from linebook.read.pantry_fields import PANTRY
from linebook.read.translation_fields import COMPONENT_WORDS, DISH_WORDS, HOUSE_WORDS
from linebook.source.frozen import frozen


@frozen
class FileKind:
    """One kind of file. ``where`` is its place in the house folder; ``root`` is what the whole file holds."""

    name: str
    where: str
    root: Group | ById


KINDS: Final[Mapping[str, FileKind]] = MappingProxyType(
    {
        kind.name: kind
        for kind in (
            FileKind(name="house", where="house.yaml", root=HOUSE),
            FileKind(name="pantry", where="pantry/*.yaml", root=PANTRY),
            FileKind(name="menu", where="menus/*.yaml", root=MENU),
            FileKind(name="dish", where="dishes/*.md", root=DISH),
            FileKind(name="component", where="components/*.md", root=COMPONENT),
            FileKind(name="words", where="words.es.yaml", root=HOUSE_WORDS),
            FileKind(name="dish-words", where="dishes/*.es.md", root=DISH_WORDS),
            FileKind(name="component-words", where="components/*.es.md", root=COMPONENT_WORDS),
        )
    }
)
