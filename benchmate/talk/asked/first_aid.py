"""Somebody at the bench, or an animal, is hurt: that comes first, and nothing of it is logged of a tree. What poisoned
a tree comes first as well, and is put down as seen."""

from __future__ import annotations

from collections.abc import Callable, Collection, Sequence
from typing import TYPE_CHECKING

from benchmate.hearing.reading import Fact, Missed, Reading, Several
from benchmate.hearing.vocabulary.word_patterns import Classes, clauses, starts
from benchmate.hearing.vocabulary.words import Word
from benchmate.practice.advice import Advice, Caution
from benchmate.practice.book import RuleBook
from benchmate.practice.warnings import caution_of
from benchmate.talk.asked.known_answers import asked_in, eaten_words, trees_listed, with_tree
from benchmate.telling.answer import Answer
from benchmate.value import dataclass, replace

if TYPE_CHECKING:
    from benchmate.talk.bench import Bench

_NEAR = 3  # words before what happened within which it is denied


def first_aid(bench: Bench, said: str) -> Answer | None:
    """The answer where somebody is hurt or a tree was poisoned, or None. What else was told is carried out."""
    house, classes = bench.house, bench.house.word_classes
    hurt = hurt_in(said, house.ear.words(said), classes, house.book, lambda clause: asked_in(clause, house) is not None)
    if hurt is None:
        return None
    answer = None
    whole = house.hear(said, bench.on, bench.context.lending)
    if hurt.seen and (listed := trees_listed(said, bench)):
        whole = replace(whole, several=Several(listed))
    shared = hurt.seen and whole.several  # "watered Momiji and Deshojo with weedkiller": all of it is the accident
    heard = house.hear(hurt.rest, bench.on, bench.context.lending) if hurt.rest and not shared else None
    told = heard is not None and "decide" in heard.acts and not (heard.missed or heard.guessed)
    if hurt.whole:
        answer = bench.answer_to(said)
    elif heard and told:
        answer = bench.carry(heard)
    if hurt.seen:
        before = answer.logged if answer else ()
        asks = heard is not None and "ask" in heard.acts
        answer = bench.carry(harmed(with_tree(whole, bench), hurt.seen, asks, house.lexicon.circumstances))
        answer = replace(answer, logged=(*before, *answer.logged), logged_for=())
    bare = Answer(Reading(said), bench.on, bench.context.tree)
    eaten = eaten_words(bench, whole) if hurt.eaten else None
    return hurt_first(hurt, said, answer, bare, classes["first"], eaten)


@dataclass(frozen=True, slots=True)
class Hurt:
    """What comes first. cautions: for whom it is. rest: the clauses, as said, that tell of something else. whole: the
    statement is heard as ever beside it. seen: findings that it leaves on the tree. eaten: whether somebody swallowed
    what may be of the tree."""

    cautions: tuple[Caution, ...]
    rest: str
    whole: bool
    seen: tuple[str, ...] = ()
    eaten: bool = False


def hurt_in(
    said: str, words: Sequence[Word], classes: Classes, book: RuleBook, asked: Callable[[Sequence[str]], bool]
) -> Hurt | None:
    """Who is hurt in a statement, or None. asked: whether a clause only asks what might hurt somebody."""
    texts = [word.text for word in words]
    found: dict[str, bool] = {}  # the caution's id, and whether what it tells of did happen
    rest, whole = [], False
    signs = frozenset(classes["signs"])
    for first, end in clauses(texts):
        if end == first:
            continue
        clause = texts[first:end]
        idle = signs.isdisjoint(clause) or asked(clause)
        told = [] if idle else _told(clause, classes, book, "told")
        beside = [] if idle else _told(clause, classes, book, "beside")
        happened = clause[0] not in classes["supposing"]
        found = dict.fromkeys([*told, *beside], happened) | {id: True for id, sure in found.items() if sure}
        whole = whole or bool(beside)
        if not told:
            rest.append(said[words[first].start : words[end - 1].end])
    if not found:  # "the dog got at the wisteria and ate the pods"
        words_alone = [text for text in texts if text.isalnum() or text == "'s"]
        if signs.isdisjoint(texts) or asked(words_alone):
            return None
        sure = texts[0] not in classes["supposing"]
        across = _told(words_alone, classes, book, "told")
        found = dict.fromkeys((id for id in across if book.cautions[id].get("across")), sure)
        rest = []
    if not found:
        return None
    tables = [book.cautions[id] for id in found]
    return Hurt(
        tuple(one for one in (caution_of(id, book) for id in found) if one),
        ", ".join(rest),
        whole,
        tuple(str(book.cautions[id]["seen"]) for id, sure in found.items() if sure and "seen" in book.cautions[id]),
        any(table.get("eaten") for table in tables),
    )


def harmed(heard: Reading, seen: Sequence[str], asks: bool, circumstances: Collection[str]) -> Reading:
    """What was heard of the tree, as a statement of what came onto it: no work of the grower's. asks: whether it is
    asked what to do, too. circumstances: those of what is seen that no finding names."""
    kept = tuple(fact for fact in heard.facts if fact.kind == "species" and not fact.denied)
    facts = (*kept, *(Fact("finding", one) for one in seen if one not in circumstances))
    means = tuple(one for one in seen if one in circumstances)
    acts, topic = (("observe", "ask"), "advice") if asks else (("observe",), None)
    several = replace(heard.several, shared=True, pieces=(), each=()) if heard.several else None
    return Reading(heard.said, acts, topic, facts, tree=heard.tree, when=heard.when, several=several, means=means)


def hurt_first(hurt: Hurt, said: str, answer: Answer | None, bare: Answer, first: str, eaten: Caution | None) -> Answer:
    """The answer with what comes first above all else. bare: an answer without anything, where none is given. eaten:
    what is known of the plant that somebody swallowed of."""
    told = answer or replace(
        bare,
        reading=Reading(said, missed=(Missed(hurt.rest, (0, len(said))),) if hurt.rest else ()),
        says=(first,),
    )
    on = told.on.isoformat()
    advice = told.advice or Advice(told.reading, told.tree, on)
    if all(caution.kind == "tree" for caution in hurt.cautions):  # nobody is hurt
        told = replace(told, says=(hurt.cautions[0].short, *(one for one in told.says if one != first)))
    own = {caution.id for caution in hurt.cautions}
    kind = (eaten,) if eaten else ()
    cautions = (*hurt.cautions, *kind, *(one for one in advice.cautions if one.id not in own))
    return replace(told, advice=replace(advice, cautions=cautions), told_before=told.told_before - own)


def _told(texts: Sequence[str], classes: Classes, book: RuleBook, key: str) -> list[str]:
    """The cautions whose words a clause holds, where these do not deny it or tell of long ago."""
    said = f" {' '.join(texts)} "
    if any(f" {past} " in said for past in classes["past"]):
        return []
    out = []
    for id, table in book.cautions.items():
        found = starts(table.get(key, ()), texts, classes)
        if any(not _denied(texts[max(0, at - _NEAR) : at], classes) for at in found):
            out.append(id)
    return out


def _denied(before: Sequence[str], classes: Classes) -> bool:
    said = f" {' '.join(before)} "
    return any(f" {word} " in said for word in classes["denied"])
