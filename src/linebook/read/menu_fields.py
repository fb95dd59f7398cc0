"""The fields of a menu: from when it holds, its courses and dishes, and what is expected of each."""

from __future__ import annotations

from types import MappingProxyType
from typing import Final

from linebook.model.menu import Course, Menu, MenuDish
from linebook.read import values as v
from linebook.read.fields import Choice, Field
from linebook.read.groups import Group
from linebook.read.ids import ID, SPACED_ID
from linebook.read.lists import ListOf, MapOf
from linebook.read.supply_fields import ON_HAND
from linebook.source.exact import Fraction

WEEKDAYS: Final = ("mon", "tue", "wed", "thu", "fri", "sat", "sun")
WEEKDAY: Final = Choice(words="a day such as `tue`", values={day: day for day in WEEKDAYS})
_PARTS_OF_ONE: Final = v.part(most=Fraction(1))

COURSE: Final = Group(
    name="a course",
    names="courses",
    head="course",
    record=Course,
    defines=True,
    fields=(
        Field(name="course", type=SPACED_ID, attribute="id", required=True, doc="Its id", example="snacks"),
        Field(name="name", type=v.SHORT_TEXT, required=True, doc="Its name as printed", example="Snacks"),
        Field(
            name="portions_a_cover",
            type=v.number(most=Fraction(100)),
            attribute="portions",
            doc="How many portions of this course a cover orders; the shares of its dishes are checked against it",
            example="1.5",
        ),
    ),
)

MENU_DISH: Final = Group(
    name="a dish of a menu",
    names="dishes",
    head="dish",
    record=MenuDish,
    fields=(
        Field(name="dish", type=ID, required=True, doc="Id of a dish", example="short-rib"),
        Field(name="share", type=v.SHARE, required=True, doc="Portions a cover; may be over 1", example="0.35"),
        Field(
            name="mix",
            type=MapOf(key=ID, value=_PARTS_OF_ONE, words="sizes and a percentage for each"),
            absent=MappingProxyType({}),
            default="all in the first size",
            doc="The part of the portions served in each size",
            example="{full: 80 %, to-share: 20 %}",
        ),
        Field(
            name="spare",
            type=v.part(most=Fraction(10)),
            doc="Spare portions, as a part of those expected",
            example="5 %",
        ),
        Field(name="at_least", type=v.number(most=Fraction(10_000)), doc="The fewest spare portions", example="2"),
    ),
)

MENU: Final = Group(
    name="a menu",
    names="menus",
    record=Menu,
    fields=(
        Field(name="name", type=v.SHORT_TEXT, required=True, doc="Its name as printed", example="early spring"),
        Field(name="first", type=v.DATE, required=True, doc="The first day it is served", example="2027-03-02"),
        Field(
            name="last",
            type=v.DATE,
            default="until the next menu's first day",
            doc="The last day it is served",
            example="2027-04-10",
        ),
        Field(
            name="covers",
            type=MapOf(key=WEEKDAY, value=v.whole(0), words="days and the covers of each"),
            absent=MappingProxyType({}),
            doc="The covers expected on each weekday",
            example="{tue: 70, wed: 80, thu: 90, fri: 120, sat: 140}",
        ),
        Field(
            name="oil_changed",
            type=v.YES_NO,
            default="no",
            doc="Whether frying media are emptied when this menu begins",
            example="yes",
        ),
        ON_HAND,
        Field(
            name="courses",
            type=ListOf(item=COURSE, words="a list of courses", least=1),
            required=True,
            doc="Its courses in serving order",
            example="{course: snacks, name: Snacks, portions_a_cover: 1.5}",
        ),
        Field(
            name="dishes",
            type=ListOf(item=MENU_DISH, words="a list of dishes", least=1),
            required=True,
            doc="Its dishes, and how often each is ordered",
            example="{dish: short-rib, share: 0.35, spare: 5 %}",
        ),
    ),
)
