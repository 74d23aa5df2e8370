"""What the numbers of a figure question stand for: the cheapest way to give each number a role of the figure, once.

A role costs less where words of it stand near the number, where the order of the numbers or what joins them speaks for
it, and where the unit is said; a number that is given none costs most, and is told as left over.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import Any

from benchmate.value import dataclass

from .beside import AGAIN
from .said import SaidNumber
from .small import SmallWords
from .words import NUMBER, Found

LEFT_OVER, UNWORDED, UNSEEN = 2.0, 1.0, 9.0
BESIDE, EACH_AWAY, REACH = 2.6, 0.45, 0.5  # evidence of a word that touches the number, less for each piece between
OWN_SIDE, PHRASE = 0.4, 0.25  # more where the word stands on the side that is its own, and for each word of a phrase
OTHER_NUMBER, PAUSE, STOP = 1.6, 0.9, 2.2  # what stands between a word and its number
TAGGED, TURNED, PREFERRED, EXTREME = 1.8, 0.35, 0.2, 0.8
HOTTEST_C = 45.0  # a day above it was told in Fahrenheit
G_TO_N = 9.80665e-3
FALLS = 5.0  # evidence against growth that shrinks
ALIKE = 0.2  # what it costs to take a number without a unit for one of the unit before it
NO_MEASURE = frozenset({"", "date", "label", "gauge", "count", "days", "years", AGAIN})
FAR_UNDER = 1 / 3  # of the least size of a role: no words make a number that small one of it
_FEET_OF = "part"


@dataclass(frozen=True, slots=True)
class Role:
    """What a number stands for. value: in the unit of the role (mm, C, degrees, litres, %, ppm, N, g, days, years)."""

    name: str
    value: Any
    number: int


@dataclass(frozen=True, slots=True)
class Roles:
    """roles: of the numbers, in the order said. left: numbers without one. gain: how well the numbers fit."""

    roles: tuple[Role, ...]
    left: tuple[int, ...]
    gain: float


@dataclass(frozen=True, slots=True)
class Line:
    """A statement as pieces: stems, and "#" for each number. place: of each number among the pieces. orphans: units
    that stand apart. small: the little words that pieces are told by."""

    pieces: Sequence[str]
    place: Sequence[int]
    numbers: Sequence[SaidNumber]
    orphans: Mapping[str, float]
    small: SmallWords


def give_roles(line: Line, roles: Mapping[str, Mapping[str, Any]], found: Sequence[Found]) -> Roles:
    """The cheapest roles for the numbers of a statement. found: the figure's role phrases in the statement."""
    names = list(roles)
    near = {name: [one for one in found if one.gives[1] == name] for name in names}
    costs = [
        {name: cost for name in names if (cost := _cost(line, n, name, roles[name], near[name])) < LEFT_OVER}
        for n in range(len(line.numbers))
    ]
    best = _Search(costs, roles, line.numbers).best()
    given = tuple(
        Role(name, _value(line, n, roles[name], _size_alike(line, n, best[1], roles)), n)
        for n, name in enumerate(best[1])
        if name
    )
    left = tuple(n for n, name in enumerate(best[1]) if not name and line.numbers[n].unit != AGAIN)
    gain = sum(LEFT_OVER - costs[role.number][role.name] for role in given) - 0.5 * len(left)
    return Roles(given, left, gain - FALLS * _fall(given, roles))


def _fall(given: Sequence[Role], roles: Mapping[str, Mapping[str, Any]]) -> int:
    """How many roles hold values that fall where theirs rise: what grows does not shrink."""
    out = 0
    for name in {role.name for role in given if roles[role.name].get("rises")}:
        values = [role.value for role in given if role.name == name]
        out += values[-1] < values[0]
    return out


