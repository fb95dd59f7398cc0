"""What is kept of a print for the next one of the same house in the same words, and what is made of it then.

Owns which parts that is in the store: a list with the inputs, the records as they were read, the codes of each PDF, and
all that was looked at; and how the process that prints comes by the house: sent whole, sent as the cards that have
changed, or read there. It must not know where the store lies. It reads no clock and prints nothing.
"""

from __future__ import annotations

import pickle
from collections.abc import Callable, Iterable, Mapping
from dataclasses import replace
from functools import partial
from hashlib import sha256
from pathlib import Path, PurePosixPath
from typing import TYPE_CHECKING, Any, Final

from linebook.copies import InTwo
from linebook.inputs import changed_between
from linebook.source.faults import Outcome
from linebook.source.frozen import frozen
from linebook.source.written import pickled

if TYPE_CHECKING:
    from linebook.again import FileBefore
    from linebook.binders_again import PrintAgain, PrintBefore
    from linebook.model.component import Component
    from linebook.model.dish import Dish
    from linebook.model.house import House, ParsedHouse
    from linebook.pdf.page_code import SheetCode
    from linebook.read.shared_cards import Sharing
    from linebook.sheet_store import SheetStore
    from linebook.source.spans import SourceFile
    from linebook.templating.templates import Templates
    from linebook.workshop import PdfFile

_MOST_APART: Final = 24
"""So many cards are kept apart from the house they belong to, which is then kept anew."""

_CARDS: Final = ("dishes", "components")


@frozen
class Listing:
    """The list of what is kept. ``cards`` are those that were read after the ``house`` was kept, by folder and id."""

    inputs: Mapping[str, str]
    house: str
    cards: Mapping[tuple[str, str], Dish | Component]
    rest: str
    parts: frozenset[str]


@frozen
class Printed:
    """A finished print."""

    files: tuple[PdfFile, ...]


@frozen
class Rest:
    """What was kept of a print where it was made: the part that tells all that was looked at, and the others.

    ``house`` is the part with the records that were read there, '' where they were not kept.
    """

    name: str
    parts: frozenset[str]
    house: str = ""


class Read:
    """A house as it was read, which is written out once, to be sent to another process and to be kept.

    ``texts`` is the digest of all that was read: to a process that reads it itself, ``there``, only that is sent.
    ``halves`` are its cards where they were written out before, as in ``SharedCards``.
    """

    def __init__(
        self,
        house: ParsedHouse,
        texts: str = "",
        *,
        there: bool = False,
        written: bytes | None = None,
        halves: tuple[bytes, ...] = (),
    ) -> None:
        self.house, self.texts, self._there, self._written, self._halves = house, texts, there, written, halves

    def written(self) -> bytes:
        """Return the house written out."""
        if self._written is None:
            rest = replace(self.house, components=(), dishes=()) if self._halves else self.house
            self._written = pickled((rest, self._halves))
        return self._written

    def let_go(self) -> None:
        """Hold no longer what was written out: it is some megabytes, and a large print has better use for them."""
        self._written, self._halves = None, ()

    def __reduce__(self) -> tuple[Any, ...]:
        return (ReadThere, (self.texts,)) if self._there else (_read_again, (self.written(),))


@frozen(kw_only=False)
class ReadThere:
    """The digest of all that was read of a house, sent to a process that has read it too."""

    texts: str


def digest_of_texts(sources: Iterable[SourceFile]) -> str:
    """Return what tells whether two processes have read the same."""
    digest = sha256()
    for source in sources:
        digest.update(f"{source.path}\0{source.text}\0".encode("utf-8", "surrogatepass"))
    return digest.hexdigest()


def _read_again(written: bytes) -> Read:
    return Read(_written_house(written), written=written)


def _written_house(written: bytes) -> ParsedHouse:
    """Return the house that ``Read`` has written out."""
    from linebook.model.component import Component
    from linebook.model.dish import Dish
    from linebook.read.shared_cards import cards_of

    house: ParsedHouse
    house, halves = pickle.loads(written)
    if not halves:
        return house
    cards = cards_of(halves)
    components = tuple(card for card in cards if isinstance(card, Component))
    return replace(house, components=components, dishes=tuple(card for card in cards if isinstance(card, Dish)))


