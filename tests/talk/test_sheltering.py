"""Which trees need shelter: those that do, where to and why; the others are named as left. Asked in many words, north
and south, and told by a cold night alone."""

import datetime as dt

import pytest

from benchmate.garden import new_garden
from benchmate.garden.record import Place
from benchmate.talk.bench import Bench
from benchmate.talk.house import House

KINDS = {
    "Jade": "Ficus microcarpa",
    "Olive": "Olea europaea",
    "Trident": "Acer buergerianum",
    "Elmo": "Ulmus parvifolia",
    "Larry": "Larix decidua",
    "Scotty": "Pinus sylvestris",
    "Oakley": "Quercus robur",
}
PLACES = {
    "north": Place("North", 52.2, None, (4, 28), (10, 18)),
    "south": Place("South", -37.8, None, (9, 5), (6, 10)),
}


@pytest.fixture
def garden(tmp_path, request):
    home = tmp_path / "garden"
    place = PLACES[request.param]
    new_garden(home, place)
    for name, species in KINDS.items():
        folder = home / name.lower()
        folder.mkdir()
        sheet = f'name = "{name}"\nspecies = "{species}"\nphase = "structure"\nhealth = "healthy"\n'
        (folder / "tree.toml").write_text(sheet, encoding="utf-8")
    return home


def needing(answer):
    """The names in the lines of those that are brought somewhere."""
    lines = [line for line in answer.says[1:] if line.startswith(("Into ", "Under ", "Onto "))]
    return {name for line in lines for name in KINDS if name in line.split(". ")[0]}


ALL = set(KINDS)
ROWS = [
    # garden, day, what was said, the trees that need it
    ("north", "2026-01-10", "hard frost tonight, minus eight, what should I bring in", ALL),
    ("north", "2026-01-10", "minus 8 forecast", ALL),
    ("north", "2026-01-10", "which trees want frost protection when it drops to minus 5", ALL),
    ("north", "2026-01-10", "what do I need to cover, it's minus 3 tonight", {"Jade", "Olive"}),
    ("north", "2026-01-10", "frost tonight, who needs fleece", {"Jade", "Olive"}),
    ("north", "2026-01-10", "which ones need protecting tonight", {"Jade", "Olive"}),
    ("north", "2026-01-10", "is there anything I should bring in tonight", {"Jade", "Olive"}),
    ("north", "2026-01-10", "which of my trees should be in the greenhouse", {"Jade", "Olive"}),
    ("north", "2026-01-10", "minus nine forecast tonight, which ones come in and which can stay out", ALL),
    ("north", "2026-01-10", "which ones can stay out tonight", {"Jade", "Olive"}),
    ("north", "2026-01-10", "which trees stay out all winter", {"Jade", "Olive"}),
    ("north", "2026-01-10", "which of my trees are hardy to minus ten", ALL),
    ("north", "2026-01-10", "which trees can take the frost", {"Jade", "Olive"}),
    ("north", "2026-01-10", "anything tender I should worry about tonight?", {"Jade", "Olive"}),
    ("north", "2026-10-01", "should I start bringing things in, nights are down to 9", {"Jade", "Olive"}),
    ("north", "2026-07-01", "which trees need shelter tonight", set()),
    ("north", "2026-07-01", "do any of them need covering tonight", set()),
    ("south", "2026-12-05", "which trees need shelter tonight", set()),
    ("south", "2026-12-05", "what needs to come inside tonight", set()),
    ("south", "2026-05-25", "coming into winter, which ones need cover here? we hardly get a frost", {"Jade"}),
    ("south", "2026-05-25", "it got down to 4 last night on the bench", {"Jade"}),
    ("south", "2026-05-25", "the nights are dropping to 3 or 4 now, do I need to bring anything in", {"Jade"}),
    ("south", "2026-07-02", "minus 2 tonight, what should come in", {"Jade", "Olive"}),
]


@pytest.mark.parametrize(("garden", "on", "said", "names"), ROWS, indirect=["garden"], ids=[row[2] for row in ROWS])
def test_only_those_that_need_it_are_brought_in_with_a_reason(garden, on, said, names):
    answer = Bench(House(garden), dt.date.fromisoformat(on), talking=True).answer(said)
    assert needing(answer) == names, answer.says
    assert all(line.count(". ") >= 1 for line in answer.says[1:] if line.startswith(("Into ", "Under ", "Onto ")))
    told = " ".join(answer.says)
    assert all(name in told for name in KINDS) or "No tree here needs shelter" in told
    assert not answer.logged


@pytest.mark.parametrize("garden", ["north"], indirect=True)
def test_the_tropical_one_goes_where_it_is_warm_and_the_hardy_ones_to_the_ground(garden):
    said = "hard frost tonight, minus eight, what should I bring in"
    answer = Bench(House(garden), dt.date(2026, 1, 10), talking=True).answer(said)
    warm, free, *covers, ground = (line for line in answer.says[1:] if line.startswith(("Into ", "Under ", "Onto ")))
    assert "room" in warm and "Jade" in warm and "free of frost" in free and "Olive" in free
    assert {"Elmo", "Trident"} <= {name for line in covers for name in KINDS if name in line}
    assert "Onto the ground" in ground and all(name in ground for name in ("Larry", "Scotty", "Oakley"))


@pytest.mark.parametrize("garden", ["north"], indirect=True)
def test_the_degree_told_just_before_is_kept(garden):
    talk = Bench(House(garden), dt.date(2026, 1, 10), talking=True)
    talk.answer("minus 8 tonight")
    assert needing(talk.answer("which ones need protecting tonight")) == ALL


@pytest.mark.parametrize("garden", ["south"], indirect=True)
@pytest.mark.parametrize(
    "said", ["what do I cover the pot with", "which tree should go inside the big pot", "cover it"]
)
def test_other_questions_are_not_taken_for_it(garden, said):
    answer = Bench(House(garden), dt.date(2026, 5, 25), talking=True).answer(said)
    assert not any("need shelter" in line or "needs shelter" in line for line in answer.says)


DEGREES = [
    ("nights are down to 6", 6),
    ("it got down to 4 last night on the bench", 4),
    ("nights of 4", 4),
    ("lows of 3 forecast", 3),
    ("nights are around 7 now", 7),
    ("overnight low of minus 2", -2),
    ("temperatures dropping to -3 tonight", -3),
    ("tonight down to 2", 2),
    ("the thermometer read 3 this morning", 3),
    ("overnight it fell to minus 5", -5),
    ("we had minus 6 last night", -6),
    ("the nights are dropping to 3 or 4 now", 3),
    ("nights are getting down to 41 now", 5),
    ("it went down to 2 below freezing last night", -2),
    ("cut it down to 6 last night", None),
    ("the night was cold, cut it to 3 leaves", None),
    ("took it down to 4 leaves overnight", None),
]


@pytest.mark.parametrize(("said", "degrees"), DEGREES, ids=[row[0] for row in DEGREES])
def test_a_night_is_told_by_its_degree_alone(bare_bench, said, degrees):
    reading = bare_bench.house.hear(said, dt.date(2026, 11, 10))
    assert reading.measures.get("temperature_c") == degrees
    assert degrees is None or not reading.work
