"""The cover of a line's binder: which menu, from when, how many portions to expect, what is in it in order, and what
to watch for.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence

from linebook.compute.portions import FULL
from linebook.compute.results import AllergenTable, Night, Standing
from linebook.documents import line_allergens, set_up_sheet
from linebook.documents.balances import cover_text
from linebook.documents.binder_order import BinderEntry, binder_order, dishes_of_line
from linebook.documents.measures import Measures
from linebook.documents.naming import line_of, names_of, rules_text
from linebook.documents.parts import Labelled, Member
from linebook.documents.second import item_name, line_name, menu_name, size_name
from linebook.documents.text import EMPTY, Text, strong, words
from linebook.documents.wording import Wording
from linebook.model.house import House
from linebook.model.menu import Menu
from linebook.source.frozen import frozen

DOCUMENT = "line-cover"
_TOLD = (Standing.SHORT, Standing.APART)
"""How what is kept for other cards stands where a cover tells it."""


@frozen
class ContentsRow:
    """One sheet of the binder by its name. ``fingerprint`` is empty where it is not known."""

    key: str
    """For data-key; what leads to the sheet."""
    name: Text
    """The name of the sheet."""
    document: Text
    """What sheet it is."""
    fingerprint: Text
    """Its fingerprint; may be empty."""


@frozen
class PortionRow:
    """How many portions of one dish in one size to expect, one figure a standard night."""

    key: str
    """For data-key."""
    name: Text
    """The dish and the size."""
    figures: tuple[Text, ...]
    """The portions to expect on each standard night."""


@frozen
class LineCover:
    """All a cover shows."""

    id: str
    """The sheet's own id."""
    line: str
    """The id of its line."""
    kicker: Text
    """Over the name: the house and what this is."""
    title: Text
    """The name of the line."""
    aside: Text
    """The name of the menu."""
    facts: tuple[Labelled, ...]
    """The menu, its dates and how much is in the binder."""
    hours: tuple[Labelled, ...]
    """The cooks, set-up and doors."""
    from_others: tuple[Labelled, ...]
    """What other lines make for this one."""
    portions_title: Text
    """The heading over the portions."""
    night_heads: tuple[Text, ...]
    """The heads of the standard nights."""
    portions: tuple[PortionRow, ...]
    """How many portions to expect."""
    short_title: Text
    """The heading over what falls short; empty where nothing does."""
    short: tuple[PortionRow, ...]
    """What is kept for other cards and falls short on a standard night: how much, one figure a night."""
    contents_title: Text
    """The heading over the contents."""
    contents: tuple[ContentsRow, ...]
    """The sheets in working order."""
    cautions_title: Text
    """The heading over the cautions."""
    cautions: tuple[Member, ...]
    """What to watch for before cooking from it."""

    @property
    def columns(self) -> int:
        """Return how many columns the tables of the standard nights have."""
        return 1 + len(self.night_heads)

    @property
    def fingerprints(self) -> bool:
        """Return whether the fingerprints of its sheets are known."""
        return any(row.fingerprint for row in self.contents)


def line_cover(
    house: House,
    line: str,
    table: AllergenTable,
    wording: Wording,
    fingerprints: Mapping[str, str],
    nights: Sequence[Night] = (),
) -> LineCover:
    """Return the cover of a line's binder for the menu of ``table``. ``fingerprints`` are by sheet id.

    ``nights`` are the house's standard nights, whose portions a chef plans pars from.
    """
    menu = house.menus[table.menu]
    entries = binder_order(house, menu.id, line)
    writer = _CoverWriter(house=house, line=line, menu=menu, table=table, entries=entries, wording=wording)
    short = tuple(writer.short(nights))
    return LineCover(
        id=f"{DOCUMENT}:{line}",
        line=line,
        kicker=wording.say("cover.kicker", house=house.file.name),
        title=line_name(house, line),
        aside=strong(menu_name(house, menu.id)),
        facts=tuple(writer.facts()),
        hours=tuple(writer.hours()),
        from_others=tuple(writer.from_others()),
        portions_title=wording.say("cover.portions"),
        night_heads=tuple(wording.say_count("covers", night.occasion.covers) for night in nights),
        portions=tuple(writer.portions(nights)),
        short_title=wording.say("cover.short") if short else EMPTY,
        short=short,
        contents_title=wording.say("cover.contents"),
        contents=(
            *writer.first_rows(fingerprints),
            *(writer.row(entry, fingerprints.get(entry.id, "")) for entry in entries),
        ),
        cautions_title=wording.say("cover.cautions"),
        cautions=tuple(writer.cautions()),
    )


