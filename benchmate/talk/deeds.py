"""Deeds that a statement may do beside what it says: take back, take an option, begin a tree's record."""

from __future__ import annotations

from typing import TYPE_CHECKING

from benchmate.garden.record import Entry, Tree
from benchmate.hearing.ear import BREAKS
from benchmate.hearing.reading import NOWHERE, Reading, Spot, Work
from benchmate.practice.advice import AVOID, GO, HOLD, Advice, Option
from benchmate.talk.asked.asked_how import phrase_places
from benchmate.talk.context import Logged
from benchmate.talk.corrected.amended import DOUBT, PLAN, STRIKE, at_place, strike_said
from benchmate.talk.decide import LEFT_WORKS, entries_of, picked_entry
from benchmate.talk.told.picked import picked_anew, put_off_by
from benchmate.talk.trees.renaming import name_taken_back
from benchmate.talk.trees.which_tree import meant_tree, species_said, which
from benchmate.telling.dates import day_of, day_words
from benchmate.telling.options import option_words
from benchmate.telling.story import entry_words, matching
from benchmate.telling.wording import sentence, spot_words, work_words
from benchmate.value import replace

if TYPE_CHECKING:
    from benchmate.talk.turns import Turn


_LISTS = frozenset({"due", "list", "recall", "plan"})  # questions whose answers number no options


def strike(turn: Turn) -> None:
    """Take back what this talk logged last, else the tree's last entry: by a further entry each. An entry that is
    neither of this talk nor of today is taken back only after a yes, and so is any where the words may not mean it."""
    told = len(turn.says)
    _strike(turn)
    if turn.struck and not turn.confirmed and _doubtful(turn):
        words = " ".join(turn.says[told:]).removeprefix("Would take back").removeprefix("Taken back")
        turn.confirm = f"This would take back{words} Is that meant? Say yes or no."
        del turn.says[told:]


def _doubtful(turn: Turn) -> bool:
    """Whether what takes back is asked ("scratch that?"), or stands among words that were not understood."""
    said = turn.reading.said
    texts = turn.house.lexicon.split(said)
    if said.rstrip().endswith("?") and not set(texts) & set(turn.house.lexicon.sense["politely"]):
        return True
    lost = {word for one in turn.reading.missed for word in turn.house.lexicon.split(one.words)}
    for start, end, _ in phrase_places(texts, "STRIKE", turn.house.lexicon):
        first = max((n + 1 for n in range(start) if texts[n] in BREAKS), default=0)
        last = next((n for n in range(end, len(texts)) if texts[n] in BREAKS), len(texts))
        if lost & {*texts[first:start], *texts[end:last]}:
            return True
    return False


def _strike(turn: Turn) -> None:
    before, reading = turn.before, turn.reading
    if "said" in reading.refers:
        from benchmate.talk.corrected.said_about import strike_said_about

        strike_said_about(turn)
        return
    if _strike_so(turn):
        return
    named = bool(reading.tree or species_said(reading))
    meant = meant_tree(replace(reading, refers=()), turn.house.trees(), turn.bench.here)
    pairs = before.logged
    if named and meant.tree:
        pairs = tuple(pair for pair in pairs if pair[0] == meant.tree.name)
    if pairs and (meant.tree or not named):
        take_back(turn, pairs)
    elif meant.tree is None:
        turn.says += [meant.aside] if meant.aside else []
        turn.asks.append(meant.ask or which(turn.house.trees()))
    elif not (entries := turn.house.lately_standing(meant.tree)[-1:]):
        turn.says.append(f"There is nothing to take back in the record of {meant.tree.name}")
    elif turn.confirmed or not turn.bench.talking or all(of_now(turn, entry) for entry in entries):
        take_back(turn, tuple((meant.tree.name, entry) for entry in entries))
    else:
        (entry,) = entries
        words = entry_words(entry, entry.day, turn.house.place.units)
        of = f"The last entry for {meant.tree.name} is of {day_words(entry.day)}"
        turn.confirm = f"{of}: {words}. Take that back? Say yes or no."


