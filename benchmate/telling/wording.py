"""Works and places on the tree in plain English."""

from __future__ import annotations

from collections.abc import Mapping

from benchmate.hearing.reading import NOWHERE, Spot
from benchmate.telling.measures import measure_tail
from benchmate.value import replace

# How a work is told: as something to do, and as something done. {it} is what is worked on ("the left branch", or the
# word after the bar where nothing was said), {at} where it is ("on the left branch"), {from} what it comes off. A work
# that is not here is told by its own name, so that a new work needs no line here.
_TOLD: dict[str, tuple[str, str]] = {
    "remove": ("remove {it|it}", "removed {it|it}"),
    "shorten": ("shorten {it|it}", "shortened {it|it}"),
    "pinch": ("pinch {it|it}", "pinched {it|it}"),
    "select-leader": ("keep {it|one leader}", "kept {it|one leader}"),
    "rub-buds": ("rub buds off{from}", "rubbed buds off{from}"),
    "candle-cut": ("cut the candles off{from}", "cut the candles off{from}"),
    "candle-shorten": ("shorten the candles{at}", "shortened the candles{at}"),
    "thin-needles": ("thin the needles{at}", "thinned the needles{at}"),
    "leaf-cut": ("halve the leaves{at}", "halved the leaves{at}"),
    "thin-leaves": ("thin the leaves{at}", "thinned the leaves{at}"),
    "defoliate": ("take all the leaves off{from}", "took all the leaves off{from}"),
    "remove-flowers": ("take the flowers off{from}", "took the flowers off{from}"),
    "remove-fruit": ("take the fruit off{from}", "took the fruit off{from}"),
    "wire": ("wire {it|it}", "wired {it|it}"),
    "guy": ("guy {it|it}", "guyed {it|it}"),
    "bend": ("bend {it|it}", "bent {it|it}"),
    "unwire": ("take the wire off{from}", "took the wire off{from}"),
    "remove-guy": ("take the guy off{from}", "took the guy off{from}"),
    "deadwood": ("carve deadwood{at}", "carved deadwood{at}"),
    "air-layer": ("air-layer {it|it}", "air-layered {it|it}"),
    "graft": ("graft{at}", "grafted{at}"),
    "let-grow": ("let {it|it} grow", "let {it|it} grow"),
    "repot": ("repot it", "repotted it"),
    "slip-pot": ("slip it into a larger pot", "slipped it into a larger pot"),
    "root-prune": ("prune the roots", "pruned the roots"),
    "collect": ("collect it", "collected it"),
    "feed": ("feed it", "fed it"),
    "stop-feeding": ("stop feeding it", "stopped feeding it"),
    "water": ("water it", "watered it"),
    "shade": ("shade it", "shaded it"),
    "shelter": ("shelter it", "sheltered it"),
    "sun": ("put it in the sun", "put it in the sun"),
    "turn-tree": ("turn it round", "turned it round"),
    "treat": ("treat {it|it}", "treated {it|it}"),
    "seal-wound": ("seal the wound{at}", "sealed the wound{at}"),
    "clean-wound": ("clean the wound{at}", "cleaned the wound{at}"),
    "sterilise": ("sterilise the tools", "sterilised the tools"),
    "leave": ("leave {it|it} alone", "left {it|it} alone"),
    "wait": ("wait", "waited"),
    "check": ("check {it|it}", "checked {it|it}"),
    "photograph": ("photograph {it|it}", "photographed {it|it}"),
}
_OWN_PART = {
    "wound": ("seal-wound", "clean-wound"),
    "tool": ("sterilise",),
    "wire": ("unwire",),
    "guy": ("remove-guy",),
    "root": ("root-prune",),
    "pot": ("repot", "slip-pot"),
    "soil": ("repot",),
    "tree": (),
    "leaf": ("leaf-cut", "thin-leaves", "defoliate"),
    "candle": ("candle-cut", "candle-shorten"),
    "needle": ("thin-needles",),
    "bud": ("rub-buds",),
    "flower": ("remove-flowers",),
    "fruit": ("remove-fruit",),
}
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
    if work in _OWN_PART.get(spot.part or "", ()):
        spot = Spot(None, spot.side, spot.level, spot.ordinal, spot.count)
    forms = _TOLD.get(work)
    if forms is None:
        said = work.replace("-", " ") + (": done" if done else "")
        words = f"{said} {place_words(spot)}".strip()
    else:
        words = _fill(forms[done], spot, leader=work == "select-leader")
    for way in manner:
        words += {"hard": " hard", "bare-wood": " into bare wood", "all": ", every one"}.get(way, f", {way}")
    if work in _ROOT_WORK and measures and "share" in measures:
        words += f", {measures['share'] * 100:.0f} % of the roots off"
        measures = {key: value for key, value in measures.items() if key != "share"}
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


def small(words: str) -> str:
    """The words with a small first letter, unless they begin with a name in capitals."""
    return words[:1].lower() + words[1:] if words[1:2].islower() or words[1:2] == " " else words


def sentence(words: str) -> str:
    """First letter large, an end mark at the end."""
    words = words.strip()
    if not words:
        return words
    return words[0].upper() + words[1:] + ("" if words[-1] in ".!?:" else ".")
