"""Words that only join ask nothing; what is asked about is not seen; a day of lost words dates nothing."""

from __future__ import annotations

import datetime as dt

import pytest

from benchmate.hearing import Ear
from benchmate.hearing.lattice.opening import opens, stands_there

ON = dt.date(2026, 6, 14)


@pytest.mark.parametrize(
    "said",
    [
        "the elm, which is weak, is in leaf",
        "the elm which I dug up is in leaf",
        "the wound, which closes well, is on the trunk",
        "it was dry when I came home",
        "the branch is too thick for where it sits",
        "I cut it back, which left a wound of 20 mm",
        "there's a gap you could put a hand in",
    ],
)
def test_a_word_that_joins_asks_nothing(ear: Ear, said: str) -> None:
    assert "ask" not in ear.hear(said, ON).acts


@pytest.mark.parametrize(
    "said",
    [
        "which one goes?",
        "two leaders which one goes",
        "two leaders, which is better",
        "left or right leader, which?",
        "which of my trees are weak",
        "when did I feed it",
    ],
)
def test_the_same_words_ask_where_a_question_begins(ear: Ear, said: str) -> None:
    assert "ask" in ear.hear(said, ON).acts


@pytest.mark.parametrize(
    "said",
    [
        "is the pine weak",
        "are the leaves hardened?",
        "is it in flower",
        "does the elm have scale",
        "is this one dormant",
        "any mites left on the elm?",
        "have the candles been cut this year",
        "who took the guy off the juniper",
        "how are the roots looking",
    ],
)
def test_what_is_asked_about_is_not_seen(ear: Ear, said: str) -> None:
    reading = ear.hear(said, ON)
    assert "observe" not in reading.acts
    assert "ask" in reading.acts or (reading.missed and not reading.acts)


@pytest.mark.parametrize(
    "said",
    [
        "the olive is dry because I spent the weekend away",
        "on Tuesday my aunt called, the elm is dry",
        "I did that on Monday",
    ],
)
def test_a_day_of_lost_words_dates_nothing(ear: Ear, said: str) -> None:
    reading = ear.hear(said, ON)
    assert reading.when is None
    assert reading.missed


def test_a_day_beside_what_is_told_stays(ear: Ear) -> None:
    assert ear.hear("last week, repotted the elm", ON).when == "2026-06-07"


def test_nothing_but_filler_opens_a_sentence(ear: Ear) -> None:
    words = ["okay", "so", "which", "goes"]
    assert opens(ear.lexicon, words, 2)
    assert not opens(ear.lexicon, ["the", "elm", "which", "goes"], 2)
    assert stands_there(ear.lexicon, "which QCOMPARE", words, 2, 3)
    assert not stands_there(ear.lexicon, "which SEP", words, 2, 3)


@pytest.mark.parametrize(
    "said",
    [
        "I'm going away for three weeks",
        "we leave tomorrow",
        "we're leaving for the airport at six",
        "leaving for Spain on Monday",
        "I'm going to Wales on Friday",
        "going off it a bit",
        "I went off the idea",
        "leaving it outside tonight",
        "we kept the elm outdoors last winter",
        "I'm away for ten days",
        "lichen covering the trunk",
        "liverwort covering the surface",
        "the leaves turn in October",
        "water runs off the top and down the sides",
        "water frozen solid in the tray",
    ],
)
def test_what_people_and_things_do_is_no_work(ear: Ear, said: str) -> None:
    reading = ear.hear(said, ON)
    assert not reading.work
    assert "decide" not in reading.acts
    assert reading.missed or "observe" in reading.acts


@pytest.mark.parametrize(
    ("said", "work"),
    [
        ("the left one goes", "remove"),
        ("leave it for now", "leave"),
        ("we're leaving it for a couple of weeks", "leave"),
        ("leaving the wire on till autumn", "leave"),
        ("turn it on Monday", "turn-tree"),
        ("hold off on the elm", "wait"),
        ("leave it indoors", "shelter"),
        ("wiring the elm", "wire"),
    ],
)
def test_the_same_verbs_tell_work_of_the_tree(ear: Ear, said: str, work: str) -> None:
    reading = ear.hear(said, ON)
    assert [one.work for one in reading.work] == [work]
    assert "decide" in reading.acts