class _Search:
    """Branch and bound over the numbers in their order."""

    def __init__(self, costs: Sequence[Mapping[str, float]], roles: Mapping[str, Any], numbers: Sequence[SaidNumber]):
        self.costs, self.roles, self.numbers = costs, roles, numbers
        self.least = [0.0] * (len(costs) + 1)
        for n in range(len(costs) - 1, -1, -1):
            self.least[n] = self.least[n + 1] + min([LEFT_OVER, *costs[n].values()])
        self.found: tuple[float, tuple[str, ...]] = (float("inf"), ())
        self.steps = 0

    def best(self) -> tuple[float, tuple[str, ...]]:
        self._go(0, 0.0, ())
        return self.found

    def _go(self, n: int, cost: float, given: tuple[str, ...]) -> None:
        self.steps += 1
        if cost + self.least[n] >= self.found[0] or self.steps > 20_000:
            return
        if n == len(self.costs):
            self.found = cost, given
            return
        for name, price in sorted(self.costs[n].items(), key=lambda pair: pair[1]):
            role = self.roles[name]
            if given.count(name) >= (role.get("up_to", len(given) + 1) if role.get("many") else 1):
                continue
            self._go(n + 1, cost + price + self._turned(n, name, given), (*given, name))
        self._go(n + 1, cost + LEFT_OVER, (*given, ""))

    def _turned(self, n: int, name: str, given: tuple[str, ...]) -> float:
        """What it costs that numbers stand in another order than their roles do, and that a lesser is the greater."""
        order = self.roles[name].get("order", 0)
        out = 0.0
        for at, before in enumerate(given):
            if before and before != name:
                one = self.roles[before]
                if order and one.get("order", 0) > order:
                    out += TURNED
                kin = one.get("is") == self.roles[name].get("is")
                low, high = self.numbers[at].raw, self.numbers[n].raw
                for small, big, first, second in (
                    (one, self.roles[name], low, high),
                    (self.roles[name], one, high, low),
                ):
                    if kin and first > second and (small.get("smallest") or big.get("biggest")):
                        out += EXTREME
        return out


def _cost(line: Line, n: int, name: str, role: Mapping[str, Any], near: Sequence[Found]) -> float:
    """What it costs to give a number a role."""
    number = line.numbers[n]
    unit = _unit_cost(line, number, role)
    tags = number.tags
    if unit >= UNSEEN or (set(role.get("not_tags", ())) & tags) or role.get("equals", number.raw) != number.raw:
        return UNSEEN
    seen = max([0.0, *(_evidence(line, n, one) for one in near)])
    counts = role["is"].startswith("count")
    sized = any(one.unit == "length" for one in line.numbers) and seen < REACH
    if counts and not number.unit and (sized or _unit_before(line, number, behind=False) == "length"):
        return UNSEEN  # "6 mm out of 6, 8 and 10": sizes, and no counts
    if (set(role.get("tags", ())) & tags) or number.unit == AGAIN:
        seen = max(seen, TAGGED) + 0.3
    if role.get("unit_said") and not number.unit:
        return UNSEEN
    size = number.value if number.unit else number.raw
    least = role.get("least", size)
    if size > role.get("most", size) or (number.unit and 0 < size < (least * FAR_UNDER if seen else least)):
        return UNSEEN
    if role.get("only") and seen < REACH:
        return UNSEEN
    if not number.unit and seen < REACH and counts:
        return UNSEEN  # a bare number is a count only where words say so
    return UNWORDED + unit - seen - (PREFERRED if role.get("prefer") else 0.0)


def _evidence(line: Line, n: int, found: Found) -> float:
    """How strongly a phrase speaks for a number."""
    at, side = line.place[n], found.gives[2]
    if found.first <= at < found.end:
        return BESIDE + 1.0
    if any(found.first <= place < found.end for place in line.place):
        return 0.0  # "9 mm all spring from one stem": said of the one
    after = found.first > at
    between = line.pieces[at + 1 : found.first] if after else line.pieces[found.end : at]
    away, small = EACH_AWAY * len(between), line.small
    for piece in between:
        away += (
            OTHER_NUMBER
            if piece == NUMBER
            else PAUSE
            if piece in small.pauses
            else STOP
            if piece in small.stops
            else 0.0
        )
    own = side == ("after" if after else "before")
    if side != "near":
        if not own:
            return 0.0
        away += EACH_AWAY * len(between)  # such words touch their number, or nearly
    return BESIDE + (OWN_SIDE if own else 0.0) + PHRASE * (found.end - found.first - 1) - away


