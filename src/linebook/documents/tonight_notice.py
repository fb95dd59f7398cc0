"""What stands at the top of a sheet that is otherwise tonight: what stands in for what, what that brings, what is off.

Compares the answers of the house as its specs have it with tonight's. Knows no markup and no paper.
"""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import replace
from datetime import date
from typing import Final

from linebook.compute.allergens import compute_allergens
from linebook.compute.leftovers import next_service
from linebook.compute.results import AllergenTable, Answer, Column, Finding
from linebook.compute.services import is_service_day
from linebook.documents.allergen_changes import possible_in
from linebook.documents.allergen_names import column_text
from linebook.documents.binder_order import binder_order
from linebook.documents.english import ENGLISH
from linebook.documents.naming import names_of
from linebook.documents.parts import Member
from linebook.documents.second import item_name, phrase
from linebook.documents.stand_in_text import method_names, title_names
from linebook.documents.text import Text, words
from linebook.documents.wording import Wording
from linebook.model.house import House
from linebook.model.tonight import StandIn, Tonight
from linebook.source.frozen import frozen

DOCUMENT = "tonight-notice"
_KINDS = ("contains", "may", "undeclared")
_MOST_IN_FOOT = 2
_DAY: Final = re.compile(r"\d{4}-\d\d-\d\d")
_OF_A_LINE = ("line-cover", "line-allergens", "count-sheet", "set-up-sheet", "prep-day", "prep-week", "pull-list")
_WITHOUT_ANSWERS = ("line-cover", "count-sheet", "set-up-sheet", "pull-list")
_FOR_A_SERVICE = ("batch-card", "line-up-sheet", "set-up-sheet", "tasting-sheet")
_FOR_DAYS = ("order-sheet", "prep-day", "prep-week", "pull-list")
"""Sheets of which not all is for one night."""


@frozen
class TonightNotice:
    """What is otherwise tonight on one sheet."""

    id: str
    """The notice's own id."""
    title: Text
    """That it is for tonight alone."""
    instead: tuple[Member, ...]
    """What stands in for what, and what is not served."""
    brings: tuple[Member, ...]
    """What the sheet lists now that it did not: contains, may contain, not declared; all bold."""
    fewer: tuple[Member, ...]
    """What it no longer lists, which clears nobody; what its words still say."""

    def __bool__(self) -> bool:
        """Return whether there is anything to say."""
        return bool(self.instead or self.brings or self.fewer)


