"""What a word cannot be beside its neighbours: "my hose is dry" waters nothing, "won't wire that one" names no wire."""

from __future__ import annotations

from collections.abc import Callable, Collection, Sequence
from typing import TYPE_CHECKING

from benchmate.value import dataclass

from .lexicon import Lexicon
from .opening import JOINERS, STOPS, opens
from .words import Word

if TYPE_CHECKING:
    from .spotting import Token

_THINGS = frozenset({"PART", "MEANS", "FINDING", "EVENT", "STATE"})
ARTICLES = frozenset({"a", "an"})
_VERBS = frozenset({"V", "VED", "VING"})
_LONGEST = 3  # words of the longest term that is looked back for
_OBJECTS = frozenset({"DET", "PRON", "PART", "SIDE", "LEVEL"})
_ALL_REACH = 6  # words before "but" within which "all" stands
_REASON_REACH = 6  # words within which the verb of a sentence stands


@dataclass(frozen=True, slots=True)
class Sense:
    """One thing that words may be, in its place. texts: all words of the statement."""

    lexicon: Lexicon
    lattice: Sequence[Sequence[Token]]
    texts: Sequence[str]
    at: int
    token: Token

    @property
    def kind(self) -> str:
        return self.token.kind

    @property
    def word(self) -> str:
        """The first word."""
        return self.texts[self.at]

    @property
    def after(self) -> str:
        """The word behind, or "" at the end."""
        return self.texts[self.token.end] if self.token.end < len(self.texts) else ""

    @property
    def next(self) -> Sequence[Token]:
        """What may stand behind."""
        return self.lattice[self.token.end] if self.token.end < len(self.texts) else ()

    @property
    def alone(self) -> bool:
        """Whether it is of one word."""
        return self.token.end == self.at + 1

    @property
    def opening(self) -> bool:
        return opens(self.lexicon, self.texts, self.at)

    def is_one_of(self, words: str) -> bool:
        """Whether its first word is in a list of rules/words."""
        return self.word in self.lexicon.sense[words]

    def may_be(self, *kinds: str) -> bool:
        """Whether the same words may also be of one of these kinds."""
        return any(t.kind in kinds and t.end == self.token.end and not t.guesses for t in self.lattice[self.at])

    def behind(self, *kinds: str) -> bool:
        """Whether a word of one of these kinds stands right before it."""
        places = range(max(0, self.at - _LONGEST), self.at)
        return any(t.kind in kinds and t.end == self.at and not t.guesses for n in places for t in self.lattice[n])

    def helped_by(self, helper: str, between: Collection[str] | None = None) -> bool:
        """Whether a helper stands before it, with only helpers between. between: those that may; None for any."""
        at = self.at
        while at > 0:
            first = max((n for n in range(at) if _helpers(self.lattice[n], at)), default=None)
            if first is None:
                return False
            values = _helpers(self.lattice[first], at)
            if helper in values:
                return True
            if between is not None and not values & set(between):
                return False
            at = first
        return False


def _helpers(tokens: Sequence[Token], end: int) -> set[str]:
    """The helpers that begin here and end at `end`."""
    return {str(t.value) for t in tokens if t.kind == "AUX" and t.end == end and not t.guesses}


def drop_false_senses(lexicon: Lexicon, lattice: list[list[Token]], words: Sequence[Word]) -> None:
    """Take away what a word cannot be beside its neighbours."""
    texts = [word.text for word in words]
    for at, tokens in enumerate(lattice):
        asks = any(t.kind == "QCOMPARE" and t.end > at + 1 and not t.guesses for t in tokens)
        if asks:  # "which one goes" asks: then "which" alone does not join
            tokens = [t for t in tokens if t.kind != "SEP"]
        senses = [Sense(lexicon, lattice, texts, at, token) for token in tokens]
        lattice[at] = [sense.token for sense in senses if not any(false(sense) for false in _FALSE)]


def _owned_verb(s: Sense) -> bool:
    """ "The seal's cracked", "my hose is dry": what owns or is owned is no verb."""
    owns = s.kind in ("V", "VING") and s.after == "'s"
    return owns or (s.kind == "V" and s.at > 0 and s.texts[s.at - 1] in s.lexicon.sense["owners"])


