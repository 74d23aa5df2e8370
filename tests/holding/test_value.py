"""Value classes are to everything else what `dataclasses` makes of the same lines."""

import copy
import dataclasses
import pickle
from dataclasses import FrozenInstanceError
from typing import ClassVar  # noqa: F401 - the standard decorator looks for it in the module of the class

import pytest

from benchmate import value

BODY = '''
from __future__ import annotations
from typing import Any, ClassVar

@dataclass(frozen=True, slots=True, order=True)
class Branch:
    """A branch."""

    side: str
    diameter_mm: float = 8.0
    names: tuple[str, ...] = ()
    more: dict[str, Any] = field(default_factory=dict)
    of: ClassVar[str] = "tree"

    @property
    def thick(self) -> bool:
        return self.diameter_mm > 10

@dataclass(frozen=True, slots=True)
class Place:
    side: str | None = None
    level: str | None = None

@dataclass
class Clause:
    kind: str
    acts: list[str] = field(default_factory=list)

@dataclass(slots=True)
class Count:
    number: int = 0

    def __eq__(self, other):
        return True

    def __repr__(self):
        return "a count"

@dataclass(frozen=True, slots=True)
class Nothing:
    pass
'''


def made_by(source):
    room = {"dataclass": source.dataclass, "field": source.field, "__name__": __name__}
    exec(BODY, room)
    return room


OURS, THEIRS = made_by(value), made_by(dataclasses)
# pickle finds a class by the name of its module
Place, Branch = OURS["Place"], OURS["Branch"]

VALUES = [
    lambda room: room["Branch"]("left"),
    lambda room: room["Branch"]("left", 12.0, ("low",), {"a": 1}),
    lambda room: room["Branch"](side="right", diameter_mm=12.0),
    lambda room: room["Place"]("left"),
    lambda room: room["Place"](),
    lambda room: room["Clause"]("ask"),
    lambda room: room["Count"](3),
    lambda room: room["Nothing"](),
]


@pytest.mark.parametrize("make", VALUES)
def test_values_show_compare_and_change_alike(make):
    ours, theirs = make(OURS), make(THEIRS)
    assert repr(ours) == repr(theirs)
    assert ours == make(OURS) and ours is not make(OURS)
    assert (ours == 1) is (theirs == 1)
    assert dataclasses.asdict(ours) == dataclasses.asdict(theirs)
    assert [one.name for one in dataclasses.fields(ours)] == [one.name for one in dataclasses.fields(theirs)]
    assert type(ours).__match_args__ == type(theirs).__match_args__
    assert (type(ours).__hash__ is None) is (type(theirs).__hash__ is None)
    assert dataclasses.is_dataclass(ours)
    assert copy.deepcopy(ours) == ours
    assert hasattr(ours, "__dict__") is hasattr(theirs, "__dict__")


@pytest.mark.parametrize("change", [value.replace, dataclasses.replace])
def test_a_value_is_changed_by_either_way(change):
    assert change(Branch("left", 9.0), side="right") == Branch("right", 9.0)
    with pytest.raises(TypeError):
        change(Branch("left"), colour="red")


def test_what_is_not_given_is_refused_and_what_is_made_is_made_anew():
    with pytest.raises(TypeError):
        Branch()
    with pytest.raises(TypeError):
        Branch("left", colour="red")
    assert Branch("left").more is not Branch("left").more
    assert Branch("left").thick is False


def test_a_frozen_value_cannot_be_changed():
    place = Place("left")
    for change in (lambda: setattr(place, "side", "right"), lambda: delattr(place, "side")):
        with pytest.raises(FrozenInstanceError):
            change()
    assert {Place("left"): 1}[Place("left")] == 1
    assert OURS["Clause"].__hash__ is None


def test_values_are_ordered_by_their_fields_and_only_among_themselves():
    assert sorted([Branch("right"), Branch("left", 9.0), Branch("left")])[0] == Branch("left")
    assert Branch("a") <= Branch("a") and Branch("b") > Branch("a") and Branch("b") >= Branch("a")
    with pytest.raises(TypeError):
        assert Branch("a") < Place("a")


def test_a_value_is_matched_and_pickled():
    match Branch("left", 12.0):
        case Branch(side, diameter_mm):
            assert (side, diameter_mm) == ("left", 12.0)
    assert pickle.loads(pickle.dumps(Place("left", "low"))) == Place("left", "low")


def test_a_value_class_that_inherits_fields_is_refused():
    with pytest.raises(TypeError, match="stands alone"):
        value.dataclass(type("Twig", (Place,), {}))
    with pytest.raises(TypeError, match="no value"):
        value.replace(3, side="left")