def _unit_cost(line: Line, number: SaidNumber, role: Mapping[str, Any]) -> float:
    """What the unit of a number costs for a role, UNSEEN where it cannot be."""
    kind, _, noun = role["is"].partition(":")
    unit = number.unit
    if unit == AGAIN:
        return 0.0 if AGAIN in role.get("tags", ()) else UNSEEN
    if kind == "count":
        if unit == "count":
            return 0.0 if number.word == noun else UNSEEN
        if unit or number.raw != int(number.raw):
            return UNSEEN
        return 0.5 if not _unit_before(line, number) else 1.0
    if kind == "number":
        return 0.0 if unit in ("", "count") else UNSEEN
    if unit == kind or (kind == "celsius" and unit == "degree"):
        return 0.0
    if not unit:
        costs = {"length": 0.6, "celsius": 0.3, "degree": 0.8, "volume": 0.8, "share": 0.5, "ppm": 0.8, "mass": 0.8}
        if _unit_before(line, number) == kind:
            return ALIKE  # "6.8 kg watered and 5.6 dry"
        return costs.get(kind, 1.0) if kind not in ("date", "label", "gauge") else UNSEEN
    if kind == "length" and unit == "share" and number.word == _FEET_OF:
        return 0.7 if any(one.unit == "length" for one in line.numbers) or "length" in line.orphans else UNSEEN
    if kind == "volume" and number.word in line.small.mil:
        return 0.1
    if kind == "volume" and unit == "share" and number.word == _FEET_OF:
        return 0.9 if any(one.unit == "volume" for one in line.numbers) else UNSEEN
    if kind == "force" and unit == "mass":
        return 0.1
    return UNSEEN


def _unit_before(line: Line, number: SaidNumber, behind: bool = True) -> str:
    """The unit of the last number before one that was said without any; with `behind`, else of the first behind it."""
    units = [one.unit for one in line.numbers if one.first < number.first and one.unit not in NO_MEASURE]
    after = [one.unit for one in line.numbers if one.first > number.first and one.unit not in NO_MEASURE]
    return units[-1] if units else after[0] if after and behind else ""


def _size_alike(line: Line, n: int, given: Sequence[str], roles: Mapping[str, Mapping[str, Any]]) -> float:
    """The size of the unit of the nearest number of a like role (another thickness, not a height); else 0."""
    like = roles[given[n]].get("like")
    near = sorted(
        (abs(n - at), at)
        for at, name in enumerate(given)
        if like and name and at != n and roles[name].get("like") == like and line.numbers[at].unit == "length"
    )
    return line.numbers[near[0][1]].size if near else 0.0


def _value(line: Line, n: int, role: Mapping[str, Any], alike: float) -> Any:
    """A number's value in the unit of its role; a unit that was not said is that of its neighbours. alike: the size of
    the unit of a like number, 0 where there is none."""
    number, kind = line.numbers[n], role["is"].partition(":")[0]
    if kind in ("label", "date"):
        return number.told
    if kind == "celsius":
        return _celsius(line, number)
    if kind == "force" and number.unit == "mass":
        return number.value * G_TO_N
    if kind == "volume" and number.unit != "volume":
        if number.word in line.small.mil:
            return number.raw / 1000
        size = _size_beside(line, n, "volume")
        return number.raw * (size or (0.001 if number.raw >= 20 else 1.0))
    if kind in ("length", "mass") and number.unit not in (kind, AGAIN):
        size = alike or line.orphans.get(kind) or _size_beside(line, n, kind)
        if number.raw * size > role.get("bare_most", number.raw * size):
            size = 1.0  # "90 at the bottom" beside "20 cm up" is no trunk of 90 cm
        return number.raw * (size or 1.0)
    return number.value


def _celsius(line: Line, number: SaidNumber) -> float:
    if number.unit == "celsius":
        return number.value
    hot = any(one.unit in ("", "degree") and one.raw > HOTTEST_C for one in line.numbers)
    told = "fahrenheit" in line.orphans or any(one.word == "fahrenheit" for one in line.numbers)
    in_c = any(one.unit == "celsius" and one.word != "fahrenheit" for one in line.numbers)
    return (number.raw - 32) / 1.8 if (told or hot) and not in_c else number.raw


def _size_beside(line: Line, n: int, kind: str) -> float:
    """The size of the unit of the nearest number of that kind, one that stands in front before one behind; else 0."""
    near = sorted((abs(n - at), n < at, one.size) for at, one in enumerate(line.numbers) if one.unit == kind)
    return near[0][2] if near else 0.0
