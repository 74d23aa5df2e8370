"""Trees found, named and kept inside the garden, as in cases/names.toml."""

from __future__ import annotations

import datetime as dt
import tomllib
from pathlib import Path
from typing import Any

import pytest

from benchmate.fault import UserError
from benchmate.garden.agenda import due
from benchmate.garden.making import new_garden, new_tree
from benchmate.garden.naming import AmbiguousTree, NameRefused, NoSuchTree
from benchmate.garden.record import Place
from benchmate.garden.store import Garden, NoGarden, open_garden

CASES = tomllib.loads((Path(__file__).parent / "cases/names.toml").read_text(encoding="utf-8"))


@pytest.fixture(scope="module")
def planted(tmp_path_factory: pytest.TempPathFactory) -> Garden:
    garden = new_garden(tmp_path_factory.mktemp("garden"), Place())
    for name, species in (
        ("Gatepost", "Acer campestre"), ("Gateway", "Acer palmatum 'Deshojo'"), ("Élan Vital", None), ("No. 7", None),
        ("larch 2", "Larix"), ("twin", None), ("Twin 2", None),
    ):  # fmt: skip
        new_tree(garden, name, species)
    for folder, name in (("larch-2", "old larch"), ("twin-2", "Twin"), ("twin", "Twin")):
        path = garden.path / folder / "tree.toml"
        lines = path.read_text(encoding="utf-8").split("\n")
        path.write_text("\n".join([f'name = "{name}"', *lines[1:]]), encoding="utf-8")
    return open_garden(garden.path)


@pytest.mark.parametrize("case", CASES["find"], ids=lambda case: case["name"])
def test_finding(planted: Garden, case: dict[str, Any]) -> None:
    if "folder" in case:
        assert planted.find(case["name"]).folder == case["folder"]
        return
    with pytest.raises((NoSuchTree, AmbiguousTree)) as caught:
        planted.find(case["name"])
    assert str(caught.value).startswith(case["says"])
    assert "\n" not in str(caught.value)
    if isinstance(caught.value, AmbiguousTree):
        assert len(caught.value.trees) == 2


@pytest.mark.parametrize("case", CASES["new"], ids=lambda case: repr(case["name"]))
def test_naming(garden: Garden, case: dict[str, Any]) -> None:
    new_tree(garden, "Gatepost")
    before = {path for path in garden.path.parent.rglob("*") if ".benchmate" not in path.parts}
    name = case["name"].replace("LONG", "x" * 81)
    if "folder" in case:
        tree = new_tree(garden, name)
        assert (tree.folder, tree.name) == (case["folder"], name.strip())
        assert open_garden(garden.path).find(name) == tree
        return
    with pytest.raises(NameRefused) as caught:
        new_tree(garden, name)
    assert case["says"] in str(caught.value)
    assert str(caught.value).isprintable()
    assert {path for path in garden.path.parent.rglob("*") if ".benchmate" not in path.parts} == before


@pytest.mark.parametrize("case", CASES["taxon"], ids=lambda case: case["taxon"])
def test_trees_of_a_taxon(planted: Garden, case: dict[str, Any]) -> None:
    assert [tree.folder for tree in planted.trees_of(case["taxon"])] == case["folders"]


def test_a_tree_made_or_renamed_elsewhere_is_found_in_the_same_talk(garden: Garden) -> None:
    new_tree(garden, "Anvil")
    assert garden.find("anvil").species is None
    (garden.path / "anvil/tree.toml").write_text('name = "Anvil"\nspecies = "Larix"\n', encoding="utf-8")
    assert garden.find("anvil").species == "Larix"
    (garden.path / "anvil/tree.toml").write_text('name = "Hammer"\n', encoding="utf-8")
    assert garden.find("hammer").folder == "anvil"
    (garden.path / "later").mkdir()
    with pytest.raises(NoSuchTree):
        garden.find("later")
    (garden.path / "later/tree.toml").write_text('name = "Later"\n', encoding="utf-8")
    assert garden.find("later").name == "Later"


def test_a_new_tree_keeps_what_was_told(garden: Garden) -> None:
    told = {"origin": "hedge-collected", "phase": "structure", "health": "healthy", "since": dt.date(2023, 3, 4)}
    tree = new_tree(garden, "Gatepost", "Acer campestre", pot={"length_mm": 300}, size={"height_mm": 410.5}, **told)
    assert open_garden(garden.path).trees() == (tree,)
    assert {key: getattr(tree, key) for key in told} == told