def _base_form(s: Sense) -> bool:
    """ "Black spot is back": behind "is" stands no verb in its base form."""
    if s.kind != "V" or s.at == 0 or s.texts[s.at - 1] == "to" or s.may_be("VED"):
        return False
    return any(_helpers([t], s.at) == {"be"} for t in s.lattice[s.at - 1]) and not s.helped_by("not", ())


def _doing(s: Sense) -> bool:
    """ "I'm not touching it", "I've wired one": what a person does is no state of the tree."""
    if s.kind != "STATE" or not s.may_be("VING", "VED"):
        return False
    kept_up = s.at > 0 and s.texts[s.at - 1] in s.lexicon.sense["keeping"]  # "keep nipping the tips"
    return kept_up or s.helped_by("i")


def _named_by_article(s: Sense) -> bool:
    """ "Grown from a cutting": behind "a" a form in -ing is a thing, and nothing that goes on."""
    ends = s.after == "" or not s.next or s.after in JOINERS | STOPS
    form = s.kind == "VING" or (s.kind == "STATE" and s.may_be("VING"))
    return form and s.alone and ends and s.at > 0 and s.texts[s.at - 1] in ARTICLES


def _wants_done(s: Sense) -> bool:
    """ "The needles want thinning": "want" calls for work only before its form in -ing or its noun."""
    if s.kind != "AUX" or s.token.value != "need" or not s.is_one_of("wanting"):
        return False
    return not any(t.kind in ("VING", "EVENT") and not t.guesses for t in s.next)


def _carried_out(s: Sense) -> bool:
    """ "The tips have been nipped out", "it's been slipped into a bigger pot": done to it, and no state."""
    verb = any(t.kind == "VED" and t.end == s.token.end and not t.guesses for t in s.lattice[s.token.end - 1])
    if s.kind not in ("STATE", "FINDING") or not verb:
        return False
    onward = any(t.kind == "PARTICLE" and t.value in ("off", "out") for t in s.next) or s.after == "into"
    done_to = any(t.kind == "AUX" and t.value == "be" for t in s.lattice[s.at]) or s.helped_by("be")  # "been nipped"
    return onward and done_to


def _was_done(s: Sense) -> bool:
    """ "The low branch has been guyed": what was done, where "is guyed" tells what is there."""
    if s.kind not in ("STATE", "FINDING") or not s.at or s.texts[s.at - 1] not in s.lexicon.sense["happened"]:
        return False
    verbs = [t for t in s.lattice[s.at] if t.kind == "VED" and t.end == s.token.end and not t.guesses]
    return any(f"{verb.value}|||" in s.lexicon.patterns for verb in verbs)


def _thing_cut(s: Sense) -> bool:
    """ "That big cut from March": a noun, where a size stands between it and its article."""
    sense = s.lexicon.sense
    if s.kind not in _VERBS or not s.alone or not s.is_one_of("cuts") or s.at < 2:
        return False
    return s.texts[s.at - 1] in sense["sizes"] and s.texts[s.at - 2] in sense["those"]


def _no_denial(s: Sense) -> bool:
    """ "Nearly cut it off" cut nothing, but "nearly all of it", "almost bare" and "nearly done" tell how much."""
    if s.kind != "AUX" or not s.is_one_of("short_of"):
        return False
    if s.after in s.lexicon.sense["ended"]:
        return True
    ends = {t.end for t in s.next if t.kind == "VED" and not t.guesses and t.end < len(s.texts)}
    return not any(t.kind in _OBJECTS and not t.guesses for end in ends for t in s.lattice[end])


def _on_a_day(s: Sense) -> bool:
    """ "Potted it on yesterday": nobody says a day so, and "on" belongs to the verb."""
    if s.kind != "DATE" or s.word != "on":
        return False
    behind = {s.after, *(" ".join(s.texts[s.at + 1 : s.at + n]) for n in (2, 3))}
    return bool(behind.intersection(s.lexicon.sense["after_on"]))


def _begins(s: Sense) -> bool:
    """ "It's started digging in": what begins is told by the state behind it."""
    return s.kind == "STATE" and s.alone and s.is_one_of("beginning") and any(t.kind == "STATE" for t in s.next)


