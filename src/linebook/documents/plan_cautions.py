"""The food-safety box of a prep plan: a line for each limit to log today, what to bin, what to do when one is missed.

Words what ``compute.plan_cautions`` found; the figures are ``model.limits``'.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import replace
from datetime import date, datetime
from typing import Final

from linebook.compute.plan_cautions import Caution, DayCautions, LastDay, day_cautions
from linebook.compute.plan_results import PrepPlan
from linebook.documents.limit_boxes import rule_text, source_text
from linebook.documents.measures import Measures
from linebook.documents.naming import rules_text
from linebook.documents.parts import Member
from linebook.documents.plan_words import clock, clock_on, load_text, made_text, stage_text
from linebook.documents.second import item_name
from linebook.documents.text import EMPTY, NO_BREAK, Text, joined, strong, words
from linebook.documents.wording import Wording
from linebook.model.component import Limit
from linebook.model.house import House
from linebook.model.limits import NO_FIGURE, ONE_STEP, LimitRule, rule_for
from linebook.read.ids import kebab
from linebook.source.frozen import frozen

_WEEK: Final = 7
_MANY: Final = 3
"""Where at least one limit in so many is checked twice, the second check has a column; else a line of its own."""
_TWICE: Final = (Limit.HOLD, Limit.TIME)
_KEYS: Final = {Limit.FREEZE: "freeze", Limit.TIME: "time", Limit.PACKED: "packed", Limit.OIL: "oil"}


@frozen
class CautionRow:
    """One limit to log: one line on paper."""

    key: str
    """For data-key."""
    when: Text
    """The clock time of the plan."""
    name: Text
    """The component, its stage and which load."""
    rule: Text
    """Which limit, with its clock times; that the plan breaks it."""
    breaks: bool
    """Whether the plan's own times break it."""
    unit: Text
    """What a reading is written in: degrees, pH."""
    twice: bool
    """Whether a second check is written in."""


@frozen
class CautionBox:
    """The food-safety box of a line and day. Without rows and last days it is not printed."""

    rows: tuple[CautionRow, ...]
    """What to log, in the order of the clock."""
    last_days: tuple[Member, ...]
    """What is used today or binned."""
    twice: bool
    """Whether any row has a second check."""
    rules: tuple[Member, ...]
    """For each kind of limit its rule, and what to do when it is missed."""
    source: Text
    """Where the rules stand."""


def caution_box(house: House, plan: PrepPlan, line: str, day: date, wording: Wording) -> CautionBox:
    """Return the food-safety box of a line for a day of a plan."""
    writer = _BoxWriter(house=house, plan=plan, day=day, wording=wording)
    found = day_cautions(house, plan, line, day)
    rows = tuple(writer.rows(found.logs))
    return CautionBox(
        rows=rows,
        last_days=tuple(writer.last_day(number, one) for number, one in enumerate(found.last_days)),
        twice=any(row.twice for row in rows),
        rules=tuple(writer.rules(found)),
        source=writer.source(found),
    )