def _strike_so(turn: Turn) -> bool:
    """Take back what the words name closer than by "that": what was done at a place, the plan, the last two. False
    where they do not."""
    reading, way = turn.reading, strike_said(turn.reading.said, turn.house.lexicon)
    here = meant_tree(replace(reading, refers=()), turn.house.trees(), turn.bench.here).tree
    named = {work.work for work in reading.work if work.work} if way == PLAN else set()
    if named:  # "cancel the reminder to feed it" tells of no feeding
        turn.reading = reading = replace(reading, acts=("strike",), work=())
    if reading.acts == ("strike",) and reading.work and reading.work[0].work:
        strike_work(turn, reading.work[0])
    elif reading.acts == ("strike",) and reading.work:
        strike_part(turn, reading.work[0])
    elif way == DOUBT:
        plans = tuple(pair for pair in turn.before.made if pair[1].kind == "plan")
        if plans and turn.before.made == plans:
            take_back(turn, plans)
        else:
            turn.reading = replace(reading, acts=tuple(act for act in reading.acts if act != "strike"))
            turn.says += [] if turn.reading.acts else ["Nothing was planned just now, so nothing is taken back"]
            if "decide" in turn.reading.acts and not turn.confirmed:  # "wire it, maybe not today"
                turn.confirm = "That takes back what it says itself. Log it all the same? Say yes or no."
    elif here is None or way == STRIKE:
        return False
    else:
        standing = turn.house.lately_standing(here)
        planned = [one for one in standing if one.kind == "plan" and (not named or named & _works_of(one))]
        meant = planned[-1:] if way == PLAN else standing[-int(way) :]
        fresh = not turn.bench.talking or all(of_now(turn, one) for one in meant)
        if not meant:
            what = "no such plan" if named else "no plan"
            turn.says.append(f"There is {what} to take back in the record of {here.name}")
        elif turn.confirmed or fresh:
            take_back(turn, tuple((here.name, one) for one in meant))
        else:
            units = turn.house.place.units
            told = [f"{entry_words(one, turn.on, units)} ({day_words(one.day, turn.on)})" for one in meant]
            turn.confirm = f"On record for {here.name}: {'; '.join(told)}. Take that back? Say yes or no."
    return True


def strike_work(turn: Turn, named: Work) -> None:
    """Take back the newest entry that tells of that work: on every tree for which the last statement put it down, else
    on the tree that is meant. An older one is taken back only after a yes."""
    reading, last = replace(turn.reading, work=(), refers=()), turn.before.logged
    turn.reading = reading
    anywhere = not (reading.tree or species_said(reading)) and named.spot == NOWHERE
    told = tuple(pair for pair in last if any(work.get("work") == named.work for work in pair[1].work))
    if anywhere and len(told) > 1 and all(len(entry.work) == 1 for _, entry in told):
        take_back(turn, told)
        return
    tree = meant_tree(reading, turn.house.trees(), turn.bench.here).tree
    what = work_words(str(named.work), named.spot, done=True)
    if tree is None:
        turn.asks.append(which(turn.house.trees()))
        return
    standing = [one for one in matching(turn.house.entries(tree), kinds=("done",)) if _tells(one, named)]
    standing = sorted(standing, key=lambda one: (one.id in turn.bench.written, one.day))
    lately = [one for one in turn.house.lately_standing(tree) if of_now(turn, one)]
    planned = [one for one in lately if one.kind == "plan" and named.work in _works_of(one)]
    lately = [one for one in lately if one.kind == "done" and _tells(one, named)]
    entry = next(reversed(lately or planned or standing), None)
    if entry is None:
        turn.says.append(f"The record of {tree.name} holds no day when you {what}, so nothing is taken back")
    elif turn.confirmed or not turn.bench.talking or of_now(turn, entry):
        strike_of(turn, tree, entry, named)
    else:
        words = entry_words(entry, entry.day, turn.house.place.units)
        turn.reading = replace(reading, work=(named,))
        turn.confirm = (
            f"On record for {tree.name}: {words} ({day_words(entry.day, turn.on)}). Take that back? Say yes or no."
        )


def _tells(entry: Entry, named: Work) -> bool:
    return any(table.get("work") == named.work and at_place(table, named) for table in entry.work)


def strike_part(turn: Turn, place: Work) -> None:
    """Take back what was done at a place: of what this talk or this day put down, the newest that was done there."""
    tree = turn.bench.here
    entries = [one for one in turn.house.lately_standing(tree) if of_now(turn, one)]
    entry = next((one for one in reversed(entries) if any(at_place(work, place) for work in one.work)), None)
    if tree is None or entry is None:
        turn.says.append(f"Nothing was put down today for {spot_words(place.spot)}, so nothing is taken back")
        return
    strike_of(turn, tree, entry, place)


def strike_of(turn: Turn, tree: Tree, entry: Entry, place: Work) -> None:
    """Take back what an entry tells of the work or the place. What it tells beside stands, in a further entry."""
    gone = tuple(work for work in entry.work if at_place(work, place) and place.work in (None, work.get("work")))
    rest = tuple(work for work in entry.work if work not in gone)
    take_back(turn, ((tree.name, replace(entry, work=gone, facts=() if rest else entry.facts)),))
    if rest:
        follow = tuple(
            one for one in entry.follow if one.get("work") != place.work and (place.work or not at_place(one, place))
        )
        turn.to_log.append((tree, (replace(entry, id="", work=rest, follow=follow),)))


def _works_of(entry: Entry) -> set[object]:
    return {table.get("work") for table in (*entry.work, *entry.follow)}


def of_now(turn: Turn, entry: Entry) -> bool:
    """Whether an entry is of today or of this talk."""
    return entry.day == turn.on or entry.id in turn.bench.written


