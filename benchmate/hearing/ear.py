"""Hearing a statement: the steps in order, and the account of every word."""

from __future__ import annotations

import datetime as dt
from collections.abc import Mapping, Sequence
from functools import partial
from itertools import pairwise
from typing import Any

from benchmate.value import replace

from .amounts.dates import DateWords
from .asked.asked_tail import tails_in_vain
from .asked.kind_asked import asked_of_kind
from .assembling import assemble
from .clauses import Clause, Setting
from .done.only_spoilt import only_the_spoilt
from .figures.figured import NOTHING, with_figure
from .joining import join
from .kept_words import reminder_words, with_ratio
from .lattice.automaton import Automaton
from .lattice.circumstances import with_circumstances
from .lattice.opening import STOPS
from .lattice.owners import unsaid_owner
from .lattice.search import Found, find_reading
from .lattice.spotting import Spotter, Token
from .lending import lent_by, not_lent
from .passed_over import missed_words
from .reading import Fact, Guess, Missed, Reading, Work
from .settled.not_so import foretold_words, says_of_trees
from .settled.places_first import unsaid_break
from .settled.wished import wished
from .settling import settle
from .trees.several import several_of
from .vocabulary.lexicon import Lexicon
from .vocabulary.run_together import taken_apart
from .vocabulary.words import Word, split_words

BREAKS = STOPS | {","}
LONGEST = 2_000  # characters; more than anybody says in one breath


