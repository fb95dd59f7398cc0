"""A whole house folder read: every file, every fault, and what could be read for ``check``.

A fault of syntax hides its own file alone. What could not be read is remembered by id, so that ``check`` does not
report what only follows from it.
"""

from __future__ import annotations

import re
from collections.abc import Iterable
from dataclasses import field as column
from dataclasses import replace
from pathlib import Path, PurePosixPath
from types import MappingProxyType
from typing import TYPE_CHECKING, Any, Final

from linebook.model.amounts import Amount
from linebook.model.body import Body
from linebook.model.component import Component
from linebook.model.dish import Dish
from linebook.model.house import HouseFile, ParsedHouse, Vessel
from linebook.model.menu import Menu
from linebook.model.pantry import PantryItem
from linebook.model.units import METRIC_ONLY, Measures
from linebook.read.body import read_body
from linebook.read.component_fields import COMPONENT
from linebook.read.dish_fields import DISH
from linebook.read.equipment_fields import VESSELS
from linebook.read.fields import is_empty
from linebook.read.groups import Group
from linebook.read.house_fields import HOUSE, MEASURES
from linebook.read.ids import bad_id, is_id, kebab
from linebook.read.known_ids import mend_ids
from linebook.read.lists import within_size
from linebook.read.menu_fields import MENU
from linebook.read.misplaced import is_misnamed_translation, stands_elsewhere
from linebook.read.pantry_fields import PANTRY, PANTRY_FILE
from linebook.read.reading import UNREAD, Reading
from linebook.source.faults import Fault, Outcome, Severity, in_file_order
from linebook.source.files import SpecFiles, find_spec_files, read_source
from linebook.source.front_matter import split_front_matter
from linebook.source.frozen import changing, frozen
from linebook.source.nearest import nearest
from linebook.source.nodes import MappingNode, Node, SequenceNode
from linebook.source.spans import SourceFile, Span
from linebook.source.yaml_reader import read_yaml

if TYPE_CHECKING:
    from linebook.read.shared_cards import Sharing

HOUSE_ID: Final = "house"
PANTRY_ID: Final = "house.pantry"
"""What ``ParsedHouse.incomplete`` holds where an entry of house.yaml or of the pantry was lost; no id has a dot."""

_MEASURES: Final = HOUSE.by_name["measures"]

_TOP_KEY: Final = r"(?m)^[\"']?([A-Za-z0-9][^\s:#\"']*)[\"']?[ \t]*(?::|$)"
_ANY_KEY: Final = r"(?m)^(?: {1,4}|\t)([a-z0-9]+(?:-[a-z0-9]+)*)[ \t]*:"
_COURSE: Final = r"(?m)^[ \t]*-[ \t]+\{?[ \t]*course:[ \t]*([a-z0-9]+(?:-[a-z0-9]+)*)"
_ALSO_MAKES: Final = r"(?ms)^also_makes:.*?(?=^[^\s#-]|\Z)"
_ITEM: Final = r"\bitem:[ \t]*([a-z0-9]+(?:-[a-z0-9]+)*)"


@frozen
class HouseReading:
    """What a house folder says, with all reading faults, and the text of every file that could be opened.

    ``halves`` are those of ``SharedCards`` where two processes have read the cards.
    """

    outcome: Outcome[ParsedHouse]
    sources: tuple[SourceFile, ...]
    halves: tuple[bytes, ...] = ()


def read_house(
    root: Path, shown: str, printed: tuple[str, ...] | None = None, sharing: Sharing | None = None
) -> HouseReading:
    """Read the house folder ``root``, which people know as ``shown``.

    Of what it says in other languages only that in the ``printed`` ones is read; () is what house.yaml names, None all.
    ``sharing`` is with another process that reads it, too.

    Faults: LB101 to LB118, LB203, LB212 (a heading twice), LB214 (unreadable braces), LB301 to LB303, LB304 (another
    measure is needed), LB310 to LB313, LB315 to LB318, LB403, LB405. The value is None only where there is no folder.
    """
    found = find_spec_files(root, shown)
    if found.value is None:
        return HouseReading(outcome=Outcome(value=None, faults=found.faults), sources=())
    reading = Reading()
    reading.take(found.faults)
    return _House(root=root, shown=shown, reading=reading, sharing=sharing).read(found.value, printed)


