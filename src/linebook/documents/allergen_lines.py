"""The three lines about allergens that every card carries, and what can be said to a guest who asks.

Works from computed findings alone, never from a field of a spec. No line is ever blank.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence

from linebook.compute.results import AllergenTable, Answer, Column, Finding
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
            Member(key=f"contains.{column.id}", text=column_text(column, finding.substances, self.wording))
            for column, finding in self._found()
            if finding.answer is answer
        ]

    def _may_members(self) -> list[Member]:
        members = []
        for column, finding in self._found():
            substances = finding.substances if finding.answer is Answer.MAY else finding.also_may
            if not substances and finding.answer is not Answer.MAY:
                continue
            reason = self._reason(finding) if finding.answer is Answer.MAY else EMPTY
            text = column_text(column, substances, self.wording, reason)
            members.append(Member(key=f"may.{column.id}", text=text))
        return members

    def _undeclared_members(self) -> list[Member]:
        return [Member(key=f"undeclared.{item}", text=words(self.house.name_of(item))) for item in self.undeclared]

    def _reason(self, finding: Finding) -> Text:
        """Return through which shared medium something may have come."""
        names = {medium.id: medium.name for medium in self.house.file.media}
        through = (self.wording.say("allergens.through", medium=names[id_]) for id_ in finding.media if id_ in names)
        return self.wording.listed(through)

    def _found(self) -> Iterable[tuple[Column, Finding]]:
        return ((column, self.findings[column.id]) for column in self.columns)


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