def test_a_folder_left_by_a_kill_is_used_and_a_full_one_is_not(garden: Garden) -> None:
    (garden.path / "anvil").mkdir()
    (garden.path / "barrow").mkdir()
    (garden.path / "barrow/notes.txt").write_text("mine", encoding="utf-8")
    assert new_tree(garden, "Anvil").folder == "anvil"
    assert new_tree(garden, "Barrow").folder == "barrow-2"


@pytest.mark.parametrize(
    ("told", "says"),
    [
        ({"pot": {"length_mm": -3}}, "pot cannot be {'length_mm': -3}"),
        ({"since": "2023"}, "since cannot be '2023'"),
        ({"species": 5}, "species cannot be 5"),
    ],
)
def test_a_new_tree_with_what_cannot_be_is_refused(garden: Garden, told: dict[str, Any], says: str) -> None:
    with pytest.raises(UserError, match=f"no tree made of 'Anvil': {says}".replace("{", r"\{").replace("}", r"\}")):
        new_tree(garden, "Anvil", **told)
    assert garden.trees() == ()


def test_a_garden_is_not_made_twice_or_where_it_cannot_be(garden: Garden, tmp_path: Path) -> None:
    before = (garden.path / "garden.toml").read_bytes()
    with pytest.raises(UserError, match="there is one already"):
        new_garden(garden.path, Place("other"))
    assert (garden.path / "garden.toml").read_bytes() == before
    file = tmp_path / "file"
    file.write_text("", encoding="utf-8")
    for place in (file, file / "below", Path("/proc/none/garden"), Path("a\0b")):
        with pytest.raises(UserError, match=r"^no garden made at [^\n]+$"):
            new_garden(place, Place())
    with pytest.raises(UserError, match="latitude cannot be 95"):
        new_garden(tmp_path / "pole", Place(latitude=95.0))
    assert not (tmp_path / "pole").exists()


@pytest.mark.parametrize("kind", ["missing", "file", "no garden", "zero byte"])
def test_no_garden_is_told_in_one_line(tmp_path: Path, kind: str) -> None:
    path = {"missing": tmp_path / "x", "file": tmp_path / "f", "no garden": tmp_path, "zero byte": Path("a\0b")}[kind]
    (tmp_path / "f").write_text("", encoding="utf-8")
    with pytest.raises(NoGarden, match=r"^no garden at [^\n]+$"):
        open_garden(path)


def test_a_garden_that_goes_away_is_told_in_one_line(garden: Garden, tmp_path: Path) -> None:
    tree = new_tree(garden, "Anvil")
    garden.path.rename(tmp_path / "moved")
    for use in (lambda: garden.trees(), lambda: garden.find("anvil"), lambda: due(garden, dt.date(2026, 6, 14))):
        with pytest.raises(NoGarden, match=r"^no garden at [^\n]+ any more: [^\n]+$"):
            use()
    assert garden.entries(tree) == ()


def test_a_place_is_told_later_and_comments_stay(garden: Garden) -> None:
    from benchmate.garden.making import tell_place

    path = garden.path / "garden.toml"
    path.write_text(
        '# mine\n[place]\nname = "Yard"  # behind the house\nlatitude = 52.1\n\n[more]\na = 1\n', encoding="utf-8"
    )
    place = tell_place(garden, latitude=-35.25, last_frost=(10, 28), name="Shed # 2")
    assert place == Place("Shed # 2", -35.25, None, (10, 28))
    text = path.read_text(encoding="utf-8")
    assert text.startswith("# mine\n[place]\nlast_frost = ")
    assert "# behind the house\n" in text and text.endswith("\n\n[more]\na = 1\n")
    with pytest.raises(UserError, match="last_frost cannot be '02-30'"):
        tell_place(garden, last_frost=(2, 30))
    with pytest.raises(UserError, match="a place has no altitude"):
        tell_place(garden, altitude=3)
    path.write_text('[place]\nname = """\nlatitude = 5\n"""\n', encoding="utf-8")
    with pytest.raises(UserError, match="change it by hand"):
        tell_place(garden, latitude=50.0)
    assert path.read_text(encoding="utf-8") == '[place]\nname = """\nlatitude = 5\n"""\n'