@pytest.mark.parametrize(
    "said",
    [
        "scorched or thirsty?",
        "red spider or thrips?",
        "mildew or rust?",
        "the elm, mites?",
        "is it dead or dormant",
        "is it weak or sick",
        "is that canker or just old bark?",
        "does it have aphids or scale?",
        "no buds, dead?",
    ],
)
def test_a_suspicion_is_asked(ear: Ear, said: str) -> None:
    assert ear.hear(said, ON).acts == ("ask",)


@pytest.mark.parametrize(
    ("said", "seen"),
    [
        ("leaves are yellow, overwatered?", ["yellow-leaves"]),
        ("wire is biting, strangled or not?", ["wire-biting"]),
        ("snapped a twig, dead?", ["broken"]),
        ("needles brown, is it mites or drought?", ["scorch"]),
        ("is it the sun or the frost that did this, needles brown", ["scorch"]),
        ("aphids on the shoots, mildew or rust?", ["aphids"]),
    ],
)
def test_beside_a_suspicion_only_what_is_told_is_seen(ear: Ear, said: str, seen: list[str]) -> None:
    reading = ear.hear(said, ON)
    assert [fact.value for fact in reading.facts] == seen
    assert "ask" in reading.acts


@pytest.mark.parametrize(
    ("said", "before"),
    [
        ("not going to defoliate since it was repotted", "repot"),
        ("not feeding since it was root pruned in April", "root-prune"),
        ("I won't prune it after it was dug in March", "collect"),
        ("not pinching it since it was wired", "wire"),
    ],
)
def test_old_work_told_as_a_reason_is_no_work_of_today(ear: Ear, said: str, before: str) -> None:
    reading = ear.hear(said, ON)
    assert all(one.done == "not" for one in reading.work)
    assert before in [fact.value for fact in reading.facts if fact.kind == "event" and not fact.denied]
    assert reading.reason


@pytest.mark.parametrize(
    "said",
    [
        "didn't get round to it, too wet",
        "I didn't wire it, too hot",
        "didn't repot the elm, too dry",
        "not today, too wet",
    ],
)
def test_what_kept_from_work_is_not_seen(ear: Ear, said: str) -> None:
    assert not [fact for fact in ear.hear(said, ON).facts if fact.kind in ("finding", "weather")]


@pytest.mark.parametrize(
    "said",
    [
        "watered it at 6 am",
        "five needle pine candles, how far do I break them",
        "three needle pine, wire size?",
        "water every day at 6am whatever, right?",
        "bent it to a radius of 80 mm",
        "weak ones below 10",
        "a mix of pumice and lava 2:1 for 6 litres",
        "fig dropped half its leaves since I moved it",
        "trunk has reverse taper at the base where four branches were",
        "watered it at half past seven",
    ],
)
def test_hours_names_and_other_numbers_measure_nothing(ear: Ear, said: str) -> None:
    reading = ear.hear(said, ON)
    measured = [reading.measures, *(one.measures for one in (*reading.facts, *reading.work, *reading.candidates))]
    assert not any(measured)
    assert not any(fact.spot.count for fact in reading.facts)


@pytest.mark.parametrize(
    ("said", "facts"),
    [
        ("lime in the tap water", []),
        ("there's a lot of lime in our water", []),
        ("the lime needs water", ["Tilia"]),
        ("water shoots on the lime", ["water-shoots", "Tilia"]),
        ("the soil is frozen solid in its pot", ["frosted"]),
        ("roots solid in its pot", ["roots-circling"]),
        ("leaves mildewed at the end of the season", ["mildew"]),
        ("scared of killing it", []),
        ("is it hot enough to defoliate", []),
        ("one gram per litre of 10-10-10, is that too strong", []),
        ("is that too soon after the defoliation", ["defoliate"]),
        ("half way through opening, can I still repot at a pinch", ["bud-break"]),
        ("move the collected yew to a smaller pot", ["Taxus"]),
        ("held off the wiring, bark too soft", []),
    ],
)
def test_words_of_two_meanings_are_told_apart_by_what_stands_beside_them(ear: Ear, said: str, facts: list[str]) -> None:
    assert [fact.value for fact in ear.hear(said, ON).facts] == facts
