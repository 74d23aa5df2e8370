"""What the grower must say yes to before anything is logged: guesses that could change it, words before the verb that
were not taken in, what he decided against himself, and an order that something stands against."""

from __future__ import annotations

from typing import TYPE_CHECKING

from benchmate.hearing.reading import Missed, Reading, Work
from benchmate.practice.advice import Ask
from benchmate.talk.asked.asked_how import phrase_places
from benchmate.talk.decide import LEFT_WORKS
from benchmate.talk.told.bare_orders import settled_orders
from benchmate.telling.heard import said_work_words
from benchmate.telling.lines import cut_short
from benchmate.telling.measures import millimetres
from benchmate.telling.wording import list_words, sentence

if TYPE_CHECKING:
    from benchmate.hearing import Ear, Lexicon
    from benchmate.hearing.vocabulary.words import Word
    from benchmate.talk.turns import Turn

# what is asked where a day is wanted
NO_DAY = Ask("when", "No reminder is kept yet: on which day? Say it whole, as in: remind me to feed it in three weeks.")
TO_COME = Ask("when", "That day is still to come, so nothing is logged: on which day was it done?")
_OPEN = "now"  # work that is told of as being done, or about to be
_HEIGHT, _SHRUNK = "height_mm", 0.4  # a height below this share of the last one is asked about
_STOPS = frozenset(".!?;...")  # what ends a sentence
_COMMAS = frozenset({",", ":"})


def settled(turn: Turn) -> bool:
    """Whether what is said may be logged; where not, the question stands in the turn."""
    return (
        settled_guesses(turn)
        and _settled_subjects(turn)
        and _settled_names(turn)
        and _settled_decisions(turn)
        and settled_orders(turn)
        and _settled_height(turn)
    )


def settled_guesses(turn: Turn) -> bool:
    """A guess that could change the species or the work is put to the grower before anything is logged."""
    grave = [guess for guess in turn.reading.guessed if guess.grave]
    if not grave or turn.confirmed:
        return True
    taken = " and ".join(f'"{guess.heard}" as "{guess.taken}"' for guess in grave)
    turn.confirm = f"Took {taken}. Is that right? Say yes or no."
    return False


def _settled_subjects(turn: Turn) -> bool:
    """Words that were not taken in and stand before the verb may tell whose work it was, or that it was none ("the
    manual insists remove it"): then nothing goes into the record as done before a yes."""
    if turn.confirmed or "decide" not in turn.acts:
        return True
    open_to = unread_before(turn.reading, turn.house.ear, turn.house.lexicon)
    if not open_to:
        return True
    words = list_words(list(dict.fromkeys(f'"{cut_short(missed.words, 60)}"' for _, missed in open_to)))
    units = turn.house.place.units
    works = list_words(list(dict.fromkeys(said_work_words(work, units, done=True) for work, _ in open_to)))
    turn.confirm = f"{words} was not taken in. Log it as your own work, {works}? Say yes or no."
    return False


def unread_before(reading: Reading, ear: Ear, lexicon: Lexicon) -> list[tuple[Work, Missed]]:
    """Works told as done, each with the words of its clause that stand before its verb and were not taken in.

    A comma does not part an imperative from them: "by the book, remove it" is still the book's.
    """
    works = [work for work in reading.work if work.work and work.done in (_OPEN, "done") and work.span != (0, 0)]
    # what a correction added has its places in other words
    missed = [one for one in reading.missed if reading.said[slice(*one.span)] == one.words]
    if not works or not missed:
        return []
    words = ear.words(reading.said)
    found = []
    for work in works:
        if work.work in LEFT_WORKS:  # nothing is taken off a tree by them
            continue
        for one in missed:
            between = [word for word in words if one.span[1] <= word.start and word.end <= work.span[0]]
            opens = not any(other.span[0] < one.span[0] for other in works)
            if one.span[1] <= work.span[0] and not _parted(between, lexicon, comma=work.done == "done" or not opens):
                found.append((work, one))
    return found


def _settled_names(turn: Turn) -> bool:
    """Words that were not taken in and stand where a tree's name would may be that of another one: then it is put down
    for the tree at hand only after a yes."""
    if turn.confirmed or turn.tree is None:
        return True
    from benchmate.talk.trees.near_names import may_be_another

    other = may_be_another(turn.reading, turn.house.ear.words(turn.reading.said), turn.house.lexicon)
    if other is None:
        return True
    lost = cut_short(other.words, 60)
    turn.confirm = f'"{lost}" was not taken in and may be another tree. Log it for {turn.tree.name}? Say yes or no.'
    return False


def _parted(between: list[Word], lexicon: Lexicon, *, comma: bool) -> bool:
    """Whether a new clause begins in these words. comma: whether a comma begins one."""
    texts = [word.text for word in between]
    if _STOPS & set(texts):
        return True
    found = {end - start == 1 and texts[start] in _COMMAS for start, end, _ in phrase_places(texts, "SEP", lexicon)}
    return False in found or (comma and True in found)


def _settled_decisions(turn: Turn) -> bool:
    """Work that the grower decided not to do before a day that is still to come is put to him first; where it is done
    already he is reminded."""
    from benchmate.talk.recorded.own_words import decided_against

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


def _settled_height(turn: Turn) -> bool:
    """A height far below the one that is known is rather the size of something else: it is put to the grower."""
    height = turn.reading.measures.get(_HEIGHT)
    if height is None or turn.tree is None or turn.confirmed or "observe" not in turn.acts or turn.reading.figure:
        return True
    seen = [one for one in turn.house.entries(turn.tree) if _HEIGHT in one.measures and one.day <= turn.on]
    newest = max(seen, key=lambda one: one.day, default=None)
    known = newest.measures[_HEIGHT] if newest else turn.tree.size.get(_HEIGHT)
    if known is None or height >= known * _SHRUNK:
        return True
    units = turn.house.place.units
    was, now = (millimetres(value, units) for value in (known, height))
    turn.confirm = f"The tree was {was} high. Is the whole of it {now} high now? Say yes or no."
    return False
