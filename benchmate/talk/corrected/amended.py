"""Short words that only what was said last gives a meaning: "a quarter, not a third", "oh and the right branch",
"forget the left one". What comes out is a statement that stands by itself."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping, Sequence

from benchmate.hearing.reading import NOWHERE, Reading, Spot, Work
from benchmate.hearing.vocabulary.lexicon import Lexicon
from benchmate.hearing.vocabulary.words import Word
from benchmate.talk.asked.asked_how import phrase_places
from benchmate.talk.asked.asked_too import asked_further, asked_too, once_more, reworded
from benchmate.talk.context import Context
from benchmate.talk.told.answered import answered, on_that_day, told_apart
from benchmate.value import dataclass, replace

Hear = Callable[[str], Reading]
SAME, OTHER, IT = "same", "other", "it"  # words that point back, as a reading names them
STRIKE, PLAN, DOUBT = "strike", "plan", "doubt"  # the ways of taking back, as rules/words/talk.toml names them
_OPPOSITE = {
    "left": "right", "right": "left", "front": "back", "back": "front",
    "low": "high", "high": "low", "inner": "outer", "outer": "inner", "top": "bottom", "bottom": "top",
}  # fmt: skip
_ALIKE = 0.001  # two shares closer than this are one: a third is 0.3333


@dataclass(frozen=True, slots=True)
class Short:
    """A statement as it was said. heard: what it says by itself. parts: its words with their places in it. hear: hears
    other words on the same day. on: today, ISO."""

    said: str
    heard: Reading
    parts: Sequence[Word]
    hear: Hear
    lexicon: Lexicon
    on: str

    @property
    def texts(self) -> list[str]:
        return [word.text for word in self.parts]

    def between(self, start: int, end: int) -> str:
        """The words from one to the other, as said."""
        return self.said[self.parts[start].start : self.parts[end - 1].end] if start < end else ""

    def change(self, words: str) -> Work | None:
        """The place or measure that the words name and nothing beside: what a correction with them would change."""
        if not words:
            return None
        fix = self.hear(words)
        if fix.acts != ("correct",):
            fix = self.hear(f"{self.lexicon.sense['refusals'][0]}, {words}")
        if fix.acts != ("correct",) or fix.facts or fix.missed or fix.tree or len(fix.work) != 1 or fix.when:
            return None
        (work,) = fix.work
        return work if work.work is None and (work.spot != NOWHERE or work.measures) else None


def amended(short: Short, talk: Context) -> Reading | None:
    """The statement that is meant, or None where the words stand by themselves."""
    from benchmate.talk.corrected.said_about import said_about
    from benchmate.talk.corrected.taken_back import tree_back, work_back
    from benchmate.talk.told.did_ones import did_ones
    from benchmate.talk.told.did_that import did_that
    from benchmate.talk.trees.by_size import by_size, size_of_it

    if (back := said_about(short, talk)) is not None:
        return back
    if talk.amends is None and talk.reading is None:
        return did_ones(short, talk) or work_back(short, talk)
    from benchmate.talk.asked.same_asked import same_asked
    from benchmate.talk.corrected.narrowed import narrowed
    from benchmate.talk.corrected.not_yet import not_yet
    from benchmate.talk.corrected.other_tree import meant_another, on_each, tree_for_tree
    from benchmate.talk.corrected.size_after import size_after
    from benchmate.talk.corrected.wrong_tree import wrong_tree
    from benchmate.talk.told.picked import picked

    for way in (
        *(
            picked,
            not_yet,
            did_ones,
            work_back,
            wrong_tree,
            tree_for_tree,
            meant_another,
            on_each,
            tree_back,
            _not_that,
            narrowed,
            by_size,
            same_asked,
            _put_right,
            _instead,
            _there_too,
            _part_back,
            _done_there,
            answered,
        ),
        *(told_apart, asked_too, asked_further, once_more, reworded, did_that, on_that_day, size_after, size_of_it),
    ):
        if (meant := way(short, talk)) is not None:
            return meant
    return None


def _not_that(short: Short, talk: Context) -> Reading | None:
    """ "A quarter, not a third", "it was the right, not the left": what is denied was said last, so the rest is meant
    in its stead."""
    from benchmate.talk.corrected.correct import counted

    last = talk.amends
    if last is None or not last.work or {"remind", "new"} & set(short.heard.acts):
        return None
    for first, second in _parted(short):
        meant = short.change(first) or short.change(_with_unit(first, second))
        denied = short.change(second) or short.change(_with_unit(second, first))
        if meant is None or denied is None:
            continue
        bears = [work for work in last.work if work.work and _says(work, counted(denied, [work]))]
        if len(bears) == 1:
            meant = counted(meant, bears) if counted(denied, bears) != denied else meant
            return Reading(short.said, ("correct",), work=(replace(meant, work=bears[0].work),))
    return None


def _parted(short: Short) -> Iterator[tuple[str, str]]:
    """What is meant and what is denied, as said: "... not ...", "not ..., ..."."""
    texts = short.texts
    for start, end, value in phrase_places(texts, "AUX", short.lexicon):
        if value != "not":
            continue
        head = start - 1 if start and texts[start - 1] == "," else start
        if head:
            yield short.between(0, head), short.between(end, len(texts))
        elif "," in texts[end:]:
            comma = texts.index(",", end)
            yield short.between(comma + 1, len(texts)), short.between(end, comma)


def _with_unit(number: str, other: str) -> str:
    """ "Two leaves, not three": the number that stands alone is of what the other one counts."""
    return " ".join([number, *other.split()[1:]]) if len(number.split()) == 1 else ""


def _says(work: Work, denied: Work) -> bool:
    """Whether the work was said to be so: at that place, of that measure."""
    spot = work.spot.as_json()
    same = all(spot.get(key) == value for key, value in denied.spot.as_json().items())
    return same and all(abs(work.measures.get(key, -1) - value) < _ALIKE for key, value in denied.measures.items())


def _put_right(short: Short, talk: Context) -> Reading | None:
    """ "Actually a third": words that put right where a comma parts them from what is meant, said without one."""
    if talk.amends is None or not talk.amends.work or set(short.heard.acts) - {"observe"} or short.heard.facts:
        return None
    for end in (1, 2):
        head = [*short.texts[:end], ","]
        if len(short.parts) > end and (0, len(head)) in _spans(head, "CORRECT", short.lexicon):
            meant = short.change(short.between(end, len(short.parts)))
            return Reading(short.said, ("correct",), work=(meant,)) if meant else None
    return None


def _instead(short: Short, talk: Context) -> Reading | None:
    """ "Actually I kept the left one, not the right": the same work as was just told, elsewhere; what puts right stands
    before it without a comma."""
    last, texts = talk.amends, short.texts
    if last is None or "ask" in short.heard.acts or not talk.made:
        return None
    end = next(
        (n for n in (1, 2) if len(texts) > n and (0, n + 1) in _spans([*texts[:n], ","], "CORRECT", short.lexicon)), 0
    )
    if not end:
        return None
    for first, second in [*_parted(short), (short.said, "")]:
        head = short.between(0, end)
        fix = short.hear(f"{head}, {first.removeprefix(head).strip(' ,')}")
        if fix.acts != ("correct",) or fix.facts or fix.missed or fix.tree or fix.when or len(fix.work) != 1:
            continue
        (meant,) = fix.work
        told = [work for work in last.work if work.work and work.work == meant.work and work.done != "not"]
        elsewhere = len(told) == 1 and moved(told[0].spot, meant.spot) != told[0].spot
        denied = short.change(second)
        if elsewhere and (not second or (denied and _says(told[0], denied))):
            return Reading(short.said, ("correct",), work=(replace(meant, span=(0, 0), done=told[0].done),))
    return None


def _there_too(short: Short, talk: Context) -> Reading | None:
    """ "Oh and the right branch": what was said last, at a further place."""
    last, heard = talk.reading, short.heard
    if last is None or {"ask", "remind"} & set(heard.acts) or not {"ask", "decide"} & set(last.acts):
        return None
    if any(work.work for work in heard.work) or SAME in heard.refers:
        return None
    texts, openers, joining = short.texts, short.lexicon.sense["openers"], False
    at = 0
    while at < len(texts):
        joins = any(value == "and" for start, _, value in phrase_places(texts[at : at + 1], "SEP", short.lexicon))
        if not joins and texts[at] not in openers:
            break
        joining, at = joining or joins, at + 1
    place = short.change(short.between(at, len(texts))) if joining else None
    works = [work for work in last.work if work.work]
    if place is None or place.measures or place.spot == NOWHERE or len({work.spot for work in works}) != 1:
        return None
    spot = moved(works[0].spot, place.spot)
    further = tuple(replace(work, spot=spot, span=(0, 0)) for work in works)
    return replace(last, said=short.said, work=further, facts=(), missed=())


def moved(before: Spot, now: Spot) -> Spot:
    """The place before with what is named now in its stead; a new place drops the old count and order."""
    if now == NOWHERE:
        return before
    return Spot(now.part or before.part, now.side, now.level, now.ordinal, now.count)


def opposite(spot: Spot) -> Spot:
    """The place across from it, or the place itself where it has none."""
    if spot.side in _OPPOSITE:
        return replace(spot, side=_OPPOSITE[spot.side])
    return replace(spot, level=_OPPOSITE[spot.level]) if spot.level in _OPPOSITE else spot


def _part_back(short: Short, talk: Context) -> Reading | None:
    """ "Forget the left one, I didn't do that": what takes "that" back takes back what was done at the place named."""
    if talk.reading is None or {"ask", "remind"} & set(short.heard.acts):
        return None
    if any(work.work for work in short.heard.work):  # "drop the left branch" is work
        return None
    that = short.lexicon.sense["pointers"]
    stop = short.texts.index(",") if "," in short.texts else len(short.parts)
    for end in range(1, min(4, stop)):
        head = short.texts[:end]
        if not any((0, end + 1) in _spans([*head, word], "STRIKE", short.lexicon) for word in that):
            continue
        place = short.change(short.between(end, stop))
        if place is not None and place.spot != NOWHERE:
            return Reading(short.said, ("strike",), work=(place,))
    return None


def _done_there(short: Short, talk: Context) -> Reading | None:
    """ "Remind me to do the bottom ones in ten days", "I'll do the right one on Sunday": to do so is to do what was
    done last, there."""
    last, heard = talk.reading, short.heard
    if last is None or heard.acts not in (("remind",), ("decide",)) or any(_named(short, work) for work in heard.work):
        return None
    doing = [end for _, end, value in phrase_places(short.texts, "AUX", short.lexicon) if value == "do"]
    works = [work for work in last.work if work.work]
    if not doing or len({work.spot for work in works}) != 1:
        return None
    fix = short.hear(f"{short.lexicon.sense['refusals'][0]}, {short.between(doing[-1], len(short.parts))}")
    places = [work.spot for work in fix.work]
    if fix.acts != ("correct",) or fix.facts or len(places) > 1 or any(work.work for work in fix.work):
        return None
    spot = works[0].spot
    if places and places[0] != NOWHERE:
        spot = moved(spot, places[0])
    elif OTHER in fix.refers:
        spot = opposite(spot)
    elif IT not in fix.refers:  # "the rest"
        spot = Spot(spot.part)
    ahead = heard.when is not None and heard.when > short.on[: len(heard.when)]
    done = None if "remind" in heard.acts else "later" if ahead else "now"
    again = tuple(replace(work, spot=spot, done=done, span=(0, 0)) for work in works)
    return replace(heard, work=again, refers=(), missed=())


def _named(short: Short, work: Work) -> bool:
    """Whether the words name the work themselves; a reminder of nothing else is one to look."""
    return work.work is not None and (work.span != (0, 0) or "remind" not in short.heard.acts)


def strike_said(said: str, lexicon: Lexicon) -> str:
    """What the words take back: the last entry (STRIKE), the last plan, a plan made just now (DOUBT, where it opens the
    statement), or so many entries ("2")."""
    found = phrase_places(lexicon.split(said), "STRIKE", lexicon)
    ways = [str(value) for start, _, value in found if value != DOUBT or start == 0]
    if any(value == DOUBT for _, _, value in found) and not ways:
        return DOUBT  # it only doubts what was just said in the same breath
    return next((way for way in ways if way != STRIKE), STRIKE)


def at_place(table: Mapping[str, object], place: Work) -> bool:
    """Whether a work in the record was done there."""
    return all(table.get(key) == value for key, value in place.spot.as_json().items())


def _spans(texts: Sequence[str], kind: str, lexicon: Lexicon) -> list[tuple[int, int]]:
    return [(start, end) for start, end, _ in phrase_places(texts, kind, lexicon)]
