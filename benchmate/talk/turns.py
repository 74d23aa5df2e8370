"""One statement carried out: which tree it means, what it decides, what is logged, what the talk keeps of it."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from benchmate.garden.potted import as_potted
from benchmate.garden.record import Entry, Tree
from benchmate.hearing.reading import Reading, Work
from benchmate.practice.advice import Advice, Ask
from benchmate.talk.asked.aftermath import asks_alone, looks_back
from benchmate.talk.asked.asked_how import as_thought, turned_to
from benchmate.talk.asked.two_parts import with_second_part
from benchmate.talk.context import Context, Logged, Pending
from benchmate.talk.corrected.correct import corrected
from benchmate.talk.corrected.not_done import put_right
from benchmate.talk.corrected.redated import day_meant_by
from benchmate.talk.decide import done_ahead, entries_of
from benchmate.talk.deeds import another_option, pick, refused_options, strike, take_back
from benchmate.talk.kept import kept, moved_words, thought_words
from benchmate.talk.not_understood import not_understood
from benchmate.talk.recorded.on_record import on_record
from benchmate.talk.settling import NO_DAY, TO_COME, settled, settled_guesses
from benchmate.talk.sums.follow import counted_leaves
from benchmate.talk.told.answered import go_on
from benchmate.talk.told.expected import keeps_expected
from benchmate.talk.told.following import Endings, endings_of, in_its_days
from benchmate.talk.trees.kind_told import tells_kind
from benchmate.talk.trees.many import for_each
from benchmate.talk.trees.naming import begin_record, name_tree
from benchmate.talk.trees.offspring import propagate
from benchmate.talk.trees.parting import parts_with
from benchmate.talk.trees.plurals import all_of_kind
from benchmate.talk.trees.refer import pointing_of, resolve
from benchmate.talk.trees.renaming import meant_for_it, rename
from benchmate.talk.trees.which_tree import Meant, as_list, as_turn, meant_tree, rivals, species_said, which
from benchmate.telling.answer import Answer
from benchmate.telling.lines import Line
from benchmate.telling.story import tree_words
from benchmate.value import replace

if TYPE_CHECKING:
    from benchmate.talk.bench import Bench

ADVISED = {"advice", "may", "when", "compare", "why", "what-if"}


def carry_out(bench: Bench, reading: Reading, confirmed: bool, gone: Logged = ()) -> tuple[Answer, Context]:
    """The answer to a reading and what the talk knows after it; what it decides is logged. gone: what it takes back."""
    turn = Turn(bench, reading, confirmed)
    turn.gone = gone
    turn.take_back()
    if turn.point_and_correct():
        turn.reading = all_of_kind(turned_to(turn.reading, turn.house), turn.house, turn.before.those)
        if turn.reading.several and not {"strike", "new"} & set(turn.acts):
            for_each(turn)
        else:
            turn.find_tree()
            if not keeps_expected(turn):
                turn.decide()
    turn.write()
    return turn.answer(), kept(turn)


class Turn:
    """The work on one statement. Filled in by its steps, in their order."""

    def __init__(self, bench: Bench, reading: Reading, confirmed: bool) -> None:
        self.bench = bench
        self.house = bench.house
        self.before, self.on = bench.context, bench.on
        self.reading = as_turn(as_list(as_thought(reading), self.on, self.southern))
        self.thought = "decide" in reading.acts and "decide" not in self.acts
        self.confirmed = confirmed
        self.meant = Meant()
        self.tree: Tree | None = None
        self.among: tuple[Tree, ...] = ()  # the trees, where a question is about several
        self.label = ""  # what one of several trees is called in an answer for all
        self.facts: tuple[Any, ...] = ()
        self.advice: Advice | None = None
        self.says: list[str] = []
        self.own: list[str] = []
        self.aside: list[str] = []
        self.stead: list[str] = []  # what was taken back for this
        self.asks: list[Ask] = []
        self.found: list[Any] = []
        self.lines: list[Line] = []
        self.to_log: list[tuple[Tree, tuple[Entry, ...]]] = []
        self.logged: list[tuple[str, Entry]] = []
        self.meaning: Reading | None = None
        self.confirm: str | None = None
        self.unlogged: str | None = None
        self.struck = self.lapses = False  # lapses: what waits for a yes does, where something else is said
        self.gone: Logged = ()
        self.taken_from: Advice | None = None
        self.new_name: str | None = None
        self.offer: Pending | None = None
        self.due: tuple[tuple[str, Work], ...] = ()  # what was told as due, in its order

    @property
    def acts(self) -> tuple[str, ...]:
        return self.reading.acts

    @property
    def southern(self) -> bool:
        return self.house.place.southern

    @property
    def endings(self) -> Endings:
        return endings_of(self.house.book.places)

    # ---- what was said before

    def take_back(self) -> None:
        """A strike takes back what this talk logged last, else the tree's last entry."""
        if "strike" in self.acts:
            strike(self)
        elif self.gone:
            self.in_its_stead(self.gone)

    def in_its_stead(self, gone: Logged) -> None:
        """Strike what a correction goes over; that it was struck is told beside the answer."""
        before, self.says = self.says, []
        take_back(self, gone)
        self.stead, self.says = [*self.stead, *self.says], before

    def point_and_correct(self) -> bool:
        """Fill in what the words point back to; False where the grower must say more first."""
        if put_right(self):
            return bool(self.acts)
        corrects = "correct" in self.acts
        if corrects and not self._correct():
            return False
        self._then()
        resolved = resolve(self.reading, pointing_of(self.before, self.house.book.places))
        self.reading = counted_leaves(resolved.reading, self.house.ear)
        if resolved.ask:
            self.asks.append(resolved.ask)
        elif corrects and self.before.made and not asks_alone(self.reading):
            self.in_its_stead(self.before.made)
        return resolved.ask is None

    def _correct(self) -> bool:
        """What a correction comes to, laid over the statement before; False, and a question, where it is not clear."""
        if another_option(self):
            return True
        last = self.before.amends
        self.reading = day_meant_by(self, last, self.reading)
        fixed = corrected(last, self.reading) if last else None
        if fixed is None and asks_alone(self.reading):  # "oh, that was stupid. what now"
            self.reading = replace(self.reading, acts=("ask",))
            return True
        if fixed is None:
            what = "Say what it should have been" if last else "Nothing was said before in this talk; say it whole"
            self.asks.append(Ask("work", f"{what}, as in: no, the right branch; no, that was the elm."))
            return False
        self.reading = fixed
        return True

    def _then(self) -> None:
        """ "In three weeks then?": the last question, asked for another day."""
        last, reading = self.before.reading, self.reading
        if reading.acts or not reading.when or last is None or "ask" not in last.acts or not last.work:
            return
        works = tuple(replace(work, done=None) for work in last.work)
        same = replace(last, said=reading.said, when=reading.when, work=works, facts=())
        self.reading = replace(same, acts=("ask",), topic="may")

    # ---- which tree

    def find_tree(self) -> None:
        """The tree, and what was said of it before in this talk."""
        reading, before, here = self.reading, self.before, self.bench.here
        if before.species and not reading.tree and not species_said(reading) and "turn" not in self.acts:
            self.meant = Meant(species_alone=True)
        else:
            self.meant = meant_tree(reading, self.house.trees(), here, before.those)
        if "turn" in self.acts and not (reading.tree or species_said(reading)):
            self.meant = Meant(self.house.next_tree(here))
        elif reading.topic == "list" and not reading.tree:
            self.meant = Meant(here)  # the trees asked for are no turn to one of them
        self.tree = self.meant.tree
        kind = before.tree is None and species_said(reading) in (None, before.species)
        same = self.tree.name == before.tree if self.tree else kind
        self.facts = before.facts if same else ()
        if "new" in self.acts and not meant_for_it(self):
            name_tree(self)
        elif "turn" in self.acts and self.tree:
            stands = as_potted(self.tree, self.house.entries(self.tree), self.on)
            self.says += [tree_words(stands, self.house.place.units), *self.house.due_on(self.tree, self.on)]
        elif "turn" in self.acts:
            self.says += [self.meant.aside] if self.meant.aside else []
            self.asks += [self.meant.ask] if self.meant.ask else []

    # ---- what it decides

    def decide(self) -> None:
        """Advice, answers to questions, and the entries that the statement makes."""
        from benchmate.talk.asked import questions
        from benchmate.talk.told.told_beside import as_done, as_told

        if "pick" in self.acts:
            pick(self)
            return
        go_on(self)
        if any(step(self) for step in (rename, propagate, parts_with, tells_kind, looks_back, on_record)):
            return
        reading = self.reading
        if "ask" in self.acts and reading.topic not in ADVISED:
            questions.answer(self)
        elif ("ask" in self.acts or {"observe", "decide"} & set(self.acts)) and "new" not in self.acts:
            questions.advise(self)
        if self.new_name and settled_guesses(self):
            begin_record(self)
            return
        if done_ahead(self.reading, self.on, self.southern):
            self.asks.append(TO_COME)
            return
        entries = entries_of(
            as_told(self, reading),
            as_done(self, reading, self.advice),
            self.on,
            southern=self.southern,
            refused=refused_options(self),
            endings=self.endings,
            forecast=self.house.lexicon.sense["forecast"],
            circumstances=self.house.lexicon.circumstances,
        )
        if self.advice:
            self.advice = replace(self.advice, options=in_its_days(self.advice.options, entries, self.on))
        if entries:
            self.keep(entries)
            if "remind" in self.acts and not any(entry.when or entry.follow for entry in entries):
                self.asks.append(NO_DAY)
        elif "remind" in self.acts and (self.tree or not self.meant.ask):
            self.asks.append(NO_DAY)
        elif self.meant.ask and not self.says and self._needs_tree():
            self.asks.append(self.meant.ask)
        if self.meant.aside and (self.advice or entries):
            self.aside.append(self.meant.aside)
        if not self.acts and not self.says:
            self.says.append(not_understood(self))

    def _needs_tree(self) -> bool:
        """Whether the statement cannot be answered without knowing the tree or its species."""
        advised = "ask" in self.acts and self.reading.topic in ADVISED
        return self.meant.species_alone or advised or bool({"remind", "note"} & set(self.acts))

    def keep(self, entries: tuple[Entry, ...]) -> None:
        if not settled(self):
            pass
        elif self.tree and (others := rivals(self.reading, self.house.trees())):
            self.asks.insert(0, which(others))  # two kinds in one statement: nothing is logged on the first by luck
        elif self.tree:
            self.to_log.append((self.tree, with_second_part(self, entries)))
        elif self.house.garden is None:
            self.aside.append("nothing is logged: no garden is open")
        elif self.meant.ask:
            self.asks.insert(0, self.meant.ask)
        else:
            self.aside.append("nothing is logged: no tree of this garden is meant")

    def write(self) -> None:
        """The entries onto the disk. What could not be written is told first, and kept for another try."""
        if self.confirm:
            self.to_log, self.stead, self.struck = [], [], False
        for tree, entries in self.to_log:
            try:
                self.logged += [(tree.name, entry) for entry in self.bench.log(tree, entries)]
            except self.house.not_logged as error:
                if not self.bench.talking:
                    raise
                self.unlogged = str(error).removeprefix("not logged: ")
                self.bench.unwritten = (*self.bench.unwritten, (tree.name, entries))
                self.says.clear()

    def answer(self) -> Answer:
        """All of it, to be told."""
        tree = self.tree.name if self.tree else None
        return Answer(
            self.reading,
            self.on,
            tree or (self.logged[0][0] if self.logged and not self.reading.several else None),
            self.advice,
            tuple(self.says),
            tuple(entry for _, entry in self.logged),
            self.bench.dry,
            self.unlogged,
            self.confirm,
            tuple(self.asks),
            (*self.stead, *self.aside, *thought_words(self), *moved_words(self)),
            self.before.told,
            self.house.place.units,
            "leave" in self.acts,
            tuple(self.found),
            tuple(self.lines),
            tuple(name for name, _ in self.logged),
            tuple(self.own),
        )
