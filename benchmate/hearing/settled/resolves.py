"""What is meant to go on otherwise from now on: "water it less" is no watering that was done."""

from __future__ import annotations

from collections.abc import Sequence

from benchmate.value import replace

from ..clauses import Clause
from ..done.doing import LATER, NOW
from ..lattice.search import Found
from ..vocabulary.lexicon import Lexicon
from ..vocabulary.words import Word


def resolved(clauses: Sequence[Clause], found: Found, words: Sequence[Word], lexicon: Lexicon) -> Found:
    """ "Water the pine less", "feed it more often from now on": care told with how much of it there is to be is a
    resolve. It is kept in the grower's words, and nothing is done by it. What comes out has those words as used."""
    marks = list(found.marks)
    measures = lexicon.sense["how_much_care"]
    for at, clause in enumerate(clauses):
        care = clause.work and all(lexicon.works.get(one.work or "", {}).get("group") == "care" for one in clause.work)
        meant = all(one.done in (NOW, LATER) for one in clause.work)
        if clause.kind != "decide" or clause.topic or not care or not meant or clause.every:
            continue
        end = clauses[at + 1].span[0] if at + 1 < len(clauses) else len(words)
        places = [n for n in range(clause.span[0], end) if words[n].text in measures and marks[n] != "used"]
        if not places or words[places[-1] - 1].text in lexicon.sense["than_that"]:
            continue  # "more or less a litre"
        said = places[-1] + 1
        if said < end and words[said].text in lexicon.sense["than_that"]:
            continue  # "less than a litre" is an amount
        clause.work, clause.acts, clause.kind = [], ["note"], "note"
        for place in places:
            marks[place] = "used"
        if said < end and words[said].text in lexicon.sense["how_often"]:
            marks[said] = "used"
    return replace(found, marks=tuple(marks))
