"""Which number a statement asks for where its opening alone does not tell, and which words go with its numbers."""

from __future__ import annotations

from collections.abc import Collection, Sequence

from benchmate.value import replace

from .dates import FIRST_FROST
from .lexicon import Lexicon
from .phrases import state_meaning
from .reading import Fact, Reading
from .spotting import Spotter, Token
from .words import Word

_ASKING = frozenset({"how", "what", "which", "when", "where"})
_INVERTED = frozenset({"is", "are", "does", "do", "will", "would", "can"})
_SUBJECTS = frozenset({"i", "we", "the", "it", "that", "this", "a", "an", "my", "its"})
_PARTED = frozenset({",", ".", ";", "and", "?"})
_STATES = {"observe", "decide"}
NOTHING: frozenset[int] = frozenset()


def with_figure(
    reading: Reading, words: Sequence[Word], missed: bool, spotter: Spotter, lattice: Sequence[Sequence[Token]]
) -> tuple[Reading, frozenset[int]]:
    """The reading with the figure that its words ask for, and the places of words that this took in.

    missed: whether words were passed over, in which a question may lie. lattice: what each word may be.
    """
    lexicon = spotter.lexicon
    if not reading.figure and not _may_hold(reading, words, missed, lexicon.glossary):
        return reading, NOTHING
    figures = lexicon.figures
    from .roles import figure_by_cues, figure_meant, figure_roles, said_numbers

    numbers = said_numbers(words, spotter.values)
    cued = NOTHING
    if reading.figure:
        figure: str | None = figure_meant(reading.figure, words, numbers, figures)
        if not reading.work:  # "compare the leaders, 13 and 15 mm, what ratio"
            reading = replace(reading, topic="figure")
        elif reading.topic == "may" and not _PARTED & {word.text for word in words}:
            reading = replace(_supposed(reading), topic="figure")  # "what gauge should I wrap round it"
        reading = _with_lost(replace(reading, figure=figure), lattice, lexicon, day=False)
    else:
        figure, cued = figure_by_cues(words, numbers, figures)
        told = reading.facts or reading.work or reading.candidates
        if figure is None or not (not reading.acts or _asks(words) or 0 in cued or not told):
            return reading, NOTHING
        reading = _with_lost(reading, lattice, lexicon, day=True)
        if "ask" in reading.acts:  # what the question was taken for belongs to it
            reading = replace(_supposed(reading), term=None)
        acts = tuple(dict.fromkeys((*reading.acts, "ask")))
        figure = figure_meant(figure, words, numbers, figures)
        reading = replace(reading, acts=acts, topic="figure", figure=figure)
    roles = figure_roles(reading, words, numbers, figures.get(reading.figure or "", {}))
    return reading, cued | {place for role in roles for place in role.words}


def _supposed(reading: Reading) -> Reading:
    """The reading with its work as what the question supposes."""
    return replace(reading, supposes=(*reading.supposes, *reading.work), work=())


def _with_lost(reading: Reading, lattice: Sequence[Sequence[Token]], lexicon: Lexicon, day: bool) -> Reading:
    """The reading with the species, the health ("a weak tree") and with `day` the date that its words name and no
    sentence took in."""
    exact = [token for tokens in lattice for token in tokens if not token.guesses]
    longest = sorted(exact, key=lambda token: token.first - token.end)
    trees = {token.first for token in exact if token.kind in ("SPECIES", "TREEWORD")}
    found: dict[str, Fact] = {}
    for token in longest:
        if token.kind == "SPECIES" and not str(token.value).startswith("group:"):
            found.setdefault("species", Fact("species", token.value))
        elif token.kind == "STATE" and token.end in trees:
            kind, _, value = (state_meaning(lexicon, token.value, None) or "").partition(":")
            if kind == "health":
                found.setdefault(kind, Fact(kind, value))
    for fact in reading.facts:
        found.pop(fact.kind, None)
    # a single word may be a day and something else ("may", "march", "now")
    when = next((one.value.future for one in longest if one.kind == "DATE" and one.end > one.first + 1), None)
    if not day or when == FIRST_FROST:
        when = None
    return replace(reading, facts=(*reading.facts, *found.values()), when=reading.when or when)


def _may_hold(reading: Reading, words: Sequence[Word], missed: bool, terms: Collection[str]) -> bool:
    """Whether a question for a number may lie in what was understood: nothing else was asked, or not all of it."""
    if reading.topic == "meaning":
        return (reading.term or "") not in terms
    if reading.topic in ("may", "when", "compare"):
        return missed
    return not set(reading.acts) - _STATES and (missed or _asks(words))


def _asks(words: Sequence[Word]) -> bool:
    """Whether a question word stands in the statement, or a clause of it begins as questions do."""
    texts = [word.text for word in words]
    openings = [at for at in range(len(texts) - 1) if at == 0 or texts[at - 1] in (",", ".", ";", "and")]
    asked = bool(set(texts) & _ASKING) or texts[-1:] == ["?"]
    pairs = [(texts[at], texts[at + 1]) for at in openings]
    return asked or any(verb in _INVERTED and (of in _SUBJECTS or of.isdigit()) for verb, of in pairs)
