"""A line's own allergen page: what to do on an allergy ticket, and every plate of the line taken apart.

Each element of a plate has its own row of marks, so that a cook sees which of them brings what. Marks and changes are
computed; nothing here reads a field of a spec to judge by.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import replace
from typing import TypeAlias

from linebook.compute.results import AllergenTable, Answer, Column, Finding, PartFindings
from linebook.documents.allergen_lines import Verdict, dish_allergens
from linebook.documents.allergen_matrix import LEAVES, LEGEND, MatrixCell, MatrixRow, column_head, matrix_cell
from linebook.documents.allergen_names import added_names, column_name
from linebook.documents.binder_order import dishes_of_line
from linebook.documents.line_media import LineMedia, MediumLine
from linebook.documents.naming import names_of
from linebook.documents.parts import Member
from linebook.documents.second import item_name, line_name, menu_name
from linebook.documents.text import EMPTY, Text, joined, strong
from linebook.documents.wording import Wording
from linebook.model.dish import Dish
from linebook.model.house import House
from linebook.source.frozen import frozen

Findings: TypeAlias = Mapping[str, Finding]

DOCUMENT = "line-allergens"


@frozen
class LineGroup:
    """Rows that belong together: a plate and its parts, or what the line makes besides."""

    key: str
    """For data-key."""
    title: Text
    """The heading; empty over a plate, whose first row names it."""
    rows: tuple[MatrixRow, ...]
    """The plate as a whole, then its parts in plating order."""


@frozen
class LineChanges:
    """What can be left off one plate or exchanged."""

    key: str
    """For data-key."""
    title: Text
    """The dish."""
    verdicts: tuple[Verdict, ...]
    """What is done, and for whom; then what each alternative brings itself."""


@frozen
class LineAllergens:
    """All that a line's allergen page shows."""

    id: str
    """The sheet's own id."""
    line: str
    """The id of its line."""
    kicker: Text
    """Over the name: the line and what this is."""
    title: Text
    """Its name."""
    aside: Text
    """The menu."""
    ticket_title: Text
    """The heading over what to do."""
    ticket: tuple[Member, ...]
    """What to do when a ticket says allergy, in order."""
    head: Text
    """The head over the names."""
    columns: tuple[Member, ...]
    """The allergens that something on the line has, may have or does not declare, and what the house asks besides."""
    groups: tuple[LineGroup, ...]
    """The line's plates by course, then what it makes besides."""
    absent: Text
    """The allergens that have no column, because nothing on the line has them; may be empty."""
    legend: tuple[MatrixCell, ...]
    """Each mark once, with its words."""
    leaves: tuple[MatrixCell, ...]
    """The marks with a cut corner."""
    leaves_word: Text
    """What a cut corner means."""
    changes_title: Text
    """The heading over what can be done."""
    changes: tuple[LineChanges, ...]
    """What can be left off or exchanged, dish by dish."""
    media_title: Text
    """The heading over the shared media."""
    media: tuple[MediumLine, ...]
    """What goes through each shared medium of the line."""
    caution: Text
    """That the kitchen handles all of it, and who decides."""

    @property
    def width(self) -> int:
        """Return how many columns the table has, the names included."""
        return 1 + len(self.columns)


def line_allergens(
    house: House, line: str, table: AllergenTable, wording: Wording, also: AllergenTable | None = None
) -> LineAllergens:
    """Return the allergen page of a line for the menu of ``table``; ``also`` has the columns that are no allergens."""
    writer = _PageWriter(house, line, table, also, wording)
    media = LineMedia(house=house, menu=house.menus[table.menu], line=line, wording=wording)
    say = wording.say
    return LineAllergens(
        id=f"{DOCUMENT}:{line}",
        line=line,
        kicker=joined((line_name(house, line), say(f"document.{DOCUMENT}")), say("kicker.between")),
        title=say("line-allergens.title", line=line_name(house, line)),
        aside=strong(menu_name(house, table.menu)),
        ticket_title=say("line-allergens.ticket"),
        ticket=tuple(_ticket(media.names(), wording)),
        head=say("line-allergens.plate"),
        columns=tuple(
            Member(key=f"column.{column.id}", text=column_head(house, column, wording)) for column in writer.columns
        ),
        groups=tuple(writer.groups()),
        absent=writer.absent(),
        legend=tuple(MatrixCell(mark=mark, word=say(f"legend.{mark}")) for mark in LEGEND),
        leaves=tuple(MatrixCell(mark=mark, word=say(f"legend.{mark}")) for mark in LEAVES),
        leaves_word=say("legend.leave"),
        changes_title=say("line-allergens.changes"),
        changes=tuple(writer.changes()),
        media_title=say("line-allergens.media"),
        media=tuple(media.facts()),
        caution=say("matrix.caution"),
    )


def _ticket(media: Text, wording: Wording) -> Iterator[Member]:
    for step in ("read", "find", "change", "clean", "media", "hand-over"):
        if step != "media" or media:
            yield Member(key=f"ticket.{step}", text=wording.say(f"line-allergens.ticket.{step}", media=media))


