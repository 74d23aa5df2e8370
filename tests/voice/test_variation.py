"""Statements varied by what needs no reading: another tree, number, month or side in the same place."""

from __future__ import annotations

import random

import pytest

from benchmate.voice.filler import Filler
from benchmate.voice.model import TABLE
from benchmate.voice.shapes import example_statements, learn_shapes
from benchmate.voice.varied import Variation

TIMES = 60


@pytest.fixture(scope="module")
def filler(tables, ear):
    few = {"words/spoken.toml": {"says": tables["words/spoken.toml"]["says"][:60]}}
    return Filler(ear, learn_shapes(example_statements(few), ear, {}))


@pytest.fixture(scope="module")
def variation(tables, ear, filler):
    return Variation(ear.lexicon, filler, **tables[TABLE]["alike"])


def varied(variation, statement):
    rng = random.Random(1)
    return {" ".join(variation.of(statement.split(), rng)) for _ in range(TIMES)}


def test_another_tree_stands_in_the_place_of_a_tree_and_nothing_else_changes(variation):
    found = varied(variation, "the japanese maple looks weak")
    assert len(found) > 10
    assert all(statement.startswith("the ") and statement.endswith(" looks weak") for statement in found)


def test_a_tree_keeps_what_hangs_on_it(variation):
    assert all("'s dry" in statement for statement in varied(variation, "the larch's dry"))


def test_a_month_a_number_and_a_side_change(variation):
    found = varied(variation, "wire the left branch of six millimetres in june")
    assert {"left", "right"} <= {word for statement in found for word in statement.split()}
    assert len({statement.split()[-1] for statement in found}) > 5


@pytest.mark.parametrize("statement", ["may i cut it", "i left it alone", "what next", "is it all right"])
def test_a_word_that_is_something_else_as_well_stays(variation, statement):
    assert varied(variation, statement) == {statement}


def test_seasons_are_said_in_one_word(filler):
    rng = random.Random(1)
    drawn = {word for _ in range(200) for word in filler.another("summer", rng)}
    assert {"spring", "summer", "winter"} <= drawn
    assert not any(word.endswith("time") for word in drawn)


def test_species_of_the_garden_are_spoken_of_more(ear, filler):
    named = {phrase for phrase, _, value in ear.lexicon.phrases("SPECIES") if str(value).startswith("Zelkova")}
    own = Filler(ear, [], (), ["Zelkova serrata"])
    rng = random.Random(1)

    def share(of):
        return sum(" ".join(of.draw("SPECIES", rng)) in named for _ in range(400)) / 400

    assert share(own) > 0.4 > 0.1 > share(filler)
