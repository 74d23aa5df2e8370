"""Questions of plain knowledge ("is it poisonous to dogs", "what soil does it want"), answered from rules/answers by
what is known of the kind. Nothing of them is logged, and no work is weighed for them but what `heard_as` asks."""

from __future__ import annotations

import datetime as dt
from collections.abc import Mapping, Sequence
from itertools import pairwise
from typing import TYPE_CHECKING, Any

from benchmate.hearing.reading import Fact, Reading
from benchmate.hearing.vocabulary.word_patterns import clauses, starts
from benchmate.practice.advice import Advice, Caution
from benchmate.practice.almanac import Almanac
from benchmate.practice.warnings import caution_of
from benchmate.talk.trees.which_tree import meant_tree, species_said
from benchmate.telling.answer import Answer
from benchmate.telling.dates import day_words, span_words
from benchmate.telling.wording import list_words
from benchmate.value import replace

if TYPE_CHECKING:
    from benchmate.garden.record import Tree
    from benchmate.talk.bench import Bench
    from benchmate.talk.house import House

KNOWN = "known"  # the topic of such a question
EATEN = "eaten"  # the question whose answers tell what a plant does to those who eat of it
_LOGS = {"decide", "observe", "note", "remind"}


def compiled_from(tables: Mapping[str, Any]) -> dict[str, Any]:
    """The questions and classes of all answer files, as plain data."""
    out: dict[str, Any] = {"class": {}, "question": {}}
    for name, table in sorted(tables.items()):
        if name.startswith("answers/"):
            for section, kept in out.items():
                kept |= table.get(section, {})
    return out


def asked_in(texts: Sequence[str], house: House, first: bool = False) -> str | None:
    """The question that the words of a clause ask, or None. first: of those alone that go before what a clause asks."""
    for id, table in house.answers["question"].items():
        if first and not table.get("whole_first"):
            continue
        asked = any(True for _ in starts(table["asked"], texts, house.word_classes))
        if asked and not any(True for _ in starts(table.get("but", ()), texts, house.word_classes)):
            return str(id)
    return None


def known_answer(bench: Bench, said: str) -> Answer | None:
    """The answer to a question that the rules hold an answer to, or None. What else was told is carried out first."""
    house = bench.house
    words = house.ear.words(said)
    texts = [word.text for word in words]
    plain = [text for text in texts if text.isalnum()]
    asked, rest = asked_in(plain, house, first=True), []
    across = asked is not None
    for first, end in clauses(texts):
        if end > first and asked is None and (found := asked_in(texts[first:end], house)):
            asked = found
        elif end > first:
            rest.append(said[words[first].start : words[end - 1].end])
    if asked is None:
        asked, across = asked_in(plain, house), True
    if asked is None:
        return None
    question = house.answers["question"][asked]
    if across:
        seen = not question.get("whole_first")  # what it is that was seen is what such a question asks
        rest = [one for one in rest if _is_told(house.hear(one, bench.on, bench.context.lending), seen)]
    whole = house.hear(said, bench.on, bench.context.lending)
    instead = whole.figure == question.get("in_place_of") and not whole.measures
    if "note" in whole.acts:
        return None
    if whole.figure and not (question.get("before_figures") or instead):  # "what volume of soil does the pot take"
        return None
    told = house.hear(", ".join(rest), bench.on, bench.context.lending) if rest else None
    acts = set(told.acts) if told else set()
    if told and said.rstrip().endswith("?") and any(work.done != "done" for work in told.work):
        acts = set()  # "three buds at one spot, reduce to two?" asks of the work too
    before = bench.carry(told) if told and acts & _LOGS and acts <= {*_LOGS, "leave"} else None
    whole = Reading(said) if question.get("of_no_kind") else with_tree(whole, bench)
    facts = tuple(fact for fact in whole.facts if fact.kind == "species" and not fact.denied)
    answer = bench.carry(Reading(said, ("ask",), KNOWN, facts, tree=whole.tree, term=asked))
    if meant := question.get("heard_as"):
        weighed = _weighed_too(bench, said, meant, whole, facts)
        answer = replace(weighed, says=(*_leads(weighed, question), *answer.says) or weighed.says)
    if named := [one for one in (caution_of(id, house.book) for id in question.get("cautions", ())) if one]:
        advice = answer.advice or Advice(answer.reading, answer.tree, bench.on.isoformat())
        answer = replace(answer, advice=replace(advice, cautions=(*named, *advice.cautions)))
    if before is None:
        return answer
    return replace(
        answer,
        logged=before.logged,
        logged_for=before.logged_for,
        confirm=before.confirm,
        asks=(*before.asks, *answer.asks),
        aside=(*answer.aside, *before.aside, *before.says),
        advice=answer.advice or (replace(before.advice, options=()) if before.advice else None),
    )


def _is_told(heard: Reading, seen: bool) -> bool:
    """Whether a clause tells of what was seen or done. Asked across clauses, any other may be what is asked about."""
    told = {"observe", "decide"} if seen or heard.work else {"decide"}
    return bool(heard.acts) and set(heard.acts) <= told and all(work.done == "done" for work in heard.work)


def _weighed_too(bench: Bench, said: str, plain: str, whole: Reading, facts: tuple[Fact, ...]) -> Answer:
    """The answer to the plain question of work that stands behind what was asked: the rules weigh it on this tree."""
    heard = bench.house.hear(plain, bench.on, None)
    others = tuple(fact for fact in heard.facts if fact.kind != "species")
    plainly = replace(heard, said=said, acts=("ask",), facts=(*facts, *others), tree=whole.tree, missed=(), kept=())
    return bench.carry(plainly)


