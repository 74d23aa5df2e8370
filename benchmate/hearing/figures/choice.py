"""Which figure a statement asks for: what its words and its numbers say for each, and whether it asks at all."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import Any

from benchmate.value import dataclass

from ..amounts.dates import DateWords
from ..amounts.values import ValueWords
from ..lattice.spotting import Spotter
from ..vocabulary.words import Word
from .numbers import orphan_units, said_numbers
from .roles import Line, Role, Roles, give_roles
from .said import NumberWords, SaidNumber, texts_of
from .words import NUMBER, Found, find_phrases, stem

MORE_OF_GROUP = 0.2  # what a further phrase of the same group counts
OPENING = 1.5  # what a question of the grammar counts for its figure
FIT, LACKING = 0.45, 0.8  # what numbers count that fit, and a role that a sum cannot do without
TRIED = 5
NOT_NAMED = 2.5  # where nothing of the figure itself is named
MARGIN = 0.4
ENDS_WITH = 3  # weight of a phrase of several words at the end that asks by itself
AGAINST = "against"


@dataclass(frozen=True, slots=True)
class Heard:
    """A figure as a statement's words and numbers ask for it.

    score: evidence. worded: that of its words alone. groups: how many kinds of evidence spoke; named: whether the
    figure's own thing was. values: said by words alone. used: places of the words that went into it. complete: whether
    all that a sum needs was said. phrased: places of the words that stand in a phrase of several words without a gap.
    headed: places of the words with which the statement begins or its last part stands for what is wanted ("tension in
    a guy ...", "..., pull in the guy"). opens: weight of the phrase that asks and with which it begins, 0 where it
    begins otherwise. ends: whether it ends so, straight behind what its numbers are ("60 mm at the base, 45 mm 200 mm
    up, taper"). thing: places of the words that name the figure's own thing.
    """

    figure: str
    score: float
    worded: float
    groups: int
    named: bool
    roles: Roles
    values: Mapping[str, str]
    used: frozenset[int]
    complete: bool
    phrased: frozenset[int] = frozenset()
    headed: frozenset[int] = frozenset()
    ends: bool = False
    opens: float = 0.0
    thing: frozenset[int] = frozenset()


@dataclass(frozen=True, slots=True)
class Heardings:
    """What may be asked, the likeliest first. asks: whether words of asking stand in the statement. fahrenheit: whether
    degrees of that scale are named."""

    figures: tuple[Heard, ...]
    numbers: tuple[SaidNumber, ...]
    asks: bool
    fahrenheit: bool = False


class FigureWords:
    """The compiled words of figure questions, with the number words that they need. Make it once a lexicon."""

    def __init__(self, data: Mapping[str, Any], values: ValueWords) -> None:
        self.tree: Mapping[str, Any] = data["tree"]
        self.roles: Mapping[str, Mapping[str, Any]] = data["roles"]
        self.needs: Mapping[str, Sequence[str]] = data["needs"]
        self.of_work = frozenset(data["of_work"])
        self.numbers = NumberWords(values, data)

    def heard(self, words: Sequence[Word], dates: DateWords, opening: str | None = None) -> Heardings:
        """Every figure that the statement may ask for. opening: the one that a sentence of the grammar asks for."""
        line, spans = self._line(words, dates)
        found = self._found(line)
        cues: dict[str, dict[str, list[tuple[float, Found]]]] = {}
        for one in found:
            if one.of == "cue":
                figure, group, weight = one.gives
                cues.setdefault(figure, {}).setdefault(group, []).append((weight, one))
        worded = {figure: _worded(groups) for figure, groups in cues.items()}
        if opening:
            worded[opening] = worded.get(opening, 0.0) + (OPENING if cues.get(opening, {}).get("of") else OPENING / 2)
        likely = sorted((figure for figure in worded if figure in self.roles), key=lambda figure: -worded[figure])
        heard = [
            self._heard(figure, worded[figure], cues.get(figure, {}), line, spans, found)
            for figure in likely[:TRIED]
            if worded[figure] > 0
        ]
        heard.sort(key=lambda one: -one.score)
        if len(heard) > 1 and heard[0].score - heard[1].score < MARGIN and heard[1].complete > heard[0].complete:
            heard[:2] = heard[1], heard[0]  # of two alike, the one that can be worked out
        hot = "fahrenheit" in line.orphans or any(number.word == "fahrenheit" for number in line.numbers)
        return Heardings(tuple(heard), tuple(line.numbers), any(one.of == "asks" for one in found), hot)

    def of_figure(self, figure: str, words: Sequence[Word], dates: DateWords) -> tuple[Heard, tuple[SaidNumber, ...]]:
        """What the words give to one figure."""
        line, spans = self._line(words, dates)
        return self._heard(figure, 0.0, {}, line, spans, self._found(line)), tuple(line.numbers)

    def _found(self, line: Line) -> list[Found]:
        kinds = [""] * len(line.pieces)
        for n, at in enumerate(line.place):
            number = line.numbers[n]
            named = number.unit == "date" and bool(line.small.extremes.intersection(number.word.split()))
            kinds[at] = "extreme-day" if named else number.unit
        return list(find_phrases(self.tree, line.pieces, kinds, line.small.stops))

    def _line(self, words: Sequence[Word], dates: DateWords) -> tuple[Line, list[tuple[int, ...]]]:
        """The statement as pieces, and the words of each."""
        texts, small = texts_of(words), self.numbers.small
        numbers = said_numbers(words, self.numbers, dates)
        first = {number.first: n for n, number in enumerate(numbers)}
        pieces: list[str] = []
        spans: list[tuple[int, ...]] = []
        place: list[int] = []
        at = 0
        while at < len(texts):
            n = first.get(at)
            end = at + 1 if n is None else numbers[n].end
            if n is not None:
                place.append(len(pieces))
            piece = stem(texts[at])
            pieces.append(NUMBER if n is not None else small.same_as.get(piece, piece))
            spans.append(tuple(range(at, end)))
            at = end
        return Line(pieces, place, numbers, orphan_units(numbers, texts, self.numbers), small), spans

    def _heard(
        self,
        figure: str,
        worded: float,
        groups: Mapping[str, Sequence[tuple[float, Found]]],
        line: Line,
        spans: Sequence[tuple[int, ...]],
        found: Sequence[Found],
    ) -> Heard:
        mine = [one for one in found if one.of in ("role", "value") and one.gives[0] == figure]
        roles = give_roles(line, self.roles[figure], [one for one in mine if one.of == "role"])
        values: dict[str, str] = {}
        for one in mine:
            if one.of == "value":
                values.setdefault(one.gives[1], one.gives[2])
        names = {role.name for role in roles.roles}
        lacking = sum(not set(need.split("|")) & (names | set(values)) for need in self.needs[figure])
        taken = [one for group, all in groups.items() if group != AGAINST for _, one in all]
        taken += [one for one in mine if one.of == "value"]
        pieces = {at for one in taken for at in range(one.first, one.end)} | {
            line.place[role.number] for role in roles.roles
        }
        pieces |= {at for one in mine if one.of == "role" and one.gives[1] in names for at in range(one.first, one.end)}
        told = {line.place[role.number] for role in roles.roles}
        told |= {at for one in mine if one.of == "role" and one.gives[1] in names for at in range(one.first, one.end)}
        used = frozenset(word for at in pieces for word in spans[at])
        score = worded + FIT * roles.gain - LACKING * lacking
        count = sum(bool(groups.get(group)) for group in ("of", "asked", "with")) + bool(roles.roles)
        if worded and not groups.get("of"):
            score -= NOT_NAMED
        named = bool(groups.get("of"))
        whole = [one for one in taken if not one.gapped and one.end > one.first + 1]
        phrased = frozenset(word for one in whole for at in range(one.first, one.end) for word in spans[at])
        breaks = line.small.pauses | line.small.stops
        last = max(
            (at + 1 for at, piece in enumerate(line.pieces[:-1]) if piece in breaks or piece == NUMBER), default=0
        )
        leading = [one for weight, one in groups.get("asked", ()) if weight >= ENDS_WITH and one.first in (0, last)]
        ends = any(
            one.end == len(line.pieces) and (weight >= ENDS_WITH or one.end == one.first + 1) and one.first - 1 in told
            for weight, one in groups.get("asked", ())
        )
        opens = max((weight for weight, one in groups.get("asked", ()) if not one.first), default=0.0)
        headed = frozenset(word for one in leading for at in range(one.first, one.end) for word in spans[at])
        things = (one for group in ("of", "asked") for _, one in groups.get(group, ()) if not one.gapped)
        thing = frozenset(word for one in things for at in range(one.first, one.end) for word in spans[at])
        return Heard(
            figure, score, worded, count, named, roles, values, used, not lacking, phrased, headed, ends, opens, thing
        )


def _worded(groups: Mapping[str, Sequence[tuple[float, Found]]]) -> float:
    """What the words alone say for a figure: of each group the strongest phrase, and a little for others beside it."""
    out = 0.0
    for group, found in groups.items():
        weights: list[float] = []
        places: set[int] = set()
        for weight, one in sorted(found, key=lambda pair: (-pair[0], pair[1].first - pair[1].end)):
            span = set(range(one.first, one.end))
            if not weights or not span & places:
                weights.append(weight)
                places |= span
        total = weights[0] + MORE_OF_GROUP * sum(weights[1:4])
        out += -total if group == AGAINST else total
    return out


def roles_named(roles: Roles, name: str) -> list[Role]:
    """The roles of one name, in the order said."""
    return [role for role in roles.roles if role.name == name]


def figure_words(spotter: Spotter) -> FigureWords:
    """The words of figure questions of a spotter's lexicon, unpacked when first asked for."""
    if spotter.figures is None:
        spotter.figures = FigureWords(spotter.lexicon.figure_words(), spotter.values)
    words: FigureWords = spotter.figures
    return words
