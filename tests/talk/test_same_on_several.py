"""The same work on several trees, trees that were left out, and a kind named in the plural."""

import datetime as dt

import pytest

from benchmate.garden import new_garden
from benchmate.garden.record import Place
from benchmate.talk.bench import Bench
from benchmate.talk.house import House
from benchmate.telling import lay, tell

TREES = {
    "Momiji": "Acer palmatum",
    "Deshojo": "Acer palmatum",
    "Trident": "Acer buergerianum",
    "Blackie": "Pinus thunbergii",
    "Scotty": "Pinus sylvestris",
    "Elmo": "Ulmus minor",
    "Olive": "Olea europaea",
}


@pytest.fixture
def talk(tmp_path):
    home = tmp_path / "garden"
    new_garden(home, Place("Test garden", 52.2, -2.2, (4, 28), (10, 18)))
    for name, species in TREES.items():
        (home / name.lower()).mkdir()
        (home / name.lower() / "tree.toml").write_text(f'name = "{name}"\nspecies = "{species}"\n', encoding="utf-8")
    return Bench(House(home), dt.date(2026, 5, 14))


def logged(answer):
    """Tree -> what was logged for it."""
    pairs = zip(answer.logged_for or [answer.tree] * len(answer.logged), answer.logged, strict=True)
    return {name: {table["work"] for table in entry.work} for name, entry in pairs if entry.kind == "done"}


@pytest.mark.parametrize(
    "words, work, trees",
    [
        ("gave Momiji and Deshojo a half strength feed, 10-10-10", "feed", "Momiji Deshojo"),
        ("gave Momiji and Deshojo a feed", "feed", "Momiji Deshojo"),
        ("gave Momiji, Deshojo and Trident a weak feed, half strength", "feed", "Momiji Deshojo Trident"),
        ("fed Momiji and Deshojo half strength", "feed", "Momiji Deshojo"),
        ("fed Elmo and Olive with seaweed, 5 ml per litre", "feed", "Elmo Olive"),
        ("gave Olive and Elmo a good soak", "water", "Olive Elmo"),
        ("gave Olive and the elm a quarter turn", "turn-tree", "Olive Elmo"),
        ("sprayed Elmo and Olive with soapy water", "treat", "Elmo Olive"),
        ("cut Momiji and Deshojo back by a third", "shorten", "Momiji Deshojo"),
        ("Olive and Elmo had a drink", "water", "Olive Elmo"),
        ("gave the maples a half strength feed", "feed", "Momiji Deshojo Trident"),
        ("fed the pines", "feed", "Blackie Scotty"),
        ("watered both my pines and the olive", "water", "Blackie Scotty Olive"),
    ],
)
def test_the_same_is_logged_for_each(talk, words, work, trees):
    answer = talk.answer(words)
    assert logged(answer) == {key: {work} for key in trees.split()}


@pytest.mark.parametrize(
    "words, work, trees, left",
    [
        ("watered Olive and the elm, skipped the pines", "water", "Olive Elmo", "Blackie and Scotty"),
        ("fed Olive and Elmo but not the pines", "feed", "Olive Elmo", "Blackie and Scotty"),
        ("fed Olive and Elmo, didn't do the pines", "feed", "Olive Elmo", "Blackie and Scotty"),
        ("watered Olive, skipped Blackie", "water", "Olive", "Blackie"),
        ("watered Olive and Elmo, missed out Blackie and Scotty", "water", "Olive Elmo", "Blackie and Scotty"),
        ("turned Olive and Elmo, not the maples", "turn-tree", "Olive Elmo", "Deshojo, Momiji and Trident"),
        ("fed the maples, left out Trident", "feed", "Momiji Deshojo", "Trident"),
        ("watered the maples, skipping Trident this time", "water", "Momiji Deshojo", "Trident"),
    ],
)
def test_trees_left_out_get_nothing_and_are_told(talk, words, work, trees, left):
    answer = talk.answer(words)
    assert logged(answer) == {key: {work} for key in trees.split()}
    assert any(words.casefold() == f"left out: {left}".casefold() for words in answer.aside)


@pytest.mark.parametrize("words", ["watered everything, skipped the pines", "watered all but the pines"])
def test_of_all_trees_those_of_a_kind_are_left_out(talk, words):
    assert talk.answer(words).confirm
    assert logged(talk.answer("yes")) == {key: {"water"} for key in set(TREES) - {"Blackie", "Scotty"}}


@pytest.mark.parametrize(
    "words, told",
    [
        ("wired Blackie and fed Elmo", {"Blackie": {"wire"}, "Elmo": {"feed"}}),
        ("watered Blackie, fed Elmo", {"Blackie": {"water"}, "Elmo": {"feed"}}),
        ("fed Blackie and Elmo is weak", {"Blackie": {"feed"}}),
    ],
)
def test_what_each_was_given_stays_its_own(talk, words, told):
    assert logged(talk.answer(words)) == told


@pytest.mark.parametrize("words", ["only Scotty", "just Scotty", "no, only Scotty"])
def test_only_one_of_them_takes_it_back_from_the_others(talk, words):
    talk.answer("fed Scotty and Blackie")
    assert logged(talk.answer(words)) == {"Scotty": {"feed"}}
    entries = [one for tree in talk.house.trees() if tree.name == "Blackie" for one in talk.house.entries(tree)]
    assert entries[-1].kind == "struck"


def test_one_of_a_kind_is_still_asked_about(talk):
    answer = talk.answer("fed the pine")
    assert answer.asks and not answer.logged


@pytest.mark.parametrize(
    "words, spots",
    [
        (
            "wired the left branch of Elmo and the right branch of Olive",
            {"Elmo": ("branch", "left"), "Olive": ("branch", "right")},
        ),
        (
            "I wired the left branch of Blackie and the right branch of Scotty",
            {"Blackie": ("branch", "left"), "Scotty": ("branch", "right")},
        ),
    ],
)
def test_a_place_of_its_own_on_each_without_a_verb_of_its_own(talk, words, spots):
    answer = talk.answer(words)
    told = zip(answer.logged_for, answer.logged, strict=True)
    assert {name: (entry.work[0]["part"], entry.work[0]["side"]) for name, entry in told} == spots


@pytest.mark.parametrize("words", ["which trees are not healthy", "which trees aren't weak"])
def test_what_is_not_on_record_of_a_tree_is_not_denied_of_it(talk, words):
    talk.answer("Elmo is recovering")
    answer = talk.answer(words)
    assert [row["tree"] for row in answer.found] == ["Elmo"]
    assert any("Not known of" in line and "Momiji" in line for line in answer.says)


def test_the_names_of_many_trees_are_broken_over_lines(talk):
    talk.answer("watered everything")
    told = lay(tell(talk.answer("yes")), 40)
    assert "Logged for 7 trees: done: watered it" in told and all(len(line) <= 40 for line in told.splitlines())


@pytest.mark.parametrize("before", ["trimmed Elmo", "trimmed Elmo and Olive", "Elmo is weak"])
def test_work_on_the_wrong_tree_goes_down_for_no_other(talk, before):
    talk.answer(before)
    answer = talk.answer("I pruned the wrong tree")
    assert not answer.logged and answer.asks
