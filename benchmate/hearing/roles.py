"""What the numbers of a figure question stand for: "60 mm at the base and 25 at the top", "1 to 100 injector".

Patterns of rules/words/figures.toml, over the statement's words. In them `#` is a number with its unit, `[a/b/]` one of
several wordings, `~` up to four words without a number, `...` any words.
"""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping, Sequence
from typing import Any

from benchmate.value import dataclass, replace

from .reading import Reading
from .values import FAHRENHEIT_FREEZING, FAHRENHEIT_PER_CELSIUS, Value, ValueWords, spot_values
from .words import Word

_KINDS = {"mm": {"length"}, "c": {"degree", "celsius"}, "deg": {"degree"}, "l": {"volume"}, "percent": {"share"}}
_AFTER_IN = frozenset({"half", "two", "all", "total", "a", "an", "the", "my", "each", "one", "three"})
_FIRST = {"length": "bare", "degree": "degree"}  # what a figure calls a number of that unit
_OWN = {"ppm": "ppm", "volume": "volume_l"}  # what it is for every figure
_LABEL, _NPK = "npk", re.compile(r"\d+-\d+-\d+")
NUMBER = "#"
_LISTED = frozenset({",", "and", "&", "or"})


@dataclass(frozen=True, slots=True)
class SaidNumber:
    """A number with its unit: words [first, end). raw: as said. value: in the measure's own unit (mm, C, litres, %).
    unit: length, degree, celsius, volume, share, days, another measure's name, or "" for none."""

    first: int
    end: int
    raw: float
    value: float
    unit: str


@dataclass(frozen=True, slots=True)
class Role:
    """What a number, or a wording without one, stands for. words: those of the statement that the pattern took."""

    name: str
    value: Any
    words: tuple[int, ...]
    number: int | None = None


def said_numbers(words: Sequence[Word], values: ValueWords) -> list[SaidNumber]:
    """Every number in its place. In a list of lengths the last one's unit holds for all: "3, 4 and 12 mm"."""
    texts = [word.text for word in words]
    numbers: list[SaidNumber] = []
    at = 0
    while at < len(texts):
        found = _number_at(texts, values, at)
        if found is None:
            at += 1
        else:
            numbers.append(found)
            at = found.end
    return _with_units(numbers, texts)


def figure_roles(
    reading: Reading, words: Sequence[Word], numbers: Sequence[SaidNumber], cell: Mapping[str, Any]
) -> tuple[Role, ...]:
    """What each number stands for in a reading's figure question. cell: the figure's table of rules/words/figures.toml.
    A length or a count of degrees that no clause and no wording took is the measure that the figure asks for first
    (`bare`, `degree`); with `alone` a single length is that one, whatever a clause took it for."""
    roles = roles_of(words, numbers, cell.get("said", {}))
    taken = {role.number for role in roles}
    told = [*(fact.measures for fact in (*reading.facts, *reading.candidates))]
    told += [work.measures for work in (*reading.work, *reading.supposes)]
    heard = [*reading.measures.values(), *(value for _, value in reading.series)]
    heard += [value for measures in told for value in measures.values()]
    lengths = [n for n, number in enumerate(numbers) if number.unit == "length"]
    alone = cell.get("alone") and len(lengths) == 1
    for n, number in enumerate(numbers):
        name = cell.get(_FIRST.get(number.unit, ""), _OWN.get(number.unit))
        if not name or n in taken or any(role.name == name for role in roles):
            continue
        if (alone and number.unit == "length") or not any(abs(number.value - one) < 1e-6 for one in heard):
            roles = (*roles, Role(name, number.value, tuple(range(number.first, number.end)), n))
    return roles


def roles_of(words: Sequence[Word], numbers: Sequence[SaidNumber], patterns: Mapping[str, Any]) -> tuple[Role, ...]:
    """What is said to be what. patterns: name, or names in the order of the numbers, -> wordings; or name -> value ->
    wordings, where the words alone say it. A number means one thing: earlier patterns come first. The name `_` is for a
    number that only belongs to the wording; `-` before a name turns the sign.
    """
    text, places = _text(words, numbers)
    plain = _text(words, ())
    taken: set[int] = set()
    out: list[Role] = []
    for names, wordings in patterns.items():
        if isinstance(wordings, Mapping):
            out += _worded(names, wordings, (text, places), plain)
        for wording in wordings.get(NUMBER, ()) if isinstance(wordings, Mapping) else wordings:
            for match in _compiled(wording).finditer(text):
                at = [int(group) for group in match.groups()]
                given = list(zip(names.split(), at, strict=False))
                if taken & set(at) or not all(_fits(name, numbers[n]) for name, n in given):
                    continue
                taken |= set(at)
                span = _words_in(match.span(), places)
                out += [_role(name, numbers, n, span) for name, n in given if name != "_"]
    return tuple(out)


