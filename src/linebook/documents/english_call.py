"""The English words of the call sheet and the server's line-up sheet: a part of the table in ``english``."""

from __future__ import annotations

from typing import Final

CALL: Final = {
    "document.call-sheet": "Call sheet",
    "call.title": "What starts when",
    "call.title-line": "What starts when on {line}",
    "call.title-set": "Called together",
    "call.aside-set": "for this table only",
    "call.rule": "Minutes before the plates land, so that everything lands at once. One portion of each dish.",
    "call.rule-set": "Minutes before the plates land, so that everything lands at once.",
    "call.hands": "Every strand takes the minutes its spec gives, whoever does it and however many portions it is: "
    "cooks are not counted. Where the spec says how many portions fill a place, more go in turns.",
    "call.dish": "{dish}, {time}",
    "call.dish-untimed": "{dish}, no time given",
    "call.portions": "{count} × {dish}",
    "call.as-on-card": "pick up, as on its card",
    "call.rest": "rest {time}",
    "call.at-once": "{count} at once",
    "call.of": "{count} of {all}",
    "call.waits": "off at {off}, waits {time}",
    "call.crowd": "**{line} at {start}: {strands} things start at once**, and the line has {cooks}.",
    "call.untimed": "**No time from call to pass in the spec of {dishes}: ask the line.**",
    "document.line-up-sheet": "Line-up sheet",
    "line-up.title": "Line-up, {day}",
    "line-up.headline": "**The allergen lines are a headline and clear nobody.** A guest who avoids anything: ask the "
    "pass before you answer. What can be left off or changed only the pass says, and no sheet promises it.",
    "line-up.cutlery": "lay",
    "line-up.shared": "set down",
    "line-up.in-the-middle": "in the middle, to share",
    "line-up.call": "{time} from call",
    "line-up.call-unknown": "time from call not given",
    "line-up.caution": "Drinks are not covered. Local law and the house's policy on allergies decide.",
}