def _around(s: Sense) -> bool:
    """ "Callus is coming on round the wound": there "round" says where."""
    called_for = s.opening or s.behind("AUX") or (s.at > 0 and s.texts[s.at - 1] in ("to", "and"))
    return s.kind == "V" and s.alone and s.is_one_of("mostly_at") and not called_for


def _to_be_done(s: Sense) -> bool:
    """ "Won't wire that one", "please feed this one": behind these stands the verb, not the thing."""
    if s.kind not in _THINGS or not s.may_be("V"):
        return False
    return any(s.helped_by(helper, ("not", "i")) for helper in ("will", "do", "let"))


def _will_be(s: Sense) -> bool:
    """ "It will not be wired": what is to come is no state."""
    if s.kind not in ("STATE", "FINDING") or not s.may_be("VED") or not s.behind("AUX"):
        return False
    return s.helped_by("will", ("be", "not")) or s.helped_by("being")


def _denied_thing(s: Sense) -> bool:
    """ "No the right one", said without a pause: where a determiner follows, "no" denies nothing but corrects."""
    if s.kind not in ("AUX", "CORRECT") or not s.alone or not s.is_one_of("refusals"):
        return False
    pointed = s.after in s.lexicon.sense["pointers"]
    return pointed if s.kind == "AUX" else not (pointed and s.opening)


def _one_thing(s: Sense) -> bool:
    """ "The left one to three leaves": behind a place "one" counts nothing."""
    counts = s.kind in ("NUM", "MEASURE", "SHARE") and any(t.kind == "ONE" for t in s.lattice[s.at])
    return counts and s.behind("SIDE", "LEVEL", "ORD")


def _adverb(s: Sense) -> bool:
    """ "Right at the top", "black spot is back on the elm": no side, where a preposition follows a bare word."""
    if s.kind == "SIDE" and s.alone and s.is_one_of("returned") and s.behind("AUX"):
        return True
    said = " ".join(s.texts[s.at : s.token.end])
    followed = s.lexicon.sense["before"].get(f"{said} {s.kind}", ())
    behind = (s.after, " ".join(s.texts[s.token.end : s.token.end + 2]))
    return any(one in followed for one in behind) and not s.behind("DET", "AT", "TO", "FROM", "OF")


def _remaining(s: Sense) -> bool:
    """ "Any scale left", "two buds left on the elm": what remains lies on no side, and nobody left it."""
    if s.kind not in ("SIDE", "VED", "V") or not s.alone or not s.is_one_of("remains"):
        return False
    if s.kind == "SIDE" and s.opening:  # "left three buds on it"
        counts = [t for t in s.next if t.kind == "NUM" and t.end < len(s.texts)]
        return any(t.kind == "PART" and t.value in s.lexicon.amount for count in counts for t in s.lattice[count.end])
    for first in range(max(1, s.at - 3), s.at):
        numbered = any(t.kind == "NUM" and t.end == first for t in s.lattice[first - 1])
        if not numbered and s.texts[first - 1] not in s.lexicon.sense["denying"]:
            continue
        if any(t.kind in ("FINDING", "PART") and t.end == s.at and not t.guesses for t in s.lattice[first]):
            return True
    return False


def _open_end(s: Sense) -> bool:
    """ "Gave it a bit of a spray": a verb that ends in "a bit" is not whole before "of"."""
    return (
        s.kind in _VERBS and not s.alone and s.after == "of" and s.texts[s.token.end - 1] in s.lexicon.sense["amounts"]
    )


def _as_reason(s: Sense) -> bool:
    """ "I turned it, as there's a gap at the back": "as" tells why only where a whole sentence follows."""
    if s.kind != "SEP" or s.word != "as" or not s.alone:
        return False
    if s.after not in s.lexicon.sense["reasons"] or "as" in s.texts[max(0, s.at - 2) : s.at]:
        return True
    behind = range(s.at + 2, min(len(s.texts), s.at + _REASON_REACH))
    return s.opening or not any(_helpers(s.lattice[at], at + 1) & {"be", "have", "will"} for at in behind)


