"""Questions of plain knowledge: answered by what is known of the kind, no work offered, nothing logged."""

import pytest


@pytest.mark.parametrize(
    "words, opens",
    [
        ("yew clippings, can the goat have them", "Taxus: Deadly poisonous"),
        ("are yew berries safe for the kids", "Taxus: Deadly poisonous"),
        ("can I feed the box clippings to the sheep", "Buxus: Poisonous"),
        ("what happens if the cat chews the azalea", "Rhododendron: Poisonous"),
        ("is it safe to have the azalea where the toddler plays", "Rhododendron: Poisonous"),
        ("is wisteria poisonous", "Wisteria: Poisonous"),
        ("we've got a puppy, is the yew dangerous", "Taxus: Deadly poisonous"),
        ("how poisonous is oleander", "Nerium oleander: Deadly poisonous"),
        ("will privet berries hurt the hens", "Ligustrum: Poisonous"),
        ("can you eat the crab apples", "Malus: Mildly poisonous"),
        ("is the maple ok for rabbits to nibble", "Acer campestre: Not known as poisonous"),
        ("is bone meal safe for dogs", "That stands on the label"),
        ("can I burn the yew clippings", "Taxus: No: the smoke"),
        ("can I use weedkiller near the trees", "Not near trees in pots"),
        ("what soil should I put the satsuki in", "Rhododendron indicum: Lime-free, acid soil"),
        ("what compost for the camellia", "Camellia: Lime-free, acid soil"),
        ("does the azalea mind hard water", "Rhododendron: Lime-free, acid soil"),
        ("which mix for a black pine", "Pinus thunbergii: Open, gritty"),
        ("what substrate for jade", "Crassula ovata: Very gritty"),
        ("when can I sever the air layer", "By the roots and not by the calendar"),
        ("how long until the layer roots", "Acer campestre: Six to twelve weeks"),
        ("how do I know when the air layer has rooted", "Acer campestre: Six to twelve weeks"),
        ("when does the beech drop its old leaves", "Fagus sylvatica: This kind keeps its dead leaves"),
        ("how do I get rid of wire marks", "Wire still on where it marks comes off"),
    ],
)
def test_the_answer_goes_by_what_is_known_of_the_kind(bench, words, opens):
    answer = bench.answer(words)
    assert answer.says[0].startswith(opens)
    assert not answer.logged and not (answer.advice and answer.advice.options)


@pytest.mark.parametrize(
    "words",
    [
        "is it safe to repot it",
        "is it ok to prune the yew now",
        "can I let the kids water it",
        "is it too cold for it",
        "will frost kill it",
        "should I feed it",
        "give it a feed",
        "is that bad for it",
    ],
)
def test_questions_of_work_stay_what_they_were(bench, words):
    assert bench.answer(words).reading.topic != "known"


def test_the_trees_of_the_garden_by_how_they_harm(bench):
    says = bench.answer("which of my trees are poisonous").says
    assert len(says) > 1 and says[-1].startswith("Not known as poisonous: ")


def test_work_told_beside_the_question_is_logged(bench):
    answer = bench.answer("shortened it, are the clippings safe for the goat")
    assert [work["work"] for entry in answer.logged for work in entry.work] == ["shorten"]
    assert answer.says[0].startswith("Acer campestre: Not known")


def test_a_layer_on_record_is_reckoned_from_its_day(bench):
    bench.answer("air layered the top of Gatepost")
    told = bench.answer("when can I separate it").says
    assert told[0].startswith("Done 14 June") and "9 August" in told[0]
    assert told[1].startswith("By the roots")


@pytest.mark.parametrize(
    "words",
    [
        "how long do the roots take to recover",
        "when can I take the wire off",
        "check the soil",
        "the soil is dry",
        "what soil is it in",
    ],
)
def test_what_is_asked_of_other_things_stays_what_it_was(bench, words):
    assert bench.answer(words).reading.topic != "known"


def test_every_answer_is_told_by_some_question(bench):
    assert set(bench.house.answers["question"]) == {
        "air-layer-roots", "air-layer-severed", "burnt", "eaten", "eaten-which", "held-leaves", "product-eaten",
        "soil", "weedkiller-near", "wire-marks",
    }  # fmt: skip
