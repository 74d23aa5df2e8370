"""Work that is done already is not judged as still to choose: what was wrong, and what lessens it now; over many trees
once, and not again behind the yes."""

import datetime as dt

import pytest

from benchmate.garden import new_garden
from benchmate.garden.record import Place
from benchmate.talk.bench import Bench
from benchmate.talk.house import House
from benchmate.telling import tell

KINDS = {
    "Momiji": "Acer palmatum",
    "Trident": "Acer buergerianum",
    "Blackie": "Pinus thunbergii",
    "Larry": "Larix decidua",
    "Jade": "Ficus microcarpa",
}
PLACES = {"north": Place("N", 52.2, None, (4, 28), (10, 18)), "south": Place("S", -37.8, None, (9, 5), (6, 10))}


def talk(tmp_path, place, on):
    home = tmp_path / "garden"
    new_garden(home, PLACES[place])
    for name, species in KINDS.items():
        (home / name.lower()).mkdir()
        sheet = f'name = "{name}"\nspecies = "{species}"\nphase = "refinement"\nhealth = "healthy"\n'
        (home / name.lower() / "tree.toml").write_text(sheet, encoding="utf-8")
    return Bench(House(home), dt.date.fromisoformat(on))


def lines(answer):
    return [f"{line.lead}{line.words}" for line in tell(answer)]


LATE = [
    ("north", "2026-09-28", "defoliated trident fully yesterday", "leaves are firm"),
    ("north", "2026-09-28", "pinched the tips back on momiji", "frost"),
    ("north", "2026-09-28", "repotted Larry today", "no frost on the pot"),
    ("north", "2026-07-02", "repotted Momiji this morning", "shade and still air"),
    ("north", "2026-09-28", "fed Momiji", "water it through"),
    ("south", "2026-05-10", "fed Momiji today", "water it through"),
    ("south", "2026-05-10", "repotted Trident yesterday", "shade and still air"),
    ("south", "2026-05-10", "took all the leaves off Trident", "leaves are firm"),
]


@pytest.mark.parametrize(("place", "on", "said", "lessens"), LATE, ids=[f"{row[0]}: {row[2]}" for row in LATE])
def test_what_was_wrong_and_what_lessens_it_now(tmp_path, place, on, said, lessens):
    answer = talk(tmp_path, place, on).answer(said)
    told = lines(answer)
    assert answer.logged and told[0].startswith("Careful: ")
    (now,) = (line for line in told if line.startswith("What lessens it now: "))
    assert lessens in now.casefold()
    assert not any("wait, from" in line or ": wait" in line or line.startswith(("1  ", "2  ")) for line in told)


def test_of_old_work_nothing_is_to_be_lessened(tmp_path):
    told = lines(talk(tmp_path, "north", "2026-09-28").answer("repotted Momiji in July 2025"))
    assert not any(line.startswith(("What lessens it now", "1  ")) for line in told)


def test_what_is_still_meant_keeps_its_day(tmp_path):
    told = lines(talk(tmp_path, "north", "2026-09-28").answer("can I repot Larry today"))
    assert any("wait, from" in line for line in told)


def test_work_on_everything_is_told_once_and_briefly(tmp_path):
    bench = talk(tmp_path, "north", "2026-09-28")
    asked = lines(bench.answer("gave everything its last feed"))
    assert len([line for line in asked if line.startswith("- ")]) == 1 and not any("wait, from" in one for one in asked)
    assert sum(line.startswith("What lessens it now: ") for line in asked) == 1
    done = lines(bench.answer("yes"))
    assert not any(line.startswith(("Careful", "- ", "What lessens")) for line in done)
    (logged,) = (line for line in done if line.startswith("Logged for "))
    assert all(name in logged for name in KINDS)
    assert all(bench.house.entries(tree) for tree in bench.house.trees())