@changing
class _House:
    """Reads the files of one house, house.yaml first: what its cups and vessels hold decides all other amounts."""

    root: Path
    shown: str
    reading: Reading
    measures: Measures = METRIC_ONLY
    sources: list[SourceFile] = column(default_factory=list)
    sharing: Sharing | None = None
    halves: tuple[bytes, ...] = ()

    def read(self, files: SpecFiles, printed: tuple[str, ...] | None) -> HouseReading:
        house = self._read_house_file(files.house)
        self._remember_misnamed(files.misnamed)
        self.reading.learn(house.measures if house else self.measures)
        pantry = tuple(item for path in files.pantry for item in self._read_pantry(path))
        shared = self._shared_cards(files, self.sharing) if self.sharing is not None else None
        parsed = ParsedHouse(
            folder=self.shown,
            file=house,
            pantry=pantry,
            components=self._read_cards(files.components, COMPONENT, Component) if shared is None else shared[0],
            dishes=self._read_cards(files.dishes, DISH, Dish) if shared is None else shared[1],
            menus=self._read_menus(files.menus),
            broken=frozenset(self.reading.broken),
            incomplete=frozenset(self.reading.incomplete),
        )
        if files.translations or files.words:
            parsed = self._with_translations(parsed, files, printed)
        faults = mend_ids(in_file_order(self.reading.faults), parsed)
        outcome = Outcome(value=parsed, faults=faults)
        return HouseReading(outcome=outcome, sources=tuple(self.sources), halves=self.halves)

    def _shared_cards(
        self, files: SpecFiles, sharing: Sharing
    ) -> tuple[tuple[Component, ...], tuple[Dish, ...]] | None:
        """Return the components and dishes that two processes have read; None where each has to read them all."""
        from linebook.read.shared_cards import share_cards  # here, because one process alone has no use for it

        house = replace(self, reading=self.reading.trial(), sources=[])

        def read(path: PurePosixPath) -> tuple[Component | Dish, SourceFile] | None:
            group, kind = (DISH, Dish) if path.parts[0] == "dishes" else (COMPONENT, Component)
            cards = house._read_cards((path,), group, kind)
            return (cards[0], house.sources[-1]) if cards and house.reading.is_clean else None

        shared = share_cards((*files.components, *files.dishes), tuple(self.sources), read, sharing)
        if shared is None:
            return None
        self.halves = shared.halves
        self.sources += [source for _, source in shared.read]
        cards = [card for card, _ in shared.read]
        return tuple(one for one in cards if isinstance(one, Component)), tuple(
            one for one in cards if isinstance(one, Dish)
        )

    def _with_translations(self, parsed: ParsedHouse, files: SpecFiles, printed: tuple[str, ...] | None) -> ParsedHouse:
        """Add what the house says in other languages, as far as it is asked for."""
        languages = {path: path.name.split(".")[-2] for path in (*files.translations, *files.words)}
        wanted = printed or (parsed.file.languages if parsed.file is not None and printed is not None else None)
        translations, words = (
            tuple(path for path in paths if wanted is None or languages[path] in wanted)
            for paths in (files.translations, files.words)
        )
        parsed = replace(parsed, translated=frozenset(languages.values()))
        if not translations and not words:
            return parsed
        from linebook.read.translations import TranslationReader  # here, because most houses have none

        at_fault = frozenset(found.span.source.path for found in self.reading.faults if found.span is not None)
        specs = frozenset((*files.dishes, *files.components))
        reader = TranslationReader(
            reading=self.reading, open=self._open, parts=self._parts, read_yaml=self._yaml, specs=specs
        )
        return replace(parsed, translations=reader.cards(translations), words=reader.words(words), at_fault=at_fault)

    def _read_house_file(self, path: PurePosixPath | None) -> HouseFile | None:
        reading = self.reading
        before = reading.losses
        source = self._open(path) if path else None
        node = self._yaml(source, 0, len(source.text)) if source else None
        if source is None or node is None:
            reading.cups_unread = True
            names = self._remember(re.findall(_ANY_KEY, source.text) if source else ())
            reading.vessels_unread = frozenset(names) if source else None
            return None
        self._learn_measures(node)
        house = HOUSE.read_record(node, reading)
        if reading.losses > before:
            reading.incomplete.add(HOUSE_ID)
        if isinstance(house, HouseFile):
            return house
        self._remember(re.findall(_ANY_KEY, source.text))
        return None

    def _learn_measures(self, node: MappingNode) -> None:
        """Find out what a cup and a vessel hold before the first amount is read.

        Faults there are left for when house.yaml is read as a whole; here it matters only that something was lost.
        """
        reading = self.reading
        fields = HOUSE.by_name
        typed: dict[str, Node] = {}
        for entry in node.entries:
            name = entry.key.text
            typed.setdefault(name if name in fields else nearest(name, fields) or name, entry.value)
        if "measures" in typed:
            trial = reading.trial()
            read: object = (
                UNREAD if is_empty(typed["measures"]) else MEASURES.read(typed["measures"], trial, _MEASURES, {})
            )
            reading.cups_unread = trial.losses > 0 or read is UNREAD
            reading.learn(read if isinstance(read, Measures) else METRIC_ONLY)
        holding: dict[str, Amount] = {}
        vessels = typed.get("vessels")
        if type(vessels) is MappingNode:
            unread: set[str] = set()
            for entry in vessels.entries:
                trial = reading.trial()
                vessel = VESSELS.read_entry(entry, trial, fields["vessels"])
                if isinstance(vessel, Vessel) and vessel.holds is not None:
                    holding[vessel.id] = vessel.holds
                elif trial.losses:
                    unread.update((entry.key.text, kebab(entry.key.text)))
            reading.vessels_unread = frozenset(unread)
        elif vessels is not None:
            reading.vessels_unread = None
        measures = reading.measures or METRIC_ONLY
        self.measures = replace(measures, vessels=MappingProxyType(holding))

    def _read_pantry(self, path: PurePosixPath) -> list[PantryItem]:
        reading = self.reading
        source = self._open(path)
        node = self._yaml(source, 0, len(source.text)) if source else None
        if source is None or node is None:
            self._remember(re.findall(_TOP_KEY, source.text) if source else ())
            return []
        if not within_size(len(node.entries), reading, PANTRY_FILE, node.span):
            self._remember(entry.key.text for entry in node.entries)
            return []
        if any(span.column == 1 for span in reading.refused):
            reading.incomplete.add(PANTRY_ID)  # an id written twice was to be another one
        items: list[PantryItem] = []
        for entry in node.entries:
            before = reading.losses
            item = PANTRY.read_entry(entry, reading, PANTRY_FILE)
            if isinstance(item, PantryItem):
                items.append(item)
                if reading.losses > before:
                    reading.incomplete.add(item.id)
        return items

    def _read_menus(self, paths: tuple[PurePosixPath, ...]) -> tuple[Menu, ...]:
        menus: list[Menu] = []
        for path in paths:
            before = self.reading.losses
            source = self._open(path)
            node = self._yaml(source, 0, len(source.text)) if source else None
            menu: object = UNREAD
            stem = path.stem
            if source and node:
                self._judge_stem(stem, path, source)
                menu = MENU.read_record(node, self.reading, id=stem)
            if isinstance(menu, Menu):
                menus.append(menu)
            self._keep(stem, source, before, lost=not isinstance(menu, Menu))
        return tuple(menus)

    def _read_cards(self, paths: tuple[PurePosixPath, ...], group: Group, kind: type[Any]) -> tuple[Any, ...]:
        cards: list[Any] = []
        for path in paths:
            before = self.reading.losses
            source = self._open(path)
            card = self._read_card(path, source, group) if source else UNREAD
            if isinstance(card, kind):
                cards.append(card)
            if isinstance(card, Dish) and card.photo is not None:
                self._look_at_photo(card, PurePosixPath(card.photo))
            self._keep(path.stem, source, before, lost=not isinstance(card, kind))
        return tuple(cards)

    def _look_at_photo(self, dish: Dish, path: PurePosixPath) -> None:
        from linebook.pictures import Photograph, look_at  # here, because most houses name none

        self.reading.take(look_at(Photograph(root=self.root, path=path, at=dish.at("photo"))))

    def _read_card(self, path: PurePosixPath, source: SourceFile, group: Group) -> object:
        stem = path.stem
        if is_misnamed_translation(self.root, path, source, self.reading):
            return UNREAD
        self._judge_stem(stem, path, source)
        parts = self._parts(source)
        if parts is None or stands_elsewhere(parts[0], path, self.reading):
            return UNREAD
        node, body = parts
        return group.read_record(node, self.reading, id=stem, body=body)

    def _parts(self, source: SourceFile) -> tuple[MappingNode, Body] | None:
        """Return the fields and the method of a card, or None where its fields cannot be read at all."""
        parts = split_front_matter(source)
        self.reading.take(parts.faults)
        if parts.value is None:
            return None
        node = self._yaml(source, parts.value.yaml_start, parts.value.yaml_end)
        self.reading.refused, refused = (), self.reading.refused
        body = read_body(source, parts.value.body_start, parts.value.body_end, self.reading)
        self.reading.refused = refused
        return None if node is None else (node, body)

    def _open(self, path: PurePosixPath) -> SourceFile | None:
        opened = read_source(self.root, path, self.shown)
        self.reading.take(opened.faults)
        if opened.value is not None:
            self.sources.append(opened.value)
        return opened.value

    def _yaml(self, source: SourceFile, start: int, end: int) -> MappingNode | None:
        """Return the fields of a file, or None where they cannot be read at all."""
        read = read_yaml(source, start, end)
        self.reading.take(read.faults)
        self.reading.refused = _refused_places(read.faults)
        node = read.value
        if node is None or type(node) is MappingNode:
            return node
        found = "a list" if type(node) is SequenceNode else "a text"
        message = f"this file holds {found} where fields belong"
        self.reading.report(
            "LB108", message, _start_of(node.span), "write each field as its name, a colon and its value"
        )
        return None

    def _judge_stem(self, stem: str, path: PurePosixPath, source: SourceFile) -> None:
        """Report a file's name that is no id, as it must be, and remember the nearest id."""
        if is_id(stem):
            return
        mistake = bad_id(stem)
        near = kebab(stem)
        hint = f"rename the file to `{near}{path.suffix}`" if near else ""
        message = f"the name of this file, `{stem[:60]}`, is not an id"
        self.reading.report(mistake.code, message, source.whole(), hint, *mistake.hints[-1:])
        self.reading.broken.add(near)

    def _remember_misnamed(self, paths: tuple[PurePosixPath, ...]) -> None:
        """Remember what specs with a wrong ending would have defined: their names are the one thing to mend."""
        for path in paths:
            source = read_source(self.root, path, self.shown).value
            stem = path.stem.removesuffix(".md").removesuffix(".yaml")
            if path.suffix.casefold() not in (".md", ".markdown") and source is not None:
                self._remember(re.findall(_TOP_KEY, source.text))
            self._keep(stem, source, self.reading.losses, lost=True)

    def _keep(self, stem: str, source: SourceFile | None, before: int, *, lost: bool) -> None:
        """Remember what a file would have defined where it could not be read, or not all of it."""
        if not lost:
            if self.reading.losses > before:
                self.reading.incomplete.add(stem)
            return
        self._remember((stem, kebab(stem)))
        if source is not None:
            self._remember(re.findall(_COURSE, source.text))
            self._remember(name for part in re.findall(_ALSO_MAKES, source.text) for name in re.findall(_ITEM, part))

    def _remember(self, names: Iterable[str]) -> tuple[str, ...]:
        found = tuple(names)
        self.reading.broken.update(found)
        return found


