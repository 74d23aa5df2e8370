"""Whatever is said and whatever the garden's files hold: an answer or one plain line, never a traceback.

A few hundred tries here, FUZZ=3000 for more; `python tests/holding/fuzz_rounds.py statements 100000` for the long run.
"""

import os
import random
import shutil
from pathlib import Path

import pytest
from damaged import Damage, run
from fuzzed import ON, statement, vocabulary, wrong_answer, wrong_hearing
from holding_files import DEMO, ROOT

from benchmate.garden import check_garden
from benchmate.talk.bench import Bench
from benchmate.talk.house import House

TRIES = int(os.environ.get("FUZZ", "300"))
SEED = int(os.environ.get("FUZZ_SEED", "2026"))


def test_any_statement_has_an_answer_or_one_plain_line(tmp_path):
    """One talk after another, each with a context of its own growing; one in two is dry."""
    garden = tmp_path / "garden"
    shutil.copytree(DEMO, garden, ignore=shutil.ignore_patterns(".benchmate"))
    house = House(garden)
    words = vocabulary(house)
    chance = random.Random(SEED)
    bench = Bench(house, ON)
    for number in range(TRIES):
        if number % 40 == 0:
            bench = Bench(house, ON, dry=number % 80 == 0)
        said = statement(chance, words)
        trouble = wrong_answer(bench, said) if number % 2 else wrong_hearing(house, said)
        assert not trouble, f"{said!r} (try {number}): {trouble}"
    assert check_garden(garden) == []


ONCE_A_SLIP = [
    "what wire for a 1" + "0" * 400 + " mm branch",
    "i like 1" + "0" * 400 + " the sound of the",
    "bend the 1/" + "9" * 400 + " inch branch",
    "9" * 400 + "/27% of the leaves",
    "feed it 10-10-" + "9" * 400,
    "shorten the " + "9" * 400 + "th branch",
    "how thick would the parent be for 3, 4 and 0 cm",
]


@pytest.mark.parametrize("said", ONCE_A_SLIP, ids=lambda said: said[:20])
def test_what_was_once_a_slip_has_an_answer(said):
    house = House(DEMO)
    assert not wrong_hearing(house, said)
    assert not wrong_answer(Bench(house, ON, dry=True), said)


def test_any_damage_to_a_garden_is_told_in_one_plain_line(tmp_path, monkeypatch):
    """Each try damages one file or two of a garden of two trees; the other tree stays as it was."""
    monkeypatch.chdir(tmp_path)
    damage = Damage(tmp_path / "garden")
    for number in range(max(1, TRIES // 8)):
        trouble = damage.wrong(random.Random(f"{SEED} {number}"))
        assert not trouble, f"try {number}: {trouble}"


def test_the_command_line_takes_any_arguments():
    """Wrong usage is status 2 with the usage, a wrong value status 1 with one line."""
    chance = random.Random(SEED)
    bits = [
        *("say", "hear", "due", "record", "rules", "show", "--on", "--json", "--tree", "--garden", "--days", "--"),
        *(
            "2026-06-14",
            "2026-02-30",
            "-1",
            "Ratchet",
            "",
            "\x00",
            "é",
            str(DEMO),
            str(ROOT / "nowhere"),
            "--file",
            ".",
        ),
    ]
    for _ in range(max(20, TRIES // 10)):
        words = [chance.choice(bits) for _ in range(chance.randint(0, 6))]
        if not {"say", "hear", "due", "record", "rules"} & set(words):
            continue  # the talk has tests of its own
        status, _, err = run([*words, *(["--dry"] if "say" in words else [])])
        assert status in (0, 1, 2), (words, err)
        assert "Traceback" not in err and "slip in benchmate" not in err, (words, err)


def test_a_folder_where_a_file_should_be(tmp_path):
    home = tmp_path / "garden"
    shutil.copytree(DEMO, home, ignore=shutil.ignore_patterns(".benchmate"))
    for name in ("ratchet/journal.toml", "crag/tree.toml"):
        Path(home / name).unlink()
        Path(home / name).mkdir()
    for words in (
        ["due"],
        ["say", "what now", "--tree", "Ratchet"],
        ["say", "fed it", "--tree", "Crag"],
        ["record", "Ratchet"],
    ):
        status, _, err = run([*words, "--garden", str(home), "--on", ON.isoformat()])
        assert status in (0, 1) and "slip" not in err and "Traceback" not in err, err
