"""An answer as the grower reads it: the answer in one line, cautions, options, what was heard and logged, questions."""

from __future__ import annotations

import datetime as dt
from collections.abc import Iterable

from benchmate.garden.record import Entry
from benchmate.practice.advice import AVOID, GO, HOLD, Caution, Option
from benchmate.telling import lines as role
from benchmate.telling.answer import Answer
from benchmate.telling.dates import day_of, day_words
from benchmate.telling.figures import figure_notes
from benchmate.telling.headline import headline_of
from benchmate.telling.heard import heard_lines
from benchmate.telling.lines import Line
from benchmate.telling.options import option_lines
from benchmate.telling.story import entry_words
from benchmate.telling.wording import list_words, sentence
from benchmate.telling.works import told_of

MOST_OPTIONS, MOST_FOR_TREE = 5, 3
_LATELY_DAYS = 60
MANY_TREES = 4  # of so many and more, what is the same is told once
NAMED_AHEAD = 3  # trees that are named before what was logged for them; more are named behind it
OF_KIND = "about-"  # what the id of a caution about one kind of tree begins with


def tell(answer: Answer, *, plain: bool = False) -> list[Line]:
    """The answer's lines, unwrapped. plain: for a screen reader, words in place of signs."""
    advice = answer.advice
    lines: list[Line] = []
    if answer.unlogged:
        lines.append(Line(f"Not logged: {answer.unlogged}", role.ANSWER))
    if answer.confirm:
        done = "taken back" if "strike" in answer.reading.acts else "logged"
        lines.append(Line(f"{answer.confirm} Nothing is {done} yet.", role.ANSWER))
    if headline := headline_of(answer):
        lines.append(Line(headline, role.ANSWER))
    lines += [Line(words, role.ASIDE) for words in answer.says[1:]]
    lines += [Line(sentence(words), role.ASIDE) for words in answer.own[1:]]
    if advice:
        lines += caution_lines(advice.cautions, answer.told_before, plain)
        for figure in advice.figures:
            lines += figure_notes(figure, answer.units)
        too_late = done_at_wrong_time(answer)
        lessened = lessening(too_late) if lately_done(answer) else []
        lines += [Line(sentence(words), role.ASIDE, "What lessens it now: ") for words in lessened]
        for number, option in () if too_late else shown_options(answer):
            lines += option_lines(number, option, answer.on, answer.units, plain)
        if (rest := len(advice.options) - MOST_OPTIONS) > 0 and not too_late:
            lines.append(Line(f'{rest} more: say "more".', role.ASIDE))
        if advice.dose_left is not None and (advice.figures or any(_takes_leaf(option) for option in advice.options)):
            lines.append(Line(dose_words(advice.dose_left), role.ASIDE))
        lines += [Line(sentence(words), role.ASIDE, "Taken as known: ") for words in advice.assumed]
    lines += [Line(sentence(words), role.ASIDE) for words in answer.aside]
    lines += answer.lines
    again = any(len(entry.follow) > 1 for entry in answer.logged if entry.kind == "plan")
    lines += heard_lines(answer.reading, answer.on, answer.units, kept_again=bool(answer.reading.until) and again)
    lines += logged_lines(answer)
    lead = "Question: " if plain else "? "
    lines += [Line(ask.says, role.ASK, lead) for ask in answer.all_asks]
    return lines


def done_at_wrong_time(answer: Answer) -> list[str]:
    """The works that were done where they had better have waited, and that nothing is left to choose of: a verdict on
    what cannot be undone helps nobody."""
    reading, advice = answer.reading, answer.advice
    done = {work.work for work in reading.work if work.work and work.done == "done"}
    if advice is None or "decide" not in reading.acts or "ask" in reading.acts or not done:
        return []
    if any(work.work and work.done != "done" for work in reading.work):
        return []
    return [one.work for one in advice.options if one.work in done and one.verdict in (HOLD, AVOID)]


def lately_done(answer: Answer) -> bool:
    """Whether the work is so fresh that care lessens its harm; what is not logged is taken as fresh."""
    return all((answer.on - entry.day).days <= _LATELY_DAYS for entry in answer.logged if entry.kind == "done")


