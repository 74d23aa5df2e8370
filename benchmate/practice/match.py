"""Rules against facts: three-valued, with a trace. One pass gives what advice, `why`, `why not` and questions read."""

from __future__ import annotations

import datetime as dt
from collections.abc import Iterator

from benchmate.fault import Fault
from benchmate.hearing.reading import Spot
from benchmate.practice.almanac import Almanac
from benchmate.practice.book import Rule, RuleBook
from benchmate.practice.budget import is_free, takes_all
from benchmate.practice.condition import SINGLE, Claim, Clause
from benchmate.practice.facts import SAID, Facts
from benchmate.practice.gates import open_keys
from benchmate.practice.places import is_placed
from benchmate.practice.quantity import quantity
from benchmate.practice.target import DONE, Target, eval_spot
from benchmate.practice.truth import Truth, Where, claim_truth, clause_truth, done_truth
from benchmate.value import dataclass, field

# what many rules ask at one place is looked up once; a clause is known by its identity, since the book holds it for
# longer than a matcher lives
Seen = dict[int, Truth]
Look = tuple[Where, Seen]
_ANYWHERE = Spot(part="tree")
# the question for the day of work that is known to have been done stands under the work's name with this
_DAY = "-day"
_HARD = "hard"


@dataclass(frozen=True, slots=True)
class Result:
    """How one rule came out for one target. by: what decided, in words. lacks: the facts that are unknown and would
    decide, as (kind or measure, value). rests_on: the facts that made it true, told."""

    rule: Rule
    truth: Truth
    by: str
    lacks: tuple[tuple[str, str], ...] = ()
    rests_on: tuple[str, ...] = ()


