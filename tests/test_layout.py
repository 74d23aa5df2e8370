"""Which room may import which: a new arrow is an edit of this table. And how long a file may grow."""

import ast
from pathlib import Path

import pytest

PACKAGE = Path(__file__).resolve().parents[1] / "benchmate"

# room -> what it may import. "room.file" is that file alone: the values that cross a door.
MAY_IMPORT = {
    "value": set(),
    "fault": set(),
    "reckoning": set(),
    "rulebase": {"fault"},
    "hearing": {"fault", "rulebase"},
    "garden": {"fault", "hearing.reading"},
    "seasons": {"fault", "reckoning", "garden.record"},
    "practice": {"fault", "rulebase", "hearing", "reckoning", "seasons", "garden.record", "garden.potted"},
    "planning": {"fault", "practice", "seasons", "reckoning", "hearing.reading", "garden"},
    "telling": {"fault", "hearing.reading", "practice.advice", "garden.record", "garden.potted"},
    "voice": {"fault", "rulebase", "hearing", "telling"},
    "talk": {
        "fault",
        "rulebase",
        "hearing",
        "reckoning",
        "seasons",
        "practice",
        "planning",
        "garden",
        "telling",
        "voice",
    },
    "cli": {"fault", "talk", "telling"},
    "__main__": {"cli"},
}
# How values are made: every room but reckoning, which stands alone.
EVERY_ROOM = {"value"}
# ... and what a room may import to name a type, which costs nothing at run time and calls nothing.
MAY_NAME = {
    "telling": {"garden", "practice.book", "practice.explain", "practice.what_if", "planning"},
}
LONGEST = 300
# Files beyond that, each with the reason why it holds one idea.
LONGER = {
    "reckoning/table.py": "one row a figure, nothing else",
}


def modules():
    return sorted(PACKAGE.rglob("*.py"))


def room_of(path):
    parts = path.relative_to(PACKAGE).parts
    return parts[0] if len(parts) > 1 else path.stem


def imported(path):
    """(module without "benchmate.", whether only to name a type) of every import of the project's own."""
    tree = ast.parse(path.read_text(encoding="utf-8"))
    typing = [node for node in ast.walk(tree) if isinstance(node, ast.If) and "TYPE_CHECKING" in ast.dump(node.test)]
    only_types = {id(inner) for node in typing for inner in ast.walk(node)}
    package = ["benchmate", *path.relative_to(PACKAGE).parts[:-1]]
    for node in ast.walk(tree):
        if isinstance(node, ast.Import):
            names = [alias.name for alias in node.names]
        elif isinstance(node, ast.ImportFrom):
            base = package[: len(package) - node.level + 1] if node.level else []
            names = [".".join([*base, *([node.module] if node.module else [])])]
        else:
            continue
        for name in names:
            if name == "benchmate" or not name.startswith("benchmate."):
                continue
            yield name.removeprefix("benchmate."), id(node) in only_types


def allowed(room, module, only_type):
    granted = MAY_IMPORT[room] | (set() if room == "reckoning" else EVERY_ROOM)
    granted |= MAY_NAME.get(room, set()) if only_type else set()
    return module.split(".")[0] == room or any(module == one or module.startswith(one + ".") for one in granted)


@pytest.mark.parametrize("path", modules(), ids=lambda path: str(path.relative_to(PACKAGE)))
def test_arrows_go_one_way(path):
    room = room_of(path)
    if path.relative_to(PACKAGE).parts == ("__init__.py",):
        return
    assert room in MAY_IMPORT, f"{room} is a new room: give it a line in the table"
    wrong = [module for module, only_type in imported(path) if not allowed(room, module, only_type)]
    assert not wrong, f"{path.relative_to(PACKAGE)} imports {wrong}, which {room} may not"


def test_the_table_has_no_circle():
    """Leaving out single files of values, no room reaches itself."""
    whole = {room: {one for one in granted if "." not in one} for room, granted in MAY_IMPORT.items()}
    for start in whole:
        seen, todo = set(), list(whole[start])
        while todo:
            room = todo.pop()
            assert room != start, f"{start} reaches itself"
            if room not in seen:
                seen.add(room)
                todo += whole.get(room, ())


@pytest.mark.parametrize("path", modules(), ids=lambda path: str(path.relative_to(PACKAGE)))
def test_a_file_is_one_idea(path):
    name = str(path.relative_to(PACKAGE))
    lines = len(path.read_text(encoding="utf-8").splitlines())
    assert lines <= LONGEST or name in LONGER, f"{name} has {lines} lines: what second idea is in it?"


def test_the_list_of_longer_files_is_no_longer_than_it_must_be():
    short = [name for name in LONGER if len((PACKAGE / name).read_text(encoding="utf-8").splitlines()) <= LONGEST]
    assert not short
