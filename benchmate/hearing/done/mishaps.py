"""What went wrong by accident, told with a verb: no work of the grower."""

from __future__ import annotations

from collections.abc import Sequence

from benchmate.value import replace

from ..clauses import Clause, Setting, take_date
from ..lattice.spotting import Token
from ..reading import Fact, Spot
from ..seen.phrases import Phrase
from ..seen.saying import species_fact, without_named
from ..vocabulary.lexicon import Lexicon
from ..vocabulary.words import Word
from .doing import NOT
from .worked_on import (
    work_spot,
)


def said_of(setting: Setting, verb: Token, particles: Sequence[str], parts: Sequence[str]) -> bool:
    """Whether the verb is work with just these words: "broke the candles", "snapped off the stub"."""
    patterns = setting.lexicon.patterns
    keys = [f"{verb.value}|{particle}|{part}|" for particle in (*particles, "") for part in (*parts, "")]
    return any(key in patterns for key in keys if key != f"{verb.value}|||")


def went_wrong(
    setting: Setting,
    clause: Clause,
    finding: str,
    thing: Phrase,
    phrases: Sequence[tuple[Token | None, Phrase]],
    posts: Sequence[Token],
) -> None:
    """ "snapped the back branch by accident": what happened to the tree, and no work."""
    spot = work_spot(setting, "", thing, phrases)
    if thing.pronoun and not thing.parts:
        spot = _same_harm(setting, spot)
    clause.harmed = True
    clause.facts.append(Fact("finding", finding, without_named(finding, spot, setting.lexicon), span=thing.span))
    for _, phrase in phrases:
        clause.facts += [species_fact(token) for token in phrase.species]
        clause.tree = clause.tree or phrase.name
    for post in posts:
        if post.kind == "DATE":
            take_date(setting, clause, post, past=True, drop_now=True)
    clause.acts, clause.kind = ["observe"], "observe"


def _same_harm(setting: Setting, spot: Spot) -> Spot:
    """ "Lost its first branch, I broke it": what was lost was broken, and is told once."""
    before = setting.before[-1] if setting.before else None
    if before is None or not before.harmed or not before.facts or before.facts[-1].kind != "finding":
        return spot
    return before.facts.pop().spot


def broke_at_work(clauses: Sequence[Clause], words: Sequence[Word], lexicon: Lexicon) -> None:
    """ "Bent the left branch and it cracked but did not come off": the crack is where the work was, and that the branch
    still holds is no decision of the grower's."""
    bent: Spot | None = None
    cracked = False
    for clause in clauses:
        shaped = [work for work in clause.work if lexicon.works.get(work.work or "", {}).get("group") == "shaping"]
        broken = [fact for fact in clause.facts if fact.value == lexicon.sense["cracks"]["finding"] and not fact.denied]
        first, end = clause.span
        said = f" {' '.join(word.text for word in words[first:end])} "
        kept = bool(clause.work) and all(work.done == NOT for work in clause.work)
        if cracked and kept and any(f" {way} " in said for way in lexicon.sense["cracks"]["holds"]):
            clause.work, clause.acts, clause.taken = [], [], True
        if bent is not None and any(fact.spot == Spot() for fact in broken):
            clause.facts = [
                replace(fact, spot=bent) if fact in broken and fact.spot == Spot() else fact for fact in clause.facts
            ]
        cracked = cracked or bool(broken)
        bent = next((work.spot for work in shaped if work.spot != Spot()), bent)
