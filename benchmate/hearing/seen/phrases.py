"""Noun phrases of the parse tree as plain values: what stands in them, in whose words, and what they mean as facts."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

from benchmate.value import dataclass, field

from ..amounts.values import Value
from ..lattice.automaton import Node
from ..lattice.spotting import Token
from ..reading import Spot
from ..vocabulary.lexicon import Lexicon

ASIDE = "aside"  # a meaning that no rule asks for ("a thick branch"): heard, not recorded
_NOUNS = frozenset({"PART", "FINDING", "EVENT", "MEANS", "TREEWORD", "PRON"})
INNER = "inner"  # a level, and a link that tells it
CREATURE = "~creature"  # a part that stands for who breaks a branch and is no grower
HIDDEN = "~"  # a part that only helps to tell the work ("into the ~shade")


@dataclass
class Phrase:
    """One noun phrase, taken apart."""

    span: tuple[int, int] = (0, 0)
    parts: list[str] = field(default_factory=list)
    findings: list[Token] = field(default_factory=list)
    states: list[Token] = field(default_factory=list)
    events: list[Token] = field(default_factory=list)
    means: list[str] = field(default_factory=list)
    species: list[Token] = field(default_factory=list)
    weather: list[Token] = field(default_factory=list)
    name: str | None = None
    called: str | None = None
    flush: bool = False
    one: bool = False
    pronoun: str | None = None
    many: bool = False
    other: str | None = None
    every: bool = False
    some: bool = False
    each: bool = False
    definite: bool = False
    numbers: list[float] = field(default_factory=list)
    ordinal: int | None = None
    side: str | None = None
    level: str | None = None
    share: float | None = None
    measures: dict[str, float] = field(default_factory=dict)
    bare: list[Value] = field(default_factory=list)
    series: list[tuple[str, float]] = field(default_factory=list)
    at: Spot | None = None  # what it is on: "the wound on the trunk"

    @property
    def part(self) -> str | None:
        """The part that is meant: the last one named, since "branch tips" are tips."""
        return self.parts[-1] if self.parts else None

    @property
    def shown_part(self) -> str | None:
        """The part, unless it only helps to tell the work."""
        return None if self.part is None or self.part.startswith(HIDDEN) else self.part

    def spot(self, count: bool = True) -> Spot:
        number = int(self.numbers[0]) if count and self.numbers else None
        return Spot(self.shown_part, self.side, self.level, self.ordinal if not self.flush else None, number)

    @property
    def counts_trees(self) -> bool:
        """Whether its number is that of trees: "all three maples have aphids" counts none of what is seen on them."""
        return bool(self.species) and not self.parts

    @property
    def doers(self) -> list[str]:
        """What may do harm: the weather that is named, or an animal or a child ("a squirrel snapped the top out")."""
        return [str(token.value) for token in self.weather] or [CREATURE] * (self.part == CREATURE)

    @property
    def says_place_only(self) -> bool:
        """Only qualifiers: something else must be meant by them."""
        return not (
            self.findings or self.states or self.events or self.species or self.flush or self.name or self.weather
        )

    @property
    def owned_place(self) -> bool:
        """A part, its place and whose it is, and nothing that is so of it: "the juniper's right branch"."""
        said = self.findings or self.states or self.events or self.flush or self.weather
        return bool(self.shown_part and (self.species or self.name)) and not said

    @property
    def only_state(self) -> bool:
        """One state and nothing that it is said of."""
        said = self.parts or self.findings or self.events or self.species or self.flush or self.name or self.weather
        return len(self.states) == 1 and not (said or self.one or self.pronoun or self.side or self.level)

    @property
    def names_one(self) -> bool:
        """One of several is meant: "the left one", "the second"."""
        placed = self.side or self.level or self.ordinal
        return self.says_place_only and (self.one or (bool(placed) and not self.parts and not self.bare))


def leaves(node: Any) -> Iterator[Token]:
    """The tokens below a node, in order."""
    if isinstance(node, Token):
        yield node
    elif isinstance(node, Node):
        for child in node.children:
            yield from leaves(child)


def linked_phrase(link: Token | None, node: Node) -> Phrase:
    """The phrase behind a link. "Inside the juniper": a tree has an inside, so there the link tells the level."""
    phrase = read_phrase(node)
    of_tree = bool(phrase.species or phrase.name) and not (phrase.parts or phrase.findings or phrase.states)
    if link is not None and link.kind == "AT" and link.value == INNER and of_tree:
        phrase.level = phrase.level or INNER
    return phrase


def read_phrase(node: Node) -> Phrase:
    """Take an `np` node apart. The order within the phrase matters only for parts, where the last one wins."""
    phrase = Phrase()
    tokens = list(leaves(node))
    phrase.span = (tokens[0].first, tokens[-1].end)
    for place, token in enumerate(tokens):
        if token.kind == "NUM" and place and tokens[place - 1].kind == "SIDE" and place + 1 == len(tokens):
            phrase.ordinal = int(token.value)  # "L2" in notes
            continue
        if token.kind == "ORD" and place and place + 1 == len(tokens) and tokens[place - 1].kind in _NOUNS:
            continue  # "sterilised the saw first": when, not which
        if token.kind == "NAME" and place and tokens[place - 1].kind == "CALLED":
            phrase.called = token.value
            continue
        _take(phrase, token)
    return phrase


def _take(phrase: Phrase, token: Token) -> None:
    """Put one token where it belongs in the phrase."""
    value = token.value
    match token.kind:
        case "PART":
            phrase.parts.append(value)
        case "FINDING" | "STATE" | "EVENT" | "SPECIES" | "WEATHER" as kind:
            {
                "FINDING": phrase.findings,
                "STATE": phrase.states,
                "EVENT": phrase.events,
                "SPECIES": phrase.species,
                "WEATHER": phrase.weather,
            }[kind].append(token)
        case "MEANS":
            phrase.means.append(value)
        case "NAME":
            phrase.name = value
        case "FLUSH":
            phrase.flush = True
            if value.isdigit():  # "first flush" in one
                phrase.ordinal = int(value)
        case "ONE":
            phrase.one = True
        case "PRON":
            phrase.pronoun, phrase.many = "it" if value == "them" else value, value == "them"
        case "OTHER":
            phrase.other = value
        case "DET":
            phrase.definite = phrase.definite or value == "the"
            phrase.every = phrase.every or value in ("all", "each")
            phrase.some, phrase.each = phrase.some or value == "some", phrase.each or value == "each"
        case "NUM":
            phrase.numbers.append(value)
        case "ORD":
            phrase.ordinal = int(value)
        case "SIDE":
            phrase.side = value
        case "LEVEL":
            phrase.level = value
        case "SHARE":
            phrase.share = value
        case "MEASURE" | "NPK":
            _take_measure(phrase, value)


def _take_measure(phrase: Phrase, value: Value) -> None:
    if value.bare:
        phrase.bare.append(value)
    else:
        phrase.measures.update(value.measures)
        phrase.series += value.measures.items()


def settle_bare(phrase: Phrase, lexicon: Lexicon, length_as: str | None = None, degree_as: str = "angle_deg") -> None:
    """Give measures without a direction their names: by the part they stand with, else as told by the caller."""
    table, across = lexicon.numbers.get("bare_length", {}), lexicon.numbers.get("across", {})
    for value in phrase.bare:
        part = (phrase.part or "").removeprefix(HIDDEN)
        if value.bare == "degree":
            name = degree_as
        elif value.bare == "across":
            name = across.get(part, across.get("default", "diameter_mm"))
        else:
            placed = part or phrase.one or phrase.side or phrase.level or phrase.ordinal
            if value.number > lexicon.numbers.get("thickest_mm", {}).get(part, value.number):
                length_as = "length_mm"  # "wire for a 45 cm trunk"
            name = length_as or table.get(part, table.get("default", "diameter_mm") if placed else "height_mm")
        phrase.measures.setdefault(name, value.number)
        phrase.series += [(name, number) for number in (value.number, *value.others)]
    phrase.bare = []