class Ear:
    """Hears statements with one lexicon and one grammar table. Make it once; `hear` is pure."""

    def __init__(self, lexicon: Lexicon, grammar: Mapping[str, Any]) -> None:
        self.lexicon = lexicon
        self.automaton = Automaton(grammar)
        self.spotter = Spotter(lexicon)

    def hear(
        self,
        text: str,
        on: dt.date,
        southern: bool = False,
        names: Sequence[str] = (),
        first_frost: str | None = None,
        last: Reading | None = None,
    ) -> Reading:
        """The reading of one statement.

        on: today. southern: seasons of the southern hemisphere. names: the garden's trees by name. first_frost: ISO
        date for "before first frost", if the place has one. last: what was said before, of which "it" and "them" may
        speak. Any text gives a reading; words that no sentence of the
        grammar takes in are in `missed`.
        """

        def hear(words: str) -> Reading:
            return self._hear(words, on, southern, names, first_frost, last)

        reading = hear(text)
        if reading.work or reading.missed:
            from .trees.of_trees import may_be_parted, of_trees

            texts = self.words(text)
            if may_be_parted(reading, texts, self.lexicon):  # what words may be is dear to find
                again = of_trees(reading, texts, self._lattice(text, texts, on, southern, names), hear, self.lexicon)
                if again is not reading:
                    return again
        named = bool(reading.tree) or any(fact.kind == "species" for fact in reading.facts)
        joined = named and " and " in text and bool(reading.work)
        apart = not reading.several.shared if reading.several is not None else joined
        listed = self._listed(text, on, southern, names) if reading.missed or apart else []
        if not listed and (reading.several is None or not reading.several.pieces):
            return reading
        from .trees.each_tree import each_read, with_lists

        whole = self._of_all(text, on, southern, names, listed) if apart else []
        reading = with_lists(reading, listed, hear, whole)

        each = partial(self.hear, on=on, southern=southern, names=names, first_frost=first_frost, last=last)
        return each_read(reading, each, on.isoformat())

    def _listed(self, text: str, on: dt.date, southern: bool, names: Sequence[str]) -> list[tuple[Token, ...]]:
        """Trees that are named one behind the other with nothing but "and" between them, each list of two or more."""
        from .trees.each_tree import lists_of

        words = self.words(text)
        return lists_of(words, self._lattice(text, words, on, southern, names)) if words else []

    def _of_all(
        self, text: str, on: dt.date, southern: bool, names: Sequence[str], listed: Sequence[tuple[Token, ...]]
    ) -> list[tuple[Token, ...]]:
        """The lists that what follows them is said of as a whole."""
        from .trees.each_tree import of_all_listed

        words = self.words(text)
        return of_all_listed(words, self._lattice(text, words, on, southern, names), listed)

    def _hear(
        self,
        text: str,
        on: dt.date,
        southern: bool,
        names: Sequence[str],
        first_frost: str | None,
        last: Reading | None,
    ) -> Reading:
        """The reading of one statement, as it stands."""
        words = self.words(text)
        beyond = (Missed(text[LONGEST:].strip(), (LONGEST, len(text))),) if text[LONGEST:].strip() else ()
        if not words:
            return Reading(text, missed=beyond)
        dates = DateWords(self.lexicon.dates, self.spotter.values, on, southern)
        lattice = self.spotter.spot(text, words, dates, names)
        if (owner := unsaid_owner(words, lattice)) is not None:  # "on the juniper right branch"
            end = words[owner - 1].end
            words = [*words[:owner], Word("'s", end, end), *words[owner:]]
            lattice = self.spotter.spot(text, words, dates, names)
        if (pause := unsaid_break(words, lattice)) is not None:  # "on the right the wire is biting"
            end = words[pause - 1].end
            words = [*words[:pause], Word(",", end, end), *words[pause:]]
            lattice = self.spotter.spot(text, words, dates, names)
        found = self._through(words, lattice)
        lent = lent_by(last, self.lexicon)

        def clauses_of(found: Found) -> list[Clause]:
            tree = self.automaton.tree([(token.kind, token) for token in found.tokens])
            return assemble(tree, Setting(self.lexicon, on.isoformat(), first_frost, len(words), lent=lent))

        clauses = clauses_of(found)
        if vain := tails_in_vain(clauses, found):
            for token in vain:
                lattice[token.first] = [one for one in lattice[token.first] if one.value != token.value]
            found = self._through(words, lattice)
            clauses = clauses_of(found)
        found, foretold = settle(clauses, found, words, self.lexicon, on.isoformat())
        reading = _with_places(join(text, clauses, self.lexicon, on.isoformat()), words)
        reason = _reason(text, words, clauses)
        filler = self.lexicon.filler
        if not reading.acts and reading.when and not reading.tree:  # a day alone says nothing
            clauses = [replace(clause, idle=[*clause.idle, *_tokens_of(found, clause)]) for clause in clauses]
        missed = missed_words(text, words, found, clauses, NOTHING, filler)
        lost = (
            frozenset(
                n for n, word in enumerate(words) if any(one.span[0] <= word.start < one.span[1] for one in missed)
            )
            - foretold
        )
        taken = NOTHING
        if lost or not any(token.kind == "AGAIN" for token in found.tokens):  # "do the same on the right" asks nothing
            reading, taken = with_figure(reading, words, lost, self.spotter, lattice, dates)
        if taken:
            missed = missed_words(text, words, found, clauses, taken, filler)
        if reading.topic == "figure" and all(fact.kind == "species" for fact in reading.facts):
            reading = replace(reading, acts=tuple(act for act in reading.acts if act != "observe"))
        if not (reading.acts or reading.tree or reading.when or missed or reading.pick):  # nothing came of it at all
            missed = (Missed(text.strip(), (0, len(text))),)
        missed = not_lent(missed, reading.work, self.lexicon)
        several = several_of(reading, clauses, found, words, self.lexicon)
        kept = self._kept(text, words, found, missed, bool(reading.work)) if not reading.figure else ()
        missed = tuple(one for one in missed if not any(_inside(one, whole) for whole in kept)) + beyond
        reading = replace(reading, several=several, reason=reason, missed=missed, guessed=_guessed(found), kept=kept)
        unheard = not (reading.acts or reading.work or reading.facts or reading.figure or reading.pick)
        unheard = unheard and says_of_trees(lattice)
        told = foretold_words(text, words, foretold, self.lexicon, unheard=unheard)
        reading = replace(reading, foretold=told)
        reading = only_the_spoilt(reminder_words(reading, words, found), self.lexicon)
        reading = with_circumstances(reading, words, self.lexicon)
        return asked_of_kind(wished(reading, words, self.lexicon), words, lattice, self.lexicon)

    def _kept(
        self, text: str, words: Sequence[Word], found: Found, missed: Sequence[Missed], worked: bool
    ) -> tuple[Missed, ...]:
        """Stuff that helped to tell the work and that what was heard does not name ("fed it seaweed"), and what was
        seen that no finding names ("vine weevil")."""
        out = []
        for token in found.tokens:
            stuff = token.kind in ("PART", "MEANS") and not token.guesses
            said = " ".join(w.text for w in words[token.first : token.end])
            named = worked and said in self.lexicon.sense["stuff"]
            if stuff and (named or token.value in self.lexicon.sense["circumstances"]):
                span = (words[token.first].start, words[token.end - 1].end)
                out.append(Missed(text[span[0] : span[1]], span))
        return with_ratio(text, words, missed, out, self.lexicon)

    def trees_named(self, text: str, on: dt.date, names: Sequence[str] = ()) -> tuple[Fact, ...]:
        """The trees that a text names, however the rest of it reads: taxa as facts of kind species, names of the garden
        as facts of kind name, in the order said. on: today. names: the garden's trees by name."""
        words = self.words(text)
        out: list[Fact] = []
        past = 0
        for at, tokens in enumerate(self._lattice(text, words, on, False, names) if words else ()):
            sure = [one for one in tokens if one.kind in ("SPECIES", "NAME") and not one.guesses]
            if at >= past and sure:
                best = max(sure, key=lambda token: (token.end, token.kind == "NAME"))
                past = best.end
                out.append(Fact(best.kind.lower(), best.value, span=(words[at].start, words[past - 1].end)))
        return tuple(out)

    def words(self, text: str) -> list[Word]:
        """The words of a statement, with words that were run together taken apart."""
        return taken_apart(text, split_words(text[:LONGEST], self.lexicon.short, self.lexicon.bare), self.lexicon)

    def find(
        self, text: str, words: Sequence[Word], on: dt.date, southern: bool = False, names: Sequence[str] = ()
    ) -> Found:
        """The best way through the words, with the mark of each: used, filler, guessed or missed."""
        return self._through(words, self._lattice(text, words, on, southern, names))

    def _through(self, words: Sequence[Word], lattice: list[list[Token]]) -> Found:
        """The best way through a lattice, without denials that have lost what they deny."""
        found = find_reading(words, lattice, self.automaton, self.lexicon)
        if loose := _loose_denials(found, words):
            for token in loose:
                lattice[token.first] = [one for one in lattice[token.first] if one != token]
            found = find_reading(words, lattice, self.automaton, self.lexicon)
        return found

    def _lattice(
        self, text: str, words: Sequence[Word], on: dt.date, southern: bool, names: Sequence[str]
    ) -> list[list[Token]]:
        """What each word may be."""
        return self.spotter.spot(text, words, DateWords(self.lexicon.dates, self.spotter.values, on, southern), names)


