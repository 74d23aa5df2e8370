"""From words to a lattice: everything each stretch of words may be, and what each choice costs.

Costs order the choices; they are no probabilities. A term of many words costs as much as one of one word, so longer
terms win; a guess costs more than any exact word; what no choice takes in is missed, at the highest cost.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from typing import Any

from benchmate.value import dataclass

from ..amounts.dates import DateWords, spot_dates
from ..amounts.values import ValueWords
from ..reading import Guess
from ..vocabulary.lexicon import CHOICE, END, Lexicon, Trie
from ..vocabulary.slips import Slips
from ..vocabulary.words import Word
from .neighbours import drop_false_senses
from .opening import asks_what_to_call, end_of_term, stands_there, tells

TERM, SEPARATOR, NAMED = 1.0, 0.5, 0.8
HELPER = 0.3  # a part that only helps to tell the work yields to the verb of the same word
BACK = 1.2  # "cut it back in spring": rather the verb's than the date's
HARMING = 0.3  # "two snapped twigs" are seen; "the wind snapped two twigs" tells what did it
SAME = 0.1  # "'s" for "is" or "has"
JOINED, HEARD, SLIP, SLIP_PER_EDIT, SLIP_PER_RANK = 3.0, 5.0, 8.0, 4.0, 0.5
WORDS_START, WORDS_EACH = 5.0, 2.0
# Types whose guess could change the species or the work.
GRAVE = frozenset({"SPECIES", "V", "VED", "VING", "EVENT", "NAME"})
_SHORTENED = {"'s": ("is", "has")}


@dataclass(frozen=True, slots=True)
class Token:
    """A term in its place: words [first, end) taken as `kind` with `value`. heard: guesses it rests on."""

    kind: str
    value: Any
    first: int
    end: int
    cost: float
    guesses: tuple[Guess, ...] = ()


@dataclass(frozen=True, slots=True)
class _Alternative:
    word: str
    end: int
    cost: float
    guess: Guess | None = None


_Choice = tuple[int, float, tuple[Guess, ...]]  # end, cost and guesses of one choice of a set
_Chosen = dict[tuple[str, int], list[_Choice]]  # those of a set that begin at a word


class Spotter:
    """Spots terms of a lexicon. Holds what depends on the lexicon alone, so that it is made once a talk."""

    def __init__(self, lexicon: Lexicon) -> None:
        self.lexicon = lexicon
        self.values = ValueWords(lexicon.numbers, lexicon.dates)
        self.slips = Slips(lexicon)
        self.figures: Any = None  # the words of figure questions, once they are needed
        # parts that tell one work from another ("cut the candles off"): a guess at them is a guess at the work
        self._telling = frozenset(key.split("|")[2] for key in lexicon.patterns) - {""}
        self._firsts: dict[int, dict[str, list[str]]] = {}
        self._names: tuple[str, ...] = ()
        self._by_first: dict[str, list[tuple[tuple[str, ...], str]]] = {}

    def spot(self, text: str, words: Sequence[Word], dates: DateWords, names: Sequence[str] = ()) -> list[list[Token]]:
        """For each word, the tokens that begin there. names: names of trees in the garden, as written."""
        lattice: list[list[Token]] = [[] for _ in words]
        alternatives = [list(self._alternatives(words, at)) for at in range(len(words))]
        by_name = self._names_by_first_word(tuple(names))
        chosen: _Chosen = {}
        readings = [self._likeliest(options) for options in alternatives]
        variants = [[options[min(choice, len(options) - 1)] for options in readings] for choice in (0, 1)]
        if variants[0] == variants[1]:
            variants.pop()
        spelt_so = [[option.word for option in variant] for variant in variants]
        for at in range(len(words)):
            found: dict[tuple[str, str, int], Token] = {}
            for token in self._terms(alternatives, at, chosen):
                key = (token.kind, str(token.value), token.end)
                if key not in found or token.cost < found[key].cost:
                    found[key] = token
            lattice[at] += found.values()
            for variant, spelt in zip(variants, spelt_so, strict=True):
                for token in self._worth(spelt, dates, at):
                    rests_on = tuple(o.guess for o in variant[at : token.end] if o.guess is not None)
                    lattice[at].append(
                        Token(token.kind, token.value, at, token.end, token.cost + SLIP * len(rests_on), rests_on)
                    )
            for called, name in by_name.get(words[at].text, ()):
                if tuple(w.text for w in words[at : at + len(called)]) == called:
                    lattice[at].append(Token("NAME", name, at, at + len(called), NAMED))
        drop_false_senses(self.lexicon, lattice, words)
        self._add_open_ends(text, words, lattice)
        return lattice

    def _names_by_first_word(self, names: tuple[str, ...]) -> dict[str, list[tuple[tuple[str, ...], str]]]:
        """Names of trees, split, by first word. Kept until a tree comes or goes: a garden may have a thousand."""
        if names != self._names:
            by_words = {tuple(self.lexicon.split(name)): name for name in names}
            for spelt, name in tuple(by_words.items()):  # "mudlarks trunk", typed without its apostrophe
                owned = spelt[-1] + "s" if spelt else ""
                if owned and not owned.endswith("ss") and owned not in self.lexicon.known:
                    by_words.setdefault((*spelt[:-1], owned), name)
            self._by_first = {}
            for spelt, name in by_words.items():
                self._by_first.setdefault(spelt[0] if spelt else "", []).append((spelt, name))
            self._names = names
        return self._by_first

    # -- alternatives: what a heard word may have been

    def _alternatives(self, words: Sequence[Word], at: int) -> Iterator[_Alternative]:
        word = words[at]
        yield _Alternative(word.text, at + 1, 0.0)
        for full in _SHORTENED.get(word.text, ()):
            yield _Alternative(full, at + 1, SAME)
        if at + 1 < len(words):
            joined = word.text + words[at + 1].text
            heard, span = f"{word.text} {words[at + 1].text}", (word.start, words[at + 1].end)
            whole = word.text not in self.lexicon.little and len(word.text) > 2 and len(words[at + 1].text) > 2
            if len(joined) >= 6 and joined.isalpha() and joined in self.lexicon.known:
                yield _Alternative(joined, at + 2, JOINED, Guess(heard, joined, 0.95, span))
            elif whole and (word.text not in self.lexicon.known or words[at + 1].text not in self.lexicon.known):
                for meant, edits in self.slips(joined)[:1]:
                    yield _Alternative(
                        meant, at + 2, SLIP + SLIP_PER_EDIT * edits, Guess(heard, meant, 1 - edits / len(joined), span)
                    )
        for meant in self.lexicon.heard.get(word.text, ()):
            yield _Alternative(meant, at + 1, HEARD, Guess(word.text, meant, 0.8, (word.start, word.end)))
        for rank, (meant, edits) in enumerate(self.slips(word.text)):
            likeness = 1 - edits / max(len(meant), len(word.text))
            yield _Alternative(
                meant,
                at + 1,
                SLIP + SLIP_PER_EDIT * edits + SLIP_PER_RANK * rank,
                Guess(word.text, meant, likeness, (word.start, word.end)),
            )

    def _likeliest(self, options: Sequence[_Alternative]) -> list[_Alternative]:
        """The one or two best words here, for numbers and dates."""
        first = options[0]
        if first.word in self.lexicon.known or first.word[0].isdigit():
            return [first]
        single = sorted((o for o in options[1:] if o.end == first.end), key=lambda o: o.cost)
        return single[:2] or [first]

    # -- terms, numbers and dates

    def _terms(self, alternatives: Sequence[Sequence[_Alternative]], at: int, chosen: _Chosen) -> Iterator[Token]:
        rare, last = self.lexicon.rare, len(alternatives)
        texts = [options[0].word for options in alternatives]
        stack: list[tuple[Trie, int, float, tuple[Guess, ...], tuple[str, ...]]] = [
            (self.lexicon.trie, at, 0.0, (), ())
        ]
        while stack:
            node, place, cost, guesses, said = stack.pop()
            for kind, value in node.get(END, ()):
                sense = f"{' '.join(said)} {kind}"
                if not stands_there(self.lexicon, f"{' '.join(texts[at:place])} {kind}", texts, at, place):
                    continue
                price = (SEPARATOR if kind == "SEP" else TERM) + rare.get(sense, 0.0)
                if kind == "PART" and value.startswith("~"):
                    price += HELPER
                elif kind == "HARM":
                    price += HARMING
                yield Token(kind, value, at, place, cost + price, self._marked(guesses, kind, value))
            options = alternatives[place] if place < last else ()
            for option in options:
                inner = node.get(option.word)
                if inner is not None:
                    more = (*guesses, option.guess) if option.guess else guesses
                    stack.append((inner, option.end, cost + option.cost, more, (*said, option.word)))
            firsts = self._firsts.get(id(node))
            for key in self._choices_at(node, options) if firsts is None or firsts else ():
                if (key, place) not in chosen:
                    chosen[key, place] = list(self._choose(key, alternatives, place))
                for end, price, heard in chosen[key, place]:
                    stack.append((node[key], end, cost + price, (*guesses, *heard), (*said, key)))

    def _marked(self, guesses: tuple[Guess, ...], kind: str, value: Any) -> tuple[Guess, ...]:
        """Guesses with whether they could change the species or the work."""
        grave = kind in GRAVE or (kind == "PART" and value in self._telling)
        return tuple(Guess(g.heard, g.taken, g.likeness, g.span, grave) for g in guesses)

    def _choices_at(self, node: Trie, options: Sequence[_Alternative]) -> set[str]:
        """The sets of choices that a node leads into and that may go on with one of these words, or with none."""
        firsts = self._firsts.get(id(node))
        if firsts is None:
            firsts = self._firsts[id(node)] = {}
            for key in node:
                if key.startswith(CHOICE):
                    for word in self._begin(node, key):
                        firsts.setdefault(word, []).append(key)
        keys = set(firsts.get(END, ()))
        for option in options:
            keys.update(firsts.get(option.word, ()))
        return keys

    def _begin(self, node: Trie, key: str) -> set[str]:
        """The words that may begin a step into a set of choices; where nothing may be chosen, those behind it too. END:
        a term may be over there."""
        words = set(self.lexicon.choices[key])
        if END in words:
            words.remove(END)
            for after in node[key]:
                words |= self._begin(node[key], after) if after.startswith(CHOICE) else {after}
        return words

    def _choose(self, key: str, alternatives: Sequence[Sequence[_Alternative]], at: int) -> Iterator[_Choice]:
        """Every choice of a set that stands at `at`; an empty choice ends where it begins."""
        stack: list[tuple[Trie, int, float, tuple[Guess, ...]]] = [(self.lexicon.choices[key], at, 0.0, ())]
        while stack:
            node, place, cost, guesses = stack.pop()
            if END in node:
                yield place, cost, guesses
            if place < len(alternatives):
                for option in alternatives[place]:
                    inner = node.get(option.word)
                    if inner is not None:
                        more = (*guesses, option.guess) if option.guess else guesses
                        stack.append((inner, option.end, cost + option.cost, more))

    def _worth(self, words: Sequence[str], dates: DateWords, at: int) -> Iterator[Token]:
        for value in dates.values_at(words, at):
            carried: Any = value if value.kind in ("MEASURE", "NPK") else value.number
            yield Token(value.kind, carried, at, value.end, TERM)
        for when in spot_dates(dates, words, at):
            yield Token("DATE", when, at, when.end, TERM + (BACK if words[at] == "back" and at > 0 else 0.0))

    # -- ends that are open: the words of a note, the term that is asked about, a name that is not known yet

    def _add_open_ends(self, text: str, words: Sequence[Word], lattice: list[list[Token]]) -> None:
        for tokens in list(lattice):
            for token in tokens:
                end = token.end
                if end >= len(words):
                    continue
                asked = words[end : end_of_term(self.lexicon, words, end)]
                if token.kind == "NOTE" or (token.kind == "QMEANING" and not tells(self.lexicon, asked)):
                    lattice[end].append(self._rest(token.kind, text, words, end))
                elif token.kind in ("CALLED", "TURN", "TURNTO") and not asks_what_to_call(self.lexicon, words, token):
                    lattice[end] += self._new_names(token.kind, text, words, end)

    def _rest(self, kind: str, text: str, words: Sequence[Word], first: int) -> Token:
        last = len(words)
        if kind == "NOTE":
            return Token("WORDS", text[words[first].start :].strip(" ,:;-"), first, last, TERM)
        end = end_of_term(self.lexicon, words, first)
        term = " ".join(w.text for w in words[first:end])
        known = any(t in self.lexicon.glossary for t in (term, term.removesuffix("s"), term.removesuffix("es")))
        cost = TERM if known else WORDS_START + WORDS_EACH * (end - first)
        return Token("WORDS", term, first, len(words), cost)

    def _new_names(self, kind: str, text: str, words: Sequence[Word], first: int) -> Iterator[Token]:
        for length in (1, 2, 3):
            taken = words[first : first + length]
            nameless = {word.text for word in (*taken[:1], *taken[-1:])} & set(self.lexicon.sense["no_name"])  # "it"
            if nameless or len(taken) < length or any(not w.text[0].isalpha() for w in taken):
                return
            written = text[taken[0].start : taken[-1].end]
            if kind == "TURNTO":  # "back to Toadstool", but not "back to the bench"
                fits = all(w.text not in self.lexicon.known and text[w.start].isupper() for w in taken)
            else:
                fits = all(w.text not in self.lexicon.known or text[w.start].isupper() for w in taken)
            if kind == "CALLED" or fits:
                named_as = written if kind == "CALLED" or written[0].isupper() else written.title()
                cost = TERM + 0.3 * length if kind == "CALLED" else 2 * TERM + length
                yield Token("NAME", named_as, first, first + length, cost)