class KeptPrint:
    """The print before this one, as far as it is kept, and what is kept of this one.

    ``state`` is the digest of all inputs that no record of the house stands for; ``inputs`` are the others.
    """

    def __init__(self, store: SheetStore, state: str, inputs: Mapping[str, str]) -> None:
        self._store, self._state, self._inputs = store, state, inputs
        self._listing: Listing | None = None
        self._parsed: ParsedHouse | None = None
        content = store.read_list(state)
        if content is not None:
            listing: Listing = pickle.loads(content)
            self._listing = listing if listing.inputs.keys() == inputs.keys() else None

    def __reduce__(self) -> tuple[Any, ...]:
        return KeptPrint, (self._store, self._state, self._inputs)

    @property
    def is_there(self) -> bool:
        """Return whether there is a print to start from."""
        return self._listing is not None

    def changed_cards(self) -> tuple[PurePosixPath, ...] | None:
        """Return the cards that have changed since; None where anything else has, or nothing is kept."""
        if self._listing is None:
            return None
        paths = [PurePosixPath(path) for path, _ in changed_between(self._listing.inputs, self._inputs)]
        return tuple(paths) if all(path.parts[0] in _CARDS for path in paths) else None

    def cards_in(self, parsed: ParsedHouse) -> Mapping[tuple[str, str], Dish | Component]:
        """Return the cards of a house that are not those of the print before."""
        before = self._parsed
        was = set(map(id, (*before.dishes, *before.components))) if before is not None else set()
        cards = {("dishes", card.id): card for card in parsed.dishes if id(card) not in was}
        return {**cards, **{("components", card.id): card for card in parsed.components if id(card) not in was}}

    def parsed(self) -> ParsedHouse | None:
        """Return the house as it was read for the print before; None where that is lost."""
        if self._listing is None or self._parsed is not None:
            return self._parsed
        content = self._store.read(self._listing.house)
        if content is None:
            return None
        self._parsed = _with_cards(_written_house(content), self._listing.cards)
        return self._parsed

    def before(self, printed: Callable[[House], House]) -> PrintBefore | None:
        """Return the print before; ``printed`` gives a house as the words of the command have it printed."""
        from linebook.binders_again import PrintBefore

        parsed = self.parsed()
        house = _house_of(parsed) if parsed is not None else None
        content = self._store.read(self._listing.rest) if self._listing else None
        if house is None or content is None:
            return None
        figured, asked, files = pickle.loads(content)
        return PrintBefore(house=printed(house), figured=figured, asked=asked, files=files, codes=self._codes)

    def _codes(self, file: FileBefore) -> Mapping[str, SheetCode] | None:
        content = self._store.read(file.codes)
        return None if content is None else pickle.loads(content)

    def build(
        self, house: House, before: PrintBefore | None, read: Read | None, **named: Any
    ) -> Outcome[Printed] | InTwo:
        """Make the print, as ``build_again`` does, then keep what the next one can use of it, but for the list.

        The records of the house are kept before it is drawn, where it was ``read`` anew: they take room until then.
        """
        from linebook.binders_again import build_again

        keep = None if read is None else partial(self._keep_house, read)
        built = build_again(house, before=before, before_drawing=keep, **named)
        if built.value is None:
            return Outcome(value=None, faults=built.faults)
        printed = Outcome(value=Printed(files=built.value.files), faults=built.faults)
        return InTwo(printed, partial(self._rest, built.value))

    def _rest(self, made: PrintAgain) -> Rest | None:
        """Keep all but the list and the house; None where there is no room: then the next print does all the work."""
        try:
            known = {name: self._kept(file) for name, file in made.known.items()}
            rest = self._store.write(pickled((made.figured, made.asked, known)))
        except OSError:
            return None
        parts = frozenset(file.codes for file in known.values())
        return Rest(name=rest, parts=parts, house=str(made.kept or ""))

    def _keep_house(self, read: Read) -> str:
        try:
            return self._store.write(read.written())
        except OSError:  # that shows where the rest is kept
            return ""
        finally:
            read.let_go()

    def _kept(self, file: FileBefore) -> FileBefore:
        return replace(file, codes=self._store.write(file.packed), packed=b"") if file.packed else file

    def keep(self, read: Read, rest: Rest) -> None:
        """Keep the list of all that is kept of a print, of a house that was read without any fault."""
        try:
            house, cards = self._house(read, rest)
            parts = rest.parts | {house, rest.name}
            listing = Listing(inputs=self._inputs, house=house, cards=cards, rest=rest.name, parts=parts)
            self._store.write_list(self._state, pickled(listing), parts)
        except OSError:
            return

    def _house(self, read: Read, rest: Rest) -> tuple[str, Mapping[tuple[str, str], Dish | Component]]:
        """Keep the records of a house, whole or only the cards that have changed; return what the list says of them."""
        listing = self._listing
        if listing is not None and self._parsed is not None and self.changed_cards() is not None:
            cards = {**listing.cards, **self.cards_in(read.house)}
            if len(cards) <= _MOST_APART:
                return listing.house, cards
        return rest.house or self._store.write(read.written()), {}


