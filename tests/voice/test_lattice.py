"""Ways through a lattice, and which of the ways of two runs is taken for what was said."""

from __future__ import annotations

import math

import pytest

from benchmate.voice.doubt import SURE
from benchmate.voice.lattice import LANGUAGE, SILENCE, WORD, Way, best_ways, read_lattice
from benchmate.voice.recogniser import ABSENT, EFFORT, NEAR, NEAR_IN_TIME, rank_ways, speech_of

# <s>, then "cut" or "kept", a silence or none, "it", </s>; scores in the recogniser's own logarithm
FILE = """# getcwd: /nowhere
Frames 100
#
Nodes 6 (NODEID WORD STARTFRAME FIRST-ENDFRAME LAST-ENDFRAME)
0 </s> 90 99 99 ; 0
1 <s> 0 9 9 ; 0
2 cut(2) 10 39 39 ; 0
3 kept 10 39 39 ; 0
4 <sil> 40 69 69 ; 0
5 it 70 89 89 ; 0
#
Initial 1
Final 0
#
BestSegAscr 0 (NODEID ENDFRAME ASCORE)
#
Edges (FROM-NODEID TO-NODEID ASCORE)
1 2 -10000
1 3 -10000
2 4 -30000
3 4 -20000
4 5 -10000
5 0 -10000
End
"""
NAT = 1 / math.log(1.0001)


def alike(word, before, earlier):
    return -1.0


def test_a_lattice_is_read_without_the_numbers_of_pronunciations():
    lattice = read_lattice(FILE)
    assert lattice.words == ("</s>", "<s>", "cut", "kept", "<sil>", "it")
    assert lattice.starts == (90, 0, 10, 10, 40, 70)
    assert (lattice.first, lattice.last) == (1, 0)


def test_what_is_no_lattice_is_refused():
    with pytest.raises(ValueError, match="no lattice"):
        read_lattice("plainly not")


def test_ways_come_best_first_with_their_silences():
    ways = best_ways(read_lattice(FILE), alike)
    assert [way.text for way in ways] == ["kept it", "cut it"]
    assert ways[0].pauses == (0, 30)
    assert math.isclose(ways[0].score - ways[1].score, 10_000 / NAT, rel_tol=1e-6)
    assert math.isclose(ways[0].score, -50_000 / NAT - 3 * LANGUAGE + 2 * WORD + SILENCE, rel_tol=1e-6)


def test_what_is_said_at_the_bench_outweighs_a_little_sound():
    def bench(word, before, earlier):
        return {"cut": -1.0, "kept": -3.0}.get(word, -1.0)

    assert best_ways(read_lattice(FILE), bench)[0].text == "cut it"


def test_words_stand_behind_the_two_words_before_them():
    asked = set()

    def language(word, before, earlier):
        asked.add((word, before, earlier))
        return -1.0

    best_ways(read_lattice(FILE), language)
    assert {("cut", "<s>", ""), ("it", "cut", "<s>"), ("</s>", "it", "kept")} <= asked


def way(score, text):
    return Way(score, tuple(text.split()), (0,) * len(text.split()))


def test_words_on_which_the_runs_agree_come_before_words_of_one_run():
    runs = [[way(0, "kept it"), way(-5, "cut it")], [way(0, "cut it"), way(-20, "kept it")]]
    ranked = rank_ways(runs, lambda text: 0.0)
    assert [(cost, found.text) for cost, found in ranked] == [(2.5, "cut it"), (10.0, "kept it")]


def test_words_that_a_run_did_not_find_count_as_far_below():
    assert rank_ways([[way(0, "a")], [way(0, "b"), way(-10, "a")]], lambda text: 0.0)[0][0] == 5.0
    assert rank_ways([[way(0, "a")], [way(0, "b")]], lambda text: 0.0)[0][0] == ABSENT / 2


def test_where_each_run_took_its_own_words_the_throat_that_fits_comes_first():
    assert rank_ways([[way(-90, "alone")], [way(-80, "one")]], lambda text: 0.0)[0][1].text == "one"
    assert rank_ways([[way(-70, "alone")], [way(-80, "one")]], lambda text: 0.0)[0][1].text == "alone"


def test_words_that_the_ear_reads_with_effort_are_less_likely():
    runs = [[way(0, "kept it"), way(-5, "cut it")]]
    assert rank_ways(runs, lambda text: 4.0 * text.startswith("kept"))[0][1].text == "cut it"
    assert rank_ways(runs, lambda text: 4.0 / EFFORT * text.startswith("kept"))[0][1].text == "kept it"


def test_rivals_are_ways_that_come_near_and_the_best_of_each_run():
    runs = [[way(0, "a"), way(-NEAR + 1, "b"), way(-NEAR - 1, "c")]]
    assert speech_of(runs, lambda text: 0.0).rivals == ("b",)
    other = [way(0, "d")]
    assert "d" in speech_of([*runs, other], lambda text: 0.0 if text == "a" else 100.0).rivals


def test_other_forms_of_the_same_words_are_rivals_however_far_below():
    runs = [[way(0, "wired the branch"), way(-NEAR - 4, "wire the branch"), way(-NEAR - 4, "bend the branch")]]
    assert speech_of(runs, lambda text: 0.0).rivals == ("wire the branch",)


def test_another_word_of_time_or_order_is_a_rival_from_farther_below():
    far = -(NEAR + NEAR_IN_TIME) / 2
    others = "the third tree", "the first thing", "a third tree"
    runs = [[way(0, "the first tree"), *(way(far, text) for text in others)]]
    assert speech_of(runs, lambda text: 0.0, None, {"first", "third"}).rivals == ("the third tree",)
    assert speech_of(runs, lambda text: 0.0).rivals == ()


def test_a_word_that_is_not_expected_where_it_stands_is_unsure():
    def language(word, before, earlier):
        return -12.0 if word == "moss" else -1.0

    speech = speech_of([[way(-100, "cut the moss branch")]], lambda text: 0.0, language)
    assert [word.word for word in speech.words if word.confidence < SURE] == ["moss"]


def test_where_all_fits_the_sound_badly_every_word_is_unsure():
    speech = speech_of([[way(-1000, "cut it")]], lambda text: 0.0, alike)
    assert all(word.confidence < SURE for word in speech.words)


def test_a_pause_that_one_run_alone_found_is_none():
    runs = [[Way(0.0, ("cut", "it"), (0, 30))], [Way(0.0, ("cut", "it"), (0, 0))]]
    assert rank_ways(runs, lambda text: 0.0)[0][1].pauses == (0, 0)


def test_a_pause_is_told_in_seconds_and_nothing_heard_is_no_words():
    speech = speech_of([[Way(0.0, ("cut", "it"), (0, 30))]], lambda text: 0.0)
    assert [word.pause_s for word in speech.words] == [0.0, 0.3]
    assert speech_of([], lambda text: 0.0).words == ()
