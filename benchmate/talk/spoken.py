"""Words for the talk itself: one decorated function each, which feeds help, completion and "what can I say"."""

from __future__ import annotations

import re
from collections.abc import Callable
from typing import TYPE_CHECKING

from benchmate.garden.record import Entry
from benchmate.hearing.reading import Reading
from benchmate.practice.advice import AVOID, HOLD, Advice, Option, Trace
from benchmate.telling import lines as role
from benchmate.telling.answer import Answer
from benchmate.telling.lines import Line
from benchmate.value import dataclass

if TYPE_CHECKING:
    from benchmate.talk.bench import Bench

Run = Callable[["Bench", str], Answer]
_NARROW = 40  # columns that a chart fits on any screen
_NUMBERS = ("one", "two", "three", "four", "five", "six", "seven", "eight", "nine")
_ONE = r"(?:option |number |the )?(?P<number>\d|" + "|".join(_NUMBERS) + ")"


@dataclass(frozen=True, slots=True)
class Spoken:
    """A command of the talk. says: as it is said. does: one line. pattern: all ways of saying it. run: what does it."""

    says: str
    does: str
    pattern: re.Pattern[str]
    run: Run


SPOKEN: list[Spoken] = []


def spoken(says: str, does: str, pattern: str) -> Callable[[Run], Run]:
    """Register a command of the talk under the words that call it."""

    def register(run: Run) -> Run:
        SPOKEN.append(Spoken(says, does, re.compile(pattern, re.IGNORECASE), run))
        return run

    return register


def spoken_command(words: str) -> Run | None:
    """What these words call, or None where they are no command of the talk."""
    plain = words.strip(" .!?").casefold()
    return next((one.run for one in SPOKEN if one.pattern.fullmatch(plain)), None)


def _number(words: str) -> int | None:
    match = re.search(rf"\b{_ONE}$", words.strip(" .!?").casefold())
    if not match:
        return None
    said = match["number"]
    return int(said) if said.isdigit() else _NUMBERS.index(said) + 1


def _tell(bench: Bench, words: str, lines: list[Line], *says: str) -> Answer:
    return Answer(Reading(words), bench.on, bench.context.tree, says=says, lines=tuple(lines))


@spoken("more", "every option with all its reasons and what they rest on", r"(tell me |say )?more|go on|in full")
def more(bench: Bench, words: str) -> Answer:
    """All options in depth."""
    return _in_depth(bench, words, None)


@spoken("why two", "one option with its reasons, rules and sources", rf"(tell me )?(why|more on|more about) {_ONE}")
def why_number(bench: Bench, words: str) -> Answer:
    """One option in depth, and how each rule about it came out."""
    return _in_depth(bench, words, _number(words))


@spoken(
    "why not the other",
    "the second of two options that are told apart by their place, with its reasons",
    r"(and )?why not (take |keep |cut |remove )?(the )?other( one)?",
)
def why_not_other(bench: Bench, words: str) -> Answer:
    """The second option in depth, where it is the same work at the other place."""
    advice = bench.context.weighed
    works = [option.work for option in advice.options[:2]] if advice else []
    if len(works) < 2 or works[0] != works[1]:
        return _tell(bench, words, [], "Which other is meant? Say its side, as in: why not the right one")
    return _in_depth(bench, words, 2)


def _in_depth(bench: Bench, words: str, number: int | None) -> Answer:
    from benchmate.telling.depth import depth_lines, trace_lines

    advice = bench.context.weighed
    if advice is None or not advice.options:
        return _tell(bench, words, [], "Nothing was advised before in this talk; ask, as in: what now")
    if number is not None and not 1 <= number <= len(advice.options):
        return _tell(bench, words, [], f"There are {len(advice.options)} options; say a number from 1")
    sources = bench.house.book.sources
    numbers = () if number is None else (number,)
    lines = depth_lines(advice, bench.on, sources, numbers=numbers, units=bench.house.place.units)
    if number is not None:
        about = weighed_beside(advice, advice.options[number - 1])
        if about:
            lines += [Line("What else was weighed:", role.ASIDE), *trace_lines(about)]
    return _tell(bench, words, lines)