class _PageWriter:
    """Writes the parts of one page. ``columns`` are those in which anything on the line is not free."""

    def __init__(
        self, house: House, line: str, table: AllergenTable, also: AllergenTable | None, wording: Wording
    ) -> None:
        self.house, self.table, self.also, self.wording = house, table, also, wording
        self._dishes = dishes_of_line(house, table.menu, line)
        plated = {part.item for dish in self._dishes for part in table.parts[dish.id]}
        made = (id_ for id_ in table.served if house.components[id_].line == line)
        self._made = [id_ for id_ in made if id_ not in plated]
        self._every = (*table.columns, *(also.columns if also else ()))
        self._cells: dict[tuple[str, Finding], MatrixCell] = {}
        rows = [self._of_dish(dish) for dish in self._dishes]
        rows += [self._joined(*beside) for dish in self._dishes for beside in self._parts_of(dish)]
        rows += [self._of_component(id_) for id_ in self._made]
        marked = {id_ for row in rows for id_, finding in row.items() if finding.answer is not Answer.FREE}
        self.columns: tuple[Column, ...] = tuple(column for column in self._every if column.id in marked)

    def absent(self) -> Text:
        """Return the columns that are left out because nothing on the line has anything of them."""
        kept = {column.id for column in self.columns}
        names = [column_name(column, self.wording, self.house) for column in self._every if column.id not in kept]
        return self.wording.say("line-allergens.absent", columns=self.wording.listed(names)) if names else EMPTY

    def groups(self) -> Iterator[LineGroup]:
        """Yield the line's plates, then what it makes that is on none of them as it is."""
        for dish in self._dishes:
            yield LineGroup(key=f"dish.{dish.id}", title=EMPTY, rows=tuple(self._plate(dish)))
        if self._made:
            rows = [(f"made.{id_}", item_name(self.house, id_), self._of_component(id_)) for id_ in self._made]
            title = self.wording.say("line-allergens.made")
            yield LineGroup(key="made", title=title, rows=tuple(self._rows("made", rows)))

    def changes(self) -> Iterator[LineChanges]:
        """Yield what can be left off or exchanged on each plate, and what an alternative brings itself."""
        for dish in self._dishes:
            allergens = dish_allergens(self.house, self.table, dish.id, self.wording)
            every = replace(allergens, columns=self._every, findings=self._of_dish(dish))
            verdicts = [*every.changes(), *allergens.alternatives()]
            if verdicts:
                title = item_name(self.house, dish.id)
                yield LineChanges(key=f"changes.{dish.id}", title=title, verdicts=tuple(verdicts))

    def _of_dish(self, dish: Dish) -> Findings:
        return {**self.table.dishes[dish.id], **(self.also.dishes[dish.id] if self.also else {})}

    def _of_component(self, component: str) -> Findings:
        return {**self.table.components[component], **(self.also.components[component] if self.also else {})}

    def _parts_of(self, dish: Dish) -> Iterator[tuple[PartFindings, PartFindings | None]]:
        """Yield each part of a plate with its answers to what the house asks besides."""
        parts = self.table.parts[dish.id]
        yield from zip(parts, self.also.parts[dish.id] if self.also else (None,) * len(parts), strict=True)

    def _joined(self, part: PartFindings, beside: PartFindings | None) -> Findings:
        return {**part.findings, **(beside.findings if beside else {})}

    def _plate(self, dish: Dish) -> Iterator[MatrixRow]:
        """Yield the plate, then its parts; what is on it twice is said once, unless it is not the same twice."""
        yield self._row(f"dish.{dish.id}", strong(item_name(self.house, dish.id)), self._of_dish(dish))
        rows: list[tuple[str, Text, Findings]] = []
        for part, beside in self._parts_of(dish):
            findings = self._joined(part, beside)
            key = ".".join(filter(None, ("part", dish.id, part.item or "touches", part.instead_of)))
            same = [other for at, _, other in rows if at.partition("#")[0] == key]
            if findings not in same:
                number = f"#{len(same) + 1}" if same else ""
                rows.append((key + number, self._part_name(dish, part), findings))
        yield from self._rows(f"part.{dish.id}", rows)

    def _rows(self, key: str, rows: Sequence[tuple[str, Text, Findings]]) -> Iterator[MatrixRow]:
        """Yield a row for each, with the kinds its marks stand for; what has no mark at all shares the last one."""
        clean: list[tuple[Text, Findings]] = []
        for own, name, findings in rows:
            if _is_clean(findings):
                clean.append((name, findings))
            else:
                yield self._row(own, self._named(name, findings), findings)
        if clean:
            yield self._row(f"{key}.clean", self.wording.named(name for name, _ in clean), clean[0][1])

    def _part_name(self, dish: Dish, part: PartFindings) -> Text:
        if not part.item:
            touches = names_of(self.house, dish.also_touches, self.wording)
            return self.wording.say("line-allergens.touches", items=touches)
        name = item_name(self.house, part.item)
        return self.wording.say("line-allergens.instead", item=name) if part.instead_of else name

    def _named(self, name: Text, findings: Findings) -> Text:
        """Return a name with the kinds that are in it for certain: *Walnut crumb (wheat, walnut)*."""
        sure = [
            kind
            for column in self.table.columns
            if findings[column.id].answer is Answer.CONTAINS
            for kind in added_names(column, findings[column.id].substances, self.wording, self.house)
        ]
        kinds = self.wording.listed({kind.both: kind for kind in sure}.values())
        return self.wording.say("line-allergens.kinds", name=name, kinds=kinds) if kinds else name

    def _row(self, key: str, name: Text, findings: Findings) -> MatrixRow:
        cells = [self._cell(column, findings[column.id]) for column in self.columns]
        return MatrixRow(key=key, name=name, cells=tuple(cells))

    def _cell(self, column: Column, finding: Finding) -> MatrixCell:
        """Return an answer's mark; most are said many times on a page."""
        known = self._cells.get((column.id, finding))
        if known is None:
            known = matrix_cell(self.house, column, finding, self.wording)
            self._cells[column.id, finding] = known
        return known


def _is_clean(findings: Findings) -> bool:
    for finding in findings.values():  # noqa: SIM110 `all` takes three times as long, and this is asked of every row
        if finding.answer is not Answer.FREE:
            return False
    return True
