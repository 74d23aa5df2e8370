"""Work told by what it was done to alone: "did the weak ones today", behind a question, a plan or work on others."""

from __future__ import annotations

from typing import TYPE_CHECKING

from benchmate.hearing.reading import NOWHERE, Missed, Reading, Spot
from benchmate.talk.corrected.amended import OTHER, moved, opposite
from benchmate.talk.decide import LEFT_WORKS
from benchmate.value import replace

if TYPE_CHECKING:
    from benchmate.talk.context import Context
    from benchmate.talk.corrected.amended import Short


def did_ones(short: Short, talk: Context) -> Reading | None:
    """The work spoken of last, done to what is named now; words that name no place of it stay with it as said. Where no
    one work was spoken of, a note of the words: it tells work, and asks nothing. None where it does not open so."""
    texts, sense = short.texts, short.lexicon.sense
    at = next((n for n, text in enumerate(texts) if text not in (*sense["openers"], "i", "just")), len(texts))
    if texts[at : at + 1] != ["did"] or "?" in texts or at + 2 >= len(texts):
        return None
    if short.heard.acts == ("decide",) and not short.heard.missed:  # "did the wiring last week" names its work
        return None
    ones = {*sense["pointers"], *sense["owners"], *sense["did_what"]}
    if texts[at + 1] not in ones or short.heard.tree or short.heard.several:
        return None
    rest = short.between(at + 1, len(texts)).strip(" .!,")
    fix = short.hear(f"{sense['refusals'][0]}, {rest}")
    if fix.acts != ("correct",) or len(fix.work) > 1 or any(work.work for work in fix.work):
        return None
    both = any(texts[at : at + len(one.split())] == one.split() for one in sense["did_both"])
    if both and not fix.work and OTHER not in fix.refers:  # "did both yesterday": both works
        return None
    last = talk.amends or talk.reading
    works = [work for work in last.work if work.work and work.work not in LEFT_WORKS] if last else []
    when = fix.when or short.heard.when
    if len({work.work for work in works}) != 1 or last is None or last.several:
        return Reading(short.said, ("note",), note=short.said)
    before = works[-1]
    place = fix.work[0].spot if fix.work else NOWHERE
    spot = moved(before.spot, place)
    if OTHER in fix.refers:
        spot = opposite(before.spot)
    elif place == NOWHERE:
        spot = Spot(before.spot.part)
    measures = dict(fix.work[0].measures) if fix.work else {}
    start = short.parts[at + 1].start
    unnamed = place == NOWHERE and OTHER not in fix.refers
    kept = (Missed(rest, (start, start + len(rest))),) if unnamed else ()
    done = replace(before, spot=spot, measures=measures, done="done", span=(0, 0))
    facts = tuple(replace(fact, span=(0, 0)) for fact in last.facts if fact.kind == "species")
    return Reading(short.said, ("decide",), work=(done,), facts=facts, tree=last.tree, when=when, kept=kept)
