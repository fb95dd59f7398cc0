"""One trip to the stores: all that a line takes on a day, by where it is kept, and its knife work over all cards."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from datetime import date
from typing import Final

from linebook.compute.day_needs import DayNeed, KnifeWork, day_needs, knife_work
from linebook.compute.plan_results import PrepPlan
from linebook.compute.whole_pieces import in_whole_pieces
from linebook.documents.measures import Measures
from linebook.documents.naming import kicker, names_of
from linebook.documents.second import item_name, place_name
from linebook.documents.stand_in_text import knife_prep
from linebook.documents.text import Text, strong
from linebook.documents.wording import Wording
from linebook.model.amounts import Amount
from linebook.model.house import House
from linebook.source.frozen import frozen

DOCUMENT: Final = "pull-list"
_LEFT: Final = ".left"
_ELSEWHERE: Final = ".elsewhere"
"""Keys of groups that are no place: no id begins so."""


@frozen
class PullRow:
    """One item, or one way of cutting it."""

    key: str
    """For data-key."""
    amount: Text
    """All of it, what is counted in whole ones; *to taste* where there is no amount."""
    name: Text
    """What it is, and how it is cut."""
    users: Text
    """What it goes into."""


@frozen
class PullGroup:
    """What is kept in one place."""

    key: str
    """For data-key."""
    title: Text
    """The place."""
    rows: tuple[PullRow, ...]
    """What is taken there, from A to Z."""


@frozen
class PullList:
    """All a pull list shows."""

    id: str
    """The sheet's own id."""
    line: str
    """The id of its line."""
    kicker: Text
    """Over the name: the line and what sheet this is."""
    title: Text
    """The day."""
    aside: Text
    """That it is for this day alone."""
    groups: tuple[PullGroup, ...]
    """What is taken, by place."""
    knife: tuple[PullRow, ...]
    """What is cut, peeled or picked, over all cards."""


def pull_list(house: House, plan: PrepPlan, line: str, day: date, wording: Wording) -> PullList:
    """Return the pull list of a line for a day of a plan."""
    writer = _PullWriter(house=house, wording=wording)
    return PullList(
        id=f"{DOCUMENT}:{line}:{day.isoformat()}",
        line=line,
        kicker=kicker(house, line, DOCUMENT, wording),
        title=wording.day(day),
        aside=strong(wording.say("plan.aside")),
        groups=tuple(writer.groups(day_needs(house, plan, line, day))),
        knife=tuple(writer.knife(knife_work(house, plan, line, day))),
    )


@frozen
class _PullWriter:
    house: House
    wording: Wording

    def groups(self, needs: Sequence[DayNeed]) -> Iterator[PullGroup]:
        """Yield what is taken by place, in the order of the house's places.

        Trim and liquor that other cards left come after them, what is kept nowhere known last.
        """
        places = [place.id for place in self.house.file.places]
        titles = {place: place_name(self.house, place) for place in places}
        titles |= {_LEFT: self.wording.say("pull.left"), _ELSEWHERE: self.wording.say("pull.elsewhere")}
        for key, title in titles.items():
            rows = [self._row(need) for need in needs if self._kept(need) == key]
            if rows:
                yield PullGroup(key=key, title=title, rows=tuple(sorted(rows, key=_by_name)))

    def _kept(self, need: DayNeed) -> str:
        if need.place is not None:
            return need.place
        return _LEFT if need.item in self.house.by_products and need.item not in self.house.pantry else _ELSEWHERE

    def knife(self, work: Sequence[KnifeWork]) -> Iterator[PullRow]:
        """Yield what is cut, item by item."""
        for one in sorted(work, key=lambda one: (self.house.name_of(one.item).casefold(), one.prep)):
            name = self.wording.say(
                "pull.cut",
                item=strong(item_name(self.house, one.item)),
                prep=knife_prep(self.house, one.prep, one.as_for, self.wording),
            )
            yield PullRow(
                key=f"knife.{one.item}.{one.prep}",
                amount=self._amount(one.amounts),
                name=name,
                users=names_of(self.house, one.users, self.wording),
            )

    def _row(self, need: DayNeed) -> PullRow:
        return PullRow(
            key=f"pull.{need.item}",
            amount=self._amount(need.amounts),
            name=strong(item_name(self.house, need.item)),
            users=names_of(self.house, need.users, self.wording),
        )

    def _amount(self, amounts: Sequence[Amount]) -> Text:
        if not amounts:
            return self.wording.say("amount.to-taste")
        measures = Measures(house=self.house.file, wording=self.wording)
        return strong(self.wording.listed_with_and(measures.short(in_whole_pieces(amount)) for amount in amounts))


def _by_name(row: PullRow) -> str:
    return row.name.plain.casefold()
