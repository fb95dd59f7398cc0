"""The box of a food-safety limit: its figures, a row to log each load, what to do when it is missed, and who decides.

The figures are ``model.limits``'; this module only words them.
"""

from __future__ import annotations

from collections.abc import Mapping
from typing import Final

from linebook.documents.measures import Measures, seconds_text
from linebook.documents.naming import rules_text
from linebook.documents.parts import LimitBox, LogCell, LogRow
from linebook.documents.stages import must_fall
from linebook.documents.text import EMPTY, Text, strong, words
from linebook.documents.wording import Wording
from linebook.model.component import Limit, Stage
from linebook.model.house import HouseFile
from linebook.model.limits import NO_FIGURE, ONE_STEP, LimitRule, rule_for
from linebook.model.numbers import write_number
from linebook.read.ids import kebab
from linebook.source.remembered import gathered

_DEGREES: Final = "degrees"
_CLOCK: Final = 4
_FIGURE: Final = 3

# Words before a blank (a key, or a heat or a time of the rule), the blank's width in em, what follows it.
_Cell = tuple[str, int, str]
_END: Final[_Cell] = ("log.initials", _FIGURE, "")
_LOGS: Final[Mapping[str, tuple[_Cell, ...]]] = {
    "two-steps": (("heat.0", _CLOCK, ""), ("time.0", _FIGURE, _DEGREES), ("time.1", _FIGURE, _DEGREES)),
    ONE_STEP: (("log.start", _CLOCK, ""), ("time.0", _FIGURE, _DEGREES)),
    "cook-by-food": (("log.core", _FIGURE, _DEGREES), ("log.for", _FIGURE, ""), ("log.clock", _CLOCK, "")),
    "cook-equal": (("log.core", _FIGURE, _DEGREES), ("log.for", _FIGURE, ""), ("log.clock", _CLOCK, "")),
    "hold": (
        ("log.clock", _CLOCK, ""),
        ("log.reads", _FIGURE, _DEGREES),
        ("log.clock", _CLOCK, ""),
        ("log.reads", _FIGURE, _DEGREES),
    ),
    "reheat": (("log.start", _CLOCK, ""), ("log.core", _FIGURE, _DEGREES), ("log.clock", _CLOCK, "")),
    "freeze": (("log.in", _CLOCK, ""), ("log.reads", _FIGURE, _DEGREES), ("log.out", _CLOCK, "")),
    "time-or-cold": (("log.out-at", _CLOCK, ""), ("log.reads", _FIGURE, _DEGREES), ("log.bin-at", _CLOCK, "")),
    "time-cold-and-hot": (("log.out-at", _CLOCK, ""), ("log.reads", _FIGURE, _DEGREES), ("log.bin-at", _CLOCK, "")),
    "packed-barrier": (("log.packed", _CLOCK, ""), ("log.reads", _FIGURE, _DEGREES), ("log.use-by", _CLOCK, "")),
    "packed-days": (("log.packed", _CLOCK, ""), ("log.reads", _FIGURE, _DEGREES), ("log.use-by", _CLOCK, "")),
    "acidity": (("log.acidity", _FIGURE, ""), ("log.reads", _FIGURE, _DEGREES), ("log.clock", _CLOCK, "")),
    "oil": (("log.made", _CLOCK, ""), ("log.reads", _FIGURE, _DEGREES), ("log.bin-at", _CLOCK, "")),
    NO_FIGURE: (
        ("log.start", _CLOCK, ""),
        ("log.end", _CLOCK, ""),
        ("log.reads", _FIGURE, _DEGREES),
    ),
}


_CITED: Final = {
    "Regulation (EC) 852/2004, Annex II": "hygiene",
    "assimilated Regulation (EC) 852/2004, Annex II": "hygiene-assimilated",
    "Regulation (EC) 853/2004, Annex III, Section VIII, Chapter III, Part D": "parasites",
    "assimilated Regulation (EC) 853/2004, Annex III, Section VIII, Chapter III, Part D; "
    "UK Food Standards Agency, freezing fish (2024)": "parasites-assimilated",
}
"""The sources that have a name in every language of the Union."""