def _refused_places(faults: Iterable[Fault]) -> tuple[Span, ...]:
    return tuple(found.span for found in faults if found.severity is Severity.ERROR and found.span is not None)


def _start_of(span: Span) -> Span:
    line_end = span.source.text.find("\n", span.start)
    end = len(span.source.text) if line_end < 0 else line_end
    return span.source.span(span.start, max(span.start, min(span.end, end)))


def read_cards_again(root: Path, shown: str, parsed: ParsedHouse, paths: Iterable[PurePosixPath]) -> ParsedHouse | None:
    """Return a house that was read without any fault, with these cards of it as they are now.

    None where that cannot be told from the cards alone: one of them has a fault, or is another's.
    """
    if parsed.file is None:
        return None
    reading = Reading()
    reading.learn(parsed.file.measures)
    house = _House(root=root, shown=shown, reading=reading)
    cards: dict[str, dict[str, Any]] = {
        "dishes": {card.id: card for card in parsed.dishes},
        "components": {card.id: card for card in parsed.components},
    }
    for path in paths:
        folder, kind = (DISH, Dish) if path.parts[0] == "dishes" else (COMPONENT, Component)
        read, known = house._read_cards((path,), folder, kind), cards[path.parts[0]]
        if len(read) != 1 or read[0].id not in known:
            return None
        known[read[0].id] = read[0]
    if not reading.is_clean:
        return None
    return replace(parsed, dishes=tuple(cards["dishes"].values()), components=tuple(cards["components"].values()))