@frozen
class NoticeWriter:
    """Writes the notices of one house tonight; the tables are of the same menus before and now, ``menus``."""

    house: House
    tonight: Tonight
    before: AllergenTable
    now: AllergenTable
    wording: Wording
    menus: tuple[str, ...]
    for_days: bool = False

    @property
    def foot(self) -> Text:
        """Return what the foot of every sheet of this run says: without what it is printed."""
        missing = self.tonight.missing
        if len(missing) > _MOST_IN_FOOT:
            return self.wording.say("tonight.foot-many", count=len(missing))
        return self.wording.say(
            "tonight.foot", missing=self.wording.listed_with_and(self._name(item) for item in missing)
        )

    def for_sheet(self, sheet: str, line: str) -> TonightNotice | None:
        """Return the notice of a sheet by its id (``batch-card:celeriac-puree``), None where nothing is otherwise."""
        kind, _, rest = sheet.partition(":")
        if kind in _FOR_DAYS and not self.for_days:
            return replace(self, for_days=True).for_sheet(sheet, line)
        subject = rest.partition(":")[0]
        if kind not in _OF_A_LINE and (subject in self.house.dishes or subject in self.house.components):
            notice = self._of_card(subject)
        else:
            subjects = self._subjects_of(subject or line) if kind in _OF_A_LINE else tuple(self.now.dishes)
            notice = self._of_many(subjects, with_answers=kind not in _WITHOUT_ANSWERS)
        return notice or None

    def _of_card(self, subject: str) -> TonightNotice:
        reached = self.tonight.touched.get(subject, ())
        said, fewer = self._changes(subject)
        brings = [self._member(kind, f"tonight.{kind}", what=what) for kind, what in said]
        lost = [self._member("fewer", "tonight.fewer", what=fewer)] if fewer else []
        also = [*lost, *self._still_named(subject, reached)]
        return self._notice([*self.stand_ins(reached), *self._lost(subject)], brings, also)

    def _of_many(self, subjects: Sequence[str], *, with_answers: bool) -> TonightNotice:
        reached = dict.fromkeys(item for id_ in subjects for item in self.tonight.touched.get(id_, ()))
        lost = {member.key: member for id_ in subjects for member in self._lost(id_) if id_ in self.house.components}
        instead = [*self.stand_ins(reached), *self._off(), *lost.values()]
        return self._notice(instead, self._brought(subjects) if with_answers else (), ())

    def _still_named(self, subject: str, reached: Sequence[str]) -> Iterator[Member]:
        """Yield, for each item that something stands in for, that the words of a card still name it."""
        before = self.tonight.before
        own = {change.was for change in self.tonight.changes if change.card == subject and change.now}
        for stand_in in self.tonight.stands_in:
            missing, item = stand_in.missing, stand_in.item
            values = {"missing": self._name(missing), "item": self._name(item)}
            if missing in own and method_names(before, subject, missing, item):
                yield self._member(f"method.{missing}", "tonight.method-names", **values)
            if missing in reached and title_names(before, subject, missing, item):
                yield self._member(f"title.{missing}", "tonight.title-names", missing=values["missing"])

    def _brought(self, subjects: Sequence[str]) -> Iterator[Member]:
        """Yield what dishes bring now, each thing once with all the dishes that do."""
        found: dict[tuple[str, str], tuple[Text, list[Text]]] = {}
        for subject in subjects:
            for kind, what in self._changes(subject)[0] if subject in self.now.dishes else ():
                found.setdefault((kind, what.plain), (what, []))[1].append(self._name(subject))
        ordered = sorted(found.items(), key=lambda one: _KINDS.index(one[0][0]))
        for number, ((kind, _), (what, names)) in enumerate(ordered, start=1):
            dishes = self.wording.separated(names)
            yield self._member(f"{kind}.{number}", f"tonight.of.{kind}", what=what, dishes=dishes)

    def _lost(self, subject: str) -> Iterator[Member]:
        """Yield what a card leaves over no more, and what can no longer be served instead of something on it."""
        said = {"also_makes": "tonight.none-left", "alternative": "tonight.no-choice"}
        for change in self.tonight.changes:
            if change.card == subject and not change.now and change.part in said:
                asked = change.part == "also_makes" and change.was in self.tonight.missing
                sentence = "tonight.not-kept" if asked else said[change.part]
                yield self._member(f"gone.{change.was}", sentence, item=self._name(change.was))

    def stand_ins(self, missing: Iterable[str]) -> Iterator[Member]:
        """Yield a sentence for each missing item that something stands in for."""
        named = set(missing)
        for stand_in in self.tonight.stands_in:
            if stand_in.missing in named:
                yield Member(key=f"instead.{stand_in.missing}", text=self._instead(stand_in))

    def _instead(self, stand_in: StandIn) -> Text:
        values = {
            "missing": self._name(stand_in.missing),
            "item": self._name(stand_in.item),
            "how": how_text(stand_in, self.wording),
        }
        if stand_in.note:
            return self._say("tonight.instead-note", note=phrase(self.house, stand_in.note), **values)
        return self._say("tonight.instead", **values)

    def _off(self) -> Iterator[Member]:
        """Yield which dishes of the menu are not served, and the missing items that nothing stands in for."""
        listed = [entry.dish for menu in self.menus for entry in self.tonight.before.menus[menu].dishes]
        off = [fallen for fallen in self.tonight.dishes if fallen.id in listed]
        if off:
            for item in dict.fromkeys(fallen.path[-1] for fallen in off):
                yield self._member(f"without.{item}", "tonight.without", missing=self._name(item))
            dishes = self.wording.named(self._name(fallen.id) for fallen in off)
            yield Member(key="off", text=self._say("tonight.off", dishes=dishes))

    def _changes(self, subject: str) -> tuple[list[tuple[str, Text]], Text]:
        """Return what a dish or component brings now, by its kind, and what it no longer lists."""
        old, new = _findings(self.before, subject), _findings(self.now, subject)
        sure: list[Text] = []
        may: list[Text] = []
        fewer: list[Text] = []
        for column in self.now.columns:
            was, now = old.get(column.id), new.get(column.id)
            if was is None or now is None:
                continue
            sure += self._added(column, _contained(was), _contained(now))
            may += self._added(column, {**_possible(was), **_contained(was)}, _possible(now))
            fewer += self._added(column, {**_possible(now), **_contained(now)}, {**_possible(was), **_contained(was)})
        known = self.before.undeclared.get(subject, ())
        items = [item for item in self.now.undeclared.get(subject, ()) if item not in known]
        listed = (self.wording.listed(sure), self.wording.listed(may), names_of(self.house, items, self.wording))
        said = [(kind, what) for kind, what in zip(_KINDS, listed, strict=True) if what]
        return said, self.wording.listed(fewer)

    def _added(self, column: Column, was: dict[str, None], now: dict[str, None]) -> list[Text]:
        added = [name for name in now if name not in was]
        return [column_text(column, added, self.wording, house=self.house)] if added else []

    def _subjects_of(self, line: str) -> tuple[str, ...]:
        """Return the dishes and components in a line's binder."""
        entries = (entry for menu in self.menus for entry in binder_order(self.house, menu, line))
        return tuple(dict.fromkeys(entry.subject for entry in entries))

    def _notice(self, instead: Iterable[Member], brings: Iterable[Member], fewer: Iterable[Member]) -> TonightNotice:
        return TonightNotice(
            id=DOCUMENT,
            title=self._say("tonight.title"),
            instead=tuple(instead),
            brings=tuple(brings),
            fewer=tuple(fewer),
        )

    def _member(self, key: str, sentence: str, **values: Text) -> Member:
        return Member(key=key, text=self._say(sentence, **values))

    def _say(self, sentence: str, **values: Text) -> Text:
        """Return a sentence for tonight; where it is for several days, as it is said of those."""
        of_days = sentence.replace("tonight.", "these-days.", 1)
        return self.wording.say(of_days if self.for_days and of_days in ENGLISH else sentence, **values)

    def _name(self, item: str) -> Text:
        """Return the name of what is there tonight, or of what is not."""
        there = item in self.house.pantry or item in self.house.components or item in self.house.dishes
        return item_name(self.house if there else self.tonight.before, item)