def lessening(works: Iterable[str]) -> list[str]:
    """What lessens the harm of the works, each once, as rules/works have it."""
    told = [str((told_of(work) or {}).get("lessens", "")) for work in works]
    return list(dict.fromkeys(filter(None, told)))


def shown_options(answer: Answer) -> list[tuple[int | None, Option]]:
    """The options that are told at once, with their numbers: the first few, and of a decision that nothing stands
    against those on the work that was decided, without numbers: nothing is left to take."""
    reading, options = answer.reading, answer.advice.options if answer.advice else ()
    numbered: list[tuple[int | None, Option]] = list(enumerate(options[:MOST_OPTIONS], 1))
    if "decide" not in reading.acts or "ask" in reading.acts:
        return numbered
    decided = {work.work for work in reading.work if work.work}
    about = [option for option in options if option.work in decided]
    sound = about and all(option.verdict == GO for option in about)
    return [(None, option) for option in about] if sound else numbered


def ordered(cautions: tuple[Caution, ...]) -> list[Caution]:
    """Cautions as they are told: for people first, then the law's, then the tree's."""
    return sorted(
        cautions,
        key=lambda caution: (
            ("person", "law", "tree").index(caution.kind) if caution.kind in ("person", "law", "tree") else 3
        ),
    )


def caution_lines(cautions: tuple[Caution, ...], told_before: frozenset[str], plain: bool) -> list[Line]:
    """Every caution for people and of the law; of those for the tree the first few, and how many more there are.

    What is special to a kind of tree and was told in this session already only counts among the rest.
    """
    told = ordered(cautions)
    trees = [caution for caution in told if caution.kind not in ("person", "law")]
    fresh = [caution for caution in trees if not (caution.id.startswith(OF_KIND) and caution.id in told_before)]
    kept = [caution for caution in told if caution not in trees or caution in fresh[:MOST_FOR_TREE]]
    lines = [caution_line(caution, told_before, plain) for caution in kept]
    if more := len(told) - len(kept):
        lines.append(Line(f'({more} more to mind: say "more".)', role.ASIDE))
    return lines


def caution_line(caution: Caution, told_before: frozenset[str], plain: bool) -> Line:
    """A caution in full, or short where this session has had it in full; it is never left out."""
    words = caution.short if caution.short and caution.id in told_before else caution.says
    return Line(sentence(words), role.CAUTION, "Caution: " if plain else "! ")


def dose_words(left: float) -> str:
    """How much of the crown may still be taken this season. left: a share, 0 to 1."""
    if left <= 0.005:
        return "No foliage is left to spend this season."
    return f"About {left * 100:.0f} % of the foliage is still to spend this season."


def logged_lines(answer: Answer) -> list[Line]:
    """One line an entry that stands (or would), and what to come back for; one line for many trees of which the same
    is logged."""
    trees = answer.logged_for or (answer.tree,) * len(answer.logged)
    told: dict[tuple[str, tuple[Line, ...], str], list[str]] = {}
    many = len(set(trees)) >= MANY_TREES
    for number, (entry, tree) in enumerate(zip(answer.logged, trees, strict=True)):
        if entry.kind == "struck":
            continue
        words = entry_words(entry, answer.on, answer.units)
        same = (words, tuple(_follow_lines(entry, answer.on)), "" if many else str(number))
        told.setdefault(same, []).append(tree or "")
    lines = []
    for (words, follow, _), names in told.items():
        name = f" for {list_words(names)}" if any(names) else ""
        if len(names) > NAMED_AHEAD:  # what stands ahead of a line is not broken, and indents what follows
            name, words = f" for {len(names)} trees", f"{words}: {list_words(names)}"
        head = f"Would log{name}: " if answer.dry else f"Logged{name}: "
        lines.append(Line(words if words[-1] in ".!?" else f"{words}.", role.LOGGED, head))
        lines += follow
    return lines


def _follow_lines(entry: Entry, on: dt.date) -> list[Line]:
    lines = []
    for follow in entry.follow:
        when = day_of(follow.get("on"))
        words = str(follow.get("says") or follow.get("work", ""))
        told = f"{sentence(words)} ({day_words(when, on)})" if when else sentence(words)
        lines.append(Line(told, role.ASIDE, "Due: ", 2))
    return lines


def _takes_leaf(option: Option) -> bool:
    return "share" in option.amount
