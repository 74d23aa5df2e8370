"""A garden and a tree to begin from."""

from __future__ import annotations

from pathlib import Path

import pytest

from benchmate.garden.making import new_garden, new_tree
from benchmate.garden.record import Place, Tree
from benchmate.garden.store import Garden

PLACE = Place("Back yard", 52.1, -1.9, (4, 28), (10, 18))


@pytest.fixture
def garden(tmp_path: Path) -> Garden:
    return new_garden(tmp_path / "garden", PLACE)


@pytest.fixture
def tree(garden: Garden) -> Tree:
    return new_tree(garden, "Gatepost", "Acer campestre")
