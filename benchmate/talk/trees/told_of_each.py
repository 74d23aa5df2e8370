"""What is told of a statement about several trees: the answer for each, and what stands against work done on them."""

from __future__ import annotations

from collections.abc import Iterable
from typing import TYPE_CHECKING

from benchmate.garden.record import Tree
from benchmate.practice.advice import ASK, GO, Advice, Caution, Option
from benchmate.telling import lines as role
from benchmate.telling.headline import headline_of
from benchmate.telling.lines import Line
from benchmate.telling.options import blocks_first, verdict_words
from benchmate.telling.told import lessening
from benchmate.telling.wording import list_words, sentence, small

if TYPE_CHECKING:
    from benchmate.talk.turns import Turn


def answer_words(part: Turn) -> list[str]:
    """The answer for one tree: of a question of work its headline, else all of it."""
    told = list(part.says) if not part.reading.work else list(part.says[:1])
    told = told or [headline_of(part.answer()) or next((ask.says for ask in part.asks), "")]
    if not told[0]:
        return []
    head = told[0].removeprefix(f"{part.label}: ")
    return [sentence(f"{part.label}: {head}"), *told[1:]]


def decided_words(turn: Turn, parts: list[Turn]) -> list[str]:
    """What is to be said of work done on each: on which trees something stands against it, and what."""
    careful = [(part, option) for part in parts for option in _stands_against(part)[:1]]
    if not careful:
        trees = {part.tree.folder: part.tree for part in parts if part.tree}
        return [f"Nothing known stands against it on {names_words(trees.values())}"]
    names = list_words(list(dict.fromkeys(part.label for part, _ in careful)))
    rest = len({part.label for part in parts} - {part.label for part, _ in careful})
    others = "the other" if rest == 1 else f"the other {rest}"
    head = f"Careful on {names}" + (f"; nothing known stands against it on {others}" if rest else "")
    told: dict[str, list[str]] = {}
    for part, option in careful:
        asked = [ask.says for ask in part.advice.asks] if part.advice else []
        said = [reason.says for reason in blocks_first(option.against)] if option.verdict != ASK else asked
        words = (said or [verdict_words(option, turn.on)])[0]
        if not _is_done(part, option):  # of what is still to be done the day is told, of what is done what was wrong
            words = f"{verdict_words(option, turn.on)}" + (f": {small(said[0])}" if said else "")
        told.setdefault(sentence(words), []).append(part.label)
    for words, labels in told.items():
        turn.lines.append(Line(f"{list_words(list(dict.fromkeys(labels)))}: {small(words)}", role.REASON, "- ", 2))
    past = [option.work for part, option in careful if option.verdict != ASK and _is_done(part, option)]
    turn.lines += [Line(sentence(one), role.ASIDE, "What lessens it now: ") for one in lessening(past)]
    return [head]


def _is_done(part: Turn, option: Option) -> bool:
    """Whether the work that something stands against is done already."""
    return any(work.work == option.work and work.done == "done" for work in part.reading.work)


def _stands_against(part: Turn) -> list[Option]:
    decided = {work.work for work in part.reading.work if work.work}
    options = part.advice.options if part.advice else ()
    return [option for option in options if option.work in decided and option.verdict != GO]


def of_people(advices: Iterable[Advice | None]) -> tuple[Caution, ...]:
    """What protects people and what the law asks, each once: it is told whatever is left out."""
    told = [caution for advice in advices if advice for caution in advice.cautions if caution.kind in ("person", "law")]
    return tuple({caution.id: caution for caution in told}.values())


def names_words(trees: Iterable[Tree], last: str = "and") -> str:
    """The trees' names in a list."""
    return list_words([tree.name for tree in trees], last)
