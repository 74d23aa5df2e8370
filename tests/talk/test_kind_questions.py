"""What a kind of tree takes is answered from its traits and the rules, each with what it rests on."""

import datetime as dt
import tomllib
from pathlib import Path

import pytest

from benchmate.garden import new_garden
from benchmate.garden.record import Place
from benchmate.hearing.vocabulary.word_patterns import end_of
from benchmate.talk.bench import Bench
from benchmate.talk.house import House

CASES = tomllib.loads((Path(__file__).parent / "kind_questions.toml").read_text(encoding="utf-8"))["case"]
ON = dt.date(2026, 6, 14)


@pytest.fixture(scope="module")
def demo_bench():
    return Bench(House(Path(__file__).resolve().parents[2] / "demo_trees"), ON, dry=True, talking=False)


@pytest.mark.parametrize("case", CASES, ids=[case["say"] for case in CASES])
def test_what_a_kind_takes(demo_bench, case):
    answer = demo_bench.answer(case["say"])
    if case["term"] == "none":
        assert answer.reading.topic != "kind"
        return
    assert (answer.reading.topic, answer.reading.term) == ("kind", case["term"])
    assert not answer.reading.missed
    assert not answer.logged
    told = "\n".join(answer.says)
    for words in case["tells"]:
        assert words in told


def test_every_pattern_is_asked_by_some_case(demo_bench):
    kinds = demo_bench.house.lexicon.kinds
    asked = [demo_bench.house.lexicon.split(case["say"]) for case in CASES if case["term"] != "none"]
    names = {"crag", "ficus", "olive", "hornbeam", "beech", "juniper", "pine", "larch", "camellia", "araucaria"}
    names |= {"citrus", "dogwood", "maple", "box"}
    trees = [
        ["@" if word in names else word for word in words if word not in ("trident", "japanese")] for words in asked
    ]
    idle = [
        pattern
        for patterns in kinds["asks"].values()
        for pattern in patterns
        if not any(
            end_of(["<open>*", *pattern.split(), "<tail>*", "$"], [*words, "$"], kinds["class"]) for words in trees
        )
    ]
    assert idle == []


def test_the_tree_at_hand_is_meant_and_asked_for_where_there_is_none(demo):
    bench = Bench(House(demo), ON, talking=True)
    assert any(ask.fact == "tree" for ask in bench.answer("how much light does it need").asks)
    bench.turn_to("Parchment")
    assert bench.answer("how much light does it need").says[0].startswith("Fagus sylvatica, light: ")


def test_the_next_tree_is_asked_about_in_turn(demo):
    bench = Bench(House(demo), ON, talking=True)
    bench.answer("how cold can the ficus take")
    assert bench.answer("and the olive?").says[0].startswith("Olea europaea, cold: half-hardy")


def test_without_a_garden_and_in_fahrenheit(tmp_path):
    assert (
        Bench(House(None), ON).answer("is a trident maple hardy").says[0].startswith("Acer buergerianum, cold: hardy")
    )
    new_garden(tmp_path / "south", Place("Paddock", -37.8, 145.0, (9, 20), (5, 10), units="imperial"))
    south = Bench(House(tmp_path / "south"), ON)
    told = south.answer("can an olive stay out in winter").says
    assert any("lies between 10 F and 20 F" in line for line in told)
    assert any(
        "At Paddock the first frost is about 10 May and the last frost is about 20 September" in line for line in told
    )


def test_cells_come_from_the_genus_where_a_species_has_none(demo_bench):
    told = demo_bench.answer("how much sun does a European larch want").says
    assert told[0].startswith("Larix decidua, light: full sun")