def closed_notice(house: House, sheet: str, notice: TonightNotice | None, wording: Wording) -> TonightNotice | None:
    """Return a notice that also says where a sheet is for one service, on a day on which the house has none.

    The day is the end of the sheet's id (``batch-card:celeriac-puree:2027-03-07``); a binder's sheets have none there.
    """
    kind, last = sheet.partition(":")[0], sheet.rpartition(":")[2]
    if kind not in _FOR_A_SERVICE or not _DAY.fullmatch(last) or is_service_day(house, date.fromisoformat(last)):
        return notice
    day = date.fromisoformat(last)
    following = next_service(house, day)
    if following is None:
        said = wording.say("tonight.closed", day=wording.day(day))
    else:
        said = wording.say("tonight.closed-next", day=wording.day(day), next=wording.day(following))
    found = notice or TonightNotice(id=DOCUMENT, title=wording.say("tonight.title"), instead=(), brings=(), fewer=())
    return replace(found, brings=(Member(key="closed", text=said), *found.brings))


def notice_writer(house: House, menu: str, wording: Wording, *others: str) -> NoticeWriter | None:
    """Return what writes the notices of a house that is otherwise tonight, None where all is as its specs have it.

    ``others`` are the menus that sheets for several days are of besides.
    """
    if house.tonight is None:
        return None
    menus = tuple(dict.fromkeys((menu, *others)))
    before, now = _answers(house.tonight.before, menus), _answers(house, menus)
    return NoticeWriter(house=house, tonight=house.tonight, before=before, now=now, wording=wording, menus=menus)


def _answers(house: House, menus: Sequence[str]) -> AllergenTable:
    """Return the answers for the dishes of all these menus."""
    first, *others = (compute_allergens(house, menu) for menu in menus)
    for table in others:
        dishes = {**table.dishes, **first.dishes}
        first = replace(first, dishes=dishes, undeclared={**table.undeclared, **first.undeclared})
    return first


def how_text(stand_in: StandIn, wording: Wording) -> Text:
    """Return how much of it stands in: *0.8 of the weight*; both where cards take it by weight and by number."""
    size = "same" if stand_in.ratio == 1 else "less" if stand_in.ratio < 1 else "more"
    ratio = words(ratio_text(stand_in))
    return wording.listed(wording.say(f"tonight.how.{size}-{by}", ratio=ratio) for by in stand_in.by)


def ratio_text(stand_in: StandIn) -> str:
    """Return a ratio as a chef writes it, to a thousandth."""
    return f"{float(stand_in.ratio):.3f}".rstrip("0").rstrip(".") if stand_in.ratio >= 0.001 else f"{stand_in.ratio}"


def _findings(table: AllergenTable, subject: str) -> Mapping[str, Finding]:
    return table.dishes.get(subject) or table.components.get(subject) or {}


def _contained(finding: Finding) -> dict[str, None]:
    """Return the substances that a finding says are in it; the column itself where it names none."""
    return dict.fromkeys(finding.substances or ("",)) if finding.answer is Answer.CONTAINS else {}


def _possible(finding: Finding) -> dict[str, None]:
    possible = possible_in(finding)
    return dict.fromkeys(possible.substances or ("",)) if possible else {}
