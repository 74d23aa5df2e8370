"""A kind in the plural, and "all of them", mean all trees of it; the weather of the next days is weighed for them."""

import datetime as dt

import pytest

from benchmate.garden import new_garden
from benchmate.garden.record import Place
from benchmate.talk.bench import Bench
from benchmate.talk.house import House

KINDS = {
    "Momiji": "Acer palmatum",
    "Trident": "Acer buergerianum",
    "Blackie": "Pinus thunbergii",
    "Scotty": "Pinus sylvestris",
    "Larry": "Larix decidua",
    "Jade": "Ficus microcarpa",
}
MAPLES, PINES = {"Momiji", "Trident"}, {"Blackie", "Scotty"}


@pytest.fixture
def talk(tmp_path):
    new_garden(tmp_path / "garden", Place("Here", 52.2, None, (4, 28), (10, 18)))
    for name, species in KINDS.items():
        (tmp_path / "garden" / name.lower()).mkdir()
        sheet = f'name = "{name}"\nspecies = "{species}"\nphase = "structure"\nhealth = "healthy"\n'
        (tmp_path / "garden" / name.lower() / "tree.toml").write_text(sheet, encoding="utf-8")
    return Bench(House(tmp_path / "garden"), dt.date(2026, 7, 10))


ASKED = [
    ("heatwave on the way, 36 at the weekend, should I move the maples into shade", MAPLES),
    ("can I repot the acers now", MAPLES),
    ("should I shade the pines", PINES),
    ("should I move the pines and the maples into shade", PINES | MAPLES),
    ("how are the maples", MAPLES),
    ("the pines droop, what now", PINES),
]


@pytest.mark.parametrize(("said", "names"), ASKED, ids=[row[0] for row in ASKED])
def test_a_plural_is_answered_for_all_of_the_kind(talk, said, names):
    answer = talk.answer(said)
    assert {one["tree"] for one in answer.found} == names and not answer.asks


DONE = [
    ("fed the maples", MAPLES),
    ("watered both pines", PINES),
    ("watered all the pines", PINES),
    ("fed the pines and the larch", PINES | {"Larry"}),
    ("watered the ficus", {"Jade"}),
]


@pytest.mark.parametrize(("said", "names"), DONE, ids=[row[0] for row in DONE])
def test_work_on_a_plural_is_logged_on_all_of_the_kind(talk, said, names):
    talk.answer(said)
    logged = {tree.name for tree in talk.house.trees() if talk.house.entries(tree)}
    assert logged == names


@pytest.mark.parametrize("said", ["pinched the tips on one of the maples", "fed the maple", "watered the other pines"])
def test_one_of_them_is_asked_for(talk, said):
    answer = talk.answer(said)
    assert answer.asks and not answer.logged


@pytest.mark.parametrize("words", ["all of them", "both", "the lot", "every one of them"])
def test_all_of_them_answers_which_tree(talk, words):
    assert talk.answer("should I shade the maple").asks
    answer = talk.answer(words)
    assert {one["tree"] for one in answer.found} == MAPLES and not answer.asks


def test_the_heat_of_the_weekend_is_weighed(talk):
    answer = talk.answer("heatwave on the way, 36 at the weekend, should I move Momiji into shade")
    option = next(one for one in answer.advice.options if one.work == "shade")
    assert "heat-of-a-spell" in [reason.rule for reason in option.because]


AFTER_SEVERAL = [
    (("the pines are dry", "watered them"), PINES, "water"),
    (("watered both pines", "trimmed both"), PINES, "shorten"),
    (("Momiji", "watered both pines", "they have scale"), PINES, "scale"),
    (("fed Momiji and Larry", "both have scale"), {"Momiji", "Larry"}, "scale"),
    (("fed Momiji and Larry", "took the top off", "both"), {"Momiji", "Larry"}, "remove"),
    (("the two pines have scale",), PINES, "scale"),
    (("fed Momiji and Blackie", "the pine has scale"), {"Blackie"}, "scale"),
]


@pytest.mark.parametrize(("said", "names", "what"), AFTER_SEVERAL, ids=[" / ".join(row[0]) for row in AFTER_SEVERAL])
def test_what_is_said_behind_several_trees_is_said_of_these(talk, said, names, what):
    for words in said:
        answer = talk.answer(words)
    told = dict(zip(answer.logged_for or (answer.tree,), answer.logged, strict=True))
    assert set(told) == names
    assert all(what in {row.get("work") or row.get("value") for row in (*e.work, *e.facts)} for e in told.values())


ASKED_BEHIND = ["took the left branch off", "it has scale", "the left branch is dead", "these leaves are yellow"]


@pytest.mark.parametrize("words", ASKED_BEHIND)
def test_behind_several_trees_it_is_asked_which_is_meant(talk, words):
    talk.answer("Jade")
    talk.answer("fed Momiji and Larry")
    answer = talk.answer(words)
    assert answer.logged == () and any(ask.says == "Which tree: Larry or Momiji?" for ask in answer.asks)


def test_a_name_given_behind_several_trees_begins_no_record(talk):
    talk.answer("fed Momiji and Larry")
    assert talk.answer("call it Ditch").asks and len(talk.house.trees()) == len(KINDS)
    talk.answer("Larry")
    assert {"Ditch", "Momiji"} <= {tree.name for tree in talk.house.trees()}


@pytest.mark.parametrize("words", ["three pines are weak", "the three pines are weak", "pines are weak"])
def test_a_kind_in_the_plural_of_another_number_is_not_all_that_stand_here(talk, words):
    assert talk.answer(words).logged == ()


def test_both_of_many_is_no_answer_and_all_of_a_garden_wait_for_a_yes(talk):
    assert talk.answer("took the top off").asks
    assert talk.answer("both").logged == ()
    talk.answer("took the top off")
    answer = talk.answer("all of them")
    assert answer.logged == () and answer.confirm
