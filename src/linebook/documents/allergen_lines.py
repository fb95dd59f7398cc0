"""The three lines about allergens that every card carries, and what can be said to a guest who asks.

Works from computed findings alone, never from a field of a spec. No line is ever blank.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence

from linebook.compute.results import AllergenTable, Answer, Column, Finding
from linebook.documents.naming import medium_name
from linebook.documents.parts import AllergenLine, Member
from linebook.documents.text import EMPTY, Text, words
from linebook.documents.wording import Wording
from linebook.model.house import House
from linebook.source.frozen import frozen


@frozen
class Verdict:
    """What to do for a guest who avoids any of ``members``. The action stands first and alone."""

    key: str
    action: Text
    members: tuple[Member, ...]


@frozen
class Allergens:
    """The answers for one dish or component, ready to be worded."""

    house: House
    columns: Sequence[Column]
    findings: Mapping[str, Finding]
    undeclared: Sequence[str]
    wording: Wording

    def lines(self) -> tuple[AllergenLine, AllergenLine, AllergenLine]:
        """Return contains, may contain and undeclared: the members named, or words that say there are none known."""
        return (
            self._line("contains", self._members(Answer.CONTAINS), EMPTY),
            self._line("may-contain", self._may_members(), EMPTY),
            self._line("undeclared", self._undeclared_members(), self.wording.say("allergens.undeclared.treat")),
        )

    def verdicts(self) -> tuple[Verdict, ...]:
        """Return the actions for a guest who asks, the most certain first; the last one covers anything else."""
        refuse: list[Member] = []
        unsure: list[Member] = []
        without: dict[tuple[str, ...], list[Member]] = {}
        for column in self.columns:
            finding = self.findings[column.id]
            if finding.answer is Answer.FREE:
                continue
            member = Member(key=f"asked.{column.id}", text=column_text(column, finding.substances, self.wording))
            if finding.without:
                without.setdefault(finding.without, []).append(member)
            else:
                (refuse if finding.answer is Answer.CONTAINS else unsure).append(member)
        unsure.append(Member(key="asked.anything-else", text=self.wording.say("verdict.anything-else")))
        verdicts = [Verdict(key="refuse", action=self.wording.say("verdict.refuse"), members=tuple(refuse))]
        verdicts += [self._without(items, members) for items, members in without.items()]
        verdicts.append(Verdict(key="cannot-say", action=self.wording.say("verdict.cannot-say"), members=tuple(unsure)))
        return tuple(verdict for verdict in verdicts if verdict.members)

    def _without(self, items: tuple[str, ...], members: list[Member]) -> Verdict:
        names = self.wording.listed_with_and(words(self.house.name_of(item)) for item in items)
        action = self.wording.say("verdict.without", items=names)
        return Verdict(key=f"without.{'.'.join(items)}", action=action, members=tuple(members))

    def _line(self, key: str, members: Sequence[Member], note: Text) -> AllergenLine:
        label = self.wording.say(f"allergens.{key}")
        if not members:
            known = "nothing-declared" if self.undeclared else "nothing"
            nothing = Member(key=f"{key}.nothing", text=self.wording.say(f"allergens.{key}.{known}"))
            return AllergenLine(key=key, label=label, members=(nothing,))
        return AllergenLine(key=key, label=label, members=tuple(members), note=note)

    def _members(self, answer: Answer) -> list[Member]:
        return [
            Member(
                key=f"contains.{column.id}",
                text=column_text(
                    column, finding.substances, self.wording, reason_text(self.house, finding, self.wording)
                ),
            )
            for column, finding in self._found()
            if finding.answer is answer
        ]

    def _may_members(self) -> list[Member]:
        members = []
        for column, finding in self._found():
            possible = possible_in(finding)
            if possible is not None:
                reason = reason_text(self.house, possible, self.wording)
                text = column_text(column, possible.substances, self.wording, reason)
                members.append(Member(key=f"may.{column.id}", text=text))
        return members

    def _undeclared_members(self) -> list[Member]:
        return [Member(key=f"undeclared.{item}", text=words(self.house.name_of(item))) for item in self.undeclared]

    def _found(self) -> Iterable[tuple[Column, Finding]]:
        return ((column, self.findings[column.id]) for column in self.columns)


def possible_in(finding: Finding) -> Finding | None:
    """Return what may be in a dish besides what is known to be, as a finding of its own; None where nothing may."""
    if finding.answer is Answer.MAY:
        return finding
    if not finding.also_may:
        return None
    return Finding(answer=Answer.MAY, substances=finding.also_may, media=finding.also_media, partly=finding.also_partly)


def reason_text(house: House, finding: Finding, wording: Wording) -> Text:
    """Return from which shared media it, or some of it, comes; nothing where none brings it."""
    known = {medium.id for medium in house.file.media}
    media = wording.listed_with_and(words(medium_name(house, id_, wording)) for id_ in finding.media if id_ in known)
    if not media:
        return EMPTY
    return wording.say("allergens.partly-from" if finding.partly else "allergens.from", medium=media)


def column_text(column: Column, substances: Sequence[str], wording: Wording, reason: Text = EMPTY) -> Text:
    """Return a column's name with the substances it stands for, and a reason: *tree nuts (walnut)*."""
    named = [words(adds_to(column.name, name)) for name in substances]
    inside = wording.listed((*named, reason))
    if not inside:
        return words(column.name)
    return wording.say("allergens.group", group=words(column.name), members=inside)


def adds_to(group: str, substance: str) -> str:
    """Return what a substance's name adds to its group's: *walnut* to *nuts*, nothing where *soy* is *soybeans*.

    Of a general name only the remark is left: *fish, species not named* adds *species not named* to *fish*.
    """
    name, comma, remark = substance.partition(", ")
    if comma and remark.endswith("not named"):
        return remark
    group_words = [_stem(word) for word in group.split()]
    known = all(any(word.startswith(_stem(part)) for word in group_words) for part in name.split())
    return "" if known else substance


def dish_allergens(house: House, table: AllergenTable, dish: str, wording: Wording) -> Allergens:
    """Return a dish's answers, ready to be worded."""
    return Allergens(
        house=house,
        columns=table.columns,
        findings=table.dishes[dish],
        undeclared=table.undeclared.get(dish, ()),
        wording=wording,
    )


def component_allergens(house: House, table: AllergenTable, component: str, wording: Wording) -> Allergens:
    """Return a component's answers, ready to be worded."""
    return Allergens(
        house=house,
        columns=table.columns,
        findings=table.components[component],
        undeclared=table.undeclared.get(component, ()),
        wording=wording,
    )


def _stem(name: str) -> str:
    lower = name.casefold()
    return lower[:-1] if lower.endswith("s") else lower
