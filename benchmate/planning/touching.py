"""Which works bear on which: what one candidate may change for another, and for how long."""

from __future__ import annotations

from collections.abc import Callable, Sequence

from benchmate.planning.candidate import Candidate, same_work
from benchmate.planning.turning import rules_on
from benchmate.planning.world import World
from benchmate.practice.book import Rule
from benchmate.practice.budget import takes
from benchmate.value import dataclass

# longer than any plan and its past that rules look back to
_EVER = 5000


@dataclass(frozen=True, slots=True)
class Reach:
    """For how long a work bears on a later one: so many days (0: not by days), and whether through the growing season
    that both fall in."""

    days: int = 0
    season: bool = False

    def __or__(self, other: Reach) -> Reach:
        return Reach(max(self.days, other.days), self.season or other.season)

    def __bool__(self) -> bool:
        return self.days > 0 or self.season


class Touching:
    """Answers for one plan; keeps what was looked up about pairs of works."""

    def __init__(self, world: World) -> None:
        self.world = world
        self._reach: dict[tuple[object, ...], Reach] = {}
        self._told: dict[tuple[str, Candidate, Candidate], bool] = {}

    def _once(self, what: str, one: Candidate, other: Candidate, ask: Callable[[Candidate, Candidate], bool]) -> bool:
        """The answer about a pair, worked out when it is first wanted."""
        key = what, one, other
        if key not in self._told:
            self._told[key] = ask(one, other)
        return self._told[key]

    def bears(self, one: Candidate, other: Candidate) -> bool:
        """Whether `one`, done first, may change what the predicate says of `other`. Never too seldom."""
        return self._once("bears", one, other, lambda a, b: self.hinders(a, b) or self.leads(a, b))

    def hinders(self, one: Candidate, other: Candidate) -> bool:
        """Whether `one`, done first, may stand against `other`, or lift what does."""
        if one.closes >= other.opens:
            return self.clashes(one, other) or self.meets(one, other)
        return self._within(self._between(one, other), one, other) or self.ruled(one, other)

    def leads(self, one: Candidate, other: Candidate) -> bool:
        """Whether `other` may want `one` to have been done: as work that goes before it, as a look at a mended tree, as
        the end of the last wire."""
        if one.closes >= other.opens:
            return False
        wanted = any(one.wish.work in self.world.book.group(after.work) for after in other.wish.after)
        return wanted or (one.wish.looks and other.hoped) or (one.wish.work, other.wish.work) == ("unwire", "wire")

    def clashes(self, one: Candidate, other: Candidate) -> bool:
        """Whether the order of the two matters to planning itself, so that their windows must not overlap."""
        return self._once("clashes", one, other, self._clash)

    def _clash(self, one: Candidate, other: Candidate) -> bool:
        return any(
            self._between(a, b) or any(self.reach(later.work, b) for later in a.later)
            for a, b in ((one, other), (other, one))
        )

    def meets(self, one: Candidate, other: Candidate) -> bool:
        """Whether the rules look at one of the two when they judge the other. Where windows overlap each must stand
        with the other done before it and without."""
        return bool(self._ruling(one, other) or self._ruling(other, one))

    def free(self, number: int, every: Sequence[Candidate]) -> bool:
        """Whether a candidate, where it is allowed, may be taken at once: it stands against later chances for the same
        work alone, none of which is worth more or leads better to anything."""
        one = every[number]
        rivals = [other for other in every[number + 1 :] if other.key == one.key]
        if one.wish.per_season > 1 or any(other.value > one.value for other in rivals):
            return False
        for other in every[number + 1 :]:
            if other.key != one.key and self.hinders(one, other):
                return False
            if self.leads(one, other) and any(self._leads_better(rival, one, other) for rival in rivals):
                return False
        return True

    def _leads_better(self, rival: Candidate, one: Candidate, other: Candidate) -> bool:
        """Whether a later chance for the same work might lead to `other` where this one does not."""
        if not self.leads(rival, other):
            return False
        spans = [after.within_days for after in other.wish.after]
        looked = one.wish.looks and other.hoped
        return looked or any((other.closes - one.opens).days > span for span in spans)

    def ruled(self, one: Candidate, other: Candidate) -> bool:
        """Whether the rule base, judging `other`, may look at `one`, or at what follows of it."""
        return self._once("ruled", one, other, self._looks_back)

    def _looks_back(self, one: Candidate, other: Candidate) -> bool:
        if self._within(self._ruling(one, other), one, other):
            return True
        return any(
            (reach := self.reach(later.work, other)).season or 0 < reach.days >= (other.opens - later.closes).days
            for later in one.later
        )

    def _within(self, reach: Reach, one: Candidate, other: Candidate) -> bool:
        if reach.season and one.closes >= self.world.season(other.opens):
            return True
        return 0 < reach.days >= (other.opens - one.closes).days

    def _between(self, one: Candidate, other: Candidate) -> Reach:
        """How the bounds of planning itself tie `other` to `one`."""
        wish, then = one.wish, other.wish
        days, season = 0, (wish.heavy and then.heavy) or (wish.flush and then.flush) or one.key == other.key
        if same_work(one, other, self.world.book.places):
            days = _EVER if wish.once or then.once else max(wish.least_days, then.least_days)
        if wish.rest_days and not then.gentle and then.work in self._spread(wish.rest):
            days = max(days, wish.rest_days)
        if wish.work == then.work == "wire":
            # until the last wire is off again
            days = max(days, *((later.closes - one.closes).days + 1 for later in one.later), 0)
        return Reach(days, season)

    def _ruling(self, one: Candidate, other: Candidate) -> Reach:
        return self.reach(one.wish.work, other, one.wish.heavy)

    def reach(self, work: str, other: Candidate, heavy: bool = False) -> Reach:
        """For how long the rules look back to `work` when they judge `other`. heavy: it counts as a serious work."""
        wish = other.wish
        key = work, heavy, wish.work, wish.manner
        if key not in self._reach:
            self._reach[key] = self._looked_up(work, heavy, wish.work, wish.manner)
        return self._reach[key]

    def _looked_up(self, work: str, heavy: bool, other: str, manner: tuple[str, ...]) -> Reach:
        book = self.world.book
        reach = Reach()
        for rule in rules_on(other, self.world):
            if rule.manner and rule.manner not in manner:
                continue
            # what only weighs forbids nothing; what beats another rule lifts what that forbids
            if rule.blocks or rule.beats or rule.kind != "rule":
                reach |= self._by_rule(rule, work, heavy)
        # no dose bounds leaf removal unless a share is said, and of it only what stays off is in the dose
        table = book.budget.get("apart", {})
        spends = work not in table.get("works", ()) or work in table.get("stays", ())
        taken = takes(work, book)
        dosed = taken in ("foliage", "root") and taken == takes(other, book) and spends
        dosed = dosed and other not in table.get("works", ())
        return reach | Reach(season=dosed)

    def _by_rule(self, rule: Rule, work: str, heavy: bool) -> Reach:
        book = self.world.book
        reach = Reach()
        for name, span in (*rule.within, *rule.not_within):
            if work in book.group(name):
                reach |= Reach(int(span)) if isinstance(span, int) else Reach(season=True)
        for limit in rule.limits:
            if limit.quantity.startswith("days_since_") and work in book.group(limit.quantity[11:]):
                reach |= Reach(_EVER)
            elif limit.quantity == "heavy_works":
                reach |= Reach(season=heavy)
        for test in (test for clause in rule.condition for tests in clause for test in tests):
            if test.kind == "event" and test.value == work:
                reach |= {"season": Reach(season=True), "last-season": Reach(800)}.get(test.ever, Reach(_EVER))
            elif test.kind == "finding" and test.value in self._changed_by(work):
                reach |= Reach(_EVER)
        return reach

    def _changed_by(self, work: str) -> set[object]:
        """Findings that a work leaves behind, and those on this tree, or left by work, that it ends."""
        places = self.world.book.places
        left = places.get("leaves_behind", {})
        there = {known.value for known in self.world.today.of("finding")} | set(left.values())
        return {left.get(work)} | (there & set(places.get("ends", {}).get(work, ())))

    def _spread(self, names: tuple[str, ...]) -> set[str]:
        return {work for name in names for work in self.world.book.group(name)}