def _spares(s: Sense) -> bool:
    """ "Wired everything but the top": where all was named before, "but" spares; else it only joins."""
    if s.kind != "SEP" or s.word != "but" or not s.alone:
        return False
    all_of = any(text in s.lexicon.sense["all"] for text in s.texts[max(0, s.at - _ALL_REACH) : s.at])
    placed = any(t.kind in ("DET", "SIDE", "LEVEL", "ORD", "PART") and not t.guesses for t in s.next)
    spares = all_of and placed and not _has_verb(s)
    return bool((s.token.value == "except") != spares)


def _has_verb(s: Sense) -> bool:
    """Whether a verb stands in what follows, up to the next pause: "all of it is wired but the top is bare"."""
    for at in range(s.token.end, len(s.texts)):
        if s.texts[at] in STOPS | {","}:
            return False
        kinds = {t.kind for t in s.lattice[at] if not t.guesses}
        if kinds & {*_VERBS, "AUX"} and not kinds & {"SIDE", "LEVEL", "PART"}:
            return True
    return False


def _clipped(s: Sense) -> bool:
    """ "So that's the one I keep": a clipped verb opens no question; "how long's the" does not ask since when."""
    if s.kind[0] != "Q" or s.kind == "QMEANING":
        return False
    ends = s.texts[s.token.end - 1]
    return s.word == "'s" or (s.kind == "QRECALL" and s.word == "how" and ends == "'s")


def _exclaimed(s: Sense) -> bool:
    """ "Oh no, it's dried out" sets nothing right and denies nothing."""
    sense = s.lexicon.sense
    at = next((n for n in range(s.at, s.token.end) if s.texts[n] in sense["refusals"]), None)
    if s.kind not in ("CORRECT", "AUX") or not at or s.texts[at - 1] not in sense["exclaiming"]:
        return False
    behind = [text for text in s.texts[at + 1 :] if text != ","][:2]
    return bool(behind) and behind[0] in sense["reasons"] and not any(text in sense["past"] for text in behind)


def _rues(s: Sense) -> bool:
    """ "It's bone dry, oops": nothing comes behind that would set it right."""
    behind = [text for text in s.texts[s.token.end :] if text not in STOPS | {","}]
    return s.kind == "CORRECT" and not behind and not s.opening


def _no_question(s: Sense) -> bool:
    """ "Did the repot in March" tells; "should I jin it or remove it" takes nothing back."""
    if s.kind == "STRIKE":
        return s.at > 0 and any(t.kind == "SEP" and t.value == "or" and t.end == s.at for t in s.lattice[s.at - 1])
    if s.kind != "QRECALL" or s.texts[s.at : s.token.end] != ["did", "the"] or s.texts[-1] == "?":
        return False
    return any(t.kind == "EVENT" and not t.guesses for t in s.next)


def _taken_out(s: Sense) -> bool:
    """ "Take the candles out": behind a verb "out" and "off" belong to it."""
    if s.kind != "STATE" or s.alone or s.texts[s.token.end - 1] not in s.lexicon.sense["after_verb"]:
        return False
    for first in range(max(0, s.at - 3), s.at):
        tokens = [t for t in s.lattice[first] if not t.guesses and t.end in (s.at, s.at - 1)]
        if any(t.kind in _VERBS for t in tokens) and not any(t.kind == "AUX" for t in tokens):
            return True
    return False


def _named_next(s: Sense) -> bool:
    """ "Wired Ratchet", "leaf cut Ratchet", "hard prune the elm": what opens a sentence so was done to it."""
    if s.kind not in _THINGS or not s.may_be("V", "VED") or not s.opening:
        return False
    return any(t.kind == "NAME" or (t.kind == "DET" and s.kind == "EVENT") for t in s.next)


_FALSE: tuple[Callable[[Sense], bool], ...] = (
    _owned_verb,
    _base_form,
    _doing,
    _named_by_article,
    _wants_done,
    _carried_out,
    _was_done,
    _thing_cut,
    _no_denial,
    _on_a_day,
    _begins,
    _around,
    _to_be_done,
    _will_be,
    _denied_thing,
    _one_thing,
    _adverb,
    _remaining,
    _open_end,
    _as_reason,
    _spares,
    _clipped,
    _exclaimed,
    _rues,
    _no_question,
    _taken_out,
    _named_next,
)
