"""The English words of what is missing tonight, of what is left over, and of the count sheet: a part of ``english``."""

from __future__ import annotations

from typing import Final

STOCK: Final = {
    "stock.extra": "{item} left from before",
    # the count sheet
    "document.count-sheet": "Count sheet",
    "count.title": "Count {line}",
    "count.night": "{day} · {menu}",
    "count.lead": "Count it with its label in your hand. Two days of one thing are two lines.",
    "count.made": "Made here",
    "count.left-over": "Left over in making it",
    "count.other": "Made on another day, or not listed",
    "count.from": "from {maker}",
    "count.keeps": "keeps {time}",
    "count.item": "What",
    "count.pans": "pans",
    "count.amount": "left",
    "count.day": "made on",
    "count.keep": "keep",
    "count.bin": "bin",
    "count.by": "by",
    "count.card": "card",
    "count.card-of": "card\u00a0{card}",
    "count.rule": (
        "Keep only what is in date at the next service; what has no day on its label is binned. "
        "The card is the fingerprint at the foot of the batch card it was made from: strike it out if it was another."
    ),
    # what is otherwise tonight
    "tonight.title": "Tonight",
    "tonight.without": "Tonight without {missing}.",
    "tonight.instead": "Tonight without {missing}: **{item}** instead, {how}.",
    "tonight.instead-note": "Tonight without {missing}: **{item}** instead, {how} ({note}).",
    "tonight.how.same-weight": "the same weight",
    "tonight.how.less-weight": "{ratio} of the weight",
    "tonight.how.more-weight": "{ratio} times the weight",
    "tonight.how.same-measure": "the same measure",
    "tonight.how.less-measure": "{ratio} of the measure",
    "tonight.how.more-measure": "{ratio} times the measure",
    "tonight.how.same-count": "one for one",
    "tonight.how.less-count": "{ratio} for each one",
    "tonight.how.more-count": "{ratio} for each one",
    "tonight.off": "**Not served tonight: {dishes}**.",
    "tonight.contains": "**Now contains {what}**.",
    "tonight.may": "**Now may contain {what}**.",
    "tonight.undeclared": "**Now not declared: {what}**.",
    "tonight.fewer": "No longer lists {what}. That clears nobody: answer a guest from tonight's matrix.",
    "tonight.of.contains": "**Now contains {what}: {dishes}**.",
    "tonight.of.may": "**Now may contain {what}: {dishes}**.",
    "tonight.of.undeclared": "**Now not declared, {what}: {dishes}**.",
    "tonight.method-names": "The method is written for {missing} and still names it: read **{item}**.",
    "tonight.title-names": "The name or the menu still says {missing}: tell who asks.",
    "tonight.not-kept": "**{item} is not to be used tonight**: do not keep what is left over here.",
    "tonight.none-left": "No {item} is left over here tonight.",
    "tonight.no-choice": "No {item} to serve instead of anything tonight.",
    "tonight.closed": "The house has no service on {day}: is the date right?",
    "tonight.foot": "without {missing}",
    "tonight.foot-many": "without {count} things",
}
