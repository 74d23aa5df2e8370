"""What a clause only seems to tell: a day that belongs to lost words, a state that is asked about."""

from __future__ import annotations

from collections.abc import Sequence

from .clauses import Clause
from .lexicon import Lexicon
from .reading import Spot
from .search import Found
from .spotting import Token
from .words import Word


def drop_lost_days(clauses: Sequence[Clause], found: Found) -> None:
    """Take the day from each clause that is only a day, where words between the same two breaks were passed over: "I
    spent the weekend at my sister's" dates nothing."""
    breaks = _breaks(found)
    for clause in clauses:
        if clause.when is None or clause.kind not in ("observe", "decide") or _says_more(clause):
            continue
        first, end = clause.span
        start = max((token.end for token in breaks if token.end <= first), default=0)
        stop = min((token.first for token in breaks if token.first >= end), default=len(found.marks))
        more = any(
            first <= token.first < end and token.kind != "DATE" for token in found.tokens
        )  # "I did that on Tuesday"
        if more or "missed" in found.marks[start:stop]:
            clause.when, clause.onward = None, False


def drop_asked_states(clauses: Sequence[Clause], found: Found, words: Sequence[Word], lexicon: Lexicon) -> None:
    """Take what is only asked about from each clause that begins as a question does ("is the pine weak")."""
    asking, breaks = lexicon.asking, _breaks(found)
    for clause in clauses:
        if clause.kind != "observe" or clause.topic or not clause.facts:
            continue
        start = max((token.end for token in breaks if token.end <= clause.span[0]), default=0)
        texts = [word.text for word in words[start : start + 2]]
        if len(texts) == 2 and texts[0] in asking["finite"] and texts[1] in asking["subjects"] | asking["tellers"]:
            clause.acts = []
            clause.facts = [fact for fact in clause.facts if fact.kind == "species"]
            first, end = clause.span
            clause.idle += [t for t in found.tokens if first <= t.first < end and t.kind not in ("SPECIES", "DET")]


def _breaks(found: Found) -> list[Token]:
    """The words that part clauses; not the pauses that nobody spoke."""
    return [token for token in found.tokens if token.kind == "SEP" and token.end > token.first]


def _says_more(clause: Clause) -> bool:
    """Whether a clause says anything beside its day."""
    placed = clause.phrase is not None and clause.phrase.spot() != Spot()
    return placed or bool(clause.facts or clause.work or clause.measures or clause.candidates or clause.tree)
