"""The bench: statements in, answers out, the talk's context kept between them. It knows no screen."""

from __future__ import annotations

import datetime as dt
from collections.abc import Sequence

from benchmate.fault import UserError
from benchmate.garden.record import Entry, Tree
from benchmate.hearing.reading import Reading
from benchmate.talk.context import LOGGING, Context, Logged, Pending
from benchmate.talk.heard_in_talk import heard_in_talk
from benchmate.talk.house import House
from benchmate.talk.statement import check_days, check_measures, checked, yes_or_no
from benchmate.talk.trees.which_tree import named
from benchmate.talk.unread import unread_words
from benchmate.talk.waiting import of_another_tree, of_its_tree, settles
from benchmate.telling.answer import Answer
from benchmate.value import replace


class Bench:
    """One talk.

    house: the rules and the garden. on: the day that counts as today, or None for the clock's. tree: name of the tree
    at hand when it opens. dry: log nothing, show what would be. talking: whether statements follow one another here;
    a single statement from the command line has no talk behind it. plain: words in place of signs and bars.
    """

    def __init__(
        self,
        house: House,
        on: dt.date | None = None,
        *,
        tree: str | None = None,
        dry: bool = False,
        talking: bool = True,
        plain: bool = False,
    ) -> None:
        self.house = house
        self._on = on
        self.dry = dry
        self.talking = talking
        self.plain = plain
        self.context = Context()
        self.written: set[str] = set()  # ids of what this talk put into the record
        self.unread: set[str] = set()  # faults of the garden's files that were told
        self.unwritten: tuple[tuple[str, tuple[Entry, ...]], ...] = ()
        if tree is not None:
            self.turn_to(tree)

    @property
    def on(self) -> dt.date:
        """Today."""
        return self._on or dt.date.today()

    @property
    def here(self) -> Tree | None:
        """The tree at hand."""
        name = self.context.tree
        return named(self.house.trees(), name) if name else None

    def turn_to(self, name: str) -> Tree:
        """Take up another tree. What was said of the last one stays with it. Raises UserError for an unknown name."""
        if self.house.garden is None:
            raise UserError(f"no tree is called {name!r}: no garden is open; name one with --garden")
        tree = self.house.garden.find(name)
        if tree.name != self.context.tree:
            self.context = Context(tree=tree.name, told=self.context.told)
        return tree

    def answer(self, statement: str) -> Answer:
        """The answer to one statement; what it decides is logged first. Raises UserError for what cannot be said."""
        words, pending = checked(statement), self.context.pending
        if (first := self._hurt(words)) is not None:
            return first
        answer = self._known(words) or self.answer_to(words)
        if lacking := unread_words(self.house.garden, self.unread):
            answer = replace(answer, aside=(*answer.aside, *lacking))
        if pending is None or self.context.pending is pending:
            return answer
        return self._left_waiting(pending, answer)

    def _hurt(self, words: str) -> Answer | None:
        """The answer where somebody is hurt or a tree was poisoned: that first, then what else was told. What waits
        goes on waiting."""
        classes = self.house.lexicon.sense["hurt"]
        if {word.text for word in self.house.ear.words(words)}.isdisjoint(classes["signs"]):
            return None
        from benchmate.talk.asked.first_aid import first_aid

        return first_aid(self, words)

    def _known(self, words: str) -> Answer | None:
        """The answer to a question that rules/answers holds, with what else was told logged; None for any other."""
        from benchmate.talk.asked.known_answers import known_answer

        return known_answer(self, words)

    def _left_waiting(self, pending: Pending, answer: Answer) -> Answer:
        """The answer with what becomes of a statement that waited for the grower's word: something else said in between
        does not settle it."""
        said, still = pending.reading.said, pending.then
        if not settles(answer, pending):
            if pending.lasts:
                still = pending
            elif (not pending.offer and LOGGING & set(pending.reading.acts)) or "strike" in pending.reading.acts:
                done = "not taken back" if "strike" in pending.reading.acts else "not logged"
                answer = replace(answer, aside=(*answer.aside, f'{done}, since it was not answered: "{said}"'))
        if still is None:
            return answer
        now = self.context.pending
        self.context = replace(self.context, pending=replace(now, then=still) if now else still)
        waits = f'not logged yet, a yes or no is waited for: "{still.reading.said}"'
        return replace(answer, aside=(*answer.aside, waits))

    def answer_to(self, words: str) -> Answer:
        """The answer to words that may be said."""
        pending = self.context.pending
        reading = self._short_pick(words)
        if reading is None:
            if self.talking and (answer := self._of_the_talk(words)) is not None:
                return answer
            if (waiting := self._waiting(words)) is not None:
                return waiting
            if (naming := self._renamed(words) or self._offspring(words)) is not None:
                return self.carry(naming)
            if self.house.garden is not None and (anew := self._replanned(words) or self._added_to(words)) is not None:
                return self.carry(anew[0], gone=anew[1])
            reading = heard_in_talk(self, words)
            if pending and pending.lasts and reading.acts == ("strike",) and self.context.amends is pending.reading:
                return self._not_logged(words)  # "scratch that", said of what waits
        return self.carry(reading)

    def _not_logged(self, words: str) -> Answer:
        return Answer(Reading(words), self.on, self.context.tree, says=("Nothing was logged",))

    def _called(self, words: str, offered: Reading) -> Reading | None:
        """The record that is offered, under the name that these words give it, or None."""
        from benchmate.talk.trees.offspring import named_in_answer

        return named_in_answer(self, words, offered)

    def _offspring(self, words: str) -> Reading | None:
        """The reading of words that tell of young plants taken from a tree, or None."""
        signs = {sign.split()[-1] for says in self.house.lexicon.sense["offspring"]["young"].values() for sign in says}
        if self.house.garden is None or not signs & set(self.house.lexicon.split(words)):
            return None
        from benchmate.talk.trees.offspring import offspring_told

        return offspring_told(self, words)

    def _renamed(self, words: str) -> Reading | None:
        """The reading of words that give a tree another name, or None."""
        if self.house.garden is None or not {*self.house.lexicon.sense["renaming"]["any"]} & {
            *words.casefold().split()
        }:
            return None
        from benchmate.talk.trees.renaming import renamed

        return renamed(self, words)

    def _replanned(self, words: str) -> tuple[Reading, Logged] | None:
        """What is left or planned anew by words that drop or move a plan, with the plans that they take back."""
        if not set(words.casefold().split()) & set(self.house.lexicon.sense["replan"]["any"]):
            return None
        from benchmate.talk.corrected.replanned import replanned

        return replanned(self, words)

    def _added_to(self, words: str) -> tuple[Reading, Logged] | None:
        """The statement before with what these words add to it, and what it had put down."""
        from benchmate.talk.corrected.added_to import added_to, joins_potting
        from benchmate.talk.corrected.correct import put_right_before, word_put_right

        joined = joins_potting(self, words) or put_right_before(self, words) or word_put_right(self, words)
        return added_to(self, words) if joined is None and self.talking and self.context.made else joined

    def carry(self, reading: Reading, *, confirmed: bool = False, gone: Logged = ()) -> Answer:
        """The answer to a reading. confirmed: the grower has said yes to it. gone: what it takes back."""
        from benchmate.talk.turns import carry_out

        try:
            check_days(reading, self.house.lexicon.dates["month"])
            check_measures(reading, self.house.length_units)
        except UserError:
            self._turn_with(reading)  # the tree that was named is at hand, though its measure cannot be
            raise
        answer, self.context = carry_out(self, reading, confirmed, gone)
        if reading.missed and not self.dry:
            self.house.keep_missed(reading, self.on)
        return answer

    def _turn_with(self, reading: Reading) -> None:
        """Take up the tree that a refused statement names."""
        from benchmate.talk.trees.which_tree import meant_tree

        tree = meant_tree(reading, self.house.trees(), self.here).tree if reading.several is None else None
        if self.talking and tree is not None:
            self.turn_to(tree.name)

    def log(self, tree: Tree, entries: Sequence[Entry]) -> tuple[Entry, ...]:
        """Entries into the tree's journal, with their ids; on the disk when this returns. A dry talk writes nothing.

        Raises NotLogged where they could not be written.
        """
        if self.dry or self.house.garden is None:
            return tuple(entries)
        written = tuple(self.house.garden.append_all(tree, entries))
        self.written.update(entry.id for entry in written)
        return written

    def _of_the_talk(self, words: str) -> Answer | None:
        """The answer to words for the talk itself ("more"), or None."""
        from benchmate.talk.spoken import spoken_command

        command = spoken_command(words)
        return command(self, words) if command else None

    def _short_pick(self, words: str) -> Reading | None:
        """A bare number takes one of the options on offer, and is nothing else where there are none."""
        if words.isdecimal() and len(words) < 3 and not self.context.figure_asks:
            return Reading(words, ("pick",), pick=int(words))
        return None

    def _waiting(self, words: str) -> Answer | None:
        """What waits for a yes or for a tree's name: let through, dropped, or left where the words say neither."""
        pending = self.context.pending
        if pending is None:
            return None
        said = yes_or_no(words)
        if pending.lapses and " ".join(self.house.lexicon.split(words)).strip(" .!") in self.house.lexicon.sense["did"]:
            said = True  # "done" to the question whether it was
        self.context = replace(self.context, pending=None)
        if pending.wants == "tree":
            from benchmate.talk.trees.many import settled_with
            from benchmate.talk.trees.plurals import of_all_asked

            trees = self.house.trees()
            tree = named(trees, words.strip(" .!"))
            if tree is None and (every := of_all_asked(words, pending.reading, self.context.those, self.house)):
                return self.carry(every, confirmed=not (every.several and every.several.every))
            settled = settled_with(pending.reading, tree, trees, self.here) if tree else None
            if settled is None:
                return None
            return self.carry(settled, confirmed=not (settled.several and settled.several.every))
        if (moved := of_another_tree(pending, words, self.house.trees(), self.house.lexicon)) is not None:
            return self.carry(moved, gone=pending.takes_back)
        if pending.offer and (called := self._called(words, pending.reading)) is not None:
            return self.carry(called, confirmed=True)
        if said is True:
            return self.carry(of_its_tree(pending, self.context.tree), confirmed=True, gone=pending.takes_back)
        if said is False:
            if pending.offer:
                return Answer(Reading(words), self.on, self.context.tree, says=("No record is begun",))
            if "strike" not in pending.reading.acts:
                return self._not_logged(words)
            return Answer(Reading(words), self.on, self.context.tree, says=("Nothing was taken back",))
        return None