def weighed_beside(advice: Advice, option: Option) -> list[Trace]:
    """Rules about the option that say nothing in it: those that wait for a fact, and blocks that do not hold."""
    said = {reason.rule for reason in (*option.because, *option.against)}
    return [
        one
        for one in advice.trace
        if one.work == option.work
        and (one.spot == option.spot or option.rest)
        and one.rule not in said
        and not one.rule.startswith("caution:")
        and (one.truth is None or one.verdict in (AVOID, HOLD))
    ]


@spoken("what can I say", "what the bench understands, with examples", r"help|\?|what can (i|we) say|commands")
def what_can_i_say(bench: Bench, words: str) -> Answer:
    """Examples for the tree at hand, from the words and rules, and the commands of the talk."""
    here = bench.here
    lines = [Line(f'"{example}"', role.REASON, indent=2) for example in examples_for(bench)]
    lines.append(Line("Of the talk itself:", role.OPTION))
    lines += [Line(f'"{one.says}": {one.does}.', role.REASON, indent=2) for one in SPOKEN]
    lines.append(Line('"take the second", or its number: take an option.', role.REASON, indent=2))
    lines.append(Line('"no, the right one": correct it. "scratch that": take it back.', role.REASON, indent=2))
    return _tell(bench, words, lines, f"Say what you see, do or ask{f' about {here.name}' if here else ''}, as in")


def examples_for(bench: Bench) -> list[str]:
    """Statements that the rules answer for the tree at hand: a few of the rules' own, on its species where they say."""
    from benchmate.talk.trees.which_tree import is_of

    here = bench.here
    examples = ["second flush is hardened, what now", "can I wire it", "when can I repot it", "repotted it today"]
    names = [
        name
        for taxon, row in bench.house.book.taxa.items()
        if here and is_of(here, taxon)
        for name in row.get("names", ())[:1]
    ]
    if names:
        examples.insert(0, f"{names[0]}, strong, first flush has hardened, what now")
    if here and bench.house.trees():
        other = bench.house.next_tree(here)
        if other and other.name != here.name:
            examples.append(f"let's do {other.name}")
    return examples


@spoken(
    "where am I", "the tree at hand, the day, what is known of it", r"where (am i|are we)|which tree( is this)?|status"
)
def where_am_i(bench: Bench, words: str) -> Answer:
    """The tree at hand with what is known of it today."""
    from benchmate.talk.status import known_words, status_words

    return _tell(
        bench, words, [Line(known, role.REASON, indent=2) for known in known_words(bench)], status_words(bench)
    )


_SHEET = (
    r"(?:(?:show|give|print|tell)(?: me)? )?(?:its |the |(?P<whose>.+?)(?:'s|s') )?"
    r"sheet(?: of (?P<of>.+?))?(?: please)?"
    r"|(?:(?:show|tell|give) me )?(?:everything|all)(?: you know| you have| there is| that is known| known)? "
    r"(?:about|on|of) (?P<about>(?!trees|the trees|my trees|them).+?)(?: please)?"
)


@spoken("show me its sheet", "all that is known of the tree on one page, in lines", _SHEET)
def sheet(bench: Bench, words: str) -> Answer:
    """The tree's sheet in lines. The page to print is the command `benchmate sheet`."""
    match = re.fullmatch(_SHEET, words.strip(" .!?"), re.IGNORECASE)
    name = (match["whose"] or match["of"] or match["about"]) if match else None
    if match and match["about"] and not of_tree(bench, str(name)):  # "tell me all about aphids"
        from benchmate.talk.heard_in_talk import heard_in_talk

        return bench.carry(heard_in_talk(bench, words))
    tree = (
        bench.house.garden.find(name)
        if name and name.casefold() not in ("it", "this tree", "this one") and bench.house.garden
        else bench.here
    )
    if tree is None:
        return _tell(bench, words, [], "No tree is at hand; name one, as in: show me the sheet of Gatepost")
    from benchmate.talk.recorded.sheet_of import sheet_of
    from benchmate.telling.page import sheet_lines

    lines = sheet_lines(sheet_of(tree, bench.house, bench.on), _NARROW, plain=bench.plain)
    return _tell(bench, words, lines)