_REASON_ENDS = frozenset({",", ";", ".", "?", "!", ":", "and", "but", "so", "then"})


def _reason(text: str, words: Sequence[Word], clauses: Sequence[Clause]) -> str | None:
    """The words after "because", as said."""
    for clause in clauses:
        purpose = clause.topic is not None and clause.because_at in range(*clause.span)  # "may I cut it to thicken it"
        if clause.because_at is not None and clause.span[1] > clause.span[0] and not purpose:
            end = clause.span[1]
            while end < len(words) and words[end].text not in _REASON_ENDS:
                end += 1  # what was not understood of it belongs to it
            return text[words[clause.because_at].end : words[end - 1].end].strip()
    return None


def _inside(one: Missed, whole: Missed) -> bool:
    """Whether missed words are kept as said."""
    return whole.span[0] <= one.span[0] and one.span[1] <= whole.span[1]


def _tokens_of(found: Found, clause: Clause) -> list[Token]:
    """The tokens that a clause was made of."""
    first, end = clause.span
    return [token for token in found.tokens if first <= token.first < end]


def _guessed(found: Found) -> tuple[Guess, ...]:
    out: dict[tuple[int, int], Guess] = {}
    for token in found.tokens:
        for guess in token.guesses:
            out.setdefault(guess.span, guess)
    return tuple(out.values())


def _loose_denials(found: Found, words: Sequence[Word]) -> list[Token]:
    """Denials whose own word was not understood, so that they would deny what stands in the next clause: "no label on
    it, can I cut it back". The word is then told as missed."""
    loose = []
    for token, after in pairwise(found.tokens):
        if token.kind == "AUX" and token.value == "not" and token.end < after.first:
            between = [word.text for word in words[token.end : after.first]]
            if between[0] not in BREAKS and BREAKS & set(between):
                loose.append(token)
    return loose


def _with_places(reading: Reading, words: Sequence[Word]) -> Reading:
    """Spans of word numbers turned into spans of characters in the text as said."""

    def place(thing: Any) -> Any:
        first, end = thing.span
        if end <= first or end > len(words):
            return thing
        return replace(thing, span=(words[first].start, words[end - 1].end))

    facts: tuple[Fact, ...] = tuple(place(f) for f in reading.facts)
    work: tuple[Work, ...] = tuple(place(w) for w in reading.work)
    return replace(reading, facts=facts, work=work)
