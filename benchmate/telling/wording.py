"""Works and places on the tree in plain English."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from benchmate.hearing.reading import NOWHERE, Spot
from benchmate.telling.measures import measure_tail
from benchmate.telling.works import told_of
from benchmate.value import replace

_LEVEL_AT = {
    "low": "low down",
    "middle": "in the middle",
    "high": "high up",
    "inner": "on the inside",
    "outer": "on the outside",
    "top": "at the top",
    "bottom": "at the bottom",
}
_ROOT_WORK = ("repot", "collect", "slip-pot")
_LEAF_WORK = ("thin-leaves", "leaf-cut", "defoliate")
_BORNE = ("wire", "guy", "wound", "soil", "root")  # told by where it is: "the wire on the left"
# told as many where nothing says which: "the shoots", but "the left shoot"
_MANY = ("root", "needle", "bud", "leaf", "shoot", "twig", "tip", "flower", "fruit", "candle")
_PLURAL = {"fruit": "fruit", "branch": "branches", "side-branch": "side branches", "leaf": "leaves", "tree": "trees"}
_ORDINAL = ("", "first", "second", "third", "fourth", "fifth", "sixth", "seventh", "eighth", "ninth", "tenth")


def part_words(part: str, many: bool = False) -> str:
    """A part of the tree as a noun: "side branch", "leaves"."""
    if many:
        return _PLURAL.get(part, part.replace("-", " ") + "s")
    return part.replace("-", " ")


def ordinal_words(number: int) -> str:
    """Any whole number as a place in a row.

    >>> ordinal_words(2), ordinal_words(21)
    ('second', '21st')
    """
    if 0 < number < len(_ORDINAL):
        return _ORDINAL[number]
    tail = "th" if number % 100 in (11, 12, 13) else {1: "st", 2: "nd", 3: "rd"}.get(number % 10, "th")
    return f"{number}{tail}"


def spot_words(spot: Spot, bare: str = "it") -> str:
    """What is worked on: "the left branch", "the left one", or `bare` where no place was said."""
    if spot == NOWHERE:
        return bare
    if spot.part in _BORNE and (spot.side or spot.level):
        return f"the {part_words(spot.part)} {place_words(replace(spot, part=None, ordinal=None, count=None))}"
    placed = spot.side or spot.level or spot.ordinal or spot.count
    many = (spot.count or 1) > 1 or (spot.part in _MANY and not placed)
    if spot == Spot(count=spot.count) and many:
        return f"{spot.count} of them"
    noun = part_words(spot.part, many) if spot.part else ("ones" if many else "one")
    which = [
        str(spot.count) if (spot.count or 1) > 1 else "",
        ordinal_words(spot.ordinal) if spot.ordinal else "",
        spot.level or "",
        spot.side or "",
    ]
    return " ".join(["the", *filter(None, which), noun])


def place_words(spot: Spot) -> str:
    """Where: "on the left branch", "on the left", "low down", or "" where no place was said."""
    if spot.part or spot.ordinal:
        return f"{'at' if spot.part in ('base', 'apex', 'tip', 'crown') else 'on'} {spot_words(spot)}"
    said = []
    if spot.level:
        said.append(_LEVEL_AT.get(spot.level, f"at the {spot.level}"))
    if spot.side:
        said.append({"front": "at the front", "back": "at the back"}.get(spot.side, f"on the {spot.side}"))
    return " ".join(said)


# how work is done, after the words for it
_WAYS = {"hard": " hard", "bare-wood": " into bare wood", "all": ", every one", "warm-room": " in a warm room"}
_WAYS |= {"indoors": " indoors", "in-sun": " in the sun", "midday": " at midday", "staged": " in stages"}
_WAYS |= {"old-leaves": ", the old ones only", "bad-leaves": ", the bad ones only"}


def work_words(
    work: str,
    spot: Spot = NOWHERE,
    measures: Mapping[str, float] | None = None,
    *,
    done: bool = False,
    manner: tuple[str, ...] = (),
    units: str = "metric",
) -> str:
    """A work in words: "shorten the left branch to 2 leaves"; done: "shortened the left branch to 2 leaves"."""
    told = told_of(work)
    if told and spot.part in told.get("own_parts", ()):
        spot = Spot(None, spot.side, spot.level, spot.ordinal, spot.count)
    if told is None:
        said = work.replace("-", " ") + (": done" if done else "")
        words = f"{said} {place_words(spot)}".strip()
    else:
        words = _fill(str(told["done" if done else "do"]), spot, leader=work == "select-leader")
    for way in manner:
        words += _WAYS.get(way, f", {way}")
    if work in _ROOT_WORK and measures and "share" in measures:
        words += f", {measures['share'] * 100:.0f} % of the roots off"
        measures = {key: value for key, value in measures.items() if key != "share"}
    if work in _LEAF_WORK and measures and "leaves" in measures:  # of these: how many went, not how many are left
        words += f", {measures['leaves']:g} {'leaf' if measures['leaves'] == 1 else 'leaves'}"
        measures = {key: value for key, value in measures.items() if key != "leaves"}
    return words + measure_tail(measures or {}, units)


def _fill(form: str, spot: Spot, leader: bool) -> str:
    if "{from}" in form:  # "off the left branch", but "off on the left"
        at = spot_words(spot) if spot.part or spot.ordinal else place_words(spot)
        return form.replace("{from}", f" {at}" if at else "")
    if "{at}" in form:
        at = place_words(spot)
        return form.replace("{at}", f" {at}" if at else "")
    if "{it|" not in form:
        at = place_words(spot) if spot.part not in (None, "tree") else ""
        return f"{form} {at}".strip()
    before, rest = form.split("{it|", 1)
    bare, after = rest.split("}", 1)
    it = spot_words(spot, bare)
    if leader and spot != NOWHERE and spot.part != "leader":
        after = f" as the leader{after}"
    return before + it + after


def list_words(items: list[str], last: str = "and") -> str:
    """Several things in one line: "wire, guy and bend"."""
    if len(items) < 2:
        return "".join(items)
    return f"{', '.join(items[:-1])} {last} {items[-1]}"


def quoted_words(said: Sequence[str]) -> str:
    """Words as they were said, in quotation marks: '"one", "two"'."""
    return ", ".join(f'"{words}"' for words in said)


def small(words: str) -> str:
    """The words with a small first letter, unless they begin with a name in capitals."""
    return words[:1].lower() + words[1:] if words[1:2].islower() or words[1:2] == " " else words


def sentence(words: str) -> str:
    """First letter large, an end mark at the end."""
    words = words.strip()
    if not words:
        return words
    return words[0].upper() + words[1:] + ("" if words[-1] in ".!?:" else ".")
