"""What stands on the label of a container: what it is, made when, use by when, what it contains, by whom.

Works from a computed plan and computed findings alone. Allergens are named without their reasons, which stand on the
card; no label is without them.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from datetime import date, datetime, timedelta
from typing import Final

from linebook.compute.containers import Containers
from linebook.compute.results import AllergenTable, Answer, Finding
from linebook.documents.allergen_changes import possible_in
from linebook.documents.allergen_names import column_text
from linebook.documents.measures import Measures
from linebook.documents.plan_words import clock, clock_of_end, clock_on, load_pieces
from linebook.documents.second import by_product_name, item_name, line_name
from linebook.documents.text import Text, joined, strong, words
from linebook.documents.wording import Wording
from linebook.model.house import House
from linebook.source.exact import Fraction
from linebook.source.frozen import frozen

_MOST_LABELS: Final = 4
"""For one container: what it contains, may contain, and nobody has declared, after the first."""


@frozen
class ContainerLabel:
    """One label. Everything on it is printed, or the label is refused."""

    component: str
    """The id of what is inside, for faults."""
    name: Text
    """What is inside."""
    use_by: Text
    """The last day it may be served; a place to write it where nobody has said how long it keeps."""
    use_by_open: bool
    """Whether the use-by is to be written in."""
    made: Text
    """The day it is made, which is day 1, and when it is ready."""
    which: Text
    """Its line, how much it holds, and which of several it is."""
    allergens: tuple[Text, ...]
    """What it contains, may contain and what nobody has declared; never empty."""
    initials: Text
    """The word before the place for initials."""


@frozen
class LabelRun:
    """All labels of a day, and what is printed in the margin of their sheet."""

    labels: tuple[ContainerLabel, ...]
    """In the order in which things are ready."""
    title: Text
    """The house and the day."""
    measure: Mapping[int, Text]
    """What stands at the line to measure, by its length in mm."""
    hint: Text
    """What to do where it is not as long."""
    parts: Mapping[int, tuple[Text, ...]]
    """What each label says where one does not hold the allergens, by how many labels there are."""


def label_run(
    house: House, day: date, made: Sequence[Containers], tables: Mapping[str, AllergenTable], wording: Wording
) -> LabelRun:
    """Return the labels of what is made on a day; ``tables`` are the answers for each menu it is served on."""
    writer = _LabelWriter(house=house, day=day, wording=wording)
    labels = [label for one in made for label in writer.labels(one, tables[one.menu])]
    return LabelRun(
        labels=tuple(labels),
        title=wording.say("labels.title", house=house.file.name, day=wording.day(day)),
        measure={length: wording.say("labels.measure", length=length) for length in (50, 40, 30, 20, 10)},
        hint=wording.say("labels.measure-hint"),
        parts={count: tuple(_parts(count, wording)) for count in range(2, _MOST_LABELS + 1)},
    )


@frozen
class _LabelWriter:
    house: House
    day: date
    wording: Wording

    def labels(self, containers: Containers, table: AllergenTable) -> Iterator[ContainerLabel]:
        """Yield a label for each container of a batch."""
        component, item = containers.making.batch.component, containers.item
        name = item_name(self.house, item)
        if containers.left is not None:
            name = by_product_name(self.house, component, item, containers.left.name)
        allergens = tuple(self._allergens(item, table))
        measures = Measures(house=self.house.file, wording=self.wording)
        for number in range(1, containers.count + 1):
            several = self.wording.say("labels.of", number=number, count=containers.count)
            which = (
                line_name(self.house, component.line),
                measures.short(containers.amount),
                load_pieces(containers.making.batch, Fraction(1, containers.count), self.wording)
                if containers.left is None
                else words(""),
                several if containers.count > 1 else words(""),
                self._without(component.id),
            )
            use_by = self._use_by(containers)
            yield ContainerLabel(
                component=item,
                name=strong(name),
                use_by=use_by or self.wording.say("labels.use-by-open"),
                use_by_open=not use_by,
                made=self._made(containers),
                which=self.wording.listed(which),
                allergens=allergens,
                initials=self.wording.say("labels.initials"),
            )

    def _made(self, made: Containers) -> Text:
        """Return the day that counts as day 1, and when it is ready, with its day where that is another."""
        if made.made == made.day:
            ready = joined((self.wording.day(made.day), clock_of_end(made.ready)), " ")
            return self.wording.say("labels.made", time=ready)
        first = self.wording.day(made.made)
        at = clock_on(made.ready, made.made, self.wording)
        return self.wording.say("labels.made-since", day=first, time=at)

    def _without(self, component: str) -> Text:
        """Return what it is made without tonight, empty where it is as its specs have it."""
        tonight = self.house.tonight
        missing = tonight.touched.get(component, ()) if tonight is not None else ()
        if tonight is None or not missing:
            return words("")
        named = self.wording.listed_with_and(item_name(tonight.before, item) for item in missing)
        return strong(self.wording.say("tonight.foot", missing=named))

    def _use_by(self, made: Containers) -> Text:
        """Return the last day, with the hour where it keeps for hours and no part ends sooner; empty if unknown."""
        if made.use_by is None:
            return words("")
        said = self.wording.day(made.use_by)
        if made.keeps is not None and not made.keeps.in_days:
            over: datetime = made.ready + timedelta(minutes=int(Fraction(made.keeps.least)))
            if over.date() == made.use_by:
                said = joined((said, clock(over)), " ")
        return self.wording.say("labels.use-by", time=said)

    def _allergens(self, component: str, table: AllergenTable) -> Iterator[Text]:
        """Yield what it contains, may contain, and what nobody has declared of it."""
        found: dict[str, list[Text]] = {"contains": [], "may-contain": []}
        for column in table.columns:
            finding = table.components[component][column.id]
            possible = possible_in(finding)
            if finding.answer is Answer.CONTAINS:
                found["contains"].append(self._named(column.id, finding, table))
            if possible is not None:
                found["may-contain"].append(self._named(column.id, possible, table))
        undeclared = [item_name(self.house, item) for item in table.undeclared.get(component, ())]
        if not found["contains"]:
            known = "nothing-declared" if undeclared else "nothing"
            found["contains"].append(self.wording.say(f"allergens.contains.{known}"))
        for key, members in found.items():
            if members:
                yield self.wording.say(f"labels.{key}", members=self.wording.listed(members))
        if undeclared:
            yield self.wording.say("labels.undeclared", members=self.wording.listed(undeclared))

    def _named(self, column_id: str, finding: Finding, table: AllergenTable) -> Text:
        column = next(one for one in table.columns if one.id == column_id)
        return column_text(column, finding.substances, self.wording, house=self.house)


def _parts(count: int, wording: Wording) -> Iterator[Text]:
    """Yield what stands on each of several labels of one container."""
    yield wording.say("labels.more", count=count)
    for number in range(2, count + 1):
        yield wording.say("labels.part", number=number, count=count)
