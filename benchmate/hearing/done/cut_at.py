"""Where along a leader or a trunk a cut was made: "cut the leader off above the third branch"."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import Any

from benchmate.value import replace

from ..clauses import Clause
from ..lattice.search import Found
from ..lattice.spotting import Token
from ..reading import Spot
from ..vocabulary.lexicon import Lexicon
from ..vocabulary.words import Word

_VERBS = frozenset({"V", "VED", "VING"})
_TREES = frozenset({"SPECIES", "NAME", "TREEWORD", "PRON"})
_PLACE = ("side", "level", "ordinal", "count")  # what may be the branch's


def cut_at_branch(clauses: Sequence[Clause], found: Found, words: Sequence[Word], lexicon: Lexicon) -> None:
    """A tree chopped at a branch is cut through its trunk. A leader taken off at a branch is cut back to it: the number
    and the side are the branch's, not the leader's."""
    table = lexicon.sense["cut_at"]
    for clause in clauses:
        if not clause.work or clause.work[-1].work not in table["works"]:
            continue
        work = clause.work[-1]
        first, end = clause.span
        tokens = [token for token in found.tokens if first <= token.first < end]
        if _chopped(tokens, words, table):
            trunk = None if any(token.kind == "PRON" for token in tokens) else "trunk"  # "it" may be a leader
            clause.work[-1] = replace(work, work=table["works"].get(work.work, work.work), spot=Spot(trunk))
            continue
        at = next((n for n, token in enumerate(tokens) if token.kind in ("AT", "OVER")), None)
        if at is None or work.spot.part not in table["parts"]:
            continue
        told = any(token.kind == "PART" and token.value == work.spot.part for token in tokens[:at])
        where = [token for token in tokens[at + 1 :] if token.kind == "PART"]
        if not told or not where or where[0].value not in table["branches"]:
            continue
        own = _said(tokens[:at])
        spot = replace(work.spot, **{name: getattr(work.spot, name) if name in own else None for name in _PLACE})
        clause.work[-1] = replace(work, work=table["works"][work.work], spot=spot)


def _chopped(tokens: Sequence[Token], words: Sequence[Word], table: Mapping[str, Any]) -> bool:
    """ "Chop the maple at the first branch": the tree and nothing of it, then where along the trunk."""
    kinds = [token.kind for token in tokens]
    verb = next((n for n, kind in enumerate(kinds) if kind in _VERBS), len(kinds))
    at = next((n for n, kind in enumerate(kinds) if kind in ("AT", "OVER") and n > verb), len(kinds))
    tree = [kind for kind in kinds[verb + 1 : at] if kind not in ("DET", "PARTICLE")]
    if at == len(kinds) or not tree or not set(tree) <= _TREES or tokens[verb].value not in table["chops"]:
        return False
    way = " ".join(word.text for word in words[tokens[at].first : tokens[at].end])
    where = [token.value for token in tokens[at + 1 :] if token.kind == "PART"]
    return way in table["ways"] and bool(where) and where[0] in table["branches"]


def _said(tokens: Sequence[Token]) -> set[str]:
    kinds = {"SIDE": "side", "LEVEL": "level", "ORD": "ordinal", "NUM": "count"}
    return {kinds[token.kind] for token in tokens if token.kind in kinds}
