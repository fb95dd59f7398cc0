"""Shares, sizes and what a course expects add up (LB602, LB606)."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator
from typing import Final

from linebook.check.index import Index, place
from linebook.check.words import listing, meant, number_text
from linebook.model.dish import Dish
from linebook.model.menu import Menu, MenuDish
from linebook.source.codes import fault
from linebook.source.exact import Fraction
from linebook.source.faults import Fault, Related

FULL: Final = "full"
"""The one size of a dish that names none."""


def check_shares(index: Index) -> Iterator[Fault]:
    """Yield a warning for each course whose dishes' shares differ from the portions a cover it expects."""
    for menu in index.menus.values():
        if not index.is_incomplete(menu.id) and all(_is_settled(index, menu, entry) for entry in menu.dishes):
            yield from _differing_courses(index, menu)


def check_mixes(index: Index) -> Iterator[Fault]:
    """Yield a fault for each mix of sizes that names an unknown size or does not sum to the whole."""
    for menu in index.menus.values():
        for entry in menu.dishes:
            dish = index.dishes.get(entry.dish)
            if dish is not None and entry.mix and not index.is_incomplete(dish.id):
                yield from _mix_of(entry, dish)


def _is_settled(index: Index, menu: Menu, entry: MenuDish) -> bool:
    dish = index.dishes.get(entry.dish)
    return dish is not None and any(course.id == dish.course for course in menu.courses)


def _differing_courses(index: Index, menu: Menu) -> Iterator[Fault]:
    twice = [dish for dish, times in Counter(entry.dish for entry in menu.dishes).items() if times > 1]
    unsure = {index.dishes[dish].course for dish in twice}  # LB212 tells the dish, and which share counts is open
    for course in menu.courses:
        shares = _shares_of(index, menu, course.id)
        total = sum(shares, Fraction(0))
        if course.portions is None or total == course.portions or course.id in unsure:
            continue
        terms = " + ".join(number_text(share) for share in shares)
        added = f"{terms} = {number_text(total)}" if len(shares) > 1 else number_text(total)
        forgotten = [dish.id for dish in unlisted_dishes(index) if dish.course == course.id and total < course.portions]
        hints = ["change the shares, or `portions_a_cover` to what a cover really orders"]
        if forgotten and index.is_whole:
            hints.insert(0, f"no menu lists {listing(forgotten)}: was it to be on this one?")
        yield fault(
            "LB602",
            f"the shares of `{course.id}` come to {added} portions a cover, and the course expects "
            f"{number_text(course.portions)}",
            place(course, "portions_a_cover", "portions", "course"),
            hints=hints,
        )


def short_courses(index: Index, menu: Menu) -> tuple[str, ...]:
    """Return the courses of a menu whose dishes' shares come to less than the course expects."""
    expecting = [course for course in menu.courses if course.portions is not None]
    return tuple(course.id for course in expecting if sum(_shares_of(index, menu, course.id)) < (course.portions or 0))


def unlisted_dishes(index: Index) -> tuple[Dish, ...]:
    """Return the dishes that no menu lists."""
    listed = {entry.dish for menu in index.menus.values() for entry in menu.dishes}
    return tuple(dish for dish in index.dishes.values() if dish.id not in listed)


def _shares_of(index: Index, menu: Menu, course: str) -> list[Fraction]:
    entries = {entry.dish: entry for entry in reversed(menu.dishes)}  # of a dish listed twice the first counts
    return [
        entry.share
        for entry in reversed(entries.values())
        if entry.dish in index.dishes and index.dishes[entry.dish].course == course
    ]


def _mix_of(entry: MenuDish, dish: Dish) -> Iterator[Fault]:
    sizes = [size.id for size in dish.sizes] or [FULL]
    unknown = [size for size in entry.mix if size not in sizes]
    for size in unknown:
        yield fault(
            "LB606",
            f"{dish.name} has no size `{size}`",
            place(entry, f"mix.{size}", "mix"),
            hints=(meant(size, sizes, "add it to the `sizes` of the dish"),),
            related=(Related(span=place(dish, "sizes", "name"), label="the dish"),),
        )
    total = sum(entry.mix.values(), Fraction(0))
    if not unknown and total != 1:
        terms = " + ".join(f"{number_text(part * 100)} %" for part in entry.mix.values())
        added = f"{terms} = {number_text(total * 100)} %" if len(entry.mix) > 1 else terms
        yield fault(
            "LB606",
            f"the sizes of `{entry.dish}` come to {added}, not 100 %",
            place(entry, "mix"),
            hints=("change the parts so that they sum to 100 %",),
        )