@frozen
class _CoverWriter:
    house: House
    line: str
    menu: Menu
    table: AllergenTable
    entries: tuple[BinderEntry, ...]
    wording: Wording

    def row(self, entry: BinderEntry, fingerprint: str) -> ContentsRow:
        """Return one line of the contents."""
        return ContentsRow(
            key=f"sheet:{entry.id}",
            name=item_name(self.house, entry.subject),
            document=self.wording.say(f"document.{entry.document}"),
            fingerprint=words(fingerprint),
        )

    def first_rows(self, fingerprints: Mapping[str, str]) -> Iterator[ContentsRow]:
        """Yield what comes before the dishes: the line's allergen page, and its set-up sheet where it has one."""
        titles = {line_allergens.DOCUMENT: "line-allergens.title", set_up_sheet.DOCUMENT: "set-up.title"}
        for document, title in titles.items():
            sheet = f"{document}:{self.line}"
            if document == line_allergens.DOCUMENT or sheet in fingerprints:
                yield ContentsRow(
                    key=f"sheet:{sheet}",
                    name=self.wording.say(title, line=line_name(self.house, self.line)),
                    document=self.wording.say(f"document.{document}"),
                    fingerprint=words(fingerprints.get(sheet, "")),
                )

    def facts(self) -> Iterator[Labelled]:
        """Yield the menu, its dates, and how much the binder holds."""
        say = self.wording.say
        last = self.menu.last
        dates = say("cover.dates-open", first=self.wording.full_day(self.menu.first))
        if last is not None:
            dates = say("cover.dates", first=self.wording.full_day(self.menu.first), last=self.wording.full_day(last))
        yield self._fact("menu", menu_name(self.house, self.menu.id))
        yield self._fact("in-force", dates)
        yield self._fact("holds", self.wording.say_count("sheets", len(self.entries) + 1))

    def hours(self) -> Iterator[Labelled]:
        """Yield how many cook on the line, and by when it is set up and the doors open."""
        line = line_of(self.house, self.line)
        yield self._fact("cooks", words(str(line.cooks)))
        if line.set_up:
            yield self._fact("set-up", words(line.set_up.strftime("%H:%M")))
        if self.house.file.service and self.house.file.service.doors:
            yield self._fact("doors", words(self.house.file.service.doors.strftime("%H:%M")))

    def from_others(self) -> Iterator[Labelled]:
        """Yield what other lines make for this one."""
        for maker, names in self._from_others().items():
            yield Labelled(
                key=f"from.{maker}",
                label=self.wording.say("cover.from", line=line_name(self.house, maker)),
                value=names_of(self.house, names, self.wording),
            )

    def portions(self, nights: Sequence[Night]) -> Iterator[PortionRow]:
        """Yield the portions of each of the line's dishes in each of its sizes, spare ones and tasters in them."""
        expected = [{(one.dish, one.size): one.portions for one in night.demands} for night in nights]
        for dish in dishes_of_line(self.house, self.menu.id, self.line) if nights else ():
            for size in dish.sizes or (None,):
                place = (dish.id, size.id if size else FULL)
                name = item_name(self.house, dish.id)
                if size and dish.sizes[1:]:
                    name = self.wording.say("cover.size", dish=name, size=size_name(self.house, dish, size))
                yield PortionRow(
                    key=f"portions.{'.'.join(place)}",
                    name=name,
                    figures=tuple(words(str(night.get(place, 0))) for night in expected),
                )

    def short(self, nights: Sequence[Night]) -> Iterator[PortionRow]:
        """Yield what the line keeps or needs of other cards' trim that is not enough on some night, or cannot be told.

        What is spare is told on the sheets of a night alone: every night leaves some.
        """
        own = {entry.subject for entry in self.entries}
        measures = Measures(house=self.house.file, wording=self.wording)
        for item in dict.fromkeys(item for night in nights for item in night.balances):
            found = [night.balances.get(item) for night in nights]
            known = [balance for balance in found if balance is not None]
            concerned = {use.user for balance in known for use in (*balance.makers, *balance.uses)}
            if own & concerned and any(balance.standing in _TOLD for balance in known):
                figures = tuple(cover_text(balance, measures) for balance in found)
                yield PortionRow(key=f"short.{item}", name=self._kept_from(item), figures=figures)

    def _kept_from(self, item: str) -> Text:
        makers = [parent.id for parent, _ in self.house.by_products.get(item, ())]
        name = item_name(self.house, item)
        if not makers:
            return name
        return self.wording.say("cover.short.from", item=name, makers=names_of(self.house, makers, self.wording))

    def cautions(self) -> Iterator[Member]:
        """Yield what to watch for: what is not declared, what is not tested, and who decides."""
        subjects = list(dict.fromkeys(entry.subject for entry in self.entries))
        undeclared = list(
            dict.fromkeys(item for subject in subjects for item in self.table.undeclared.get(subject, ()))
        )
        if undeclared:
            yield self._caution("undeclared", names_of(self.house, undeclared, self.wording))
        drafts = [subject for subject in subjects if not self._tested(subject)]
        if drafts:
            yield self._caution("drafts", names_of(self.house, drafts, self.wording))
        yield self._caution("rules", rules_text(self.house.file.rules, self.wording))
        yield self._caution("loose", words(""))
        yield self._caution("allergens", words(""))

    def _caution(self, key: str, what: Text) -> Member:
        return Member(key=f"caution.{key}", text=self.wording.say(f"caution.{key}", what=what))

    def _fact(self, key: str, value: Text) -> Labelled:
        return Labelled(key=f"cover.{key}", label=self.wording.say(f"cover.{key}"), value=value)

    def _tested(self, subject: str) -> bool:
        spec = self.house.components.get(subject) or self.house.dishes[subject]
        return spec.tested is not None

    def _from_others(self) -> dict[str, list[str]]:
        """Return what this line uses that another line makes, by line."""
        found: dict[str, list[str]] = {}
        for subject in dict.fromkeys(entry.subject for entry in self.entries):
            for item in self._items_of(subject):
                component = self.house.components.get(item)
                if (
                    component is not None
                    and component.line != self.line
                    and item not in found.setdefault(component.line, [])
                ):
                    found[component.line].append(item)
        order = [entry.id for entry in self.house.file.lines]
        return {maker: found[maker] for maker in order if maker in found}

    def _items_of(self, subject: str) -> list[str]:
        if subject in self.house.components:
            return [line.item for line in self.house.components[subject].ingredients]
        return [element.item for element in self.house.dishes[subject].elements]