def of_tree(bench: Bench, name: str) -> bool:
    """Whether a name is that of a tree of the garden, or means the one at hand."""
    from benchmate.talk.trees.which_tree import named

    return name.casefold() in ("it", "this tree", "this one") or named(bench.house.trees(), name) is not None


@spoken(
    "what has it taught",
    "numbers learned from its record: days from cut to flush, growth, wire time",
    r"what (has|did|have) (it|we|i|the tree|the record) (taught|teach|learn(ed|t)?)( me| us)?( from it| so far)*",
)
def what_it_taught(bench: Bench, words: str) -> Answer:
    """What the journals taught about the tree at hand, each with how often it was seen."""
    from benchmate.talk.asked.plans import lessons_for, plan_book
    from benchmate.telling.plan import lesson_lines

    here = bench.here
    if here is None:
        return _tell(bench, words, [], "No tree is at hand; turn to one, as in: let's do Gatepost")
    learned = [one for one in lessons_for(bench.house, here, bench.on, plan_book(bench.house)) if one.learned]
    if not learned:
        return _tell(bench, words, [], f"The record of {here.name} is too short to teach anything yet")
    return _tell(bench, words, lesson_lines(learned))


@spoken("log it again", "another try at what could not be written", r"(log|write) (it|that) again|try again")
def log_again(bench: Bench, words: str) -> Answer:
    """Write what could not be written before."""
    if not bench.unwritten:
        return _tell(bench, words, [], "Nothing waits to be written")
    waiting, bench.unwritten = bench.unwritten, ()
    logged: list[Entry] = []
    unlogged = None
    for name, entries in waiting:
        try:
            logged += bench.log(bench.turn_to(name), entries)
        except bench.house.not_logged as error:
            unlogged = str(error).removeprefix("not logged: ")
            bench.unwritten = (*bench.unwritten, (name, entries))
    return Answer(Reading(words), bench.on, bench.context.tree, logged=tuple(logged), unlogged=unlogged)


@spoken(
    "what did I just log",
    "what this talk put down last, else what stands there of today",
    r"(and )?(what (did|have) (i|we|you) just (log(ged)?|put down|enter(ed)?|record(ed)?|wr[io]t(e|ten) down|note(d)?)|"
    r"what (was|did you) just (log(ged)?|put down|record(ed)?)|what was that entry|what (did|have) you (log|logged)|"
    r"(show me |list |tell me )?(today's|todays) (entries|entry|log|record)|"
    r"what('s| is| stands) (on|in) (the |its )?record (for|of|from) today)",
)
def just_logged(bench: Bench, words: str) -> Answer:
    """The entries of the last statement that logged any, else those of today on the tree at hand."""
    from benchmate.telling.story import entry_words

    units, lately = bench.house.place.units, bench.context.logged
    if lately and "today" not in words.casefold():
        told = [f"For {name}: {entry_words(entry, bench.on, units)}" for name, entry in lately]
        return _tell(bench, words, [Line(one, role.REASON, indent=2) for one in told[1:]], told[0])
    if (here := bench.here) is None:
        return _tell(bench, words, [], "Nothing was logged in this talk, and no tree is at hand")
    today = [entry for entry in bench.house.lately_standing(here) if entry.day == bench.on]
    told = [entry_words(entry, bench.on, units) for entry in today]
    if not told:
        return _tell(bench, words, [], f"Nothing of today is on record for {here.name}")
    return _tell(bench, words, [Line(one, role.REASON, "- ", 2) for one in told], f"On record today for {here.name}")


@spoken(
    "thanks",
    "a greeting or thanks: which tree is at hand",
    r"(many )?(thanks|thank you|ta|cheers)( a lot| very much| so much)?|hello( there)?|hi( there)?|hey( there)?|"
    r"good (morning|afternoon|evening)",
)
def greeted(bench: Bench, words: str) -> Answer:
    """Which tree is at hand: a greeting asks for nothing and is kept nowhere."""
    here = bench.here
    return _tell(bench, words, [], f"{here.name} is at hand" if here else "No tree is at hand; name one to begin with")