def take_back(turn: Turn, pairs: Logged) -> None:
    """Strike these entries, each in the record of its own tree."""
    turn.gone = pairs
    for name in dict.fromkeys(name for name, _ in pairs):
        tree = meant_tree(Reading("", tree=name), turn.house.trees(), None).tree
        if tree is None:
            continue
        entries = [entry for of, entry in pairs if of == name]
        tree = name_taken_back(turn, tree, entries)
        strikes = tuple(Entry("", turn.on, "struck", turn.reading.said, strikes=entry.id) for entry in entries)
        turn.to_log.append((tree, strikes))
        turn.struck = True
        told = "; ".join(entry_words(entry, turn.on, turn.house.place.units) for entry in entries)
        back = "Would take back" if turn.bench.dry else "Taken back"
        turn.says.append(sentence(f"{back} for {tree.name}: {told}"))


def another_option(turn: Turn) -> bool:
    """ "No, the third", right after an option was taken: another option of the same advice is taken instead."""
    reading, offered = turn.reading, turn.before.taken_from
    bare = [work.spot for work in reading.work if work.work is None and not work.measures]
    number = reading.pick
    if number is None and len(bare) == len(reading.work) == 1 and bare[0] == Spot(ordinal=bare[0].ordinal):
        number = bare[0].ordinal
    if offered is None or number is None:
        return False
    if (anew := picked_anew(reading.said, offered, number, turn.before.amends)) is not None:
        turn.reading = anew
        return True
    turn.reading = replace(reading, acts=("pick",), pick=number, work=())
    turn.before = replace(turn.before, advice=offered)
    return True


def pick(turn: Turn) -> None:
    """Take one of the options on offer. One that is not a go is put to the grower first."""
    listed = turn.before.amends is not None and turn.before.amends.topic in _LISTS
    offered, number = None if listed else turn.before.advice, turn.reading.pick or 0
    options = offered.options if offered else ()
    if not offered or not options:
        turn.says.append("No options stand on offer to take one from; ask first, as in: what now")
        return
    if not 1 <= number <= len(options):
        turn.says.append(f"There are {len(options)} options; say a number from 1 to {len(options)}")
        return
    option = options[number - 1]
    turn.reading = replace(turn.reading, refers=())
    if option.verdict in ("avoid", "ask") and not turn.confirmed:
        against = option.against[0].says if option.against else "a fact that decides is not known"
        turn.confirm = f"{sentence(against)} Log it all the same? Say yes or no."
        return
    last = turn.before.amends
    asked = {work.work for work in last.work if work.work} if last and "ask" in last.acts else set()
    if asked and option.work not in {*asked, *LEFT_WORKS} and not turn.confirmed:
        turn.confirm = f"That is not what was asked about. Log it, {option_words(option)}? Say yes or no."
        return
    if (lost := put_off_by(turn)) and not turn.confirmed:
        turn.confirm = f'"{lost}" was not taken in. Log it as done now, {option_words(option)}? Say yes or no.'
        return
    refused = [option_words(other) for other in options if other is not option and other.work not in LEFT_WORKS]
    turn.taken_from = offered
    turn.tree = meant_tree(Reading("", tree=offered.tree), turn.house.trees(), None).tree if offered.tree else None
    later = day_of(offered.on)
    if later and later > turn.on and option.verdict == GO:  # what was weighed for a day to come is planned for it
        option = replace(option, verdict=HOLD, opens=offered.on)
    else:
        option = _with_follow(turn, option)
    entry = picked_entry(option, turn.reading.said, turn.on, refused=refused, endings=turn.endings)
    reminders = entries_of(turn.reading, None, turn.on, southern=turn.southern)
    follow = tuple(one for reminder in reminders for one in reminder.follow)
    turn.says.append(f"Taken: {option_words(option)}")
    turn.keep((replace(entry, follow=(*entry.follow, *follow)),))
    turn.meaning = Reading(
        turn.reading.said, ("decide",), work=(Work(option.work, option.spot, {}, "now", option.manner),)
    )


def _with_follow(turn: Turn, option: Option) -> Option:
    """The option with what to come back for once it is done, though it had better have waited."""
    from benchmate.talk.told.told_beside import as_done

    if option.verdict not in (HOLD, AVOID) or option.work in LEFT_WORKS:
        return option
    work = Work(option.work, option.spot, {}, "now", option.manner)
    advice = as_done(
        turn, Reading(turn.reading.said, ("decide",), work=(work,)), Advice(turn.reading, None, "", (option,))
    )
    done = [one for one in advice.options if one.work == option.work] if advice else []
    return replace(option, follow=done[0].follow) if done else option


def refused_options(turn: Turn) -> tuple[str, ...]:
    """The options that were on offer for this tree and are not what was decided."""
    offered, asked = turn.before.advice, turn.before.reading
    if not offered or not asked or "decide" in asked.acts or "decide" not in turn.acts:
        return ()
    if not turn.tree or offered.tree != turn.tree.name:
        return ()
    decided = {work.work for work in turn.reading.work}
    others = [option for option in offered.options if option.work not in decided | set(LEFT_WORKS)]
    return tuple(option_words(option) for option in others)