def figure_meant(figure: str, words: Sequence[Word], numbers: Sequence[SaidNumber], figures: Mapping[str, Any]) -> str:
    """The figure that is asked for: another than the question's words alone give, where the rest names what it is of
    ("a 30 mm cut, how long till it's closed"). figures: rules/words/figures.toml, its `instead` by figure."""
    text, _ = _text(words, numbers)
    for other, wordings in figures.get(figure, {}).get("instead", {}).items():
        if any(_compiled(wording).search(text) for wording in wordings):
            return str(other)
    return figure


def figure_by_cues(
    words: Sequence[Word], numbers: Sequence[SaidNumber], figures: Mapping[str, Any]
) -> tuple[str | None, frozenset[int]]:
    """The figure that the words of a question speak of, and their places, where no sentence of the grammar fits.

    figures: their `cues`, pieces that must all stand in the statement, in any order; the cue with the most pieces wins,
    the first of equals.
    """
    text, places = _text(words, numbers)
    best: tuple[int, str | None, frozenset[int]] = (0, None, frozenset())
    for figure, cell in figures.items():
        for cue in cell.get("cues", ()):
            pieces = cue.split(" ... ")
            if len(pieces) > best[0] and (taken := _pieces(pieces, text, places)):
                best = len(pieces), figure, taken
    return best[1], best[2]


def _pieces(pieces: Sequence[str], text: str, places: Sequence[tuple[int, int, tuple[int, ...]]]) -> frozenset[int]:
    """The words that the pieces of a cue take, empty where one of them does not stand in the text."""
    taken: set[int] = set()
    for piece in pieces:
        # a look at the bare words first spares most patterns their making
        may = all(any(choice in text for choice in group.split("/")) for group in re.findall(r"\[([^\]]*)\]", piece))
        match = _compiled(piece).search(text) if may else None
        if match is None:
            return frozenset()
        taken.update(_words_in(match.span(), places))
    return frozenset(taken)


def _number_at(texts: Sequence[str], values: ValueWords, at: int) -> SaidNumber | None:
    """The number at a word with its own unit, without a word for its direction and without a second number."""
    if any(tuple(texts[at : at + length]) in values.named for length in (1, 2, 3)):
        return None  # "min 4": the word stands before its number
    plain: Value | None = None
    best: tuple[Value, str, float] | None = None
    for value in spot_values(values, texts, at):
        inner = texts[at + 1 : value.end]
        if set(inner) & (values.range | values.by) or value.kind == "NPK" or value.others:
            continue
        if value.kind == "NUM" and (plain is None or value.end > plain.end):
            plain = value
        unit, size = ("", 0.0) if _no_inch(texts, value.end) else _unit_of(value)
        if unit and (best is None or value.end > best[0].end):
            best = (value, unit, size)
    if best is not None and (plain is None or best[0].end >= plain.end):
        raw = plain.number if plain is not None else best[2]
        return SaidNumber(at, best[0].end, raw, best[2], best[1])
    return None if plain is None else SaidNumber(at, plain.end, plain.number, plain.number, "")


def _no_inch(texts: Sequence[str], end: int) -> bool:
    """Whether the "in" before `end` is the small word ("20 of 80 in half")."""
    return texts[end - 1] == "in" and end < len(texts) and (texts[end] in _AFTER_IN or texts[end].isdigit())


def _unit_of(value: Value) -> tuple[str, float]:
    """(unit, value in it) of a measure without a direction, or ("", 0)."""
    if value.kind == "SHARE":
        return "share", 100 * value.number
    if value.kind != "MEASURE":
        return "", 0.0
    if value.bare in ("length", "degree"):
        return value.bare, value.number
    if value.bare or len(value.measures) != 1:
        return "", 0.0
    ((name, size),) = value.measures.items()
    unit = {"temperature_c": "celsius", "volume_l": "volume"}.get(name, name)
    return ("", 0.0) if name.endswith(("_mm", "low_c")) or name == "age_years" else (unit, size)


