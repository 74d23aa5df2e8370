"""What goes on with a question: "and repotted", "and prune it" behind "when was it last fed" ask and tell nothing."""

from __future__ import annotations

from typing import TYPE_CHECKING

from benchmate.hearing.reading import NOWHERE, Reading
from benchmate.talk.asked.asked_how import phrase_places
from benchmate.value import replace

if TYPE_CHECKING:
    from benchmate.talk.context import Context
    from benchmate.talk.corrected.amended import Short

_OF_THE_RECORD = frozenset({"recall", "list"})
_WEIGHED = frozenset({"may", "when"})


def asked_too(short: Short, talk: Context) -> Reading | None:
    """The question before, asked of the work that is named now. None where the words tell of work: where they name who
    did it or a day, or tell it as done behind a question whether it may be done."""
    last, heard = talk.reading, short.heard
    if last is None or "ask" not in last.acts or talk.amends is not last:
        return None
    of_record = last.topic in _OF_THE_RECORD
    if not (of_record or last.topic in _WEIGHED) or not last.work or not _goes_on(short):
        return None
    told = [work for work in heard.work if work.work]
    done = ("now", "done") if of_record else ("now",)
    bare = heard.acts == ("decide",) and told and all(work.done in done for work in told)
    asked = heard.acts == ("ask",) and of_record and heard.topic in ("may", "recall") and told and _no_head(short)
    if not (bare or asked) or heard.when or heard.measures or heard.missed or heard.note or heard.every:
        return None
    if any(value == "i" for _, _, value in phrase_places(short.texts, "AUX", short.lexicon)):
        return None
    species = tuple(fact for fact in heard.facts if fact.kind == "species" and not fact.denied)
    if len(species) != len(heard.facts):
        return None
    kept = () if species or heard.tree else tuple(fact for fact in last.facts if fact.kind == "species")
    return replace(
        heard,
        acts=("ask",),
        topic=last.topic,
        facts=(*species, *kept),
        tree=heard.tree or (None if species else last.tree),
        several=heard.several or (None if species or heard.tree else last.several),
        work=tuple(replace(work, done=None, denied=last.work[-1].denied) for work in told),
        when=last.when if of_record else None,
        onward=last.onward,
    )


def _goes_on(short: Short) -> bool:
    """Whether the words join on to what was said ("and ..."), or end in a question mark."""
    texts = short.texts
    joins = bool(texts) and any(
        start == 0 and value in ("and", "or") for start, _, value in phrase_places(texts[:1], "SEP", short.lexicon)
    )
    return joins or texts[-1:] == ["?"]


def _no_head(short: Short) -> bool:
    """Whether it is no question of its own: not "and can I prune it"."""
    kinds = ("QMAY", "QCAN", "QWHEN", "QHOW", "QWHY", "QRECALL", "QLIST")
    return not any(start <= 1 for kind in kinds for start, _, _ in phrase_places(short.texts, kind, short.lexicon))


def asked_further(short: Short, talk: Context) -> Reading | None:
    """ "When again", "how far", "how many times this year": asked of the work that was just spoken of."""
    last, lexicon = talk.reading, short.lexicon
    works = [work for work in last.work if work.work] if last else []
    if last is None or not works or last.several or short.heard.work or "decide" in short.heard.acts:
        return None
    said = " ".join(short.texts).strip(" ?.!,")
    for opener in sorted(lexicon.sense["openers"], key=len, reverse=True):
        said = said.removeprefix(f"{opener} ")
    topic = next((topic for topic, phrases in lexicon.sense["further"].items() if said in phrases), None)
    if topic is None:
        return None
    when = short.on[:4] if "this year" in said else None
    species = tuple(fact for fact in last.facts if fact.kind == "species")
    asked = tuple(replace(work, done=None, measures={}, span=(0, 0)) for work in works)
    return Reading(short.said, ("ask",), topic, species, asked, tree=last.tree, when=when)


def once_more(short: Short, talk: Context) -> Reading | None:
    """ "Can I do the same in August": the work that was just spoken of, asked for the time that is named."""
    last, sense = talk.reading, short.lexicon.sense
    works = [work for work in last.work if work.work] if last else []
    if last is None or not works or last.several:
        return None
    texts = [text for text in short.texts if text not in ("?", ".", "!")]
    start = next((n for n, text in enumerate(texts) if text not in sense["openers"]), 0)
    for phrase in sense["once_more"]["may"]:
        end = start + len(phrase.split())
        if texts[start:end] != phrase.split():
            continue
        tail = " ".join(texts[end:])
        day = short.hear(f"I will repot it {tail}") if tail else None
        if day is not None and (day.missed or day.facts or not day.when or len(day.work) != 1 or day.measures):
            continue
        if day is None and "ask" in last.acts:
            continue
        asked = tuple(replace(work, done=None, span=(0, 0)) for work in works)
        species = tuple(fact for fact in last.facts if fact.kind == "species")
        when = (day.when, day.day) if day is not None else (None, None)
        return Reading(short.said, ("ask",), "may", species, asked, tree=last.tree, when=when[0], day=when[1])
    return None


def reworded(short: Short, talk: Context) -> Reading | None:
    """ "When does it come off", "how long do I keep it in the shade", behind work: when what was done is undone."""
    last = talk.reading
    said = " ".join(short.texts).strip(" ?.!,")
    for opener in sorted(short.lexicon.sense["openers"], key=len, reverse=True):
        said = said.removeprefix(f"{opener} ")
    plain = next((plain for plain, ways in short.lexicon.sense["reworded"].items() if said in ways), None)
    if last is None or plain is None or last.several or not any(work.work for work in last.work):
        return None
    asked = short.hear(plain)
    if asked.topic != "when" or len(asked.work) != 1 or not asked.work[0].work:
        return None
    spots = {work.spot for work in last.work}
    place = spots.pop() if len(spots) == 1 else asked.work[0].spot
    work = replace(asked.work[0], span=(0, 0), spot=place if asked.work[0].spot == NOWHERE else asked.work[0].spot)
    species = tuple(fact for fact in last.facts if fact.kind == "species")
    open_yet = tuple(replace(one, done=None, span=(0, 0)) for one in last.work if one.work and one.work != work.work)
    supposes = open_yet if last.acts == ("ask",) and last.topic in _WEIGHED else ()  # it is not done yet
    return Reading(short.said, ("ask",), "when", species, (work,), tree=last.tree, supposes=supposes)
