"""``frozen`` makes what ``dataclass`` makes: every test holds the two against each other or states a value."""

from __future__ import annotations

import copy
import dataclasses
import inspect
import pickle
from collections.abc import Callable
from dataclasses import FrozenInstanceError, field
from typing import Any, Generic, TypeVar

import pytest

from linebook.source.frozen import changing, frozen

T = TypeVar("T")
standard = dataclasses.dataclass(frozen=True, slots=True, kw_only=True)
MAKERS = (standard, frozen)


def amount_class(make: Callable[..., Any]) -> type[Any]:
    @make
    class Amount:
        """An amount."""

        number: int
        unit: str = "g"
        marks: list[str] = field(default_factory=list, compare=False)
        note: str = field(default="", repr=False, compare=False)
        double: int = field(init=False)
        kind: str = field(default="mass", init=False)

        def __post_init__(self) -> None:
            object.__setattr__(self, "double", self.number * 2)

        def times(self, factor: int) -> Any:
            return dataclasses.replace(self, number=self.number * factor)

    return Amount


@frozen
class Base(Generic[T]):
    value: T
    also: int = 1


@frozen
class Derived(Base[str]):
    more: tuple[int, ...] = ()


@frozen(eq=False)
class Single:
    name: str = ""


@frozen
class Empty:
    pass


def often_made(made: type[Any]) -> type[Any]:
    """Return a class of which there are so many values that its ``__init__`` is the compiled one."""
    for number in range(100):
        made(number=number)
    return made


@pytest.mark.parametrize(
    "question",
    [
        lambda made: repr(made(number=2)),
        lambda made: repr(made(number=2, unit="kg", marks=["x"], note="n")),
        lambda made: [(one.name, one.kind) for one in inspect.signature(often_made(made)).parameters.values()],
        lambda made: repr(often_made(made)(number=2, marks=["x"], note="n")),
        lambda made: often_made(made)(number=2).marks is often_made(made)(number=2).marks,
        lambda made: [one.name for one in dataclasses.fields(made)],
        lambda made: [(one.name, one.init, one.repr, one.compare, one.type) for one in dataclasses.fields(made)],
        lambda made: dataclasses.asdict(made(number=3)),
        lambda made: repr(made(number=2).times(5)),
        lambda made: made(number=2) == made(number=2, marks=["other"], note="other"),
        lambda made: made(number=2) == made(number=3),
        lambda made: made(number=2) == 2,
        lambda made: hash(made(number=2)) == hash(made(number=2, note="other")),
        lambda made: made(number=2).marks is made(number=2).marks,
        lambda made: made.__slots__,
        lambda made: hasattr(made(number=1), "__dict__"),
        lambda made: (made.__name__, made.__qualname__, made.__module__, made.__doc__),
        lambda made: repr(copy.deepcopy(made(number=4, marks=["deep"]))),
        dataclasses.is_dataclass,
    ],
)
def test_a_class_answers_as_the_standard_one(question: Callable[[type[Any]], object]) -> None:
    expected, found = (question(amount_class(make)) for make in MAKERS)
    assert found == expected


@pytest.mark.parametrize(
    "deed",
    [
        lambda made: made(),
        lambda made: made(1),
        lambda made: made(number=1, other=2),
        lambda made: made(number=1, double=2),
        lambda made: often_made(made)(),
        lambda made: often_made(made)(number=1, other=2),
        lambda made: setattr(made(number=1), "number", 2),
        lambda made: delattr(made(number=1), "number"),
        lambda made: dataclasses.replace(made(number=1), kind="other"),
    ],
)
def test_a_class_refuses_as_the_standard_one(deed: Callable[[type[Any]], object]) -> None:
    raised = []
    for make in MAKERS:
        with pytest.raises((TypeError, AttributeError, ValueError)) as caught:
            deed(amount_class(make))
        raised.append((caught.type, str(caught.value)))
    assert raised[1] == raised[0]


def test_a_value_cannot_be_changed() -> None:
    value = Derived(value="a")
    with pytest.raises(FrozenInstanceError, match="cannot assign to field 'also'"):
        value.also = 2  # type: ignore[misc]
    with pytest.raises(FrozenInstanceError, match="cannot assign to field 'unknown'"):
        value.unknown = 2  # type: ignore[attr-defined]
    assert value.also == 1


def test_a_derived_class_has_the_fields_of_both() -> None:
    value = Derived(value="a", also=2, more=(3,))
    assert repr(value) == "Derived(value='a', also=2, more=(3,))"
    assert value == Derived(value="a", also=2, more=(3,))
    assert value != Derived(value="a", also=2)
    assert Base(value="a") != Derived(value="a")
    assert Derived.__slots__ == ("more",)
    assert pickle.loads(pickle.dumps(value)) == value


def test_equal_values_are_one_key() -> None:
    assert len({Derived(value="a"), Derived(value="a"), Derived(value="b")}) == 2
    assert len({Empty(), Empty()}) == 1


def test_without_comparison_a_value_is_equal_to_itself_alone() -> None:
    one = Single()
    assert one == one
    assert one != Single()
    assert len({one, Single()}) == 2


@frozen(kw_only=False)
class Ordered:
    first: int
    second: int = 2


@changing(kw_only=False)
class Growing:
    name: str
    parts: list[int] = field(default_factory=list)
    seen: int = field(init=False)


def test_fields_may_be_given_by_their_order():
    assert Ordered(1) == Ordered(first=1, second=2)
    assert repr(Ordered(1, 3)) == "Ordered(first=1, second=3)"
    with pytest.raises(TypeError, match="takes from 2 to 3 positional arguments"):
        Ordered(1, 2, 3)  # type: ignore[call-arg]


def test_a_changing_class_may_be_changed_and_is_equal_to_itself_alone():
    one, other = Growing("a"), Growing("a")
    one.seen = other.seen = 0
    one.seen += 1
    one.parts.append(3)
    assert repr(one) == "Growing(name='a', parts=[3], seen=1)"
    assert other.parts == []
    assert one == one
    assert one != other
    assert not hasattr(one, "__dict__")
