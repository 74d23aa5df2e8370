"""Real answers over the demo garden at the widths of a bench: no word broken, no row too wide, nothing lost."""

import datetime as dt
import shutil
from pathlib import Path

import pytest

from benchmate.talk.bench import Bench
from benchmate.talk.house import House
from benchmate.telling import lay, tell

DEMO = Path(__file__).resolve().parents[2] / "demo_trees"
STATEMENTS = (
    "what now?",
    "can I halve the leaves?",
    "when can I repot it?",
    "wired the low branch on the left",
    "it's weak",
    "what wire for an 8 mm branch?",
    "unicorn dust on the leafs",
    "what did I do to it?",
    "what's due?",
)
TREES = ("Bristle", "Cellar", "Crag", "Gatepost", "Harbour", "Minnow", "Old Salt", "Parchment", "Ratchet", "Sprint")


@pytest.fixture(scope="module")
def house(tmp_path_factory):
    home = tmp_path_factory.mktemp("widths") / "demo"
    shutil.copytree(DEMO, home, ignore=shutil.ignore_patterns(".benchmate"))
    return House(home)


@pytest.mark.parametrize("tree", TREES)
@pytest.mark.parametrize("statement", STATEMENTS)
def test_an_answer_fits(house, tree, statement):
    answer = Bench(house, dt.date(2026, 6, 14), tree=tree, dry=True).answer(statement)
    for plain in (False, True):
        lines = tell(answer, plain=plain)
        whole = lay(lines)
        assert whole.strip() and "  " not in whole.split("\n")[0]
        for width in (40, 120):
            rows = lay(lines, width).split("\n")
            longest = max(len(word) for word in whole.split())
            assert all(len(row) <= max(width, longest) for row in rows)
            assert " ".join(rows).split() == whole.split()