def limit_box(stage: Stage, loads: int, measures: Measures, *, from_room: bool = False) -> LimitBox | None:
    """Return the box of a stage's limit with one row a load, or None where it names none.

    ``from_room`` is true where what is cooled never was hot.
    """
    if stage.limit is None:
        return None
    said = _said_of(measures.house, stage.limit, from_room, measures.wording)
    return LimitBox(
        key=f"limit.{kebab(stage.name)}",
        title=said.title,
        rule=said.rule,
        figure_open=said.figure_open,
        asked=_asked_text(stage, measures),
        missed=said.missed,
        source=said.source,
        log=_log(said.columns, loads, measures.wording),
    )


@gathered
def _said_of(house: HouseFile, limit: Limit, from_room: bool, wording: Wording) -> LimitBox:
    """Return the box of a limit with what is in it on every card, for one load: a house has few limits."""
    measures = Measures(house=house, wording=wording)
    rule = rule_for(house.rules, limit, from_room=from_room)
    return LimitBox(
        key="",
        title=wording.say(f"limit.title.{kebab(limit.value)}"),
        rule=rule_text(rule, limit, measures),
        figure_open=rule.form == NO_FIGURE,
        asked=EMPTY,
        missed=missed_text(rule, limit, wording),
        source=wording.say("limit.source", source=source_text(rule, wording)),
        log=_log(_cells(rule, measures), 1, wording),
    )


def missed_text(rule: LimitRule, limit: Limit, wording: Wording) -> Text:
    """Return what to do when a limit is missed: what never was hot is not reheated."""
    return wording.say("limit.missed.cool-room" if rule.form == ONE_STEP else f"limit.missed.{kebab(limit.value)}")


def source_text(rule: LimitRule, wording: Wording) -> Text:
    """Return where a rule stands: laws of the Union by their name in each language, all else by its own title."""
    name = _CITED.get(rule.source)
    return wording.say(f"limit.cited.{name}") if name else words(rule.source)


def _asked_text(stage: Stage, measures: Measures) -> Text:
    if stage.until is None:
        return EMPTY
    return measures.wording.say("limit.asked", until=measures.temperature(stage.until, at_most=must_fall(stage)))


def rule_text(rule: LimitRule, limit: Limit, measures: Measures) -> Text:
    """Return a rule in words, with its figures."""
    values: dict[str, Text] = {f"heat_{_letter(at)}": measures.heat(heat) for at, heat in enumerate(rule.heats)}
    values |= {f"time_{_letter(at)}": strong(seconds_text(time)) for at, time in enumerate(rule.times)}
    if rule.acidity is not None:
        values["acidity"] = strong(words(write_number(rule.acidity)))
    if rule.form == NO_FIGURE:
        special = f"limit.rule.no-figure.{kebab(limit.value)}"
        values["rules"] = rules_text(measures.house.rules, measures.wording)
        return measures.wording.say(special if special in measures.wording else "limit.rule.no-figure", **values)
    return measures.wording.say(f"limit.rule.{rule.form}", **values)


def _letter(at: int) -> str:
    return "abcdefgh"[at]


def _cells(rule: LimitRule, measures: Measures) -> tuple[LogCell, ...]:
    return tuple(
        LogCell(
            before=_before(word, rule, measures),
            width=width,
            after=measures.scale() if after == _DEGREES else EMPTY,
        )
        for word, width, after in (*_LOGS[rule.form], _END)
    )


def _log(cells: tuple[LogCell, ...], loads: int, wording: Wording) -> tuple[LogRow, ...]:
    if loads == 1:
        return (LogRow(key="load.1", name=wording.say("log.only-load"), cells=cells),)
    return tuple(
        LogRow(key=f"load.{load}", name=wording.say("log.load", load=load), cells=cells) for load in range(1, loads + 1)
    )


def _before(word: str, rule: LimitRule, measures: Measures) -> Text:
    kind, _, place = word.partition(".")
    if kind == "heat":
        return measures.wording.say("log.at-heat", heat=_light(measures.heat(rule.heats[int(place)])))
    if kind == "time":
        return measures.wording.say("log.after-time", time=seconds_text(rule.times[int(place)]))
    return measures.wording.say(word)


def _light(text: Text) -> Text:
    return words(text.plain)
