"""Damaged files of every kind, thousands of them: no traceback, and what is whole is read.

`BENCHMATE_ROUNDS=50 pytest tests/garden/test_damage.py` looks at 20,000 damaged files.
"""

from __future__ import annotations

from pathlib import Path

import pytest
from entries import ROUNDS
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st
from orchard import entries_of

from benchmate.garden.agenda import due
from benchmate.garden.check import check_garden
from benchmate.garden.making import new_garden, new_tree
from benchmate.garden.record import Entry, Place
from benchmate.garden.store import Garden, open_garden
from benchmate.garden.toml_text import entry_text

WORDS = {"phase": ["structure", "trunk"], "health": ["strong", "healthy", "weak"], "work": ["repot", "wire", "check"]}
ENTRIES = entries_of("damage", 6)
BLOCKS = [entry_text(entry).encode() for entry in ENTRIES]
JOURNAL = b"\n".join(BLOCKS)
BY_HAND = b"# mine\r\n\r\n" + b"\r\n".join(
    b'[[entry]]\r\nid = "2026-01-0%d"\r\nat = 2026-01-0%d\r\nkind = "note"\r\nsaid = "\xc3\xa9lan"\r\n' % (n, n)
    for n in range(1, 7)
)
PLACE = b'[place]\nname = "Yard"\nlatitude = 52.1\nlast_frost = "04-28"\nfirst_frost = "10-18"\n'
TREE = b'name = "Gatepost"\nspecies = "Acer campestre"\nsince = 2023-03-04\n\n[pot]\nlength_mm = 300\n'
FILES = {
    "garden.toml": PLACE,
    "gatepost/tree.toml": TREE,
    "gatepost/journal.toml": JOURNAL,
    "gatepost/journal-b.toml": BY_HAND,
}
JUNK = (
    b'"',
    b"'",
    b"\n",
    b"[",
    b"]",
    b"{",
    b"=",
    b"#",
    b"\0",
    b"\xff",
    b"\\",
    b"\r",
    b"[[entry]]\n",
    b"9" * 5000,
    b"[" * 3000,
)
MANY = settings(
    max_examples=100 * ROUNDS,
    deadline=None,
    suppress_health_check=[HealthCheck.function_scoped_fixture, HealthCheck.too_slow, HealthCheck.data_too_large],
)


@st.composite
def damaged(draw: st.DrawFn, whole: bytes) -> bytes:
    """The bytes changed, put in, taken out, doubled or cut off, in up to four places."""
    data = bytearray(whole)
    for _ in range(draw(st.integers(1, 4))):
        at = draw(st.integers(0, len(data)))
        junk = draw(st.binary(max_size=4) | st.sampled_from(JUNK))
        match draw(st.sampled_from(("change", "put in", "take out", "cut off", "double"))):
            case "change":
                data[at : at + len(junk)] = junk
            case "put in":
                data[at:at] = junk
            case "take out":
                del data[at : at + draw(st.integers(1, 60))]
            case "cut off":
                del data[at:]
            case "double":
                data[at:at] = data[at : at + 80]
    return bytes(data)


@pytest.fixture(scope="module")
def garden(tmp_path_factory: pytest.TempPathFactory) -> Garden:
    made = new_garden(tmp_path_factory.mktemp("worn"), Place())
    new_tree(made, "Gatepost")
    lay(made, {})
    return made


def lay(garden: Garden, changed: dict[str, bytes]) -> None:
    for name, data in (FILES | changed).items():
        (garden.path / name).write_bytes(data)


def read_all(path: Path) -> tuple[Garden, list[str]]:
    """Everything that reads a garden; gives the faults told."""
    faults = check_garden(path, WORDS)
    garden = open_garden(path)
    for tree in garden.trees():
        garden.entries(tree)
        garden.tail(tree, 3)
        garden.follow_ups(tree)
    due(garden, ENTRIES[-1].day, 30)
    garden.glances()
    told = list(map(str, (*faults, *garden.faults, garden.place)))
    assert all(line.isprintable() for line in told)
    return garden, told


@MANY
@given(name=st.sampled_from(sorted(FILES)), data=st.data())
def test_damage_to_one_file_harms_no_other(garden: Garden, name: str, data: st.DataObject) -> None:
    broken = data.draw(damaged(FILES[name]))
    lay(garden, {name: broken})
    read, _ = read_all(garden.path)
    (tree,) = read.trees()
    ids = [entry.id for entry in read.entries(tree)]
    if name != "gatepost/journal.toml":
        assert [own for own in ids if own in {entry.id for entry in ENTRIES}] == [entry.id for entry in ENTRIES]
    if name != "gatepost/journal-b.toml":
        assert sum(own.startswith("2026-01-0") for own in ids) >= 6


def words_of(entry: Entry) -> str:
    """What an entry says; keys below its closing one may have been added by hand, and count as well."""
    return repr((entry.id, entry.at, entry.kind, entry.said, entry.facts, entry.work, entry.follow, entry.reason))


@MANY
@given(broken=damaged(JOURNAL))
def test_entries_that_are_whole_are_read_whatever_stands_beside_them(garden: Garden, broken: bytes) -> None:
    lay(garden, {"gatepost/journal.toml": broken})
    read, told = read_all(garden.path)
    entries = {words_of(entry) for entry in read.entries(read.trees()[0])}
    for entry, block in zip(ENTRIES, BLOCKS, strict=True):
        if broken.startswith(block) or b"\n" + block in broken:
            assert words_of(entry) in entries
    if not any(b"\n" + block in b"\n" + broken for block in BLOCKS) and b"[[entry]]" in broken:
        assert told


@MANY
@given(broken=damaged(JOURNAL))
def test_the_next_entry_goes_in_whatever_the_journal_holds(garden: Garden, broken: bytes) -> None:
    lay(garden, {"gatepost/journal.toml": broken})
    for torn in (garden.path / "gatepost").glob("journal.torn-*"):
        torn.unlink()
    opened = open_garden(garden.path)
    tree = opened.trees()[0]
    before = opened.entries(tree)
    new = opened.append(tree, Entry("", ENTRIES[0].at, "note", "and on it goes"))
    after = open_garden(garden.path).entries(tree)
    assert [entry for entry in after if entry != new] == list(before)
    assert new in after
    kept = (garden.path / "gatepost/journal.toml").read_bytes()
    aside = b"".join(torn.read_bytes() for torn in (garden.path / "gatepost").glob("journal.torn-*"))
    assert kept.startswith(broken[: len(broken) - len(aside)])
    assert broken.endswith(aside)


@MANY
@given(name=st.sampled_from(("trees.json", "index.json")), data=st.data())
def test_a_damaged_index_is_made_again(garden: Garden, name: str, data: st.DataObject) -> None:
    lay(garden, {})
    path = garden.path / ".benchmate" / name
    _, wanted = read_all(garden.path)
    path.write_bytes(
        data.draw(damaged(path.read_bytes())) if data.draw(st.booleans()) else data.draw(st.binary(max_size=99))
    )
    read, told = read_all(garden.path)
    assert told == wanted
    assert len(read.entries(read.find("gatepost"))) == 12
