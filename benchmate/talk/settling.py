"""What the grower must say yes to before anything is logged: guesses that could change it, and what he decided against
himself."""

from __future__ import annotations

from typing import TYPE_CHECKING

from benchmate.telling.wording import sentence

if TYPE_CHECKING:
    from benchmate.talk.turns import Turn

_OPEN = "now"  # work that is told of as being done, or about to be


def settled(turn: Turn) -> bool:
    """Whether what is said may be logged; where not, the question stands in the turn."""
    return settled_guesses(turn) and _settled_decisions(turn)


def settled_guesses(turn: Turn) -> bool:
    """A guess that could change the species or the work is put to the grower before anything is logged."""
    grave = [guess for guess in turn.reading.guessed if guess.grave]
    if not grave or turn.confirmed:
        return True
    taken = " and ".join(f'"{guess.heard}" as "{guess.taken}"' for guess in grave)
    turn.confirm = f"Took {taken}. Is that right? Say yes or no."
    return False


def _settled_decisions(turn: Turn) -> bool:
    """Work that the grower decided not to do before a day that is still to come is put to him first; where it is done
    already he is reminded."""
    from benchmate.talk.own_words import decided_against

    if turn.tree is None or turn.confirmed or "decide" not in turn.acts:
        return True
    works = [work for work in turn.reading.work if work.work and work.done in (_OPEN, "done", "later")]
    told = decided_against(turn.house, turn.tree, works, turn.reading.when, turn.on)
    if not told:
        return True
    if turn.label or not turn.bench.talking or not any(work.done == _OPEN for work in works):
        turn.aside += [one.words for one in told[:1]]
        return True
    turn.confirm = f"{sentence(told[0].words)} Log it all the same? Say yes or no."
    return False