@dataclass(slots=True)
class Matcher:
    """Rules, facts and calendar for one statement. Holds only what was already looked up; give it new facts, not old
    ones changed. tells: whether results say in words what they rest on; a plan weighs thousands and tells none.
    faults: rules that failed inside; the others still spoke."""

    book: RuleBook
    facts: Facts
    almanac: Almanac
    tells: bool = True
    faults: list[Fault] = field(default_factory=list)
    _seen: dict[tuple[Spot, Spot], Seen] = field(default_factory=dict)
    _looks: tuple[Target, Look, Look] | None = None
    _keys: list[str] | None = None

    def touched(self, target: Target) -> Iterator[Rule]:
        """The rules about the target's work whose gate is open, in the book's order."""
        gates = self.book.index.get(target.work, {})
        if self._keys is None:
            self._keys = open_keys(self.facts, self.book.trait_names)
        numbers: set[int] = set()
        for key in (*self._keys, *(f"manner:{manner}" for manner in self._ways(target))):
            numbers.update(gates.get(key, ()))
        for number in sorted(numbers):
            yield self.book.rules[number]

    def results(self, target: Target) -> list[Result]:
        out = []
        for rule in self.touched(target):
            try:
                out.append(self.result(rule, target))
            except Exception as error:  # one rule's failure must not silence the others
                problem = f"the rule failed while it was weighed ({type(error).__name__}: {error})"
                self.faults.append(Fault(rule.file, 0, rule.id, problem, "the other rules were heard; mend this one"))
        return out

    def result(self, rule: Rule, target: Target) -> Result:
        """One rule for one target. Cheap tests first; the first that is false decides."""
        if (why := self._out_of_scope(rule, target)) is not None:
            return Result(rule, False, why)
        where, seen = self._look(rule, target)
        lacks: list[tuple[str, str]] = []
        rests: list[str] = []
        for clause in rule.condition:
            key = id(clause)
            if key not in seen:
                seen[key] = clause_truth(clause, self.facts, where, self.book.places)
            truth = seen[key]
            if truth is False:
                words = f"{clause_words(clause)}: no{self._known_words(clause)}" if self.tells else ""
                return Result(rule, False, words)
            if truth is None:
                lacks += self._lacking(clause, where)
            elif self.tells:
                rests += self._grounds(clause, where)
        for done, wanted in ((rule.within, True), (rule.not_within, False)):
            for work, days in done:
                truth, words = self._within(work, days, wanted, target)
                if truth is False:
                    return Result(rule, False, words)
                if truth is None:
                    lacks.append(("event", self._lack_of_done(work)))
                else:
                    rests.append(words)
        for limit in rule.limits:
            value, how = quantity(limit.quantity, target, self.facts, self.almanac, self.book)
            if value is None:
                lacks.append((limit.quantity, limit.words))
            elif (value > limit.value) if limit.above else (value < limit.value):
                rests.append(f"{limit.words}: {_number(value)}{how}")
            else:
                return Result(rule, False, f"{limit.words}: no, {_number(value)}{how}")
        if lacks:
            names = ", ".join(dict.fromkeys(kind.replace("_", " ") for kind, _ in lacks))
            return Result(rule, None, f"not known: {names}", tuple(dict.fromkeys(lacks)), tuple(rests))
        return Result(rule, True, "; ".join(rests) or "always", (), tuple(rests))

    def _ways(self, target: Target) -> tuple[str, ...]:
        """How the work is done, as said; a cut that takes the whole crown is a hard one, whatever it was called."""
        return (*target.manner, _HARD) if takes_all(target.work, target.spot, self.book) else target.manner

    def _out_of_scope(self, rule: Rule, target: Target) -> str | None:
        if rule.manner and rule.manner not in self._ways(target):
            return f"only when done {rule.manner.replace('-', ' ')}"
        if not rule.manner and is_free(target.manner, self.facts, self.book):
            return "not of what earns nothing any more"
        if rule.part:
            part = target.spot.part or self.book.places.get("work_part", {}).get(target.work)
            if part is None or not any(part == wanted or _inside(part, wanted, self.book) for wanted in rule.part):
                return f"only for {' or '.join(rule.part)}"
        if rule.between and not self.almanac.between(*rule.between):
            return f"only from {rule.between[0]} to {rule.between[1]}"
        return None

    def _look(self, rule: Rule, target: Target) -> Look:
        """Where the rule looks for this target, and what was found there already."""
        if self._looks is None or self._looks[0] is not target:
            spot = eval_spot(target, self.book.works, self.book.places)
            wide = spot if is_placed(spot) else _ANYWHERE
            own, about = ((Where(spot, place), self._seen.setdefault((spot, place), {})) for place in (spot, wide))
            self._looks = target, own, about
        return self._looks[1] if rule.blocks else self._looks[2]

    def _within(self, work: str, days: int | str, wanted: bool, target: Target) -> tuple[Truth, str]:
        # "in the last 42 days" is over on the 42nd day after
        start = self.facts.season_start if days == "season" else self.almanac.on - dt.timedelta(days=int(days) - 1)
        works = self.book.group(work)
        facts = self.facts
        if target.how == DONE and any(done.now and done.work == target.work for done in facts.done):
            facts = facts.without_now(target.work)
        truth = done_truth(works, start, facts, closed=not self._before_the_record(work, start))
        span = "this season" if days == "season" else f"in the last {days} days"
        last = next((done for done in facts.done if done.work in works and not done.denied), None)
        told = f" ({last.told})" if last and truth is not False else ""
        words = f"{work.replace('-', ' ')} {'' if truth else 'not '}done {span}{told}"
        return (truth if wanted else None if truth is None else not truth), words

    def _before_the_record(self, work: str, start: dt.date | None) -> bool:
        """Whether the time asked about reaches back before the record of the tree, for care that it had before."""
        since = self.facts.since
        return (
            since is not None
            and start is not None
            and start < since
            and work in self.book.places.get("young_record", {}).get("ask", ())
        )

    def _lack_of_done(self, work: str) -> str:
        """What is to be asked of work: whether it was done, or on which day where that alone is not known."""
        undated = any(d.work == work and not d.denied and d.first == dt.date.min for d in self.facts.done)
        day = f"{work}{_DAY}"
        return day if undated and day in self.book.questions.get("event", {}) else work

    def _lacking(self, clause: Clause, where: Where) -> list[tuple[str, str]]:
        """The kinds whose values would decide a clause."""
        out = []
        for tests in clause:
            for test in tests:
                if claim_truth(test, self.facts, where, self.book.places) is None:
                    out.append((self._lack_of(test), str(test.value)))
        return out

    def _lack_of(self, test: Claim) -> str:
        """What to ask for: the species, while it is unknown or only the genus is; a cell nobody filled is no
        question."""
        if test.kind == "species":
            return "species"
        if test.kind == "trait":
            genus_only = str(test.value).removeprefix("group:") in self.facts.entry.get("some", ())
            return "species" if self.facts.taxon is None or genus_only else "trait"
        if test.kind == "stage" and any(known.origin == SAID for known in self.facts.of("stage")):
            return "further stage"  # what the grower said leaves it open, and asking again would not help
        return test.kind

    def _known_words(self, clause: Clause) -> str:
        """What is so instead, for kinds that have one value at a time."""
        kinds = {test.kind for tests in clause for test in tests}
        told = []
        for kind in kinds:
            if kind in SINGLE and (known := self.facts.first(kind)):
                told.append(known.told)
            elif kind == "stage":
                told += [known.told for known in self.facts.of("stage") if not known.denied][:1]
            elif kind in ("species", "trait") and self.facts.taxon:
                told.append(self.facts.taxon)
        return f", {', '.join(told)}" if told else ""

    def _grounds(self, clause: Clause, where: Where) -> list[str]:
        """The facts that make a clause true, told; only those of the first alternative that holds."""
        for tests in clause:
            if all(claim_truth(test, self.facts, where, self.book.places) for test in tests):
                return [self._ground(test) for test in tests]
        return []

    def _ground(self, test: Claim) -> str:
        for known in self.facts.of(test.kind):
            if known.value == test.value and known.denied == test.denied:
                return known.told
        if test.kind in ("species", "trait") and self.facts.taxon:
            return f"{self.facts.taxon}: {_trait_words(test)}"
        return test.words


def _trait_words(test: Claim) -> str:
    """ "Tender" and "not tender" for a trait that is there or is not."""
    name, _, value = str(test.value).partition(":")
    if test.kind != "trait" or value not in ("yes", "no"):
        return test.words
    return f"{'not ' if test.denied != (value == 'no') else ''}{name.replace('-', ' ')}"


def _inside(part: str, wanted: str, book: RuleBook) -> bool:
    """A side branch is a branch; a leaf on it is not."""
    return part in book.places.get("kinds_of", {}).get(wanted, ())


def clause_words(clause: Clause) -> str:
    return " or ".join(" and ".join(test.words for test in tests) for tests in clause)


def _number(value: float) -> str:
    if value in (float("inf"), float("-inf")):
        return "no frost"
    return f"{value:g}" if value == round(value) else f"{value:.2f}"
