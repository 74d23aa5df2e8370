"""A bench over a copy of the demo garden, and one over an empty garden."""

import datetime as dt
import shutil
from pathlib import Path

import pytest

from benchmate.garden import new_garden
from benchmate.garden.record import Place
from benchmate.talk.bench import Bench
from benchmate.talk.house import House

DEMO = Path(__file__).resolve().parents[2] / "demo_trees"
ON = dt.date(2026, 6, 14)


@pytest.fixture
def demo(tmp_path):
    """The folder of a fresh copy of the demo garden."""
    home = tmp_path / "demo"
    shutil.copytree(DEMO, home, ignore=shutil.ignore_patterns(".benchmate"))
    return home


@pytest.fixture
def bench(demo):
    """A talk over the demo garden in the middle of June, with Gatepost at hand."""
    return Bench(House(demo), ON, tree="Gatepost")


@pytest.fixture
def bare_bench():
    """A talk without a garden."""
    return Bench(House(None), ON)


@pytest.fixture
def empty_bench(tmp_path):
    """A talk over a garden without trees."""
    new_garden(tmp_path / "garden", Place("Test garden", 51.5, -0.5, (4, 25), (10, 20)))
    return Bench(House(tmp_path / "garden"), ON)


@pytest.fixture
def journal(demo):
    """Reads a demo tree's entries as they stand on the disk."""

    def read(name):
        house = House(demo)
        return house.entries(house.garden.find(name))

    return read