@frozen
class _BoxWriter:
    house: House
    plan: PrepPlan
    day: date
    wording: Wording

    @property
    def measures(self) -> Measures:
        return Measures(house=self.house.file, wording=self.wording)

    def rows(self, found: Sequence[Caution]) -> Iterator[CautionRow]:
        """Yield the lines of all limits: with few that are checked twice, each of these in two lines."""
        rows = [self.row(one) for one in found]
        apart = sum(row.twice for row in rows) * _MANY < len(rows)
        for row in rows:
            if row.twice and apart:
                yield replace(row, twice=False)
                again = self.wording.say("cautions.again", log=row.name)
                yield replace(row, key=f"{row.key}.again", when=EMPTY, name=again, rule=EMPTY, twice=False)
            else:
                yield row

    def row(self, one: Caution) -> CautionRow:
        """Return the line of one limit."""
        making = self.plan.makings[one.making]
        stage = one.stages[0]
        comma = self.wording.say("list.comma")
        name = joined(
            (
                strong(item_name(self.house, making.component)),
                stage_text(self.house, making.batch.component, stage.number),
                made_text(making, one.stages, self.measures) if len(one.stages) > 1 else EMPTY,
                load_text(one.stages, self.wording),
            ),
            comma,
        )
        said = self._said(one)
        if one.breaks:
            said = joined((said, self.wording.say("cautions.breaks")), self.wording.say("list.semicolon"))
        return CautionRow(
            key=f"log.{one.making}.{stage.number}.{stage.load}{'.out' if one.out else ''}",
            when=strong(clock_on(one.at, self.day, self.wording)),
            name=name,
            rule=said,
            breaks=one.breaks,
            unit=self.wording.say("log.acidity") if one.limit is Limit.ACIDIFY else self.measures.scale(),
            twice=one.limit in _TWICE or (one.limit is Limit.COOL and len(one.clocks) > 1),
        )

    def last_day(self, number: int, one: LastDay) -> Member:
        """Return what is used today or binned."""
        item, amount = item_name(self.house, one.component), self.measures.short(one.amount)
        if one.made == self.day:
            said = self.wording.say("cautions.last-today", item=item, amount=amount)
        elif one.made is None:
            said = self.wording.say("plan.stock", item=strong(item), amount=amount)
        else:
            said = self.wording.say("cautions.last", item=item, amount=amount, day=self.wording.day(one.made))
        return Member(key=f"last.{number}", text=said)

    def rules(self, found: DayCautions) -> Iterator[Member]:
        """Yield each kind of limit that is logged today once: its rule, and what to do when it is missed."""
        rules = {(one.limit, self._rule(one).form): self._rule(one) for one in found.logs}
        for (limit, form), rule in rules.items():
            name = kebab(limit.value)
            text = self.wording.say(
                "cautions.rule",
                limit=self.wording.say(f"limit.title.{name}"),
                rule=self._rule_text(rule, limit),
                missed=self._missed_text(rule, limit),
            )
            yield Member(key=f"rule.{name}{'.from-room' if form == ONE_STEP else ''}", text=text)

    def _rule_text(self, rule: LimitRule, limit: Limit) -> Text:
        """Return a rule; that there is no figure in few words, since the end of the sheet says who decides."""
        if rule.form != NO_FIGURE:
            return rule_text(rule, limit, self.measures)
        key = "cautions.no-figure.cool" if limit is Limit.COOL else "cautions.no-figure"
        return self.wording.say(key, rules=rules_text(self.house.file.rules, self.wording))

    def _missed_text(self, rule: LimitRule, limit: Limit) -> Text:
        """Return what to do when a limit is missed, in few words: of two ways your plan says which."""
        return self.wording.say(f"cautions.missed.{'cool-room' if rule.form == ONE_STEP else kebab(limit.value)}")

    def source(self, found: DayCautions) -> Text:
        """Return where the rules of today's limits stand, each source once."""
        rules = {self._rule(one).source: self._rule(one) for one in found.logs}
        return joined([source_text(rule, self.wording) for rule in rules.values()], self.wording.say("list.semicolon"))

    def _said(self, one: Caution) -> Text:
        key = f"cautions.{_KEYS.get(one.limit, one.limit.value)}"
        clocks = [self._clock(moment) for moment in one.clocks]
        if one.out:
            return self.wording.say("cautions.freeze-out")
        if one.limit in (Limit.PACKED, Limit.OIL):
            use_by = self.plan.makings[one.making].use_by
            return self.wording.say(f"{key}-until", day=self.wording.day(use_by)) if use_by else self.wording.say(key)
        if one.limit in (Limit.COOK, Limit.HOLD, Limit.ACIDIFY):
            return self.wording.say(key)
        if not clocks:
            return self.wording.say(f"{key}-open", until=clock_on(one.until, self.day, self.wording))
        if one.limit is Limit.COOL and len(clocks) == 1:
            key = f"{key}-room"
        return self.wording.say(key, **self._heats(one), first=clocks[0], last=clocks[-1])

    def _clock(self, moment: datetime) -> Text:
        """Return a clock time, with its weekday on another day, and with its date a week and more from now."""
        if (moment.date() - self.day).days < _WEEK:
            return clock_on(moment, self.day, self.wording)
        return joined((self.wording.day(moment.date()), clock(moment)), NO_BREAK)

    def _heats(self, one: Caution) -> dict[str, Text]:
        rule = self._rule(one)
        heats = [words(self.measures.heat(heat).plain) for heat in rule.heats]
        if one.limit is Limit.COOL:
            return {"heat_a": heats[0]} if rule.form == ONE_STEP else {"heat_a": heats[1], "heat_b": heats[2]}
        return {"heat": heats[0]} if one.limit is Limit.REHEAT and rule.form != NO_FIGURE else {}

    def _rule(self, one: Caution) -> LimitRule:
        return rule_for(self.house.file.rules, one.limit, from_room=one.from_room)