def _with_units(numbers: list[SaidNumber], texts: Sequence[str]) -> list[SaidNumber]:
    """Numbers without a unit that stand in one list with a length ("3, 4 and 12 mm") take its unit."""
    out = list(numbers)
    for n in range(len(out) - 2, -1, -1):
        here, after = out[n], out[n + 1]
        between = texts[here.end : after.first]
        if not here.unit and after.unit == "length" and after.raw and 0 < len(between) <= 2 and set(between) <= _LISTED:
            out[n] = replace(here, value=here.raw * after.value / after.raw, unit="length")
    return out


def _fits(name: str, number: SaidNumber) -> bool:
    kinds = _KINDS.get(name.rpartition("_")[2])
    if kinds is None:
        return number.unit in ("", name) or (name == "days" and number.unit == "days")
    # a bare "one" is a way of speaking ("in one go"), never a size
    return number.unit in kinds if number.unit else number.raw != 1


def _role(name: str, numbers: Sequence[SaidNumber], at: int, span: tuple[int, ...]) -> Role:
    value = -numbers[at].value if name.startswith("-") else numbers[at].value
    if not numbers[at].unit and (beside := _beside(name, numbers, at)):
        value = (value - FAHRENHEIT_FREEZING) / FAHRENHEIT_PER_CELSIUS if name.endswith("_c") else value * beside
    return Role(name.removeprefix("-"), value, span, at)


def _beside(name: str, numbers: Sequence[SaidNumber], at: int) -> float:
    """What turns a number without a unit into the unit of the nearest one said with it; 0 where nothing does."""
    kind = {"mm": "length", "c": "celsius"}.get(name.rpartition("_")[2])
    near = sorted((abs(n - at), n > at, other) for n, other in enumerate(numbers) if kind and other.unit == kind)
    if not near:
        return 0.0
    other = near[0][2]
    if kind == "celsius":
        return float(other.value != other.raw)
    return other.value / other.raw if other.raw else 0.0


def _worded(name: str, values: Mapping[str, Sequence[str]], *texts: _Text) -> Iterator[Role]:
    """The first value that the words say, in the statement with its numbers set apart or as it stands."""
    for value, wordings in values.items():
        for wording in wordings if value != NUMBER else ():
            for text, places in texts:
                if match := _compiled(wording).search(text):
                    told: Any = float(value) if re.fullmatch(r"[\d.]+", value) else value
                    yield Role(name, told, _words_in(match.span(), places))
                    return


def _text(words: Sequence[Word], numbers: Sequence[SaidNumber]) -> _Text:
    """The statement with its numbers as "#0", "#1", a feed's label as "npk"; and (start, end, words) of each piece."""
    first = {number.first: n for n, number in enumerate(numbers)}
    text, at = "", 0
    places: list[tuple[int, int, tuple[int, ...]]] = []
    while at < len(words):
        n = first.get(at)
        end = numbers[n].end if n is not None else at + 1
        piece = f"#{n}" if n is not None else _LABEL if _NPK.fullmatch(words[at].text) else words[at].text
        places.append((len(text), len(text) + len(piece), tuple(range(at, end))))
        text += piece + " "
        at = end
    return text.rstrip(), places


def _words_in(span: tuple[int, int], places: Sequence[tuple[int, int, tuple[int, ...]]]) -> tuple[int, ...]:
    return tuple(word for start, end, inner in places if start < span[1] and end > span[0] for word in inner)


_Text = tuple[str, list[tuple[int, int, tuple[int, ...]]]]  # as `_text` gives it
_PATTERNS: dict[str, re.Pattern[str]] = {}


def _compiled(wording: str) -> re.Pattern[str]:
    if wording not in _PATTERNS:
        out = ""
        for piece in re.findall(r"\[[^\]]*\]|#| ~ | \.\.\. | +|[^\[#~ ]+", wording):
            if piece.startswith("["):
                out += "(?:" + "|".join(_choice(choice.strip()) for choice in piece[1:-1].split("/")) + ")"
            else:
                out += {"#": r"#(\d+)", " ~ ": r"(?: [^# ]+){0,4}? ", " ... ": r" (?:.*? )?"}.get(piece) or (
                    " ?" if piece.isspace() else re.escape(piece)
                )
        _PATTERNS[wording] = re.compile(rf"(?<!\S){out}(?!\S)")
    return _PATTERNS[wording]


def _choice(choice: str) -> str:
    return r"#\d+" if choice == "#" else re.escape(choice)
