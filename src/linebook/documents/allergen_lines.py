"""The three lines about allergens that every card carries, and what can be said to a guest who asks.

Works from computed findings alone, never from a field of a spec. No line is ever blank.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping, Sequence

from linebook.compute.results import AllergenTable, Answer, Column, Finding, PartFindings
from linebook.documents.allergen_changes import action_text, brought, brought_text, change_key, possible_in, reason_text
from linebook.documents.allergen_names import column_text
from linebook.documents.parts import AllergenLine, Member
from linebook.documents.second import item_name
from linebook.documents.text import EMPTY, Text
from linebook.documents.wording import Wording
from linebook.model.house import House
from linebook.source.frozen import frozen


@frozen
class Verdict:
    """What to do for a guest who avoids any of ``members``. The action stands first and alone."""

    key: str
    """For data-key."""
    action: Text
    """What to do."""
    members: tuple[Member, ...]
    """For whom: what the guest avoids."""


@frozen
class Allergens:
    """The answers for one dish or component, ready to be worded."""

    house: House
    columns: Sequence[Column]
    findings: Mapping[str, Finding]
    undeclared: Sequence[str]
    wording: Wording
    parts: Sequence[PartFindings] = ()

    def lines(self) -> tuple[AllergenLine, AllergenLine, AllergenLine]:
        """Return contains, may contain and undeclared: the members named, or words that say there are none known."""
        contains: list[Member] = []
        may: list[Member] = []
        for column, finding in self._found():
            if finding.answer is Answer.CONTAINS:
                contains.append(self._member("contains", column, finding))
            if possible := possible_in(finding):
                may.append(self._member("may", column, possible))
        return (
            self._line("contains", contains, EMPTY),
            self._line("may-contain", may, EMPTY),
            self._line("undeclared", self._undeclared_members(), self.wording.say("allergens.undeclared.treat")),
        )

    def verdicts(self) -> tuple[Verdict, ...]:
        """Return the actions for a guest who asks, the most certain first; the last one covers anything else."""
        refuse: list[Member] = []
        unsure: list[Member] = []
        for column, finding in self._found():
            if finding.answer is not Answer.FREE and not change_key(finding):
                (refuse if finding.answer is Answer.CONTAINS else unsure).append(self._asked(column, finding))
        unsure.append(Member(key="asked.anything-else", text=self.wording.say("verdict.anything-else")))
        verdicts = [Verdict(key="refuse", action=self.wording.say("verdict.refuse"), members=tuple(refuse))]
        verdicts += self.changes()
        verdicts.append(Verdict(key="cannot-say", action=self.wording.say("verdict.cannot-say"), members=tuple(unsure)))
        return (*(verdict for verdict in verdicts if verdict.members), *self.alternatives())

    def changes(self) -> Iterator[Verdict]:
        """Yield each thing that can be done on the plate, and for whom."""
        changed: dict[str, tuple[Finding, list[Member]]] = {}
        for column, finding in self._found():
            if key := change_key(finding):
                changed.setdefault(key, (finding, []))[1].append(self._asked(column, finding))
        for key, (finding, members) in changed.items():
            action = action_text(self.house, finding, self.wording)
            yield Verdict(key=key, action=action, members=tuple(members))

    def alternatives(self) -> Iterator[Verdict]:
        """Yield what each alternative brings itself: what helps one guest may harm another."""
        for part in {part.item: part for part in self.parts if part.instead_of}.values():
            what = brought_text(brought(self.house, self.columns, part, self.wording), self.wording)
            yield Verdict(
                key=f"brings.{part.item}",
                action=self.wording.say("serve.brings", item=item_name(self.house, part.item)),
                members=(Member(key=f"brought.{part.item}", text=what),),
            )

    def _asked(self, column: Column, finding: Finding) -> Member:
        text = column_text(column, finding.substances, self.wording, house=self.house)
        return Member(key=f"asked.{column.id}", text=text)

    def _line(self, key: str, members: Sequence[Member], note: Text) -> AllergenLine:
        label = self.wording.say(f"allergens.{key}")
        if not members:
            known = "nothing-declared" if self.undeclared else "nothing"
            nothing = Member(key=f"{key}.nothing", text=self.wording.say(f"allergens.{key}.{known}"))
            return AllergenLine(key=key, label=label, members=(nothing,))
        return AllergenLine(key=key, label=label, members=tuple(members), note=note)

    def _member(self, key: str, column: Column, finding: Finding) -> Member:
        reason = reason_text(self.house, finding, self.wording)
        text = column_text(column, finding.substances, self.wording, reason, house=self.house)
        return Member(key=f"{key}.{column.id}", text=text)

    def _undeclared_members(self) -> list[Member]:
        return [Member(key=f"undeclared.{item}", text=item_name(self.house, item)) for item in self.undeclared]

    def _found(self) -> Iterable[tuple[Column, Finding]]:
        return [(column, self.findings[column.id]) for column in self.columns]


def dish_allergens(house: House, table: AllergenTable, dish: str, wording: Wording) -> Allergens:
    """Return a dish's answers, ready to be worded."""
    return Allergens(
        house=house,
        columns=table.columns,
        findings=table.dishes[dish],
        undeclared=table.undeclared.get(dish, ()),
        wording=wording,
        parts=table.parts.get(dish, ()),
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
