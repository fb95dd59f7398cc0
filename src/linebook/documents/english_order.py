"""The English words of the order sheet: a part of the table in ``english``."""

from __future__ import annotations

from typing import Final

ORDER: Final = {
    "document.order-sheet": "Order sheet",
    "order.title.day": "Order for {first}",
    "order.title.span": "Order for {first} to {last}",
    "order.aside": "written {day}",
    "order.services": "For",
    "order.service": "**{day}** {covers}",
    "order.without-menu": "no menu is in force on {days}: nothing is ordered for them",
    "order.supplier.none": "No supplier known",
    "order.supplier.none-rule": "The pantry names no supplier for these, so no delivery day is known.",
    "order.delivers": "delivers {days}",
    "order.delivers-any": "delivers on any day",
    "order.until": "takes orders until {time}",
    "order.unlisted": "house.yaml does not say when they deliver: any day is taken",
    "order.group": "For delivery **{day}**: order by **{when}**",
    "order.group.no-lead": "For delivery **{day}**: ask how long it takes, no lead time is known",
    "order.group.none": "In the house by **{day}**",
    "order.when": "{day} {time}",
    "order.head.item": "What",
    "order.head.order": "Order",
    "order.head.needed": "needed",
    "order.head.over": "left over",
    "order.packs": "{count} × {pack}",
    "order.no-pack": "no pack known",
    "order.comes-late": "**comes too late**",
    "order.out-of-season": "**out of season**",
    "order.for": "{item} for {users}",
    "order.for-title": "What it is for",
    "order.weekday": "{weekday} {day}",
    "order.late.title": "Too late to come in time",
    "order.late": (
        "**Too late for {supplier} of {missed}** (order-by was **{when}**): next delivery **{comes}**, {serves}. "
        "{items}. Touches {dishes} on {days}."
    ),
    "order.late.no-lead": (
        "**Too late for {supplier} of {missed}**: next delivery **{comes}**, {serves}. {items}. "
        "Touches {dishes} on {days}."
    ),
    "order.late.serves": "first service it can serve **{day}**",
    "order.late.serves-none": "**too late for every service of this order**",
    "order.late.item": "**{item}** {amount}, by {by}",
    "order.after.title": "Needed when it cannot be had",
    "order.after": (
        "**{item}, {amount}**: needed after its last day, **{last}**; {here} of it for these services. {mend}"
    ),
    "order.after.later": (
        "**{item}, {amount}**: later services of the menu need it after its last day, **{last}**. {mend}"
    ),
    "order.after.buy": "Its last delivery in season is {day}: buy it then if it keeps, or take it off",
    "order.before": "**{item}, {amount}**: needed before its first day, **{first}**",
    "order.season.title": "Short season",
    "order.season.last": "last day",
    "order.season.here": "in this order",
    "order.season.in-all": "until {day}",
    "order.season.no-end": "until the menu ends",
    "order.season.unknown": "no end known",
    "order.short.title": "Make or buy",
    "order.short": "**{item}**: short by **{amount}** on {day} for {users}",
    "order.short.apart": "**{item}**: {amount} is needed on {day} for {users}, in a unit that cannot meet what is made",
    "order.uncounted": "Taken without an amount, to taste or for the pan, so not counted here",
    "order.unsaid": "Needed too, and not bought",
    "order.amount-of": "{item} {amount}",
    "order.idle": "On hand, but not taken off",
    "order.idle.entry": "{item}, {amount} ({reason})",
    "order.idle.undated": "no day it was made",
    "order.idle.over": "past its life",
    "order.idle.no-life": "nothing says how long it keeps",
    "order.idle.ahead": "made after these services",
    "order.idle.units": "in a unit that cannot meet what is needed",
    "order.idle.unknown": "nothing here has its id",
    "order.rule": (
        "Amounts are as bought, after what is on hand. Each delivery holds what is needed until the next one; "
        "what is left over of a pack is taken off the next, and what whole batches make over off the next service, "
        "while it keeps."
    ),
    "order.nothing": "Nothing has to be ordered.",
}