@frozen
class Ready:
    """What another process got ready: the templates, and the print before, as it is ``kept``, or the house it read.

    ``kept`` is None where the print before was not looked for, ``read`` where the house is sent.
    """

    templates: Templates
    kept: KeptPrint | None = None
    before: PrintBefore | None = None
    read: Read | None = None


def get_ready_again(folder: Path, theme: str, kept: KeptPrint, printed: Callable[[House], House]) -> Ready:
    """Get ready to print from the print before, as ``ready.get_ready`` does for one from nothing: for a few sheets."""
    from linebook.ready import get_ready, get_ready_for_few

    before = kept.before(printed)
    ready = get_ready if before is None else get_ready_for_few
    return Ready(templates=ready(folder, theme), kept=kept, before=before)


def get_ready_and_read(
    folder: Path, theme: str, shown: str, languages: tuple[str, ...], sharing: Sharing | None = None
) -> Ready:
    """Get ready as ``ready.get_ready`` does, and read the house, ``sharing`` that with the process that prints."""
    from linebook.read.house_folder import read_house
    from linebook.ready import get_ready

    reading = read_house(folder, shown, languages, sharing)
    house = reading.outcome.value
    texts = digest_of_texts(reading.sources)
    read = Read(house, texts, halves=reading.halves) if house is not None else None
    return Ready(templates=get_ready(folder, theme), read=read)


def build_unkept(house: House, *, ready: Ready | Templates | None, **named: Any) -> Outcome[Printed]:
    """Make a print of which nothing is kept, as it is sent to another process."""
    from linebook.pipeline import build_binders

    built = build_binders(house, ready=_templates_of(ready), **named)
    return Outcome(value=None if built.value is None else Printed(files=built.value), faults=built.faults)


def _templates_of(ready: Ready | Templates | None) -> Templates | None:
    return ready.templates if isinstance(ready, Ready) else ready


def build_kept(
    house: House,
    *,
    kept: KeptPrint,
    printed: Callable[[House], House],
    ready: Ready | Templates | None,
    read: Read | None = None,
    **named: Any,
) -> Outcome[Printed] | InTwo:
    """Make a print and keep what can be used of it again. ``printed`` is as for ``KeptPrint.before``."""
    found = ready if isinstance(ready, Ready) and ready.kept is not None else None
    before = found.before if found is not None else kept.before(printed)
    return kept.build(house, before, read, ready=_templates_of(ready), **named)


def build_read(
    read: Read | ReadThere,
    *,
    kept: KeptPrint | None = None,
    printed: Callable[[House], House],
    output: Path,
    ready: Ready | Templates | None,
    **named: Any,
) -> Outcome[Printed] | InTwo:
    """Make a print of a house as it was read: as ``build_kept`` does, or with nothing ``kept``, as ``build_unkept``."""
    if isinstance(read, ReadThere):
        own = ready.read if isinstance(ready, Ready) else None
        if own is None or own.texts != read.texts:
            raise ValueError("a file was saved in between: the print is made where this house was read")
        read = own
    house = _house_of(read.house)
    assert house is not None, "it was whole when this was asked for"
    if kept is None:
        read.let_go()
        return build_unkept(printed(house), ready=ready, **named)
    return build_kept(printed(house), kept=kept, printed=printed, output=output, ready=ready, read=read, **named)


def build_reopened(
    cards: Mapping[tuple[str, str], Dish | Component],
    *,
    kept: KeptPrint,
    printed: Callable[[House], House],
    ready: Ready | Templates | None,
    **named: Any,
) -> Outcome[Printed] | InTwo:
    """Make a print, as ``build_kept`` does, of the house of the print before with these cards."""
    own = ready.kept if isinstance(ready, Ready) and ready.kept is not None else kept
    parsed = own.parsed()
    assert parsed is not None, "it was read before this was asked for"
    house = _house_of(_with_cards(parsed, cards))
    assert house is not None, "it was whole when this was asked for"
    named |= {"go": None}  # what is left to work out is little, or done while the rules are looked at
    return build_kept(printed(house), kept=own, printed=printed, ready=ready, **named)


def _house_of(parsed: ParsedHouse) -> House | None:
    """Return a house before its rules are looked at; None where reading has lost a part of it."""
    from linebook.check.index import build_index
    from linebook.check.whole import whole_house

    return whole_house(build_index(parsed))


def _with_cards(house: ParsedHouse, cards: Mapping[tuple[str, str], Dish | Component]) -> ParsedHouse:
    if not cards:
        return house
    dishes = tuple(cards.get(("dishes", card.id), card) for card in house.dishes)
    components = tuple(cards.get(("components", card.id), card) for card in house.components)
    changes: dict[str, Any] = {"dishes": dishes, "components": components}
    return replace(house, **changes)