def _leads(weighed: Answer, question: Mapping[str, Any]) -> list[str]:
    """What goes before the answer: the verdict on the work behind it, or how much of it may go."""
    from benchmate.talk.asked.how_much import most_lines
    from benchmate.telling.headline import headline_of

    if question.get("verdict"):
        return [headline_of(replace(weighed, says=()))]
    works = [str(work.work) for work in weighed.reading.work]
    of = question.get("amount")
    return most_lines(weighed.advice, works[0], str(of), weighed.on) if of and works else []


def with_tree(heard: Reading, bench: Bench) -> Reading:
    """The reading with the tree or the kind that its words name, where the sentence was not understood."""
    if heard.tree or heard.several or species_said(heard):
        return heard
    named = bench.house.ear.trees_named(heard.said, bench.on, [tree.name for tree in bench.house.trees()])
    names = [str(one.value) for one in named if one.kind == "name"]
    kinds = [one for one in named if one.kind == "species" and not str(one.value).startswith("group:")]
    if names:
        return replace(heard, tree=names[0])
    return replace(heard, facts=(*heard.facts, *kinds[:1]))


def trees_listed(said: str, bench: Bench) -> tuple[str, ...]:
    """Trees of the garden that are named one behind the other with nothing but "and" between them: two or more."""
    named = bench.house.ear.trees_named(said, bench.on, [tree.name for tree in bench.house.trees()])
    between = [said[one.span[1] : other.span[0]].strip(" ,&").lower() for one, other in pairwise(named)]
    alike = len(named) > 1 and all(words in ("", "and", "the", "and the") for words in between)
    return tuple(str(one.value) for one in named) if alike else ()


def known_lines(house: House, asked: Reading, tree: Tree | None, on: dt.date) -> list[str]:
    """What is answered to a question (its id is the term) about a kind; what holds for any, where that is not known."""
    from benchmate.practice.taxa import taxon_entry

    taxon, id = tree.species if tree else species_said(asked), asked.term or ""
    table = house.answers["question"][id]
    if table.get("lists"):
        return _by_answer(house, house.answers["question"][table["lists"]], Almanac(on, house.place))
    entry = taxon_entry(taxon, house.book.taxa) if taxon else {"groups": (), "traits": {}}
    told = next((row for row in table.get("answer", ()) if _fits(row, entry, Almanac(on, house.place))), None)
    lines = list(told["says"]) if told else []
    if lines and taxon and any({"of", "groups", "taxa"} & set(row) for row in table["answer"]):
        lines[0] = f"{taxon}: {lines[0]}"
    if lines and id == EATEN and "hazard" in entry:
        lines[0] = f"{lines[0]} {entry['hazard']['says']}"
    if taxon and (terms := [term for term in table.get("kind", ()) if lines]):
        from benchmate.talk.asked.kinds_told import kind_lines

        lines += kind_lines(taxon, terms, house.book, house.place)
    return [*_since(house, table, tree, on), *lines]


def _by_answer(house: House, table: Mapping[str, Any], almanac: Almanac) -> list[str]:
    """The garden's trees by the answer that holds for them, worst first."""
    from benchmate.practice.taxa import taxon_entry

    out: dict[str, list[str]] = {}
    for row in table["answer"]:
        out.setdefault(row["says"][0].split(",")[0].split(":")[0], [])
    for tree in house.trees():
        entry = taxon_entry(tree.species, house.book.taxa) if tree.species else {"groups": (), "traits": {}}
        told = next((row for row in table["answer"] if _fits(row, entry, almanac)), None)
        if told:
            out[told["says"][0].split(",")[0].split(":")[0]].append(tree.name)
    return [f"{what}: {list_words(names)}." for what, names in out.items() if names] or [
        "No tree stands in this garden."
    ]


def _fits(row: Mapping[str, Any], entry: Mapping[str, Any], almanac: Almanac) -> bool:
    traits = entry["traits"]
    if row.get("between") and not almanac.between(*row["between"]):
        return False
    if row.get("taxa") and not set(row["taxa"]) & set(entry.get("lineage", ())):
        return False
    if row.get("groups") and not set(row["groups"]) & set(entry["groups"]):
        return False
    return all(str(traits.get(name, {}).get("is")) in values for name, values in row.get("of", {}).items())


def _since(house: House, table: Mapping[str, Any], tree: Tree | None, on: dt.date) -> list[str]:
    """From when to when something is looked for after work that the record holds."""
    if not (since := table.get("since")):
        return []
    days = [
        entry.day
        for entry in house.lately_standing(tree)
        if entry.kind == "done" and any(work.get("work") == since["work"] for work in entry.work)
    ]
    if not days:
        return []
    first, last = (days[-1] + dt.timedelta(days=count) for count in since["days"])
    window = f"{day_words(first, on)} to {day_words(last, on)}"
    return [f"Done {day_words(days[-1], on)}, {span_words((on - days[-1]).days)}: {since['says']} {window}"]


def eaten_words(bench: Bench, heard: Reading) -> Caution | None:
    """What the plant that somebody swallowed of does, where the kind is known and does harm."""
    heard = with_tree(heard, bench)
    tree = meant_tree(heard, bench.house.trees(), bench.here).tree
    known = species_said(heard) or (tree and tree.species)
    lines = known_lines(bench.house, replace(heard, term=EATEN), tree, bench.on) if known else []
    return Caution(EATEN, "person", lines[0], None, "memory") if lines else None
